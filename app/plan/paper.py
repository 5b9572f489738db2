"""The large paper that rooms are sketched and checked on: ground, outline, dimensions."""

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, QSizeF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPen, QPolygonF

from app import theme
from app.plan.scale import PlanScale
from core.room import Point, Units, wall_letter
from core.units import MM_PER_FOOT, format_length

LENGTH_PX = 17
LETTER_PX = 22
WALL_PX = 4.0
LEAST_GRID_PX = 26.0
CLEAR_PX = 8.0


@dataclass(frozen=True, slots=True)
class Dimension:
    """A length to point out, between two places of the plan."""

    start: Point
    end: Point
    text: str


class Paper:
    """One painting of the large paper."""

    def __init__(self, painter: QPainter, scale: PlanScale, size: QSizeF, units: Units) -> None:
        self._painter, self._scale, self._size, self._units = painter, scale, size, units

    def draw_ground(self) -> None:
        """The paper, with a small cross at every metre or every fourth foot, and a bar that says how far that is."""
        self._painter.fillRect(QRectF(QPointF(), self._size), QColor(theme.shown.card))
        step_mm = 1000.0 if self._units == "mm" else float(4 * MM_PER_FOOT)
        while step_mm * self._scale.px_per_mm < LEAST_GRID_PX:
            step_mm *= 5
        self._painter.setPen(QPen(QColor(theme.shown.edge), 1))
        for spot in self._crosses(step_mm):
            self._painter.drawLine(spot - QPointF(3, 0), spot + QPointF(3, 0))
            self._painter.drawLine(spot - QPointF(0, 3), spot + QPointF(0, 3))
        self._draw_bar(step_mm)

    def _crosses(self, step_mm: float) -> Iterator[QPointF]:
        left, top = self._scale.to_mm(QPointF())
        right, bottom = self._scale.to_mm(QPointF(self._size.width(), self._size.height()))
        for column in range(math.ceil(left / step_mm), math.floor(right / step_mm) + 1):
            for row in range(math.ceil(bottom / step_mm), math.floor(top / step_mm) + 1):
                yield self._scale.to_px((column * step_mm, row * step_mm))

    def _draw_bar(self, step_mm: float) -> None:
        ink = QColor(theme.shown.quiet_ink)
        start = QPointF(18, self._size.height() - 18)
        end = start + QPointF(step_mm * self._scale.px_per_mm, 0)
        self._painter.setPen(QPen(ink, 2))
        self._painter.drawLine(start, end)
        for spot in (start, end):
            self._painter.drawLine(spot - QPointF(0, 4), spot + QPointF(0, 4))
        words = f"{step_mm / 1000:g} m" if self._units == "mm" else f"{step_mm / float(MM_PER_FOOT):g}'"
        self._text(start + QPointF((end - start).x() / 2, -theme.px(11)), words, theme.TEXT_PX, ink)

    def draw_behind(self, points: Sequence[Point]) -> None:
        """The walls as they stand now, faint behind new ones."""
        self._painter.setBrush(Qt.BrushStyle.NoBrush)
        self._painter.setPen(QPen(QColor(theme.shown.edge), 2, Qt.PenStyle.DashLine))
        self._painter.drawPolygon(QPolygonF([self._scale.to_px(point) for point in points]))

    def draw_outline(self, points: Sequence[Point], *, closed: bool) -> None:
        """Walls between corners, each with its letter and length; the floor where they are closed."""
        corners = [self._scale.to_px(point) for point in points]
        if closed:
            self._painter.setPen(Qt.PenStyle.NoPen)
            self._painter.setBrush(QColor(theme.shown.bench))
            self._painter.drawPolygon(QPolygonF(corners))
        self._painter.setPen(QPen(QColor(theme.shown.ink), WALL_PX, Qt.PenStyle.SolidLine, Qt.PenCapStyle.SquareCap))
        ways = len(corners) if closed else len(corners) - 1
        for wall in range(ways):
            self._painter.drawLine(corners[wall], corners[(wall + 1) % len(corners)])
        side = _outer_side(points)
        for wall in range(ways):
            self._draw_name(wall, points[wall], points[(wall + 1) % len(points)], side)
        self._painter.setBrush(QColor(theme.shown.card))
        self._painter.setPen(QPen(QColor(theme.shown.ink), 2))
        for corner in corners:
            self._painter.drawRect(QRectF(corner.x() - 4.5, corner.y() - 4.5, 9, 9))

    def _draw_name(self, wall: int, start: Point, end: Point, side: float) -> None:
        """Letter and length beside a wall, clear of it whichever way it runs; the letter alone where there is little room."""
        one, other = self._scale.to_px(start), self._scale.to_px(end)
        step = other - one
        length_px = math.hypot(step.x(), step.y()) or 1.0
        out = QPointF(step.y(), -step.x()) / length_px * side
        letter, length = wall_letter(wall), format_length(math.dist(start, end), self._units, with_unit=False)
        words = f"{letter}  {length}" if length_px > 34 else letter
        wide = QFontMetricsF(self._font(LENGTH_PX, bold=True)).horizontalAdvance(words)
        off = 8 + abs(out.x()) * wide / 2 + abs(out.y()) * theme.px(LENGTH_PX) * 0.6
        self._text((one + other) / 2 + out * off, words, LENGTH_PX, QColor(theme.shown.ink), bold=True)

    def draw_line(self, start: Point, end: Point, *, dashed: bool, colour: str = "") -> None:
        """A line that is no wall yet, or none at all; in the accent unless another colour is given."""
        style = Qt.PenStyle.DashLine if dashed else Qt.PenStyle.SolidLine
        self._painter.setPen(QPen(QColor(colour or theme.shown.accent), 3, style))
        self._painter.drawLine(self._scale.to_px(start), self._scale.to_px(end))

    def draw_guide(self, start: Point, end: Point) -> None:
        """A fine dotted line: what lines up with what."""
        self._painter.setPen(QPen(QColor(theme.shown.snap_line), 1.5, Qt.PenStyle.DotLine))
        self._painter.drawLine(self._scale.to_px(start), self._scale.to_px(end))

    def draw_target(self, point: Point) -> None:
        """A ring round a corner that a click would meet."""
        self._painter.setPen(QPen(QColor(theme.shown.accent), 3))
        self._painter.setBrush(QColor(theme.shown.accent_wash))
        self._painter.drawEllipse(self._scale.to_px(point), 11, 11)

    def draw_dimension(self, dimension: Dimension, *, off_px: float = 0.0, ticks: bool = True) -> None:
        """A dimension line with its text on a solid ground; ``off_px`` to the right of its way."""
        one, other = self._scale.to_px(dimension.start), self._scale.to_px(dimension.end)
        step = other - one
        length = math.hypot(step.x(), step.y())
        if length < 1:
            return
        along = step / length
        right = QPointF(-along.y(), along.x())
        one, other = one + right * off_px, other + right * off_px
        self._painter.setPen(QPen(QColor(theme.shown.accent), 2))
        self._painter.drawLine(one, other)
        for spot in (one, other) if ticks else ():
            self._painter.drawLine(spot + (right + along) * 6, spot - (right + along) * 6)
        wide = QFontMetricsF(self._font(LENGTH_PX, bold=True)).horizontalAdvance(dimension.text) + 18
        # Beside an upright wall the text is wider than the line stands off it.
        clear = max(0.0, abs(right.x()) * wide / 2 + CLEAR_PX - abs(off_px)) if off_px else 0.0
        self._chip((one + other) / 2 + right * math.copysign(clear, off_px), dimension.text, wide)

    def _chip(self, middle: QPointF, words: str, wide: float) -> None:
        half_x, half_y = wide / 2 + 4, theme.px(14) + 4.0
        x = min(max(middle.x(), half_x), max(half_x, self._size.width() - half_x))
        y = min(max(middle.y(), half_y), max(half_y, self._size.height() - half_y))
        box = QRectF(x - wide / 2, y - theme.px(14), wide, 2 * theme.px(14))
        self._painter.setPen(Qt.PenStyle.NoPen)
        self._painter.setBrush(QColor(theme.shown.accent))
        self._painter.drawRoundedRect(box, 3, 3)
        self._text(box.center(), words, LENGTH_PX, QColor(theme.shown.on_accent), bold=True)

    def _text(self, middle: QPointF, words: str, size_px: int, ink: QColor, *, bold: bool = False) -> None:
        self._painter.setFont(self._font(size_px, bold=bold))
        self._painter.setPen(ink)
        self._painter.drawText(QRectF(middle.x() - 300, middle.y() - 30, 600, 60), Qt.AlignmentFlag.AlignCenter, words)

    def _font(self, size_px: int, *, bold: bool) -> QFont:
        font = QFont(self._painter.font())
        font.setPixelSize(theme.px(size_px))
        font.setBold(bold)
        return font


def _outer_side(points: Sequence[Point]) -> float:
    """1 where the outline so far goes clockwise, so that outside lies to the left of the way; else -1."""
    turned = (
        sum(x0 * y1 - x1 * y0 for (x0, y0), (x1, y1) in zip(points, [*points[1:], points[0]], strict=True)) if points else 0.0
    )
    return -1.0 if turned > 0 else 1.0
