"""What tests of the plan's dialogs share: a hand with mouse and keyboard, and answers to a dialog that waits for them."""

from typing import Any

from PySide6.QtCore import QPoint, Qt, QTimer
from PySide6.QtWidgets import QApplication, QDialog
from pytestqt.qtbot import QtBot

from app.plan.sketch_dialog import SketchDialog
from app.window import Window
from core.room import Point

LEFT = Qt.MouseButton.LeftButton
KEY = Qt.Key


class Pen:
    """A hand with mouse and keyboard over the dialog's paper."""

    def __init__(self, dialog: SketchDialog, qtbot: QtBot) -> None:
        self.dialog, self.paper, self._bot = dialog, dialog.draw.paper, qtbot
        self.hand = dialog.draw.hand

    def at(self, point: Point) -> QPoint:
        return self.paper.to_px(point).toPoint()

    def click(self, point: Point, keys: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
        self._bot.mouseMove(self.paper, self.at(point))
        self._bot.mouseClick(self.paper, LEFT, keys, self.at(point))

    def point(self, point: Point) -> None:
        self._bot.mouseMove(self.paper, self.at(point))

    def type(self, *texts: str) -> None:
        """Each text and Enter."""
        for text in texts:
            self._bot.keyClicks(self.paper, text)
            self._bot.keyClick(self.paper, KEY.Key_Return)

    def press(self, *keys: Qt.Key, held: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
        for key in keys:
            self._bot.keyClick(self.paper, key, held)


def run(window: Window, command: str, act: Any) -> None:
    """Trigger a command and act in the dialog that it opens; a fault in there ends the dialog and is raised."""
    faults: list[BaseException] = []

    def within() -> None:
        dialog = QApplication.activeModalWidget()
        try:
            act(dialog)
        except BaseException as fault:
            faults.append(fault)
        if isinstance(dialog, QDialog) and dialog.isVisible():
            dialog.reject()

    QTimer.singleShot(0, window, within)
    window.actions_by_name[command].trigger()
    if faults:
        raise faults[0]
