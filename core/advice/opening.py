"""Advice for one opening: the nearest places and sizes with which the room takes less work.

Every change worth trying is sketched first, which is quick. Those whose sketches promise most for their distance are then
solved exactly, and only what the exact set-outs say is told.
"""

from collections.abc import Generator

from core.advice.candidates import changes_of
from core.advice.changes import OpeningChange
from core.advice.suggestion import MOST_TOLD, Suggestion, nearest_that_save
from core.advice.trial import Search, Told, changed, suggested
from core.advice.work import Work, work_of
from core.errors import CoursewrightError
from core.room import Room
from core.setout import sketch
from core.setout.result import SetOut
from core.setout.shell import shell_of

MOST_SOLVED = 12
"""Changes solved exactly in one search."""


def advise_opening(before: SetOut, name: str) -> Search:
    """Searches changes of the opening of that id in a room solved exactly; at most MOST_TOLD suggestions, nearest first.

    Each further one saves more. Raises KeyError where the room has no such opening.
    """
    room = before.room
    opening = room.opening(name)
    if not before.panels:
        return ()
    changes = changes_of(room, shell_of(room), before.rows, opening)
    sketched = yield from _sketched(before, changes)
    return (yield from _verified(before, sketched))


def _sketched(before: SetOut, changes: list[OpeningChange]) -> Generator[Told, None, list[Suggestion]]:
    """What each change seems to save, one sketch at a time."""
    now = work_of(sketch(before.room))
    found = []
    for change in changes:
        work = _sketch_of(before.room, change)
        if work is not None:
            found.append(Suggestion(change, now, work))
        yield ()
    return found


def _sketch_of(room: Room, change: OpeningChange) -> Work | None:
    after = changed(room, change)
    if after is None:
        return None
    try:
        setout = sketch(after)
    except CoursewrightError:
        return None
    return work_of(setout) if setout.panels else None


def _verified(before: SetOut, sketched: list[Suggestion]) -> Search:
    """Solves what seems to save, then the best of the rest, until enough is told or MOST_SOLVED are solved."""
    exact: list[Suggestion] = []
    rest, promising = sketched, nearest_that_save(sketched, MOST_SOLVED)
    while promising and len(nearest_that_save(exact)) < MOST_TOLD:
        for seeming in promising:
            found = yield from suggested(before, seeming.change, nearest_that_save(exact))
            if found is not None:
                exact.append(found)
        rest = [seeming for seeming in rest if seeming not in promising]
        promising = nearest_that_save(rest, MOST_SOLVED - len(exact))
    return nearest_that_save(exact)
