"""How far each panel is, drawn so that it shows without colour: a tick, two ticks, a bar along the foot, a cross."""

from collections import defaultdict
from collections.abc import Collection, Iterable, Mapping, Sequence

from PySide6.QtCore import QLine, QPoint, QPointF, QRect, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygon

from app import theme
from app.elevation import lettering
from app.elevation.content import is_rectangle, roomiest_box
from app.elevation.frame import PictureFrame, Sight
from core.language import tr
from core.progress import STATES, PanelState

TICKS: Mapping[PanelState, int] = {"built": 1, "checked": 2}
CROSS_SHARE = 0.34
"""How far each arm of a cross reaches in."""
MARKED_PX = 14
"""Lower panels carry no mark that a cross would run through."""
ROOMY_PX = 26
"""Smaller panels get thinner ticks, which do not run together."""
KEY_PX = 13
KEY_HIGH_PX = 20
SWATCH_PX = 22
GAP_PX = 14


def paint_states(painter: QPainter, seen: Sequence[Sight], frame: PictureFrame) -> None:
    """Paint the sign of every panel's state inside its face; panels still to build carry none."""
    boxes: defaultdict[PanelState, list[QRect]] = defaultdict(list)
    for placed, rect in seen:
        if placed.state != "to build":
            boxes[placed.state].append(rect if is_rectangle(placed.face) else frame.rect(roomiest_box(placed.face)))
    for state, rects in boxes.items():
        paint_signs(painter, state, rects)


def paint_signs(painter: QPainter, state: PanelState, boxes: Iterable[QRect]) -> None:
    """Paint a state's sign into each box; the same signs stand on the elevation, in its key and in lists."""
    if state in TICKS:
        for box in boxes:
            painter.setPen(_pen(2 if min(box.width(), box.height()) >= ROOMY_PX else 1))
            for tick in _ticks(box, TICKS[state]):
                painter.drawPolyline(tick)
    elif state == "hung":
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(theme.shown.ink))
        painter.drawRects([_foot(box) for box in boxes])
        painter.setBrush(Qt.BrushStyle.NoBrush)
    elif state == "taken out":
        painter.setPen(_pen(2))
        for box in boxes:
            painter.drawLines(_cross(box))


def _pen(wide_px: int) -> QPen:
    return QPen(QColor(theme.shown.ink), wide_px, Qt.PenStyle.SolidLine, Qt.PenCapStyle.FlatCap, Qt.PenJoinStyle.MiterJoin)


def _ticks(box: QRect, count: int) -> list[QPolygon]:
    """Ticks in the upper left corner, one beside the other."""
    size = max(4, min(11, box.width() // 4, box.height() * 2 // 5))
    left, top = box.left() + 3, box.top() + 3
    return [
        QPolygon(
            [
                QPoint(left + step, top + size // 2),
                QPoint(left + step + size // 3, top + size - 1),
                QPoint(left + step + size - 1, top),
            ]
        )
        for step in (number * (size - 1) for number in range(count))
    ]


def _cross(box: QRect) -> list[QLine]:
    """A cross from corner to corner, broken off where the mark stands."""
    left, top, right, bottom = box.left() + 2, box.top() + 2, box.left() + box.width() - 2, box.top() + box.height() - 2
    share = CROSS_SHARE if box.height() >= MARKED_PX else 0.5
    across, up = round((right - left) * share), round((bottom - top) * share)
    return [
        QLine(left, top, left + across, top + up),
        QLine(right, top, right - across, top + up),
        QLine(left, bottom, left + across, bottom - up),
        QLine(right, bottom, right - across, bottom - up),
    ]


def _foot(box: QRect) -> QRect:
    """A bar along the foot, as high as a seventh of the panel."""
    high = max(3, min(12, box.height() // 7))
    return QRect(box.left() + 2, box.top() + box.height() - high - 1, max(box.width() - 4, 1), high)


def key_box(states: Collection[PanelState], size: QSize) -> QRect:
    """Where the key stands at the foot of a view; an empty box where no panel has a sign."""
    shown = _with_signs(states)
    wide = sum(_entry_px(state) for state in shown) + GAP_PX if shown else 0
    return QRect((size.width() - wide) // 2, size.height() - theme.px(KEY_HIGH_PX) - 4, wide, theme.px(KEY_HIGH_PX))


def _with_signs(states: Collection[PanelState]) -> list[PanelState]:
    return [state for state in STATES if state in states and state != "to build"]


def paint_key(painter: QPainter, states: Collection[PanelState], size: QSize) -> None:
    """The key to the signs at the foot of a view; nothing where no panel has one."""
    box = key_box(states, size)
    if box.isEmpty():
        return
    left, top = box.left(), box.top()
    painter.fillRect(box, QColor(theme.shown.card))
    painter.setFont(lettering.font(theme.px(KEY_PX)))
    x = left + GAP_PX
    for state in _with_signs(states):
        swatch = QRect(x, top + 2, theme.px(SWATCH_PX), theme.px(KEY_HIGH_PX) - 5)
        painter.setPen(QPen(QColor(theme.shown.panel_edge), 1))
        painter.setBrush(QColor(theme.shown.panel_fills["full"]))
        painter.drawRect(swatch)
        paint_signs(painter, state, [swatch])
        painter.setPen(QColor(theme.shown.ink))
        middle = x + theme.px(SWATCH_PX) + 6 + lettering.width_px(tr(state), theme.px(KEY_PX)) / 2
        lettering.write(painter, QPointF(middle, top + theme.px(KEY_HIGH_PX) / 2), tr(state), theme.px(KEY_PX))
        x += _entry_px(state)


def _entry_px(state: PanelState) -> int:
    return theme.px(SWATCH_PX) + 6 + round(lettering.width_px(tr(state), theme.px(KEY_PX))) + GAP_PX
