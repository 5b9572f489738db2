"""A new room from a ready shape or from a measured list."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.new_room import NewRoomDialog

LEFT = Qt.MouseButton.LeftButton
KEY = Qt.Key


def test_a_ready_shape_follows_its_sizes_and_shows_the_one_being_typed(dialog: NewRoomDialog, qtbot: QtBot) -> None:
    qtbot.mouseClick(dialog.shape.buttons["L"], LEFT)
    line = dialog.shape.lines["corner width"]
    qtbot.waitUntil(line.isVisible)
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, "5'")
    assert [d.text for d in dialog.shape.paper.dimensions] == ["corner width  1524 mm"]
    assert dialog.figures["walls"].text() == "6"
    qtbot.keyClick(line, KEY.Key_Return)
    assert dialog.room is not None
    assert dialog.room.wall_length_mm(3) == 1524


def test_a_size_that_does_not_fit_is_named_and_the_dialog_stays(dialog: NewRoomDialog) -> None:
    dialog.shape.buttons["Bay"].click()
    dialog.shape.lines["bay depth"].setText("9000")
    dialog.accept()
    assert dialog.isVisible()
    assert "bay depth" in dialog.fault.text()


def test_a_pasted_list_fills_the_table_and_its_miss_is_shared_as_chosen(dialog: NewRoomDialog, qtbot: QtBot) -> None:
    dialog.go(2)
    QApplication.clipboard().setText("3048 R 3048 R 3050 R 3048 R")
    dialog.list.table.setFocus()
    qtbot.keyClick(dialog.list.table, KEY.Key_V, Qt.KeyboardModifier.ControlModifier)
    assert dialog.list.table.item(2, 0).text() == "3050 mm"
    assert "2 mm" in dialog.list.miss.words.text()
    assert "2 mm down" in dialog.list.miss.words.text()
    qtbot.mouseClick(dialog.list.miss.choices["compass"], LEFT)
    assert "0.5 mm" in dialog.list.miss.effect.text()
    dialog.accept()
    assert dialog.room is not None
    assert dialog.room.wall_length_mm(0) == pytest.approx(3048.5, abs=1e-3)


def test_a_list_typed_and_entered_by_keyboard_begins_a_room(dialog: NewRoomDialog, qtbot: QtBot) -> None:
    dialog.go(2)
    qtbot.keyClicks(dialog.list.line, "10' R 12' 6\" R 10' R 12' 6\"")
    qtbot.keyClick(dialog.list.line, KEY.Key_Return)
    assert dialog.focusWidget() is dialog.list.table
    dialog.accept()
    assert dialog.room is not None
    assert [round(dialog.room.wall_length_mm(wall)) for wall in range(4)] == [3048, 3810, 3048, 3810]


@pytest.mark.parametrize(
    ("text", "said"),
    [("3048 R 3048 R x R 3048 R", "wall C"), ("3048 R 3048 R 350 R 3048 R", "wall A or C"), ("1000 R 2000", "found 2 walls")],
)
def test_a_list_that_makes_no_room_is_refused_by_its_entry(dialog: NewRoomDialog, text: str, said: str) -> None:
    dialog.go(2)
    dialog.list.paste(text)
    dialog.accept()
    assert dialog.isVisible()
    assert said in dialog.fault.text()


def test_a_table_cell_can_be_corrected(dialog: NewRoomDialog) -> None:
    dialog.go(2)
    dialog.list.paste("3048 R 3048 R 3050 R 3048 R")
    dialog.list.table.item(2, 0).setText("3048")
    assert not dialog.list.miss.isVisible()
    dialog.list.table.item(1, 0).setText("wide")
    dialog.accept()
    assert "wall B: 'wide' is not a length" in dialog.fault.text()


def test_how_little_is_missed_has_its_thousands_apart_as_everywhere(qtbot: QtBot) -> None:
    dialog = NewRoomDialog("mm")
    qtbot.addWidget(dialog)
    dialog.list.paste("2440 R 3048 R 2440 R 3046 R")
    assert "1 in 5\u00a0487 of the way round" in dialog.list.miss.words.text()
