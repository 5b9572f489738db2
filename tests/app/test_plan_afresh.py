"""Whatever happens to a room on show, its plan looks as one that is opened only then: nothing kept is out of date."""

from collections.abc import Callable

import pytest
from PySide6.QtGui import QImage
from pytestqt.qtbot import QtBot

from app.document import Document
from app.plan.view import PlanView
from core import edits
from core.room import Room


def commit(change: Callable[[Room], Room]) -> Callable[[Document], object]:
    return lambda document: document.commit_edit(change, "Change")


HAPPENINGS: dict[str, Callable[[Document], object]] = {
    "another wall is chosen": lambda document: document.set_wall(2),
    "another opening is chosen": lambda document: document.select("door"),
    "one more opening is chosen": lambda document: document.chosen.toggle("door"),
    "nothing is chosen": lambda document: document.select(None),
    "the chosen opening moves": commit(lambda room: edits.move_opening(room, "window", left_mm=1500.0)),
    "another opening moves": commit(lambda room: edits.move_opening(room, "door", left_mm=1500.0)),
    "an opening is taken out": commit(lambda room: edits.remove_opening(room, "door")),
    "lengths are in feet and inches": commit(lambda room: room.model_copy(update={"display_units": "ft-in"})),
    "a corner moves": commit(lambda room: edits.move_corner(room, 1, (0.0, 3300.0), square=True)),
}


@pytest.mark.parametrize("happening", HAPPENINGS)
def test_a_plan_shows_what_a_fresh_one_shows(happening: str, document: Document, qtbot: QtBot) -> None:
    def shown() -> PlanView:
        view = PlanView(document)
        qtbot.addWidget(view)
        view.resize(320, 300)
        view.show()
        view.clearFocus()
        return view

    def picture_of(view: PlanView) -> QImage:
        return view.grab().toImage()

    document.select("window")
    view = shown()
    before = picture_of(view)
    HAPPENINGS[happening](document)
    assert picture_of(view) == picture_of(shown())
    assert picture_of(view) != before


def test_a_corner_is_marked_only_while_it_is_chosen(document: Document, qtbot: QtBot) -> None:
    view = PlanView(document)
    qtbot.addWidget(view)
    with qtbot.waitExposed(view):
        view.show()
    view.setFocus()
    before = view.grab().toImage()
    view._choose_corner(1)
    assert view.grab().toImage() != before
    view.clearFocus()
    view.setFocus()
    view._corner = None
    assert view.grab().toImage() == before
