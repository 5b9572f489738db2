"""A row's layers, and the cells that openings block in it."""

from bisect import bisect_left, bisect_right
from dataclasses import dataclass
from functools import lru_cache
from itertools import accumulate
from typing import NamedTuple

from core.room import Opening, Room
from core.setout.result import Row
from core.setout.shell import Shell, to_nm


@dataclass(frozen=True, slots=True)
class Layers:
    """The layers of one row from the bottom: ``courses`` brick courses, then the plate and the cap course.

    ``edges`` are the layer boundaries in plates above the row's bottom, shape (courses + 3,).
    """

    courses: int
    edges: tuple[int, ...]

    def __hash__(self) -> int:
        """Quick, since layers are part of many keys; kits of other heights are never looked up together."""
        return hash(self.courses)

    @property
    def count(self) -> int:
        return len(self.edges) - 1

    def height(self, low: int, high: int) -> int:
        """Plates from layer ``low`` up to, not including, layer ``high``."""
        return self.edges[high] - self.edges[low]

    def courses_between(self, low: int, high: int) -> int:
        """Brick courses among the layers ``low`` to ``high``."""
        return min(high, self.courses) - min(low, self.courses)


@lru_cache(maxsize=256)
def layers_of(plates_per_course: int, courses: int) -> Layers:
    """The layers of a row of ``courses`` brick courses."""
    return Layers(courses, tuple(accumulate([plates_per_course] * courses + [1, 1], initial=0)))


class Block(NamedTuple):
    """Blocked cells of one row: pitches left to right, layers low to high, the ends not included."""

    left: int
    right: int
    low: int
    high: int


class Hole(NamedTuple):
    """An opening on the grid of its wall: the pitches it overlaps, and the plates from the floor, ends not included."""

    left: int
    right: int
    sill: int
    head: int


def holes_of(room: Room, shell: Shell, wall: int) -> tuple[Hole, ...]:
    """The openings of one wall on its grid."""
    plate = to_nm(room.kit.plate_mm)
    return tuple(
        Hole(*blocked_pitches(room, shell, o), to_nm(o.sill_mm) // plate, -(-to_nm(o.head_mm) // plate))
        for o in room.openings
        if o.wall == wall
    )


def blocks_in_row(holes: tuple[Hole, ...], row: Row, layers: Layers) -> tuple[Block, ...]:
    """The cells of one row that a wall's openings overlap; sorted, possibly touching."""
    found = []
    for hole in holes:
        low, high = _blocked_layers(hole, row.z_plates, layers)
        if hole.left < hole.right and low < high:
            found.append(Block(hole.left, hole.right, low, high))
    return tuple(sorted(found))


def blocked_pitches(room: Room, shell: Shell, opening: Opening) -> tuple[int, int]:
    """First pitch an opening overlaps and the first one right of it that it does not, clipped to the wall."""
    pitch, start = to_nm(room.kit.pitch_mm), shell.starts_nm[opening.wall]
    count = shell.walls[opening.wall].pitches
    left = (to_nm(opening.left_mm) - start) // pitch
    right = -((start - to_nm(opening.right_mm)) // pitch)
    return max(0, left), min(count, right)


def _blocked_layers(hole: Hole, bottom_plates: int, layers: Layers) -> tuple[int, int]:
    """First layer an opening overlaps and the first one above that it does not; equal or crossed where it misses the row."""
    low = bisect_right(layers.edges, hole.sill - bottom_plates, lo=1) - 1
    return low, bisect_left(layers.edges, hole.head - bottom_plates, hi=layers.count)
