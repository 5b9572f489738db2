"""The first steps: shown once, laid by doing, never in the way."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import QEvent, QPointF, QSettings, Qt
from PySide6.QtWidgets import QApplication
from pytestqt.qtbot import QtBot

from app.first_steps import remembered
from app.first_steps.guide import Guide
from app.first_steps.remembered import DONE, LEFT
from app.main import open_window
from app.window import Window
from tests.app.answers import Answers
from tests.app.elevation_hand import body, drag

CONTROL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def guide(window: Window, qtbot: QtBot) -> Guide:
    window.begin_guide()
    assert window.guide is not None
    qtbot.wait(10)
    return window.guide


@pytest.fixture
def first_start(dressed: QApplication) -> Iterator[None]:  # noqa: ARG001 - settings need the application's name
    QSettings().clear()
    yield
    QSettings().clear()


def laid(guide: Guide) -> set[str]:
    return {name for name, brick in guide.bricks.items() if brick.is_laid}


@pytest.mark.usefixtures("first_start")
def test_the_very_first_start_on_the_demo_room_shows_them(tmp_path: Path, qtbot: QtBot) -> None:
    window = open_window(None, tmp_path)
    qtbot.addWidget(window)
    window.show()
    qtbot.waitUntil(lambda: window.guide is not None)
    assert window.guide is not None
    assert not window.guide.isAncestorOf(QApplication.focusWidget() or window.elevation)
    window.guide.leave.click()
    assert window.guide is None
    assert not remembered.is_wanted()


@pytest.mark.usefixtures("first_start")
def test_a_start_on_a_room_of_ones_own_does_not(demo_room_path: Path, tmp_path: Path, qtbot: QtBot) -> None:
    window = open_window(demo_room_path, tmp_path)
    qtbot.addWidget(window)
    window.show()
    qtbot.wait(50)
    assert window.guide is None


@pytest.mark.usefixtures("first_start")
def test_once_left_they_do_not_come_back_by_themselves(tmp_path: Path, qtbot: QtBot) -> None:
    QSettings().setValue(LEFT, "yes")
    window = open_window(None, tmp_path)
    qtbot.addWidget(window)
    window.show()
    qtbot.wait(50)
    assert window.guide is None
    window.actions_by_name["first_steps"].trigger()
    assert window.guide is not None


def test_once_left_nothing_of_them_answers_any_more(window: Window, guide: Guide, dressed: QApplication) -> None:
    guide.leave.click()
    dressed.sendPostedEvents(guide, QEvent.Type.DeferredDelete.value)
    window.files.pack_seen.emit()
    window.checks.go_to.emit("room")


def test_dragging_the_window_lays_the_first_brick(window: Window, guide: Guide) -> None:
    opening = window.document.room.opening("window")
    start = body(window.elevation, opening)
    drag(window.elevation, start, start + QPointF(60, 0))
    assert "drag" in laid(guide)
    assert guide.bricks["check"].isChecked() == ("board" in laid(guide))


def test_arrow_keys_do_as_well(window: Window, guide: Guide, qtbot: QtBot) -> None:
    window.document.select("window")
    qtbot.keyClick(window.elevation, Qt.Key.Key_Right)
    assert "drag" in laid(guide)


def test_the_board_is_watched_once_a_figure_has_changed(window: Window, guide: Guide) -> None:
    """To drag without a change on the board is not enough; the same drag further on is."""
    opening = window.document.room.opening("window")
    start = body(window.elevation, opening)
    assert "board" not in laid(guide)
    drag(window.elevation, start, start + QPointF(150, 60))
    assert window.board.differs
    assert "board" in laid(guide)


def test_clicking_a_check_lays_its_brick(window: Window, guide: Guide, qtbot: QtBot) -> None:
    view = window.checks.view
    place = view.visualRect(window.checks.model.index(0)).center()
    qtbot.mouseClick(view.viewport(), Qt.MouseButton.LeftButton, pos=place)
    assert laid(guide) == {"check"}


def test_other_walls_lay_the_brick_of_ones_own_room(window: Window, guide: Guide, qtbot: QtBot) -> None:
    window.plan.setFocus()
    qtbot.keyClick(window.plan, Qt.Key.Key_Left)
    assert laid(guide) == {"room"}


def test_the_print_pack_lays_its_brick_only_once_it_is_there(
    window: Window, guide: Guide, answers: Answers, tmp_path: Path
) -> None:
    window.actions_by_name["pack"].trigger()
    assert laid(guide) == set()
    answers.path = tmp_path / "pack"
    window.actions_by_name["pack"].trigger()
    assert laid(guide) == {"pack"}
    assert (tmp_path / "pack").is_dir()


def test_a_panel_that_steps_on_lays_the_last_brick(window: Window, guide: Guide, qtbot: QtBot) -> None:
    window.building.picks.choose(("D-4-02",))
    qtbot.keyClick(window.elevation, Qt.Key.Key_F)
    assert laid(guide) == {"build"}


def test_what_was_done_is_remembered(window: Window, guide: Guide, qtbot: QtBot) -> None:
    window.document.select("window")
    qtbot.keyClick(window.elevation, Qt.Key.Key_Right)
    done = laid(guide)
    window._end_guide()
    window.begin_guide()
    assert window.guide is not None
    assert laid(window.guide) == done


def test_damaged_settings_mean_that_nothing_was_done(window: Window) -> None:
    QSettings().setValue(DONE, {"drag": 1})
    window.begin_guide()
    assert window.guide is not None
    assert laid(window.guide) == set()


def test_the_guide_can_be_used_and_left_by_keyboard(window: Window, guide: Guide, qtbot: QtBot) -> None:
    first, second = list(guide.bricks.values())[:2]
    assert first.hasFocus()
    qtbot.keyClick(first, Qt.Key.Key_Right)
    assert second.isChecked()
    assert second.step.text == guide.text.text()
    qtbot.keyClick(second, Qt.Key.Key_Escape)
    assert window.guide is None
    assert window.elevation.hasFocus()


def test_escape_leaves_from_the_elevation_once_there_is_nothing_else_to_give_up(
    window: Window, guide: Guide, qtbot: QtBot
) -> None:
    window.elevation.setFocus()
    window.document.select("window")
    qtbot.keyClick(window.elevation, Qt.Key.Key_Escape)
    assert window.guide is guide
    assert window.document.selection is None
    qtbot.keyClick(window.elevation, Qt.Key.Key_Escape)
    assert window.guide is None


def test_letters_and_undo_work_while_it_shows(window: Window, guide: Guide, qtbot: QtBot) -> None:
    before = window.document.room
    brick = next(iter(guide.bricks.values()))
    qtbot.keyClick(brick, Qt.Key.Key_N)
    assert len(window.document.room.openings) == len(before.openings) + 1
    qtbot.keyClick(brick, Qt.Key.Key_Z, CONTROL)
    assert window.document.room is before


def test_what_it_points_at_can_be_pressed_through_the_frame(window: Window, guide: Guide) -> None:
    assert guide.pointer.isVisible()
    opening = window.document.room.opening("window")
    at = body(window.elevation, opening)
    inside = guide.pointer.mapFrom(window, window.elevation.mapTo(window, at.toPoint()))
    assert guide.pointer.rect().contains(inside)
    assert not guide.pointer.mask().contains(inside)
    drag(window.elevation, at, at + QPointF(40, 0))
    assert not guide.pointer.isVisible()


@pytest.mark.parametrize("name", ["drag", "board", "check", "room", "pack", "build"])
def test_every_step_points_at_a_part_that_is_there(guide: Guide, name: str) -> None:
    guide.bricks[name].click()  # type: ignore[index]
    assert guide.pointer.isVisible()
    assert guide.pointer.width() > 20


def test_when_all_are_laid_it_says_so(guide: Guide) -> None:
    for name in guide.bricks:
        guide._watching.done.emit(name)
    assert guide.is_finished
    assert "The course is laid" in guide.text.text()
