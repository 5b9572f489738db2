"""Distances taped across corners, and what they say of the corners: how far from square, and whether they can all be true."""

import math
from collections.abc import Mapping
from dataclasses import dataclass

from shapely import LineString, Polygon

from core.errors import RoomError
from core.language import tr
from core.room import Room, wall_letter

Pair = tuple[int, int]
"""Two corners by number, the lower first."""
_LEEWAY_MM = 1.0


@dataclass(frozen=True, slots=True)
class CornerCheck:
    """What a taped distance says of one corner: its inside angle, and how far out of square the longer wall ends."""

    corner: int
    angle_deg: float
    drawn_deg: float
    over_mm: float

    @property
    def off_deg(self) -> float:
        """Degrees more than square; less where negative. An outside corner is square at 270."""
        return self.angle_deg - (270.0 if self.drawn_deg > 180 else 90.0)

    @property
    def off_mm(self) -> float:
        """How far the longer wall's end lies from where a square would put it, over ``over_mm``."""
        return self.over_mm * math.sin(math.radians(self.off_deg))


def across_pairs(room: Room) -> tuple[Pair, ...]:
    """The pairs of corners to tape between: for every corner its two neighbours; in a four-walled room the two diagonals.

    Pairs that do not see each other across the floor are left out, as no tape goes through a wall.
    """
    count, corners = room.wall_count, room.corners_mm
    floor = Polygon(corners).buffer(_LEEWAY_MM)
    pairs = (_pair((corner - 1) % count, (corner + 1) % count) for corner in range(count))
    seen = (pair for pair in pairs if floor.covers(LineString([corners[pair[0]], corners[pair[1]]])))
    return tuple(dict.fromkeys(seen)) if count > 3 else ()


def checked_corners(room: Room, taped_mm: Mapping[Pair, float]) -> tuple[CornerCheck, ...]:
    """What the taped distances say of the corners they lie across, in the order of the corners.

    The angle follows from the two walls and the distance by the law of cosines. Raises RoomError where no such triangle exists.
    """
    checks, count = [], room.wall_count
    for corner in range(count):
        left, right = (corner - 1) % count, (corner + 1) % count
        taped = taped_mm.get(_pair(left, right))
        if taped is None:
            continue
        walls = room.wall_length_mm(left), room.wall_length_mm(corner)
        drawn = angle_deg(*walls, math.dist(room.corners_mm[left], room.corners_mm[right]), corner_name(room, corner))
        angle = angle_deg(*walls, taped, corner_name(room, corner))
        if _is_outside(room, corner):
            drawn, angle = 360.0 - drawn, 360.0 - angle
        checks.append(CornerCheck(corner, angle, drawn, max(walls)))
    return tuple(checks)


def angle_deg(one_mm: float, other_mm: float, across_mm: float, where: str) -> float:
    """The angle between two walls whose far ends are ``across_mm`` apart. Raises RoomError where they cannot be."""
    least, most = abs(one_mm - other_mm), one_mm + other_mm
    if not least < across_mm <= most * (1 + 1e-12):
        raise RoomError(
            tr(
                "{where}: {across:g} mm cannot lie across walls of {one:g} mm and {other:g} mm; it must be "
                "between {least:.0f} mm and {most:.0f} mm",
                where=where,
                across=across_mm,
                one=one_mm,
                other=other_mm,
                least=least,
                most=most,
            )
        )
    cosine = (one_mm**2 + other_mm**2 - across_mm**2) / (2 * one_mm * other_mm)
    return math.degrees(math.acos(max(-1.0, min(1.0, cosine))))


def contradiction_mm(room: Room, taped_mm: Mapping[Pair, float]) -> float | None:
    """By how much the second diagonal of a four-walled room is longer than its walls and the first allow; None where not both
    are taped. More than the tape's error means that one of the six lengths is wrong.
    """
    first, second = taped_mm.get((0, 2)), taped_mm.get((1, 3))
    if room.wall_count != 4 or first is None or second is None:
        return None
    a, b, c, d = (room.wall_length_mm(wall) for wall in range(4))
    at_start = math.radians(angle_deg(a, first, b, tr("corners 1 to 3")) + angle_deg(d, first, c, tr("corners 1 to 3")))
    return second - math.sqrt(max(0.0, a * a + d * d - 2 * a * d * math.cos(at_start)))


def corner_name(room: Room, corner: int) -> str:
    """A corner by the walls that meet there: ``corner D/A``."""
    return tr("corner {walls}", walls=corner_letters(room, corner))


def corner_letters(room: Room, corner: int) -> str:
    """The letters of the walls that meet at a corner: ``D/A``."""
    return f"{wall_letter((corner - 1) % room.wall_count)}/{wall_letter(corner)}"


def _pair(one: int, other: int) -> Pair:
    return min(one, other), max(one, other)


def _is_outside(room: Room, corner: int) -> bool:
    """Whether the room wraps round the corner: its walls turn left there."""
    (ax, ay), (bx, by) = room.wall_ends_mm((corner - 1) % room.wall_count)
    cx, cy = room.wall_ends_mm(corner)[1]
    return (bx - ax) * (cy - by) - (by - ay) * (cx - bx) > 0
