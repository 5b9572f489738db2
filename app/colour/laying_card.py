"""Where the colour in hand is laid: the room, a wall, a panel, some of its courses, a band."""

from collections.abc import Callable, Sequence

from PySide6.QtWidgets import QCheckBox, QFrame, QGridLayout, QLabel, QLineEdit, QPushButton, QSpinBox, QVBoxLayout

from app.colour.colours import Colours
from app.document import Document
from core.bond.shape import shape_of
from core.colouring import BandRule, RoomRule, Rule, WallRule
from core.edits.colouring import add_rules, panel_rule
from core.edits.revise import build
from core.errors import CoursewrightError
from core.language import marked, tr, trc, trn
from core.room import wall_letter
from core.units import parse_length_mm

MakeRules = Callable[[str], Sequence[Rule]]
"""Rules for the colour in hand."""
NO_PANEL = marked("Panel: click one or several")


class LayingCard(QFrame):
    """Every button lays one rule over all others."""

    def __init__(self, document: Document, colours: Colours) -> None:
        super().__init__()
        self.setObjectName("card")
        self._document, self._colours = document, colours
        self._colour: str | None = None
        self.heading, self.fault = QLabel(), QLabel()
        self.room, self.wall, self.panel = QPushButton(tr("Whole room")), QPushButton(), QPushButton(tr(NO_PANEL))
        self.courses, self.band = QPushButton(tr("Its courses")), QPushButton(tr("Band"))
        self.first, self.last = QSpinBox(), QSpinBox()
        self.low, self.high = QLineEdit(), QLineEdit()
        self.one_wall = QCheckBox()
        self._arrange()
        self._connect()

    def _arrange(self) -> None:
        self.heading.setObjectName("heading")
        self.fault.setObjectName("fault")
        self.fault.setWordWrap(True)
        self.fault.hide()
        for spin, name in ((self.first, tr("First course")), (self.last, tr("Last course"))):
            spin.setAccessibleName(name)
            spin.setRange(1, 1)
        ends = ((self.low, tr("Band from"), trc("range", "from")), (self.high, tr("Band to"), trc("range", "to")))
        for line, name, short in ends:
            line.setAccessibleName(name)
            line.setPlaceholderText(short)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(10, 8, 10, 8)
        layout.setSpacing(4)
        layout.addWidget(self.heading)
        grid = QGridLayout()
        grid.setVerticalSpacing(4)
        for place, button in enumerate((self.room, self.wall)):
            grid.addWidget(button, place, 0, 1, 4)
        grid.addWidget(self.panel, 2, 0, 1, 4)
        for row, button, one, other in ((3, self.courses, self.first, self.last), (4, self.band, self.low, self.high)):
            grid.addWidget(button, row, 0)
            grid.addWidget(one, row, 1)
            grid.addWidget(QLabel(trc("range", "to")), row, 2)
            grid.addWidget(other, row, 3)
        grid.addWidget(self.one_wall, 5, 1, 1, 3)
        grid.setColumnStretch(1, 1)
        grid.setColumnStretch(3, 1)
        layout.addLayout(grid)
        layout.addWidget(self.fault)
        layout.addStretch(1)

    def _connect(self) -> None:
        self.room.clicked.connect(lambda: self._lay(lambda name: [RoomRule(kind="room", colour=name)]))
        self.wall.clicked.connect(lambda: self._lay(lambda name: [WallRule(kind="wall", colour=name, wall=self._document.wall)]))
        self.panel.clicked.connect(lambda: self._lay(self._panels))
        self.courses.clicked.connect(lambda: self._lay(self._courses))
        self.band.clicked.connect(lambda: self._lay(self._band))

    def hold(self, colour: str) -> None:
        """Take another colour in hand."""
        self._colour = colour
        self.refresh()

    def refresh(self) -> None:
        """Show what the buttons would lay where."""
        document = self._document
        self.heading.setText(tr("Lay {colour} over", colour=tr(self._colour)) if self._colour else tr("Choose a colour"))
        self.wall.setText(tr("Wall {wall}", wall=wall_letter(document.wall)))
        self.one_wall.setText(tr("only on wall {wall}", wall=wall_letter(document.wall)))
        panel, marks = document.selected_panel, document.chosen.marks
        self.panel.setText(_panels_words(marks))
        self.panel.setEnabled(bool(marks))
        self.courses.setEnabled(panel is not None)
        if panel is not None:
            layers = len(shape_of(document.setout, panel).layers)
            self.first.setMaximum(layers)
            self.last.setMaximum(layers)
            self.courses.setToolTip(
                tr("Counted from the panel's bottom; of its {courses} the last two are plates and cap", courses=layers)
            )

    def _panels(self, name: str) -> Sequence[Rule]:
        return [panel_rule(panel, name) for panel in self._document.chosen.panels]

    def _courses(self, name: str) -> Sequence[Rule]:
        panel = self._document.selected_panel
        if panel is None:
            raise CoursewrightError(tr("select a panel on the elevation first"))
        low, high = sorted((self.first.value(), self.last.value()))
        return [panel_rule(panel, name, tuple(range(low, high + 1)))]

    def _band(self, name: str) -> Sequence[Rule]:
        walls = (self._document.wall,) if self.one_wall.isChecked() else ()
        low, high = parse_length_mm(self.low.text()), parse_length_mm(self.high.text())
        return [build(BandRule, kind="band", colour=name, from_mm=low, to_mm=high, walls=walls)]

    def _lay(self, make: MakeRules) -> None:
        fault = "" if self._colour else tr("choose a colour first")
        if self._colour is not None:
            text = tr("Lay {colour}", colour=tr(self._colour))
            try:
                rules = make(self._colour)
            except CoursewrightError as error:
                fault = str(error)
            else:
                done = self._document.commit_edit(lambda room: add_rules(room, rules), text)
                fault = "" if done else self._document.refusal
        self.fault.setText(fault)
        self.fault.setVisible(bool(fault))
        if not fault:
            self._colours.show_them(True)


def _panels_words(marks: Sequence[str]) -> str:
    """The chosen panels, on the button that lays over them."""
    if not marks:
        return tr(NO_PANEL)
    if len(marks) == 1:
        return tr("Panel {panel}", panel=marks[0])
    return trn("{n} panel", "{n} panels", len(marks))
