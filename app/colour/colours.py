"""What the window needs to know of colours: whether they show, and the leaf where they are laid."""

from collections.abc import Callable

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QWidget

from app.colour.tint import Tint
from app.document import Document
from app.elevation import ElevationView


class Colours(QObject):
    """Switches the elevation between kinds of panels and colours of bricks."""

    shown = Signal(bool)
    """Whether colours show now."""

    def __init__(self, document: Document, elevation: ElevationView, parent: QWidget) -> None:
        super().__init__(parent)
        self._document, self._elevation = document, elevation
        self.tint = Tint(document, self)
        self.tint.changed.connect(self._repaint)

    @property
    def are_shown(self) -> bool:
        return self.tint.is_on

    def show_them(self, on: bool) -> None:
        """Show panels in the colours of their bricks, or by their kinds."""
        if on != self.tint.is_on:
            self.tint.is_on = on
            self._repaint()
            self.shown.emit(on)

    def answers(self) -> dict[str, Callable[[], object]]:
        """What the window's actions do."""
        return {"show_colours": lambda: self.show_them(not self.are_shown)}

    def make_leaf(self) -> QWidget:
        """The leaf, made when it is first turned to."""
        from app.colour.leaf import ColourLeaf

        return ColourLeaf(self._document, self)

    def _repaint(self) -> None:
        self._elevation.show_tint(self.tint if self.tint.is_on else None)
