"""The card of the selected opening; of the selected panel, what a person at the bench asks about it."""

from collections.abc import Sequence

from PySide6.QtCore import QSize
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QBoxLayout, QVBoxLayout

from app import theme
from app.advice import AdviceList, Words
from app.document import Document
from app.inspector.card import FIRST_CARD_PX, Card, EditLength
from app.inspector.fields import ChoiceField, TextField
from app.theme.look import InStep
from core import edits
from core.advice import advise_opening
from core.language import tr
from core.reasons import holding_words, hole_words, panel_words
from core.room import Opening, Room, wall_letter
from core.setout.metric import face_box_mm
from core.setout.result import Panel, SetOut
from core.units import format_length

WISHED_PX = 460
BESIDE_FROM_PX = 360
"""A card at least this wide has room for fields and advice side by side."""


class OpeningCard(Card):
    """The selected opening, or what is known of the selected panel."""

    def __init__(self, document: Document) -> None:
        super().__init__(document)
        words = Words(tr("Nearest changes that save work"), tr("No near change saves work."))
        self.advice = AdviceList(document, words, lambda: self._id or None, advise_opening)
        self._columns = QBoxLayout(QBoxLayout.Direction.LeftToRight)
        self._stand_beside(self.advice)
        self.name = TextField(tr("Name"), lambda: self._opening.id if self._opening else "", self._rename)
        self.wall = ChoiceField(tr("Wall"), lambda: str(self._opening.wall) if self._opening else "", self._to_wall)
        put, size = edits.move_opening, edits.resize_opening
        self.left = self._size(tr("Left edge"), "left_mm", lambda r, mm: put(r, self._id, left_mm=mm), tr("Set left edge"))
        self.sill = self._size(tr("Sill"), "sill_mm", lambda r, mm: put(r, self._id, sill_mm=mm), tr("Set sill"))
        self.width_field = self._size(tr("Width"), "width_mm", lambda r, mm: size(r, self._id, width_mm=mm), tr("Set width"))
        self.height_field = self._size(tr("Height"), "height_mm", lambda r, mm: size(r, self._id, height_mm=mm), tr("Set height"))
        self.add(self.name, self.wall, self.left, self.sill, self.width_field, self.height_field)
        self.advice.tab_from = self.height_field.line
        document.selection_changed.connect(self._turn)
        self.close_card()

    def _stand_beside(self, advice: AdviceList) -> None:
        """Put the advice to the right of the fields, or below them where the bench is narrow."""
        fields = QVBoxLayout()
        fields.setSpacing(self.rows.spacing())
        self._columns.setSpacing(14)
        self._columns.addLayout(fields, 1)
        self._columns.addWidget(advice, 1)
        self.rows.addLayout(self._columns, 1)
        self.rows = fields
        InStep(self, lambda: self.setMinimumWidth(theme.px(FIRST_CARD_PX)))

    def sizeHint(self) -> QSize:
        return super().sizeHint().expandedTo(QSize(theme.px(WISHED_PX), 0))

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        is_wide = event.size().width() >= theme.px(BESIDE_FROM_PX)
        self._columns.setDirection(QBoxLayout.Direction.LeftToRight if is_wide else QBoxLayout.Direction.TopToBottom)

    @property
    def _opening(self) -> Opening | None:
        return self.document.selected_opening

    @property
    def _id(self) -> str:
        return self._opening.id if self._opening else ""

    def _size(self, caption: str, field: str, edit: EditLength, text: str) -> TextField:
        return self.length_field(caption, lambda: float(getattr(self._opening, field, 0.0)), edit, text)

    def _rename(self, typed: str) -> str:
        old, new = self._id, typed.strip()
        fault = self.commit(lambda room: edits.rename_opening(room, old, new), tr("Rename opening"))
        if not fault:
            self.document.select(new)
        return fault

    def _to_wall(self, wall: str) -> str:
        opening, target = self._opening, int(wall)
        if opening is None:
            return ""

        def move(room: Room) -> Room:
            left_mm = edits.clamp_left_mm(room, target, opening.left_mm, opening.width_mm)
            return edits.move_opening(room, opening.id, wall=target, left_mm=left_mm)

        fault = self.commit(move, tr("Move to wall {wall}", wall=wall_letter(target)))
        if not fault:
            self.document.set_wall(target)
        return fault

    def _pinned(self, panel: Panel) -> str:
        """Whether a panel is pinned, and the key that changes that."""
        pins = edits.pins_for(self.document.setout, panel)
        return tr("Pinned here; P lets it go.") if set(pins) <= set(self.document.room.pins) else tr("P pins it here.")

    def describe(self) -> None:
        opening, panel = self._opening, self.document.selected_panel
        for part in (*self.fields, self.advice):
            part.setVisible(opening is not None)
        if opening is not None:
            room = self.document.room
            self.wall.offer([(str(i), wall_letter(i)) for i in range(room.wall_count)])
            self.heading.setText(tr(theme.OPENING_NAMES[opening.kind]))
            self.readout.setText(self._reveals(opening.id, room.wall_length_mm(opening.wall) - opening.right_mm))
        elif panel is not None:
            self.heading.setText(tr("Panel {panel}", panel=panel.mark))
            facts = panel_facts(self.document.setout, panel)
            if self.document.gesture_base is None:
                facts += "\n" + "\n".join(panel_words(self.document.setout, panel))
            facts += f"\n{self._pinned(panel)}"
            if self.document.is_full:
                # A sketch is on show for moments only, and its designs may never be bonded.
                facts += "".join(f"\n{line}" for line in hole_words(self.document.setout, panel))
                facts += "\n" + " ".join(holding_words(self.document.setout, panel))
            self.readout.setText(facts)
        else:
            self.heading.setText(tr("Nothing selected"))
            self.readout.setText(
                tr("Click an opening or a panel, or press Tab in the elevation.\nD, W, O, S or N adds an opening.")
            )

    def _reveals(self, name: str, to_wall_end_mm: float) -> str:
        reveal = next((r for r in self.document.setout.reveals if r.opening == name), None)
        to_end = tr("{length} to the wall's right end", length=self.length(to_wall_end_mm))
        if reveal is None:
            return to_end
        covers = tr(
            "Trim covers left {left}, right {right}, sill {sill}, head {head}",
            left=self.length(reveal.left_mm),
            right=self.length(reveal.right_mm),
            sill=self.length(reveal.sill_mm),
            head=self.length(reveal.head_mm),
        )
        return f"{to_end}\n{covers}"


def panel_facts(setout: SetOut, panel: Panel) -> str:
    """What a person at the bench asks about a panel."""
    units = setout.room.display_units
    lines = [tr("design {design}", design=panel.design)]
    design = next((d for d in setout.designs if d.name == panel.design), None)
    if design is not None:
        lines.append(
            tr("{count} of this design, in the kit", count=design.count)
            if design.in_kit
            else tr("{count} of this design, not in the kit", count=design.count)
        )
    for face in panel.faces:
        left, bottom, right, top = face_box_mm(setout, face)
        lines.append(
            tr(
                "Wall {wall}: {width} × {height}, left edge {left}",
                wall=wall_letter(face.wall),
                width=format_length(right - left, units),
                height=format_length(top - bottom, units),
                left=format_length(left, units),
            )
        )
    return "\n".join([*lines, mounts_text([panel])])


def mounts_text(panels: Sequence[Panel]) -> str:
    """How many mounting points panels have, and how many of them find no timber."""
    mounts = [mount for panel in panels for face in panel.faces for mount in face.mounts]
    missing = sum(mount.lands_on is None for mount in mounts)
    if missing:
        return tr("{count} mounting points, {missing} without timber", count=len(mounts), missing=missing)
    return tr("{count} mounting points, all on timber", count=len(mounts))
