"""How the current wall's frame is given: still to build, or studs at one spacing or as read off a tape, and rails."""

from collections.abc import Callable, Sequence

from PySide6.QtWidgets import QLabel, QVBoxLayout, QWidget

from app.document import Document, Edit
from app.framing.list_field import ListField
from app.framing.lists import read_lengths, write_lengths
from app.inspector.fields import ChoiceField, TextField
from app.inspector.wall import frame_of_mode, shown_modes
from app.tables.reading import committed
from core.edits import set_frame
from core.edits.studs import set_centres, set_rails, set_regular, set_stud_width
from core.language import marked, tr
from core.room import Frame, Room, wall_letter
from core.units import format_length, parse_length_mm

TAPE_HINT = marked(
    "Middles from the wall's left end, as read: 19; 430; 838, or 3/4\"; 1' 5\", or one to a line. Ctrl+Enter takes them."
)
RAIL_HINT = marked("Middles from the floor up; empty for none. Ctrl+Enter takes them.")
DRAG_WORDS = marked(
    "On the elevation: drag a stud's handle under the floor, double click between two for one more. Keys: U, arrows, Ins, Del."
)
WORKING = marked("working out …")
LISTS = {"centres_mm": (2, TAPE_HINT), "rails_mm": (1, RAIL_HINT)}
"""Lines shown and hint, by the field of the frame that holds the list."""


class GivenCard(QWidget):
    """Stands beside every page of the leaf, so that a change shows at once in what it does."""

    def __init__(self, document: Document) -> None:
        super().__init__()
        self._document = document
        self.heading, self.summary, self.drift, self.hint = (QLabel() for _ in range(4))
        self.heading.setObjectName("heading")
        self.hint.setObjectName("quiet")
        self.drift.setObjectName("quiet")
        self.summary.setAccessibleName(tr("What misses"))
        self.mode = ChoiceField(tr("Frame"), lambda: self._frame.mode, self._set_mode, shown_modes())
        self.spacing = self._regular(tr("Spacing"), "spacing_mm", tr("Set spacing"))
        self.first = self._regular(tr("First centre"), "first_centre_mm", tr("Set first centre"))
        self.stud = self._length_field(tr("Stud width"), lambda: self._frame.stud_mm, set_stud_width, tr("Set stud width"))
        self.centres = self._list(tr("Stud centres"), "centres_mm", set_centres, tr("Set stud centres"))
        self.rails = self._list(tr("Rail centres"), "rails_mm", set_rails, tr("Set rail centres"))
        self._place()
        document.changed.connect(self._follow)
        document.wall_changed.connect(self._turn)
        self.refresh(force=True)

    @property
    def fields(self) -> tuple[TextField | ChoiceField | ListField, ...]:
        return self.mode, self.spacing, self.first, self.centres, self.rails, self.stud

    @property
    def _frame(self) -> Frame:
        return self._document.room.frame(self._document.wall)

    def _place(self) -> None:
        layout = QVBoxLayout(self)
        layout.setContentsMargins(12, 8, 8, 8)
        layout.setSpacing(5)
        for label in (self.summary, self.drift, self.hint):
            label.setWordWrap(True)
        self.hint.setText(tr(DRAG_WORDS))
        above = (self.heading, self.summary, self.mode, self.spacing, self.drift)
        for part in (*above, self.first, self.centres, self.rails, self.stud, self.hint):
            layout.addWidget(part)
        layout.addStretch(1)

    def _follow(self, _setout: object) -> None:
        self.refresh()

    def _turn(self, _wall: int) -> None:
        """Another wall is shown now: what was being typed belonged to the old one."""
        self.refresh(force=True)

    def refresh(self, *, force: bool = False) -> None:
        """Show what the room says; what is being typed stays unless forced."""
        mode = self._frame.mode
        letter = wall_letter(self._document.wall)
        self.heading.setText(tr("Wall {wall}, {length} long", wall=letter, length=self._length(self._wall_mm)))
        for part in (self.spacing, self.first):
            part.setVisible(mode == "regular")
        for row in (self.centres, self.hint):
            row.setVisible(mode == "measured")
        self.rails.setVisible(mode != "to_build")
        for field in self.fields:
            if not field.isHidden():
                field.refresh(force=force)

    def say(self, summary: str, drift: str, how: str) -> None:
        """Say what misses, and how far the studs walk away from the panels; ``how`` is the arithmetic."""
        self.summary.setText(summary)
        self.drift.setText(drift)
        self.drift.setVisible(bool(drift))
        self.drift.setToolTip(how)
        self.drift.setAccessibleDescription(how)

    @property
    def _wall_mm(self) -> float:
        return self._document.room.wall_length_mm(self._document.wall)

    def _length(self, mm: float) -> str:
        return format_length(mm, self._document.room.display_units, 2)

    def _regular(self, caption: str, field: str, text: str) -> TextField:
        def read() -> float:
            return float(getattr(self._frame, field, 0.0))

        return self._length_field(caption, read, lambda room, wall, mm: set_regular(room, wall, **{field: mm}), text)

    def _length_field(
        self, caption: str, read: Callable[[], float], edit: Callable[[Room, int, float], Room], text: str
    ) -> TextField:
        """``text`` names the edit for undo."""

        def commit(typed: str) -> str:
            wall = self._document.wall
            return self._committed(lambda room: edit(room, wall, parse_length_mm(typed)), text)

        return TextField(caption, lambda: self._length(read()), commit)

    def _list(self, caption: str, field: str, edit: Callable[[Room, int, Sequence[float]], Room], text: str) -> ListField:
        lines, hint = LISTS[field]

        def held() -> tuple[float, ...]:
            return tuple(getattr(self._frame, field, ()))

        def commit(typed: str) -> str:
            wall, units, known = self._document.wall, self._document.room.display_units, held()
            return self._committed(lambda room: edit(room, wall, read_lengths(typed, known, units)), text)

        def read() -> str:
            return write_lengths(held(), self._document.room.display_units)

        return ListField(caption, read, commit, lines=lines, hint=tr(hint))

    def _set_mode(self, mode: str) -> str:
        wall = self._document.wall
        made = frame_of_mode(self._document.room, wall, mode)
        text = tr("Frame of wall {wall}", wall=wall_letter(wall))
        fault = self._committed(lambda room: set_frame(room, wall, made), text)
        self.refresh(force=True)
        return fault

    def _committed(self, edit: Edit, text: str) -> str:
        return committed(self._document, edit, text)
