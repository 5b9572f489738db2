"""Tracking the build with keys, mouse and scanner: every mark one edit, wherever it was made."""

from datetime import date

import pytest
from PySide6.QtCore import QPoint, QSettings, Qt
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QLineEdit, QWidget
from pytestqt.qtbot import QtBot

from app.tracking.leaf import BuildLeaf
from app.tracking.marking import WHO, find_mark
from app.window import Window
from core.crew import hanging_order, standing
from core.files import parse_room, room_text
from core.progress import STATES
from core.room import Room
from tests.core.crew.small import small_room

CONTROL, SHIFT = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier
TODAY = date(2027, 6, 1)


@pytest.fixture
def room() -> Room:
    return small_room()


@pytest.fixture
def leaf(window: Window, qtbot: QtBot) -> BuildLeaf:
    """The leaf on show, the set-out worked out in full, on a given day."""
    window.document.work_out()
    window.building.marking._today = lambda: TODAY
    shown = window.leaves.turn_to(window.build)
    assert isinstance(shown, BuildLeaf)
    qtbot.waitUntil(shown.isVisible)
    return shown


def state(window: Window, mark: str) -> str:
    return standing(window.document.setout).by_mark[mark]


def order(window: Window) -> list[str]:
    return [panel.mark for panel in hanging_order(window.document.setout)]


def states_listed(leaf: BuildLeaf) -> list[str]:
    return [row.state for row in leaf.panels.rows.rows]


def press(widget: QWidget, key: Qt.Key, modifier: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
    QTest.keyClick(widget, key, modifier)


def scan(leaf: BuildLeaf, code: str) -> None:
    """A scanner types the code and Enter."""
    leaf.desk.code.setFocus()
    QTest.keyClicks(leaf.desk.code, code)
    press(leaf.desk.code, Qt.Key.Key_Return)


def choose_rows(leaf: BuildLeaf, count: int) -> None:
    table = leaf.panels.table
    table.setFocus()
    press(table, Qt.Key.Key_Home, CONTROL)
    press(table, Qt.Key.Key_Space)
    for _ in range(count - 1):
        press(table, Qt.Key.Key_Down, SHIFT)


def test_the_list_is_in_hanging_order(window: Window, leaf: BuildLeaf) -> None:
    assert [row.mark for row in leaf.panels.rows.rows] == order(window)


def test_a_scanned_panel_steps_forward_and_the_field_is_ready_for_the_next(window: Window, leaf: BuildLeaf) -> None:
    first, second = order(window)[:2]
    scan(leaf, first)
    scan(leaf, first)
    scan(leaf, second)
    assert (state(window, first), state(window, second)) == ("checked", "built")
    assert leaf.desk.code.text() == ""
    assert leaf.desk.said.text() == f"{second}: to build, now built"
    assert window.building.picks.marks == (second,)


def test_a_code_nobody_knows_is_refused_and_notes_nothing(window: Window, leaf: BuildLeaf) -> None:
    before = window.document.room
    scan(leaf, "<b>Q-9-99</b>")
    assert window.document.room is before
    assert leaf.desk.said.text() == "Not noted. <b>Q-9-99</b>: no panel has this mark"


def test_a_scan_of_a_panel_that_hangs_takes_nothing_down(window: Window, leaf: BuildLeaf) -> None:
    mark = order(window)[0]
    for _ in range(5):
        scan(leaf, mark)
    assert state(window, mark) == "hung"
    assert "hung already" in leaf.desk.said.text()


def test_a_scan_can_mean_a_state(window: Window, leaf: BuildLeaf) -> None:
    mark = order(window)[0]
    leaf.desk.means.setFocus()
    for _ in range(3):
        press(leaf.desk.means, Qt.Key.Key_Down)
    scan(leaf, mark)
    assert state(window, mark) == "hung"


@pytest.mark.parametrize("typed", ["a-1-02", " A-1-2 ", "A 1 02", "a1/2", "A-01-002"])
def test_a_mark_typed_by_hand_is_understood(window: Window, typed: str) -> None:
    assert find_mark(window.document.work_out(), typed) == "A-1-02"


@pytest.mark.parametrize("typed", ["", "-", "A-1", "A-1-02-3", "9" * 400, "A-1-99", "Ä-1-02"])
def test_what_is_no_mark_is_no_mark(window: Window, typed: str) -> None:
    assert find_mark(window.document.work_out(), typed) is None


def test_forty_panels_are_marked_in_one_step_and_undone_in_one(window: Window, leaf: BuildLeaf) -> None:
    before, count = window.document.room, min(40, len(order(window)))
    choose_rows(leaf, count)
    press(leaf.panels.table, Qt.Key.Key_F)
    marks = order(window)[:count]
    assert {state(window, mark) for mark in marks} == {"built"}
    assert window.document.undo_stack.count() == 1
    press(leaf.panels.table, Qt.Key.Key_Z, CONTROL)
    assert window.document.room is before
    assert window.document.is_full


def test_single_keys_bring_the_chosen_panels_into_each_state(window: Window, leaf: BuildLeaf) -> None:
    choose_rows(leaf, 2)
    marks = order(window)[:2]
    for key, wanted in zip((Qt.Key.Key_2, Qt.Key.Key_3, Qt.Key.Key_4, Qt.Key.Key_5), STATES[1:], strict=True):
        press(leaf.panels.table, key)
        assert [state(window, mark) for mark in marks] == [wanted] * 2
    press(leaf.panels.table, Qt.Key.Key_F)
    press(leaf.panels.table, Qt.Key.Key_R)
    assert [state(window, mark) for mark in marks] == ["checked"] * 2


def test_a_button_marks_what_its_key_marks(window: Window, leaf: BuildLeaf) -> None:
    choose_rows(leaf, 1)
    button = next(child for child in leaf.panels.findChildren(QWidget) if child.accessibleName() == "Chosen panels: checked")
    QTest.mouseClick(button, Qt.MouseButton.LeftButton)
    assert state(window, order(window)[0]) == "checked"


def test_keys_typed_into_the_fields_mark_nothing(window: Window, leaf: BuildLeaf) -> None:
    choose_rows(leaf, 2)
    before = window.document.room
    for field in (leaf.desk.who, leaf.desk.code, leaf.panels.sought):
        field.setFocus()
        QTest.keyClicks(field, "fr12345x")
    assert window.document.room is before


@pytest.mark.usefixtures("leaf")
def test_a_step_without_a_chosen_panel_says_so(window: Window) -> None:
    press(window.elevation, Qt.Key.Key_F)
    assert "choose at least one panel" in window.statusBar().currentMessage()
    press(window.elevation, Qt.Key.Key_4)
    assert window.document.undo_stack.count() == 0


def test_who_it_was_is_kept_between_marks_and_in_the_file(window: Window, leaf: BuildLeaf) -> None:
    leaf.desk.who.setFocus()
    QTest.keyClicks(leaf.desk.who, "Ada")
    for mark in order(window)[:2]:
        scan(leaf, mark)
    again = parse_room(room_text(window.document.room).encode())
    assert [(step.on, step.by) for record in again.progress.panels for step in record.steps] == [("2027-06-01", "Ada")] * 2
    assert QSettings().value(WHO) == "Ada"
    assert leaf.panels.rows.rows[0].by == "Ada"


def test_the_list_shows_one_state_and_going_on_begins_where_the_marked_panel_was(window: Window, leaf: BuildLeaf) -> None:
    QTest.mouseClick(leaf.panels.filters.button(0), Qt.MouseButton.LeftButton)
    marks = order(window)
    choose_rows(leaf, 3)
    press(leaf.panels.table, Qt.Key.Key_2)
    assert [row.mark for row in leaf.panels.rows.rows] == marks[3:]
    press(leaf.panels.table, Qt.Key.Key_Down)
    press(leaf.panels.table, Qt.Key.Key_2)
    assert state(window, marks[3]) == "built"
    assert state(window, marks[0]) == "built"
    QTest.mouseClick(leaf.panels.filters.button(1), Qt.MouseButton.LeftButton)
    assert [row.mark for row in leaf.panels.rows.rows] == marks[:4]


def test_a_mark_is_found_by_typing_a_piece_of_it(leaf: BuildLeaf) -> None:
    leaf.panels.sought.setFocus()
    QTest.keyClicks(leaf.panels.sought, "b-2")
    shown = [row.mark for row in leaf.panels.rows.rows]
    assert shown
    assert all(mark.startswith("B-2-") for mark in shown)


def test_counts_by_state_stand_on_the_filters_and_add_up(window: Window, leaf: BuildLeaf) -> None:
    choose_rows(leaf, 3)
    press(leaf.panels.table, Qt.Key.Key_4)
    texts = [leaf.panels.filters.button(number).text() for number in range(len(STATES))]
    assert texts[3] == "hung 3"
    assert sum(int(text.rsplit(" ", 1)[1]) for text in texts) == len(order(window))


def test_control_and_clicks_on_the_elevation_choose_panels_that_the_list_shows(window: Window, leaf: BuildLeaf) -> None:
    window.elevation.fit()
    marks = []
    for number, x_mm in enumerate((60.0, 200.0, 420.0)):
        pos = window.elevation.wall_to_screen(1, x_mm, 40.0)
        panel = window.elevation.panel_at(pos)
        assert panel is not None
        marks.append(panel.mark)
        at = QPoint(round(pos.x()), round(pos.y()))
        QTest.mouseClick(window.elevation, Qt.MouseButton.LeftButton, CONTROL if number else Qt.KeyboardModifier.NoModifier, at)
    assert window.building.picks.marks == tuple(marks)
    chosen = {leaf.panels.rows.rows[index.row()].mark for index in leaf.panels.table.selectionModel().selectedRows()}
    assert chosen == set(marks)
    QTest.mouseClick(window.elevation, Qt.MouseButton.LeftButton, CONTROL, at)
    assert window.building.picks.marks == tuple(marks[:2])
    press(window.elevation, Qt.Key.Key_F)
    assert [state(window, mark) for mark in marks] == ["built", "built", "to build"]


def test_a_panel_chosen_in_the_list_is_selected_on_the_elevation(window: Window, leaf: BuildLeaf) -> None:
    choose_rows(leaf, 1)
    assert window.document.selection == order(window)[0]
    window.document.select("window")
    assert window.building.picks.marks == ()
    assert not leaf.panels.table.selectionModel().selectedRows()


def test_a_mark_brings_up_no_sketch(window: Window, leaf: BuildLeaf) -> None:
    shown: list[bool] = []
    window.document.changed.connect(lambda _setout: shown.append(window.document.is_full))
    scan(leaf, order(window)[0])
    assert shown == [True]


def test_nothing_is_marked_in_the_middle_of_a_drag(window: Window, leaf: BuildLeaf) -> None:
    window.document.preview_edit(lambda room: room.model_copy(update={"clad_height_mm": 340.0}))
    scan(leaf, "A-1-02")
    window.document.cancel()
    assert window.document.room.progress.panels == ()


def test_the_leaf_is_reached_by_a_key_and_holds_still_while_it_is_hidden(window: Window, leaf: BuildLeaf) -> None:
    window.leaves.turn_to(0)
    window.building.marking.put(order(window)[:1], "built")
    assert states_listed(leaf)[0] == "to build"
    window.elevation.setFocus()
    press(window.elevation, Qt.Key.Key_7, CONTROL)
    assert states_listed(leaf)[0] == "built"
    assert QApplication.focusWidget() is leaf.desk.code


def test_everything_in_the_leaf_that_takes_the_focus_has_a_name(leaf: BuildLeaf) -> None:
    nameless = []
    for place in range(leaf.sides.count()):
        leaf.sides.setCurrentIndex(place)
        for child in leaf.findChildren(QWidget):
            takes = child.focusPolicy() & Qt.FocusPolicy.TabFocus and child.isVisibleTo(leaf)
            inner = isinstance(child, QLineEdit) and child.objectName() == "qt_spinbox_lineedit"
            text = getattr(child, "text", None)
            if takes and not inner and not (child.accessibleName() or (callable(text) and text())):
                nameless.append(child)
    assert [type(child).__name__ for child in nameless if type(child).__name__ not in ("QTabBar", "QHeaderView")] == []


@pytest.mark.usefixtures("leaf")
def test_a_room_that_no_row_fits_has_nothing_to_build_and_says_so(window: Window) -> None:
    leaf = window.leaves.turn_to(window.build)
    assert isinstance(leaf, BuildLeaf)
    window.building.marking.put(order(window)[:4], "hung")
    window.document.commit_edit(lambda room: room.model_copy(update={"clad_height_mm": 12.0, "openings": ()}), "Flatten")
    setout = window.document.work_out()
    assert setout.panels == ()
    assert leaf.panels.rows.rows == []
    leaf.outlook.work_out()
    assert leaf.outlook.words.text() == "There is nothing to build."
    assert leaf.loose.count == 4
    assert not leaf.misfits.add.isEnabled()
    assert not leaf.stopwatch.add.isEnabled()
    assert "must come down" in window.statusBar().currentMessage()


def test_the_leaf_fits_the_window_without_scrolling(window: Window, leaf: BuildLeaf) -> None:
    window.resize(1600, 900)
    QApplication.processEvents()
    for page in range(leaf.sides.count()):
        leaf.sides.setCurrentIndex(page)
        QApplication.processEvents()
        assert (leaf.horizontalScrollBar().maximum(), leaf.verticalScrollBar().maximum()) == (0, 0)
