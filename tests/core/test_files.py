"""Room files: what is read, what is refused, and that saving loses nothing."""

import json
import os
import stat
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from core.errors import RoomFileError, SaveError
from core.files import LARGEST_FILE_BYTES, load_room, parse_room, room_document, room_text, save_room
from core.kit import Kit, MountRule, Rates
from core.room import FrameToBuild, MeasuredFrame, Opening, RegularFrame, Room


@pytest.fixture
def demo(demo_room_path: Path) -> Room:
    return load_room(demo_room_path)


@pytest.fixture
def demo_document(demo_room_path: Path) -> dict[str, Any]:
    document: dict[str, Any] = json.loads(demo_room_path.read_text())
    return document


def fault(document: Any) -> str:
    with pytest.raises(RoomFileError) as refused:
        parse_room(json.dumps(document).encode())
    return str(refused.value)


# Laws

names = st.text(st.characters(exclude_categories=["Cs"]), min_size=1, max_size=120)
lengths = st.floats(min_value=1000, max_value=20_000)
frames = st.one_of(
    st.builds(FrameToBuild, stud_mm=st.floats(20, 200)),
    st.builds(RegularFrame, mode=st.just("regular"), spacing_mm=st.floats(50, 5000), first_centre_mm=st.floats(0, 900)),
    st.just(RegularFrame(mode="regular", spacing_mm=406.4, rails_mm=(1.0,))),
    st.just(MeasuredFrame(mode="measured", centres_mm=(19.0, 430.5, 838.0), rails_mm=(300.0,))),
)
kits = st.builds(Kit, head_gap_mm=st.floats(0, 300), mounts=st.builds(MountRule, course=st.integers(1, 15)))
rates = st.builds(Rates, handling=st.floats(0, 100))


@st.composite
def rooms_to_save(draw: st.DrawFn) -> Room:
    width, depth = draw(lengths), draw(lengths)
    doors = draw(st.integers(0, 3))
    openings = tuple(
        Opening(
            id=f"door {i}", kind="door", wall=i, left_mm=draw(st.floats(0, 100)), sill_mm=0.0, width_mm=800.5, height_mm=2000.0
        )
        for i in range(doors)
    )
    return Room(
        name=draw(names),
        display_units=draw(st.sampled_from(["mm", "ft-in"])),
        corners_mm=((0.0, 0.0), (0.0, depth), (width, depth), (width, 0.0)),
        clad_height_mm=draw(st.floats(1, 12_000)),
        openings=openings,
        frames=tuple(draw(st.lists(frames, min_size=4, max_size=4) | st.just([]))),
        kit=draw(kits),
        rates=draw(rates),
    )


@given(rooms_to_save())
def test_a_room_reads_back_equal(room: Room) -> None:
    assert parse_room(room_text(room).encode()) == room


@given(st.binary(max_size=200))
def test_any_bytes_are_refused_in_one_line(data: bytes) -> None:
    with pytest.raises(RoomFileError) as refused:
        parse_room(data)
    assert len(str(refused.value).splitlines()) == 1


json_values = st.recursive(
    st.none() | st.booleans() | st.integers() | st.floats(allow_nan=False, allow_infinity=False) | st.text(),
    lambda inner: st.lists(inner, max_size=3) | st.dictionaries(st.text(max_size=5), inner, max_size=3),
    max_leaves=6,
)


@given(st.sampled_from([*Room.model_fields]), json_values)
@example("kit", {"\x85": None})
@example("name", ["\u2028"])
@example("display_units", "\u2029")
def test_any_value_of_a_field_is_read_or_refused_in_one_line(field: str, value: Any) -> None:
    document = {
        "format": "coursewright-room",
        "version": 1,
        "name": "Reading den",
        "corners_mm": [[0, 0], [0, 3000], [3000, 3000], [3000, 0]],
        "clad_height_mm": 2000,
        field: value,
    }
    data = json.dumps(document).encode()
    try:
        room = parse_room(data)
    except RoomFileError as error:
        message = str(error)
        assert field in message or "not JSON" in message
        assert len(message.splitlines()) == 1
    else:
        assert parse_room(room_text(room).encode()) == room


# What is read


def test_defaults_are_left_out_of_the_file(demo: Room) -> None:
    plain = Room(name=demo.name, corners_mm=demo.corners_mm, clad_height_mm=demo.clad_height_mm)
    keys = ["format", "version", "name", "display_units", "corners_mm", "clad_height_mm", "openings"]
    assert list(room_document(plain)) == keys


def test_the_demo_room_is_written_as_it_stands(demo: Room, demo_document: dict[str, Any]) -> None:
    assert json.loads(room_text(demo)) == demo_document


def test_a_byte_order_mark_is_no_fault(demo: Room) -> None:
    assert parse_room(b"\xef\xbb\xbf" + room_text(demo).encode()) == demo


# What is refused. Whole files are in tests/rooms/bad, tried from the command line.


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"corners_mm": [[0, 0], [0, 3048]]}, "corners_mm: found a list, should have at least 3 items, not 2"),
        ({"corners_mm": [[0, 0, 0], [0, 1], [1, 1]]}, "corners_mm.0: found a list, should have at most 2 items"),
        ({"openings": {"door": 1}}, "openings: found an object, should be a list"),
        ({"openings": ["door"]}, 'openings.0: found "door", should be an object'),
        ({"display_units": "cm"}, "display_units: found \"cm\", should be 'mm' or 'ft-in'"),
        ({"name": ""}, 'name: found "", should have at least 1 character'),
        ({"name": "x" * 200}, "should have at most 120 characters"),
        ({"version": True}, "version: found true, should be 1"),
        ({"version": 1.5}, "version: found 1.5, should be 1"),
        ({"version": 7}, "written by a newer version of Coursewright (format version 7, this one reads 1)"),
        ({"kit": {"full_courses": 2}}, "kit.full_courses: found 2, should be greater than or equal to 4"),
        ({"kit": {"mounts": {"col": 1}}}, "kit.mounts.col: unknown key; keys here are inset_pitches"),
        ({"kit": {"half_courses": 31}}, "kit: half_courses must lie"),
        ({"frames": [{"mode": "regular"}]}, "frames.0.spacing_mm: missing"),
        ({"frames": [{}]}, "frames.0.mode: missing"),
        ({"a\nkey": 1}, "a\\nkey: unknown key"),
        ({"clad_height_mm": 0}, "clad_height_mm: found 0, should be greater than 0"),
    ],
)
def test_the_fault_names_the_field_and_what_would_be_right(
    demo_document: dict[str, Any], change: dict[str, Any], words: str
) -> None:
    assert words in fault(demo_document | change)


def test_further_faults_are_counted(demo_document: dict[str, Any]) -> None:
    assert fault(demo_document | {"name": 1, "display_units": 2, "kit": 3}).endswith("(and 2 more)")


def test_a_number_beyond_all_bounds_is_refused(demo_document: dict[str, Any]) -> None:
    text = json.dumps(demo_document).replace("1980.0", "1e999")
    with pytest.raises(RoomFileError, match="clad_height_mm: found Infinity, should be a finite number"):
        parse_room(text.encode())


@pytest.mark.parametrize(
    ("data", "words"), [(b"[" * 100_000, "nested too deeply"), (b'{"a": ' + b"9" * 5000 + b"}", "thousands of digits")]
)
def test_json_that_python_cannot_hold_is_refused(data: bytes, words: str) -> None:
    with pytest.raises(RoomFileError, match=words):
        parse_room(data)


def test_a_file_too_large_for_a_room_is_refused_unread(tmp_path: Path) -> None:
    path = tmp_path / "huge.room.json"
    with path.open("wb") as file:
        file.truncate(LARGEST_FILE_BYTES + 1)
    with pytest.raises(RoomFileError, match="larger than 20 MB"):
        load_room(path)


# Saving


def test_saving_keeps_the_file_before_beside_it(tmp_path: Path, demo: Room) -> None:
    path = tmp_path / "my.room.json"
    save_room(demo, path)
    first = path.read_bytes()
    save_room(demo.model_copy(update={"name": "Workshop"}), path)
    assert load_room(path).name == "Workshop"
    assert (tmp_path / "my.room.json.bak").read_bytes() == first
    assert len(list(tmp_path.iterdir())) == 2


def test_saving_follows_links(tmp_path: Path, demo: Room) -> None:
    (tmp_path / "real").mkdir()
    link = tmp_path / "link.room.json"
    link.symlink_to(tmp_path / "real" / "my.room.json")
    save_room(demo, link)
    save_room(demo, link)
    assert link.is_symlink()
    assert {path.name for path in (tmp_path / "real").iterdir()} == {"my.room.json", "my.room.json.bak"}


def test_saving_keeps_permissions(tmp_path: Path, demo: Room) -> None:
    path = tmp_path / "my.room.json"
    save_room(demo, path)
    path.chmod(0o640)
    save_room(demo, path)
    assert stat.S_IMODE(path.stat().st_mode) == 0o640
    assert stat.S_IMODE((tmp_path / "my.room.json.bak").stat().st_mode) == 0o640


def test_a_new_file_gets_the_usual_permissions(tmp_path: Path, demo: Room) -> None:
    (tmp_path / "usual").touch()
    save_room(demo, tmp_path / "my.room.json")
    assert (tmp_path / "my.room.json").stat().st_mode == (tmp_path / "usual").stat().st_mode


@pytest.mark.parametrize("step", ["fsync", "fchmod"])
def test_a_save_that_fails_midway_leaves_the_file_whole(
    tmp_path: Path, demo: Room, monkeypatch: pytest.MonkeyPatch, step: str
) -> None:
    path = tmp_path / "my.room.json"
    save_room(demo, path)
    before = path.read_bytes()

    def fail(*_: int) -> None:
        raise OSError(28, os.strerror(28))

    monkeypatch.setattr(os, step, fail)
    with pytest.raises(SaveError, match=r"my\.room\.json: cannot be saved \(no space left on device\); nothing was changed"):
        save_room(demo.model_copy(update={"name": "Workshop"}), path)
    assert [(entry.name, entry.read_bytes()) for entry in tmp_path.iterdir()] == [("my.room.json", before)]


def test_a_folder_cannot_be_saved_over(tmp_path: Path, demo: Room) -> None:
    with pytest.raises(SaveError, match="this is a folder"):
        save_room(demo, tmp_path)


@pytest.mark.parametrize("name", ["no/such/folder.room.json", "file/under.room.json", "nul\0byte", "x" * 300])
def test_a_path_that_cannot_be_written_is_refused(tmp_path: Path, demo: Room, name: str) -> None:
    (tmp_path / "file").write_text("mine")
    with pytest.raises(SaveError, match="cannot be saved"):
        save_room(demo, tmp_path / name)
    assert [path.name for path in tmp_path.iterdir()] == ["file"]


def test_a_circle_of_links_is_refused(tmp_path: Path, demo: Room) -> None:
    (tmp_path / "a").symlink_to(tmp_path / "b")
    (tmp_path / "b").symlink_to(tmp_path / "a")
    with pytest.raises(SaveError, match="cannot be saved"):
        save_room(demo, tmp_path / "a")
    with pytest.raises(RoomFileError, match="cannot be read"):
        load_room(tmp_path / "a")


def test_a_write_protected_file_is_left_alone(tmp_path: Path, demo: Room, monkeypatch: pytest.MonkeyPatch) -> None:
    path = tmp_path / "my.room.json"
    save_room(demo, path)
    before = path.read_bytes()
    # The tests may run as root, whom no permission stops.
    monkeypatch.setattr(os, "access", lambda *_: False)
    with pytest.raises(SaveError, match="write-protected"):
        save_room(demo.model_copy(update={"name": "Workshop"}), path)
    assert path.read_bytes() == before


def test_what_a_killed_save_left_behind_goes_with_a_later_save(tmp_path: Path, demo: Room) -> None:
    path = tmp_path / "my.room.json"
    code = (
        "import os, signal, sys; from pathlib import Path; from core.files import replace_file;"
        "os.fsync = lambda _: os.kill(os.getpid(), signal.SIGKILL); replace_file(Path(sys.argv[1]), b'half')"
    )
    subprocess.run([sys.executable, "-c", code, str(path)], cwd=Path(__file__).resolve().parents[2], check=False)
    (part,) = tmp_path.iterdir()
    strange = tmp_path / ".theirs.part"
    strange.write_text("of another program")
    os.utime(strange, (1, 1))
    save_room(demo, path)
    assert set(tmp_path.iterdir()) == {path, part, strange}
    os.utime(part, (1, 1))
    save_room(demo, path)
    assert set(tmp_path.iterdir()) == {path, path.with_name("my.room.json.bak"), strange}


def test_a_save_cut_short_between_its_two_steps_has_put_the_backup_in_place_first(
    tmp_path: Path, demo: Room, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Else the room before would stand nowhere; and nothing is left lying about."""
    path = tmp_path / "my.room.json"
    save_room(demo, path)
    before = path.read_bytes()
    done: list[str] = []
    put = Path.replace

    def once(self: Path, target: Path) -> Path:
        if done:
            raise KeyboardInterrupt
        done.append(target.name)
        return put(self, target)

    monkeypatch.setattr(Path, "replace", once)
    with pytest.raises(KeyboardInterrupt):
        save_room(demo.model_copy(update={"name": "Workshop"}), path)
    assert done == ["my.room.json.bak"]
    left = {entry.name: entry.read_bytes() for entry in tmp_path.iterdir()}
    assert left == {"my.room.json": before, "my.room.json.bak": before}
