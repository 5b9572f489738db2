"""When long work is worth beginning: what needs it is on show, no drag runs, and the set-out is no sketch."""

from dataclasses import replace

from PySide6.QtCore import QEvent, QObject, QTimer, Signal
from PySide6.QtWidgets import QWidget

from app.document import Document
from core.setout import has_same_panels
from core.setout.result import SetOut

STILL_FOR_MS = 60


class Settled(QObject):
    """Watches a document for a widget."""

    reached = Signal(object)
    """The set-out to work on; what was begun before no longer matters."""
    lost = Signal()
    """There is nothing to work on just now."""

    def __init__(self, document: Document, shown: QWidget) -> None:
        super().__init__(shown)
        self._document, self._shown = document, shown
        self._full: SetOut | None = None
        self._on: SetOut | None = None
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.setInterval(STILL_FOR_MS)
        self._timer.timeout.connect(self._reach)
        document.changed.connect(self._follow)
        shown.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() in (QEvent.Type.Show, QEvent.Type.Hide):
            self._follow()
        return super().eventFilter(watched, event)

    def _follow(self, _setout: object = None) -> None:
        now = self._now()
        if now is not None and self._on is not None and now.room == self._on.room:
            return
        was_on, self._on = self._on, now
        self._timer.stop()
        if was_on is not None:
            self.lost.emit()
        if now is not None:
            self._timer.start()

    def _now(self) -> SetOut | None:
        """The set-out to work on, None while there is none."""
        document = self._document
        if not self._shown.isVisible() or document.gesture_base is not None:
            return None
        if document.is_full:
            self._full = document.setout
            return self._full
        if self._full is not None and has_same_panels(self._full.room, document.room):
            return replace(self._full, room=document.room)
        return None

    def _reach(self) -> None:
        if self._on is not None:
            self.reached.emit(self._on)
