"""The page of the buying leaf that lays panels from the stock: one button, the answer in a line, and two tables behind it."""

from dataclasses import dataclass

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QPushButton, QVBoxLayout, QWidget

from app.from_stock.stock_bonds import StockBonds
from app.tables.cells import Column
from app.tables.pages import beside
from app.tables.reading import number_text
from app.tables.table import Table
from app.tables.titled import Titled
from core.export.stock_report import difference_text, mark_list
from core.language import marked, tr, trc
from core.laying import FromStock, StockBond, StockLine

ASK = marked("Bond from stock on hand")
AGAIN = marked("Bond again")
WORKING = marked("Laying every panel still to build from what is on hand …")
NOT_YET = marked(
    "Are bricks running short? Count the boxes on the first page, then have the panels still to build laid from what is there: "
    "other sizes take the place of those that are short, where the bond allows it."
)
STALE = marked("The boxes have changed since; bond again.")
HOW_IT_GOES_ON = marked("Bench, marking, preview and printing now go by these bonds; the print pack asks.")
UNCOUNTED = marked("not counted")


@dataclass(frozen=True, slots=True)
class SwapRow:
    """One bond that is not its design's, as it is read."""

    name: str
    panels: str
    marks: str
    change: str


class StockPage(QWidget):
    """Shows what ``StockBonds`` knows; nothing is worked out here."""

    def __init__(self, bonds: StockBonds) -> None:
        super().__init__()
        self._bonds = bonds
        self._shown: FromStock | None = None
        self.ask, self.drop = QPushButton(tr(ASK)), QPushButton(tr("As designed again"))
        self.drop.setToolTip(tr("Forget these bonds: every panel is laid as its design"))
        self.verdict, self.note = QLabel(), QLabel()
        self.verdict.setObjectName("heading")
        self.verdict.setAccessibleName(tr("Whether the stock does"))
        for label in (self.verdict, self.note):
            label.setWordWrap(True)
            label.setTextInteractionFlags(Qt.TextInteractionFlag.TextSelectableByMouse)
        self.parts, self.swaps = _parts_table(), _swaps_table()
        self.ask.clicked.connect(self._ask)
        self.drop.clicked.connect(bonds.drop)
        bonds.changed.connect(self.refresh)
        self._place()
        self.refresh()

    def hasHeightForWidth(self) -> bool:
        """What scrolls the leaf must not make room for the words' ease; the tables have what is left."""
        return False

    def refresh(self) -> None:
        """Show what is known now."""
        found, is_busy = self._bonds.found, self._bonds.is_busy
        self.ask.setText(tr("Stop") if is_busy else tr(AGAIN) if found else tr(ASK))
        self.drop.setVisible(found is not None and not is_busy)
        self.verdict.setText(tr(WORKING) if is_busy else found.verdict if found else self._bonds.fault)
        self.verdict.setVisible(bool(self.verdict.text()))
        self.note.setText(self._note(found))
        if found is not self._shown:
            self._shown = found
            self.parts.show_rows(list(found.lines) if found else [])
            self.swaps.show_rows([_swap(found, group) for group in found.groups if not group.is_usual] if found else [])

    def _note(self, found: FromStock | None) -> str:
        if found is None:
            return tr(NOT_YET)
        said = [tr(STALE)] if self._bonds.is_stale else []
        if found.uncounted:
            parts = ", ".join(tr(part) for part in found.uncounted)
            said.append(tr("Never counted, so taken to be enough: {parts}.", parts=parts))
        if found.swapped:
            said.append(tr(HOW_IT_GOES_ON))
        return " ".join(said)

    def _ask(self) -> None:
        if self._bonds.is_busy:
            self._bonds.stop()
        else:
            self._bonds.work_out()

    def _place(self) -> None:
        top = QFrame()
        top.setObjectName("card")
        words = QVBoxLayout()
        words.setSpacing(2)
        words.addWidget(self.verdict)
        words.addWidget(self.note)
        row = QHBoxLayout(top)
        row.setContentsMargins(10, 8, 10, 8)
        row.setSpacing(8)
        row.addLayout(words, 1)
        for button in (self.ask, self.drop):
            row.addWidget(button, 0, Qt.AlignmentFlag.AlignTop)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(6)
        layout.addWidget(top)
        parts = Titled(tr("Parts on hand, in pieces"), self.parts)
        swaps = Titled(tr("Laid otherwise than their design"), self.swaps)
        layout.addWidget(beside((parts, 9), (swaps, 11)), 1)


def _parts_table() -> Table[StockLine]:
    def shown(number: int | None) -> str:
        return tr(UNCOUNTED) if number is None else number_text(number)

    on_hand, usual = tr("In the boxes, less the starter ring's"), tr("What the panels take as their designs")
    columns: list[Column[StockLine]] = [
        Column(tr("Part"), lambda line: f"{tr(line.part)}, {tr(line.colour)}" if line.colour else tr(line.part)),
        Column(tr("On hand"), lambda line: shown(line.on_hand), is_number=True, hint=on_hand),
        Column(tr("As designed"), lambda line: number_text(line.usual), is_number=True, hint=usual),
        Column(tr("Laid so"), lambda line: number_text(line.laid), is_number=True, hint=tr("What they take in these bonds")),
        Column(trc("what remains", "Left"), lambda line: "" if line.left is None else number_text(line.left), is_number=True),
    ]
    return Table(tr("Parts on hand"), columns)


def _swaps_table() -> Table[SwapRow]:
    columns: list[Column[SwapRow]] = [
        Column(tr("Bond"), lambda row: row.name),
        Column(tr("Panels"), lambda row: row.panels, is_number=True),
        Column(tr("Marks"), lambda row: row.marks),
        Column(tr("In one panel"), lambda row: row.change, hint=tr("How its parts differ from its design's")),
    ]
    return Table(tr("Laid otherwise than their design"), columns)


def _swap(found: FromStock, group: StockBond) -> SwapRow:
    return SwapRow(group.name, number_text(len(group.marks)), mark_list(group.marks), difference_text(found, group))
