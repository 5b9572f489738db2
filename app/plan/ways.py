"""A way to an outline: what the dialog asks of each of them."""

from PySide6.QtCore import Signal
from PySide6.QtWidgets import QWidget

from app.plan.sketch_view import OutlineView
from core.room import Point


class Way(QWidget):
    """One way to an outline: its controls, and the paper that belongs to them."""

    changed = Signal()
    name = ""
    paper: OutlineView

    def corners(self) -> tuple[Point, ...]:
        """The outline, clockwise. Raises CoursewrightError where there is none yet."""
        raise NotImplementedError

    def begin(self) -> None:
        """The person has chosen this way."""

    def notice(self) -> str:
        """What to say while nothing is being confirmed."""
        return ""

    def hint(self) -> str:
        """What to do next."""
        return ""
