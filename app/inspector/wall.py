"""The card of the current wall: its length and the frame behind it."""

from collections.abc import Callable, Sequence
from typing import Any

from app.advice import AdviceList, Words
from app.document import Document
from app.inspector.card import Card
from app.inspector.fields import ChoiceField, TextField
from core import edits
from core.advice import advise_wall, wall_text
from core.edits.frames import rails_of
from core.edits.revise import build
from core.edits.studs import set_rails
from core.errors import CoursewrightError
from core.language import marked, tr
from core.room import Frame, FrameToBuild, MeasuredFrame, RegularFrame, Room, wall_letter
from core.setout.shell import shell_of
from core.units import parse_length_mm

MODES = (("to_build", marked("still to build")), ("regular", marked("regular studs")), ("measured", marked("measured studs")))
USUAL_SPACING_MM = 406.4
"""16 in between centres: common practice, no published source."""


class WallCard(Card):
    """Follows the document's current wall."""

    def __init__(self, document: Document) -> None:
        super().__init__(document)
        self.length_line = self.length_field(
            tr("Length"),
            lambda: document.room.wall_length_mm(document.wall),
            lambda room, mm: edits.set_wall_length(room, document.wall, mm),
            tr("Set wall length"),
        )
        self.mode = ChoiceField(tr("Frame"), lambda: self._frame.mode, self._set_mode, shown_modes())
        self.spacing = self._frame_length(tr("Stud spacing"), "spacing_mm", tr("Set stud spacing"))
        self.first = self._frame_length(tr("First centre"), "first_centre_mm", tr("Set first centre"))
        self.centres = self._frame_list(tr("Stud centres"), "centres_mm", self._with_centres, tr("Set stud centres"))
        self.rails = self._frame_list(tr("Rail centres"), "rails_mm", set_rails, tr("Set rail centres"))
        self.stud = self._frame_length(tr("Stud width"), "stud_mm", tr("Set stud width"))
        self.add(self.length_line, self.mode, self.spacing, self.first, self.centres, self.rails, self.stud)
        document.wall_changed.connect(self._turn)
        words = Words(tr("Before it is built: sizes for whole panels"), tr("No other size is better for whole panels."))
        self.advice = AdviceList(document, words, self._asked, lambda setout, wall: advise_wall(setout, int(wall)))
        self.close_card()
        self.rows.insertWidget(self.rows.count() - 1, self.advice)
        self.advice.tab_from = self.stud.line

    @property
    def _frame(self) -> Frame:
        return self.document.room.frame(self.document.wall)

    def _asked(self) -> str | None:
        """The wall to give advice about: only a frame that does not stand yet can still be built otherwise."""
        return str(self.document.wall) if self._frame.mode == "to_build" else None

    def describe(self) -> None:
        wall, mode = self.document.wall, self._frame.mode
        self.heading.setText(tr("Wall {wall}", wall=wall_letter(wall)))
        for field, modes in (
            (self.spacing, {"regular"}),
            (self.first, {"regular"}),
            (self.centres, {"measured"}),
            (self.rails, {"regular", "measured"}),
        ):
            field.setVisible(mode in modes)
        shell = self.document.setout.walls[wall]
        packing = self.length(shell.packing_mm)
        facts = tr("Lining {pitches} pitches, packing {packing}", pitches=shell.pitches, packing=packing)
        if mode == "to_build":
            facts += f"; {wall_text(self.document.room, shell_of(self.document.room), wall)}"
        self.readout.setText(facts)
        self.advice.setVisible(mode == "to_build")

    def _frame_length(self, caption: str, field: str, text: str) -> TextField:
        return self.length_field(
            caption,
            lambda: float(getattr(self._frame, field, 0.0)),
            lambda room, mm: self._with_frame(room, **{field: mm}),
            text,
        )

    def _frame_list(self, caption: str, field: str, edit: Callable[[Room, int, Sequence[float]], Room], text: str) -> TextField:
        """Lengths one after another, parted by semicolons, or by commas followed by a space."""

        def read() -> str:
            return "; ".join(self.length(mm) for mm in getattr(self._frame, field, ()))

        def commit(typed: str) -> str:
            try:
                values = tuple(parse_length_mm(part) for part in split_lengths(typed))
            except CoursewrightError as error:
                return str(error)
            return self.commit(lambda room: edit(room, self.document.wall, values), text)

        field_row = TextField(caption, read, commit)
        field_row.line.setPlaceholderText("19; 430; 838")
        return field_row

    def _with_centres(self, room: Room, _wall: int, centres_mm: Sequence[float]) -> Room:
        return self._with_frame(room, centres_mm=tuple(centres_mm))

    def _with_frame(self, room: Room, **changes: Any) -> Room:
        wall = self.document.wall
        frame = room.frame(wall)
        return edits.set_frame(room, wall, build(type(frame), **{**dict(frame), **changes}))

    def _set_mode(self, mode: str) -> str:
        wall = self.document.wall
        frame = frame_of_mode(self.document.room, wall, mode)
        text = tr("Frame of wall {wall}", wall=wall_letter(wall))
        fault = self.commit(lambda room: edits.set_frame(room, wall, frame), text)
        self.refresh(force=True)
        return fault


def shown_modes() -> list[tuple[str, str]]:
    """The ways a frame is given, each with the words for it."""
    return [(mode, tr(words)) for mode, words in MODES]


def frame_of_mode(room: Room, wall: int, mode: str) -> Frame:
    """A frame of another mode that starts from what is known of the old one."""
    old = room.frame(wall)
    if mode == old.mode:
        return old
    if mode == "to_build":
        return build(FrameToBuild, stud_mm=old.stud_mm)
    kept: dict[str, Any] = {"rails_mm": rails_of(old), "stud_mm": old.stud_mm}
    if mode == "regular":
        return build(RegularFrame, mode="regular", spacing_mm=USUAL_SPACING_MM, **kept)
    return build(MeasuredFrame, mode="measured", centres_mm=_regular_centres(room, wall), **kept)


def _regular_centres(room: Room, wall: int) -> tuple[float, ...]:
    """Where the regular frame's studs stand, as a list to correct by measuring."""
    old, length = room.frame(wall), room.wall_length_mm(wall)
    spacing, first = (old.spacing_mm, old.first_centre_mm) if isinstance(old, RegularFrame) else (USUAL_SPACING_MM, 19.0)
    last = length - old.stud_mm / 2
    count = max(0, int((last - old.stud_mm - first) // spacing) + 1)
    return (*(round(first + i * spacing, 4) for i in range(count)), round(last, 4))


def split_lengths(typed: str) -> list[str]:
    """The parts of a list of lengths; empty text is an empty list."""
    separated = typed.replace(", ", ";").replace("\n", ";")
    return [part.strip() for part in separated.split(";") if part.strip()]
