"""The trials themselves: each must notice when what it tries to break is broken."""

from pathlib import Path

import pytest

from app.endurance import damaged, edits, kills, undoing
from app.endurance.mutations import mutated
from app.endurance.rich_room import rich_room
from app.endurance.saver import FILE, version
from core.errors import CoursewrightError, RoomFileError
from core.files import room_document, room_text, save_room
from core.room import Room
from core.setout.result import SetOut


def test_the_rich_room_fills_every_section_with_something() -> None:
    written = set(room_document(rich_room()))
    assert set(Room.model_fields) - written == {"joints", "kit", "parts", "rates"} - written


def test_the_same_seed_makes_the_same_damage() -> None:
    import random

    document = room_document(rich_room())
    first, again, other = (mutated(document, random.Random(seed)) for seed in (5, 5, 6))
    assert first == again != other


@pytest.mark.parametrize("error", [ValueError("not ours"), RoomFileError("two\nlines"), RoomFileError("x" * 501)])
def test_a_file_that_is_refused_in_a_wrong_way_is_a_fault(monkeypatch: pytest.MonkeyPatch, error: Exception) -> None:
    def fail(_data: bytes) -> Room:
        raise error

    monkeypatch.setattr(damaged, "parse_room", fail)
    assert len(damaged.try_damaged_files(3, 1).faults) == 3


def test_a_version_lost_by_a_kill_is_a_fault(tmp_path: Path) -> None:
    for number in (1, 2):
        save_room(version(rich_room(), number), tmp_path / FILE)
    with pytest.raises(kills.LostError, match="holds version 2, told was 4"):
        kills._look(tmp_path, kills._Tale(saved=4), kills._Count())


def test_a_torn_backup_is_a_fault(tmp_path: Path) -> None:
    save_room(version(rich_room(), 2), tmp_path / FILE)
    (tmp_path / f"{FILE}.bak").write_text(room_text(rich_room())[:-10])
    with pytest.raises(CoursewrightError, match="not JSON"):
        kills._look(tmp_path, kills._Tale(saved=2), kills._Count())


@pytest.mark.usefixtures("qapp")
def test_an_edit_that_raises_anything_else_is_a_fault(monkeypatch: pytest.MonkeyPatch) -> None:
    def broken(_setout: SetOut, _pick: edits.Pick) -> Room:
        raise ZeroDivisionError

    monkeypatch.setattr(undoing, "RANDOM_EDITS", {"broken": (1, broken)})
    outcome = undoing.try_edits_and_undos(4, 2, 1)
    assert "ZeroDivisionError" in outcome.faults[0]
    assert not outcome.held
