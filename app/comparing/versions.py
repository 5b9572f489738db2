"""The two versions that are compared, and reading one from a file."""

from dataclasses import dataclass
from pathlib import Path

from PySide6.QtCore import QElapsedTimer
from PySide6.QtWidgets import QWidget

from app.document import Document
from app.progress import Progress
from core.files import load_room
from core.language import marked, tr
from core.room import Room
from core.setout import solving
from core.setout.result import SetOut

EVENTS_EVERY_MS = 40
WORKING = marked("Working out the other version …")


@dataclass(frozen=True, slots=True)
class Version:
    """A set-out and what to call it."""

    title: str
    setout: SetOut


@dataclass(frozen=True, slots=True)
class Pair:
    """Two versions, the earlier or present one first. ``now`` is the room open in the window, whose panels hang."""

    before: Version
    after: Version
    now: Room


def pair_with_file(document: Document, path: Path, parent: QWidget) -> Pair | None:
    """The room open in the window beside the one in a file; None where the person stopped it.

    The file of the room itself holds its earlier version; any other file one that it might become. Raises RoomFileError for a
    file that cannot be read and RoomError for a room without a set-out.
    """
    room = load_room(path)
    setout = _set_out(room, parent)
    if setout is None:
        return None
    now = Version(tr("This room now"), document.work_out())
    if document.path is not None and _same_file(path, document.path):
        return Pair(Version(tr("As saved in {file}", file=path.name), setout), now, now.setout.room)
    return Pair(now, Version(path.name, setout), now.setout.room)


def _same_file(one: Path, other: Path) -> bool:
    return one.resolve() == other.resolve()


def _set_out(room: Room, parent: QWidget) -> SetOut | None:
    """The set-out in full, with a bar to stop it where it takes long."""
    work, spent = solving(room), QElapsedTimer()
    with Progress(parent, tr(WORKING)) as progress:
        spent.start()
        while True:
            try:
                next(work)
            except StopIteration as done:
                return done.value if isinstance(done.value, SetOut) else None
            if spent.elapsed() > EVENTS_EVERY_MS:
                spent.restart()
                if not progress.step(0, 1, tr(WORKING)):
                    return None
