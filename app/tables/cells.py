"""The model behind a table: rows of one sort and, for each column, how to read them and what typing does."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Any, Generic, TypeVar

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, Qt, Signal
from PySide6.QtGui import QColor, QFont

from app import theme
from core.language import trc

Row = TypeVar("Row")
AnyIndex = QModelIndex | QPersistentModelIndex
Words = Callable[[], Sequence[str]]


@dataclass(frozen=True)
class Column(Generic[Row]):
    """One column. ``commit`` makes the edit of what was typed and returns why it could not, or nothing."""

    title: str
    read: Callable[[Row], str]
    commit: Callable[[Row, str], str] | None = None
    is_number: bool = False
    choices: tuple[tuple[str, str], ...] = ()
    """Values with their words, where only these make sense; ``read`` gives the value."""
    proposals: Words | None = None
    """What typing may be completed to."""
    hint: str = ""
    invite: str = ""
    """What an empty cell asks for."""
    can_edit: Callable[[Row], bool] = lambda _row: True


class Cells(QAbstractTableModel, Generic[Row]):
    """Shows rows; what was typed wrongly stays in its cell until it is put right or the rows change."""

    refused = Signal(str)
    """Why what was typed cannot be, or nothing once it can."""

    def __init__(self, columns: Sequence[Column[Row]], parent: QObject, is_strong: Callable[[Row], bool] | None = None) -> None:
        super().__init__(parent)
        self.columns = tuple(columns)
        self.rows: tuple[Row, ...] = ()
        self._is_strong = is_strong
        self._wrong: dict[tuple[int, int], str] = {}

    def show_rows(self, rows: Sequence[Row]) -> None:
        """Take up other rows; the cell someone is in stays theirs."""
        if tuple(rows) == self.rows and not self._wrong:
            return
        before, after = len(self.rows), len(rows)
        self._wrong.clear()
        if after > before:
            self.beginInsertRows(QModelIndex(), before, after - 1)
            self.rows = tuple(rows)
            self.endInsertRows()
        elif after < before:
            self.beginRemoveRows(QModelIndex(), after, before - 1)
            self.rows = tuple(rows)
            self.endRemoveRows()
        else:
            self.rows = tuple(rows)
        if after:
            self.dataChanged.emit(self.index(0, 0), self.index(after - 1, len(self.columns) - 1))

    def rowCount(self, parent: AnyIndex = QModelIndex()) -> int:  # noqa: B008
        return 0 if parent.isValid() else len(self.rows)

    def columnCount(self, parent: AnyIndex = QModelIndex()) -> int:  # noqa: B008
        return 0 if parent.isValid() else len(self.columns)

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        if orientation != Qt.Orientation.Horizontal:
            return None
        column = self.columns[section]
        if role == Qt.ItemDataRole.DisplayRole:
            return column.title
        if role == Qt.ItemDataRole.ToolTipRole:
            return column.hint or None
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return self._alignment(column)
        return None

    def data(self, index: AnyIndex, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        place = index.row(), index.column()
        row, column = self.rows[place[0]], self.columns[place[1]]
        if role in (Qt.ItemDataRole.DisplayRole, Qt.ItemDataRole.EditRole):
            text = self._wrong.get(place, column.read(row))
            return text if role == Qt.ItemDataRole.EditRole else dict(column.choices).get(text, text) or column.invite
        if role == Qt.ItemDataRole.TextAlignmentRole:
            return self._alignment(column)
        if role == Qt.ItemDataRole.ForegroundRole:
            return self._ink(place, column.read(row))
        if role == Qt.ItemDataRole.FontRole and self._is_strong is not None and self._is_strong(row):
            font = QFont()
            font.setPixelSize(theme.px(theme.TEXT_PX))
            font.setBold(True)
            return font
        if role == Qt.ItemDataRole.AccessibleTextRole:
            said = self.data(index) or trc("a cell", "empty")
            return f"{column.title}: {said}"
        if role in (Qt.ItemDataRole.ToolTipRole, Qt.ItemDataRole.AccessibleDescriptionRole):
            return column.hint or None
        return None

    def flags(self, index: AnyIndex) -> Qt.ItemFlag:
        flags = Qt.ItemFlag.ItemIsSelectable | Qt.ItemFlag.ItemIsEnabled
        return flags | Qt.ItemFlag.ItemIsEditable if self.is_editable(index) else flags

    @property
    def takes_typing(self) -> bool:
        """Whether there is any column to type into."""
        return any(column.commit is not None for column in self.columns)

    def is_editable(self, index: AnyIndex) -> bool:
        """Whether typing into a cell does anything."""
        if not index.isValid():
            return False
        column = self.columns[index.column()]
        return column.commit is not None and column.can_edit(self.rows[index.row()])

    def setData(self, index: AnyIndex, value: object, role: int = Qt.ItemDataRole.EditRole) -> bool:
        place = index.row(), index.column()
        row, column = self.rows[place[0]], self.columns[place[1]]
        text = str(value).strip()
        if role != Qt.ItemDataRole.EditRole or column.commit is None:
            return False
        # Leaving a cell as it was is no edit.
        fault = "" if text == column.read(row) else column.commit(row, text)
        if fault:
            self._wrong[place] = text
        else:
            self._wrong.pop(place, None)
        self.refused.emit(f"{column.title}: {fault}" if fault else "")
        if place[0] < len(self.rows):
            at = self.index(*place)
            self.dataChanged.emit(at, at)
        return not fault

    def _ink(self, place: tuple[int, int], text: str) -> QColor | None:
        """What is typed wrongly stands out, what only invites to type keeps back."""
        if place in self._wrong:
            return QColor(theme.shown.level_inks["error"])
        return QColor(theme.shown.quiet_ink) if not text and self.columns[place[1]].invite else None

    def _alignment(self, column: Column[Row]) -> int:
        side = Qt.AlignmentFlag.AlignRight if column.is_number else Qt.AlignmentFlag.AlignLeft
        return int(side | Qt.AlignmentFlag.AlignVCenter)
