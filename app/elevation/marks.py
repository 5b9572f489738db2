"""Marks on panels: the whole mark where it fits, its place alone where only that does."""

from collections import defaultdict
from functools import lru_cache

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter

from app import theme
from app.elevation import lettering
from app.elevation.content import PlacedFace, roomiest_box
from app.elevation.frame import PictureFrame
from core.setout.result import PanelKind

LEAST_SCALE_GROUND = 0.15
"""From here on studs show with their edges, and break behind marks so that no dash runs through a letter."""
SIZES_PX = (15, 13, 12, 11, 10)


def paint_marks(painter: QPainter, letter: str, seen: list[PlacedFace], frame: PictureFrame) -> None:
    """Each mark in the largest size that fits; its place alone where the whole does not; nothing where that is too long."""
    sized: defaultdict[int, list[tuple[QPointF, str]]] = defaultdict(list)
    grounds: defaultdict[PanelKind, list[QRectF]] = defaultdict(list)
    for placed in seen:
        rect = frame.rect(roomiest_box(placed.face))
        if fitting := _fitting(placed.mark, placed.mark.startswith(f"{letter}-"), rect.width(), rect.height()):
            text, size = fitting
            centre = QPointF(rect.x() + rect.width() / 2, rect.y() + rect.height() / 2)
            sized[size].append((centre, text))
            grounds[placed.kind].append(_label_box(centre, text, size).intersected(QRectF(rect.adjusted(2, 2, -1, -1))))
    if frame.scale >= LEAST_SCALE_GROUND:
        painter.setPen(Qt.PenStyle.NoPen)
        for kind, boxes in grounds.items():
            painter.setBrush(QColor(theme.PANEL_FILLS[kind]))
            painter.drawRects(boxes)
    painter.setPen(QColor(theme.INK))
    for size, labels in sized.items():
        painter.setFont(lettering.font(size))
        for centre, text in labels:
            lettering.write(painter, centre, text, size)


@lru_cache(maxsize=8192)
def _fitting(mark: str, may_shorten: bool, wide_px: int, high_px: int) -> tuple[str, int] | None:
    """The text and its size. A whole mark wants air around it; a place alone only has to fit."""
    texts = [(mark, 0.9), (mark.rsplit("-", 1)[-1], 0.5)] if may_shorten else [(mark, 0.9)]
    for text, air in texts:
        for size in SIZES_PX:
            if lettering.width_px(text, size) + air * size <= wide_px and size + 3 <= high_px:
                return text, size
    return None


def _label_box(centre: QPointF, text: str, size: int) -> QRectF:
    wide, high = lettering.width_px(text, size) + 6, size + 4
    return QRectF(round(centre.x() - wide / 2), round(centre.y() - high / 2), round(wide), high)
