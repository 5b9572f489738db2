"""A mouse and a keyboard that are not ours: events go through the X server, as from a person's hand."""

import subprocess
import time
from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, QPointF
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QWidget

PATIENCE_S = 20.0
PAUSE = ("sleep", "0.004")


class Mouse(QObject):
    """Moves the display's pointer over one view, and waits until the view has seen what was done."""

    def __init__(self, view: QWidget) -> None:
        super().__init__()
        self._view = view
        self._seen = dict.fromkeys((QEvent.Type.MouseButtonRelease, QEvent.Type.Wheel, QEvent.Type.KeyRelease), 0)
        view.installEventFilter(self)
        self._play(["windowfocus", "--sync", str(int(view.window().winId()))])
        self._wait(view.hasFocus, "the keyboard's focus")

    def eventFilter(self, _view: QObject, event: QEvent) -> bool:
        if event.type() in self._seen:
            self._seen[event.type()] += 1
        return False

    def drag(self, path: list[QPointF], *, keys: tuple[str, ...] = (), give_up: bool = False) -> None:
        """Press at the path's start, go along it and let go; with keys held, or given up by Escape before the button is."""
        script = [*self._to(path[0]), "mousedown", "1"]
        for key in keys:
            script += ["keydown", key]
        for place in path[1:]:
            script += [*self._to(place), *PAUSE]
        if give_up:
            script += ["key", "Escape", *PAUSE]
        # The button goes up first: a key let go before it would change the drag's last step.
        script += ["mouseup", "1"]
        for key in keys:
            script += ["keyup", key]
        self._play_until(script, QEvent.Type.MouseButtonRelease, 1)

    def turn_wheel(self, at: QPointF, notches: int) -> None:
        """Turn the wheel away from the hand."""
        self._play_until([*self._to(at), *["click", "4"] * notches], QEvent.Type.Wheel, notches)

    def type_key(self, chord: str, times: int = 1) -> None:
        """Press a key, with its modifiers as in ``ctrl+z``."""
        self._play_until(["key", "--delay", "4", *[chord] * times], QEvent.Type.KeyRelease, times * len(chord.split("+")))

    def _to(self, place: QPointF) -> list[str]:
        at = self._view.mapToGlobal(place)
        return ["mousemove", str(round(at.x())), str(round(at.y()))]

    def _play_until(self, script: list[str], kind: QEvent.Type, more: int) -> None:
        wanted = self._seen[kind] + more
        self._play(script)
        self._wait(lambda: self._seen[kind] >= wanted, f"{more} of {kind.name}")

    def _play(self, script: list[str]) -> None:
        player = subprocess.Popen(["xdotool", *script])
        while player.poll() is None:
            QTest.qWait(1)
        assert player.returncode == 0, script

    def _wait(self, seen: Callable[[], bool], what: str) -> None:
        end = time.monotonic() + PATIENCE_S
        while not seen():
            assert time.monotonic() < end, f"the view never saw {what}"
            QTest.qWait(1)
