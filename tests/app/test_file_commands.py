"""Files: what is opened, saved, autosaved and recovered, and that nothing is ever lost on the way."""

import json
import os
from pathlib import Path

import pytest
from PySide6.QtCore import QCoreApplication, Qt, QTimer
from PySide6.QtWidgets import QApplication, QMessageBox, QPushButton, QWidget
from pytestqt.qtbot import QtBot

from app.main import open_window, run_window
from app.new_room import NewRoomDialog
from app.questions import Questions, with_room_suffix
from app.window import Window
from core import edits
from core.files import load_room, save_room
from core.recovery import autosave_path
from core.room import Room
from tests.app.answers import Answers
from tests.left_behind import leave_behind

CONTROL = Qt.KeyboardModifier.ControlModifier


def rename(window: Window, name: str) -> None:
    window.document.commit_edit(lambda room: edits.set_name(room, name), "Rename")


def test_saving_a_room_without_a_file_asks_where(window: Window, answers: Answers, qtbot: QtBot, tmp_path: Path) -> None:
    answers.path = tmp_path / "den.room.json"
    rename(window, "Den")
    qtbot.keyClick(window.elevation, Qt.Key.Key_S, CONTROL)
    assert answers.asked == ["den.room.json"]
    assert load_room(answers.path) == window.document.room
    assert not window.document.is_dirty
    assert window.document.path == answers.path


def test_the_foot_names_the_file_and_leaves_its_width_to_messages(window: Window, answers: Answers, tmp_path: Path) -> None:
    answers.path = tmp_path / "den.room.json"
    window.files.save()
    assert window.foot.file.text() == "den.room.json"
    assert window.foot.file.toolTip() == str(answers.path)
    window.statusBar().showMessage("A long message. " * 20)
    assert window.statusBar().toolTip() == "A long message. " * 20


def test_a_pack_is_proposed_a_folder_of_its_own_beside_the_room(
    window: Window, answers: Answers, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    answers.path = tmp_path / "den.room.json"
    window.files.save()
    proposed: list[Path] = []
    monkeypatch.setattr(answers, "pack", lambda folder, **_choices: proposed.append(folder))
    window.files.make_pack()
    assert proposed == [tmp_path / "den-pack"]


def test_saving_again_asks_nothing(window: Window, answers: Answers, tmp_path: Path) -> None:
    answers.path = tmp_path / "den.room.json"
    window.files.save()
    answers.asked.clear()
    rename(window, "Den")
    assert window.files.save()
    assert answers.asked == []
    assert load_room(answers.path).name == "Den"


def test_a_file_changed_by_another_program_is_replaced_only_when_told_to(
    window: Window, answers: Answers, tmp_path: Path
) -> None:
    answers.path = tmp_path / "den.room.json"
    window.files.save()
    other = edits.set_name(window.document.room, "Theirs, with a longer name")
    save_room(other, answers.path)
    rename(window, "Ours")
    answers.yes = False
    assert not window.files.save()
    assert load_room(answers.path) == other
    answers.yes = True
    assert window.files.save()
    assert load_room(answers.path).name == "Ours"


def test_a_failed_save_keeps_the_changes_unsaved(window: Window, answers: Answers, tmp_path: Path) -> None:
    answers.path = tmp_path
    rename(window, "Den")
    assert not window.files.save()
    assert "folder" in answers.said[0]
    assert window.document.is_dirty


def test_opening_a_room_replaces_the_old_one(window: Window, answers: Answers, tmp_path: Path, room: Room) -> None:
    answers.path = tmp_path / "other.room.json"
    save_room(edits.set_name(room, "Other"), answers.path)
    window.files.open()
    assert window.document.room.name == "Other"
    assert window.document.path == answers.path
    assert not window.document.is_dirty


def test_a_bad_file_is_told_and_changes_nothing(window: Window, answers: Answers, rooms: Path) -> None:
    before = window.document.room
    answers.path = rooms / "bad" / "opening-outside-its-wall.room.json"
    window.files.open()
    assert len(answers.said) == 1
    assert "opening-outside-its-wall" in answers.said[0]
    assert window.document.room is before


def test_opening_over_unsaved_changes_can_be_called_off(window: Window, answers: Answers, tmp_path: Path, room: Room) -> None:
    answers.path = tmp_path / "other.room.json"
    save_room(edits.set_name(room, "Other"), answers.path)
    rename(window, "Den")
    answers.unsaved_answer = "cancel"
    window.files.open()
    assert window.document.room.name == "Den"


def test_changes_are_autosaved_without_touching_the_file(window: Window, answers: Answers, tmp_path: Path, qtbot: QtBot) -> None:
    answers.path = tmp_path / "den.room.json"
    window.files.save()
    saved = answers.path.read_bytes()
    rename(window, "Den")
    autosave = autosave_path(answers.path, tmp_path / "state")
    qtbot.waitUntil(autosave.exists)
    assert load_room(autosave).name == "Den"
    assert answers.path.read_bytes() == saved
    window.files.save()
    assert not autosave.exists()


def test_an_autosave_during_a_drag_holds_the_room_before_it(window: Window, tmp_path: Path) -> None:
    rename(window, "Den")
    before = window.document.room
    window.document.preview_edit(lambda room: edits.move_opening(room, "door", left_mm=900))
    window.autosave.write_now()
    assert load_room(autosave_path(None, tmp_path / "state")) == before
    window.document.cancel()


def test_discarding_changes_discards_their_autosave(window: Window, answers: Answers, tmp_path: Path) -> None:
    rename(window, "Den")
    window.autosave.write_now()
    assert autosave_path(None, tmp_path / "state").exists()
    answers.unsaved_answer = "discard"
    window.close()
    assert not autosave_path(None, tmp_path / "state").exists()


@pytest.mark.parametrize("taken_up", [True, False])
def test_work_left_behind_is_offered_at_the_start(
    window: Window, answers: Answers, tmp_path: Path, room: Room, taken_up: bool
) -> None:
    lost = edits.set_name(room, "Lost and found")
    left = leave_behind(lost, None, tmp_path / "state")
    answers.yes = taken_up
    window.files.recover_at_start()
    assert answers.asked == ["recover “Lost and found”"]
    assert (window.document.room == lost) is taken_up
    assert window.document.is_dirty is taken_up
    assert not left.exists()
    assert autosave_path(None, tmp_path / "state").exists() is taken_up


def test_work_left_behind_for_a_file_is_offered_on_opening_it(
    window: Window, answers: Answers, tmp_path: Path, room: Room
) -> None:
    answers.path = tmp_path / "den.room.json"
    save_room(room, answers.path)
    lost = edits.set_name(room, "Unsaved den")
    leave_behind(lost, answers.path, tmp_path / "state")
    answers.yes = True
    window.files.open()
    assert window.document.room == lost
    assert window.document.is_dirty
    assert load_room(answers.path) == room


def test_work_older_than_its_file_is_said_to_be(window: Window, answers: Answers, tmp_path: Path, room: Room) -> None:
    answers.path = tmp_path / "den.room.json"
    save_room(room, answers.path)
    os.utime(leave_behind(edits.set_name(room, "Older den"), answers.path, tmp_path / "state"), (1, 1))
    window.files.open()
    assert answers.asked == ["recover older den.room.json"]
    assert window.document.room == room


@pytest.mark.parametrize(
    ("file_is_newer", "proposed", "said"), [(True, "Keep the file", "the file was written after"), (False, "Take up", "again")]
)
def test_the_proposed_answer_keeps_whichever_is_newer(qtbot: QtBot, file_is_newer: bool, proposed: str, said: str) -> None:
    parent = QWidget()
    qtbot.addWidget(parent)
    seen: list[str] = []

    def accept_the_proposal() -> None:
        box = QApplication.activeModalWidget()
        assert isinstance(box, QMessageBox)
        button = box.defaultButton()
        assert isinstance(button, QPushButton)
        seen.extend((button.text(), box.text()))
        button.click()

    QTimer.singleShot(0, parent, accept_the_proposal)
    assert Questions(parent).recover("den.room.json", file_is_newer=file_is_newer) is not file_is_newer
    assert seen[0] == proposed
    assert said in seen[1]


def test_work_undone_is_not_offered_again(window: Window, tmp_path: Path) -> None:
    rename(window, "Den")
    window.autosave.write_now()
    window.document.undo_stack.undo()
    window.autosave.write_now()
    assert list((tmp_path / "state").iterdir()) == []


@pytest.mark.parametrize("bad", [True, False])
def test_changes_given_up_stay_autosaved_until_another_room_is_taken(
    window: Window, answers: Answers, tmp_path: Path, rooms: Path, bad: bool
) -> None:
    rename(window, "Den")
    window.autosave.write_now()
    answers.unsaved_answer = "discard"
    answers.path = rooms / "bad" / "not-json.room.json" if bad else None
    window.files.open()
    assert load_room(autosave_path(None, tmp_path / "state")).name == "Den"


def test_changes_given_up_for_another_room_are_forgotten(window: Window, answers: Answers, tmp_path: Path, room: Room) -> None:
    rename(window, "Den")
    window.autosave.write_now()
    answers.unsaved_answer = "discard"
    answers.path = tmp_path / "other.room.json"
    save_room(room, answers.path)
    window.files.open()
    assert not autosave_path(None, tmp_path / "state").exists()


def test_saving_leaves_another_windows_autosave_alone(window: Window, answers: Answers, tmp_path: Path, room: Room) -> None:
    answers.path = tmp_path / "den.room.json"
    theirs = leave_behind(edits.set_name(room, "Theirs"), answers.path, tmp_path / "state")
    rename(window, "Ours")
    assert window.files.save()
    assert load_room(theirs).name == "Theirs"


def test_the_set_out_is_exported_as_the_command_line_writes_it(window: Window, answers: Answers, tmp_path: Path) -> None:
    answers.path = tmp_path / "setout.json"
    window.files.export()
    document = json.loads(answers.path.read_text())
    assert document["tally"]["panels"] == window.document.setout.tally.panels


def test_an_export_that_cannot_be_written_is_told(window: Window, answers: Answers, tmp_path: Path) -> None:
    answers.path = tmp_path / "no such folder" / "setout.json"
    window.files.export()
    assert "cannot be written" in answers.said[0]


def test_a_new_room_is_made_from_lengths_in_any_units(qtbot: QtBot) -> None:
    dialog = NewRoomDialog("ft-in")
    qtbot.addWidget(dialog)
    dialog.show()
    dialog.lengths["width"].setText("12' 6\"")
    dialog.lengths["depth"].setText("3 m")
    qtbot.keyClick(dialog.name, Qt.Key.Key_Return)
    assert dialog.room is not None
    assert dialog.room.wall_length_mm(0) == 3000
    assert dialog.room.wall_length_mm(1) == pytest.approx(3810)
    assert dialog.room.display_units == "ft-in"


@pytest.mark.parametrize(
    ("what", "text", "said"), [("width", "wide", "width"), ("depth", "0", "wall"), ("clad height", "99 m", "clad")]
)
def test_a_new_room_that_cannot_be_is_refused_in_the_dialog(qtbot: QtBot, what: str, text: str, said: str) -> None:
    dialog = NewRoomDialog("mm")
    qtbot.addWidget(dialog)
    dialog.show()
    dialog.lengths[what].setText(text)
    dialog.accept()
    assert dialog.room is None
    assert dialog.isVisible()
    assert said in dialog.fault.text()


def test_a_new_room_takes_the_window_and_is_not_saved_yet(window: Window) -> None:
    def fill_in() -> None:
        dialog = QApplication.activeModalWidget()
        assert isinstance(dialog, NewRoomDialog)
        dialog.name.setText("Workshop")
        dialog.accept()

    QTimer.singleShot(0, window, fill_in)
    window.files.new()
    assert window.document.room.name == "Workshop"
    assert window.document.path is None
    assert window.document.is_dirty


def test_walls_drawn_stay_when_the_old_room_is_not_given_up(window: Window, answers: Answers) -> None:
    rename(window, "Not saved")
    shown: list[str] = []

    def fill_in_once() -> None:
        dialog = QApplication.activeModalWidget()
        assert isinstance(dialog, NewRoomDialog)
        shown.append(dialog.name.text())
        if len(shown) == 2:
            dialog.reject()
            return
        dialog.name.setText("Den")
        QTimer.singleShot(0, window, fill_in_once)
        dialog.accept()

    QTimer.singleShot(0, window, fill_in_once)
    window.files.new()
    assert answers.asked == ["unsaved Not saved"]
    assert shown == ["New room", "Den"]
    assert window.document.room.name == "Not saved"


def test_the_window_opens_on_the_demo_room_and_runs_until_closed(qapp: QApplication) -> None:
    def close_all() -> None:
        for widget in QApplication.topLevelWidgets():
            if isinstance(widget, Window):
                assert widget.document.room.name == "Potting shed studio"
                widget.close()

    QTimer.singleShot(50, qapp, close_all)
    QTimer.singleShot(5000, qapp, QCoreApplication.quit)
    assert run_window(None) == 0


@pytest.mark.usefixtures("qapp")
def test_a_bad_file_on_the_command_line_is_exit_status_2(rooms: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert run_window(rooms / "bad" / "not-json.room.json") == 2
    assert "not-json.room.json" in capsys.readouterr().err


def test_a_window_on_a_file_knows_its_path(qtbot: QtBot, tmp_path: Path, room: Room) -> None:
    path = tmp_path / "den.room.json"
    save_room(room, path)
    window = open_window(path, tmp_path / "state")
    qtbot.addWidget(window)
    assert window.document.path == path
    assert not window.document.is_dirty


@pytest.mark.parametrize(
    ("name", "full"),
    [("den", "den.room.json"), ("den.room.json", "den.room.json"), ("den.json", "den.json"), ("a.b", "a.b.room.json")],
)
def test_a_room_file_gets_its_suffix(name: str, full: str) -> None:
    assert with_room_suffix(Path(name)).name == full
