"""The card of several chosen things: what they share, typed or chosen once for all of them."""

from collections import Counter
from collections.abc import Callable, Iterable, Sequence
from typing import Any

from PySide6.QtWidgets import QPushButton

from app import theme
from app.document import Document
from app.elevation.tips import chosen_words
from app.elevation.together import openings_words
from app.inspector.card import FIRST_CARD_PX, Card
from app.inspector.fields import ChoiceField, TextField
from app.inspector.opening import mounts_text
from app.theme.look import InStep
from app.tracking.marking import Marking
from core import edits
from core.crew.standing import standing
from core.edits.colouring import lay_panels, own_colour
from core.edits.together import Level, align_openings, put_on_wall, size_openings
from core.errors import CoursewrightError
from core.language import marked, tr, trc, trn
from core.progress import STATES
from core.room import Opening, Room, wall_letter
from core.setout.result import Panel, PanelKind
from core.units import parse_length_mm

DIFFERENT = marked("different")
PINNED, LOOSE = "pinned", "loose"


class SeveralCard(Card):
    """Fields of all chosen openings, and of all chosen panels; one that differs among them is empty until it is set."""

    def __init__(self, document: Document, marking: Marking) -> None:
        super().__init__(document)
        InStep(self, lambda: self.setMinimumWidth(theme.px(FIRST_CARD_PX)))
        self.heading.setWordWrap(True)
        self._marking = marking
        self.wall = ChoiceField(tr("Wall"), lambda: self._shared_opening("wall"), self._to_wall)
        self.left = self._size(tr("Left edge"), "left_mm", marked("Set left edge of {openings}"))
        self.sill = self._size(tr("Sill"), "sill_mm", marked("Set sill of {openings}"))
        self.width_field = self._size(tr("Width"), "width_mm", marked("Set width of {openings}"))
        self.height_field = self._size(tr("Height"), "height_mm", marked("Set height of {openings}"))
        self.state = ChoiceField(tr("Progress"), self._shared_state, self._put, [(state, tr(state)) for state in STATES])
        self.colour = ChoiceField(tr("Colour"), self._shared_colour, self._lay)
        pins = [(PINNED, tr("pinned")), (LOOSE, trc("not pinned", "loose"))]
        self.pin = ChoiceField(tr("Pins"), self._shared_pin, self._set_pin, pins)
        self._of_openings = (self.wall, self.left, self.sill, self.width_field, self.height_field)
        self._of_panels = (self.state, self.colour, self.pin)
        self.add(*self._of_openings, *self._of_panels)
        self.align_sills, self.align_heads = (self._aligner(level) for level in ("sill", "head"))
        self.rows.addWidget(self.align_sills)
        self.rows.addWidget(self.align_heads)
        document.selection_changed.connect(self._turn)
        self.close_card()

    @property
    def is_wanted(self) -> bool:
        """Whether more than one thing is chosen."""
        return len(self.document.chosen.names) > 1

    def refresh(self, *, force: bool = False) -> None:
        """Show what the room says of those chosen; amid a drag of what is dragged alone, for panels are many."""
        if not self.is_wanted:
            return
        if self.document.gesture_base is None:
            super().refresh(force=force)
        elif self._openings:
            for field in self._of_openings:
                field.refresh(force=force)

    def describe(self) -> None:
        openings, panels = self._openings, self._panels
        for fields, shown in ((self._of_openings, openings), (self._of_panels, panels)):
            for field in fields:
                field.setVisible(bool(shown))
        room, current = self.document.room, self.document.selected_opening
        self.wall.offer([(str(wall), wall_letter(wall)) for wall in range(room.wall_count)])
        self.colour.offer([(colour.name, tr(colour.name)) for colour in room.colouring.colours])
        for button in (self.align_sills, self.align_heads):
            button.setVisible(len(openings) > 1 and current is not None)
        if current is not None:
            self.align_sills.setText(tr("Sills level with {opening}", opening=current.id))
            self.align_heads.setText(tr("Heads level with {opening}", opening=current.id))
        self.heading.setText(chosen_words(openings, panels))
        self.readout.setText("\n".join([*_openings_facts(openings), *_panels_facts(panels)]))

    @property
    def _openings(self) -> tuple[Opening, ...]:
        return self.document.chosen.openings

    @property
    def _panels(self) -> tuple[Panel, ...]:
        return self.document.chosen.panels

    @property
    def _names(self) -> list[str]:
        return [opening.id for opening in self._openings]

    def _size(self, caption: str, field: str, text: str) -> TextField:
        """``text``, with a gap for the openings, names the edit for undo."""

        def read() -> str:
            found = {getattr(opening, field) for opening in self._openings}
            return self.length(found.pop()) if len(found) == 1 else ""

        def commit(typed: str) -> str:
            if not typed.strip():
                return ""
            try:
                sizes = {field: parse_length_mm(typed)}
            except CoursewrightError as error:
                return str(error)
            names = self._names
            return self.commit(lambda room: size_openings(room, names, **sizes), tr(text, openings=openings_words(names)))

        made = TextField(caption, read, commit)
        made.line.setPlaceholderText(tr(DIFFERENT))
        return made

    def _shared_opening(self, field: str) -> str:
        return _shared(str(getattr(opening, field)) for opening in self._openings)

    def _to_wall(self, wall: str) -> str:
        names, target = self._names, int(wall)
        text = tr("Move {openings} to wall {wall}", openings=openings_words(names), wall=wall_letter(target))
        fault = self.commit(lambda room: put_on_wall(room, names, target), text)
        if not fault:
            self.document.set_wall(target)
        return fault

    def _aligner(self, level: Level) -> QPushButton:
        button = QPushButton()
        text = marked("Level sills with {opening}") if level == "sill" else marked("Level heads with {opening}")

        def align() -> None:
            names, like = self._names, self.document.selection
            if like is not None:
                self.document.commit_edit(lambda room: align_openings(room, names, level, like), tr(text, opening=like))

        button.clicked.connect(align)
        return button

    def _shared_state(self) -> str:
        by_mark = standing(self.document.setout).by_mark
        return _shared(by_mark[panel.mark] for panel in self._panels)

    def _put(self, state: str) -> str:
        wanted = next(one for one in STATES if one == state)
        return "" if self._marking.put(self.document.chosen.marks, wanted) else self.document.refusal

    def _shared_colour(self) -> str:
        return _shared(own_colour(self.document.room, panel) or "" for panel in self._panels)

    def _lay(self, colour: str) -> str:
        panels = self._panels
        text = trn("Lay {colour}: {n} panel", "Lay {colour}: {n} panels", len(panels), colour=tr(colour))
        return self.commit(lambda room: lay_panels(room, panels, colour), text)

    def _shared_pin(self) -> str:
        held = set(self.document.room.pins)
        return _shared(PINNED if set(edits.pins_for(self.document.setout, panel)) <= held else LOOSE for panel in self._panels)

    def _set_pin(self, wanted: str) -> str:
        pins = [pin for panel in self._panels for pin in edits.pins_for(self.document.setout, panel)]
        change: Callable[[Room, Any], Room] = edits.add_pins if wanted == PINNED else edits.remove_pins
        count = len(self._panels)
        if wanted == PINNED:
            text = trn("Pin {n} panel", "Pin {n} panels", count)
        else:
            text = trn("Let {n} panel go", "Let {n} panels go", count)
        return self.commit(lambda room: change(room, pins), text)


def _openings_facts(openings: Sequence[Opening]) -> list[str]:
    return [", ".join(opening.id for opening in openings)] if openings else []


def _panels_facts(panels: Sequence[Panel]) -> list[str]:
    if not panels:
        return []
    kinds = Counter(panel.kind for panel in panels)
    work = trn(
        "{n} design, {minutes:.0f} crew minutes",
        "{n} designs, {minutes:.0f} crew minutes",
        len({panel.design for panel in panels}),
        minutes=sum(panel.minutes for panel in panels),
    )
    return [", ".join(_kind_count(kind, count) for kind, count in kinds.items()), work, mounts_text(panels)]


def _kind_count(kind: PanelKind, count: int) -> str:
    """How many panels of a kind: ``12 full``."""
    words: dict[PanelKind, str] = {
        "full": trn("{n} full", "{n} full", count),
        "half-height": trn("{n} half-height", "{n} half-height", count),
        "half-width": trn("{n} half-width", "{n} half-width", count),
        "quarter": trn("{n} quarter", "{n} quarter", count),
        "corner": trn("{n} corner", "{n} corner", count),
        "closer": trn("{n} closer", "{n} closer", count),
        "shaped": trn("{n} shaped", "{n} shaped", count),
        "shaped-corner": trn("{n} shaped-corner", "{n} shaped-corner", count),
    }
    return words[kind]


def _shared(values: Iterable[str]) -> str:
    """The one value all have; empty where they differ."""
    found = set(values)
    return found.pop() if len(found) == 1 else ""
