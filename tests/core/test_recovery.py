"""Autosaves: found where they differ from the file, and never in its way."""

import os
from pathlib import Path

import pytest

from core.errors import SaveError
from core.files import load_room, save_room
from core.recovery import autosave_path, discard_autosave, find_recovery, write_autosave
from core.room import Room


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
    write_autosave(workshop, path, tmp_path)
    found = find_recovery(path, tmp_path)
    assert found is not None
    assert (found.room, found.is_newer) == (workshop, True)
    assert load_room(path) == room


def test_an_autosave_equal_to_the_file_is_no_news(tmp_path: Path, path: Path, room: Room) -> None:
    write_autosave(room, path, tmp_path)
    assert find_recovery(path, tmp_path) is None


def test_a_file_written_after_the_autosave_is_told_apart(tmp_path: Path, path: Path, workshop: Room) -> None:
    autosave = write_autosave(workshop, path, tmp_path)
    os.utime(autosave, (0, 0))
    found = find_recovery(path, tmp_path)
    assert found is not None
    assert not found.is_newer


@pytest.mark.parametrize("damage", ["missing", "cut short"])
def test_a_lost_file_is_recovered(tmp_path: Path, path: Path, workshop: Room, damage: str) -> None:
    write_autosave(workshop, path, tmp_path)
    if damage == "missing":
        path.unlink()
    else:
        path.write_bytes(path.read_bytes()[:50])
    found = find_recovery(path, tmp_path)
    assert found is not None
    assert found.room == workshop


def test_a_room_without_a_file_autosaves_in_the_state_folder(tmp_path: Path, workshop: Room) -> None:
    state = tmp_path / "state" / "coursewright"
    autosave = write_autosave(workshop, None, state)
    assert autosave.parent == state
    found = find_recovery(None, state)
    assert found is not None
    assert found.room == workshop


def test_a_discarded_autosave_is_gone(tmp_path: Path, path: Path, workshop: Room) -> None:
    write_autosave(workshop, path, tmp_path)
    discard_autosave(path, tmp_path)
    discard_autosave(path, tmp_path)
    assert find_recovery(path, tmp_path) is None


def test_a_damaged_autosave_is_not_offered_and_not_removed(tmp_path: Path, path: Path) -> None:
    autosave = autosave_path(path, tmp_path)
    autosave.write_text("{")
    assert find_recovery(path, tmp_path) is None
    assert autosave.exists()


def test_an_autosave_that_cannot_be_written_says_where(path: Path, workshop: Room) -> None:
    with pytest.raises(SaveError, match="cannot autosave"):
        write_autosave(workshop, None, path / "under-a-file")
