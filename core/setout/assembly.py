"""From divisions to the panels of the room: marks, faces, mounting points and the timber they land on."""

from collections import Counter
from collections.abc import Iterator
from dataclasses import dataclass
from functools import cached_property

from core.room import wall_letter
from core.setout.bodies import BuiltTo, ShapeKey
from core.setout.division import Division
from core.setout.framing import FrameDesign, design_frame
from core.setout.naming import names_of
from core.setout.planning import Plan
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
    def designs(self) -> Counter[BuiltTo]:
        """How many panels are built to each design."""
        return Counter(standing.body.built_to for standing in self.standing)

    @cached_property
    def doubtful(self) -> tuple[tuple[Panel, Standing], ...]:
        """The panels that are worth a check."""
        return tuple((p, s) for p, s in zip(self.panels, self.standing, strict=True) if s.is_doubtful)

    @cached_property
    def units(self) -> dict[str, int]:
        """Sums of the cost terms of its panels in whole units, ``blocking`` counted in mounting points."""
        bodies = [standing.body for standing in self.standing]
        return {
            "build": sum(body.build for body in bodies),
            "handling": sum(body.handling for body in bodies),
            "sliver": sum(body.sliver for body in bodies),
            "weak": sum(body.weak for body in bodies),
            "blocking": sum(standing.bare_mounts for standing in self.standing),
        }


@dataclass(frozen=True)
class Assembly:
    """The room put together: its wall rows by wall and row, the names of its designs, and every wall's timber."""

    wall_rows: tuple[WallRow, ...]
    names: dict[BuiltTo, str]
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

    def assembly(self) -> Assembly:
        walls = range(self._problem.room.wall_count)
        flats = [[self._batch(division, wall, corner=False) for wall in walls] for division in self._plan.divisions]
        corners = [[self._batch(division, wall, corner=True) for wall in walls] for division in self._plan.divisions]
        names = names_of((d for row in (*flats, *corners) for batch in row for d in batch.designs), self._problem.room.kit)
        wall_rows = tuple(
            self._wall_row(wall, row, (corners[row][wall], flats[row][wall], corners[row][(wall + 1) % len(walls)]), names)
            for wall in walls
            for row in range(len(flats))
        )
        timber = tuple(t for frame in self._frames for t in frame.design.members)
        return Assembly(wall_rows, names, timber)

    def _wall_row(self, wall: int, row: int, batches: tuple[Batch, ...], names: dict[BuiltTo, str]) -> WallRow:
        """One wall's panels of a row: its own candidates', and flat ones that the next corner's candidate left on it."""
        shaped = frozenset(names[d] for batch in batches for d in batch.designs if isinstance(d.key, ShapeKey))
        key = ("wall row", wall, row, tuple(batch.serial for batch in batches), shaped)

        def make() -> WallRow:
            standing = [s for batch in dict.fromkeys(batches) for s in batch.standing if s.wall == wall]
            ordered = tuple(sorted(standing, key=lambda s: (s.left, s.faces[0].bottom)))
            return WallRow(tuple(self._panels(wall, row, ordered, names)), ordered)

        return self._workshop.walls.get(key, make)

    def _panels(self, wall: int, row: int, ordered: tuple[Standing, ...], names: dict[BuiltTo, str]) -> Iterator[Panel]:
        for place, standing in enumerate(ordered, start=1):
            body = standing.body
            yield Panel(
                mark=f"{wall_letter(wall)}-{row + 1}-{place:02d}",
                design=names[body.built_to],
                kind=body.built_to.kind,
                row=row,
                minutes=self._workshop.tariff.minutes(body.build + body.handling),
                faces=standing.faces,
            )

    def _batch(self, division: Division, wall: int, *, corner: bool) -> Batch:
        """What stands for the candidate around a wall's left corner, or for the flat ones on the wall."""
        panels, row = division.walls[wall], division.view.row
        before = self._problem.before(wall)
        key = ("layout", panels.serial, row.z_plates, corner)
        layout = self._workshop.walls.get(key, lambda: laid_out(self._problem, division, wall, self._workshop, corner=corner))
        landed = self._landed(layout, before, layout.before), self._landed(layout, wall, layout.here)
        return self._workshop.walls.get(("batch", layout.serial, landed), lambda: stood(layout, landed, self._workshop))

    def _landed(self, layout: Layout, wall: int, points: Points) -> Landed:
        """What the mounting points that a layout has on one wall land on."""
        if not len(points.x_pitches):
            return ()
        frame = self._frames[wall]

        def look() -> Landed:
            kit = self._problem.room.kit
            xs_mm = self._problem.shell.walls[wall].start_mm + points.x_pitches * kit.pitch_mm
            return frame.design.behind(xs_mm, points.z_half_plates / 2 * kit.plate_mm)

        return self._workshop.walls.get(("landed", layout.serial, wall, frame.serial), look)

    def _frame(self, wall: int) -> _Frame:
        """A wall's timber: as it stands, or designed to the panels."""
        room, backing = self._problem.room, self._problem.backings[wall]
        start, pitch = self._problem.shell.walls[wall].start_mm, room.kit.pitch_mm
        joints = () if backing else tuple(division.joints[wall] for division in self._plan.divisions)
        openings = tuple(o for o in room.openings if o.wall == wall)
        measures = start, room.wall_length_mm(wall), room.clad_height_mm

        def make() -> _Frame:
            if backing is not None:
                return _Frame(self._workshop.next_serial(), FrameDesign(backing.members, backing.edge_mm, None))
            joints_mm = [[start + x * pitch for x in row] for row in joints]
            return _Frame(self._workshop.next_serial(), design_frame(room, wall, joints_mm))

        return self._workshop.walls.get(("frame", wall, room.frame(wall), measures, openings, joints), make)
