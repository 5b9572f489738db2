"""What is done about mounting points without timber, in the same words everywhere: window, elevations, frame sheets, JSON."""

from collections import Counter
from collections.abc import Sequence

from core.frame.misses import Backed, Miss, Remedy, back
from core.frame.points import Point, points_of
from core.setout.result import SetOut

_COUNTED: dict[Remedy, tuple[str, str]] = {
    "none": ("without remedy", "without remedy"),
    "move": ("hole to move", "holes to move"),
    "blocking": ("on blocking", "on blocking"),
    "doubling": ("at a doubling piece", "at doubling pieces"),
    "pilot hole": ("pilot hole", "pilot holes"),
}
GRAVEST_FIRST: tuple[Remedy, ...] = tuple(_COUNTED)


def backed_walls(setout: SetOut) -> tuple[Backed, ...]:
    """By wall, what holds the mounting points that its members do not."""
    points = points_of(setout)
    return tuple(_backed(setout, wall, points) for wall in range(setout.room.wall_count))


def _backed(setout: SetOut, wall: int, points: Sequence[Point]) -> Backed:
    here = [point for point in points if point.wall == wall]
    return back(setout, here, [t for t in setout.timber if t.wall == wall], setout.room.frame(wall).stud_mm)


def remedies_in_words(misses: Sequence[Miss]) -> str:
    """How many points get which remedy, the gravest first: ``3 holes to move, 22 on blocking, 20 pilot holes``."""
    count = Counter(miss.remedy for miss in misses)
    return ", ".join(f"{count[one]} {_COUNTED[one][count[one] > 1]}" for one in GRAVEST_FIRST if count[one])


def misses_in_words(points: int, misses: Sequence[Miss]) -> str:
    """How many of a wall's screws find no timber, and what is done about each."""
    if not points:
        return "No screw is driven into this wall."
    if not misses:
        return f"All {points} screws find timber."
    find = "finds" if len(misses) == 1 else "find"
    return f"{len(misses)} of {points} screws {find} no timber: {remedies_in_words(misses)}."
