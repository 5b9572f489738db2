"""What tests of the window share: the demo room as a document, and a window whose questions have answers."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, QSettings
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.appearance import dress as wear_chosen
from app.document import Document
from app.elevation import ElevationView
from app.main import dress
from app.theme.look import look
from app.window import USUAL_SIZE, Window
from core.files import load_room
from core.room import Room
from tests.app.answers import Answers


@pytest.fixture
def room(demo_room_path: Path) -> Room:
    return load_room(demo_room_path)


@pytest.fixture
def document(room: Room) -> Document:
    return Document(room)


@pytest.fixture
def view(qtbot: QtBot, document: Document) -> ElevationView:
    """A shown elevation of the document, with the keyboard's focus."""
    view = ElevationView(document)
    view.resize(1600, 900)
    qtbot.addWidget(view)
    with qtbot.waitExposed(view):
        view.show()
    view.setFocus()
    return view


@pytest.fixture
def answers() -> Answers:
    return Answers()


@pytest.fixture(scope="session", autouse=True)
def dressed(qapp: QApplication) -> QApplication:
    """The application with its name and letters, there before any test can make a lesser one."""
    dress(qapp)
    return qapp


@pytest.fixture
def window(document: Document, answers: Answers, tmp_path: Path, qtbot: QtBot, dressed: QApplication) -> Iterator[Window]:
    """A shown window on the demo room; closing it at the end gives up what is unsaved."""
    QSettings().clear()
    window = Window(document, tmp_path / "state", answers)
    # The screen of the offscreen platform is 800 by 800; tests look at a window as on a usual one.
    window.resize(USUAL_SIZE)
    with qtbot.waitExposed(window):
        window.show()
    yield window
    answers.unsaved_answer = "discard"
    window.close()
    window.deleteLater()
    # No event loop runs between tests to do this, and windows that live on make every later one slower.
    dressed.sendPostedEvents(window, QEvent.Type.DeferredDelete.value)


@pytest.fixture(autouse=True)
def _one_application(qapp: QApplication) -> None:
    """Make the application with windows first: a command that only draws would otherwise make a lesser one, for good."""


@pytest.fixture
def usual_look_afterwards(dressed: QApplication) -> Iterator[None]:
    """For tests that choose another scheme or size of letters."""
    yield
    QSettings().clear()
    wear_chosen(dressed)
    look.changed.emit()
