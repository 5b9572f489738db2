"""Run in a process of its own, in the language that its environment asks for: prints what a window says, as JSON.

``python -m tests.app.in_another_language ROOM FOLDER``. One language holds per process; FOLDER is for what it writes.
"""

import json
import os
import sys
from pathlib import Path
from time import monotonic

from PySide6.QtCore import QSettings
from PySide6.QtGui import QKeySequence
from PySide6.QtWidgets import QApplication, QDialogButtonBox, QMenu

from app.aside.aside import Aside
from app.main import dress, open_window
from app.recent import RecentMenu
from app.window import Window
from app.window_language import speak_in_window
from core.language import spoken
from tests.app.cut_short import cut_short

SETTLED_S, PATIENCE_S = 1.0, 10.0


def menus(window: Window) -> dict[str, list[str]]:
    """Every menu of the bar and those below, by title; files opened lately have names in no language."""
    found = [menu for menu in window.findChildren(QMenu) if menu.title() and not isinstance(menu, RecentMenu)]
    return {menu.title(): [action.text() for action in menu.actions()] for menu in found}


def asked_aside(application: QApplication) -> object:
    """What a process beside the window speaks."""
    told: list[object] = []
    aside = Aside(application)
    aside.told.connect(told.append)
    aside.failed.connect(told.append)
    aside.ask(spoken)
    while not told:
        application.processEvents()
    return told[0]


def cut_on_leaves(application: QApplication, window: Window) -> list[str]:
    """What is cut short on a small screen, on any leaf, once texts that come in later have had time to."""
    window.resize(1280, 800)
    found = []
    for place in range(window.leaves.count()):
        window.leaves.setCurrentIndex(place)
        begin = monotonic()
        while monotonic() < begin + SETTLED_S or (cut_short(window) and monotonic() < begin + PATIENCE_S):
            application.processEvents()
        found += cut_short(window)
    return found


def main(room: Path, folder: Path) -> None:
    """Print what there is to compare."""
    QSettings.setPath(QSettings.Format.NativeFormat, QSettings.Scope.UserScope, str(folder))
    application = QApplication([])
    dress(application)
    speak_in_window(application)
    window = open_window(room, folder)
    window.show()
    cut = cut_on_leaves(application, window)
    buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Cancel)
    seen = {
        "spoken": spoken(),
        "aside": asked_aside(application),
        "menus": menus(window),
        "cut": cut,
        "qt": [buttons.buttons()[0].text(), QKeySequence("Ctrl+S").toString(QKeySequence.SequenceFormat.NativeText)],
    }
    sys.stdout.write(json.dumps(seen))
    sys.stdout.flush()
    os._exit(0)


if __name__ == "__main__":
    main(Path(sys.argv[1]), Path(sys.argv[2]))
