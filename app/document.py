"""The document: one room, its set-out, what is selected, and the only way to change any of it."""

from collections.abc import Callable, Generator
from dataclasses import replace
from pathlib import Path

from PySide6.QtCore import QElapsedTimer, QObject, QTimer, Signal
from PySide6.QtGui import QUndoStack

from app.known_setouts import KnownSetOuts
from app.selection import Selection
from app.undo_step import UndoStep
from core.errors import CoursewrightError
from core.room import Opening, Room
from core.setout import has_same_panels, sketch, solve, solving
from core.setout.result import Panel, SetOut
from core.units import reason

Edit = Callable[[Room], Room]

PAUSE_MS = 120
"""How long nothing must happen before a sketched set-out is worked out in full."""

SLICE_MS = 6
"""How long that work goes on before other events have their turn."""


class Document(QObject):
    """Holds the ground state and its set-out. Views listen; edits come in through preview and commit.

    While a person is busy the set-out is a sketch, quick to find. Once they pause it is worked out in full, a few milliseconds at
    a time, and shown as a change of its own.
    """

    changed = Signal(object)
    """The new SetOut, whether previewed, committed or worked out in full."""
    selection_changed = Signal(object)
    """The current one of what is selected, an opening's id or a panel's mark, or None: another one, or others beside it."""
    wall_changed = Signal(int)
    """The wall that new openings go to."""
    path_changed = Signal(object)
    dirty_changed = Signal(bool)
    refused = Signal(str)
    """Why an edit was not made; nothing has changed."""

    def __init__(self, room: Room, path: Path | None = None, parent: QObject | None = None) -> None:
        """Solves the room. Raises CoursewrightError where no set-out exists."""
        super().__init__(parent)
        self._known = KnownSetOuts()
        self._setout = sketch(room)
        self._is_full = False
        self._work: Generator[None, None, SetOut] | None = None
        self._path = path
        self.chosen = Selection(lambda: self._setout, self)
        self.chosen.changed.connect(self.selection_changed)
        self.chosen.wall_changed.connect(self.wall_changed)
        self._gesture_base: SetOut | None = None
        self._gesture_start: SetOut | None = None
        self._before: Room | None = None
        self._before_sketch: SetOut | None = None
        self._refusal = ""
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self._work_on)
        self._timer.start(PAUSE_MS)
        self.undo_stack = QUndoStack(self)
        self.undo_stack.cleanChanged.connect(self._on_clean)

    @property
    def room(self) -> Room:
        """The room as shown, previews included."""
        return self._setout.room

    @property
    def setout(self) -> SetOut:
        return self._setout

    @property
    def path(self) -> Path | None:
        return self._path

    @property
    def is_dirty(self) -> bool:
        return not self.undo_stack.isClean()

    @property
    def is_full(self) -> bool:
        """Whether the set-out is worked out in full, and not a sketch."""
        return self._is_full

    @property
    def gesture_base(self) -> SetOut | None:
        """A sketch of the room as it was when the running gesture began; None between gestures."""
        return self._gesture_base

    @property
    def previous(self) -> SetOut | None:
        """The set-out before the latest finished change, undo and redo included, to compare with the one shown.

        None on a fresh document, and where only one of the two was worked out in full.
        """
        if self._before is None:
            return None
        if self._is_full:
            return self._known.get(self._before)
        if self._before_sketch is None:
            self._before_sketch = sketch(self._before, near=self._setout)
        return self._before_sketch

    @property
    def refusal(self) -> str:
        """Why the latest refused edit was refused, in the units the room shows."""
        return self._refusal

    @property
    def base_room(self) -> Room:
        """The room a gesture's edits start from: as it was when the gesture began, or as it is."""
        return self._gesture_base.room if self._gesture_base else self.room

    @property
    def selection(self) -> str | None:
        """What is current of all that is chosen."""
        return self.chosen.current

    @property
    def selected_opening(self) -> Opening | None:
        return self.chosen.opening

    @property
    def selected_panel(self) -> Panel | None:
        return self.chosen.panel

    @property
    def wall(self) -> int:
        """The wall that the person is working on."""
        return self.chosen.wall

    def select(self, what: str | None) -> None:
        """Select an opening by its id or a panel by its mark, and nothing else; its wall becomes the current one."""
        self.chosen.choose(() if what is None else (what,))

    def set_wall(self, wall: int) -> None:
        """Make a wall the current one; numbers run round the room."""
        self.chosen.set_wall(wall)

    def preview(self, room: Room) -> bool:
        """Show a room without recording it: one step of a gesture. False, and refused, where it has no set-out."""
        try:
            setout = self._sketched(room)
        except CoursewrightError as error:
            self._refuse(error)
            return False
        if self._gesture_base is None:
            self._gesture_start, self._gesture_base = self._setout, self._sketched(self.room)
        self._show(setout)
        return True

    def commit(self, room: Room, text: str, merge: str = "") -> bool:
        """Record a room as one step to undo, from where the gesture began; nothing is recorded where it is equal.

        Steps in a row with the same non-empty ``merge`` become one. False, and refused, where the room has no set-out:
        the document then stands where the gesture began.
        """
        base = self._gesture_start or self._setout
        try:
            setout = self._solved(room)
        except CoursewrightError as error:
            self.cancel()
            self._refuse(error)
            return False
        if room == base.room:
            self._gesture_base = self._gesture_start = None
            self._show(base)
        else:
            self.undo_stack.push(UndoStep(self._settle, base.room, setout.room, text, merge))
        return True

    def cancel(self) -> None:
        """Give up the running gesture: back to where it began."""
        base, self._gesture_start, self._gesture_base = self._gesture_start, None, None
        if base is not None:
            self._show(base)

    def preview_edit(self, edit: Edit) -> bool:
        """Preview an edit of the room as it was when the gesture began. False, and refused, where the edit refuses."""
        try:
            room = edit(self.base_room)
        except CoursewrightError as error:
            self._refuse(error)
            return False
        return self.preview(room)

    def commit_edit(self, edit: Edit, text: str, merge: str = "") -> bool:
        """Commit an edit of the room as it was when the gesture began. False, and refused, where the edit refuses."""
        try:
            room = edit(self.base_room)
        except CoursewrightError as error:
            self.cancel()
            self._refuse(error)
            return False
        return self.commit(room, text, merge)

    def finish(self, text: str) -> bool:
        """Commit what the running gesture shows; True and nothing done where no gesture runs."""
        return self._gesture_base is None or self.commit(self.room, text)

    def replace(self, room: Room, path: Path | None, *, dirty: bool = False) -> None:
        """Take up another room with an empty history. Raises CoursewrightError, and keeps the old, where it has no set-out."""
        setout = self._solved(room)
        self._gesture_base = self._gesture_start = self._before = None
        self.undo_stack.clear()
        if dirty:
            self.undo_stack.resetClean()
        self.select(None)
        self._show(setout)
        self.set_wall(0)
        self._set_path(path)

    def mark_saved(self, path: Path) -> None:
        """Note that the room as it is now stands in that file."""
        self._set_path(path)
        self.undo_stack.setClean()

    def _on_clean(self, clean: bool) -> None:
        self.dirty_changed.emit(not clean)

    def _refuse(self, error: CoursewrightError) -> None:
        self._refusal = reason(error, self.room.display_units)
        self.refused.emit(self._refusal)

    def _set_path(self, path: Path | None) -> None:
        self._path = path
        self.path_changed.emit(path)

    def _settle(self, room: Room) -> None:
        """Take up a room from the undo stack. A gesture still running ends: its preview gives way."""
        self._before = (self._gesture_start or self._setout).room
        self._before_sketch = self._gesture_base or (None if self._is_full else self._setout)
        self._gesture_base = self._gesture_start = None
        self._show(self._solved(room))

    def _show(self, setout: SetOut) -> None:
        room, self._setout = setout.room, setout
        # A gesture shows sketches only, and to look a room up takes as long as to hash all of it.
        self._is_full = self._gesture_base is None and self._known.get(room) is setout
        self._work = None
        if self._is_full or self._gesture_base is not None:
            self._timer.stop()
        else:
            self._timer.start(PAUSE_MS)
        self.chosen.follow(is_full=self._is_full)
        self.changed.emit(setout)

    def _solved(self, room: Room) -> SetOut:
        if room == self.room:
            return self._setout
        if room not in self._known and self._is_full and has_same_panels(room, self.room):
            self._known.remember(replace(self._setout, room=room))
        return self._known.get(room) or sketch(room, near=self._gesture_start or self._setout)

    def _sketched(self, room: Room) -> SetOut:
        """A sketch of a room, so that all steps of a gesture can be compared."""
        if room == self.room and not self._is_full:
            return self._setout
        return sketch(room, near=self._gesture_start or self._setout)

    def know(self, room: Room) -> None:
        """Work a room out in full before it is committed: what the crew notes must show on the set-out they build by, no sketch.

        Raises CoursewrightError where the room has no set-out.
        """
        if room not in self._known:
            self._known.remember(solve(room))

    def work_out(self) -> SetOut:
        """The set-out worked out in full, here and now; a running gesture keeps its sketch."""
        while not self._is_full and self._gesture_base is None:
            self._advance()
        return self._setout

    def _work_on(self) -> None:
        """Some milliseconds of working out what is shown, then a rest for other events."""
        spent = QElapsedTimer()
        spent.start()
        while not self._is_full and spent.elapsed() < SLICE_MS:
            self._advance()
        if not self._is_full:
            self._timer.start(0)

    def _advance(self) -> None:
        if self._work is None:
            self._work = solving(self.room)
        try:
            next(self._work)
        except StopIteration as done:
            self._known.remember(done.value)
            self._show(done.value)
