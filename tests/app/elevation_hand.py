"""A hand on the elevation: real mouse events sent to it, at places on the walls."""

from PySide6.QtCore import QEvent, QPointF, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import QApplication

from app.elevation import ElevationView
from core.room import Opening

NONE, LEFT = Qt.KeyboardModifier.NoModifier, Qt.MouseButton.LeftButton
SHIFT, CONTROL = Qt.KeyboardModifier.ShiftModifier, Qt.KeyboardModifier.ControlModifier


def body(view: ElevationView, opening: Opening) -> QPointF:
    """A pixel on the opening's body, off its middle so that no grip is near."""
    x_mm = opening.left_mm + opening.width_mm * 0.4
    return view.wall_to_screen(opening.wall, x_mm, opening.sill_mm + opening.height_mm * 0.4)


def send(view: ElevationView, kind: QEvent.Type, pos: QPointF, button: Qt.MouseButton, modifiers: Qt.KeyboardModifier) -> None:
    held = Qt.MouseButton.NoButton if kind == QEvent.Type.MouseButtonRelease else LEFT
    QApplication.sendEvent(view, QMouseEvent(kind, pos, view.mapToGlobal(pos), button, held, modifiers))


def press(view: ElevationView, pos: QPointF, modifiers: Qt.KeyboardModifier = NONE) -> None:
    send(view, QEvent.Type.MouseButtonPress, pos, LEFT, modifiers)


def move(view: ElevationView, pos: QPointF, modifiers: Qt.KeyboardModifier = NONE) -> None:
    send(view, QEvent.Type.MouseMove, pos, Qt.MouseButton.NoButton, modifiers)


def release(view: ElevationView, pos: QPointF, modifiers: Qt.KeyboardModifier = NONE) -> None:
    send(view, QEvent.Type.MouseButtonRelease, pos, LEFT, modifiers)


def click(view: ElevationView, pos: QPointF, modifiers: Qt.KeyboardModifier = NONE) -> None:
    press(view, pos, modifiers)
    release(view, pos, modifiers)


def drag(view: ElevationView, start: QPointF, end: QPointF, modifiers: Qt.KeyboardModifier = NONE) -> None:
    """Press without keys, go to the end in five steps with the keys held, and let go."""
    press(view, start)
    draw(view, start, end, modifiers)


def band(view: ElevationView, start: QPointF, end: QPointF, modifiers: Qt.KeyboardModifier = NONE) -> None:
    """A drag with the keys held from the beginning."""
    press(view, start, modifiers)
    draw(view, start, end, modifiers)


def draw(view: ElevationView, start: QPointF, end: QPointF, modifiers: Qt.KeyboardModifier) -> None:
    for step in range(1, 6):
        move(view, start + (end - start) * (step / 5), modifiers)
    release(view, end, modifiers)


def along(view: ElevationView, wall: int, pos: QPointF, by_mm: float) -> QPointF:
    """The pixel so many millimetres to the right of another on the same wall."""
    return pos + view.wall_to_screen(wall, by_mm, 0) - view.wall_to_screen(wall, 0, 0)
