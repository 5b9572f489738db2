"""Marks on panels: the whole mark where it fits, its place alone where only that does."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QStaticText

from app import theme
from app.elevation import lettering
from app.elevation.content import is_rectangle, roomiest_box
from app.elevation.frame import PictureFrame, Sight
from app.text_shape import text_shape
from core.setout.result import PanelKind

LEAST_SCALE_GROUND = 0.15
"""From here on studs show with their edges, and break behind marks so that no dash runs through a letter."""
SIZES_PX = (15, 13, 12, 11, 10)


@dataclass(frozen=True, slots=True)
class _Label:
    """A mark in its place, with the ground that keeps it readable."""

    size: int
    text: tuple[int, int, QStaticText]
    ground: QRectF


def paint_marks(painter: QPainter, letter: str, seen: Sequence[Sight], frame: PictureFrame) -> None:
    """Each mark in the largest size that fits; its place alone where the whole does not; nothing where that is too long."""
    sized: defaultdict[int, list[_Label]] = defaultdict(list)
    grounds: defaultdict[PanelKind, list[QRectF]] = defaultdict(list)
    for placed, whole in seen:
        rect = whole if is_rectangle(placed.face) else frame.rect(roomiest_box(placed.face))
        if label := _label(placed.mark, letter, rect.x(), rect.y(), rect.width(), rect.height()):
            sized[label.size].append(label)
            grounds[placed.kind].append(label.ground)
    if frame.scale >= LEAST_SCALE_GROUND:
        painter.setPen(Qt.PenStyle.NoPen)
        for kind, boxes in grounds.items():
            painter.setBrush(QColor(theme.shown.panel_fills[kind]))
            painter.drawRects(boxes)
    painter.setPen(QColor(theme.shown.ink))
    for size, labels in sized.items():
        painter.setFont(lettering.font(size))
        for label in labels:
            painter.drawStaticText(*label.text)


@theme.kept(8192)
def _label(mark: str, letter: str, x: int, y: int, wide: int, high: int) -> _Label | None:
    """The label of a panel at a place; most panels stay where they are from one step of a drag to the next."""
    fitting = _fitting(mark, mark.startswith(f"{letter}-"), wide, high)
    if fitting is None:
        return None
    text, size = fitting
    centre = QPointF(x + wide / 2, y + high / 2)
    ground = _label_box(centre, text, size).intersected(QRectF(x + 2, y + 2, wide - 3, high - 3))
    return _Label(size, lettering.prepared(centre, text, size), ground)


@theme.kept(8192)
def _fitting(mark: str, may_shorten: bool, wide_px: int, high_px: int) -> tuple[str, int] | None:
    """The text and its size. A whole mark wants air around it; a place alone only has to fit."""
    texts = [(mark, 0.9), (mark.rsplit("-", 1)[-1], 0.5)] if may_shorten else [(mark, 0.9)]
    for text, air in texts:
        for size in lettering.sizes(*SIZES_PX):
            if lettering.width_px(text_shape(text), size) + air * size <= wide_px and size + 3 <= high_px:
                return text, size
    return None


def _label_box(centre: QPointF, text: str, size: int) -> QRectF:
    wide, high = lettering.width_px(text, size) + 6, size + 4
    return QRectF(round(centre.x() - wide / 2), round(centre.y() - high / 2), round(wide), high)
