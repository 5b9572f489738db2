"""Timber: solid where the lining leaves it bare, and behind the panels as a tint with dashed, that is hidden, edges."""

from collections.abc import Iterator
from functools import lru_cache

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPixmap

from app import theme
from app.elevation.content import WallContent
from app.elevation.frame import PictureFrame
from core.setout.result import Timber

LEAST_EDGE_PX = 7
"""Narrower timber shows as a tint only."""
DASH_PX, GAP_PX = 5, 4
STRIP_DASHES = 256


def timber_rects(content: WallContent, frame: PictureFrame) -> list[QRect]:
    """The wall's timber in the picture's pixels, as far as it is in sight."""
    rects = (timber_rect(member, frame) for member in content.timber)
    return [rect for rect in rects if frame.sees(rect.adjusted(-1, -1, 1, 1))]


def timber_rect(member: Timber, frame: PictureFrame) -> QRect:
    """A member's place in the picture."""
    right_mm, top_mm = member.left_mm + member.width_mm, member.bottom_mm + member.height_mm
    return frame.rect_mm(member.left_mm, member.bottom_mm, right_mm, top_mm)


def paint_bare_timber(painter: QPainter, rects: list[QRect]) -> None:
    """Paint the frame as it stands; panels then cover most of it."""
    painter.setPen(QPen(QColor(theme.TIMBER_EDGE), 1))
    painter.setBrush(QColor(theme.TIMBER))
    painter.drawRects(rects)


def paint_timber_behind(painter: QPainter, rects: list[QRect], frame: PictureFrame) -> None:
    """Paint the frame over the panels that hide it."""
    tint = QColor(theme.TIMBER)
    tint.setAlpha(70)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(tint)
    painter.drawRects(rects)
    ratio = painter.device().devicePixelRatioF()
    visible = frame.clip.boundingRect()
    for rect in rects:
        if min(rect.width(), rect.height()) >= LEAST_EDGE_PX:
            _dash_long_edges(painter, rect, visible, ratio)


def _dash_long_edges(painter: QPainter, rect: QRect, visible: QRect, ratio: float) -> None:
    """Dashes are copied from a strip: a dashed pen, or a tiled picture of one dash and gap, would cost twenty times as much."""
    upright = rect.height() >= rect.width()
    left, top, right, bottom = rect.left(), rect.top(), rect.left() + rect.width(), rect.top() + rect.height()
    strip = _dashes(upright, ratio)
    if upright:
        for y, length in _in_sight(top, bottom, visible.top(), visible.bottom() + 1):
            for x in (left, right):
                painter.drawPixmap(x, y, strip, 0, 0, strip.width(), round(length * ratio))
    else:
        for x, length in _in_sight(left, right, visible.left(), visible.right() + 1):
            for y in (top, bottom):
                painter.drawPixmap(x, y, strip, 0, 0, round(length * ratio), strip.height())


def _in_sight(low: int, high: int, first: int, last: int) -> Iterator[tuple[int, int]]:
    """Start and length of each strip that the part of an edge in sight takes; a dash begins where one of the edge does."""
    step = DASH_PX + GAP_PX
    start, end = low + max(0, first - low) // step * step, min(high, last)
    return ((at, min(end - at, STRIP_DASHES * step)) for at in range(start, end, STRIP_DASHES * step))


@lru_cache(maxsize=8)
def _dashes(upright: bool, ratio: float) -> QPixmap:
    long_px = STRIP_DASHES * (DASH_PX + GAP_PX)
    wide, high = (1, long_px) if upright else (long_px, 1)
    pixmap = QPixmap(max(1, round(wide * ratio)), max(1, round(high * ratio)))
    pixmap.setDevicePixelRatio(ratio)
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    for start in range(0, long_px, DASH_PX + GAP_PX):
        dash = QRect(0, start, 1, DASH_PX) if upright else QRect(start, 0, DASH_PX, 1)
        painter.fillRect(dash, QColor(theme.TIMBER_EDGE))
    painter.end()
    return pixmap
