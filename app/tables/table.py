"""The table itself: all of it by keyboard, and cells that can be typed into look like fields."""

from collections.abc import Callable, Sequence
from typing import Any, Generic

from PySide6.QtCore import QEvent, QModelIndex, QPersistentModelIndex, QRect, Qt, QTimer, Signal
from PySide6.QtGui import QColor, QFocusEvent, QKeyEvent, QPainter, QPen, QResizeEvent
from PySide6.QtWidgets import (
    QAbstractItemView,
    QComboBox,
    QCompleter,
    QHeaderView,
    QLineEdit,
    QStyledItemDelegate,
    QStyleOptionViewItem,
    QTableView,
    QWidget,
)

from app import theme
from app.tables.cells import Cells, Column, Row
from app.theme.look import InStep, Style

AnyIndex = QModelIndex | QPersistentModelIndex
ROW_PX = 30
ACCEPT = (Qt.Key.Key_Return, Qt.Key.Key_Enter)
OWN_KEYS = (*ACCEPT, Qt.Key.Key_Delete, Qt.Key.Key_PageUp, Qt.Key.Key_PageDown, Qt.Key.Key_F2)
"""Keys that mean something in a table, whatever they mean in the window."""


class Table(QTableView, Generic[Row]):
    """Arrows go from cell to cell, typing or Enter begins an edit, Delete asks for the row to go, Tab leaves."""

    removal_asked = Signal(int)
    """The row that is to go."""

    def __init__(
        self, name: str, columns: Sequence[Column[Row]], *, stretch: int = 0, is_strong: Callable[[Row], bool] | None = None
    ) -> None:
        """``stretch`` is the column that takes what width is left; rows that are ``is_strong`` are lettered bold."""
        super().__init__()
        self.setAccessibleName(name)
        self._stretch = stretch
        self.cells: Cells[Row] = Cells(columns, self, is_strong)
        self.setModel(self.cells)
        self.setItemDelegate(_CellDelegate(self))
        self.setTabKeyNavigation(False)
        self.setSelectionMode(QAbstractItemView.SelectionMode.SingleSelection)
        triggers = QAbstractItemView.EditTrigger
        self.setEditTriggers(triggers.DoubleClicked | triggers.SelectedClicked | triggers.AnyKeyPressed | triggers.EditKeyPressed)
        self.setShowGrid(False)
        self.setWordWrap(False)
        self.verticalHeader().hide()
        InStep(self, lambda: self.verticalHeader().setDefaultSectionSize(theme.px(ROW_PX)))
        self.setVerticalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        self.setHorizontalScrollMode(QAbstractItemView.ScrollMode.ScrollPerPixel)
        header = self.horizontalHeader()
        header.setHighlightSections(False)
        header.setSectionResizeMode(QHeaderView.ResizeMode.Interactive)
        InStep(self, lambda: header.setMinimumSectionSize(theme.px(44)))
        Style(self, _sheet)

    def show_rows(self, rows: Sequence[Row]) -> None:
        """Show other rows."""
        self.cells.show_rows(rows)
        self._fit()

    def row_at_hand(self) -> Row | None:
        """The row someone is in."""
        number = self.currentIndex().row()
        return self.cells.rows[number] if 0 <= number < len(self.cells.rows) else None

    def event(self, event: QEvent) -> bool:
        """Keys that a cell can use stay here and do not go to the window's own."""
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent) and self._takes(event):
            event.accept()
            return True
        return super().event(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        if not self.currentIndex().isValid() and self.cells.rows:
            self.setCurrentIndex(self.cells.index(0, 0))

    def keyPressEvent(self, event: QKeyEvent) -> None:
        index = self.currentIndex()
        self._await_no_second_click(index)
        if event.key() in ACCEPT and self.cells.is_editable(index) and self.state() != self.State.EditingState:
            self.edit(index)
        elif event.key() == Qt.Key.Key_Delete and index.isValid():
            self.removal_asked.emit(index.row())
        else:
            super().keyPressEvent(event)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def _await_no_second_click(self, index: QModelIndex) -> None:
        """After a click Qt waits for a second one and drops what is typed meanwhile; this trigger ends the wait."""
        super().edit(index, QAbstractItemView.EditTrigger.CurrentChanged, QEvent(QEvent.Type.None_))

    def _fit(self) -> None:
        """Give every column what its words take, and one of them what is left besides."""
        header = self.horizontalHeader()
        widths = [max(self.sizeHintForColumn(one), header.sectionSizeHint(one)) for one in range(header.count())]
        widths[self._stretch] += max(0, self.viewport().width() - sum(widths))
        for column, width in enumerate(widths):
            header.resizeSection(column, width)

    def _takes(self, event: QKeyEvent) -> bool:
        if event.modifiers() & ~(Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.KeypadModifier):
            return False
        # What is typed into a wrong cell must not become commands that change the room.
        return event.key() in OWN_KEYS or (event.text().isprintable() and bool(event.text()) and self.cells.takes_typing)


class _CellDelegate(QStyledItemDelegate):
    """Paints an edge round cells that can be typed into, and makes their editors."""

    def paint(self, painter: QPainter, option: QStyleOptionViewItem, index: AnyIndex) -> None:
        super().paint(painter, option, index)
        model = index.model()
        if isinstance(model, Cells) and model.is_editable(index):
            edge: Any = option
            painter.setPen(QPen(QColor(theme.shown.edge), 1))
            painter.drawRect(QRect(edge.rect).adjusted(2, 3, -3, -4))

    def createEditor(self, parent: QWidget, _option: QStyleOptionViewItem, index: AnyIndex) -> QWidget:
        model = index.model()
        assert isinstance(model, Cells)
        column = model.columns[index.column()]
        if column.choices:
            box = QComboBox(parent)
            for value, words in column.choices:
                box.addItem(words, value)
            box.activated.connect(lambda _place: self._finish(box))
            # Opened at once, arrows only look through the choices; closed, each would choose.
            QTimer.singleShot(0, box, box.showPopup)
            box.setAccessibleName(column.title)
            return box
        line = QLineEdit(parent)
        line.setAccessibleName(column.title)
        line.setAccessibleDescription(column.hint)
        if column.proposals is not None:
            completer = QCompleter(list(column.proposals()), line)
            completer.setCaseSensitivity(Qt.CaseSensitivity.CaseInsensitive)
            # A list that pops up would take the first Enter for itself.
            completer.setCompletionMode(QCompleter.CompletionMode.InlineCompletion)
            line.setCompleter(completer)
        return line

    def setEditorData(self, editor: QWidget, index: AnyIndex) -> None:
        text = str(index.data(Qt.ItemDataRole.EditRole))
        if isinstance(editor, QComboBox):
            editor.setCurrentIndex(editor.findData(text))
        elif isinstance(editor, QLineEdit) and not editor.isModified():
            editor.setText(text)

    def setModelData(self, editor: QWidget, model: Any, index: AnyIndex) -> None:
        if isinstance(editor, QComboBox):
            model.setData(index, editor.currentData())
        elif isinstance(editor, QLineEdit):
            model.setData(index, editor.text())

    def _finish(self, editor: QWidget) -> None:
        self.commitData.emit(editor)
        self.closeEditor.emit(editor)


def _sheet() -> str:
    shown = theme.shown
    return f"""
        QTableView {{ background: {shown.card}; border: none; selection-background-color: {shown.accent_wash};
            selection-color: {shown.ink}; }}
        QTableView::item {{ padding: 0 5px; }}
        QTableView:focus {{ border: 2px solid {shown.accent}; }}
        QTableView::item:selected {{ background: {shown.accent_wash}; color: {shown.ink}; }}
        QTableView QLineEdit {{ padding: 0 4px; }}
        QHeaderView::section {{ background: {shown.card}; color: {shown.quiet_ink}; border: none;
            border-bottom: 1px solid {shown.edge}; padding: 3px 6px; font-size: {theme.px(theme.SMALL_PX)}px; }}
    """
