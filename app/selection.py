"""What is chosen: openings by their ids and panels by their marks, several together if need be, and the wall worked on."""

from collections.abc import Callable, Iterable

from PySide6.QtCore import QObject, Signal

from core.room import LOOKS_LIKE_A_MARK, Opening, Room
from core.setout.result import Panel, SetOut


class Selection(QObject):
    """Names in the order in which they were chosen. The current one of them is described, and others are levelled with it.

    No opening is named like a panel's mark, so that a name alone says which it is.
    """

    changed = Signal(object)
    """The current name, or None: another one, or other names beside it."""
    wall_changed = Signal(int)

    def __init__(self, setout: Callable[[], SetOut], parent: QObject) -> None:
        super().__init__(parent)
        self._setout = setout
        self.names: tuple[str, ...] = ()
        self.current: str | None = None
        self.wall = 0

    @property
    def opening(self) -> Opening | None:
        """The current one where it is an opening."""
        return next((o for o in self._room.openings if o.id == self.current), None)

    @property
    def panel(self) -> Panel | None:
        """The current one where it is a panel."""
        if self.current is None or not LOOKS_LIKE_A_MARK.fullmatch(self.current):
            return None
        return next((p for p in self._setout().panels if p.mark == self.current), None)

    @property
    def openings(self) -> tuple[Opening, ...]:
        """All chosen openings, in the room's order."""
        return tuple(o for o in self._room.openings if o.id in self.names)

    @property
    def marks(self) -> tuple[str, ...]:
        """The marks of all chosen panels, as they were chosen."""
        return tuple(name for name in self.names if LOOKS_LIKE_A_MARK.fullmatch(name))

    @property
    def panels(self) -> tuple[Panel, ...]:
        """All chosen panels, in the set-out's order."""
        marks = set(self.marks)
        return tuple(panel for panel in self._setout().panels if panel.mark in marks) if marks else ()

    def choose(self, names: Iterable[str], current: str | None = None) -> None:
        """Choose these and nothing else; ``current`` of them, or else the last, becomes the current one."""
        chosen = tuple(dict.fromkeys(names))
        if current not in chosen:
            current = chosen[-1] if chosen else None
        if (chosen, current) == (self.names, self.current):
            return
        is_turned, self.names, self.current = current != self.current, chosen, current
        if is_turned:
            self._go_along()
        self.changed.emit(current)

    def choose_all(self) -> None:
        """Choose every panel and every opening of the room; what is current stays so."""
        setout = self._setout()
        names = (*(panel.mark for panel in setout.panels), *(opening.id for opening in setout.room.openings))
        self.choose(names, self.current)

    def toggle(self, name: str) -> None:
        """Choose one more and make it the current one, or leave it out again."""
        if name in self.names:
            self.choose((one for one in self.names if one != name), self.current)
        else:
            self.choose((*self.names, name), name)

    def set_wall(self, wall: int) -> None:
        """Make a wall the current one; numbers run round the room."""
        wall %= self._room.wall_count
        if wall != self.wall:
            self.wall = wall
            self.wall_changed.emit(wall)

    def follow(self, *, is_full: bool) -> None:
        """Leave out what is no more. A sketch may miss panels that come back: they stay, unless the current one is gone."""
        if self.wall >= self._room.wall_count:
            self.set_wall(self._room.wall_count - 1)
        if self.current is None:
            return
        openings = {opening.id for opening in self._room.openings}
        if openings.issuperset(self.names):
            return
        is_lost = self.opening is None and self.panel is None
        known = {panel.mark for panel in self._setout().panels} if is_full or is_lost else set(self.marks)
        self.choose([name for name in self.names if name in openings or name in known], self.current)

    def _go_along(self) -> None:
        """The wall of what is current becomes the current wall."""
        if (opening := self.opening) is not None:
            self.set_wall(opening.wall)
        elif (panel := self.panel) is not None and self.wall not in {face.wall for face in panel.faces}:
            self.set_wall(panel.faces[-1].wall)

    @property
    def _room(self) -> Room:
        return self._setout().room
