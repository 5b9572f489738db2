"""Openings as an elevation shows them: each kind by its own lines, its name where there is room."""

from collections.abc import Iterable

from PySide6.QtCore import QLine, QPointF, QRect, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from app import theme
from app.elevation import lettering
from app.elevation.frame import PictureFrame
from core.room import Opening

LEAST_GLYPH_PX = 26


def paint_openings(painter: QPainter, openings: Iterable[Opening], frame: PictureFrame) -> None:
    """Paint the openings over the wall."""
    for opening in openings:
        rect = opening_rect(opening, frame)
        if frame.sees(rect.adjusted(-1, -1, 1, 1)):
            _paint_opening(painter, opening, rect)


def opening_rect(opening: Opening, frame: PictureFrame) -> QRect:
    """An opening's place in the picture."""
    return frame.rect_mm(opening.left_mm, opening.sill_mm, opening.right_mm, opening.head_mm)


def _paint_opening(painter: QPainter, opening: Opening, rect: QRect) -> None:
    large = min(rect.width(), rect.height()) >= LEAST_GLYPH_PX
    painter.setBrush(QColor(theme.shown.opening_fill))
    painter.setPen(QPen(QColor(theme.shown.opening_edge), 2 if large else 1))
    painter.drawRect(rect)
    painter.setPen(QPen(QColor(theme.shown.edge), 1))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    if opening.kind in ("outlet", "switch"):
        _paint_fitting(painter, opening, rect)
    elif large:
        painter.drawLines(_glyph(opening, rect))
        _name(painter, opening, rect)


def _glyph(opening: Opening, rect: QRect) -> list[QLine]:
    left, top, right, bottom = rect.left(), rect.top(), rect.left() + rect.width(), rect.top() + rect.height()
    inset = max(4, min(rect.width(), rect.height()) // 14)
    inner = rect.adjusted(inset, inset, -inset, 0 if opening.kind == "door" else -inset)
    il, it, ir, ib = inner.left(), inner.top(), inner.left() + inner.width(), inner.top() + inner.height()
    sides = [QLine(il, it, ir, it), QLine(il, it, il, ib), QLine(ir, it, ir, ib)]
    if opening.kind == "door":
        middle = (top + bottom) // 2
        handle = QLine(ir - inset * 2, middle, ir - inset * 2, middle + inset * 2)
        return [*sides, handle]
    sides.append(QLine(il, ib, ir, ib))
    if opening.kind == "window":
        across = (left + right) // 2
        return [*sides, QLine(across, it, across, ib)]
    return [
        *sides,
        QLine(left, top, il, it),
        QLine(right, top, ir, it),
        QLine(left, bottom, il, ib),
        QLine(right, bottom, ir, ib),
    ]


def _paint_fitting(painter: QPainter, opening: Opening, rect: QRect) -> None:
    """Outlets carry a ring, switches a rocker's bar."""
    radius = min(rect.width(), rect.height()) * 0.3
    if radius < 1.5:
        return
    centre = QPointF(rect.x() + rect.width() / 2, rect.y() + rect.height() / 2)
    painter.setPen(QPen(QColor(theme.shown.opening_edge), 1))
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    if opening.kind == "outlet":
        painter.drawEllipse(centre, radius, radius)
    else:
        painter.drawLine(centre - QPointF(0, radius), centre + QPointF(0, radius))
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)


def _name(painter: QPainter, opening: Opening, rect: QRect) -> None:
    for size in lettering.sizes(15, 13, 12, 11):
        if lettering.width_px(opening.id, size) + 16 <= rect.width() and 2 * size <= rect.height():
            painter.setPen(QColor(theme.shown.quiet_ink))
            painter.setFont(lettering.font(size))
            third = rect.y() + rect.height() * (0.36 if opening.kind == "door" else 0.5)
            centre = QPointF(rect.x() + rect.width() / 2, third)
            wide, high = lettering.width_px(opening.id, size) + 8, size + 6
            ground = QRect(round(centre.x() - wide / 2), round(centre.y() - high / 2), round(wide), round(high))
            painter.fillRect(ground, QColor(theme.shown.opening_fill))
            lettering.write(painter, centre, opening.id, size)
            return
