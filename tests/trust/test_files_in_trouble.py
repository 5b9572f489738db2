"""Disks, folders and other programs as they go wrong: each told in one sentence, and no work lost.

Cases are common practice, no published source.
"""

import contextlib
import os
import resource
import shutil
import signal
import subprocess
import sys
from collections.abc import Callable, Iterator
from pathlib import Path

import pytest
from pytestqt.qtbot import QtBot

from app.document import Document
from app.window import Window
from core import edits
from core.errors import RoomFileError, SaveError
from core.files import BACKUP_SUFFIX, load_room, parse_room, room_text, save_room
from core.open_files import is_open_elsewhere, note_open
from core.recovery import Recovery, autosave_path, find_recovery, write_autosave
from core.room import Room
from tests.app.answers import Answers
from tests.trust.conftest import SMALL_DISK_BYTES, make_read_only

ROOT = Path(__file__).resolve().parents[2]
OTHER_WINDOW = (
    "import sys; from pathlib import Path; from core.open_files import note_open;"
    "note_open(Path(sys.argv[1]), Path(sys.argv[2])); print('open', flush=True); sys.stdin.read()"
)
DEAD_MARK = "0-1"


def rename(window: Window, name: str) -> None:
    window.document.commit_edit(lambda room: edits.set_name(room, name), "Rename")


def as_left_by_a_dead_process(autosave: Path) -> Path:
    stem = autosave.name.removesuffix(".autosave").rpartition(".")[0]
    return autosave.rename(autosave.with_name(f"{stem}.{DEAD_MARK}.autosave"))


def one_sentence(said: list[str]) -> str:
    """The only thing said, on one line; a window that says more or breaks its line fails."""
    (text,) = said
    assert "\n" not in text
    return text


def fill(folder: Path) -> Path:
    """Takes every byte that is left; returns the file that holds them."""
    ballast = folder / "ballast"
    with ballast.open("wb", buffering=0) as file, contextlib.suppress(OSError):
        while file.tell() < 2 * SMALL_DISK_BYTES:
            file.write(b"x" * 512)
    assert shutil.disk_usage(folder).free == 0
    return ballast


@pytest.fixture
def start_other_window(tmp_path: Path) -> Iterator[Callable[[Path], subprocess.Popen[str]]]:
    """Starts another process that has a file open, as a window would."""
    started: list[subprocess.Popen[str]] = []

    def start(path: Path) -> subprocess.Popen[str]:
        other = subprocess.Popen(
            [sys.executable, "-c", OTHER_WINDOW, str(path), str(tmp_path / "state")],
            cwd=ROOT,
            stdin=subprocess.PIPE,
            stdout=subprocess.PIPE,
            text=True,
        )
        started.append(other)
        assert other.stdout is not None
        assert other.stdout.readline() == "open\n"
        return other

    yield start
    for other in started:
        other.kill()
        other.communicate()


def test_a_full_disk_leaves_file_and_backup_whole_and_keeps_the_work(window: Window, answers: Answers, small_disk: Path) -> None:
    answers.path = small_disk / "den.room.json"
    for name in ("First", "Second"):
        rename(window, name)
        assert window.files.save()
    backup = answers.path.with_name(answers.path.name + BACKUP_SUFFIX)
    ballast = fill(small_disk)
    rename(window, "Third")
    assert not window.files.save()
    said = one_sentence(answers.said)
    assert "no space left on device" in said
    assert "free some space or save elsewhere" in said
    assert (load_room(answers.path).name, load_room(backup).name) == ("Second", "First")
    assert set(small_disk.iterdir()) == {answers.path, backup, ballast}
    assert window.document.is_dirty
    ballast.unlink()
    assert window.files.save()
    assert (load_room(answers.path).name, load_room(backup).name) == ("Third", "Second")


def test_work_on_a_full_disk_is_autosaved_in_the_state_folder(
    window: Window, answers: Answers, small_disk: Path, tmp_path: Path
) -> None:
    answers.path = small_disk / "den.room.json"
    window.files.save()
    fill(small_disk)
    rename(window, "Kept elsewhere")
    assert window.autosave.write_now()
    assert not autosave_path(answers.path, tmp_path / "state").exists()
    (kept,) = (tmp_path / "state").glob("*.autosave")
    as_left_by_a_dead_process(kept)
    found = find_recovery(answers.path, tmp_path / "state")
    assert found is not None
    assert (found.room.name, found.is_newer) == ("Kept elsewhere", True)


@pytest.mark.usefixtures("limit_file_size")
def test_a_file_that_may_not_grow_is_told_and_nothing_is_left_behind(room: Room, tmp_path: Path) -> None:
    """Where no disk can be mounted: the kernel refuses each write past a limit (setrlimit(2), RLIMIT_FSIZE)."""
    with pytest.raises(SaveError, match=r"den\.room\.json: cannot be saved \(file too large\).*save elsewhere"):
        save_room(room, tmp_path / "den.room.json")
    with pytest.raises(SaveError, match=r"cannot autosave.*save the room under another name"):
        write_autosave(room, tmp_path / "den.room.json", tmp_path / "state")
    _, hard = resource.getrlimit(resource.RLIMIT_FSIZE)
    resource.setrlimit(resource.RLIMIT_FSIZE, (hard, hard))
    assert [entry.name for entry in tmp_path.rglob("*") if entry.is_file()] == []


def test_a_room_in_a_read_only_folder_is_told_and_its_work_is_kept(
    window: Window, answers: Answers, small_disk: Path, tmp_path: Path
) -> None:
    answers.path = small_disk / "den.room.json"
    window.files.save()
    before = answers.path.read_bytes()
    make_read_only(small_disk)
    rename(window, "Kept elsewhere")
    assert not window.files.save()
    assert "write-protected" in one_sentence(answers.said) or "read-only" in answers.said[0]
    assert window.autosave.write_now()
    (kept,) = (tmp_path / "state").glob("*.autosave")
    assert load_room(kept).name == "Kept elsewhere"
    assert answers.path.read_bytes() == before
    answers.path = tmp_path / "elsewhere.room.json"
    assert window.files.save_as()
    assert list((tmp_path / "state").glob("*.autosave")) == []


def test_a_new_file_in_a_read_only_folder_is_refused_with_a_way_out(room: Room, small_disk: Path) -> None:
    make_read_only(small_disk)
    with pytest.raises(SaveError, match=r"cannot be saved \(read-only file system\).*folder that you may write to"):
        save_room(room, small_disk / "den.room.json")


def test_a_change_of_the_same_size_and_time_is_noticed(window: Window, answers: Answers, tmp_path: Path) -> None:
    rename(window, "Ours")
    answers.path = tmp_path / "den.room.json"
    window.files.save()
    answers.asked.clear()
    status = answers.path.stat()
    theirs = room_text(edits.set_name(window.document.room, "Yours")).encode()
    assert len(theirs) == status.st_size + 1
    answers.path.write_bytes(theirs.replace(b"Yours", b"Hers"))
    os.utime(answers.path, ns=(status.st_atime_ns, status.st_mtime_ns))
    assert (answers.path.stat().st_size, answers.path.stat().st_mtime_ns) == (status.st_size, status.st_mtime_ns)
    rename(window, "Ours again")
    assert not window.files.save()
    assert one_sentence(answers.asked) == "den.room.json was changed by another program. Replace it?"
    assert load_room(answers.path).name == "Hers"
    answers.yes = True
    assert window.files.save()
    assert load_room(answers.path.with_name(answers.path.name + BACKUP_SUFFIX)).name == "Hers"


def test_a_change_while_the_window_was_being_built_is_noticed(tmp_path: Path, room: Room, answers: Answers, qtbot: QtBot) -> None:
    path = tmp_path / "den.room.json"
    document = Document(room, path)
    save_room(edits.set_name(room, "Theirs"), path)
    window = Window(document, tmp_path / "state", answers)
    qtbot.addWidget(window)
    assert not window.files.save()
    assert "changed by another program" in one_sentence(answers.asked)
    assert load_room(path).name == "Theirs"


def test_a_file_that_was_only_touched_raises_no_question(window: Window, answers: Answers, tmp_path: Path) -> None:
    answers.path = tmp_path / "den.room.json"
    window.files.save()
    answers.asked.clear()
    os.utime(answers.path, (1, 1))
    rename(window, "Ours")
    assert window.files.save()
    assert answers.asked == []


def test_a_change_is_noticed_when_the_file_is_saved_under_another_way_of_writing_its_path(
    window: Window, answers: Answers, tmp_path: Path
) -> None:
    answers.path = tmp_path / "den.room.json"
    window.files.save()
    save_room(edits.set_name(window.document.room, "Theirs"), answers.path)
    link = tmp_path / "link.room.json"
    link.symlink_to(answers.path)
    answers.path = link
    assert not window.files.save_as()
    assert load_room(link).name == "Theirs"


def test_a_second_window_on_a_file_is_told_and_the_last_to_save_is_asked(
    window: Window, answers: Answers, tmp_path: Path, room: Room, start_other_window: Callable[[Path], subprocess.Popen[str]]
) -> None:
    path = tmp_path / "den.room.json"
    save_room(room, path)
    start_other_window(path)
    assert window.files.open_path(path)
    assert "den.room.json is open in another window" in one_sentence(answers.said)
    save_room(edits.set_name(room, "Theirs"), path)
    rename(window, "Ours")
    assert not window.files.save()
    assert load_room(path).name == "Theirs"


def test_a_file_open_in_another_window_is_saved_over_only_when_told_to(
    window: Window, answers: Answers, tmp_path: Path, room: Room, start_other_window: Callable[[Path], subprocess.Popen[str]]
) -> None:
    answers.path = tmp_path / "den.room.json"
    save_room(room, answers.path)
    start_other_window(answers.path)
    rename(window, "Ours")
    assert not window.files.save_as()
    assert answers.asked[-1] == "den.room.json is open in another window. Replace it?"
    assert load_room(answers.path) == room


def test_the_note_of_a_killed_window_tells_nobody_and_is_cleared_away(
    window: Window, answers: Answers, tmp_path: Path, room: Room, start_other_window: Callable[[Path], subprocess.Popen[str]]
) -> None:
    path = tmp_path / "den.room.json"
    save_room(room, path)
    other = start_other_window(path)
    assert is_open_elsewhere(path, tmp_path / "state")
    other.send_signal(signal.SIGKILL)
    other.wait()
    assert window.files.open_path(path)
    assert answers.said == []
    assert len(list((tmp_path / "state" / "open").iterdir())) == 1


def test_a_window_that_turns_to_another_file_lets_go_of_the_first(
    window: Window, answers: Answers, tmp_path: Path, room: Room
) -> None:
    notes = tmp_path / "state" / "open"
    for name in ("den.room.json", "shed.room.json"):
        save_room(room, tmp_path / name)
        assert window.files.open_path(tmp_path / name)
        (note,) = notes.iterdir()
        assert note.read_text().strip() == str(tmp_path / name)
    assert window.files.may_leave()
    assert list(notes.iterdir()) == []
    assert answers.said == []


def test_a_note_that_cannot_be_written_is_told_and_bars_nothing(
    window: Window, answers: Answers, tmp_path: Path, room: Room
) -> None:
    (tmp_path / "state").write_text("a file where the folder should be")
    save_room(room, tmp_path / "den.room.json")
    assert window.files.open_path(tmp_path / "den.room.json")
    assert "will not be told" in window.statusBar().currentMessage()
    with pytest.raises(SaveError, match="will not be told"):
        note_open(tmp_path / "den.room.json", tmp_path / "state")
    assert answers.said == []


def test_a_file_that_vanished_is_saved_anew_and_the_person_told(window: Window, answers: Answers, tmp_path: Path) -> None:
    answers.path = tmp_path / "den.room.json"
    window.files.save()
    answers.path.unlink()
    rename(window, "Still here")
    assert window.files.save()
    assert "den.room.json was moved or deleted by another program" in one_sentence(answers.said)
    assert load_room(answers.path).name == "Still here"


def test_a_folder_that_vanished_is_told_and_the_work_kept(window: Window, answers: Answers, tmp_path: Path) -> None:
    folder = tmp_path / "stick"
    folder.mkdir()
    answers.path = folder / "den.room.json"
    window.files.save()
    answers.path.unlink()
    folder.rmdir()
    rename(window, "Still here")
    assert window.autosave.write_now()
    assert not window.files.save()
    assert "its folder is gone, save in another" in one_sentence(answers.said)
    (kept,) = (tmp_path / "state").glob("*.autosave")
    as_left_by_a_dead_process(kept)
    found = find_recovery(answers.path, tmp_path / "state")
    assert isinstance(found, Recovery)
    assert found.room.name == "Still here"


def test_a_vanished_file_cannot_be_opened_and_the_room_shown_stays(window: Window, answers: Answers, tmp_path: Path) -> None:
    before = window.document.room
    assert not window.files.open_path(tmp_path / "gone.room.json")
    assert one_sentence(answers.said).endswith("gone.room.json: there is no such file")
    assert window.document.room is before


def test_links_that_go_in_a_circle_are_refused_on_opening_and_saving(window: Window, answers: Answers, tmp_path: Path) -> None:
    (tmp_path / "a").symlink_to(tmp_path / "b")
    (tmp_path / "b").symlink_to(tmp_path / "a")
    assert not window.files.open_path(tmp_path / "a")
    answers.path = tmp_path / "a"
    assert not window.files.save_as()
    assert all("\n" not in said for said in answers.said)
    assert len(answers.said) == 2


@pytest.mark.parametrize("name", ["x" * 235, "棚" * 75])
def test_a_file_whose_name_leaves_no_room_for_a_mark_is_autosaved_elsewhere(room: Room, tmp_path: Path, name: str) -> None:
    """Names hold at most 255 bytes (NAME_MAX, linux/limits.h), and an autosave's is longer than its file's."""
    path = tmp_path / f"{name}.room.json"
    save_room(room, path)
    written = write_autosave(edits.set_name(room, "Kept"), path, tmp_path / "state")
    assert written.parent == tmp_path / "state"
    as_left_by_a_dead_process(written)
    found = find_recovery(path, tmp_path / "state")
    assert found is not None
    assert found.room.name == "Kept"


def test_a_folder_in_the_place_of_the_backup_is_named(room: Room, tmp_path: Path) -> None:
    path = tmp_path / "den.room.json"
    save_room(room, path)
    before = path.read_bytes()
    (tmp_path / "den.room.json.bak").mkdir()
    with pytest.raises(SaveError, match=r"den\.room\.json\.bak, its backup, is a folder\); move that folder"):
        save_room(edits.set_name(room, "Den"), path)
    assert path.read_bytes() == before


def test_a_version_of_hundreds_of_digits_is_cut_short_in_the_message() -> None:
    with pytest.raises(RoomFileError, match=r"newer version of Coursewright \(format version 10{38}…") as refused:
        parse_room(b'{"format": "coursewright-room", "version": 1' + b"0" * 400 + b"}")
    assert len(str(refused.value)) < 200
