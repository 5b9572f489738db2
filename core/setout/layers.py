"""A row's layers, and the cells that openings block in it."""

from bisect import bisect_left, bisect_right
from dataclasses import dataclass
from functools import lru_cache
from itertools import accumulate

from core.kit import Kit
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


@dataclass(frozen=True, slots=True, order=True)
class Block:
    """Blocked cells of one row: pitches left to right, layers low to high, the ends not included."""

    left: int
    right: int
    low: int
    high: int


def blocks_in_row(room: Room, shell: Shell, wall: int, row: Row) -> tuple[Block, ...]:
    """The cells of one row on one wall that openings overlap, in the shell's grid; sorted, possibly touching."""
    layers = layers_of(room.kit.plates_per_course, row.courses)
    found = []
    for opening in room.openings:
        if opening.wall != wall:
            continue
        left, right = blocked_pitches(room, shell, opening)
        low, high = _blocked_layers(room.kit, opening, row.z_plates, layers)
        if left < right and low < high:
            found.append(Block(left, right, low, high))
    return tuple(sorted(found))


def blocked_pitches(room: Room, shell: Shell, opening: Opening) -> tuple[int, int]:
    """First pitch an opening overlaps and the first one right of it that it does not, clipped to the wall."""
    pitch, start = to_nm(room.kit.pitch_mm), shell.starts_nm[opening.wall]
    count = shell.walls[opening.wall].pitches
    left = (to_nm(opening.left_mm) - start) // pitch
    right = -((start - to_nm(opening.right_mm)) // pitch)
    return max(0, left), min(count, right)


def _blocked_layers(kit: Kit, opening: Opening, bottom_plates: int, layers: Layers) -> tuple[int, int]:
    """First layer an opening overlaps and the first one above that it does not; equal where it misses the row."""
    plate = to_nm(kit.plate_mm)
    sill = to_nm(opening.sill_mm) // plate - bottom_plates
    head = -(-to_nm(opening.head_mm) // plate) - bottom_plates
    return bisect_right(layers.edges, sill, lo=1) - 1, bisect_left(layers.edges, head, hi=layers.count)
