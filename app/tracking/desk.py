"""The left of the leaf: who is marking, the scanned code, and what came of the last mark in large letters."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QAccessible, QAccessibleEvent
from PySide6.QtWidgets import QComboBox, QCompleter, QFrame, QGridLayout, QLabel, QLineEdit

from app import theme
from app.theme.look import InStep, Style
from app.tracking.marking import Marking, Said, ScanMeans
from app.tracking.picks import Picks
from core.language import marked, tr
from core.setout.result import SetOut

MEANINGS: tuple[tuple[ScanMeans, str], ...] = (
    ("forward", marked("steps forward")),
    ("built", marked("is built")),
    ("checked", marked("is checked")),
    ("hung", marked("is hung")),
    ("show", marked("is only shown")),
)
SAID_PX = 20
WIDE_PX = 250


class Desk(QFrame):
    """A scanner types the mark and Enter; the cursor stays where it is for the next one."""

    def __init__(self, marking: Marking, picks: Picks) -> None:
        super().__init__()
        self.setObjectName("card")
        self._marking, self._picks = marking, picks
        self.who = QLineEdit(marking.who)
        self.who.setMaxLength(60)
        self.who.setPlaceholderText(tr("your name"))
        self.who.textEdited.connect(self._on_who)
        self.means = QComboBox()
        for value, words in MEANINGS:
            self.means.addItem(tr(words), value)
        self.code = QLineEdit()
        self.code.setPlaceholderText(tr("scan a code"))
        self.code.returnPressed.connect(self._scan)
        Style(self.code, lambda: f"font-size: {theme.big_px(SAID_PX)}px; font-weight: 700")
        self.said = QLabel()
        self.said.setWordWrap(True)
        self.said.setTextFormat(Qt.TextFormat.PlainText)
        self.said.setAlignment(Qt.AlignmentFlag.AlignTop)
        self._is_refusal = False
        self._said_style = Style(self.said, self._said_sheet)
        InStep(self, lambda: self.setFixedWidth(theme.px(WIDE_PX)))
        self._place()
        marking.said.connect(self.show_said)

    def _place(self) -> None:
        grid = QGridLayout(self)
        grid.setContentsMargins(12, 8, 12, 8)
        grid.setVerticalSpacing(6)
        for row, (words, field) in enumerate(((tr("Who"), self.who), (tr("Code"), self.code), (tr("Each scan"), self.means))):
            label = QLabel(words)
            label.setBuddy(field)
            grid.addWidget(label, row, 0)
            grid.addWidget(field, row, 1)
        self.who.setAccessibleName(tr("Who marks the panels"))
        self.code.setAccessibleName(tr("Scanned code"))
        self.means.setAccessibleName(tr("What each scan does: the panel"))
        grid.addWidget(self.said, 3, 0, 1, 2)
        grid.setRowStretch(3, 1)
        grid.setColumnStretch(1, 1)

    def show_setout(self, setout: SetOut) -> None:
        """Offer the crew's names."""
        names = [person.name for person in setout.room.crew.people]
        completer = QCompleter(names, self.who)
        completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
        self.who.setCompleter(completer)

    def show_said(self, said: Said) -> None:
        """Say what came of the last mark, large enough to read from the wall; refusals begin with a word, not a hue alone."""
        self._is_refusal = said.is_refusal
        self._said_style.refresh()
        self.said.setText(tr("Not noted. {reason}", reason=said.text) if said.is_refusal else said.text)
        QAccessible.updateAccessibility(QAccessibleEvent(self.said, QAccessible.Event.Alert))

    def _said_sheet(self) -> str:
        ink = theme.shown.level_inks["error"] if self._is_refusal else theme.shown.ink
        return f"font-size: {theme.big_px(SAID_PX)}px; font-weight: 700; color: {ink}"

    def _on_who(self, name: str) -> None:
        self._marking.who = name

    def _scan(self) -> None:
        typed = self.code.text()
        self.code.clear()
        if not typed.strip():
            return
        mark = self._marking.scan(typed, self.means.currentData())
        if mark is not None:
            self._picks.choose((mark,), mark)
