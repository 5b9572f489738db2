"""Studs by keyboard: U goes from one to the next, arrows move it, Insert adds one, Delete takes it away."""

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent

from app.document import Document
from app.elevation.studs import StudDrag, Studs, stud_name
from core.edits.studs import remove_stud
from core.language import tr

STEP_MM, LONG_STEP_MM = 1.0, 10.0
WAYS: dict[int, int] = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}
_STILL = (Qt.Key.Key_Up, Qt.Key.Key_Down)


class StudKeys:
    """Turns keys into choosing, moving, adding and removing studs of the current wall."""

    def __init__(self, document: Document, studs: Studs) -> None:
        self._document, self._studs = document, studs
        self._drag: StudDrag | None = None

    def wants(self, event: QKeyEvent) -> bool:
        """Whether a key means something here, whatever it means in the window."""
        if self._studs.frame is None or event.modifiers() & ~_ALLOWED:
            return False
        if event.key() in (Qt.Key.Key_U, Qt.Key.Key_Insert):
            return True
        return self._studs.selected is not None and event.key() in (*WAYS, *_STILL, Qt.Key.Key_Delete, Qt.Key.Key_Escape)

    def press(self, event: QKeyEvent) -> bool:
        """Do what a key says; False where it says nothing here."""
        if not self.wants(event):
            return False
        key, shift = event.key(), bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
        if key in WAYS:
            self._nudge(WAYS[key] * (LONG_STEP_MM if shift else STEP_MM))
        elif key == Qt.Key.Key_U:
            self._go_on(-1 if shift else 1)
        elif key == Qt.Key.Key_Insert:
            self.finish()
            self._studs.add_in_gap()
        elif key == Qt.Key.Key_Delete:
            self._remove()
        elif key == Qt.Key.Key_Escape:
            self._escape()
        return True

    def release(self, event: QKeyEvent) -> bool:
        """Letting go of an arrow key commits the move it made."""
        if self._drag is None or event.key() not in WAYS or event.isAutoRepeat():
            return False
        self.finish()
        return True

    def finish(self) -> None:
        """Commit the running move."""
        drag, self._drag = self._drag, None
        if drag is not None:
            drag.finish()

    def drop(self) -> None:
        """Forget the move: the document has ended it."""
        self._drag = None

    def _nudge(self, by_mm: float) -> None:
        number = self._studs.selected
        if number is None:
            return
        if self._drag is None:
            self._drag = StudDrag(self._document, self._studs.wall, number)
        self._drag.nudge(by_mm)

    def _go_on(self, by: int) -> None:
        """The next stud to the right or left, past the last one none."""
        self.finish()
        count = len(self._studs.frame.centres_mm) if self._studs.frame else 0
        outside = -1 if by > 0 else count
        number = (outside if self._studs.selected is None else self._studs.selected) + by
        self._studs.pick(number if 0 <= number < count else None)

    def _remove(self) -> None:
        self.finish()
        number, wall = self._studs.selected, self._studs.wall
        if number is not None:
            text = tr("Remove {stud}", stud=stud_name(wall, number))
            self._document.commit_edit(lambda room: remove_stud(room, wall, number), text)

    def _escape(self) -> None:
        drag, self._drag = self._drag, None
        if drag is not None:
            drag.cancel()
        else:
            self._studs.pick(None)


_ALLOWED = Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.KeypadModifier
