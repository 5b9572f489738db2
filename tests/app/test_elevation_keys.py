"""The developed elevation by keyboard: nudges, sizes, and the way round the openings."""

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.document import Document
from app.elevation import ElevationView
from tests.app.elevation_hand import NONE, along, body, move, press, release


@pytest.mark.parametrize(
    ("key", "modifiers", "moved"),
    [
        (Qt.Key.Key_Right, NONE, (8.0, 0.0)),
        (Qt.Key.Key_Left, NONE, (-8.0, 0.0)),
        (Qt.Key.Key_Up, NONE, (0.0, 9.6)),
        (Qt.Key.Key_Down, Qt.KeyboardModifier.ShiftModifier, (0.0, -96.0)),
        (Qt.Key.Key_Left, Qt.KeyboardModifier.ShiftModifier, (-80.0, 0.0)),
        (Qt.Key.Key_Right, Qt.KeyboardModifier.AltModifier, (1.0, 0.0)),
    ],
)
def test_arrow_keys_nudge_by_pitch_and_course(
    view: ElevationView,
    document: Document,
    qtbot: QtBot,
    key: Qt.Key,
    modifiers: Qt.KeyboardModifier,
    moved: tuple[float, float],
) -> None:
    window = document.room.opening("window")
    document.select("window")
    qtbot.keyClick(view, key, modifiers)
    nudged = document.room.opening("window")
    assert (nudged.left_mm - window.left_mm, nudged.sill_mm - window.sill_mm) == pytest.approx(moved)
    assert document.undo_stack.count() == 1
    document.undo_stack.undo()
    assert document.room.opening("window") == window


def test_a_held_arrow_key_is_one_step_to_undo(view: ElevationView, document: Document, qtbot: QtBot) -> None:
    window = document.room.opening("window")
    document.select("window")
    for _ in range(5):
        qtbot.keyPress(view, Qt.Key.Key_Right)
    qtbot.keyRelease(view, Qt.Key.Key_Right)
    assert document.room.opening("window").left_mm == window.left_mm + 40.0
    assert document.undo_stack.count() == 1


def test_control_and_arrows_resize(view: ElevationView, document: Document, qtbot: QtBot) -> None:
    window = document.room.opening("window")
    document.select("window")
    qtbot.keyClick(view, Qt.Key.Key_Right, Qt.KeyboardModifier.ControlModifier)
    qtbot.keyClick(view, Qt.Key.Key_Down, Qt.KeyboardModifier.ControlModifier)
    resized = document.room.opening("window")
    assert (resized.width_mm, resized.height_mm) == pytest.approx((window.width_mm + 8.0, window.height_mm - 9.6))
    assert (resized.left_mm, resized.sill_mm) == (window.left_mm, window.sill_mm)


def test_tab_goes_through_the_openings_in_the_order_of_the_walls(view: ElevationView, document: Document, qtbot: QtBot) -> None:
    seen = []
    for _ in range(3):
        qtbot.keyClick(view, Qt.Key.Key_Tab)
        seen.append(document.selection)
    qtbot.keyClick(view, Qt.Key.Key_Backtab)
    assert seen == ["outlet-1", "window", "door"]
    assert document.selection == "window"


def test_delete_removes_the_selected_opening_and_undo_brings_it_back(
    view: ElevationView, document: Document, qtbot: QtBot
) -> None:
    before = document.room
    document.select("outlet-1")
    qtbot.keyClick(view, Qt.Key.Key_Delete)
    assert [opening.id for opening in document.room.openings] == ["door", "window"]
    document.undo_stack.undo()
    assert document.room == before


def test_keys_zoom_fit_and_go_from_wall_to_wall(view: ElevationView, document: Document, qtbot: QtBot) -> None:
    fitted = view.camera
    qtbot.keyClick(view, Qt.Key.Key_Plus)
    assert view.camera.scale > fitted.scale
    qtbot.keyClick(view, Qt.Key.Key_Minus)
    assert view.camera.scale == pytest.approx(fitted.scale)
    qtbot.keyClick(view, Qt.Key.Key_PageUp)
    assert document.wall == 3
    assert view.rect().contains(view.wall_to_screen(3, 1500.0, 900.0).toPoint())
    qtbot.keyClick(view, Qt.Key.Key_0)
    assert view.camera == fitted


@pytest.mark.parametrize("held", [Qt.KeyboardModifier.AltModifier, Qt.KeyboardModifier.ControlModifier])
def test_escape_ends_a_drag_while_a_key_holds_snapping_off(
    view: ElevationView, document: Document, qtbot: QtBot, held: Qt.KeyboardModifier
) -> None:
    before = document.room
    start = body(view, before.opening("window"))
    press(view, start)
    move(view, along(view, 1, start, 300.0), held)
    qtbot.keyClick(view, Qt.Key.Key_Escape, held)
    release(view, along(view, 1, start, 300.0))
    assert document.room is before
