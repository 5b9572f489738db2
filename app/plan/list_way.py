"""The way of measured walls: a table of lengths and turns, which a list can be pasted into."""

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QObject, Qt
from PySide6.QtGui import QKeyEvent, QKeySequence
from PySide6.QtWidgets import QApplication, QLabel, QLineEdit, QTableWidget, QTableWidgetItem, QVBoxLayout

from app.plan.miss import MissPanel
from app.plan.sketch_view import OutlineView
from app.plan.ways import Way
from core.edits.sketch import clockwise
from core.errors import CoursewrightError, RoomError
from core.language import marked, tr
from core.room import Point, Units, wall_letter
from core.survey import Leg, parse_list, read_leg, traverse
from core.survey.legs import turn_text
from core.units import format_length, parse_length_mm, reason

SPARE_ROWS = 1


class ListWay(Way):
    """A table of measured walls and turns, which a list can be pasted into."""

    name = marked("Measured list")

    def __init__(self, units: Units, legs: Sequence[Leg]) -> None:
        super().__init__()
        self._units: Units = units
        self.paper = OutlineView(units)
        self.miss = MissPanel(units)
        self.line = QLineEdit()
        self.line.setPlaceholderText("3048 R 3048 R 3050 R 3048 R")
        self.line.setAccessibleName(tr("List of lengths and turns"))
        self.line.setMinimumHeight(30)
        self.table = QTableWidget(0, 2)
        self.table.setHorizontalHeaderLabels([tr("Length"), tr("Turn at its end")])
        self.table.horizontalHeader().setStretchLastSection(True)
        self.table.verticalHeader().setDefaultSectionSize(28)
        self.table.setMinimumHeight(124)
        self.table.setAccessibleName(tr("Walls and turns"))
        self.table.installEventFilter(self)
        caption = QLabel(tr("Paste or type a list, then Enter. R turns right, L left, R 45 by 45°."))
        caption.setWordWrap(True)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        for part in (caption, self.line, self.table, self.miss):
            layout.addWidget(part)
        self.fill(legs)
        self.line.textEdited.connect(self._read_quietly)
        self.miss.chosen.connect(self._refresh)
        self.line.installEventFilter(self)
        self.table.itemChanged.connect(self._on_item)
        self._fault = ""

    def begin(self) -> None:
        self.line.setFocus()

    def fill(self, legs: Sequence[Leg]) -> None:
        """Write walls into the table, and one empty row to go on in."""
        self._filling = True
        self.table.setRowCount(len(legs) + SPARE_ROWS)
        for row in range(self.table.rowCount()):
            leg = legs[row] if row < len(legs) else None
            texts = (_true_text(leg.length_mm, self._units), turn_text(leg)) if leg else ("", "")
            for column, text in enumerate(texts):
                self.table.setItem(row, column, QTableWidgetItem(text))
        self._letter()
        self._filling = False
        self._refresh()

    def legs(self) -> tuple[Leg, ...]:
        """The walls of the table, empty rows left out. Raises RoomError that names the wall where one cannot be read."""
        rows = [(self._text(row, 0), self._text(row, 1)) for row in range(self.table.rowCount())]
        return tuple(read_leg(number, *row) for number, row in enumerate(row for row in rows if any(row)))

    def corners(self) -> tuple[Point, ...]:
        if self._fault:
            raise RoomError(self._fault)
        points = traverse(self.legs()).points_mm
        self.miss.take(points)
        return clockwise(self.miss.corners())

    def notice(self) -> str:
        return self._fault

    def hint(self) -> str:
        return tr("Every wall as the tape has it, going round the room")

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        """Pasting into the table takes a whole list; Enter in the list's line goes on to the table."""
        if event.type() == QEvent.Type.KeyPress and isinstance(event, QKeyEvent):
            if watched is self.table and event.matches(QKeySequence.StandardKey.Paste):
                self.paste(QApplication.clipboard().text())
                return True
            if watched is self.line and event.key() in (Qt.Key.Key_Return, Qt.Key.Key_Enter) and self.line.text().strip():
                self._read_line(self.line.text())
                if not self._fault:
                    self.line.clear()
                    self.table.setFocus()
                return True
        return super().eventFilter(watched, event)

    def paste(self, text: str) -> None:
        """Take up a list as if it was typed whole."""
        self.line.setText(text)
        self._read_line(text)

    def _read_quietly(self, text: str) -> None:
        """Follow a list while it is typed, without a word about what is not finished."""
        self._read_line(text)
        self._fault = ""
        self.changed.emit()

    def _read_line(self, text: str) -> None:
        """Take up a list, or note why it is none."""
        self._fault = ""
        if text.strip():
            try:
                self.fill(parse_list(text))
            except CoursewrightError as error:
                self._fault = reason(error, self._units)
        self._refresh()

    def _on_item(self, _item: QTableWidgetItem) -> None:
        if self._filling:
            return
        self._fault = ""
        last = self.table.rowCount() - 1
        if self._text(last, 0):
            self.table.setRowCount(last + 2)
            self._letter()
        self._refresh()

    def _letter(self) -> None:
        self.table.setVerticalHeaderLabels([wall_letter(row) for row in range(self.table.rowCount())])

    def _text(self, row: int, column: int) -> str:
        item = self.table.item(row, column)
        return item.text().strip() if item else ""

    def _refresh(self) -> None:
        try:
            points = traverse(self.legs()).points_mm
        except CoursewrightError:
            self.miss.take(())
            self.paper.show_outline(())
            self.changed.emit()
            return
        self.miss.take(points)
        self._show(points)
        self.changed.emit()

    def _show(self, points: Sequence[Point]) -> None:
        """The walls as walked, or as shared out once that is chosen."""
        try:
            self.paper.show_outline(self.miss.corners())
        except CoursewrightError:
            self.paper.show_outline(points, closed=False)


def _true_text(mm: float, units: Units) -> str:
    """A length that reads back as it is: in millimetres where sixteenths of an inch would round it."""
    text = format_length(mm, units, 4)
    return text if abs(parse_length_mm(text) - mm) < 1e-3 else format_length(mm, "mm", 4)
