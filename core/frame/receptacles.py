"""Where an outlet would be far: the spacing rule most North American codes share, as a note for the electrician."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from core.room import Room, wall_letter
from core.timberwork import FOOT_MM

REACH_MM = 6 * FOOT_MM
LEAST_SPACE_MM = 2 * FOOT_MM
HIGHEST_MM = 5.5 * FOOT_MM
"""NEC 210.52(A): no point along a wall space of 2 ft or more is over 6 ft from an outlet; higher than 5 1/2 ft none counts.

So two outlets next to each other along unbroken wall are at most 12 ft apart: the point midway is in reach of both.
"""


@dataclass(frozen=True, slots=True)
class FarStretch:
    """A stretch of floor line with no outlet in reach, along the unrolled walls from wall A's left corner."""

    begin_mm: float
    end_mm: float
    wall: str
    """Letter of the wall its middle lies on."""
    apart_mm: float | None = None
    """How far apart along unbroken wall the two outlets stand between which it lies; None where it ends at no outlet's reach."""


def far_stretches(space_mm: tuple[float, float], outlets_mm: Sequence[float]) -> list[tuple[float, float]]:
    """What of one wall space lies farther than 6 ft from every outlet in it; nothing in a space under 2 ft."""
    begin, end = space_mm
    if end - begin < LEAST_SPACE_MM:
        return []
    far = []
    for at in sorted(outlets_mm):
        if at - REACH_MM > begin + 1e-6:
            far.append((begin, at - REACH_MM))
        begin = max(begin, at + REACH_MM)
    if end > begin + 1e-6:
        far.append((begin, end))
    return far


def unreached(room: Room) -> tuple[FarStretch, ...]:
    """All such stretches of a room; wall spaces go on round corners and end at doors."""
    starts = [sum(room.wall_length_mm(i) for i in range(wall)) for wall in range(room.wall_count + 1)]
    outlets = sorted(
        starts[o.wall] + o.left_mm + o.width_mm / 2 for o in room.openings if o.kind == "outlet" and o.head_mm <= HIGHEST_MM
    )
    length = starts[-1]
    found = []
    for begin, end in _spaces(room, starts, outlets):
        turned = (at + turn for turn in (-length, 0.0, length) for at in outlets)
        inside = sorted(at for at in turned if begin <= at <= end)
        for low, high in far_stretches((begin, end), inside):
            middle = ((low + high) / 2) % length
            wall = max(i for i in range(room.wall_count) if starts[i] <= middle + 1e-6)
            apart = _apart_mm((low, high), inside)
            is_one_outlet = apart is not None and apart > length - 1e-6
            found.append(FarStretch(low, high, wall_letter(wall), None if is_one_outlet else apart))
    return tuple(found)


def _apart_mm(stretch_mm: tuple[float, float], outlets_mm: Sequence[float]) -> float | None:
    """From the last outlet before a stretch to the first after it, in one wall space; None where either is missing."""
    before = [at for at in outlets_mm if at <= stretch_mm[0]]
    after = [at for at in outlets_mm if at >= stretch_mm[1]]
    return min(after) - max(before) if before and after else None


def _spaces(room: Room, starts: Sequence[float], outlets_mm: Sequence[float]) -> Iterator[tuple[float, float]]:
    """Wall spaces between doors, the last one going on past wall A's left corner; one that nothing breaks begins at an outlet."""
    doors = sorted((starts[o.wall] + o.left_mm, starts[o.wall] + o.right_mm) for o in room.openings if o.kind == "door")
    if not doors:
        begin = min(outlets_mm, default=0.0)
        yield begin, begin + starts[-1]
        return
    for (_, begin), (end, _) in zip(doors, [*doors[1:], (doors[0][0] + starts[-1], 0.0)], strict=True):
        if end > begin:
            yield begin, end
