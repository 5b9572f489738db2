"""Where an outlet would be far: the spacing rule most North American codes share, as a note for the electrician."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from core.room import Room, wall_letter
from core.timberwork import FOOT_MM

REACH_MM = 6 * FOOT_MM
LEAST_SPACE_MM = 2 * FOOT_MM
HIGHEST_MM = 5.5 * FOOT_MM
"""NEC 210.52(A): no point along a wall space of 2 ft or more is over 6 ft from an outlet; higher than 5 1/2 ft none counts."""


@dataclass(frozen=True, slots=True)
class FarStretch:
    """A stretch of floor line with no outlet in reach, along the unrolled walls from wall A's left corner."""

    begin_mm: float
    end_mm: float
    wall: str
    """Letter of the wall its middle lies on."""


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
    found = []
    for begin, end in _spaces(room, starts):
        reach = REACH_MM if end - begin >= starts[-1] else 0.0
        turned = (at + turn for turn in (-starts[-1], 0.0, starts[-1]) for at in outlets)
        inside = [at for at in turned if begin - reach <= at <= end + reach]
        for low, high in far_stretches((begin, end), inside):
            middle = ((low + high) / 2) % starts[-1]
            wall = max(i for i in range(room.wall_count) if starts[i] <= middle + 1e-6)
            found.append(FarStretch(low, high, wall_letter(wall)))
    return tuple(found)


def _spaces(room: Room, starts: Sequence[float]) -> Iterator[tuple[float, float]]:
    """Wall spaces between doors, the last one going on past wall A's left corner."""
    doors = sorted((starts[o.wall] + o.left_mm, starts[o.wall] + o.right_mm) for o in room.openings if o.kind == "door")
    if not doors:
        yield 0.0, starts[-1]
        return
    for (_, begin), (end, _) in zip(doors, [*doors[1:], (doors[0][0] + starts[-1], 0.0)], strict=True):
        if end > begin:
            yield begin, end
