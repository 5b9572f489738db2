"""Autosave: unsaved work goes to a recovery file a moment after each change, and is offered again after a crash."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QObject, QTimer, Signal

from app.document import Document
from core.errors import SaveError
from core.open_files import forget_open, is_open_elsewhere, note_open
from core.recovery import Recovery, discard_autosave, discard_recovery, find_recovery, write_autosave

DELAY_MS = 1500


class Autosave(QObject):
    """Follows a document. Never touches the room's own file, nor what other windows that live have autosaved."""

    failed = Signal(str)

    def __init__(self, document: Document, state_folder: Path, parent: QObject | None = None) -> None:
        super().__init__(parent)
        self._document, self._state_folder = document, state_folder
        self._timer = QTimer(self, singleShot=True, interval=DELAY_MS)
        self._timer.timeout.connect(self.write_now)
        document.undo_stack.indexChanged.connect(self._change_is_due)

    def _change_is_due(self, _index: int) -> None:
        self._timer.start()

    def write_now(self) -> bool:
        """Write the room where it has unsaved changes, the last finished one while a gesture runs; else forget what was kept.

        Returns whether that could be done.
        """
        self._timer.stop()
        document = self._document
        if not document.is_dirty:
            return self.discard(document.path)
        return self._try(lambda: write_autosave(document.base_room, document.path, self._state_folder))

    def offer(self, path: Path | None) -> Recovery | None:
        """Work left behind for that file, or for a room without one."""
        return find_recovery(path, self._state_folder)

    def follow(self, before: Path | None) -> bool:
        """The document took up another room: keep that, and forget what this window kept for the one before."""
        self.discard(before)
        return self.write_now()

    def discard(self, path: Path | None) -> bool:
        """Forget the work this window keeps for that file: it is saved, or given up."""
        self._timer.stop()
        return self._try(lambda: discard_autosave(path, self._state_folder))

    def forget(self, found: Recovery) -> bool:
        """Forget work left behind: it is kept by this window now, or turned down."""
        return self._try(lambda: discard_recovery(found))

    def claim(self, path: Path) -> bool:
        """Note that this window has the file open; whether another one has it open, too."""
        self._try(lambda: note_open(path, self._state_folder))
        return self.is_open_elsewhere(path)

    def release(self, path: Path) -> bool:
        """This window has the file open no more."""
        return self._try(lambda: forget_open(path, self._state_folder))

    def is_open_elsewhere(self, path: Path) -> bool:
        """Whether a window of another process has the file open."""
        return is_open_elsewhere(path, self._state_folder)

    def _try(self, change: Callable[[], object]) -> bool:
        try:
            change()
        except SaveError as error:
            self.failed.emit(str(error))
            return False
        return True
