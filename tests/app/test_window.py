"""The window as a whole: keys, menus, checks that lead somewhere, and nothing lost on the way out."""

from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import QPoint, QSettings, Qt
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QApplication, QLabel, QMenu, QProgressBar, QToolButton
from pytestqt.qtbot import QtBot

from app import theme
from app.actions import ENTRIES
from app.cautions import cautions_html, keys_html
from app.checks import heading_text
from app.document import Document
from app.theme import contrast
from app.window import Window
from core import edits
from core.cautions import CAUTIONS
from core.setout.result import Check
from tests.app.answers import Answers

CONTROL = Qt.KeyboardModifier.ControlModifier
LAYOUT_DELAY_MS = 200
"""Longer than a list waits for further changes of its size."""
CHECKS = (
    Check("note", "fire-not-assessed", "room", "Fire behaviour is not assessed."),
    Check("error", "weak-panel", "panel D-1-02", "Too weak to lift."),
    Check("warning", "mount-no-timber", "wall C", "Two points have no timber."),
    Check("warning", "reveal", "opening outlet-1", "A wide reveal."),
)


@pytest.mark.parametrize(("key", "kind"), [("D", "door"), ("W", "window"), ("O", "outlet"), ("S", "switch"), ("N", "niche")])
def test_a_letter_adds_an_opening_to_the_current_wall_and_selects_it(window: Window, qtbot: QtBot, key: str, kind: str) -> None:
    window.document.set_wall(2)
    qtbot.keyClick(window.elevation, Qt.Key[f"Key_{key}"])
    opening = window.document.room.openings[-1]
    assert (opening.kind, opening.wall) == (kind, 2)
    assert window.document.selection == opening.id


def test_letters_typed_into_a_field_add_nothing(window: Window, qtbot: QtBot) -> None:
    line = window.inspector.room.name.line
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, "dwons")
    assert line.text() == "dwons"
    assert len(window.document.room.openings) == 3


def test_undo_and_redo_by_keys_return_the_identical_room(window: Window, qtbot: QtBot) -> None:
    before = window.document.room
    qtbot.keyClick(window.elevation, Qt.Key.Key_N)
    after = window.document.room
    qtbot.keyClick(window.elevation, Qt.Key.Key_Z, CONTROL)
    assert window.document.room is before
    qtbot.keyClick(window.elevation, Qt.Key.Key_Z, CONTROL | Qt.KeyboardModifier.ShiftModifier)
    assert window.document.room is after


def test_undo_in_a_field_after_enter_undoes_the_edit(window: Window, qtbot: QtBot) -> None:
    before = window.document.room
    window.document.select("window")
    line = window.inspector.opening.sill.line
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, "800")
    qtbot.keyClick(line, Qt.Key.Key_Return)
    assert window.document.room.opening("window").sill_mm == 800
    qtbot.keyClick(line, Qt.Key.Key_Z, CONTROL)
    assert window.document.room is before
    assert line.text() == "912 mm"


def test_full_stop_and_comma_go_round_the_openings(window: Window, qtbot: QtBot) -> None:
    seen = []
    for _ in range(4):
        qtbot.keyClick(window.elevation, Qt.Key.Key_Period)
        seen.append(window.document.selection)
    assert seen == ["outlet-1", "window", "door", "outlet-1"]
    qtbot.keyClick(window.elevation, Qt.Key.Key_Comma)
    assert window.document.selection == "door"


def test_delete_is_offered_only_for_an_opening(window: Window) -> None:
    delete = window.actions_by_name["delete"]
    assert not delete.isEnabled()
    window.document.select("window")
    assert delete.isEnabled()
    delete.trigger()
    assert [o.id for o in window.document.room.openings] == ["door", "outlet-1"]
    assert window.document.selection == "outlet-1"


def test_the_title_tells_the_room_and_whether_it_is_saved(window: Window) -> None:
    assert "Potting shed studio" in window.windowTitle()
    assert not window.isWindowModified()
    window.document.commit_edit(lambda room: edits.set_name(room, "Den"), "Rename")
    assert "Den" in window.windowTitle()
    assert window.isWindowModified()


def test_a_refused_edit_is_told_in_the_status_line(window: Window) -> None:
    window.document.commit_edit(lambda room: edits.set_wall_length(room, 1, 500), "Shorten")
    assert "move or remove the opening first" in window.statusBar().currentMessage()


def test_checks_stand_gravest_first_under_their_count(window: Window) -> None:
    window.checks.show_setout(replace(window.document.setout, checks=CHECKS))
    model = window.checks.model
    shown = [str(model.index(row).data()) for row in range(model.rowCount())]
    assert [text.split()[0] for text in shown] == ["STOP", "LOOK", "LOOK", "NOTE"]
    assert heading_text(CHECKS) == "Checks: 1 error, 2 warnings, 1 note"
    assert heading_text(()) == "Checks: nothing found"


def test_choosing_a_check_goes_to_its_place(window: Window, qtbot: QtBot) -> None:
    window.checks.show_setout(replace(window.document.setout, checks=CHECKS))
    view, model = window.checks.view, window.checks.model
    qtbot.mouseClick(view.viewport(), Qt.MouseButton.LeftButton, pos=view.visualRect(model.index(1)).center())
    assert window.document.wall == 2
    view.setFocus()
    view.setCurrentIndex(model.index(2))
    qtbot.keyClick(view, Qt.Key.Key_Return)
    assert window.document.selection == "outlet-1"
    assert window.document.wall == 0


def test_control_and_a_number_go_to_each_part(window: Window, qtbot: QtBot) -> None:
    for key, part in ((2, window.plan), (4, window.checks.view), (1, window.elevation)):
        qtbot.keyClick(window, Qt.Key(Qt.Key.Key_0.value + key), CONTROL)
        assert part.hasFocus()
    qtbot.keyClick(window, Qt.Key.Key_3, CONTROL)
    assert window.inspector.isAncestorOf(QApplication.focusWidget())


def test_no_two_actions_share_a_key() -> None:
    keys = [key for entry in ENTRIES for key in entry.keys] + ["Ctrl+Z", "Ctrl+Shift+Z", "Ctrl+Y"]
    assert len(keys) == len(set(keys))


def test_every_action_is_in_a_menu(window: Window) -> None:
    in_menus: set[QAction] = set()
    for head in window.menuBar().actions():
        in_menus |= set(head.menu().actions())  # type: ignore[attr-defined]
    assert set(window.actions_by_name.values()) | {window.undo, window.redo} <= in_menus


def test_the_strip_has_a_button_for_each_kind_and_the_wall_by_name(window: Window, qtbot: QtBot) -> None:
    buttons = {button.accessibleName(): button for button in window.findChildren(QToolButton)}
    qtbot.mouseClick(buttons["Next wall"], Qt.MouseButton.LeftButton)
    assert any(label.text().startswith("Wall B   3048 mm") for label in window.findChildren(QLabel))
    qtbot.mouseClick(buttons["Add a niche to this wall"], Qt.MouseButton.LeftButton)
    assert window.document.room.openings[-1].wall == 1
    assert buttons["Undo"].isEnabled()


def test_units_change_everywhere_by_one_key(window: Window, qtbot: QtBot) -> None:
    qtbot.keyClick(window.elevation, Qt.Key.Key_U, CONTROL)
    assert window.inspector.room.clad.line.text() == "6' 5 15/16\""


def test_a_step_makes_an_l_shaped_room(window: Window, qtbot: QtBot) -> None:
    window.document.set_wall(2)
    qtbot.keyClick(window.elevation, Qt.Key.Key_T)
    assert window.document.room.wall_count == 6


def test_closing_asks_about_unsaved_changes_and_can_be_called_off(window: Window, answers: Answers) -> None:
    window.document.commit_edit(lambda room: edits.set_name(room, "Den"), "Rename")
    answers.unsaved_answer = "cancel"
    assert not window.close()
    assert window.isVisible()
    assert answers.asked == ["unsaved Den"]
    answers.unsaved_answer = "discard"
    assert window.close()


def test_closing_an_unchanged_room_asks_nothing(window: Window, answers: Answers) -> None:
    assert window.close()
    assert answers.asked == []


def test_help_names_every_caution_and_key() -> None:
    assert all(caution in cautions_html() for caution in CAUTIONS)
    page = keys_html()
    assert all(key in page for entry in ENTRIES for key in entry.keys)


@pytest.mark.xvfb
def test_keys_reach_a_real_window(window: Window, qtbot: QtBot) -> None:
    window.activateWindow()
    qtbot.waitUntil(window.isActiveWindow)
    before = window.document.room
    qtbot.keyClick(window.elevation, Qt.Key.Key_N)
    assert window.document.room.openings[-1].kind == "niche"
    qtbot.keyClick(window.elevation, Qt.Key.Key_Z, CONTROL)
    assert window.document.room is before


def test_the_window_fits_a_small_screen_with_nothing_of_the_bench_cut_off(window: Window) -> None:
    window.resize(1280, 720)
    QApplication.processEvents()
    assert (window.width(), window.height()) == (1280, 720)
    for names in ((), ("window",), ("window", "door", "outlet-1")):
        window.document.chosen.choose(names)
        QApplication.processEvents()
        assert window.inspector.visibleRegion().boundingRect().width() == window.inspector.width()


def test_a_check_is_shown_whole(window: Window) -> None:
    window.resize(1280, 720)
    long = Check("note", "box-extension", "opening outlet-1", "Work for a licensed electrician. " * 8)
    window.checks.show_setout(replace(window.document.setout, checks=(long, CHECKS[0])))
    view, model = window.checks.view, window.checks.model
    tall, short = (view.visualRect(model.index(row)) for row in range(2))
    lines = view.fontMetrics().horizontalAdvance(long.text) / view.viewport().width()
    assert tall.height() - short.height() > (lines - 3) * view.fontMetrics().height()


def test_checks_make_room_for_one_another_when_only_the_width_changes(window: Window, qtbot: QtBot) -> None:
    check = Check("note", "box-extension", "opening outlet-1", "Work for a licensed electrician. " * 8)
    window.checks.show_setout(replace(window.document.setout, checks=(check, CHECKS[0])))
    view, model = window.checks.view, window.checks.model

    def are_apart() -> bool:
        upper, lower = (view.visualRect(model.index(row)) for row in range(2))
        return lower.top() > upper.bottom()

    qtbot.waitUntil(are_apart)
    qtbot.wait(LAYOUT_DELAY_MS)
    window.resize(1280, window.height())
    qtbot.wait(LAYOUT_DELAY_MS)
    assert are_apart()


def test_a_first_window_fits_the_screen(document: Document, tmp_path: Path, qtbot: QtBot) -> None:
    QSettings().clear()
    window = Window(document, tmp_path / "state", Answers())
    qtbot.addWidget(window)
    window.show()
    assert window.height() <= window.screen().availableSize().height()


def test_what_was_said_stays_while_menus_are_looked_through(window: Window) -> None:
    window.statusBar().showMessage("2 hung panels must come down.")
    menu = next(action.menu() for action in window.menuBar().actions() if action.menu())
    assert isinstance(menu, QMenu)
    menu.popup(window.mapToGlobal(QPoint(20, 20)))
    menu.setActiveAction(menu.actions()[1])
    QApplication.processEvents()
    menu.close()
    assert window.statusBar().currentMessage() == "2 hung panels must come down."


def test_a_closed_window_hears_nothing_when_its_history_goes(window: Window, answers: Answers) -> None:
    """Qt empties the history when it goes, and at the end of the program nobody says whether that is before the window."""
    heard: list[int] = []
    window.commands.add("outlet")
    answers.unsaved_answer = "discard"
    assert window.close()
    window.document.undo_stack.indexChanged.connect(heard.append)
    window.document.undo_stack.clear()
    assert not heard


def test_what_a_bar_of_progress_says_can_be_read_where_it_is_full(window: Window) -> None:
    bar = QProgressBar(window)
    bar.setGeometry(0, 0, 300, 24)
    bar.setValue(100)
    bar.show()
    ground = bar.grab().toImage().pixelColor(20, 12)
    assert contrast(theme.shown.ink, ground.name()) >= 4.5
