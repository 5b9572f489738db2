"""How panels are filled: a colour for every kind, and a hatch as well for those that must be made specially."""

from PySide6.QtCore import QLineF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPen, QPixmap

from app import theme
from core.setout.result import PanelKind

TILE_PX = 8
TILE_REPEATS = 16
"""One brush holds the pattern many times over: copying long runs of pixels costs a third of many short ones."""
CROSSED: frozenset[PanelKind] = frozenset({"shaped", "shaped-corner"})
"""Hatched both ways; other hatched kinds one way."""


@theme.kept(64)
def panel_brush(kind: PanelKind, ratio: float) -> QBrush:
    """A kind's fill. Hatches are one opaque tile: colour and lines in one go cost half of one over the other."""
    colour = QColor(theme.shown.panel_fills[kind])
    return QBrush(_tile(colour, kind in CROSSED, ratio)) if kind in theme.HATCHED_KINDS else QBrush(colour)


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
