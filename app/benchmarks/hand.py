"""A hand on the mouse: real events through the shown window, and waiting until everything they bring about is done."""

from dataclasses import dataclass
from time import perf_counter

from PySide6.QtCore import QEvent, QObject, QPointF, Qt
from PySide6.QtGui import QGuiApplication, QMouseEvent
from PySide6.QtWidgets import QApplication

import app.document
from app.benchmarks.gestures import Drag
from app.window import Window
from core.room import Room
from core.setout import sketch
from core.setout.result import SetOut

NONE, LEFT = Qt.MouseButton.NoButton, Qt.MouseButton.LeftButton
FREE, SNAPPING = Qt.KeyboardModifier.AltModifier, Qt.KeyboardModifier.NoModifier
MOST_PASSES = 20


class MeasureError(Exception):
    """Something did not happen that a figure would claim was measured."""


class PaintCounter(QObject):
    """Counts how often a widget is painted."""

    def __init__(self, widget: QObject) -> None:
        super().__init__(widget)
        self.paints = 0
        widget.installEventFilter(self)

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:
        self.paints += event.type() == QEvent.Type.Paint
        return False


@dataclass(frozen=True, slots=True)
class Step:
    """Milliseconds of one step, and those of them that the set-out took."""

    all_ms: float
    setout_ms: float


class SetOutClock:
    """Stands in for ``sketch`` in the document and adds up the time it takes."""

    def __init__(self) -> None:
        self.total_ms = 0.0
        app.document.sketch = self  # type: ignore[attr-defined]

    def __call__(self, room: Room, near: SetOut | None = None) -> SetOut:
        begin = perf_counter()
        try:
            return sketch(room, near)
        finally:
            self.total_ms += 1000 * (perf_counter() - begin)


class MeasuredDrag:
    """One drag in a shown window, timed step by step.

    A step counts from the mouse event until no event is left and the screen has the picture. Steps that leave the room as
    it was (snapping holds it, or another opening is in the way) need no set-out and are left out.
    """

    def __init__(self, window: Window, drag: Drag) -> None:
        self._window, self._drag = window, drag
        self._view, self._document = window.elevation, window.document
        self._counter, self._clock = PaintCounter(self._view), SetOutClock()
        self._document.work_out()
        if drag.wall_in_view is not None:
            self._view.go_to_wall(drag.wall_in_view)
            for _ in range(drag.zoom):
                self._view.zoom_in()
        self.settle()
        opening = self._document.room.opening(drag.opening)
        x_mm = opening.left_mm + drag.hold[0] * opening.width_mm
        z_mm = opening.sill_mm + drag.hold[1] * opening.height_mm
        pixel = self._view.wall_to_screen(opening.wall, x_mm, z_mm).toPoint()
        self._start = QPointF(pixel)

    def press(self) -> None:
        """Point at the opening and take hold of it."""
        self._send(QEvent.Type.MouseMove, self._start, NONE, NONE)
        self._send(QEvent.Type.MouseButtonPress, self._start, LEFT, LEFT)
        self.settle()

    def out(self, most_steps: int | None = None) -> list[Step]:
        """Drag to the far end, or until so many steps have changed the room; what each of these took, the first included."""
        took: list[Step] = []
        for number in range(1, self._drag.steps + 1):
            self._reached = number
            if (step := self._step(number)) is not None:
                took.append(step)
            if len(took) == most_steps:
                break
        return took

    def back(self) -> list[Step]:
        """Drag back over the same places; what each step took."""
        took = [self._step(n) for n in range(self._reached - 1, -1, -1)]
        return [step for step in took if step is not None]

    def release(self) -> None:
        """Let go where the pointer is."""
        self._send(QEvent.Type.MouseButtonRelease, self._at, LEFT, NONE)
        self.settle()

    def _step(self, number: int) -> Step | None:
        """What one step took; None where it left the room as it was."""
        across, down = self._drag.step_px
        to = self._start + QPointF(across * number, down * number)
        if not self._view.rect().contains(to.toPoint()):
            raise MeasureError(f"{self._drag.title}: step {number} would leave the view")
        before, paints, solved_ms = self._document.setout, self._counter.paints, self._clock.total_ms
        begin = perf_counter()
        self._send(QEvent.Type.MouseMove, to, NONE, LEFT)
        self.settle()
        took_ms = 1000 * (perf_counter() - begin)
        if self._document.setout is before:
            return None
        if self._counter.paints == paints:
            raise MeasureError(f"{self._drag.title}: step {number} changed the room but painted nothing")
        return Step(took_ms, self._clock.total_ms - solved_ms)

    def settle(self) -> None:
        """Handle events until a pass over the queue paints nothing more, and wait for the screen to have it."""
        for _ in range(MOST_PASSES):
            paints = self._counter.paints
            QApplication.processEvents()
            if self._counter.paints == paints:
                break
        QGuiApplication.sync()

    def _send(self, kind: QEvent.Type, pos: QPointF, button: Qt.MouseButton, held: Qt.MouseButton) -> None:
        """Hand the event to the native window, which finds the widget below the pointer as for any mouse."""
        self._at = pos
        keys = FREE if self._drag.is_free else SNAPPING
        handle = self._window.windowHandle()
        in_window = QPointF(self._view.mapTo(self._window, pos))
        QApplication.sendEvent(handle, QMouseEvent(kind, in_window, self._view.mapToGlobal(pos), button, held, keys))
