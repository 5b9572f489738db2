"""Autosaves: found where they differ from the file, never in its way, and never taken from a window that lives."""

import os
import subprocess
import sys
from pathlib import Path

import pytest

import core.recovery
from core.errors import SaveError
from core.files import load_room, save_room
from core.recovery import discard_autosave, discard_recovery, find_recovery, process_mark, write_autosave
from core.room import Room
from tests.left_behind import leave_behind


@pytest.fixture
def room(demo_room_path: Path) -> Room:
    return load_room(demo_room_path)


@pytest.fixture
def workshop(room: Room) -> Room:
    return room.model_copy(update={"name": "Workshop"})


@pytest.fixture
def path(tmp_path: Path, room: Room) -> Path:
    saved = tmp_path / "my.room.json"
    save_room(room, saved)
    return saved


def test_unsaved_work_is_found_again(tmp_path: Path, path: Path, room: Room, workshop: Room) -> None:
    leave_behind(workshop, path, tmp_path)
    found = find_recovery(path, tmp_path)
    assert found is not None
    assert (found.room, found.is_newer) == (workshop, True)
    assert load_room(path) == room


def test_an_autosave_equal_to_the_file_is_no_news(tmp_path: Path, path: Path, room: Room) -> None:
    leave_behind(room, path, tmp_path)
    assert find_recovery(path, tmp_path) is None


def test_a_file_written_after_the_autosave_is_told_apart(tmp_path: Path, path: Path, workshop: Room) -> None:
    autosave = leave_behind(workshop, path, tmp_path)
    os.utime(autosave, (0, 0))
    found = find_recovery(path, tmp_path)
    assert found is not None
    assert not found.is_newer


@pytest.mark.parametrize("damage", ["missing", "cut short"])
def test_a_lost_file_is_recovered(tmp_path: Path, path: Path, workshop: Room, damage: str) -> None:
    leave_behind(workshop, path, tmp_path)
    if damage == "missing":
        path.unlink()
    else:
        path.write_bytes(path.read_bytes()[:50])
    found = find_recovery(path, tmp_path)
    assert found is not None
    assert found.room == workshop


def test_a_room_without_a_file_autosaves_in_the_state_folder(tmp_path: Path, workshop: Room) -> None:
    state = tmp_path / "state" / "coursewright"
    autosave = leave_behind(workshop, None, state)
    assert autosave.parent == state
    found = find_recovery(None, state)
    assert found is not None
    assert found.room == workshop


def test_a_discarded_autosave_is_gone(tmp_path: Path, path: Path, workshop: Room) -> None:
    autosave = write_autosave(workshop, path, tmp_path)
    discard_autosave(path, tmp_path)
    discard_autosave(path, tmp_path)
    assert not autosave.exists()


def test_a_damaged_autosave_is_not_offered_and_not_removed(tmp_path: Path, path: Path, workshop: Room) -> None:
    autosave = leave_behind(workshop, path, tmp_path)
    autosave.write_text("{")
    assert find_recovery(path, tmp_path) is None
    assert autosave.exists()


@pytest.mark.parametrize("has_file", [True, False])
def test_work_of_a_living_process_is_offered_only_once_it_ends(
    tmp_path: Path, path: Path, workshop: Room, has_file: bool
) -> None:
    place = str(path) if has_file else ""
    code = (
        "import sys; from pathlib import Path; from core.files import load_room; from core.recovery import write_autosave;"
        "place = Path(sys.argv[1]) if sys.argv[1] else None;"
        "room = load_room(Path(sys.argv[2])).model_copy(update={'name': 'Theirs'});"
        "write_autosave(room, place, Path(sys.argv[3])); print('written', flush=True); sys.stdin.read()"
    )
    command = [sys.executable, "-c", code, place, str(path), str(tmp_path)]
    where = path if has_file else None
    root = Path(__file__).resolve().parents[2]
    with subprocess.Popen(command, cwd=root, stdin=subprocess.PIPE, stdout=subprocess.PIPE, text=True) as other:
        assert other.stdout is not None
        assert other.stdout.readline() == "written\n"
        assert find_recovery(where, tmp_path) is None
        write_autosave(workshop, where, tmp_path)
        discard_autosave(where, tmp_path)
        other.kill()
    found = find_recovery(where, tmp_path)
    assert found is not None
    assert found.room.name == "Theirs"


def test_a_number_used_again_by_a_later_process_hides_no_work(tmp_path: Path, path: Path, workshop: Room) -> None:
    leave_behind(workshop, path, tmp_path, mark=f"{os.getpid()}-1")
    assert find_recovery(path, tmp_path) is not None


def test_work_left_behind_twice_is_offered_newest_first(tmp_path: Path, path: Path, room: Room, workshop: Room) -> None:
    os.utime(leave_behind(room.model_copy(update={"name": "Older"}), path, tmp_path, mark="0-2"), (1, 1))
    leave_behind(workshop, path, tmp_path)
    names = []
    while (found := find_recovery(path, tmp_path)) is not None:
        names.append(found.room.name)
        discard_recovery(found)
    assert names == ["Workshop", "Older"]


def test_the_autosave_of_a_file_with_a_longer_name_is_not_taken_for_its_own(tmp_path: Path, path: Path, workshop: Room) -> None:
    leave_behind(workshop, path.with_name("my.room.json.room.json"), tmp_path)
    assert find_recovery(path, tmp_path) is None


def test_an_autosave_that_cannot_be_written_says_where(path: Path, workshop: Room) -> None:
    with pytest.raises(SaveError, match="cannot autosave"):
        write_autosave(workshop, None, path / "under-a-file")


def test_an_autosave_made_elsewhere_is_cleared_away_once_the_folder_takes_one_again(
    tmp_path: Path, path: Path, room: Room, workshop: Room, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Two of one process would offer older work after a crash, once the newer had been taken up."""
    state, beside = tmp_path / "state", core.recovery.replace_file

    def full(target: Path, data: bytes) -> None:
        if target.parent == path.parent:
            raise OSError(28, os.strerror(28))
        beside(target, data)

    monkeypatch.setattr(core.recovery, "replace_file", full)
    elsewhere = write_autosave(room.model_copy(update={"name": "Older"}), path, state)
    assert elsewhere.parent == state
    monkeypatch.undo()
    assert write_autosave(workshop, path, state).parent == path.parent
    assert not elsewhere.exists()


@pytest.mark.skipif(not Path("/proc/self/stat").exists(), reason="no list of processes to read")
def test_work_of_a_process_that_has_ended_is_offered_though_nobody_has_noticed_its_end(
    tmp_path: Path, path: Path, workshop: Room
) -> None:
    """Whoever started it may never ask how it ended; until then it stands in the list of processes."""
    with subprocess.Popen([sys.executable, "-c", "input()"], stdin=subprocess.PIPE) as other:
        mark = process_mark(other.pid)
        leave_behind(workshop, path, tmp_path, mark=mark)
        assert find_recovery(path, tmp_path) is None
        assert other.stdin is not None
        other.stdin.close()
        os.waitid(os.P_PID, other.pid, os.WEXITED | os.WNOWAIT)
        assert find_recovery(path, tmp_path) is not None
        other.wait()
