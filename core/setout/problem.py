"""One room as the solver sees it: shell, tariff, and for every wall and row the blocked cells and the timber behind."""

from collections.abc import Callable, Hashable, Iterable
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from core.errors import RoomError
from core.language import tr
from core.progress import PanelRecord
from core.room import Room
from core.setout.held import NOTHING_HELD, Held
from core.setout.kept import Kept
from core.setout.layers import Block, Hole, Layers, blocks_in_row, holes_of, layers_of
from core.setout.mounting import whole_row_courses
from core.setout.naming import plain_key
from core.setout.paths import FREE_END, legs_of
from core.setout.result import Row
from core.setout.shell import Chain, Shell, shell_of
from core.setout.tariff import MOST_UNITS, PER_MINUTE, TIE_ROOM, CornerKey, Ints, PlainKey, Tariff, tariff_of
from core.setout.timber import Backing, standing_timber
from core.setout.wishes import Wishes, wishes_of

IN_PLACE = frozenset({"hung", "taken out"})
"""States of panels whose place is taken: they hang, or something else hangs there instead."""

CourseBacking = Callable[[int], Ints]

BACKINGS = Kept(64)
BARE_LINES = Kept(2_000)
"""Standing timber and where it is missing are worked out once for as long as they stay the same."""


@dataclass(frozen=True)
class Problem:
    """A room made ready for set-out. Raises RoomError from its shell where a wall cannot take its panels."""

    room: Room
    shell: Shell = field(init=False)
    tariff: Tariff = field(init=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "shell", shell_of(self.room))
        object.__setattr__(self, "tariff", tariff_of(self.room.kit, self.room.rates))
        self._require_countable()

    def _require_countable(self) -> None:
        """Refuse rates at which even a plain way to line the room could come to more than the solver's whole numbers hold."""
        kit, tariff = self.room.kit, self.tariff
        pitches = sum(wall.pitches for wall in self.shell.walls)
        plates = self.room.clad_height_mm / kit.plate_mm
        rows = plates / kit.row_plates(kit.half_courses) + 1
        pieces = rows * (2 * pitches / kit.full_width + 2 * self.room.wall_count + 4 * len(self.room.openings))
        most = pitches * plates * max(tariff.build_plain, tariff.build_shaped, tariff.build_corner, tariff.build_shaped_corner)
        most += pieces * (tariff.handling + tariff.setup + 4 * tariff.blocking)
        most += 4 * rows * (len(self.room.openings) + 1) * (tariff.sliver + tariff.weak)
        if most > MOST_UNITS:
            raise RoomError(
                tr(
                    "rates: a room of this size could come to {most:.3g} crew minutes, which is more than can be "
                    "reckoned exactly; use smaller rates",
                    most=most / TIE_ROOM / PER_MINUTE / tariff.full_area,
                )
            )

    @cached_property
    def legs(self) -> Ints:
        """All corner legs that may be planned."""
        return legs_of(self.room.kit.least_width_pitches, self.room.kit.full_width)

    @cached_property
    def key(self) -> Hashable:
        """What the divisions of rows depend on besides the rows themselves."""
        return tuple((wall.pitches, wall.left, wall.right) for wall in self.shell.walls)

    @property
    def chains(self) -> tuple[Chain, ...]:
        return self.shell.chains

    def pitches(self, wall: int) -> int:
        return self._pitches[wall]

    @cached_property
    def _pitches(self) -> tuple[int, ...]:
        return tuple(wall.pitches for wall in self.shell.walls)

    def left_legs(self, wall: int) -> Ints:
        """Legs a row may begin with on a wall: none at a free end."""
        return FREE_END if self.shell.walls[wall].left == "free" else self.legs

    def right_legs(self, wall: int) -> Ints:
        return FREE_END if self.shell.walls[wall].right == "free" else self.legs

    def layers(self, row: Row) -> Layers:
        return layers_of(self.room.kit.plates_per_course, row.courses)

    def blocks(self, row: Row) -> tuple[tuple[Block, ...], ...]:
        """The blocked cells of a row on every wall."""
        place = row.z_plates, row.courses
        if place not in self._blocks:
            layers = self.layers(row)
            self._blocks[place] = tuple(blocks_in_row(holes, row, layers) if holes else () for holes in self._holes)
        return self._blocks[place]

    @cached_property
    def _blocks(self) -> dict[tuple[int, int], tuple[tuple[Block, ...], ...]]:
        return {}

    @cached_property
    def _holes(self) -> tuple[tuple[Hole, ...], ...]:
        return tuple(holes_of(self.room, self.shell, wall) for wall in range(self.room.wall_count))

    def held(self, row: Row) -> tuple[Held, ...]:
        """What a person pinned in a row, by wall."""
        if not self.wishes.wanted:
            return self._nothing_held
        return self.wishes.held(row)

    @cached_property
    def hanging(self) -> dict[tuple[int, int], list[PanelRecord]]:
        """The panels that hang, by their row's bottom in plates and its courses; those recorded without a row are left out."""
        found: dict[tuple[int, int], list[PanelRecord]] = {}
        for record in self.room.progress.panels:
            bottom, courses = record.row_bottom_plates, record.row_courses
            if record.state in IN_PLACE and bottom is not None and courses is not None and record.spans:
                found.setdefault((bottom, courses), []).append(record)
        return found

    @cached_property
    def paid(self) -> tuple[frozenset[PlainKey], frozenset[CornerKey], frozenset[str]]:
        """Designs whose set-up is past, since the crew has built to them: flat ones, corner ones, and all by name."""
        names = frozenset(record.design for record in self.room.progress.panels if record.is_made)
        keys = [key for key in map(plain_key, sorted(names)) if key is not None]
        plain = frozenset(key for key in keys if len(key) == 2)
        return plain, frozenset(key for key in keys if len(key) == 4), names

    @cached_property
    def wishes(self) -> Wishes:
        return wishes_of(self.room, self.shell)

    @cached_property
    def _nothing_held(self) -> tuple[Held, ...]:
        return (NOTHING_HELD,) * self.room.wall_count

    def before(self, wall: int) -> int:
        """The wall to the left."""
        return wall - 1 if wall else len(self._pitches) - 1

    def after(self, wall: int) -> int:
        """The wall to the right."""
        return (wall + 1) % len(self._pitches)

    @cached_property
    def backings(self) -> tuple[Backing | None, ...]:
        """Per wall, the standing timber behind it; None where the frame will be built to suit."""
        return tuple(self._backing(wall) for wall in range(self.room.wall_count))

    def _backing(self, wall: int) -> Backing | None:
        room = self.room
        if room.frame(wall).mode == "to_build":
            return None
        openings = tuple(opening for opening in room.openings if opening.wall == wall)
        measures = room.wall_length_mm(wall), room.frame_head_mm, room.kit.mounts.edge_mm, room.kit.plate_mm
        return BACKINGS.get(
            (wall, room.frame(wall), openings, measures), lambda: Backing(standing_timber(room, wall), room.kit.mounts.edge_mm)
        )

    def backing_key(self, wall: int, row: Row, *, whole: bool) -> Hashable:
        """Rows with equal keys have the same timber behind their mounting points.

        ``whole`` tells that all pieces are as high as the row, so that only the kit's two courses matter.
        """
        look_up = self.wall_backing(wall, row)
        if look_up is None:
            return None
        if whole:
            courses = whole_row_courses(self.room.kit, row.courses)
            return tuple(self._bare(wall, self.course_height_mm(row, course))[1] for course in courses)
        backing = self.backings[wall]
        assert backing is not None
        return backing, self.shell.starts_nm[wall], self.pitches(wall), row.z_plates

    def pitch_lines_mm(self, wall: int) -> NDArray[np.float64]:
        """Wall-local millimetres of all pitch lines of a wall, shape (pitches + 1,)."""
        start = self.shell.walls[wall].start_mm
        lines = start + np.arange(self.pitches(wall) + 1) * self.room.kit.pitch_mm
        return lines.astype(np.float64)

    def course_height_mm(self, row: Row, course: int) -> float:
        """Height of the middle of a row's course above the floor."""
        kit = self.room.kit
        return (row.z_plates + (course + 0.5) * kit.plates_per_course) * kit.plate_mm

    def wall_backing(self, wall: int, row: Row) -> CourseBacking | None:
        """For a course of the row: 1 for each pitch line of the wall with nothing behind it."""
        if self.backings[wall] is None:
            return None
        return lambda course: self.bare(wall, self.course_height_mm(row, course))

    def bare(self, wall: int, z_mm: float) -> Ints:
        """1 for each pitch line of a wall with standing timber that has none behind it at a height, shape (pitches + 1,)."""
        return self._bare(wall, z_mm)[0]

    def bare_lines(self, wall: int, row: Row, courses: Iterable[int]) -> list[Ints]:
        """The same for courses of a row; courses with the same timber behind them are answered once."""
        backing = self.backings[wall]
        assert backing is not None
        heights = [self.course_height_mm(row, course) for course in courses]
        return [self._bare_in_band(wall, band, z_mm)[0] for band, z_mm in {backing.band(z): z for z in heights}.items()]

    def _bare(self, wall: int, z_mm: float) -> tuple[Ints, bytes]:
        """The same with its bytes, which tell it from others."""
        backing = self.backings[wall]
        assert backing is not None
        return self._bare_in_band(wall, backing.band(z_mm), z_mm)

    def _bare_in_band(self, wall: int, band: int, z_mm: float) -> tuple[Ints, bytes]:
        place = wall, band
        if place not in self._bands:
            backing = self.backings[wall]
            assert backing is not None
            key = backing, self.shell.starts_nm[wall], self.pitches(wall), self.room.kit.pitch_mm, band

            def make() -> tuple[Ints, bytes]:
                lines = backing.missing(self.pitch_lines_mm(wall), z_mm)
                return lines, lines.tobytes()

            self._bands[place] = BARE_LINES.get(key, make)
        return self._bands[place]

    @cached_property
    def _bands(self) -> dict[tuple[int, int], tuple[Ints, bytes]]:
        return {}

    def corner_backing(self, wall: int, row: Row) -> CourseBacking | None:
        """The same for the strip around a wall's left corner, as far as legs reach."""
        before = self.before(wall)
        left, right = self.wall_backing(before, row), self.wall_backing(wall, row)
        if left is None and right is None:
            return None
        reach_left, reach_right = self.corner_reach(wall)

        def missing(course: int) -> Ints:
            bare = np.zeros(reach_left + reach_right + 1, dtype=np.int64)
            if left is not None:
                bare[:reach_left] = left(course)[-reach_left - 1 : -1]
            if right is not None:
                bare[reach_left:] = right(course)[: reach_right + 1]
            return bare

        return missing

    def corner_reach(self, wall: int) -> tuple[int, int]:
        """How far the strip around a wall's left corner goes on either wall, in pitches: as far as legs may."""
        return self._reaches[self.before(wall)], self._reaches[wall]

    @cached_property
    def _reaches(self) -> tuple[int, ...]:
        reach = self.room.kit.full_width
        return tuple(min(reach, pitches) for pitches in self._pitches)

    def surroundings(self, wall: int) -> tuple[int, str, int, str]:
        """What a wall's fillings depend on besides what is blocked: pitches and left corner, its own and the next one's."""
        return self._surroundings[wall]

    @cached_property
    def _surroundings(self) -> tuple[tuple[int, str, int, str], ...]:
        walls = self.shell.walls
        return tuple((walls[n - 1].pitches, wall.left, wall.pitches, wall.right) for n, wall in enumerate(walls))
