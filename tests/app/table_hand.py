"""A hand on tables and fields: real keys, as a person would press them."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLineEdit
from pytestqt.qtbot import QtBot

from app.inspector.fields import TextField
from app.tables.table import Table


def column_of(table: Table, title: str) -> int:
    return [one.title for one in table.cells.columns].index(title)


def type_into(qtbot: QtBot, table: Table, row: int, column: str | int, text: str) -> None:
    """Go to a cell of a column, by its title or its number, begin with Enter, type, and end with Enter."""
    number = column if isinstance(column, int) else column_of(table, column)
    table.setFocus()
    table.setCurrentIndex(table.cells.index(row, number))
    qtbot.keyClick(table, Qt.Key.Key_Return)
    editor = QApplication.focusWidget()
    assert isinstance(editor, QLineEdit)
    editor.selectAll()
    qtbot.keyClicks(editor, text)
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: table.state() != Table.State.EditingState)


def row_of(table: Table, text: str) -> int:
    """The row whose first cell says so."""
    return next(row for row in range(table.cells.rowCount()) if table.cells.index(row, 0).data() == text)


def shown(table: Table, row: int, column: str) -> str:
    """What a cell shows, without the spaces between thousands."""
    return str(table.cells.index(row, column_of(table, column)).data()).replace("\u00a0", "")


def fill(qtbot: QtBot, field: TextField, text: str) -> None:
    """Type into a field in place of what it says, and end with Enter."""
    field.line.setFocus()
    field.line.selectAll()
    qtbot.keyClicks(field.line, text)
    qtbot.keyClick(field.line, Qt.Key.Key_Return)
