"""Rooms for the laws: square and slanting corners, inside and outside, and openings in awkward places.

One recipe, two sources of choice: a seeded random number (fixed lists of rooms) or a Hypothesis draw (rooms that shrink).
"""

import random
from collections.abc import Callable

from hypothesis import strategies as st
from pydantic import ValidationError

from core.kit import Kit, Rates
from core.room import Room

Pick = Callable[[int, int], int]
"""Returns a whole number from the first to the second, both included."""
Corners = list[tuple[float, float]]

TINY_KIT = Kit(
    widths_pitches=(4, 8), legs_pitches=(4, 8), least_width_pitches=4, full_courses=10, half_courses=5, least_closing_courses=3
)
SMALL_KIT = Kit(widths_pitches=(8, 16), legs_pitches=(8, 16), full_courses=14, half_courses=7)
OPENING_SIZES_MM = {"door": (600, 1000), "window": (300, 900), "outlet": (50, 120), "switch": (60, 90), "niche": (100, 500)}


def _plan(pick: Pick, least_mm: int, most_mm: int) -> Corners:
    """Corners, clockwise from above, of a rectangle, an L, a T, a U, a step or a cut corner, walls of the lengths given."""

    def side() -> float:
        return pick(least_mm * 10, most_mm * 10) / 10

    a, b, c, d, e, f = (side() for _ in range(6))
    shapes: list[Corners] = [
        [(0, 0), (0, a), (b, a), (b, 0)],
        [(0, 0), (0, a + b), (c, a + b), (c, a), (c + d, a), (c + d, 0)],
        [(0, 0), (0, a), (b, a), (b, a + c), (b + d, a + c), (b + d, a), (b + d + e, a), (b + d + e, 0)],
        [(0, 0), (0, a + b), (c, a + b), (c, a), (c + d, a), (c + d, a + e), (c + d + f, a + e), (c + d + f, 0)],
        [(0, 0), (0, a), (b, a), (b, a + c), (b + d, a + c), (b + d, -e), (b, -e), (b, 0)],
        [(0, 0), (0, a + c), (b, a + c), (b + c, a), (b + c, 0)],
    ]
    return shapes[pick(0, len(shapes) - 1)]


def _height_mm(pick: Pick, kit: Kit, most_rows: int) -> float:
    """A clad height that some stack of rows fills, leaving an allowed head gap."""
    courses = [(kit.full_courses, kit.half_courses)[pick(0, 1)] for _ in range(pick(1, most_rows))]
    if pick(0, 1):
        courses.append(pick(kit.least_closing_courses, kit.full_courses - 1))
    return round(sum(kit.row_plates(c) for c in courses) * kit.plate_mm + pick(0, round(kit.head_gap_mm * 10)) / 10, 4)


def _opening(pick: Pick, name: str, wall: int, length_mm: float, height_mm: float) -> dict[str, object]:
    kind = list(OPENING_SIZES_MM)[pick(0, len(OPENING_SIZES_MM) - 1)]
    least, most = OPENING_SIZES_MM[kind]
    width = min(float(pick(least, most)), length_mm)
    height = float(pick(least, most))
    room = length_mm - width
    left = (0.0, room, min(float(pick(1, 100)), room), pick(0, int(room * 10)) / 10)[pick(0, 3)]
    sill = 0.0 if kind == "door" else float(pick(0, max(0, int(height_mm) - 20)))
    return {"id": name, "kind": kind, "wall": wall, "left_mm": left, "sill_mm": sill, "width_mm": width, "height_mm": height}


def _frame(pick: Pick) -> dict[str, object]:
    if pick(0, 3) == 0:
        return {"mode": "to_build"}
    return {"mode": "regular", "spacing_mm": (300.0, 304.8, 406.4, 600.0)[pick(0, 3)], "first_centre_mm": float(pick(19, 300))}


def make_room(
    pick: Pick,
    *,
    kit: Kit,
    least_pitches: int = 16,
    most_pitches: int = 60,
    most_rows: int = 3,
    most_openings: int = 5,
    standing: bool = False,
    rates: Rates | None = None,
) -> Room:
    """A room of that recipe; an opening that would overlap another is left out."""
    # A wall loses at most 8.5 mm + 8 mm to packing at its two ends, so three spare pitches keep the least.
    corners = _plan(pick, round((least_pitches + 3) * kit.pitch_mm), round(most_pitches * kit.pitch_mm))
    fields: dict[str, object] = {
        "name": "generated",
        "corners_mm": tuple(corners),
        "clad_height_mm": _height_mm(pick, kit, most_rows),
        "kit": kit,
        "rates": rates or Rates(),
    }
    if standing:
        fields["frames"] = tuple(_frame(pick) for _ in corners)
    room = Room.model_validate(fields)
    for number in range(pick(0, most_openings)):
        wall = pick(0, len(corners) - 1)
        opening = _opening(pick, f"opening-{number}", wall, room.wall_length_mm(wall), room.clad_height_mm)
        room = _with_opening(room, opening) or room
    return room


def _with_opening(room: Room, opening: dict[str, object]) -> Room | None:
    fields = dict(room) | {"openings": (*room.openings, opening)}
    try:
        return Room.model_validate(fields)
    except ValidationError:
        return None


def seeded_room(seed: int, **recipe: object) -> Room:
    """The same room for the same seed and recipe."""
    return make_room(random.Random(seed).randint, **recipe)  # type: ignore[arg-type]


@st.composite
def rooms(draw: st.DrawFn, /, **recipe: object) -> Room:
    """Rooms of the recipe, drawn choice by choice so that a failing one shrinks."""
    return make_room(lambda low, high: draw(st.integers(low, high)), **recipe)  # type: ignore[arg-type]
