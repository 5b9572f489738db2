"""A picture for a wall: chosen, tried on the elevation, and laid as a mosaic when it sits right."""

from pathlib import Path
from typing import Any, Protocol

from PySide6.QtWidgets import QFileDialog, QFrame, QGridLayout, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from app.colour.colours import Colours
from app.colour.picture_file import picture_suffixes, read_picture
from app.document import Document
from app.inspector.fields import ChoiceField, TextField
from core.colouring import PictureRule
from core.edits.colouring import add_rule, change_rule
from core.edits.revise import build, revise, tidy_mm
from core.errors import CoursewrightError
from core.language import marked, tr, trc
from core.room import Room, wall_letter
from core.units import format_length, parse_length_mm

WAYS = (("nearest", marked("nearest colour")), ("dithered", marked("dithered")))
NOTHING = marked("Every pitch of every course takes the nearest stocked colour; courses are laid anew to fit.")


class AskForFile(Protocol):
    """Asks a person for a picture file."""

    def __call__(self, parent: QWidget) -> Path | None: ...


def ask_for_picture(parent: QWidget) -> Path | None:
    """The file dialog."""
    kinds = " ".join(f"*.{suffix}" for suffix in picture_suffixes())
    filters = tr("Pictures ({kinds});;All files (*)", kinds=kinds)
    name, _ = QFileDialog.getOpenFileName(parent, tr("Choose a picture"), "", filters)
    return Path(name) if name else None


class PictureCard(QFrame):
    """Holds a picture that is tried or, chosen among the rules, laid already; nothing is the room's until it is laid."""

    def __init__(self, document: Document, colours: Colours, ask: AskForFile = ask_for_picture) -> None:
        super().__init__()
        self.setObjectName("card")
        self._document, self._colours, self._ask = document, colours, ask
        self._rule: PictureRule | None = None
        self._number: int | None = None
        self.choose, self.lay = QPushButton(tr("Choose a picture…")), QPushButton(tr("Lay it"))
        self.give_up = QPushButton(tr("Give it up"))
        self.words, self.fault = QLabel(tr(NOTHING)), QLabel()
        self.wall = ChoiceField(tr("On wall"), lambda: str(self._rule.wall if self._rule else 0), self._set_wall)
        self.left, self.bottom, self.wide, self.high = (
            self._length(caption, field)
            for caption, field in (
                (tr("From left"), "left_mm"),
                (tr("From floor"), "bottom_mm"),
                (tr("Width"), "width_mm"),
                (tr("Height"), "height_mm"),
            )
        )
        ways = [(way, tr(words)) for way, words in WAYS]
        self.way = ChoiceField(tr("Colours"), lambda: self._rule.way if self._rule else "nearest", self._set_way, ways)
        self._fields = (self.wall, self.way, self.left, self.bottom, self.wide, self.high)
        self._arrange()
        self.refresh()

    def _arrange(self) -> None:
        heading = QLabel(tr("Picture"))
        heading.setObjectName("heading")
        self.words.setObjectName("quiet")
        self.words.setWordWrap(True)
        self.fault.setObjectName("fault")
        self.fault.setWordWrap(True)
        self.fault.hide()
        self.choose.clicked.connect(self._choose)
        self.lay.clicked.connect(self._lay)
        self.give_up.clicked.connect(self.drop)
        buttons = QHBoxLayout()
        for button in (self.lay, self.give_up):
            buttons.addWidget(button)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(10, 8, 10, 8)
        layout.setSpacing(2)
        for part in (heading, self.choose, self.words):
            layout.addWidget(part)
        grid = QGridLayout()
        grid.setVerticalSpacing(2)
        for place, field in enumerate(self._fields):
            grid.addWidget(field, place // 2, place % 2)
        grid.setColumnStretch(0, 1)
        grid.setColumnStretch(1, 1)
        layout.addLayout(grid)
        layout.addLayout(buttons)
        layout.addWidget(self.fault)
        layout.addStretch(1)

    def _length(self, caption: str, field: str) -> TextField:
        def read() -> str:
            value = getattr(self._rule, field) if self._rule else 0.0
            return format_length(value, self._document.room.display_units, 2)

        def commit(typed: str) -> str:
            try:
                return self._change(**{field: tidy_mm(parse_length_mm(typed))})
            except CoursewrightError as error:
                return str(error)

        return TextField(caption, read, commit)

    def refresh(self) -> None:
        """Show the picture held, or that there is none."""
        room = self._document.room
        rules = room.colouring.rules
        if self._number is not None and (self._number >= len(rules) or not isinstance(rules[self._number], PictureRule)):
            self._rule = self._number = None
            self._colours.tint.try_picture(None)
        self.wall.offer([(str(wall), wall_letter(wall)) for wall in range(room.wall_count)])
        for field in self._fields:
            field.setVisible(self._rule is not None)
            field.refresh(force=True)
        for button in (self.lay, self.give_up):
            button.setVisible(self._rule is not None)
        self.lay.setText(tr("Lay it") if self._number is None else tr("Lay it so"))
        self.words.setText(self._about() if self._rule else tr(NOTHING))

    def _about(self) -> str:
        if self._rule is None:
            return ""
        kit = self._document.room.kit
        across = round(self._rule.width_mm / kit.pitch_mm)
        up = round(self._rule.height_mm / (kit.plate_mm * kit.plates_per_course))
        size = tr("{picture}: about {pitches} pitches by {courses} courses", picture=self._rule.name, pitches=across, courses=up)
        state = tr("tried, not laid yet") if self._number is None else trc("a picture", "laid")
        return f"{size}; {state}"

    def take_file(self, path: Path) -> None:
        """Try a picture file on the current wall; a file that is none is refused, and nothing changes."""
        try:
            cells = read_picture(path)
            rule = build(
                PictureRule,
                kind="picture",
                name=cells.name,
                columns=cells.columns,
                lines=cells.lines,
                srgb=cells.srgb,
                **_fitting(self._document.room, self._document.wall, cells.columns / cells.lines),
            )
        except CoursewrightError as error:
            self._say(str(error))
            return
        self._say("")
        self._hold(rule, None)
        self._colours.show_them(True)

    def take_rule(self, number: int | None) -> None:
        """Hold a picture that is laid; any other rule leaves what is tried alone."""
        rules = self._document.room.colouring.rules
        rule = rules[number] if number is not None and number < len(rules) else None
        if isinstance(rule, PictureRule):
            self._hold(rule, number)
        elif self._number is not None:
            self.drop()

    def drop(self) -> None:
        """Give up what is tried; what is laid stays as it was."""
        self._say("")
        self._hold(None, None)

    def _hold(self, rule: PictureRule | None, number: int | None) -> None:
        self._rule, self._number = rule, number
        self._colours.tint.try_picture(rule, number)
        self.refresh()

    def _choose(self) -> None:
        if (path := self._ask(self)) is not None:
            self.take_file(path)

    def _set_wall(self, value: str) -> str:
        return self._change(wall=int(value))

    def _set_way(self, value: str) -> str:
        return self._change(way=value)

    def _change(self, **values: Any) -> str:
        if self._rule is None:
            return ""
        try:
            self._hold(revise(self._rule, **values), self._number)
        except CoursewrightError as error:
            return str(error)
        return ""

    def _lay(self) -> None:
        rule, number = self._rule, self._number
        if rule is None:
            return
        if number is None:
            done = self._document.commit_edit(lambda room: add_rule(room, rule), tr("Lay picture {picture}", picture=rule.name))
        else:
            values = {field: getattr(rule, field) for field in ("wall", "left_mm", "bottom_mm", "width_mm", "height_mm", "way")}
            text = tr("Move picture {picture}", picture=rule.name)
            done = self._document.commit_edit(lambda room: change_rule(room, number, **values), text)
        self._say("" if done else self._document.refusal)
        if done:
            self._hold(None, None)

    def _say(self, fault: str) -> None:
        self.fault.setText(fault)
        self.fault.setVisible(bool(fault))


def _fitting(room: Room, wall: int, aspect: float) -> dict[str, Any]:
    """The picture as large as the wall takes it, in its middle, standing on the floor or centred in height."""
    length_mm, height_mm = room.wall_length_mm(wall), room.clad_height_mm
    wide = min(length_mm, height_mm * aspect)
    high = max(1.0, wide / aspect)
    return {
        "wall": wall,
        "left_mm": tidy_mm((length_mm - wide) / 2),
        "bottom_mm": tidy_mm((height_mm - high) / 2),
        "width_mm": tidy_mm(max(wide, 1.0)),
        "height_mm": tidy_mm(high),
    }
