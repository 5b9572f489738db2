"""The standing room by keyboard: turn, tilt, zoom, and go from panel to panel and from wall to wall."""

from collections.abc import Callable
from typing import Protocol

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent

STEP_DEGREES, LONG_STEP_DEGREES, SHORT_STEP_DEGREES = 5.0, 15.0, 1.0
WAYS: dict[int, tuple[int, int]] = {
    Qt.Key.Key_Left: (-1, 0),
    Qt.Key.Key_Right: (1, 0),
    Qt.Key.Key_Up: (0, 1),
    Qt.Key.Key_Down: (0, -1),
}


class Turned(Protocol):
    """What keys ask of the view."""

    def turn_and_tilt(self, turn_degrees: float, tilt_degrees: float) -> None: ...
    def step(self, across: int, up: int) -> None: ...
    def step_wall(self, by: int) -> None: ...
    def begin_anew(self) -> None: ...
    def zoom_in(self) -> None: ...
    def zoom_out(self) -> None: ...
    def fit(self) -> None: ...
    def want_selected(self) -> None: ...


class Keys:
    """Turns keys into what the view can do."""

    def __init__(self, view: Turned) -> None:
        self._view = view
        key = Qt.Key
        self._commands: dict[int, Callable[[], object]] = {
            key.Key_Plus: view.zoom_in,
            key.Key_Equal: view.zoom_in,
            key.Key_Minus: view.zoom_out,
            key.Key_0: view.fit,
            key.Key_Home: view.begin_anew,
            key.Key_PageUp: lambda: view.step_wall(-1),
            key.Key_PageDown: lambda: view.step_wall(1),
            key.Key_Return: view.want_selected,
            key.Key_Enter: view.want_selected,
        }

    def press(self, event: QKeyEvent) -> bool:
        """Do what a key says; False where it says nothing here."""
        way, command = WAYS.get(event.key()), self._commands.get(event.key())
        if way is not None and event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self._view.step(*way)
        elif way is not None:
            degrees = _step_degrees(event.modifiers())
            self._view.turn_and_tilt(way[0] * degrees, way[1] * degrees)
        elif command is not None:
            command()
        else:
            return False
        return True


def _step_degrees(held: Qt.KeyboardModifier) -> float:
    if held & Qt.KeyboardModifier.ShiftModifier:
        return LONG_STEP_DEGREES
    return SHORT_STEP_DEGREES if held & Qt.KeyboardModifier.AltModifier else STEP_DEGREES
