"""The panels chosen to be marked together, wherever they were chosen: in the list, on the elevation, by a scan."""

from collections.abc import Iterable

from PySide6.QtCore import QObject, Signal

from app.document import Document


class Picks(QObject):
    """The panels among what the document has chosen, in the order in which they were chosen."""

    changed = Signal()

    def __init__(self, document: Document, parent: QObject) -> None:
        super().__init__(parent)
        self._chosen = document.chosen
        self.marks: tuple[str, ...] = self._chosen.marks
        document.selection_changed.connect(self._on_selection)

    def choose(self, marks: Iterable[str], current: str | None = None) -> None:
        """Choose these panels and no others; ``current``, or else the one that is or the first, becomes the current one."""
        chosen = tuple(dict.fromkeys(marks))
        if chosen == self.marks:
            return
        if not chosen:
            self._chosen.choose(name for name in self._chosen.names if name not in self.marks)
            return
        before = self._chosen.current
        self._chosen.choose(chosen, current if current in chosen else before if before in chosen else chosen[0])

    def _on_selection(self, _what: str | None) -> None:
        if self._chosen.marks != self.marks:
            self.marks = self._chosen.marks
            self.changed.emit()
