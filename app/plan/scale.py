"""Where plan millimetres lie on the widget, and where openings lie on the plan."""

from collections.abc import Iterable
from dataclasses import dataclass

from PySide6.QtCore import QPointF

from app import theme
from core.room import Opening, Point, Room

MARGIN_PX = 46.0
"""Room round the plan for letters and lengths."""


@dataclass(frozen=True, slots=True)
class PlanScale:
    """Where plan millimetres lie on the widget: y up on the plan, down on the screen."""

    px_per_mm: float
    left_px: float
    bottom_px: float

    def to_px(self, point: Point) -> QPointF:
        return QPointF(self.left_px + point[0] * self.px_per_mm, self.bottom_px - point[1] * self.px_per_mm)

    def to_mm(self, position: QPointF) -> Point:
        return (position.x() - self.left_px) / self.px_per_mm, (self.bottom_px - position.y()) / self.px_per_mm


def fit_points(points_mm: Iterable[Point], width_px: float, height_px: float, margin_px: float) -> PlanScale:
    """The scale that shows all points in the middle of a widget; a metre round a single one."""
    points = list(points_mm)
    xs, ys = [x for x, _ in points], [y for _, y in points]
    spread_x, spread_y = max(xs) - min(xs), max(ys) - min(ys)
    if spread_x <= 0 and spread_y <= 0:
        spread_x = spread_y = 1000.0
    wide, high = (width_px - 2 * margin_px) / max(spread_x, 1e-6), (height_px - 2 * margin_px) / max(spread_y, 1e-6)
    scale = max(1e-6, min(wide, high))
    middle_x, middle_y = (max(xs) + min(xs)) / 2, (max(ys) + min(ys)) / 2
    return PlanScale(scale, width_px / 2 - middle_x * scale, height_px / 2 + middle_y * scale)


def fit_scale(room: Room, width_px: float, height_px: float) -> PlanScale:
    """The scale that shows the whole room in the middle of a widget."""
    return fit_points(room.corners_mm, width_px, height_px, theme.px(MARGIN_PX))


def opening_ends_mm(room: Room, opening: Opening) -> tuple[Point, Point]:
    """Where an opening begins and ends on the plan."""
    (x0, y0), (x1, y1) = room.wall_ends_mm(opening.wall)
    length = room.wall_length_mm(opening.wall)
    ux, uy = (x1 - x0) / length, (y1 - y0) / length
    left, right = opening.left_mm, opening.right_mm
    return (x0 + ux * left, y0 + uy * left), (x0 + ux * right, y0 + uy * right)
