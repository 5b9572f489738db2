"""Set-outs worked out in full and remembered, so that undo and redo need no solving."""

from collections import OrderedDict

from core.room import Room
from core.setout.result import SetOut

KEPT_SETOUTS = 24
"""Each is a few hundred kilobytes to a few megabytes."""


class KnownSetOuts:
    """The latest ones, by their rooms."""

    def __init__(self) -> None:
        self._kept: OrderedDict[Room, SetOut] = OrderedDict()

    def __contains__(self, room: Room) -> bool:
        return room in self._kept

    def get(self, room: Room) -> SetOut | None:
        return self._kept.get(room)

    def remember(self, setout: SetOut) -> None:
        """Keep a set-out, and forget the oldest where there are too many."""
        self._kept[setout.room] = setout
        self._kept.move_to_end(setout.room)
        while len(self._kept) > KEPT_SETOUTS:
            self._kept.popitem(last=False)
