"""Edits of the crew: people, calendar, learning, and the stopwatch's readings with the rates that follow from them."""

from core.crew.rates import area_of, make_of, rates_from
from core.edits.revise import build, revise
from core.edits.settings import set_rates
from core.errors import RoomError
from core.language import tr
from core.room import Room
from core.setout.result import SetOut
from core.workforce import Person, Timing, Work


def set_crew(room: Room, **values: object) -> Room:
    """The room with benches, hours, learning or dates changed. Raises RoomError where one is out of bounds."""
    return revise(room, crew=revise(room.crew, **values))


def set_person(room: Room, person: Person) -> Room:
    """The room with a person added, or the one of that name replaced."""
    people = room.crew.people
    if person.name not in {one.name for one in people}:
        return set_crew(room, people=(*people, person))
    return set_crew(room, people=tuple(person if one.name == person.name else one for one in people))


def remove_person(room: Room, name: str) -> Room:
    """The room without a person. Raises RoomError where there is nobody of that name."""
    kept = tuple(one for one in room.crew.people if one.name != name)
    if len(kept) == len(room.crew.people):
        raise RoomError(tr("nobody in the crew is called {name!r}", name=name))
    return set_crew(room, people=kept)


def note_timing(
    setout: SetOut,
    design: str,
    minutes: float,
    *,
    work: Work = "build",
    panels: int = 1,
    panels_before: int = 0,
    on: str | None = None,
) -> Room:
    """The room with a stopwatch reading noted and its rates brought to what all readings say.

    ``minutes`` are for all ``panels`` together. Raises RoomError for a design that is not planned or a reading out of bounds.
    """
    panel = next((panel for panel in setout.panels if panel.design == design), None)
    if panel is None:
        raise RoomError(tr("design {design!r} is not planned in this room; the design list names those that are", design=design))
    timing = build(
        Timing,
        work=work,
        design=design,
        make=make_of(panel.kind),
        area=area_of(setout, panel),
        panels=panels,
        minutes=float(minutes),
        panels_before=panels_before,
        on=on,
    )
    return _with_timings(setout.room, (*setout.room.crew.timings, timing))


def drop_timing(room: Room, number: int) -> Room:
    """The room without a reading; rates that no reading speaks of any more stay as they are. Raises RoomError."""
    timings = room.crew.timings
    if not 0 <= number < len(timings):
        raise RoomError(tr("reading {number} does not exist; {count} are noted", number=number + 1, count=len(timings)))
    return _with_timings(room, (*timings[:number], *timings[number + 1 :]))


def _with_timings(room: Room, timings: tuple[Timing, ...]) -> Room:
    changed = set_crew(room, timings=timings)
    return set_rates(changed, **rates_from(changed.crew, changed.rates))
