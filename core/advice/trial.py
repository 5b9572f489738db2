"""Rooms tried a little at a time: searches pause between steps, so that whoever runs them can stop or do something else."""

from collections.abc import Generator

from core.advice.changes import Change
from core.advice.suggestion import Suggestion
from core.advice.work import work_of
from core.errors import CoursewrightError
from core.room import Room
from core.setout import solving
from core.setout.result import SetOut

Told = tuple[Suggestion, ...]
Search = Generator[Told, None, Told]
"""Yields what it has found so far after every step of some milliseconds, and returns what it found in the end."""


def found_by(search: Search) -> Told:
    """What a search returns, without pauses."""
    while True:
        try:
            next(search)
        except StopIteration as done:
            told: Told = done.value
            return told


def changed(room: Room, change: Change) -> Room | None:
    """The room after a change; None where it does not fit."""
    try:
        return change.applied(room)
    except CoursewrightError:
        return None


def solved(room: Room, told: Told = ()) -> Generator[Told, None, SetOut | None]:
    """The room's set-out, exactly as it will be shown; None where it has none or no rows fit."""
    work = solving(room)
    while True:
        try:
            next(work)
        except StopIteration as done:
            setout: SetOut = done.value
            return setout if setout.panels else None
        except CoursewrightError:
            return None
        yield told


def suggested(before: SetOut, change: Change, told: Told = ()) -> Generator[Told, None, Suggestion | None]:
    """What a change would spare, solved exactly; None where it does not fit."""
    room = changed(before.room, change)
    if room is None or room == before.room:
        return None
    after = yield from solved(room, told)
    return Suggestion(change, work_of(before), work_of(after)) if after is not None else None
