"""Readings of the current wall's face: along, up, and how far it lies behind one plumb plane; an empty row to add with."""

from collections.abc import Callable
from dataclasses import dataclass

from app.document import Document, Edit
from app.framing.lists import read_signed_mm
from app.tables.cells import Column
from app.tables.reading import committed
from app.tables.table import Table
from core.edits.timberwork import put_reading, readings_of, remove_reading
from core.errors import CoursewrightError
from core.language import marked, tr, trc
from core.room import wall_letter
from core.timberwork import Reading
from core.units import format_length, parse_length_mm

FIELDS = ("x_mm", "z_mm", "depth_mm")
HINTS = (
    marked("From the wall's left end; into the empty row also all three figures at once: 1500; 900; 4"),
    marked("Above the floor"),
    marked("Behind one plumb plane held in front of the wall; with a minus in front of it"),
)


@dataclass(frozen=True, slots=True)
class ReadingRow:
    """A reading with its number on the wall; without one the row to add with, and what is typed into it so far."""

    number: int | None
    reading: Reading | None
    begun: tuple[str, str, str] = ("", "", "")


class ReadingsTable(Table[ReadingRow]):
    """Follows the current wall. A new reading is taken up once all three of its cells are filled."""

    def __init__(self, document: Document) -> None:
        self._document = document
        self._begun = ["", "", ""]
        titles = (tr("Along"), trc("above the floor", "Up"), tr("Behind"))
        columns = [self._column(place, title) for place, title in enumerate(titles)]
        super().__init__(tr("Readings of the frame's face"), columns)
        self.removal_asked.connect(self.remove)
        document.changed.connect(self._follow)
        document.wall_changed.connect(self._turn)
        self.refresh()

    def _follow(self, _setout: object) -> None:
        self.refresh()

    def refresh(self) -> None:
        """Show the current wall's readings."""
        room, wall = self._document.room, self._document.wall
        rows = [ReadingRow(number, reading) for number, reading in enumerate(readings_of(room, wall))]
        first, second, third = self._begun
        self.show_rows([*rows, ReadingRow(None, None, (first, second, third))])

    def remove(self, row: int) -> None:
        """Take a reading out, or what was begun of a new one."""
        wall, number = self._document.wall, self.cells.rows[row].number if 0 <= row < len(self.cells.rows) else None
        if number is None:
            self._forget()
        else:
            text = tr("Remove a reading of wall {wall}", wall=wall_letter(wall))
            committed(self._document, lambda room: remove_reading(room, wall, number), text)

    def _turn(self, _wall: int) -> None:
        self._forget()

    def _forget(self) -> None:
        self._begun = ["", "", ""]
        self.refresh()

    def _column(self, place: int, title: str) -> Column[ReadingRow]:
        def read(row: ReadingRow) -> str:
            if row.reading is None:
                return row.begun[place]
            return format_length(getattr(row.reading, FIELDS[place]), self._document.room.display_units, 2, with_unit=False)

        def commit(row: ReadingRow, typed: str) -> str:
            return self._change(row, place, typed) if row.reading is not None else self._begin(place, typed)

        invite = tr("add a reading") if place == 0 else ""
        return Column(title, read, commit, is_number=True, hint=tr(HINTS[place]), invite=invite)

    def _change(self, row: ReadingRow, place: int, typed: str) -> str:
        wall, reading, number = self._document.wall, row.reading, row.number
        assert reading is not None
        values = {name: getattr(reading, name) for name in FIELDS}
        return self._committed(lambda room: put_reading(room, wall, number, **{**values, FIELDS[place]: read_at(place, typed)}))

    def _begin(self, place: int, typed: str) -> str:
        """Note one figure of a new reading, or all of them typed into its first cell."""
        parts = [part.strip() for part in typed.split(";")]
        begun = parts if len(parts) == len(FIELDS) else [*self._begun[:place], typed, *self._begun[place + 1 :]]
        fault = _fault_of(lambda: [read_at(i, part) for i, part in enumerate(begun) if part])
        if fault:
            return fault
        self._begun = list(begun)
        if all(begun):
            wall = self._document.wall
            x, z, depth = (read_at(i, part) for i, part in enumerate(begun))
            fault = self._committed(lambda room: put_reading(room, wall, None, x_mm=x, z_mm=z, depth_mm=depth))
            if fault:
                return fault
            self._begun = ["", "", ""]
        self.refresh()
        return ""

    def _committed(self, edit: Edit) -> str:
        text = tr("Set a reading of wall {wall}", wall=wall_letter(self._document.wall))
        return committed(self._document, edit, text)


def read_at(place: int, typed: str) -> float:
    """One of a reading's figures in millimetres; only the last may be negative. Raises LengthError."""
    return read_signed_mm(typed) if FIELDS[place] == "depth_mm" else parse_length_mm(typed)


def _fault_of(read: Callable[[], object]) -> str:
    try:
        read()
    except CoursewrightError as error:
        return str(error)
    return ""
