"""The developed strip: where each wall stands when the room's walls are unrolled side by side."""

from dataclasses import dataclass
from itertools import accumulate
from typing import NamedTuple

from core.room import Room

FOLD_MM = 64.0
"""Width left between neighbouring walls for the fold, so that a corner panel is seen to wrap."""


class StripPoint(NamedTuple):
    """A place on the strip: x from the first wall's left frame corner, z from the floor."""

    x_mm: float
    z_mm: float


class WallPoint(NamedTuple):
    """A place on a wall in wall-local millimetres."""

    wall: int
    x_mm: float
    z_mm: float


@dataclass(frozen=True, slots=True)
class Strip:
    """Wall lengths and where each wall starts along the strip."""

    lengths_mm: tuple[float, ...]
    starts_mm: tuple[float, ...]

    @classmethod
    def of(cls, room: Room) -> "Strip":
        """The strip of a room's walls in their order."""
        lengths = tuple(room.wall_length_mm(wall) for wall in range(room.wall_count))
        starts = accumulate((length + FOLD_MM for length in lengths[:-1]), initial=0.0)
        return cls(lengths, tuple(starts))

    @property
    def width_mm(self) -> float:
        """From the first wall's left end to the last wall's right end."""
        return self.starts_mm[-1] + self.lengths_mm[-1]

    def place(self, point: WallPoint) -> StripPoint:
        """Where a place on a wall lies on the strip."""
        return StripPoint(self.starts_mm[point.wall] + point.x_mm, point.z_mm)

    def wall_point(self, point: StripPoint) -> WallPoint | None:
        """The place on the wall there; None in a fold or past the ends."""
        near = self.nearest(point)
        return near if 0 <= near.x_mm <= self.lengths_mm[near.wall] else None

    def nearest(self, point: StripPoint) -> WallPoint:
        """The place seen from the nearest wall; x may lie up to half a fold outside it, or further past the strip's ends."""
        wall = max((i for i, start in enumerate(self.starts_mm) if point.x_mm >= start - FOLD_MM / 2), default=0)
        return WallPoint(wall, point.x_mm - self.starts_mm[wall], point.z_mm)
