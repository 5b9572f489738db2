"""The foot of the window: what was said last, and the name of the room's file."""

from pathlib import Path

from PySide6.QtCore import QEvent, QObject
from PySide6.QtWidgets import QLabel, QMainWindow

from core.language import tr


class Foot(QObject):
    """Keeps what was said until something else is; all of it is a tool tip, where the window cuts it short."""

    def __init__(self, window: QMainWindow) -> None:
        super().__init__(window)
        self.file = QLabel()
        self._bar = window.statusBar()
        self._bar.addPermanentWidget(self.file)
        self._bar.messageChanged.connect(self._show_whole)
        window.installEventFilter(self)

    def show_file(self, path: Path | None) -> None:
        """Name the file: its whole path would leave no width for what is said."""
        self.file.setText(path.name if path else tr("not saved to a file yet"))
        self.file.setToolTip(str(path or ""))

    def _show_whole(self, said: str) -> None:
        self._bar.setToolTip(said)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        # A menu that opens would put its own, empty, words in the place of what was said.
        return event.type() == QEvent.Type.StatusTip or super().eventFilter(watched, event)
