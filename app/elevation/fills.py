"""How panels are filled: a colour for every kind, and a hatch as well for those that must be made specially."""

from PySide6.QtCore import QLine, QLineF, QRect, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPen, QPixmap

from app import theme
from core.setout.result import PanelKind

TILE_PX = 8
TILE_REPEATS = 16
"""One brush holds the pattern many times over: copying long runs of pixels costs a third of many short ones."""
TICKED: frozenset[PanelKind] = frozenset({"half-height", "half-width", "quarter"})
CROSSED: frozenset[PanelKind] = frozenset({"shaped", "shaped-corner"})
"""Hatched both ways; other hatched kinds one way."""


@theme.kept(64)
def panel_brush(kind: PanelKind, ratio: float) -> QBrush:
    """A kind's fill. Hatches are one opaque tile: colour and lines in one go cost half of one over the other."""
    colour = QColor(theme.shown.panel_fills[kind])
    return QBrush(_tile(colour, kind in CROSSED, ratio)) if kind in theme.HATCHED_KINDS else QBrush(colour)


def size_ticks(kind: PanelKind, rect: QRect) -> list[QLine]:
    """Half-height and half-width panels carry a tick at the middle of the edges that a full panel has twice as long."""
    lines = []
    tick = min(6, rect.width() // 4, rect.height() // 4)
    right, bottom = rect.left() + rect.width(), rect.top() + rect.height()
    if kind in ("half-height", "quarter"):
        y = rect.center().y()
        lines += [QLine(rect.left(), y, rect.left() + tick, y), QLine(right - tick, y, right, y)]
    if kind in ("half-width", "quarter"):
        x = rect.center().x()
        lines += [QLine(x, rect.top(), x, rect.top() + tick), QLine(x, bottom - tick, x, bottom)]
    return lines


def paint_swatch(painter: QPainter, kind: PanelKind, rect: QRect) -> None:
    """A kind as it looks on the walls, for a key to them."""
    # Restored, since a pixmap brush makes Qt 6.11 misplace text drawn after it on dense screens.
    painter.save()
    painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    painter.setBrushOrigin(rect.topLeft())
    painter.setPen(QPen(QColor(theme.shown.panel_edge), 1))
    painter.setBrush(panel_brush(kind, painter.device().devicePixelRatioF()))
    painter.drawRect(rect)
    painter.drawLines(size_ticks(kind, rect))
    painter.restore()


def _tile(colour: QColor, crossed: bool, ratio: float) -> QPixmap:
    side = TILE_PX * TILE_REPEATS
    pixmap = QPixmap(round(side * ratio), round(side * ratio))
    pixmap.setDevicePixelRatio(ratio)
    pixmap.fill(colour)
    painter = QPainter(pixmap)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(theme.shaded(colour.name(), 132), 1, Qt.PenStyle.SolidLine, Qt.PenCapStyle.SquareCap))
    for shift in range(-side, side + TILE_PX, TILE_PX):
        painter.drawLine(QLineF(shift, side, shift + side, 0))
        if crossed:
            painter.drawLine(QLineF(shift, 0, shift + side, side))
    painter.end()
    return pixmap
