"""Signs that lie in a wall and turn with it: how far a panel is, what kind an opening is. Millimetres, z up."""

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainterPath, QPolygonF

from core.progress import PanelState
from core.room import Opening

TICKS = {"built": 1, "checked": 2}
TICK_SHARE = 0.34
"""Of the panel's shorter side."""
CROSS_SHARE = 0.34
FOOT_SHARE = 0.16
FOOT_UP_SHARE = 0.1
"""The bar keeps clear of the joint below it."""
INSET_SHARE = 0.06


def sign_lines(path: QPainterPath, state: PanelState, box: QRectF) -> None:
    """Ticks in the upper left corner for what is built and checked, a broken cross for what was taken out."""
    if state in TICKS:
        size = TICK_SHARE * min(box.width(), box.height())
        left, top = box.left() + INSET_SHARE * box.width(), box.bottom() - INSET_SHARE * box.height()
        for number in range(TICKS[state]):
            x = left + 0.9 * number * size
            path.addPolygon(QPolygonF([QPointF(x, top - size / 2), QPointF(x + size / 3, top - size), QPointF(x + size, top)]))
    elif state == "taken out":
        across, up = CROSS_SHARE * box.width(), CROSS_SHARE * box.height()
        for x, inwards in ((box.left(), across), (box.right(), -across)):
            for z, upwards in ((box.top(), up), (box.bottom(), -up)):
                path.moveTo(x, z)
                path.lineTo(x + inwards, z + upwards)


def sign_bars(path: QPainterPath, state: PanelState, box: QRectF) -> None:
    """A bar along the foot of what hangs."""
    if state == "hung":
        inset, up = INSET_SHARE * box.width(), FOOT_UP_SHARE * box.height()
        path.addRect(QRectF(box.left() + inset, box.top() + up, box.width() - 2 * inset, FOOT_SHARE * box.height()))


def paint_opening_lines(path: QPainterPath, opening: Opening) -> None:
    """A door's leaf and handle, a window's bars, a niche's depth, a ring for an outlet, a stroke for a switch."""
    left, low, wide, high = opening.left_mm, opening.sill_mm, opening.width_mm, opening.height_mm
    inset = min(wide, high) / 12
    middle = QPointF(left + wide / 2, low + high / 2)
    if opening.kind == "outlet":
        path.addEllipse(middle, 0.3 * min(wide, high), 0.3 * min(wide, high))
        return
    if opening.kind == "switch":
        path.moveTo(middle.x(), low + 0.25 * high)
        path.lineTo(middle.x(), low + 0.75 * high)
        return
    foot = 0.0 if opening.kind == "door" else inset
    path.addRect(QRectF(left + inset, low + foot, wide - 2 * inset, high - inset - foot))
    if opening.kind == "door":
        path.moveTo(left + wide - 2 * inset, low + 0.45 * high)
        path.lineTo(left + wide - 2 * inset, low + 0.52 * high)
    elif opening.kind == "window":
        path.moveTo(middle.x(), low + inset)
        path.lineTo(middle.x(), low + high - inset)
    else:
        for x, inwards in ((left, inset), (left + wide, -inset)):
            for z, upwards in ((low, inset), (low + high, -inset)):
                path.moveTo(x, z)
                path.lineTo(x + inwards, z + upwards)
