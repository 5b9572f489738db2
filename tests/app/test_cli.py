"""The command line: what it prints, how it refuses, and that it never touches the room file."""

import csv
import dataclasses
import gc
import io
import json
import os
import re
import subprocess
import sys
from pathlib import Path

import pytest

from app import cli, commands, second_core
from app.cli import main
from core import edits, setout
from core.crew import standing
from core.export.job_summary import job_summary_text
from core.export.schedule import schedule_text
from core.export.setout_json import setout_document
from core.files import load_room, save_room
from core.frame import plan_of
from core.setout import solve
from core.setout.result import Check
from core.whole_job import WholeJob
from tests.core.laying.stocked import square, takes, with_boxes
from tests.core.laying.test_from_stock import AMPLE

BAD_ROOMS = {
    "not-json": "line 1, column 1: not JSON",
    "cut-short": "line 2, column 54: not JSON",
    "empty": "line 1, column 1: not JSON",
    "a-list": "found a list at the top level, should be an object",
    "not-utf8": "byte 60 is not UTF-8",
    "key-twice": '"name" is given twice',
    "other-format": 'format: found "drawing", should be "coursewright-room"',
    "newer-version": "version: was written by a newer version",
    "wrong-type": 'clad_height_mm: found "1980", should be a valid number',
    "missing-key": "corners_mm: missing",
    "unknown-key": "openings.1.colour: unknown key; keys here are id, kind, wall",
    "unknown-frame": "frames.0.mode: found \"floating\", should be one of 'to_build', 'regular', 'measured' (and 3 more)",
    "not-a-number": "found NaN; every number must be finite",
    "no-end": "found Infinity; every number must be finite",
    "zero-width": "openings.1.width_mm: found 0, should be greater than 0",
    "negative-width": "openings.1.width_mm: found -912, should be greater than 0",
    "self-crossing-plan": "corners_mm: the walls cross or touch",
    "anticlockwise-plan": "corners_mm run anticlockwise; list them clockwise",
    "wall-of-no-length": "corners_mm: wall B is 0 mm long",
    "ten-kilometre-walls": "corners_mm.1.1: found 10000000, should be less than or equal to 1000000",
    "hundred-metre-walls-and-more": "corners_mm: wall A is 100001 mm long",
    "wall-shorter-than-two-legs": "wall B",
    "opening-outside-its-wall": "openings.1 (window): left_mm + width_mm = 3412 mm reaches past the end of wall B",
    "opening-on-no-wall": "openings.1 (window).wall is 4; the room has walls 0 to 3",
    "overlapping-openings": "openings.0 (door) and openings.1 (hatch) overlap on wall D",
    "two-openings-of-one-name": "openings.1 (door): this id is used twice",
    "frame-of-no-height": "frame_height_mm: found 0, should be greater than 0",
    "sill-above-the-lining": "openings.1 (window).sill_mm is 2000 mm; the lining ends at clad_height_mm = 1980 mm",
    "opening-named-like-a-mark": "openings.0 (A-1-01).id looks like a panel's mark; give the opening another name",
    "stud-beyond-its-wall": "frames.0.centres_mm.2 is 2430 mm; wall A is 2000 mm long",
    "rail-over-its-frame": "frames.1.rails_mm.1 is 2430 mm; the frame of wall B ends at 1980 mm, so no rail lies there",
    "rails-that-overlap": "frames.0.regular: rails_mm holds 900 mm and then 930 mm; list them in rising order",
    "frames-for-too-few-walls": "frames lists 1 frames; give one per wall (4) or none",
}


def assert_refused(captured: tuple[str, str], status: int, words: str) -> None:
    out, err = captured
    assert (status, out) == (2, "")
    assert err.startswith("coursewright: ")
    assert err.count("\n") == 1
    assert words in err


@pytest.mark.parametrize("name", BAD_ROOMS)
def test_a_bad_room_is_refused_in_one_line_and_left_as_it_is(rooms: Path, capsys: pytest.CaptureFixture[str], name: str) -> None:
    path = rooms / "bad" / f"{name}.room.json"
    before = path.read_bytes()
    status = main(["setout", str(path)])
    captured = capsys.readouterr()
    assert_refused(captured, status, BAD_ROOMS[name])
    assert captured.err.startswith(f"coursewright: {path}: ")
    assert path.read_bytes() == before


def test_advice_is_printed_for_every_opening_and_every_frame_to_build(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    den = edits.rectangle("Den", width_mm=1600, depth_mm=1525, clad_height_mm=310)
    path = tmp_path / "den.room.json"
    save_room(edits.add_opening(den, "outlet", 0, 300.0), path)
    assert main(["advice", str(path)]) == 0
    out = capsys.readouterr().out
    assert out.startswith("Den\n\noutlet-1, wall A: nearest changes that save work\n")
    assert "wall A, before it is built: its length divides into whole panels\n" in out
    assert "wall B, before it is built: its length does not divide into whole panels\n  1526 mm long, 74 mm shorter: " in out


def test_every_bad_room_is_tried(rooms: Path) -> None:
    assert {path.name.removesuffix(".room.json") for path in (rooms / "bad").iterdir()} == set(BAD_ROOMS)


@pytest.mark.parametrize(
    "command", [["setout"], ["setout", "--json"], ["check"], ["sheets", "--out", "{folder}/pack"], []], ids=" ".join
)
def test_every_command_refuses_a_bad_room_before_it_writes(
    rooms: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str], command: list[str]
) -> None:
    words = [word.format(folder=tmp_path) for word in command]
    status = main([*words[:1], str(rooms / "bad" / "negative-width.room.json"), *words[1:]])
    assert_refused(capsys.readouterr(), status, "openings.1.width_mm: found -912")
    assert list(tmp_path.iterdir()) == []


def test_a_room_that_is_not_there_is_refused(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status = main(["setout", str(tmp_path / "none.room.json")])
    assert_refused(capsys.readouterr(), status, "none.room.json: there is no such file")


def test_a_folder_is_no_room(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status = main(["check", str(tmp_path)])
    assert_refused(capsys.readouterr(), status, "this is a folder")


def test_a_path_under_a_file_is_no_room(demo_room_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    status = main(["setout", str(demo_room_path / "room.json")])
    assert_refused(capsys.readouterr(), status, "cannot be read (not a directory)")


@pytest.mark.parametrize("name", ["line\nbreak", "nul\0byte", "x" * 5000])
def test_an_impossible_name_is_no_room(capsys: pytest.CaptureFixture[str], name: str) -> None:
    status = main(["setout", name])
    assert_refused(capsys.readouterr(), status, "")


@pytest.mark.parametrize("command", [["demo"], ["sheets", "assets/demo.room.json"]], ids=["demo", "sheets"])
def test_sheets_are_not_written_into_a_file(
    tmp_path: Path, demo_room_path: Path, capsys: pytest.CaptureFixture[str], command: list[str]
) -> None:
    taken = tmp_path / "taken"
    taken.write_text("mine")
    arguments = [str(demo_room_path) if word.endswith(".json") else word for word in command]
    status = main([*arguments, "--out", str(taken / "pack")])
    assert_refused(capsys.readouterr(), status, "cannot be written")
    assert taken.read_text() == "mine"


@pytest.mark.parametrize(
    ("arguments", "words"),
    [
        (["setuot", "my.room.json"], "setuot is no command"),
        (["setout"], "ROOM"),
        (["sheets", "my.room.json"], "--out"),
        (["sheets", "my.room.json", "--out", ""], "--out: found an empty name; give the folder"),
        (["demo", "--out="], "--out: found an empty name; give the folder"),
        (["setout", "my.room.json", "--jsn"], "--jsn"),
        (["--what"], "--what"),
    ],
)
def test_a_wrong_command_line_is_refused_in_one_line(
    capsys: pytest.CaptureFixture[str], arguments: list[str], words: str
) -> None:
    status = main(arguments)
    assert_refused(capsys.readouterr(), status, words)


def test_the_window_needs_a_screen(
    demo_room_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in ("QT_QPA_PLATFORM", "DISPLAY", "WAYLAND_DISPLAY"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setattr(sys, "platform", "linux")
    status = main([str(demo_room_path)])
    assert_refused(capsys.readouterr(), status, "found no screen")


def test_the_schedule_counts_every_panel(demo_room_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    setout = solve(load_room(demo_room_path))
    assert main(["setout", str(demo_room_path)]) == 0
    out, err = capsys.readouterr()
    section = out.split("Panels, left to right")[1].split("\n\n")[0]
    counts = [re.split(r"\s{2,}", line.strip())[2] for line in section.splitlines()[2:]]
    assert sum(map(int, counts)) == len(setout.panels)
    assert err == ""


def test_the_schedule_ends_with_what_the_job_takes(demo_room_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    """Each figure from the account and the plan it sums up; the demo room has a crew, prices, and one item without a price."""
    job = WholeJob(solve(load_room(demo_room_path)))
    assert main(["setout", str(demo_room_path)]) == 0
    words = dict(line.strip().split("  ", 1) for line in capsys.readouterr().out.split("What it takes\n")[1].splitlines())
    bricks = setout_document(job.setout)["tally"]["bricks"]
    assert words["bricks"].strip() == f"{bricks} in panels"
    packs = sum(line.packs for order in job.purchasing.buying.orders for line in order.lines)
    assert words["to buy"].startswith(f"{packs} boxes, ")
    assert words["cost"].strip().startswith(f"EUR {job.purchasing.buying.total:.2f}, shipping included; 1 item without a price")
    assert job.crew.finish is not None
    assert f"3 people, done {job.crew.finish.on} (1 in 10 by " in words["crew"]


@pytest.mark.parametrize("cores", [1, 2])
def test_one_core_prints_what_two_print(
    cores: int, demo_room_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    """The set-out, the bonds and the crew's range come from copies of the process where there are cores for them."""
    monkeypatch.setattr(second_core, "_cores", lambda: cores)
    assert main(["setout", str(demo_room_path)]) == 0
    job = WholeJob(solve(load_room(demo_room_path)))
    assert capsys.readouterr().out == f"{schedule_text(job.hung.setout)}\n{job_summary_text(job)}\n"


def test_the_summary_owns_up_to_what_is_not_known(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    den = edits.rectangle("Den", width_mm=1600, depth_mm=1525, clad_height_mm=310)
    save_room(den, tmp_path / "den.room.json")
    assert main(["setout", str(tmp_path / "den.room.json")]) == 0
    out = capsys.readouterr().out
    assert "cost    no prices given\n" in out
    assert "hours of work left; nobody is named yet\n" in out


def test_a_stock_that_cannot_fill_a_design_is_an_error_among_the_checks(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    den = edits.rectangle("Den", width_mm=1600, depth_mm=1525, clad_height_mm=310)
    parts = tuple(part.model_copy(update={"is_stocked": part.kind != "plate"}) for part in den.parts)
    save_room(den.model_copy(update={"parts": parts}), tmp_path / "den.room.json")
    assert main(["check", str(tmp_path / "den.room.json")]) == 1
    assert "[not-bonded]" in capsys.readouterr().out
    assert main(["setout", str(tmp_path / "den.room.json")]) == 0
    assert "not bonded: " in capsys.readouterr().out


def test_the_demo_room_has_something_for_every_sheet(demo_room_path: Path) -> None:
    """Its progress must stay where this set-out has those panels: no record may be without a place."""
    setout = solve(load_room(demo_room_path))
    now = standing(setout)
    assert now.orphans == ()
    assert all(now.counts[state] for state in ("built", "checked", "hung"))
    room = setout.room
    assert room.crew.people
    assert room.stock.received
    assert all("invented" in supplier.name for supplier in room.stock.suppliers)


def test_the_schedule_speaks_the_rooms_units(rooms: Path, capsys: pytest.CaptureFixture[str]) -> None:
    main(["setout", str(rooms / "reading-den.room.json")])
    assert "8' 0\"" in capsys.readouterr().out


def test_setout_json_is_one_document(demo_room_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["setout", str(demo_room_path), "--json"]) == 0
    document = json.loads(capsys.readouterr().out)
    assert document["room"]["name"] == "Potting shed studio"
    assert len(document["panels"]) == document["tally"]["panels"] > 0


def test_the_page_about_the_json_names_every_key(demo_room_path: Path) -> None:
    page = (Path(__file__).resolve().parents[2] / "docs" / "json.md").read_text()

    def keys(value: object) -> set[str]:
        if isinstance(value, dict):
            return set(value).union(*map(keys, value.values()))
        return set().union(*map(keys, value)) if isinstance(value, list) else set()

    document = setout_document(solve(load_room(demo_room_path)))
    for design in (*document["designs"], *document["variants"]):
        del design["bricks"]
    document["room"] = None
    document["tally"]["by_kind"] = None
    assert {key for key in keys(document) if f"`{key}`" not in page} == set()


def test_check_prints_every_check_and_fails_on_errors_only(demo_room_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    setout = solve(load_room(demo_room_path))
    checks = WholeJob(setout).checks
    assert {*setout.checks, *plan_of(setout, WholeJob(setout).masses_kg).checks} == set(checks)
    status = main(["check", str(demo_room_path)])
    out = capsys.readouterr().out
    assert all(check.text in out for check in checks)
    assert status == int(any(check.level == "error" for check in checks))


def test_check_fails_where_a_check_is_an_error(
    demo_room_path: Path, capsys: pytest.CaptureFixture[str], monkeypatch: pytest.MonkeyPatch
) -> None:
    error = Check("error", "test-code", "wall A", "nothing holds this wall")
    monkeypatch.setattr(setout, "solve", lambda room: dataclasses.replace(solve(room), checks=(error,)))
    assert main(["check", str(demo_room_path)]) == 1
    assert "error: wall A: nothing holds this wall [test-code]" in capsys.readouterr().out


def test_the_demo_does_the_whole_job(tmp_path: Path, demo_room_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    out = tmp_path / "new" / "demo-pack"
    assert main(["demo", "--out", str(out)]) == 0
    setout = solve(load_room(demo_room_path))
    assert load_room(out / "demo.room.json") == setout.room
    assert json.loads((out / "setout.json").read_text())["tally"]["panels"] == len(setout.panels)
    lines = list(csv.DictReader(io.StringIO((out / "panels.csv").read_text())))
    assert [line["mark"] for line in lines] == [panel.mark for panel in setout.panels]
    assert list(out.glob("*.pdf"))
    assert str(out) in capsys.readouterr().out.splitlines()[-1]


def test_the_panel_list_runs_by_wall_then_row_then_place(tmp_path: Path, demo_room_path: Path) -> None:
    assert main(["sheets", str(demo_room_path), "--out", str(tmp_path)]) == 0
    lines = list(csv.DictReader(io.StringIO((tmp_path / "panels.csv").read_text())))
    places = [(line["wall"], int(line["row"]), float(line["left_mm"])) for line in lines if line["mark"][0] == line["wall"]]
    assert len(places) > 40
    assert places == sorted(places)


def test_sheets_names_what_it_wrote(tmp_path: Path, demo_room_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["sheets", str(demo_room_path), "--out", str(tmp_path)]) == 0
    paths = [Path(line) for line in capsys.readouterr().out.splitlines()]
    assert paths
    assert all(path.stat().st_size > 0 for path in paths)


def _stocked(path: Path, **counts: int) -> Path:
    """A small room with plenty of every part but those named, written to a file."""
    setout = solve(square())
    short = {name.replace("_", " "): number for name, number in counts.items()}
    save_room(with_boxes(setout, AMPLE | short).room, path)
    return path


def test_stock_that_does_is_said_in_the_last_line_with_status_0(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = _stocked(tmp_path / "room.json", brick_2x4=takes(solve(square()))["brick 2x4"] - 200)
    before = path.read_bytes()
    assert main(["stock", str(path)]) == 0
    out = capsys.readouterr().out
    assert re.search(r"^The stock does for all \d+ panels still to build, \d+ of them otherwise than their design\.$", out, re.M)
    assert re.search(r", bond B, \d+ panels? \(A-1-", out)
    assert path.read_bytes() == before


def test_stock_says_which_size_runs_out_at_which_panel_with_status_1(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = _stocked(tmp_path / "room.json", plug=10)
    assert main(["stock", str(path)]) == 1
    assert re.search(r"^plug runs out at panel A-1-\d\d \(.*\): 2 more are needed\.", capsys.readouterr().out, re.M)


def test_stock_as_json_adds_up(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = _stocked(tmp_path / "room.json", plug=10)
    assert main(["stock", str(path), "--json"]) == 1
    found = json.loads(capsys.readouterr().out)
    assert set(found) == {
        "room", "is_enough", "shortage", "panels", "beyond", "coloured", "uncounted", "parts", "bonds",
    }  # fmt: skip
    assert not found["is_enough"]
    assert found["shortage"]["part"] == "plug"
    assert found["shortage"]["mark"] == found["beyond"][0]
    assert found["panels"]["laid"] + len(found["beyond"]) == found["panels"]["to_build"]
    assert sum(len(bond["marks"]) for bond in found["bonds"]) == found["panels"]["laid"]
    for line in found["parts"]:
        laid = sum(bond["bricks"].get(line["part"], 0) * len(bond["marks"]) for bond in found["bonds"])
        assert line["part"] == "plug" or laid == line["laid"]
        assert line["left"] == line["on_hand"] - line["laid"] >= 0


def test_a_stock_without_any_usable_size_is_refused_in_one_line(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = _stocked(tmp_path / "room.json", **{f"brick_2x{length}": 0 for length in (1, 2, 3, 4)})
    status = main(["stock", str(path)])
    assert_refused(capsys.readouterr(), status, "of no brick there is one left on hand")
    status = main(["sheets", str(path), "--from-stock", "--out", str(tmp_path / "pack")])
    assert_refused(capsys.readouterr(), status, "of no brick there is one left on hand")
    assert not (tmp_path / "pack").exists()


def test_sheets_from_the_stock_say_whether_it_does(tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> None:
    path = _stocked(tmp_path / "room.json", plug=10)
    assert main(["sheets", str(path), "--from-stock", "--out", str(tmp_path / "pack")]) == 1
    captured = capsys.readouterr()
    assert "plug runs out at panel A-1-" in captured.err
    assert str(tmp_path / "pack" / "pack.pdf") in captured.out
    kits = list(csv.DictReader(io.StringIO((tmp_path / "pack" / "kitting.csv").read_text())))
    assert {"round", "bench", "marks", "item", "colour", "count"} == set(kits[0])


def run(*arguments: str, code: str = "") -> subprocess.CompletedProcess[str]:
    """The program in a process of its own."""
    start = ["-c", code] if code else ["-m", "app"]
    root = Path(__file__).resolve().parents[2]
    return subprocess.run([sys.executable, *start, *arguments], capture_output=True, text=True, cwd=root, check=False, timeout=60)


def test_setout_works_without_qt(demo_room_path: Path) -> None:
    code = (
        "import sys; from app.cli import main; status = main(['setout', sys.argv[1]]);"
        "sys.exit(status or any(name.startswith(('PySide6', 'shiboken6')) for name in sys.modules))"
    )
    assert run(str(demo_room_path), code=code).returncode == 0


def test_the_program_ends_with_the_status_and_no_traceback(rooms: Path) -> None:
    done = run("setout", str(rooms / "bad" / "unknown-key.room.json"))
    assert_refused((done.stdout, done.stderr), done.returncode, "openings.1.colour: unknown key")


def test_a_reader_that_leaves_early_is_no_fault(demo_room_path: Path) -> None:
    root = Path(__file__).resolve().parents[2]
    reader, writer = os.pipe()
    os.close(reader)
    try:
        done = subprocess.run(
            [sys.executable, "-m", "app", "setout", "--json", str(demo_room_path)],
            stdout=writer,
            stderr=subprocess.PIPE,
            text=True,
            cwd=root,
            check=False,
            timeout=60,
        )
    finally:
        os.close(writer)
    assert (done.returncode, done.stderr) == (141, "")


@pytest.mark.skipif(not Path("/dev/full").exists(), reason="needs a device that is always full")
@pytest.mark.parametrize("command", [("setout",), ("setout", "--json"), ("check",)])
def test_output_that_cannot_be_written_is_told_in_one_line(demo_room_path: Path, command: tuple[str, ...]) -> None:
    root = Path(__file__).resolve().parents[2]
    with Path("/dev/full").open("w") as full:
        done = subprocess.run(
            [sys.executable, "-m", "app", *command, str(demo_room_path)],
            stdout=full,
            stderr=subprocess.PIPE,
            text=True,
            cwd=root,
            check=False,
            timeout=60,
        )
    assert (done.returncode, done.stderr) == (2, "coursewright: the output cannot be written (no space left on device)\n")


def test_closed_output_is_no_fault(demo_room_path: Path) -> None:
    root = Path(__file__).resolve().parents[2]
    shell = 'exec "$0" -m app check "$1" >&-'
    done = subprocess.run(
        ["sh", "-c", shell, sys.executable, str(demo_room_path)],
        capture_output=True,
        text=True,
        cwd=root,
        check=False,
        timeout=60,
    )
    assert (done.returncode, done.stderr) == (0, "")


def test_every_command_can_be_run() -> None:
    assert set(commands.RUN) == set(cli.COMMANDS)


def test_a_command_line_is_refused_without_loading_what_it_would_have_needed() -> None:
    code = (
        "import sys; from app.cli import main; status = main(['setout']);"
        "sys.exit(status != 2 or bool({'numpy', 'pydantic'} & set(sys.modules)))"
    )
    assert run(code=code).returncode == 0


def test_version_names_the_program() -> None:
    done = run("--version")
    assert done.returncode == 0
    assert done.stdout.startswith("coursewright ")


def test_a_command_leaves_the_collector_of_garbage_as_it_found_it(capsys: pytest.CaptureFixture[str]) -> None:
    before = gc.get_threshold()
    assert main(["check", "no such room"]) == cli.EXIT_BAD_INPUT
    assert main(["check", str(commands.asset(commands.DEMO_ROOM))]) == 0
    capsys.readouterr()
    assert gc.get_threshold() == before


class GnuLibrary:
    """Stands in for a C library that notes what it is asked to set."""

    def __init__(self) -> None:
        self.asked: list[tuple[int, int]] = []

    def mallopt(self, setting: int, value: int) -> int:
        self.asked.append((setting, value))
        return 1


def test_a_command_has_freed_memory_kept(demo_room_path: Path, monkeypatch: pytest.MonkeyPatch) -> None:
    """The settings' numbers are those of the GNU C library's malloc.h, the value the most that mallopt(3) takes."""
    library = GnuLibrary()
    monkeypatch.setattr("ctypes.CDLL", lambda _name: library)
    assert main(["check", str(demo_room_path)]) == 0
    assert library.asked == [(-1, 32 * 1024 * 1024), (-3, 32 * 1024 * 1024)]


@pytest.mark.parametrize("library", [lambda _name: object(), None])
def test_a_library_that_has_no_such_settings_is_no_error(
    library: object, demo_room_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    monkeypatch.setattr("ctypes.CDLL", library)
    assert main(["check", str(demo_room_path)]) == 0
    assert capsys.readouterr().err == ""
