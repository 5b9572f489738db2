"""Measured studs on the elevation: dragged, added and removed by mouse and by keys."""

import pytest
from PySide6.QtCore import QEvent, Qt
from PySide6.QtTest import QTest
from pytestqt.qtbot import QtBot

from app.document import Document
from app.window import Window
from core import edits
from core.room import MeasuredFrame
from tests.app.elevation_hand import LEFT, NONE, SHIFT, move, press, release, send
from tests.app.framing.plans import CENTRES_MM, centres, drag, handle


def test_a_stud_is_dragged_to_a_whole_millimetre_and_undo_brings_the_room_back(window: Window, document: Document) -> None:
    before = document.room
    drag(window, handle(window, 830.0), handle(window, 845.0), handle(window, 871.3), handle(window, 900.7))
    moved = centres(document)[2]
    assert moved == round(moved)
    assert moved == pytest.approx(900.7, abs=1 / window.elevation.camera.scale)
    assert centres(document)[:2] + centres(document)[3:] == CENTRES_MM[:2] + CENTRES_MM[3:]
    assert document.undo_stack.count() == 1
    document.undo_stack.undo()
    assert document.room == before


def test_a_stud_dragged_into_its_neighbour_is_refused_in_sight_and_stays_where_it_last_could(
    window: Window, document: Document
) -> None:
    view = window.elevation
    press(window.elevation, handle(window, 830.0))
    move(window.elevation, handle(window, 1000.0))
    move(window.elevation, handle(window, 1225.0))
    gesture = view._hand.gesture
    assert gesture is not None
    assert gesture.refused is not None
    assert gesture.refused.left_mm == pytest.approx(1225.0 - 19.0, abs=2 / view.camera.scale)
    assert "would overlap the one at 1230 mm" in document.refusal
    assert view._notice == document.refusal
    release(window.elevation, handle(window, 1225.0))
    assert centres(document)[2] == pytest.approx(1000.0, abs=2 / view.camera.scale)


def test_at_the_walls_end_a_stud_stops(window: Window, document: Document) -> None:
    drag(window, handle(window, 1581.0), handle(window, 1570.0), handle(window, 1590.0))
    assert centres(document)[-1] == 1581.0
    drag(window, handle(window, 19.0), handle(window, 40.0), handle(window, -60.0))
    assert centres(document)[0] == 19.0


def test_escape_amid_a_drag_puts_the_stud_back(window: Window, document: Document, qtbot: QtBot) -> None:
    before = document.room
    press(window.elevation, handle(window, 830.0))
    move(window.elevation, handle(window, 900.0))
    assert document.room != before
    qtbot.keyClick(window.elevation, Qt.Key.Key_Escape)
    release(window.elevation, handle(window, 900.0))
    assert document.room == before
    assert document.undo_stack.count() == 0


def test_a_double_click_between_two_studs_puts_one_up(window: Window, document: Document) -> None:
    pos = handle(window, 1030.0)
    for kind in (QEvent.Type.MouseButtonPress, QEvent.Type.MouseButtonRelease, QEvent.Type.MouseButtonDblClick):
        send(window.elevation, kind, pos, LEFT, NONE)
    release(window.elevation, pos)
    assert len(centres(document)) == len(CENTRES_MM) + 1
    assert centres(document)[3] == pytest.approx(1030.0, abs=1 / window.elevation.camera.scale)
    assert window.elevation._studs.selected == 3
    assert document.undo_stack.count() == 1


def test_keys_choose_move_add_and_remove_studs(window: Window, document: Document, qtbot: QtBot) -> None:
    view = window.elevation
    view.setFocus()
    for _ in range(2):
        qtbot.keyClick(view, Qt.Key.Key_U)
    assert view._studs.selected == 1
    assert "stud 2 of wall A is selected, its middle 420 mm from the left end" in view.accessibleDescription()
    qtbot.keyClick(view, Qt.Key.Key_Right)
    qtbot.keyClick(view, Qt.Key.Key_Left, SHIFT)
    assert centres(document)[1] == 411.0
    assert document.undo_stack.count() == 2
    qtbot.keyClick(view, Qt.Key.Key_Insert)
    assert centres(document)[:4] == (19.0, 411.0, 620.0, 830.0)
    assert view._studs.selected == 2
    qtbot.keyClick(view, Qt.Key.Key_Delete)
    assert centres(document)[:3] == (19.0, 411.0, 830.0)
    for _ in range(4):
        document.undo_stack.undo()
    assert centres(document) == CENTRES_MM
    qtbot.keyClick(view, Qt.Key.Key_Escape)
    assert view._studs.selected is None


def test_where_no_stud_fits_in_one_more_is_refused_in_sight(window: Window, document: Document, qtbot: QtBot) -> None:
    full = tuple(float(x) for x in range(19, 1600, 40))
    document.commit(edits.set_frame(document.room, 0, MeasuredFrame(mode="measured", centres_mm=full)), "Measure")
    before, view = document.room, window.elevation
    view.setFocus()
    qtbot.keyClick(view, Qt.Key.Key_Insert)
    assert document.room is before
    assert view._notice == document.refusal == "no stud of 38 mm fits in there"


def test_a_held_arrow_is_one_step_to_undo(window: Window, document: Document, qtbot: QtBot) -> None:
    view = window.elevation
    view.setFocus()
    qtbot.keyClick(view, Qt.Key.Key_U, SHIFT)
    assert view._studs.selected == len(CENTRES_MM) - 1
    for _ in range(5):
        QTest.keyPress(view, Qt.Key.Key_Left)
    assert document.gesture_base is not None
    QTest.keyRelease(view, Qt.Key.Key_Left)
    assert document.gesture_base is None
    assert centres(document)[-1] == 1576.0
    assert document.undo_stack.count() == 1


def test_a_stud_and_an_opening_or_panel_are_not_chosen_together(window: Window, document: Document, qtbot: QtBot) -> None:
    view = window.elevation
    view.setFocus()
    qtbot.keyClick(view, Qt.Key.Key_U)
    document.select("window")
    assert view._studs.selected is None
    document.set_wall(0)
    qtbot.keyClick(view, Qt.Key.Key_U)
    assert view._studs.selected == 0
    assert document.selection is None
    document.set_wall(1)
    assert view._studs.selected is None


def test_a_wall_without_measured_studs_has_no_handles_and_its_keys_do_nothing(
    window: Window, document: Document, qtbot: QtBot
) -> None:
    document.set_wall(1)
    before, view = document.room, window.elevation
    view.setFocus()
    for key in (Qt.Key.Key_U, Qt.Key.Key_Insert):
        qtbot.keyClick(view, key)
    assert view._studs.view is None
    assert not view._studs.covers(handle(window, 500.0, wall=1))
    assert document.room is before


def test_handles_stay_in_sight_where_the_floor_is_not(window: Window) -> None:
    view = window.elevation
    view.go_to_wall(0)
    for _ in range(8):
        view.zoom_in()
    strip = view._studs.view
    assert strip is not None
    assert view.rect().contains(strip.strip_px.toAlignedRect().adjusted(0, 0, -1, 0))
