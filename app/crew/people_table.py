"""The people of the crew, one a row, and an empty row to add somebody."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from app.document import Document
from app.tables.cells import Column
from app.tables.reading import committed, decimal
from app.tables.table import Table
from core.edits.crew import remove_person, set_crew, set_person
from core.edits.revise import build, revise
from core.errors import RoomError
from core.language import marked, tr, trc
from core.room import Room
from core.sheets.wording import hours
from core.workforce import Person

DUTIES = (("both", marked("builds and hangs")), ("build", marked("builds")), ("hang", marked("hangs")))
FROM_THE_START = marked("from the start")


@dataclass(frozen=True, slots=True)
class PersonRow:
    """Somebody, and how much the plan gives them to do; without a person it is the row to add with."""

    person: Person | None
    planned: str = ""


class PeopleTable(Table[PersonRow]):
    """Typing another name renames; Delete takes somebody out of the crew, which undo brings back."""

    def __init__(self, document: Document) -> None:
        self._document = document
        self._minutes: Mapping[str, float] | None = None
        super().__init__(tr("People"), self._columns())
        self.removal_asked.connect(self.remove)
        self.refresh()

    def show_minutes(self, minutes: Mapping[str, float] | None) -> None:
        """Show how many minutes of work everybody has to do; None while that is not known."""
        self._minutes = minutes
        self.refresh()

    def refresh(self) -> None:
        """Show the people as they are now."""
        people = self._document.room.crew.people
        self.show_rows([*(PersonRow(person, self._planned(person)) for person in people), PersonRow(None)])

    def remove(self, number: int) -> None:
        """Take somebody out of the crew."""
        person = self.cells.rows[number].person
        if person is not None:
            committed(self._document, lambda room: remove_person(room, person.name), tr("Remove {name}", name=person.name))

    def _planned(self, person: Person) -> str:
        return "…" if self._minutes is None else hours(self._minutes.get(person.name, 0.0))

    def _columns(self) -> list[Column[PersonRow]]:
        def known(row: PersonRow) -> bool:
            return row.person is not None

        duties = tuple((duty, tr(words)) for duty, words in DUTIES)
        return [
            Column(tr("Name"), lambda row: row.person.name if row.person else "", self._name, invite=tr("add a person")),
            Column(
                tr("Hours a day"),
                lambda row: f"{row.person.hours_per_day:g}" if row.person else "",
                self._set_hours,
                is_number=True,
                can_edit=known,
            ),
            Column(
                trc("a date", "From"),
                lambda row: (row.person.starts_on or tr(FROM_THE_START)) if row.person else "",
                self._set_start,
                hint=tr("The first day, like 2027-05-31; empty for the crew's first"),
                can_edit=known,
            ),
            Column(tr("Does"), lambda row: row.person.duty if row.person else "", self._set_duty, choices=duties, can_edit=known),
            Column(tr("Planned"), lambda row: row.planned, is_number=True, hint=tr("Work the plan gives them")),
        ]

    def _name(self, row: PersonRow, typed: str) -> str:
        old = row.person.name if row.person else None
        text = tr("Add {name}", name=typed) if old is None else tr("Rename {name}", name=old)
        return committed(self._document, lambda room: named(room, old, typed), text)

    def _set_hours(self, row: PersonRow, typed: str) -> str:
        def change(person: Person) -> Person:
            return revise(person, hours_per_day=decimal(typed.removesuffix("h"), "6.5"))

        return self._set(row, marked("Set hours of {name}"), change)

    def _set_start(self, row: PersonRow, typed: str) -> str:
        day = None if typed in ("", tr(FROM_THE_START)) else typed
        return self._set(row, marked("Set first day of {name}"), lambda person: revise(person, starts_on=day))

    def _set_duty(self, row: PersonRow, typed: str) -> str:
        return self._set(row, marked("Set duty of {name}"), lambda person: revise(person, duty=typed))

    def _set(self, row: PersonRow, step: str, change: Callable[[Person], Person]) -> str:
        person = row.person
        if person is None:
            return ""
        return committed(self._document, lambda room: set_person(room, change(person)), tr(step, name=person.name))


def named(room: Room, old: str | None, new: str) -> Room:
    """The room with somebody renamed, or added where ``old`` is None. Raises RoomError for a name that is taken or empty."""
    if not new:
        raise RoomError(tr("everybody needs a name; Delete takes somebody out"))
    people = room.crew.people
    if any(person.name == new for person in people):
        raise RoomError(tr("there is a {name} already", name=new))
    if old is None:
        return set_person(room, build(Person, name=new))
    return set_crew(room, people=tuple(revise(one, name=new) if one.name == old else one for one in people))
