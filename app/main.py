"""Opens the window."""

import sys
from pathlib import Path

from PySide6.QtCore import QStandardPaths, QTimer
from PySide6.QtGui import QIcon
from PySide6.QtWidgets import QApplication

from app import appearance
from app.assets import asset
from app.collector import calm_collector
from app.desktop_entry import ICON
from app.document import Document
from app.first_steps.remembered import is_wanted
from app.window import Window
from app.window_language import speak_in_window
from core.errors import CoursewrightError
from core.files import load_room

DEMO_ROOM = "demo.room.json"
EXIT_BAD_INPUT = 2


def run_window(path: Path | None) -> int:
    """Open a room, or the demo room, and run until the window closes; the exit status.

    A room that cannot be opened is told on standard error, with exit status 2.
    """
    application = QApplication.instance() or QApplication(sys.argv[:1])
    assert isinstance(application, QApplication)
    dress(application)
    speak_in_window(application)
    try:
        window = open_window(path, state_folder())
    except CoursewrightError as error:
        sys.stderr.write(f"coursewright: {error}\n")
        return EXIT_BAD_INPUT
    window.show()
    calm_collector(window.document)
    return application.exec()


def dress(application: QApplication) -> None:
    """Name the application for its settings and give it our look."""
    application.setOrganizationName("Coursewright")
    application.setApplicationName("Coursewright")
    # Under this name a desktop finds the program's entry, and with it the icon of its windows.
    application.setDesktopFileName("coursewright")
    application.setWindowIcon(QIcon(str(asset(ICON))))
    appearance.dress(application)


def open_window(path: Path | None, autosaves: Path) -> Window:
    """A window on a room, not yet shown; work left behind is offered once it stands. Raises CoursewrightError."""
    room = load_room(path if path is not None else asset(DEMO_ROOM))
    window = Window(Document(room, path), autosaves)
    # A question needs a window to stand on, so it waits for the event loop.
    QTimer.singleShot(0, window, window.files.recover_at_start)
    if path is None and is_wanted():
        QTimer.singleShot(0, window, lambda: window.begin_guide(unasked=True))
    return window


def state_folder() -> Path:
    """Where rooms without a file autosave."""
    return Path(QStandardPaths.writableLocation(QStandardPaths.StandardLocation.AppLocalDataLocation))
