"""How much dearer the set-out shown during a drag is than the one that follows it: ``python -m tests.reference.sketches``."""

import sys
from collections.abc import Iterator

from core.edits.revise import revise
from core.errors import RoomError
from core.room import Opening, Room
from core.setout import sketch, solve
from tests.core.setout.rooms import demo

OPENING = "window"
STEPS = range(-5, 6)
ASIDE_MM, UP_MM, ASLANT_MM = 97.0, 41.0, (60.0, 30.0)
"""How far one step takes the window along its wall, up, and along and up together."""
PLACES_A_WALL, FROM_CORNER_MM = 3, 200.0


def moves(room: Room, opening: Opening) -> Iterator[dict[str, float]]:
    """Where the opening goes: along its wall, up and down, aslant, and to three places of every wall."""
    along, up = ASLANT_MM
    for n in STEPS:
        yield {"left_mm": opening.left_mm + ASIDE_MM * n}
        yield {"sill_mm": opening.sill_mm + UP_MM * n}
        yield {"left_mm": opening.left_mm + along * n, "sill_mm": opening.sill_mm + up * n}
    for wall in range(room.wall_count):
        free_mm = room.wall_length_mm(wall) - 2 * FROM_CORNER_MM - opening.width_mm
        for n in range(PLACES_A_WALL):
            yield {"wall": wall, "left_mm": FROM_CORNER_MM + n * free_mm / (PLACES_A_WALL - 1)}


def dearer() -> Iterator[float]:
    """By what share a sketch near the demo room's set-out takes more minutes than the full set-out, place by place.

    Where the opening would lie over another one, or the set-out has an error, there is nothing to compare.
    """
    room = demo()
    start, opening = solve(room), room.opening(OPENING)
    for move in moves(room, opening):
        try:
            moved = revise(room, openings=tuple(opening.model_copy(update=move) if o is opening else o for o in room.openings))
        except RoomError:
            continue
        full = solve(moved)
        if not any(check.level == "error" for check in full.checks):
            yield sketch(moved, near=start).minutes.total / full.minutes.total - 1


def main() -> None:
    """Print the mean and the largest of them."""
    shares = list(dearer())
    mean, most = sum(shares) / len(shares), max(shares)
    sys.stdout.write(f"{len(shares)} places: a sketch takes {mean:.1%} more on average, {most:.1%} at most\n")


if __name__ == "__main__":
    main()
