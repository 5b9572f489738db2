"""The studio: a window on a room, waited for until nothing in it moves any more, and its picture."""

from collections.abc import Callable
from pathlib import Path
from time import monotonic

from PySide6.QtCore import QEvent, QRect, QSize, Qt
from PySide6.QtGui import QImage, QPainter
from PySide6.QtWidgets import QApplication, QWidget

from app.document import Document
from app.main import dress
from app.painter import paint_sheet
from app.pictures.den import TODAY
from app.window import Window
from core.drawing import Sheet
from core.errors import CoursewrightError
from core.room import Room

WINDOW = QSize(1600, 900)
BENCH_PX = 340
PATIENCE_S = 120
SHEET_PX_PER_MM = 3.4
AFTERWARDS = 6
"""Rounds of events after something was waited for: labels lay themselves out again, and what they push aside is painted."""


class NoPictureError(CoursewrightError):
    """Something a picture waits for did not come."""


class Studio:
    """One window at a time, on a room without a file, so that no folder of anybody's is in the picture."""

    def __init__(self, application: QApplication, state_folder: Path) -> None:
        dress(application)
        application.setCursorFlashTime(0)
        self._application, self._state_folder = application, state_folder
        self._window: Window | None = None

    def open(self, room: Room, size: QSize = WINDOW) -> Window:
        """A shown window on a room, its set-out worked out in full; the one before it is closed."""
        self.close()
        window = self._window = Window(Document(room), self._state_folder)
        # The window has no other clock to set, and a picture must not depend on the day it is taken.
        window.building.marking._today = lambda: TODAY
        window.resize(size)
        window.show()
        window.split.setSizes([size.height() - BENCH_PX, BENCH_PX])
        window.document.work_out()
        self.settle()
        return window

    def close(self) -> None:
        """Close the window without a question about what is not saved."""
        window, self._window = self._window, None
        if window is not None:
            window.document.undo_stack.setClean()
            window.close()
            window.deleteLater()
            self._application.sendPostedEvents(window, QEvent.Type.DeferredDelete.value)

    def wait(self, for_what: str, is_there: Callable[[], object]) -> None:
        """Handle events until something is there. Raises NoPictureError after two minutes."""
        begin = monotonic()
        while not is_there():
            if monotonic() - begin > PATIENCE_S:
                raise NoPictureError(f"no picture: waited {PATIENCE_S} s for {for_what}")
            self._application.processEvents()
        self.settle()

    def settle(self) -> None:
        """Handle what is due now."""
        for _ in range(AFTERWARDS):
            self._application.processEvents()

    def shoot(self, widget: QWidget, part: QRect | None = None) -> QImage:
        """A picture of a widget, or of a part of it."""
        self.settle()
        return widget.grab(part or widget.rect()).toImage()


def shoot_sheet(sheet: Sheet) -> QImage:
    """A picture of a sheet of paper."""
    paper = sheet.paper
    image = QImage(round(paper.width_mm * SHEET_PX_PER_MM), round(paper.height_mm * SHEET_PX_PER_MM), QImage.Format.Format_RGB32)
    image.fill(Qt.GlobalColor.white)
    painter = QPainter(image)
    painter.scale(SHEET_PX_PER_MM, SHEET_PX_PER_MM)
    paint_sheet(painter, sheet)
    painter.end()
    return image
