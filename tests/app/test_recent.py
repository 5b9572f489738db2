"""Files opened last: listed, remembered at once, and let go where they are missing."""

from pathlib import Path

import pytest
from PySide6.QtCore import QSettings, Qt
from pytestqt.qtbot import QtBot

from app.document import Document
from app.recent import MOST, RECENT, recent_paths, remember
from app.window import Window
from core.files import load_room, save_room
from core.room import Room
from tests.app.answers import Answers


@pytest.fixture(autouse=True)
def _nothing_remembered(dressed: object) -> None:  # noqa: ARG001 - settings need the application's name
    QSettings().clear()


@pytest.fixture
def files(room: Room, tmp_path: Path) -> list[Path]:
    made = [tmp_path / f"shed-{number}.room.json" for number in range(MOST + 2)]
    for path in made:
        save_room(room, path)
    return made


def listed(window: Window) -> list[str]:
    window.recent.aboutToShow.emit()
    return [action.text() for action in window.recent.actions() if not action.isSeparator()]


def test_the_file_opened_last_comes_first_and_eight_are_kept(window: Window, files: list[Path]) -> None:
    for path in files:
        assert window.files.open_path(path)
    assert recent_paths() == tuple(reversed(files))[:MOST]


def test_a_file_opened_again_is_listed_once_whichever_way_it_is_written(files: list[Path], tmp_path: Path) -> None:
    remember(files[0])
    remember(files[1])
    (tmp_path / "way").mkdir()
    remember(tmp_path / "way" / ".." / files[0].name)
    assert [path.name for path in recent_paths()] == [files[0].name, files[1].name]


def test_what_was_remembered_is_in_the_file_at_once(files: list[Path]) -> None:
    """A program that is killed right after opening a room has the room in its list next time."""
    remember(files[0])
    held = QSettings(QSettings().fileName(), QSettings.Format.IniFormat)
    assert str(files[0]) in str(held.value(RECENT))


@pytest.mark.parametrize("damage", [17, "", ["", 3], {"a": 1}, [None]])
def test_damaged_settings_count_as_an_empty_list(damage: object, files: list[Path]) -> None:
    QSettings().setValue(RECENT, damage)
    assert all(path.name.isdecimal() for path in recent_paths())
    remember(files[0])
    assert recent_paths()[0] == files[0]


def test_choosing_a_file_by_keyboard_opens_it(window: Window, files: list[Path], qtbot: QtBot) -> None:
    remember(files[0])
    remember(files[1])
    window.recent.popup(window.pos())
    qtbot.keyClick(window.recent, Qt.Key.Key_2)
    assert window.document.path == files[0]


def test_unsaved_work_is_asked_about_before_another_file_is_opened(
    window: Window, files: list[Path], answers: Answers, qtbot: QtBot
) -> None:
    remember(files[0])
    qtbot.keyClick(window.elevation, Qt.Key.Key_N)
    before = window.document.room
    listed(window)
    window.recent.actions()[0].trigger()
    assert answers.asked == [f"unsaved {before.name}"]
    assert window.document.room is before


def test_a_missing_file_says_so_and_goes_only_when_somebody_says_yes(window: Window, files: list[Path], answers: Answers) -> None:
    remember(files[0])
    files[0].unlink()
    assert "missing: " in listed(window)[0]
    window.recent.actions()[0].trigger()
    assert recent_paths() == (files[0],)
    answers.yes = True
    window.recent.actions()[0].trigger()
    assert recent_paths() == ()
    assert window.document.path is None


def test_all_missing_files_go_at_once_and_the_others_stay(window: Window, files: list[Path]) -> None:
    for path in files[:4]:
        remember(path)
    files[0].unlink()
    files[2].unlink()
    listed(window)
    next(action for action in window.recent.actions() if "missing off" in action.text()).trigger()
    assert recent_paths() == (files[3], files[1])
    assert not any("missing: " in text for text in listed(window))


def test_a_file_saved_under_a_new_name_is_listed(window: Window, answers: Answers, tmp_path: Path) -> None:
    answers.path = tmp_path / "saved.room.json"
    assert window.files.save_as()
    assert recent_paths() == (tmp_path / "saved.room.json",)


def test_a_file_named_on_the_command_line_is_listed(files: list[Path], answers: Answers, qtbot: QtBot) -> None:
    window = Window(Document(load_room(files[0]), files[0]), files[0].parent / "state", answers)
    qtbot.addWidget(window)
    window.files.recover_at_start()
    assert recent_paths() == (files[0],)


def test_an_ampersand_in_a_name_is_shown_as_one(window: Window, room: Room, tmp_path: Path) -> None:
    path = tmp_path / "shed & loft.room.json"
    save_room(room, path)
    remember(path)
    assert "shed && loft" in listed(window)[0]
