"""Tables of what was worked out: every row says on demand how it was found, by hovering, by arrow keys and to a screen reader."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QModelIndex, QObject, QPersistentModelIndex, Qt, Signal
from PySide6.QtGui import QColor
from PySide6.QtWidgets import QFrame, QHeaderView, QLabel, QScrollArea, QVBoxLayout, QWidget

from app import theme
from app.tables.cells import Cells, Column
from app.tables.table import Table
from app.tables.titled import Titled
from app.theme.look import InStep
from core.frame.figure import Figure
from core.language import marked, tr

AnyIndex = QModelIndex | QPersistentModelIndex
LESS = marked("Choose a row to see how it was found; Enter goes to the place it is about.")
HOW_PX = 34
"""Two lines."""


@dataclass(frozen=True, slots=True)
class Fact:
    """A row: its cells, how it was found and where that was published, and the place it is about."""

    cells: tuple[str, ...]
    how: str = ""
    where: str = ""
    """As a check's: ``wall A``, ``opening door``, ``panel A-1-02``; nothing where there is no place to go to."""


def of_figure(figure: Figure, value: str) -> Fact:
    """A figure as a row: its name and value, its formula and source behind it."""
    return Fact((figure.name, value), tr("{formula}. Source: {source}.", formula=figure.formula, source=figure.source))


class _FactCells(Cells[Fact]):
    """Rows that explain themselves; while something newer is worked out they are lettered quietly."""

    def __init__(self, columns: Sequence[Column[Fact]], parent: QObject) -> None:
        super().__init__(columns, parent)
        self._is_old = False

    def grow_old(self, is_old: bool) -> None:
        self._is_old = is_old
        if self.rows:
            self.dataChanged.emit(self.index(0, 0), self.index(len(self.rows) - 1, len(self.columns) - 1))

    def data(self, index: AnyIndex, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if role in (Qt.ItemDataRole.ToolTipRole, Qt.ItemDataRole.AccessibleDescriptionRole):
            return self.rows[index.row()].how or None
        if role == Qt.ItemDataRole.ForegroundRole and self._is_old:
            return QColor(theme.shown.quiet_ink)
        return super().data(index, role)


class FactTable(Table[Fact]):
    """Read only; Enter or a double click asks for the place a row is about."""

    place_asked = Signal(str)

    def __init__(self, name: str, titles: Sequence[str], *, stretch: Sequence[int] = (0,)) -> None:
        """An English title that ends in a full stop heads a column of numbers; those of ``stretch`` share what width is left."""
        columns = [_column(number, title) for number, title in enumerate(titles)]
        super().__init__(name, columns, stretch=stretch[0])
        self.facts = _FactCells(columns, self)
        self.cells = self.facts
        self.setModel(self.facts)
        self.setSelectionBehavior(Table.SelectionBehavior.SelectRows)
        header = self.horizontalHeader()
        header.setSectionResizeMode(QHeaderView.ResizeMode.ResizeToContents)
        for column in stretch:
            header.setSectionResizeMode(column, QHeaderView.ResizeMode.Stretch)
        self.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        self.activated.connect(self._ask)

    def _fit(self) -> None:
        """Nothing to do: the widest column gives way, and what it cuts short stands whole below the page."""

    def _ask(self, index: QModelIndex) -> None:
        where = self.cells.rows[index.row()].where
        if where:
            self.place_asked.emit(where)


def _column(number: int, title: str) -> Column[Fact]:
    words = tr(title).rstrip(".") if title else ""
    return Column(words, lambda fact: fact.cells[number], is_number=title.endswith("."))


class FactCard(Titled):
    """A table of facts under its heading."""

    told = Signal(str)
    """What the row at hand rests on."""

    def __init__(self, title: str, titles: Sequence[str], *, stretch: Sequence[int] = (0,), least_px: int = 200) -> None:
        self.table = FactTable(title, titles, stretch=stretch)
        super().__init__(title, self.table)
        self.setMinimumWidth(least_px)
        self._title = title
        self.table.selectionModel().currentChanged.connect(lambda *_: self._tell())

    def show_facts(self, facts: Sequence[Fact], title: str = "") -> None:
        """Show other rows, under another heading where one is given."""
        self.heading.setText(title or self._title)
        self.table.setAccessibleName(title or self._title)
        self.table.show_rows(facts)
        self.table.facts.grow_old(False)
        if self.table.hasFocus():
            self._tell()

    def grow_old(self) -> None:
        """What stands here is about the room as it was."""
        self.table.facts.grow_old(True)

    def _tell(self) -> None:
        row = self.table.row_at_hand()
        if row is not None and row.how:
            self.told.emit(f"{row.cells[0].strip()}: {row.how}" if row.cells[0] else row.how)


class _Told(QLabel):
    """Words of a fixed height: one that followed them would have the whole leaf laid out anew from row to row."""

    def hasHeightForWidth(self) -> bool:
        return False


class Explained(QWidget):
    """A page of cards, which scroll where the window is too small, and below them how the row at hand was found."""

    def __init__(self, parts: QWidget, cards: Sequence[FactCard], hint: str = LESS) -> None:
        super().__init__()
        self.how = _Told(tr(hint))
        self.how.setObjectName("quiet")
        self.how.setAccessibleName(tr("How it was found"))
        self.how.setWordWrap(True)
        self.how.setAlignment(Qt.AlignmentFlag.AlignTop)
        InStep(self.how, lambda: self.how.setFixedHeight(theme.px(HOW_PX)))
        column = QVBoxLayout(self)
        column.setContentsMargins(0, 0, 0, 0)
        column.setSpacing(4)
        column.addWidget(_scrolled(parts), 1)
        column.addWidget(self.how)
        for card in cards:
            card.told.connect(self.how.setText)


def _scrolled(parts: QWidget) -> QScrollArea:
    area = QScrollArea()
    area.setWidget(parts)
    area.setWidgetResizable(True)
    area.setFrameShape(QFrame.Shape.NoFrame)
    area.setFocusPolicy(Qt.FocusPolicy.NoFocus)
    for part in (parts, area.viewport()):
        part.setAutoFillBackground(False)
    return area
