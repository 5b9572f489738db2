"""The list of panels in hanging order: their states, sought and sifted."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Any

from PySide6.QtCore import QAbstractTableModel, QModelIndex, QObject, QPersistentModelIndex, QRect, QSize, Qt
from PySide6.QtGui import QColor, QIcon, QPainter, QPen, QPixmap

from app import theme
from app.elevation.progress_marks import paint_signs
from core.crew import hanging_order
from core.crew.standing import place_of, records_by_place
from core.language import tr, trc
from core.progress import PanelState
from core.setout.result import SetOut

AnyIndex = QModelIndex | QPersistentModelIndex
SIGN_SIZE = QSize(34, 22)
COLUMNS = ("mark", "state", "design", "on", "by")
"""What each column shows of a row."""


@dataclass(frozen=True, slots=True)
class PanelRow:
    """One panel as the list shows it; ``on`` and ``by`` are of its latest step."""

    mark: str
    state: PanelState
    design: str
    on: str
    by: str


def panel_rows(setout: SetOut) -> tuple[PanelRow, ...]:
    """Every panel in hanging order."""
    records = records_by_place(setout)
    rows = []
    for panel in hanging_order(setout):
        record = records.get(place_of(panel))
        last = record.steps[-1] if record else None
        state = record.state if record else "to build"
        rows.append(PanelRow(panel.mark, state, panel.design, (last.on or "") if last else "", last.by if last else ""))
    return tuple(rows)


def sifted(rows: Sequence[PanelRow], state: PanelState | None, sought: str) -> list[PanelRow]:
    """The rows in a state, or in any, whose mark or design holds what is sought."""
    words = sought.casefold().split()
    return [
        row
        for row in rows
        if (state is None or row.state == state) and all(word in f"{row.mark} {row.design}".casefold() for word in words)
    ]


@theme.kept(16)
def sign_icon(state: PanelState, ratio: float = 2.0) -> QIcon:
    """A state's sign as the elevation shows it, on a small panel."""
    pixmap = QPixmap(SIGN_SIZE * ratio)
    pixmap.setDevicePixelRatio(ratio)
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    box = QRect(1, 1, SIGN_SIZE.width() - 3, SIGN_SIZE.height() - 3)
    painter.setPen(QPen(QColor(theme.shown.panel_edge), 1))
    painter.setBrush(QColor(theme.shown.panel_fills["full"]))
    painter.drawRect(box)
    paint_signs(painter, state, [box])
    painter.end()
    return QIcon(pixmap)


class PanelRows(QAbstractTableModel):
    """The rows that are shown. Rows that stay keep their places in the view: only what differs is told."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self.rows: list[PanelRow] = []
        latest = trc("day of the latest step", "on"), trc("who took the latest step", "by")
        self._heads = (tr("mark"), tr("state"), tr("design"), *latest)

    def show_rows(self, rows: Sequence[PanelRow]) -> bool:
        """Show other rows; True where the list of marks is another one, so that a view must choose anew."""
        if [row.mark for row in rows] == [row.mark for row in self.rows]:
            changed = [place for place, (was, now) in enumerate(zip(self.rows, rows, strict=True)) if was != now]
            self.rows = list(rows)
            if changed:
                self.dataChanged.emit(self.index(changed[0], 0), self.index(changed[-1], len(COLUMNS) - 1))
            return False
        self.beginResetModel()
        self.rows = list(rows)
        self.endResetModel()
        return True

    def rowCount(self, parent: AnyIndex = QModelIndex()) -> int:  # noqa: B008
        return 0 if parent.isValid() else len(self.rows)

    def columnCount(self, parent: AnyIndex = QModelIndex()) -> int:  # noqa: B008
        return 0 if parent.isValid() else len(COLUMNS)

    def headerData(self, section: int, orientation: Qt.Orientation, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        is_title = orientation == Qt.Orientation.Horizontal and role == Qt.ItemDataRole.DisplayRole
        return self._heads[section] if is_title else None

    def data(self, index: AnyIndex, role: int = Qt.ItemDataRole.DisplayRole) -> Any:
        row, column = self.rows[index.row()], COLUMNS[index.column()]
        if role == Qt.ItemDataRole.DisplayRole:
            return _shown(row, column)
        if role == Qt.ItemDataRole.DecorationRole and column == "state":
            return sign_icon(row.state)
        if role == Qt.ItemDataRole.AccessibleTextRole:
            if column == "mark":
                return ", ".join(_shown(row, one) for one in ("mark", "state", "design"))
            said = _shown(row, column) or tr("empty")
            return f"{self._heads[index.column()]}: {said}"
        return None


def _shown(row: PanelRow, column: str) -> str:
    return tr(row.state) if column == "state" else str(getattr(row, column))
