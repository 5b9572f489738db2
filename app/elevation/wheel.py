"""The wheel and the touch pad: one zooms, the other pans."""

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QInputDevice, QWheelEvent

from app.elevation.stage import Stage

ZOOM_STEP = 1.25
WHEEL_NOTCH = 120.0


def turn_wheel(stage: Stage, event: QWheelEvent) -> None:
    """A wheel zooms about the pointer, with Shift it pans sideways; a touch pad pans, with Control it zooms."""
    control = bool(event.modifiers() & Qt.KeyboardModifier.ControlModifier)
    shift = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
    pixels, turned = QPointF(event.pixelDelta()), QPointF(event.angleDelta())
    by_finger = event.device().type() == QInputDevice.DeviceType.TouchPad or not pixels.isNull()
    if control or not (by_finger or shift):
        stage.zoom(ZOOM_STEP ** (turned.y() / WHEEL_NOTCH), event.position())
    elif by_finger:
        stage.pan(turned / 2 if pixels.isNull() else pixels)
    else:
        stage.pan(QPointF(turned.x() or turned.y(), 0))
    event.accept()
