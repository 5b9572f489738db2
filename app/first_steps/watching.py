"""Notices when the person does what a step is about, however they come to do it."""

from typing import Protocol

from PySide6.QtCore import QObject, Signal, SignalInstance

from app.document import Document
from app.first_steps.steps import Name
from core.room import Opening, Room
from core.setout.result import SetOut


class Watched(Protocol):
    """What of the window is watched."""

    document: Document

    def figures_differ(self) -> bool:
        """Whether the board shows differences."""
        ...

    @property
    def check_chosen(self) -> SignalInstance: ...

    @property
    def pack_seen(self) -> SignalInstance: ...


class Watching(QObject):
    """Says each step that is done, as often as it is done. Costs a drag step no more than a look at the board's own note."""

    done = Signal(str)

    def __init__(self, watched: Watched, parent: QObject) -> None:
        super().__init__(parent)
        self._watched, self._document = watched, watched.document
        self._room = self._document.room
        self._outline, self._path = self._room.corners_mm, self._document.path
        self._document.changed.connect(self._follow)
        # Own methods, since Qt lets these go with the watching; a lambda would outlive it and speak for what is no more.
        watched.check_chosen.connect(self._on_check)
        watched.pack_seen.connect(self._on_pack)

    def _on_check(self, _where: str) -> None:
        self._say("check")

    def _on_pack(self) -> None:
        self._say("pack")

    def _say(self, name: Name) -> None:
        self.done.emit(name)

    def _follow(self, setout: SetOut) -> None:
        before, now = self._room, setout.room
        is_settled = self._document.gesture_base is None
        has_moved = before is not now and _has_moved(before, now)
        if (has_moved or not is_settled) and self._watched.figures_differ():
            self._say("board")
        if not is_settled:
            return
        self._room = now
        if has_moved:
            self._say("drag")
        if now.corners_mm != self._outline:
            self._say("room")
        elif now.progress.panels != before.progress.panels:
            self._say("build")


def _has_moved(before: Room, now: Room) -> bool:
    """Whether the rooms differ in where an opening is."""
    places = {opening.id: _place(opening) for opening in before.openings}
    return any(places.get(opening.id, _place(opening)) != _place(opening) for opening in now.openings)


def _place(opening: Opening) -> tuple[int, float, float]:
    return opening.wall, opening.left_mm, opening.sill_mm
