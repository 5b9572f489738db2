"""The panels chosen to be marked together, wherever they were chosen: in the list, on the elevation, by a scan."""

from collections.abc import Iterable

from PySide6.QtCore import QObject, Signal

from app.document import Document
from core.setout.result import SetOut


class Picks(QObject):
    """Marks in the order in which they were chosen. The document's selected panel is always one of them."""

    changed = Signal()

    def __init__(self, document: Document, parent: QObject) -> None:
        super().__init__(parent)
        self._document = document
        self.marks: tuple[str, ...] = ()
        document.selection_changed.connect(self._on_selection)
        document.changed.connect(self._on_setout)

    def choose(self, marks: Iterable[str], current: str | None = None) -> None:
        """Choose these panels and no others; ``current`` of them, or the first, becomes the document's selection."""
        chosen = tuple(dict.fromkeys(marks))
        if chosen == self.marks:
            return
        self.marks = chosen
        selected = self._document.selected_panel
        if chosen and (current is not None or selected is None or selected.mark not in chosen):
            self._document.select(current if current in chosen else chosen[0])
        elif not chosen and selected is not None:
            self._document.select(None)
        self.changed.emit()

    def toggle(self, mark: str) -> None:
        """Add a panel, or leave it out again."""
        if mark in self.marks:
            self.choose(one for one in self.marks if one != mark)
        else:
            self.choose((*self.marks, mark), mark)

    def _on_selection(self, what: str | None) -> None:
        panel = self._document.selected_panel
        if panel is None:
            self.choose(())
        elif panel.mark not in self.marks:
            self.choose((panel.mark,), what)

    def _on_setout(self, setout: SetOut) -> None:
        """Panels that a change of plan has taken away are chosen no longer."""
        if not self.marks or not self._document.is_full:
            return
        known = {panel.mark for panel in setout.panels}
        self.choose(mark for mark in self.marks if mark in known)
