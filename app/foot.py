"""The foot of the window: what was said last, and the name of the room's file."""

from pathlib import Path

from PySide6.QtCore import QEvent, QObject
from PySide6.QtWidgets import QLabel, QMainWindow


class Foot(QObject):
    """Keeps what was said until something else is; all of it is a tool tip, where the window cuts it short."""

    def __init__(self, window: QMainWindow) -> None:
        super().__init__(window)
        self.file = QLabel()
        bar = window.statusBar()
        bar.addPermanentWidget(self.file)
        bar.messageChanged.connect(bar.setToolTip)
        window.installEventFilter(self)

    def show_file(self, path: Path | None) -> None:
        """Name the file: its whole path would leave no width for what is said."""
        self.file.setText(path.name if path else "not saved to a file yet")
        self.file.setToolTip(str(path or ""))

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        # A menu that opens would put its own, empty, words in the place of what was said.
        return event.type() == QEvent.Type.StatusTip or super().eventFilter(watched, event)
