"""The rules in their order, the one that lies on top first, and what comes of them."""

from PySide6.QtCore import QSize, Signal
from PySide6.QtWidgets import QCheckBox, QFrame, QHBoxLayout, QLabel, QListWidget, QListWidgetItem, QPushButton, QVBoxLayout

from app.colour.colours import Colours
from app.colour.finishing import Finishes
from app.colour.palette_card import ANY
from app.colour.rule_words import rule_words
from app.colour.swatch import SWATCH_PX, swatch, thumbnail
from app.document import Document
from core.colour import wishes_of
from core.colouring import PictureRule
from core.edits.colouring import move_rule, remove_rule
from core.language import marked, tr, trn

LEAST_LIST_PX = 70
WORKING = marked("counting bricks by colour …")


class RulesCard(QFrame):
    """Shown from the top: what lies higher in the list lies over what is below it."""

    picked = Signal(object)
    """The number of the rule chosen, from 0 as the room counts, or None."""

    def __init__(self, document: Document, colours: Colours) -> None:
        super().__init__()
        self.setObjectName("card")
        self._document = document
        self.rules = QListWidget()
        self.rules.setAccessibleName(tr("Rules, the topmost lies over the others"))
        self.rules.setIconSize(QSize(SWATCH_PX, SWATCH_PX))
        self.rules.setWordWrap(True)
        self.rules.setMinimumHeight(LEAST_LIST_PX)
        self.rules.currentRowChanged.connect(lambda _row: self.picked.emit(self.number))
        self.up, self.down, self.remove = QPushButton(tr("Up")), QPushButton(tr("Down")), QPushButton(tr("Remove"))
        self.up.clicked.connect(lambda: self._move(1))
        self.down.clicked.connect(lambda: self._move(-1))
        self.remove.clicked.connect(self._remove)
        self.show_colours = QCheckBox(tr("Show colours on the walls"))
        self.show_colours.setChecked(colours.are_shown)
        self.show_colours.toggled.connect(colours.show_them)
        colours.shown.connect(self.show_colours.setChecked)
        self.outcome = QLabel()
        self.outcome.setWordWrap(True)
        self.outcome.setAccessibleName(tr("What comes of it"))
        self._arrange()

    def _arrange(self) -> None:
        heading = QLabel(tr("Rules: higher lies over lower"))
        heading.setObjectName("heading")
        self.outcome.setObjectName("quiet")
        buttons = QHBoxLayout()
        for button in (self.up, self.down, self.remove):
            buttons.addWidget(button)
        buttons.addWidget(self.show_colours)
        buttons.addStretch(1)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(10, 8, 10, 8)
        layout.setSpacing(4)
        layout.addWidget(heading)
        layout.addWidget(self.rules, 1)
        layout.addLayout(buttons)
        layout.addWidget(self.outcome)

    @property
    def number(self) -> int | None:
        """The chosen rule as the room counts."""
        row = self.rules.currentRow()
        return self.rules.count() - 1 - row if row >= 0 else None

    def refresh(self) -> None:
        """Show what the room says; the chosen place in the list stays chosen."""
        setout, row = self._document.setout, self.rules.currentRow()
        colouring = setout.room.colouring
        idle = set(wishes_of(setout).idle)
        shown = [(number, rule_words(setout, rule)) for number, rule in enumerate(colouring.rules)][::-1]
        texts = [tr("{rule} – colours nothing that stands", rule=words) if number in idle else words for number, words in shown]
        if texts != [self.rules.item(place).text() for place in range(self.rules.count())]:
            self.rules.clear()
            for (number, _), text in zip(shown, texts, strict=True):
                item = QListWidgetItem(text)
                rule = colouring.rules[number]
                icon = thumbnail(rule) if isinstance(rule, PictureRule) else swatch(colouring.colour(rule.colour))
                item.setIcon(icon)
                self.rules.addItem(item)
            self.rules.setCurrentRow(min(row, len(texts) - 1))
        for button in (self.up, self.down, self.remove):
            button.setEnabled(bool(texts))

    def say_working(self) -> None:
        """Say that what stood here is not about the room as it is."""
        self.outcome.setText(tr(WORKING))

    def show_outcome(self, found: Finishes) -> None:
        """Pieces by colour, and what pictures cost the bond."""
        pieces = found.pieces()
        if not pieces:
            self.outcome.setText(tr("One colour: nothing is counted apart."))
            return
        said = ", ".join(f"{tr(name or ANY)} {_number(count)}" for name, count in pieces.most_common())
        lines = [tr("{count} parts in panels: {colours}.", count=_number(sum(pieces.values())), colours=said)]
        if found.cut:
            lines.append(
                trn(
                    "{n} panel is cut at its colours and has a sheet of its own.",
                    "{n} panels are cut at their colours and have sheets of their own.",
                    found.cut,
                )
            )
        if found.missed:
            lines.append(
                trn(
                    "{n} pitch shows another colour than wished, where a brick lies over a line.",
                    "{n} pitches show another colour than wished, where a brick lies over a line.",
                    found.missed,
                )
            )
        self.outcome.setText("\n".join(lines))

    def _move(self, by: int) -> None:
        if (number := self.number) is None:
            return
        to = number + by
        if not 0 <= to < self.rules.count():
            return
        if self._document.commit_edit(lambda room: move_rule(room, number, to), tr("Reorder colours")):
            self.rules.setCurrentRow(self.rules.count() - 1 - to)

    def _remove(self) -> None:
        if (number := self.number) is not None:
            self._document.commit_edit(lambda room: remove_rule(room, number), tr("Remove a colour rule"))


def _number(count: int) -> str:
    return f"{count:,}".replace(",", " ")
