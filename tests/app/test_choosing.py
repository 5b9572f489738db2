"""Several things chosen on the elevation by clicks, by a band and by keys, and what then happens to all of them at once."""

import pytest
from PySide6.QtCore import QPointF, Qt
from pytestqt.qtbot import QtBot

from app.document import Document
from app.elevation import ElevationView
from core import edits
from core.room import Room
from tests.app.elevation_hand import CONTROL, NONE, SHIFT, along, band, body, click, drag, move, press, release


@pytest.fixture
def room(room: Room) -> Room:
    """The demo room with a second outlet, beside its window."""
    return edits.add_opening(room, "outlet", 1, 300.0)


def pixel(view: ElevationView, name: str, document: Document) -> QPointF:
    return body(view, document.room.opening(name))


@pytest.mark.parametrize("key", [SHIFT, CONTROL])
def test_clicks_with_a_key_choose_more_and_once_again_fewer(
    view: ElevationView, document: Document, key: Qt.KeyboardModifier
) -> None:
    click(view, pixel(view, "window", document))
    click(view, pixel(view, "door", document), key)
    assert document.chosen.names == ("window", "door")
    assert document.selection == "door"
    click(view, pixel(view, "window", document), key)
    assert document.chosen.names == ("door",)
    panel = view.panel_at(view.wall_to_screen(2, 500.0, 300.0))
    assert panel is not None
    click(view, view.wall_to_screen(2, 500.0, 300.0), key)
    assert document.chosen.names == ("door", panel.mark)


def test_a_plain_click_on_one_of_several_leaves_it_alone(view: ElevationView, document: Document) -> None:
    document.chosen.choose(("window", "door"))
    click(view, pixel(view, "window", document))
    assert document.chosen.names == ("window",)


def test_a_band_chooses_panels_it_touches_and_openings_wholly_within(view: ElevationView, document: Document) -> None:
    window = document.room.opening("window")
    start = view.wall_to_screen(1, window.left_mm - 100.0, window.sill_mm - 50.0)
    drag(view, start, view.wall_to_screen(1, window.left_mm + 400.0, window.head_mm + 50.0))
    assert document.chosen.openings == ()
    touched = set(document.chosen.marks)
    assert touched == {
        panel.mark
        for panel in document.setout.panels
        for face in panel.faces
        if face.wall == 1
        and face.left * 8 + 4 < window.left_mm + 400.0
        and face.right * 8 + 4 > window.left_mm - 100.0
        and face.bottom * 3.2 < window.head_mm + 50.0
        and face.top * 3.2 > window.sill_mm - 50.0
    }
    drag(view, start, view.wall_to_screen(1, window.right_mm + 100.0, window.head_mm + 50.0))
    assert [opening.id for opening in document.chosen.openings] == ["window"]
    assert document.selection == "window"


def test_a_band_drawn_with_a_key_adds_to_what_is_chosen(view: ElevationView, document: Document) -> None:
    document.select("door")
    band(view, view.wall_to_screen(2, 100.0, 100.0), view.wall_to_screen(2, 200.0, 120.0), SHIFT)
    assert document.chosen.names[0] == "door"
    assert len(document.chosen.names) > 1


def test_a_band_begins_beside_the_walls_too_and_records_nothing(view: ElevationView, document: Document) -> None:
    before = document.room
    drag(view, QPointF(70, 860), view.wall_to_screen(3, 3000.0, 1900.0))
    assert {opening.id for opening in document.chosen.openings} >= {"window", "outlet-1", "outlet-2"}
    assert document.room is before
    assert document.undo_stack.count() == 0


def test_escape_amid_a_band_leaves_chosen_what_was(view: ElevationView, document: Document, qtbot: QtBot) -> None:
    document.chosen.choose(("window", "door"))
    start = view.wall_to_screen(2, 100.0, 100.0)
    press(view, start, SHIFT)
    move(view, start + QPointF(200, -100), SHIFT)
    assert view.is_dragging
    qtbot.keyClick(view, Qt.Key.Key_Escape)
    release(view, start + QPointF(200, -100))
    assert document.chosen.names == ("window", "door")


def test_a_drag_of_one_of_several_moves_all_as_one_step_to_undo(view: ElevationView, document: Document) -> None:
    before = document.room
    document.chosen.choose(("outlet-1", "window"))
    start = pixel(view, "window", document)
    drag(view, start, along(view, 1, start, 160.0), Qt.KeyboardModifier.AltModifier)
    moved = [document.room.opening(name).left_mm - before.opening(name).left_mm for name in ("window", "outlet-1")]
    assert moved[0] == pytest.approx(160.0, abs=1.0)
    assert moved[1] == pytest.approx(moved[0])
    assert document.undo_stack.count() == 1
    assert document.chosen.names == ("outlet-1", "window")
    document.undo_stack.undo()
    assert document.room == before


def test_a_drag_of_several_stops_where_the_first_comes_to_its_walls_end(
    view: ElevationView, document: Document, qtbot: QtBot
) -> None:
    document.chosen.choose(("outlet-1", "window"))
    start = pixel(view, "window", document)
    with qtbot.assertNotEmitted(document.refused):
        drag(view, start, view.wall_to_screen(0, 100.0, 1000.0))
    assert min(document.room.opening(name).left_mm for name in ("outlet-1", "window")) == 0.0
    assert {document.room.opening("window").wall, document.room.opening("outlet-1").wall} == {0, 1}


def test_a_drag_of_several_onto_another_opening_leaves_none_there(view: ElevationView, document: Document, qtbot: QtBot) -> None:
    document.chosen.choose(("outlet-1", "window"))
    assert document.commit_edit(lambda room: edits.move_opening(room, "outlet-2", left_mm=600.0, sill_mm=1000.0), "Lift")
    before = document.room
    start = pixel(view, "window", document)
    press(view, start)
    with qtbot.waitSignal(document.refused):
        move(view, along(view, 1, start, -440.0))
    release(view, along(view, 1, start, -440.0))
    assert document.room == before


def test_arrow_keys_move_and_resize_all_chosen_openings(view: ElevationView, document: Document, qtbot: QtBot) -> None:
    before = document.room
    document.chosen.choose(("outlet-1", "window"))
    for _ in range(3):
        qtbot.keyPress(view, Qt.Key.Key_Right, SHIFT)
    qtbot.keyRelease(view, Qt.Key.Key_Right)
    qtbot.keyClick(view, Qt.Key.Key_Up, CONTROL)
    for name in ("outlet-1", "window"):
        was, now = before.opening(name), document.room.opening(name)
        assert (now.left_mm - was.left_mm, now.height_mm - was.height_mm) == pytest.approx((240.0, 9.6))
    assert document.undo_stack.count() == 2
    assert document.undo_stack.undoText() == "Resize 2 openings"


def test_delete_takes_all_chosen_openings_in_one_step(view: ElevationView, document: Document, qtbot: QtBot) -> None:
    before = document.room
    document.chosen.choose(("outlet-1", "window", document.setout.panels[0].mark))
    qtbot.keyClick(view, Qt.Key.Key_Delete)
    assert [opening.id for opening in document.room.openings] == ["door", "outlet-2"]
    assert document.undo_stack.count() == 1
    document.undo_stack.undo()
    assert document.room == before


def test_arrow_keys_go_from_panel_to_panel_and_with_shift_choose_them(
    view: ElevationView, document: Document, qtbot: QtBot
) -> None:
    qtbot.keyClick(view, Qt.Key.Key_Right)
    first = document.selection
    qtbot.keyClick(view, Qt.Key.Key_Right)
    second = document.selection
    assert first != second
    assert document.chosen.names == (second,)
    qtbot.keyClick(view, Qt.Key.Key_Up, SHIFT)
    third = document.selected_panel
    assert third is not None
    assert third.row == 1
    assert document.chosen.names == (second, third.mark)
    qtbot.keyClick(view, Qt.Key.Key_Left)
    assert len(document.chosen.names) == 1


def test_what_undo_takes_away_is_chosen_no_longer(document: Document) -> None:
    assert document.commit_edit(lambda room: edits.add_opening(room, "niche", 2, 500.0), "Add")
    document.chosen.choose(("niche-1", "door"), "niche-1")
    document.undo_stack.undo()
    assert document.chosen.names == ("door",)
    assert document.selection == "door"


def test_a_band_leaves_panning_and_clicks_as_they_were(view: ElevationView, document: Document, qtbot: QtBot) -> None:
    start = view.wall_to_screen(2, 1000.0, 150.0)
    place = view.screen_to_wall(start)
    qtbot.keyPress(view, Qt.Key.Key_Space)
    drag(view, start, start + QPointF(40, 30), NONE)
    qtbot.keyRelease(view, Qt.Key.Key_Space)
    assert view.screen_to_wall(start + QPointF(40, 30)) == pytest.approx(place, abs=1e-3)
    assert document.chosen.names == ()
