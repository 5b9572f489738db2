"""One change of the room as the undo stack keeps it."""

from collections.abc import Callable

from PySide6.QtGui import QUndoCommand

from core.room import Room


class UndoStep(QUndoCommand):
    """The room before and the room after; ``settle`` takes either up."""

    MERGES = 1

    def __init__(self, settle: Callable[[Room], None], before: Room, after: Room, text: str, merge: str) -> None:
        super().__init__(text)
        self._settle, self._before, self._after, self._merge = settle, before, after, merge

    def undo(self) -> None:
        self._settle(self._before)

    def redo(self) -> None:
        self._settle(self._after)

    def id(self) -> int:
        return self.MERGES if self._merge else -1

    def mergeWith(self, other: QUndoCommand) -> bool:
        if not isinstance(other, UndoStep) or other._merge != self._merge:
            return False
        self._after = other._after
        if self._after == self._before:
            self.setObsolete(True)
        return True
