"""How panels are filled: a colour for every kind, and a hatch as well for those that must be made specially."""

from functools import lru_cache

from PySide6.QtCore import QLineF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPen, QPixmap

from app import theme
from core.setout.result import PanelKind

TILE_PX = 8
CROSSED: frozenset[PanelKind] = frozenset({"shaped", "shaped-corner"})
"""Hatched both ways; other hatched kinds one way."""


@lru_cache(maxsize=64)
def panel_brush(kind: PanelKind, ratio: float) -> QBrush:
    """A kind's fill. Hatches are one opaque tile: colour and lines in one go cost half of one over the other."""
    colour = QColor(theme.PANEL_FILLS[kind])
    return QBrush(_tile(colour, kind in CROSSED, ratio)) if kind in theme.HATCHED_KINDS else QBrush(colour)


def _tile(colour: QColor, crossed: bool, ratio: float) -> QPixmap:
    pixmap = QPixmap(round(TILE_PX * ratio), round(TILE_PX * ratio))
    pixmap.setDevicePixelRatio(ratio)
    pixmap.fill(colour)
    painter = QPainter(pixmap)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(colour.darker(132), 1, Qt.PenStyle.SolidLine, Qt.PenCapStyle.SquareCap))
    for shift in (-TILE_PX, 0, TILE_PX):
        painter.drawLine(QLineF(shift, TILE_PX, shift + TILE_PX, 0))
        if crossed:
            painter.drawLine(QLineF(shift, 0, shift + TILE_PX, TILE_PX))
    painter.end()
    return pixmap
