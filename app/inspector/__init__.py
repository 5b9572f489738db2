"""The inspector: exact sizes of the selected opening, the current wall and the room, typed in any units."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QHBoxLayout, QWidget

from app.document import Document
from app.inspector.fields import TextField
from app.inspector.opening import OpeningCard
from app.inspector.room import RoomCard
from app.inspector.several import SeveralCard
from app.inspector.wall import WallCard
from app.tracking.marking import Marking

__all__ = ["Inspector"]


class Inspector(QWidget):
    """Three cards side by side: the bench is wide and low. The first is of what is chosen, one thing or several."""

    def __init__(self, document: Document, marking: Marking, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setObjectName("inspector")
        self.opening, self.wall, self.room = OpeningCard(document), WallCard(document), RoomCard(document)
        self.several = SeveralCard(document, marking)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(8)
        layout.setAlignment(Qt.AlignmentFlag.AlignTop)
        for card in (self.opening, self.several, self.wall, self.room):
            layout.addWidget(card)
        document.selection_changed.connect(self._turn)
        self._turn()

    def _turn(self, _what: object = None) -> None:
        """Show the card of one thing, or that of several."""
        self.opening.setHidden(self.several.is_wanted)
        self.several.setVisible(self.several.is_wanted)

    def take_focus(self) -> None:
        """Put the cursor into the first field that shows."""
        for card in (self.several, self.opening, self.wall):
            for field in card.fields:
                if isinstance(field, TextField) and field.isVisible():
                    field.line.setFocus()
                    field.line.selectAll()
                    return
