"""What lies under a pixel of the plan."""

import math
from dataclasses import dataclass

from PySide6.QtCore import QPointF

from app.plan.scale import PlanScale, opening_ends_mm
from core.room import Opening, Point, Room

GRAB_PX = 9.0
OPENING_GRAB_PX = 7.0


@dataclass(frozen=True, slots=True)
class PlanHits:
    """Answers for one room at one scale."""

    room: Room
    scale: PlanScale

    def corner(self, position: QPointF) -> int | None:
        """The corner there."""
        corners = [self.scale.to_px(corner) for corner in self.room.corners_mm]
        near = min(range(len(corners)), key=lambda i: _distance(corners[i], position))
        return near if _distance(corners[near], position) <= GRAB_PX else None

    def opening(self, position: QPointF) -> Opening | None:
        """The opening there."""
        point = self.scale.to_mm(position)
        for opening in self.room.openings:
            ends = opening_ends_mm(self.room, opening)
            if _off_segment_mm(*ends, point) * self.scale.px_per_mm <= OPENING_GRAB_PX:
                return opening
        return None

    def wall_near(self, position: QPointF) -> int:
        """The nearest wall, however far."""
        point = self.scale.to_mm(position)
        return min(range(self.room.wall_count), key=lambda wall: _off_segment_mm(*self.room.wall_ends_mm(wall), point))

    def is_on(self, wall: int, position: QPointF) -> bool:
        """Whether that wall itself is there."""
        off_mm = _off_segment_mm(*self.room.wall_ends_mm(wall), self.scale.to_mm(position))
        return off_mm * self.scale.px_per_mm <= GRAB_PX


def _distance(a: QPointF, b: QPointF) -> float:
    return math.hypot(a.x() - b.x(), a.y() - b.y())


def _off_segment_mm(start: Point, end: Point, point: Point) -> float:
    (x0, y0), (x1, y1) = start, end
    square = (x1 - x0) ** 2 + (y1 - y0) ** 2
    part = ((point[0] - x0) * (x1 - x0) + (point[1] - y0) * (y1 - y0)) / square if square else 0.0
    part = max(0.0, min(1.0, part))
    return math.dist(point, (x0 + part * (x1 - x0), y0 + part * (y1 - y0)))
