"""Autosave: unsaved work goes to a recovery file a moment after each change, and is offered again after a crash."""

from pathlib import Path

from PySide6.QtCore import QObject, QTimer, Signal

from app.document import Document
from core.errors import SaveError
from core.recovery import Recovery, discard_autosave, find_recovery, write_autosave

DELAY_MS = 1500


class Autosave(QObject):
    """Follows a document. Never touches the room's own file."""

    failed = Signal(str)

    def __init__(self, document: Document, state_folder: Path, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._document, self._state_folder = document, state_folder
        self._timer = QTimer(self, singleShot=True, interval=DELAY_MS)
        self._timer.timeout.connect(self.write_now)
        document.undo_stack.indexChanged.connect(self._change_is_due)

    def _change_is_due(self, _index: int) -> None:
        self._timer.start()

    def write_now(self) -> None:
        """Write the room where it has unsaved changes; the last finished one while a gesture runs."""
        self._timer.stop()
        if not self._document.is_dirty:
            return
        try:
            write_autosave(self._document.base_room, self._document.path, self._state_folder)
        except SaveError as error:
            self.failed.emit(str(error))

    def offer(self, path: Path | None) -> Recovery | None:
        """Work left behind for that file, or for a room without one."""
        return find_recovery(path, self._state_folder)

    def discard(self, path: Path | None) -> None:
        """Forget the work kept for that file: it is saved, or turned down."""
        self._timer.stop()
        try:
            discard_autosave(path, self._state_folder)
        except SaveError as error:
            self.failed.emit(str(error))
