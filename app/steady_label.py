"""A label for a figure that changes at every step of a drag."""

import re
from collections.abc import Callable

from PySide6.QtCore import QEvent, QSize
from PySide6.QtWidgets import QLabel

FIGURE = re.compile(r"\d")


class SteadyLabel(QLabel):
    """Has the window around it laid out anew only when its text needs another size: figures are all equally wide.

    Any other label asks for that whenever its text changes, and a window that is laid out is painted a second time.
    """

    def __init__(self, least_px: Callable[[], int] = lambda: 0) -> None:
        """``least_px`` is how narrow it may become."""
        super().__init__()
        self._least_px = least_px
        self._shape = ""

    def setText(self, text: str) -> None:
        super().setText(text)
        shape = FIGURE.sub("0", text)
        if shape != self._shape:
            self._shape = shape
            self._fit()

    def changeEvent(self, event: QEvent) -> None:
        super().changeEvent(event)
        if event.type() in (QEvent.Type.FontChange, QEvent.Type.StyleChange):
            self._fit()

    def _fit(self) -> None:
        self.ensurePolished()
        # What a label would like to have is never less than its smallest size.
        self.setMinimumSize(0, 0)
        hint = self.sizeHint()
        self.setFixedSize(QSize(max(hint.width(), self._least_px()), hint.height()))
