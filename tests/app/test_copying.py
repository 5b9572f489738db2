"""Openings copied, cut and pasted by keys, and a wall's openings repeated by the dialog."""

import json

import pytest
from PySide6.QtCore import Qt, QTimer
from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QApplication, QDialogButtonBox
from pytestqt.qtbot import QtBot

from app.copy_wall_dialog import CopyWallDialog
from app.document import Document
from app.window import Window
from core import edits
from core.room import Room

CONTROL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def room(room: Room) -> Room:
    """The demo room with a second outlet, beside its window."""
    return edits.add_opening(room, "outlet", 1, 300.0)


def key(window: Window, qtbot: QtBot, which: Qt.Key) -> None:
    qtbot.keyClick(window.elevation, which, CONTROL)


def test_what_is_copied_is_pasted_on_the_current_wall_and_chosen(window: Window, document: Document, qtbot: QtBot) -> None:
    document.chosen.choose(("outlet-2", "window"))
    key(window, qtbot, Qt.Key.Key_C)
    document.set_wall(2)
    key(window, qtbot, Qt.Key.Key_V)
    assert document.chosen.names == ("window-1", "outlet-3")
    assert {o.wall for o in document.chosen.openings} == {2}
    assert document.undo_stack.count() == 1


def test_the_clipboard_holds_the_room_files_own_text(window: Window, document: Document, qtbot: QtBot) -> None:
    document.select("window")
    key(window, qtbot, Qt.Key.Key_C)
    held = json.loads(QGuiApplication.clipboard().text())
    assert held == {"openings": [document.room.opening("window").model_dump(mode="json")]}


def test_cut_openings_come_back_by_pasting_as_they_were(window: Window, document: Document, qtbot: QtBot) -> None:
    before = document.room
    document.chosen.choose(("outlet-2", "window"))
    key(window, qtbot, Qt.Key.Key_X)
    assert [o.id for o in document.room.openings] == ["door", "outlet-1"]
    document.set_wall(1)
    key(window, qtbot, Qt.Key.Key_V)
    assert {o.id: o for o in document.room.openings} == {o.id: o for o in before.openings}


@pytest.mark.parametrize("text", ["a shopping list", '{"openings": [{"id": "door"}]}', ""])
def test_text_without_openings_is_refused_and_changes_nothing(
    window: Window, document: Document, qtbot: QtBot, text: str
) -> None:
    before = document.room
    QGuiApplication.clipboard().setText(text)
    with qtbot.waitSignal(document.refused):
        key(window, qtbot, Qt.Key.Key_V)
    assert document.room is before


def test_in_a_field_of_the_inspector_the_keys_stay_the_fields_own(window: Window, document: Document, qtbot: QtBot) -> None:
    document.select("window")
    line = window.inspector.opening.left.line
    line.setFocus()
    line.selectAll()
    qtbot.keyClick(line, Qt.Key.Key_C, CONTROL)
    assert QGuiApplication.clipboard().text() == line.text()
    qtbot.keyClick(line, Qt.Key.Key_A, CONTROL)
    assert document.chosen.names == ("window",)


def test_choosing_all_takes_in_every_panel_and_opening(window: Window, document: Document, qtbot: QtBot) -> None:
    key(window, qtbot, Qt.Key.Key_A)
    assert len(document.chosen.panels) == document.setout.tally.panels
    assert document.chosen.openings == document.room.openings


def test_keys_choose_one_opening_after_another(window: Window, document: Document, qtbot: QtBot) -> None:
    document.select("outlet-1")
    key(window, qtbot, Qt.Key.Key_Period)
    key(window, qtbot, Qt.Key.Key_Period)
    assert document.chosen.names == ("outlet-1", "outlet-2", "window")
    document.select("outlet-1")
    key(window, qtbot, Qt.Key.Key_Comma)
    assert document.chosen.names == ("outlet-1", "door")


def answer(window: Window, *walls: int, mirrored: bool = False) -> list[str]:
    """Answer the dialog; what it says where it stays open, which then is given up."""
    said: list[str] = []

    def tick() -> None:
        dialog = QApplication.activeModalWidget()
        assert isinstance(dialog, CopyWallDialog)
        for wall in walls:
            dialog.walls[wall].click()
        dialog.mirrored.setChecked(mirrored)
        dialog.buttons.button(QDialogButtonBox.StandardButton.Ok).click()
        if dialog.isVisible():
            said.append(dialog.fault.text())
            dialog.reject()

    QTimer.singleShot(0, tick)
    window.actions_by_name["copy_wall"].trigger()
    return said


def test_a_walls_openings_are_copied_to_the_walls_ticked(window: Window, document: Document) -> None:
    document.set_wall(1)
    assert answer(window, 2, mirrored=True) == []
    there = [o for o in document.room.openings if o.wall == 2]
    assert [o.kind for o in there] == [o.kind for o in document.room.openings if o.wall == 1]
    assert document.room.wall_length_mm(2) - there[0].right_mm == pytest.approx(document.room.opening("window").left_mm)
    assert document.undo_stack.count() == 1


def test_what_does_not_fit_is_said_in_the_dialog_and_nothing_is_copied(window: Window, document: Document) -> None:
    before = document.room
    document.set_wall(1)
    (said,) = answer(window, 2, 3)
    assert "window would overlap door on wall D" in said
    assert "would fit" in said
    assert document.room is before
