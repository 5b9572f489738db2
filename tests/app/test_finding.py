"""Finding by name, and the menu about what lies under the pointer, driven by real keys and clicks."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QPoint, QPointF, Qt
from PySide6.QtGui import QContextMenuEvent
from PySide6.QtWidgets import QApplication, QMenu
from pytestqt.qtbot import QtBot

from app.document import Document
from app.finding.matching import matches
from app.window import Window
from core import edits
from core.setout import sketch
from core.setout.metric import face_box_mm
from core.setout.result import SetOut
from tests.generate import SMALL_KIT, seeded_room

CONTROL = Qt.KeyboardModifier.ControlModifier
SETOUT = sketch(seeded_room(5, kit=SMALL_KIT, most_rows=3, most_openings=5))


def names(setout: SetOut, text: str) -> list[str]:
    return [match.name for match in matches(setout, text)]


def test_a_whole_mark_finds_its_panel_first(document: Document) -> None:
    for panel in document.setout.panels[::17]:
        assert names(document.setout, panel.mark)[0] == panel.mark


@pytest.mark.parametrize("typed", ["b-3-07", "B 3 07", "b3-7", "b-3-7", "B307"])
def test_a_mark_is_found_however_it_is_written(document: Document, typed: str) -> None:
    assert "B-3-07" in names(document.setout, typed)


def test_part_of_a_mark_finds_all_that_begin_or_go_on_so(document: Document) -> None:
    found = names(document.setout, "B-3")
    assert set(found) >= {p.mark for p in document.setout.panels if p.mark.startswith("B-3-")}
    assert {"A-3-02", "B-3-02", "C-3-02"} <= set(names(document.setout, "3-02"))


def test_a_design_finds_every_panel_built_to_it(document: Document) -> None:
    design = next(d for d in document.setout.designs if d.kind == "closer")
    found = names(document.setout, design.name)
    assert set(found) == {p.mark for p in document.setout.panels if p.design == design.name}


def test_an_opening_is_found_by_the_beginning_of_its_id(document: Document) -> None:
    assert names(document.setout, "out")[0] == "outlet-1"
    assert names(document.setout, "window")[0] == "window"


@given(text=st.text(max_size=14) | st.text("ABc-0123 \u00b9\u0663", max_size=9))
def test_no_typing_breaks_it_and_all_it_finds_is_there_once(text: str) -> None:
    found = [match.where for match in matches(SETOUT, text)]
    assert len(found) == len(set(found))
    there = {f"panel {p.mark}" for p in SETOUT.panels} | {f"opening {o.id}" for o in SETOUT.room.openings}
    assert {where for where in found if not where.startswith("wall ")} <= there


def test_control_f_types_and_enter_goes_there_and_escape_gives_the_keys_back(window: Window, qtbot: QtBot) -> None:
    window.elevation.setFocus()
    qtbot.keyClick(window.elevation, Qt.Key.Key_F, CONTROL)
    finder = window.finder
    assert finder.isVisible()
    assert finder.field.hasFocus()
    qtbot.keyClicks(finder.field, "d-4-03")
    qtbot.keyClick(finder.field, Qt.Key.Key_Return)
    assert window.document.selection == "D-4-03"
    panel = window.document.selected_panel
    assert panel is not None
    left, bottom, right, top = face_box_mm(window.document.setout, panel.faces[-1])
    at = window.elevation.wall_to_screen(3, (left + right) / 2, (bottom + top) / 2)
    assert window.elevation.rect().contains(at.toPoint())
    qtbot.keyClick(finder.field, Qt.Key.Key_Escape)
    assert not finder.isVisible()
    assert window.elevation.hasFocus()
    assert window.document.selection == "D-4-03"


def test_typing_letters_adds_no_opening_and_arrows_move_none(window: Window, qtbot: QtBot) -> None:
    window.document.select("window")
    room = window.document.room
    qtbot.keyClick(window.elevation, Qt.Key.Key_F, CONTROL)
    for key in (Qt.Key.Key_D, Qt.Key.Key_O, Qt.Key.Key_Down, Qt.Key.Key_Up, Qt.Key.Key_PageDown, Qt.Key.Key_Delete):
        qtbot.keyClick(window.finder.field, key)
    assert window.document.room == room
    assert window.finder.field.text() == "do"
    assert window.document.wall == 1


def test_enter_again_goes_on_to_the_next(window: Window, qtbot: QtBot) -> None:
    qtbot.keyClick(window.elevation, Qt.Key.Key_F, CONTROL)
    finder = window.finder
    qtbot.keyClicks(finder.field, "closer")
    assert len(finder.found) > 2
    gone = []
    for _ in range(3):
        qtbot.keyClick(finder.field, Qt.Key.Key_Return)
        gone.append(f"panel {window.document.selection}")
    assert gone == [match.where for match in finder.found[:3]]
    qtbot.keyClick(finder.field, Qt.Key.Key_Down)
    qtbot.keyClick(finder.field, Qt.Key.Key_Return)
    assert f"panel {window.document.selection}" == finder.found[3].where


def test_a_click_in_the_list_goes_there(window: Window, qtbot: QtBot) -> None:
    qtbot.keyClick(window.elevation, Qt.Key.Key_F, CONTROL)
    finder = window.finder
    qtbot.keyClicks(finder.field, "A-2")
    box = finder.list.visualItemRect(finder.list.item(2))
    qtbot.mouseClick(finder.list.viewport(), Qt.MouseButton.LeftButton, pos=box.center())
    assert f"panel {window.document.selection}" == finder.found[2].where
    assert finder.field.hasFocus()


def test_nothing_found_says_so_and_enter_does_nothing(window: Window, qtbot: QtBot) -> None:
    qtbot.keyClick(window.elevation, Qt.Key.Key_F, CONTROL)
    qtbot.keyClicks(window.finder.field, "zzz")
    qtbot.keyClick(window.finder.field, Qt.Key.Key_Return)
    assert window.finder.words.text().startswith("Nothing here")
    assert window.document.selection is None


def test_the_list_follows_the_room(window: Window, qtbot: QtBot) -> None:
    qtbot.keyClick(window.elevation, Qt.Key.Key_F, CONTROL)
    qtbot.keyClicks(window.finder.field, "window")
    window.document.commit_edit(lambda room: edits.remove_opening(room, "window"), "Remove")
    assert window.finder.found == ()


def test_v_opens_the_standing_room_and_what_is_wanted_there_shows_on_the_elevation(window: Window, qtbot: QtBot) -> None:
    qtbot.keyClick(window.elevation, Qt.Key.Key_V)
    dialog = window.standing
    assert dialog is not None
    assert dialog.isVisible()
    view = dialog.view  # type: ignore[attr-defined]
    view.wanted.emit("panel C-3-04")
    assert window.document.selection == "C-3-04"
    assert "C-3-04" in view.accessibleDescription()
    qtbot.keyClick(view, Qt.Key.Key_Escape)
    assert window.standing is None


def open_menu(window: Window, pos: QPoint, reason: QContextMenuEvent.Reason = QContextMenuEvent.Reason.Mouse) -> QMenu:
    elevation = window.elevation
    QApplication.sendEvent(elevation, QContextMenuEvent(reason, pos, elevation.mapToGlobal(pos)))
    menu = window.elevation_menu.menu
    assert menu is not None
    assert menu.isVisible()
    return menu


def choose(menu: QMenu, words: str, qtbot: QtBot) -> None:
    """Choose an entry by keyboard, as someone without a mouse would."""
    action = next(a for a in menu.actions() if words in a.text().replace("&", ""))
    menu.setActiveAction(action)
    qtbot.keyClick(menu, Qt.Key.Key_Return)


def panel_pos(window: Window, mark: str) -> QPoint:
    setout = window.document.setout
    face = next(p for p in setout.panels if p.mark == mark).faces[-1]
    left, bottom, right, top = face_box_mm(setout, face)
    return window.elevation.wall_to_screen(face.wall, (left + right) / 2, (bottom + top) / 2).toPoint()


def test_the_menu_is_about_the_panel_under_the_pointer(window: Window, qtbot: QtBot) -> None:
    window.document.work_out()
    menu = open_menu(window, panel_pos(window, "A-4-05"))
    assert "A-4-05" in menu.accessibleName()
    assert window.document.selection is None
    choose(menu, "Pin it here", qtbot)
    assert window.document.selection == "A-4-05"
    assert len(window.document.room.pins) == 1
    menu = open_menu(window, panel_pos(window, "A-4-05"))
    choose(menu, "Let it go", qtbot)
    assert window.document.room.pins == ()


def test_the_menu_marks_the_panel_and_shows_its_state(window: Window, qtbot: QtBot) -> None:
    window.document.work_out()
    before = len(window.document.room.progress.panels)
    choose(open_menu(window, panel_pos(window, "A-5-06")), "Built", qtbot)
    assert len(window.document.room.progress.panels) == before + 1
    menu = open_menu(window, panel_pos(window, "A-5-06"))
    assert [a.text().replace("&", "") for a in menu.actions() if a.isChecked()] == ["Built"]
    menu.close()


def test_the_menu_deletes_the_opening_under_the_pointer(window: Window, qtbot: QtBot) -> None:
    opening = window.document.room.opening("window")
    at = window.elevation.wall_to_screen(1, opening.left_mm + 400, opening.sill_mm + 300).toPoint()
    choose(open_menu(window, at), "Delete window", qtbot)
    assert all(o.id != "window" for o in window.document.room.openings)


def test_the_menu_adds_an_opening_there(window: Window, qtbot: QtBot) -> None:
    at = window.elevation.wall_to_screen(2, 900.0, 1300.0).toPoint()
    there = window.elevation.screen_to_wall(QPointF(at))
    assert there is not None
    menu = open_menu(window, at)
    adding = next(a.menu() for a in menu.actions() if "Add here" in a.text())
    choose(adding, "Niche", qtbot)  # type: ignore[arg-type]
    made = window.document.room.openings[-1]
    assert (made.kind, made.wall, window.document.selection) == ("niche", 2, made.id)
    assert made.left_mm + made.width_mm / 2 == pytest.approx(there.x_mm, abs=1)
    assert made.sill_mm + made.height_mm / 2 == pytest.approx(there.z_mm, abs=1)
    menu.close()


def test_the_menu_key_asks_about_what_is_selected(window: Window) -> None:
    window.document.select("door")
    menu = open_menu(window, QPoint(0, 0), QContextMenuEvent.Reason.Keyboard)
    assert menu.accessibleName() == "Opening door"
    menu.close()
    window.document.select("B-3-07")
    menu = open_menu(window, QPoint(0, 0), QContextMenuEvent.Reason.Keyboard)
    assert menu.accessibleName() == "Panel B-3-07"
    menu.close()
