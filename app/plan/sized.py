"""Lines for named lengths beside a drawing of them: what is typed, and which of them is being typed, to be dimensioned."""

from collections.abc import Mapping

from PySide6.QtCore import QEvent, QObject, Signal
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLineEdit, QVBoxLayout, QWidget

from core.errors import LengthError
from core.language import tr
from core.units import parse_length_mm


class TypedLines(QObject):
    """Watches the lines given to it; ``name`` is that of the one being typed."""

    turned = Signal()
    """Another line is being typed."""

    def __init__(self, parent: QObject) -> None:
        super().__init__(parent)
        self.name = ""
        self._lines: dict[str, QLineEdit] = {}

    def watch(self, lines: Mapping[str, QLineEdit], name: str) -> None:
        """Watch these lines and no others, beginning with one of them."""
        self._lines, self.name = dict(lines), name
        for line in lines.values():
            line.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if event.type() in (QEvent.Type.FocusIn, QEvent.Type.KeyPress):
            name = next((name for name, line in self._lines.items() if line is watched), self.name)
            if name != self.name:
                self.name = name
                self.turned.emit()
        return False


def lengths_mm(lines: Mapping[str, QLineEdit]) -> dict[str, float]:
    """The lengths typed, by their English names. Raises LengthError that names the one which is none."""
    found = {}
    for name, line in lines.items():
        try:
            found[name] = parse_length_mm(line.text())
        except LengthError as error:
            raise LengthError(f"{tr(name)}: {error}") from None
    return found


def put_beside(window: QWidget, side: QWidget, paper: QWidget) -> None:
    """Fill a window with what is typed, at the left, and a card with the drawing of it."""
    frame = QFrame()
    frame.setObjectName("card")
    QVBoxLayout(frame).addWidget(paper)
    layout = QHBoxLayout(window)
    layout.addWidget(side)
    layout.addWidget(frame, 1)
