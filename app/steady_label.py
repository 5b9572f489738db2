"""A label for a figure that changes at every step of a drag."""

from collections.abc import Sequence

from PySide6.QtCore import QEvent, QRect, QSize
from PySide6.QtWidgets import QLabel

from app.text_shape import text_shape

MOST_PX = 10_000


class SteadyLabel(QLabel):
    """Has the window around it laid out anew only when its text needs another size: figures are all equally wide.

    Any other label asks for that whenever its text changes, and a window that is laid out is painted a second time.
    """

    def __init__(self, roomy_for: Sequence[str] = ()) -> None:
        """``roomy_for`` are texts that there is always room for, whatever stands there."""
        super().__init__()
        self._roomy_for = roomy_for
        self._shape = ""

    def setText(self, text: str) -> None:
        super().setText(text)
        shape = text_shape(text)
        if shape != self._shape:
            self._shape = shape
            self._fit()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.FontChange, QEvent.Type.StyleChange):
            self._fit()

    def _fit(self) -> None:
        self.ensurePolished()
        sizes = [self._size_px(text) for text in (self.text(), *self._roomy_for)]
        size = QSize(max(size.width() for size in sizes), max(size.height() for size in sizes))
        if size != self.minimumSize():
            self.setFixedSize(size)

    def _size_px(self, text: str) -> QSize:
        """What a label of its font needs; its own hint would be no less than the size it has been given."""
        return self.fontMetrics().boundingRect(QRect(0, 0, MOST_PX, MOST_PX), 0, text).size()
