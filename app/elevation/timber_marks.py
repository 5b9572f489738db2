"""Timber: solid where the lining leaves it bare, and behind the panels as a tint with dashed, that is hidden, edges."""

from functools import lru_cache

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPixmap

from app import theme
from app.elevation.content import WallContent
from app.elevation.frame import PictureFrame

LEAST_EDGE_PX = 7
"""Narrower timber shows as a tint only."""
DASH_PX, GAP_PX = 5, 4


def timber_rects(content: WallContent, frame: PictureFrame) -> list[QRect]:
    """The wall's timber in the picture's pixels, as far as it is in sight."""
    rects = (frame.rect_mm(t.left_mm, t.bottom_mm, t.left_mm + t.width_mm, t.bottom_mm + t.height_mm) for t in content.timber)
    return [rect for rect in rects if frame.sees(rect)]


def paint_bare_timber(painter: QPainter, rects: list[QRect]) -> None:
    """Paint the frame as it stands; panels then cover most of it."""
    painter.setPen(QPen(QColor(theme.TIMBER_EDGE), 1))
    painter.setBrush(QColor(theme.TIMBER))
    painter.drawRects(rects)


def paint_timber_behind(painter: QPainter, rects: list[QRect]) -> None:
    """Paint the frame over the panels that hide it."""
    tint = QColor(theme.TIMBER)
    tint.setAlpha(70)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(tint)
    painter.drawRects(rects)
    ratio = painter.device().devicePixelRatioF()
    for rect in rects:
        if min(rect.width(), rect.height()) >= LEAST_EDGE_PX:
            _dash_long_edges(painter, rect, ratio)


def _dash_long_edges(painter: QPainter, rect: QRect, ratio: float) -> None:
    """Dashes come from a tile: a dashed pen would cost ten times as much."""
    upright = rect.height() >= rect.width()
    tile = _dashes(upright, ratio)
    if upright:
        painter.drawTiledPixmap(QRect(rect.left(), rect.top(), 1, rect.height()), tile)
        painter.drawTiledPixmap(QRect(rect.left() + rect.width(), rect.top(), 1, rect.height()), tile)
    else:
        painter.drawTiledPixmap(QRect(rect.left(), rect.top(), rect.width(), 1), tile)
        painter.drawTiledPixmap(QRect(rect.left(), rect.top() + rect.height(), rect.width(), 1), tile)


@lru_cache(maxsize=8)
def _dashes(upright: bool, ratio: float) -> QPixmap:
    long_px = DASH_PX + GAP_PX
    wide, high = (1, long_px) if upright else (long_px, 1)
    pixmap = QPixmap(max(1, round(wide * ratio)), max(1, round(high * ratio)))
    pixmap.setDevicePixelRatio(ratio)
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    painter.fillRect(QRect(0, 0, 1 if upright else DASH_PX, DASH_PX if upright else 1), QColor(theme.TIMBER_EDGE))
    painter.end()
    return pixmap
