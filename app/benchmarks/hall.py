"""A large room to measure with: a hall of forty walls, bays along both long sides, doors and windows in many of them."""

from itertools import accumulate
from typing import Any

from core.room import Point, Room

CLAD_HEIGHT_MM = 2740.0
BAYS = 9
BAY_DEPTHS_MM = (2410.0, 1980.0, 2745.0)
WIDTHS_MM = (5230.0, 4710.0, 5875.0, 4160.0, 6090.0)
"""Lengths of the walls along the hall, taken in turn; none is a whole number of panels."""
SPAN_MM = 9140.0
STANDING = {"mode": "regular", "spacing_mm": 304.8, "first_centre_mm": 156.0}


def hall() -> Room:
    """The hall: 40 walls, about 5,000 panels; every tenth wall's frame stands already."""
    corners = _corners()
    frames = [STANDING if wall % 10 == 4 else {"mode": "to_build"} for wall in range(len(corners))]
    fields: dict[str, Any] = {
        "name": "Assembly hall",
        "corners_mm": corners,
        "clad_height_mm": CLAD_HEIGHT_MM,
        "frames": tuple(frames),
    }
    bare = Room.model_validate(fields)
    openings = [opening for wall in range(bare.wall_count) for opening in _openings(wall, bare.wall_length_mm(wall))]
    return Room.model_validate({**fields, "openings": tuple(openings)})


def _corners() -> tuple[Point, ...]:
    """Clockwise from the upper left: along the top with its bays, down, back along the bottom, up again."""
    top, bottom = _side(BAYS // 2 + BAYS % 2), _side(BAYS // 2)
    length = max(top[-1][0], bottom[-1][0])
    above = [(min(x, length), SPAN_MM + out) for x, out in _reaching(top, length)]
    below = [(x, -out) for x, out in reversed(_reaching(bottom, length))]
    return (*above, *below)


def _side(bays: int) -> list[tuple[float, float]]:
    """A long side as (along, outwards) points: walls in line, each bay between two of them standing back."""
    widths = [WIDTHS_MM[n % len(WIDTHS_MM)] for n in range(2 * bays + 1)]
    ends = list(accumulate(widths))
    points = [(0.0, 0.0)]
    for bay in range(bays):
        begin, end, depth = ends[2 * bay], ends[2 * bay + 1], BAY_DEPTHS_MM[bay % len(BAY_DEPTHS_MM)]
        points += [(begin, 0.0), (begin, depth), (end, depth), (end, 0.0)]
    return [*points, (ends[-1], 0.0)]


def _reaching(points: list[tuple[float, float]], length: float) -> list[tuple[float, float]]:
    """The side with its last wall drawn out to the hall's length."""
    return [*points[:-1], (length, 0.0)]


def _openings(wall: int, length_mm: float) -> list[dict[str, Any]]:
    """A window in every third wall, a door in every twelfth, an outlet in every fifth; none overlap."""
    found: list[dict[str, Any]] = []

    def put(kind: str, share: float, sill_mm: float, width_mm: float, height_mm: float) -> None:
        left_mm = round(share * (length_mm - width_mm))
        place = {"wall": wall, "left_mm": float(left_mm), "sill_mm": sill_mm, "width_mm": width_mm, "height_mm": height_mm}
        found.append({"id": f"{kind}-{wall}", "kind": kind, **place})

    if wall % 3 == 1:
        put("window", 0.45, 912.0, 1216.0, 1064.0)
    if wall % 12 == 3:
        put("door", 0.9, 0.0, 912.0, 1980.0)
    if wall % 5 == 2:
        put("outlet", 0.1, 300.0, 60.0, 100.0)
    return found
