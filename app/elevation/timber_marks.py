"""Timber: solid where the lining leaves it bare, and behind the panels as a tint with dashed, that is hidden, edges."""

from collections.abc import Iterator

from PySide6.QtCore import QRect, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPixmap

from app import theme
from app.elevation.content import WallContent
from app.elevation.frame import PictureFrame
from core.setout.result import Timber

LEAST_EDGE_PX = 7
"""Narrower timber shows as a tint only."""
DASH_PX, DASH_STEP_PX = 5, 9
STRIP_PX = 128 * DASH_STEP_PX


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
    painter.setPen(QPen(QColor(theme.shown.timber_edge), 1))
    painter.setBrush(QColor(theme.shown.timber))
    painter.drawRects(rects)


def paint_timber_behind(painter: QPainter, rects: list[QRect], frame: PictureFrame) -> None:
    """Paint the frame over the panels that hide it.

    Members are copied from strips: a see-through fill costs five times, a dashed pen twenty times as much.
    """
    ratio, clip = painter.device().devicePixelRatioF(), frame.clip
    for rect in rects:
        upright = rect.height() >= rect.width()
        across = min(rect.width(), rect.height())
        strip = _strip(across, upright, ratio)
        left, top, right, bottom = rect.left(), rect.top(), rect.left() + rect.width(), rect.top() + rect.height()
        if upright:
            for y, length in _in_sight(top, bottom, clip.top(), clip.bottom() + 1):
                painter.drawPixmap(left, y, strip, 0, 0, strip.width(), round(length * ratio))
        else:
            for x, length in _in_sight(left, right, clip.left(), clip.right() + 1):
                painter.drawPixmap(x, top, strip, 0, 0, round(length * ratio), strip.height())


def _in_sight(low: int, high: int, first: int, last: int) -> Iterator[tuple[int, int]]:
    """Start and length of each strip that a member's part in sight takes; a strip begins with a whole dash of the member."""
    start, end = low + max(0, first - low) // DASH_STEP_PX * DASH_STEP_PX, min(high, last)
    return ((at, min(end - at, STRIP_PX)) for at in range(start, end, STRIP_PX))


@theme.kept(24)
def _strip(across: int, upright: bool, ratio: float) -> QPixmap:
    """A member of a width: a tint, and its long edges dashed where it is wide enough to tell them apart."""
    tile = _tile(across, upright, ratio)
    wide, high = (across + 1, STRIP_PX) if upright else (STRIP_PX, across + 1)
    strip = _clear(wide, high, ratio)
    painter = QPainter(strip)
    painter.drawTiledPixmap(QRect(0, 0, wide, high), tile)
    painter.end()
    return strip


def _tile(across: int, upright: bool, ratio: float) -> QPixmap:
    """One dash and one gap of a strip."""
    tile = _clear(across + 1 if upright else DASH_STEP_PX, DASH_STEP_PX if upright else across + 1, ratio)
    tint = QColor(theme.shown.timber)
    tint.setAlpha(70)
    painter = QPainter(tile)
    painter.setCompositionMode(QPainter.CompositionMode.CompositionMode_Source)
    painter.fillRect(QRect(0, 0, across, DASH_STEP_PX) if upright else QRect(0, 0, DASH_STEP_PX, across), tint)
    for side in (0, across) if across >= LEAST_EDGE_PX else ():
        painter.fillRect(QRect(side, 0, 1, DASH_PX) if upright else QRect(0, side, DASH_PX, 1), QColor(theme.shown.timber_edge))
    painter.end()
    return tile


def _clear(wide: int, high: int, ratio: float) -> QPixmap:
    pixmap = QPixmap(round(wide * ratio), round(high * ratio))
    pixmap.setDevicePixelRatio(ratio)
    pixmap.fill(Qt.GlobalColor.transparent)
    return pixmap
