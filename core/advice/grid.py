"""Where an opening's edges lie between the lines of the grid, and the shortest way to the next pattern of blocked cells.

An opening blocks every cell it overlaps, so the pattern changes only where an edge passes a line. A pattern that blocks a
row of cells more than the opening needs on account of standing astride is never reached for: there is always a nearer one.
"""

import math
from bisect import bisect_left, bisect_right
from collections.abc import Iterable
from dataclasses import dataclass

from core.edits.revise import tidy_mm
from core.room import Opening, Room, Units
from core.setout.layers import layers_of
from core.setout.result import Row
from core.setout.shell import NM_PER_MM, Shell, to_nm

TIDY_NM = 100
"""Lengths in rooms are kept to a tenth of a micrometre."""
ROUND_NM: dict[Units, tuple[int, ...]] = {
    "mm": (NM_PER_MM, NM_PER_MM // 2, NM_PER_MM // 10, TIDY_NM),
    "ft-in": (1_587_500, NM_PER_MM // 10, TIDY_NM),
}
"""Steps of a rule, coarse first: whole and half millimetres, sixteenths of an inch; then what the grid asks for."""


@dataclass(frozen=True, slots=True)
class PitchLines:
    """The upright lines of a wall's grid, in nanometres from the wall's left frame corner."""

    start_nm: int
    pitch_nm: int
    pitches: int

    @classmethod
    def of(cls, room: Room, shell: Shell, wall: int) -> "PitchLines":
        """The lines of one wall."""
        return cls(shell.starts_nm[wall], to_nm(room.kit.pitch_mm), shell.walls[wall].pitches)

    def at_nm(self, line: int) -> int:
        """Where a line is."""
        return self.start_nm + line * self.pitch_nm

    def blocked(self, left_nm: int, right_nm: int) -> tuple[int, int]:
        """First and last line around the pitches that a stretch overlaps, clipped to the wall."""
        left, right = (left_nm - self.start_nm) // self.pitch_nm, -((self.start_nm - right_nm) // self.pitch_nm)
        return max(0, left), min(self.pitches, right)


def shifts_nm(lines: PitchLines, opening: Opening, units: Units, count: int) -> tuple[list[int], list[int]]:
    """The ``count`` least shifts to the left and to the right that reach another pattern of blocked pitches.

    With its left edge anywhere from a line on, as far as its width leaves play, an opening blocks the same pitches; each shift
    is the roundest that ends within that play. Shifts are positive.
    """
    left, width = to_nm(opening.left_mm), to_nm(opening.width_mm)
    play = -width % lines.pitch_nm
    here = (left - lines.start_nm) // lines.pitch_nm
    leftwards, rightwards = [], []
    for step in range(count + 2):
        low = lines.at_nm(here + step) - left
        if low > 0:
            rightwards.append(roundest_nm(low, low + play, units))
        low = lines.at_nm(here - step) - left
        if low + play < 0:
            leftwards.append(roundest_nm(-low - play, -low, units))
    return [s for s in leftwards if s is not None][:count], [s for s in rightwards if s is not None][:count]


def roundest_nm(least: int, most: int, units: Units) -> int | None:
    """The least length from ``least`` to ``most`` on the coarsest step of a rule that has one; None where none has."""
    for step in ROUND_NM[units]:
        rounded = -(-least // step) * step
        if rounded <= most:
            return rounded
    return None


@dataclass(frozen=True, slots=True)
class LevelLines:
    """The level lines of a row stack in millimetres above the floor, rising: every layer's, and the row joints alone."""

    layers_mm: tuple[float, ...]
    joints_mm: tuple[float, ...]

    @classmethod
    def of(cls, room: Room, rows: Iterable[Row]) -> "LevelLines":
        """The lines of the rows."""
        plate = room.kit.plate_mm
        layers: set[int] = set()
        joints: set[int] = set()
        for row in rows:
            layers.update(row.z_plates + edge for edge in layers_of(room.kit.plates_per_course, row.courses).edges)
            joints.update((row.z_plates, row.z_plates + row.height_plates))
        return cls(
            tuple(tidy_mm(plates * plate) for plates in sorted(layers)),
            tuple(tidy_mm(plates * plate) for plates in sorted(joints)),
        )

    def above(self, z_mm: float, count: int, reach_mm: float) -> list[float]:
        """The next layer lines above a height, and every row joint within reach of it."""
        first = bisect_right(self.layers_mm, z_mm + 1e-6)
        near = {*self.layers_mm[first : first + count], *self.joints_mm}
        return sorted(line for line in near if 1e-6 < line - z_mm <= reach_mm)

    def below(self, z_mm: float, count: int, reach_mm: float) -> list[float]:
        """The next layer lines below a height, and every row joint within reach of it, from the top down."""
        last = bisect_left(self.layers_mm, z_mm - 1e-6)
        near = {*self.layers_mm[max(0, last - count) : last], *self.joints_mm}
        return sorted((line for line in near if 1e-6 < z_mm - line <= reach_mm), reverse=True)


def whole_steps(reach_mm: float, step_mm: float) -> int:
    """How many whole steps fit within a reach."""
    return math.floor(reach_mm / step_mm + 1e-9)
