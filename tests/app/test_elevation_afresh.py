"""Whatever happens to a room on show, its elevation looks as one that is opened only then: nothing kept is out of date."""

from collections.abc import Callable

import pytest
from PySide6.QtCore import QPointF
from PySide6.QtGui import QImage
from pytestqt.qtbot import QtBot

from app.document import Document
from app.elevation import ElevationView
from core import edits
from core.progress import Progress
from core.room import Room


def commit(change: Callable[[Room], Room]) -> Callable[[Document, ElevationView], object]:
    return lambda document, _view: document.commit_edit(change, "Change")


HAPPENINGS: dict[str, Callable[[Document, ElevationView], object]] = {
    "another wall is chosen": lambda document, _view: document.set_wall(2),
    "it is looked at more closely": lambda _document, view: view.zoom_in(),
    "it is looked at from the left": lambda _document, view: view._stage.pan(QPointF(40, 0)),
    "it is looked at from below": lambda _document, view: view._stage.pan(QPointF(0, 25)),
    "lengths are in feet and inches": commit(lambda room: room.model_copy(update={"display_units": "ft-in"})),
    "it is lined higher": commit(lambda room: room.model_copy(update={"clad_height_mm": 2280.0})),
    "it is lined to a height with other rows": commit(lambda room: room.model_copy(update={"clad_height_mm": 1840.0})),
    "all records are struck out": commit(lambda room: room.model_copy(update={"progress": Progress()})),
    "some records are struck out": commit(
        lambda room: room.model_copy(update={"progress": Progress(panels=room.progress.panels[::2])})
    ),
    "a window moves": commit(lambda room: edits.move_opening(room, "window", left_mm=1500.0)),
    "a window moves to another wall": commit(lambda room: edits.move_opening(room, "window", wall=0, left_mm=900.0)),
    "the door is taken out": commit(lambda room: edits.remove_opening(room, "door")),
}


def picture_of(view: ElevationView) -> QImage:
    return view.grab().toImage()


@pytest.mark.parametrize("happening", HAPPENINGS)
def test_a_view_shows_what_a_fresh_one_shows(happening: str, view: ElevationView, document: Document, qtbot: QtBot) -> None:
    # Once someone has zoomed, the picture stays as large when the room changes.
    view.zoom_in()
    view.clearFocus()
    before = picture_of(view)
    HAPPENINGS[happening](document, view)
    fresh = ElevationView(document)
    fresh.resize(view.size())
    qtbot.addWidget(fresh)
    with qtbot.waitExposed(fresh):
        fresh.show()
    fresh._stage._move(view.camera)
    fresh.clearFocus()
    assert picture_of(view) == picture_of(fresh)
    assert picture_of(view) != before
