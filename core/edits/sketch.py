"""An outline while it is being sketched: corner after corner, refused at once where walls would cross."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from shapely import LineString, Polygon

from core.edits.revise import tidy_mm
from core.errors import RoomError
from core.language import tr
from core.room import LONGEST_WALL_MM, Point, wall_letter

MOST_CORNERS = 200
LEAST_WALL_MM = 10.0
"""Nearer than this two corners are one."""
_STRAIGHT = 1e-3
"""Sine of the turn below which two walls are one."""


@dataclass(frozen=True, slots=True)
class Sketch:
    """Corners fixed so far, in the order they were sketched, and whether the last one is joined to the first."""

    points_mm: tuple[Point, ...] = ()
    is_closed: bool = False

    def with_corner(self, point: Point) -> "Sketch":
        """The sketch with one more corner. Raises RoomError where its wall is no wall or would cross or touch another."""
        point = (tidy_mm(point[0]), tidy_mm(point[1]))
        if self.is_closed:
            raise RoomError(tr("the room is closed; take the last corner back to go on sketching"))
        if len(self.points_mm) >= MOST_CORNERS:
            raise RoomError(tr("the sketch has {most} corners; a room has at most so many", most=MOST_CORNERS))
        if self.points_mm:
            self._check_wall(point)
        return Sketch((*self.points_mm, point))

    def closed(self) -> "Sketch":
        """The sketch with its last corner joined to the first. Raises RoomError where that makes no room."""
        if self.is_closed:
            return self
        if len(self.points_mm) < 3:
            raise RoomError(tr("{count} corners make no room; fix at least three before closing it", count=len(self.points_mm)))
        self._check_wall(self.points_mm[0], closing=True)
        closed = Sketch(self.points_mm, is_closed=True)
        closed.corners_mm()
        return closed

    def without_last(self) -> "Sketch":
        """The sketch opened again where it was closed, else without its last corner."""
        return Sketch(self.points_mm if self.is_closed else self.points_mm[:-1])

    def corners_mm(self) -> tuple[Point, ...]:
        """The corners of a closed sketch as a room lists them. Raises RoomError where it is not closed."""
        if not self.is_closed:
            raise RoomError(tr("the walls do not meet yet; close the room at its first corner"))
        return clockwise(self.points_mm)

    def _check_wall(self, end: Point, *, closing: bool = False) -> None:
        """Refuses a wall from the last corner that is too short, too long, or meets another but at their common corner."""
        number, start = len(self.points_mm) - 1, self.points_mm[-1]
        wall, length = wall_letter(number), math.dist(start, end)
        if not LEAST_WALL_MM <= length <= LONGEST_WALL_MM:
            raise RoomError(
                tr(
                    "wall {wall} would be {length:g} mm long; a wall has {least:g} mm to {most:g} mm",
                    wall=wall,
                    length=length,
                    least=LEAST_WALL_MM,
                    most=LONGEST_WALL_MM,
                )
            )
        new = LineString([start, end])
        walls = list(pairwise(self.points_mm))
        for other, ends in enumerate(walls):
            old = LineString(ends)
            if not new.intersects(old):
                continue
            shared = start if other == number - 1 else end if closing and other == 0 else None
            if shared is None:
                raise RoomError(
                    tr("wall {wall} would cross or touch wall {other}; walls may not cross", wall=wall, other=wall_letter(other))
                )
            if new.intersection(old).length > 0:
                raise RoomError(
                    tr("wall {wall} would run back over wall {other}; walls may not cross", wall=wall, other=wall_letter(other))
                )


def clockwise(points_mm: Sequence[Point]) -> tuple[Point, ...]:
    """The outline's corners clockwise from the first, whichever way it was gone round, without corners on a straight line.

    Raises RoomError where the outline crosses or touches itself or is no area.
    """
    points = [(tidy_mm(x), tidy_mm(y)) for x, y in points_mm]
    bends = [point for i, point in enumerate(points) if _turns(points[i - 1], point, points[(i + 1) % len(points)])]
    if len(bends) < 3:
        raise RoomError(tr("all corners lie on one line; a room needs some floor"))
    outline = Polygon(bends)
    if not outline.is_valid:
        raise RoomError(tr("the walls cross or touch each other; draw them so that they meet at corners only"))
    return tuple([bends[0], *bends[:0:-1]] if outline.exterior.is_ccw else bends)


def floor_mm2(points_mm: Sequence[Point]) -> float:
    """The area inside an outline, either way round."""
    return float(Polygon(points_mm).area)


def _turns(before: Point, here: Point, after: Point) -> bool:
    (ax, ay), (bx, by) = (here[0] - before[0], here[1] - before[1]), (after[0] - here[0], after[1] - here[1])
    sizes = math.hypot(ax, ay) * math.hypot(bx, by)
    return sizes > 0 and (abs(ax * by - ay * bx) > _STRAIGHT * sizes or ax * bx + ay * by < 0)
