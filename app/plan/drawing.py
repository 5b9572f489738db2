"""One painting of the plan: floor, lining, walls, openings, letters and corners."""

import math

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QPainter, QPen, QPolygonF

from app import theme
from app.document import Document
from app.plan.scale import PlanScale, opening_ends_mm
from core.room import Opening, wall_letter
from core.units import format_length


class PlanDrawing:
    """One painting of the plan."""

    def __init__(self, painter: QPainter, document: Document, scale: PlanScale) -> None:
        self._painter, self._document, self._scale = painter, document, scale
        self._room = document.room

    def draw_walls(self) -> None:
        """Floor, lining, walls and letters, which a drag of an opening leaves alone."""
        corners = [self._scale.to_px(point) for point in self._room.corners_mm]
        self._painter.setPen(Qt.PenStyle.NoPen)
        self._painter.setBrush(QColor(theme.shown.paper))
        self._painter.drawPolygon(QPolygonF(corners))
        for wall in range(self._room.wall_count):
            self._draw_wall(wall)

    def draw_rest(self, corner: int | None) -> None:
        """Openings and corners over the walls."""
        for opening in self._room.openings:
            self._draw_opening(opening)
        for index, point in enumerate(self._room.corners_mm):
            self._draw_corner(self._scale.to_px(point), chosen=index == corner)

    def _draw_wall(self, wall: int) -> None:
        start, end = (self._scale.to_px(p) for p in self._room.wall_ends_mm(wall))
        out = _outwards(start, end)
        current = wall == self._document.wall
        self._painter.setPen(_flat_pen(theme.shown.shell, 5))
        self._painter.drawLine(start - out * 4, end - out * 4)
        self._painter.setPen(QPen(QColor(theme.shown.accent if current else theme.shown.ink), 5 if current else 3))
        self._painter.drawLine(start, end)
        self._draw_letter(wall, (start + end) / 2 + out * theme.px(23), current=current)

    def _draw_letter(self, wall: int, middle: QPointF, *, current: bool) -> None:
        room, font = self._room, QFont(self._painter.font())
        length = format_length(room.wall_length_mm(wall), room.display_units, with_unit=False)
        if current:
            wide = theme.px(26)
            self._painter.setPen(Qt.PenStyle.NoPen)
            self._painter.setBrush(QColor(theme.shown.accent))
            self._painter.drawRoundedRect(QRectF(middle.x() - wide / 2, middle.y() - theme.px(18), wide, theme.px(21)), 3, 3)
        font.setPixelSize(theme.px(17))
        font.setBold(True)
        self._painter.setFont(font)
        self._painter.setPen(QColor(theme.shown.on_accent if current else theme.shown.ink))
        self._painter.drawText(_box(middle - QPointF(0, theme.px(8))), Qt.AlignmentFlag.AlignCenter, wall_letter(wall))
        font.setPixelSize(theme.px(theme.SMALL_PX))
        font.setBold(False)
        self._painter.setFont(font)
        self._painter.setPen(QColor(theme.shown.ink))
        self._painter.drawText(_box(middle + QPointF(0, theme.px(10))), Qt.AlignmentFlag.AlignCenter, length)

    def _draw_opening(self, opening: Opening) -> None:
        start, end = (self._scale.to_px(p) for p in opening_ends_mm(self._room, opening))
        out = _outwards(start, end)
        chosen = self._document.selection == opening.id
        through = opening.kind in ("door", "window")
        ink = QColor(theme.shown.accent if chosen else theme.shown.opening_edge)
        self._painter.setPen(_flat_pen(theme.shown.opening_fill, 12 if through else 5))
        self._painter.drawLine(start - out * 2, end - out * 2)
        self._painter.setPen(QPen(ink, 2.5 if chosen else 1.5))
        for end_point in (start, end):
            self._painter.drawLine(end_point + out * 4, end_point - out * 8)
        inner = 3.0 if opening.kind == "window" else 8.0
        if opening.kind != "door":
            self._painter.drawLine(start - out * inner, end - out * inner)
        if opening.kind in ("window", "niche"):
            self._painter.drawLine(start + out * 2, end + out * 2)

    def _draw_corner(self, point: QPointF, *, chosen: bool) -> None:
        size = 6.5 if chosen else 4.0
        self._painter.setPen(QPen(QColor(theme.shown.accent if chosen else theme.shown.ink), 2))
        self._painter.setBrush(QColor(theme.shown.accent_wash if chosen else theme.shown.card))
        self._painter.drawRect(QRectF(point.x() - size, point.y() - size, 2 * size, 2 * size))


def _flat_pen(colour: str, width: float) -> QPen:
    return QPen(QColor(colour), width, Qt.PenStyle.SolidLine, Qt.PenCapStyle.FlatCap)


def _outwards(start: QPointF, end: QPointF) -> QPointF:
    """The unit vector out of the room: corners run clockwise, so it lies to the left of the way."""
    step = end - start
    length = math.hypot(step.x(), step.y()) or 1.0
    return QPointF(step.y() / length, -step.x() / length)


def _box(middle: QPointF) -> QRectF:
    return QRectF(middle.x() - 90, middle.y() - 18, 180, 36)
