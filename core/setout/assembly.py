"""From divisions to the panels of the room: marks, faces, mounting points and the timber they land on."""

from collections.abc import Hashable, Iterable, Iterator, Mapping
from dataclasses import dataclass
from functools import cached_property, partial
from itertools import islice
from typing import cast

import numpy as np

from core.room import wall_letter
from core.setout.bodies import BuiltTo
from core.setout.division import Division
from core.setout.framing import FrameDesign, design_frame
from core.setout.naming import Names, names_of
from core.setout.plan import Plan
from core.setout.problem import Problem
from core.setout.result import Panel, Timber
from core.setout.standing import Batch, Landed, Layout, Points, Standing, laid_out, stood
from core.setout.workshop import Workshop


@dataclass(frozen=True)
class WallRow:
    """The panels whose marks name one wall and one row, in order of place, and what they add up to."""

    panels: tuple[Panel, ...]
    standing: tuple[Standing, ...]

    @cached_property
    def doubtful(self) -> tuple[tuple[Panel, Standing], ...]:
        """The panels that are worth a check."""
        return tuple((p, s) for p, s in zip(self.panels, self.standing, strict=True) if s.is_doubtful)

    @cached_property
    def bare_mounts(self) -> int:
        """Mounting points with no timber behind them."""
        return sum(standing.bare_mounts for standing in self.standing)


@dataclass(frozen=True)
class Assembly:
    """The room put together: its wall rows by wall and row, the names of its designs, and every wall's timber."""

    wall_rows: tuple[WallRow, ...]
    names: Mapping[BuiltTo, str]
    timber: tuple[Timber, ...]

    @property
    def panels(self) -> tuple[Panel, ...]:
        """All panels in order of wall, row and place."""
        return tuple(panel for wall_row in self.wall_rows for panel in wall_row.panels)


@dataclass(frozen=True, slots=True)
class _Frame:
    """A wall's frame design with a number that tells it from others."""

    serial: int
    design: FrameDesign


def assemble(problem: Problem, plan: Plan, workshop: Workshop) -> Assembly:
    """Name, mark and place every panel of a plan."""
    return _Assembler(problem, plan, workshop).assembly()


class _Assembler:
    def __init__(self, problem: Problem, plan: Plan, workshop: Workshop) -> None:
        self._problem = problem
        self._plan = plan
        self._workshop = workshop
        self._frames = [self._frame(wall) for wall in range(problem.room.wall_count)]
        self._landed: dict[tuple[int, int], Landed] = {}
        """What the mounting points land on that a layout, by its serial, has on a wall."""

    def assembly(self) -> Assembly:
        rows = self._plan.divisions
        names = names_of((design for division in rows for design in division.built), self._problem.room.kit)
        keys = {(wall, row): self._key(wall, row, names) for wall in range(len(self._frames)) for row in range(len(rows))}
        found = {place: self._workshop.walls.known(key) for place, key in keys.items()}
        fresh = {place: self._layouts(*place) for place, wall_row in found.items() if wall_row is None}
        self._look_behind(dict.fromkeys(layout for layouts in fresh.values() for layout in layouts))
        for place, layouts in fresh.items():
            found[place] = self._workshop.walls.get(keys[place], partial(self._wall_row, place, layouts, names))
        wall_rows = cast(tuple[WallRow, ...], tuple(found.values()))
        timber = tuple(t for frame in self._frames for t in frame.design.members)
        return Assembly(wall_rows, names.by_design, timber)

    def _key(self, wall: int, row: int, names: Names) -> Hashable:
        """What one wall's panels of a row depend on."""
        division, before, after = self._plan.divisions[row], self._problem.before(wall), self._problem.after(wall)
        panels = division.walls[wall].serial, division.walls[after].serial
        frames = self._frames[before].serial, self._frames[wall].serial, self._frames[after].serial
        return "wall row", wall, row, division.view.row.z_plates, panels, frames, names.signs

    def _look_behind(self, layouts: Iterable[Layout]) -> None:
        """Find out what all mounting points of layouts land on.

        Every wall is asked once, as a question takes about as long for one panel's points as for a whole wall's; what is known
        already is not asked for again.
        """
        asked: dict[int, dict[int, Points]] = {}
        for layout in layouts:
            for wall, points in ((self._problem.before(layout.wall), layout.before), (layout.wall, layout.here)):
                known = self._workshop.walls.known(self._landed_key(layout.serial, wall)) if len(points.x_pitches) else ()
                if known is None:
                    asked.setdefault(wall, {})[layout.serial] = points
                else:
                    self._landed[layout.serial, wall] = cast(Landed, known)
        kit = self._problem.room.kit
        for wall, by_layout in asked.items():
            x_pitches = np.concatenate([points.x_pitches for points in by_layout.values()])
            z_half_plates = np.concatenate([points.z_half_plates for points in by_layout.values()])
            xs_mm = self._problem.shell.walls[wall].start_mm + x_pitches * kit.pitch_mm
            members = iter(self._frames[wall].design.behind(xs_mm, z_half_plates / 2 * kit.plate_mm))
            for serial, points in by_layout.items():
                landed = tuple(islice(members, len(points.x_pitches)))
                self._landed[serial, wall] = landed
                self._workshop.walls.put(self._landed_key(serial, wall), landed)

    def _landed_key(self, layout: int, wall: int) -> Hashable:
        return "landed", layout, self._frames[wall].serial

    def _wall_row(self, place: tuple[int, int], layouts: Iterable[Layout], names: Names) -> WallRow:
        """One wall's panels of a row: its own candidates', and flat ones that the next corner's candidate left on it."""
        wall, row = place
        batches = dict.fromkeys(self._batch(layout) for layout in layouts)
        mine = [batch for batch in batches if any(s.wall == wall for s in batch.standing)]
        key = "batches", wall, row, tuple(batch.serial for batch in mine), names.signs

        def make() -> WallRow:
            standing = [s for batch in mine for s in batch.standing if s.wall == wall]
            # Outlines begin at their lowest corner.
            ordered = tuple(sorted(standing, key=lambda s: (s.left, s.faces[0].outline[0][1])))
            return WallRow(tuple(self._panels(wall, row, ordered, names.by_design)), ordered)

        return self._workshop.walls.get(key, make)

    def _panels(self, wall: int, row: int, ordered: tuple[Standing, ...], names: Mapping[BuiltTo, str]) -> Iterator[Panel]:
        begin = f"{wall_letter(wall)}-{row + 1}-"
        for place, standing in enumerate(ordered, start=1):
            body = standing.body
            yield Panel(
                mark=f"{begin}{place:02d}",
                design=names[body.built_to],
                kind=body.built_to.kind,
                row=row,
                minutes=self._workshop.tariff.minutes(body.build + body.handling),
                faces=standing.faces,
            )

    def _layouts(self, wall: int, row: int) -> tuple[Layout, Layout, Layout]:
        """What stands on a wall in a row: around its left corner, flat on it, and around its right corner."""
        division = self._plan.divisions[row]
        sides = (wall, True), (wall, False), (self._problem.after(wall), True)
        first, flat, last = (self._layout(division, on_wall, corner=corner) for on_wall, corner in sides)
        return first, flat, last

    def _layout(self, division: Division, wall: int, *, corner: bool) -> Layout:
        key = ("layout", division.walls[wall].serial, division.view.row.z_plates, corner)
        return self._workshop.walls.get(key, lambda: laid_out(self._problem, division, wall, self._workshop, corner=corner))

    def _batch(self, layout: Layout) -> Batch:
        """The panels of a layout, with what their points land on."""
        landed = self._landed[layout.serial, self._problem.before(layout.wall)], self._landed[layout.serial, layout.wall]
        return self._workshop.walls.get(("batch", layout.serial, landed), lambda: stood(layout, landed, self._workshop))

    def _frame(self, wall: int) -> _Frame:
        """A wall's timber: as it stands, or designed to the panels."""
        room, backing = self._problem.room, self._problem.backings[wall]
        start, pitch = self._problem.shell.walls[wall].start_mm, room.kit.pitch_mm
        joints = () if backing else tuple(division.joints[wall] for division in self._plan.divisions)
        openings = tuple(o for o in room.openings if o.wall == wall)
        measures = start, room.wall_length_mm(wall), room.frame_head_mm

        def make() -> _Frame:
            if backing is not None:
                return _Frame(self._workshop.next_serial(), FrameDesign(backing.members, backing.edge_mm, None))
            joints_mm = [[start + x * pitch for x in row] for row in joints]
            return _Frame(self._workshop.next_serial(), design_frame(room, wall, joints_mm))

        return self._workshop.walls.get(("frame", wall, room.frame(wall), measures, openings, joints), make)
