"""A card of the inspector: a heading, fields that follow the document, and a line of what set-out says."""

from collections.abc import Callable

from PySide6.QtWidgets import QFrame, QLabel, QVBoxLayout

from app import theme
from app.document import Document
from app.inspector.fields import ChoiceField, TextField
from app.inspector.readout import Readout
from app.theme.look import InStep
from core.errors import CoursewrightError
from core.room import Room
from core.setout.result import SetOut
from core.units import format_length, parse_length_mm

EditLength = Callable[[Room, float], Room]
CARD_PX = 232
FIRST_CARD_PX = 194
"""The card of what is chosen, at its narrowest: with the other two and a scroll bar it fits 1280 pixels."""


class Card(QFrame):
    """A titled group of fields that follow the document."""

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.setObjectName("card")
        InStep(self, lambda: self.setMinimumWidth(theme.px(CARD_PX)))
        self.document = document
        self.heading = QLabel()
        self.heading.setObjectName("heading")
        self.readout = Readout()
        self.fields: list[TextField | ChoiceField] = []
        self.rows = QVBoxLayout(self)
        self.rows.setContentsMargins(12, 8, 12, 8)
        self.rows.setSpacing(4)
        self.rows.addWidget(self.heading)
        document.changed.connect(self._follow)

    def _follow(self, _setout: SetOut) -> None:
        self.refresh()

    def _turn(self, _what: object) -> None:
        """Another thing is shown now: what was being typed belonged to the old one."""
        self.refresh(force=True)

    def add(self, *fields: TextField | ChoiceField) -> None:
        """Put fields below those already there."""
        for field in fields:
            self.rows.addWidget(field)
            self.fields.append(field)

    def close_card(self) -> None:
        """Finish the card with its readout."""
        self.rows.addWidget(self.readout)
        self.rows.addStretch(1)
        self.refresh(force=True)

    def refresh(self, *, force: bool = False) -> None:
        """Show what the room says now."""
        self.describe()
        for field in self.fields:
            if not field.isHidden():
                field.refresh(force=force)

    def describe(self) -> None:
        """Set heading, readout and which fields show."""
        raise NotImplementedError

    def length(self, mm: float) -> str:
        """A length in the room's units."""
        return format_length(mm, self.document.room.display_units, 2)

    def length_field(self, caption: str, read: Callable[[], float], edit: EditLength, text: str) -> TextField:
        """A field for a length; ``text`` names the edit for undo."""

        def commit(typed: str) -> str:
            try:
                mm = parse_length_mm(typed)
            except CoursewrightError as error:
                return str(error)
            return self.commit(lambda room: edit(room, mm), text)

        return TextField(caption, lambda: self.length(read()), commit)

    def commit(self, edit: Callable[[Room], Room], text: str) -> str:
        """Make an edit; the reason where it was refused."""
        return "" if self.document.commit_edit(edit, text) else self.document.refusal
