"""The frame's sheets: inside their frame, readable, and with every mark a carpenter needs."""

from pathlib import Path as FilePath

import pytest

from core.drawing import Path, Sheet, Text, item_box
from core.files import load_room
from core.frame import plan_of
from core.room import Opening, Room
from core.setout import solve
from core.setout.result import SetOut
from core.sheets.draft import finish
from core.sheets.frame_lists import _short
from core.sheets.frame_pages import frame_pages
from core.sheets.frames import frames
from core.units import format_length

ROOT = FilePath(__file__).resolve().parents[3]


def _workshop() -> Room:
    """Too long for one sheet a wall, in feet and inches."""
    windows = tuple(
        Opening(
            id=f"window {i}", kind="window", wall=1, left_mm=900.0 + 2500 * i, sill_mm=900.0, width_mm=1200.0, height_mm=900.0
        )
        for i in range(4)
    )
    corners = ((0.0, 0.0), (0.0, 3000.0), (12_000.0, 3000.0), (12_000.0, 0.0))
    return Room(name="Workshop", display_units="ft-in", corners_mm=corners, clad_height_mm=1980.0, openings=windows)


ROOMS = {
    "demo": lambda: load_room(ROOT / "assets" / "demo.room.json"),
    "den": lambda: load_room(ROOT / "tests" / "rooms" / "reading-den.room.json"),
    "workshop": _workshop,
}
KNOWN: dict[str, tuple[SetOut, tuple[Sheet, ...]]] = {}
every_room = pytest.mark.parametrize("name", list(ROOMS))


def pack(name: str) -> tuple[SetOut, tuple[Sheet, ...]]:
    if name not in KNOWN:
        setout = solve(ROOMS[name]())
        KNOWN[name] = setout, finish(setout.room, frame_pages(setout, plan_of(setout)), None)
    return KNOWN[name]


@every_room
def test_everything_lies_inside_the_frame_of_its_sheet(name: str) -> None:
    for sheet in pack(name)[1]:
        for item in sheet.items:
            assert sheet.paper.frame.holds(item_box(item), 0.01), (sheet.code, item)


@every_room
def test_nothing_written_is_too_small_to_read(name: str) -> None:
    for sheet in pack(name)[1]:
        small = {item.text for item in sheet.items if isinstance(item, Text) and item.height_mm < 2.5}
        assert len(small) <= 11, sheet.code


@every_room
def test_sheets_have_codes_of_their_own(name: str) -> None:
    codes = [sheet.code for sheet in pack(name)[1]]
    assert len(codes) == len(set(codes))


@every_room
def test_every_mark_of_a_wall_stands_on_its_drawing_and_its_list(name: str) -> None:
    setout, sheets = pack(name)
    units = setout.room.display_units
    for frame in plan_of(setout).walls:
        if not frame.marks:
            continue
        letter = "ABCDEF"[frame.wall]
        drawn = {i.text for s in sheets if s.code.startswith(f"frame-{letter}") and "list" not in s.code for i in _texts(s)}
        listed = {i.text for s in sheets if s.code.startswith(f"frame-{letter}-list") for i in _texts(s)}
        within = [m for m in frame.marks if m.left_mm > 0]
        assert {format_length(m.left_mm, units, with_unit=False) for m in within} <= drawn
        assert {format_length(m.left_mm, units, with_unit=False) for m in within} <= listed


def _texts(sheet: Sheet) -> list[Text]:
    return [item for item in sheet.items if isinstance(item, Text)]


@every_room
def test_the_hardware_sheet_defers_and_never_approves(name: str) -> None:
    words = " ".join(i.text for s in pack(name)[1] if s.code.startswith("hardware") for i in _texts(s))
    assert "a qualified person" in words
    assert "complies" not in words


def test_a_wall_too_long_for_a_sheet_goes_on_on_another() -> None:
    codes = {sheet.code for sheet in pack("workshop")[1]}
    assert {"frame-B-1", "frame-B-2"} <= codes


def test_no_text_on_a_drawing_covers_another() -> None:
    for name in ROOMS:
        for sheet in pack(name)[1]:
            if sheet.code.startswith("frame-") and "list" not in sheet.code:
                boxes = [(item_box(t), t.text) for t in _texts(sheet)]
                hits = [(a[1], b[1]) for i, a in enumerate(boxes) for b in boxes[:i] if a[0].overlaps(b[0], 0.3)]
                assert hits == [], (name, sheet.code)


@every_room
def test_only_the_wall_s_end_is_no_edge_of_an_upright_and_says_so(name: str) -> None:
    setout, sheets = pack(name)
    for frame in plan_of(setout).walls:
        if not frame.is_to_build:
            continue
        end = f"{format_length(setout.walls[frame.wall].length_mm, setout.room.display_units, with_unit=False)} end"
        code = f"frame-{'ABCDEF'[frame.wall]}"
        drawn = [i.text for s in sheets if s.code.startswith(code) and "list" not in s.code for i in _texts(s)]
        assert drawn.count(end) == 1
        assert end.removesuffix(" end") not in drawn


@every_room
def test_nothing_to_be_done_about_a_screw_is_cut_short(name: str) -> None:
    for sheet in pack(name)[1]:
        assert not [item.text for item in _texts(sheet) if item.text.endswith("…")], sheet.code


@every_room
def test_every_list_names_its_unit(name: str) -> None:
    setout, sheets = pack(name)
    unit = "mm" if setout.room.display_units == "mm" else "feet and inches"
    lists = [s for s in sheets if s.code.endswith("-list-1") or s.code == "timber-1"]
    assert lists
    for sheet in lists:
        assert f"Lengths in {unit}." in " ".join(item.text for item in _texts(sheet)), sheet.code


def test_a_screw_that_misses_by_a_hair_is_not_short_by_nothing() -> None:
    demo, den = pack("demo")[0], pack("den")[0]
    assert (_short(demo, 0.01), _short(demo, 1.2)) == ("0.1", "1.2")
    assert (_short(den, 0.2), _short(den, 25.4)) == ('1/16"', '1"')


@every_room
def test_what_is_said_of_one_wall_is_not_parted_by_a_rule(name: str) -> None:
    setout, _ = pack(name)
    lines = frames(setout, plan_of(setout), 120.0)
    ruled = [line for line in lines if any(isinstance(item, Path) for item in line.items)]
    assert len(ruled) == setout.room.wall_count
    assert not any(line.keeps for line in ruled)


def test_a_drawing_of_a_standing_frame_says_what_the_values_along_its_foot_are() -> None:
    setout, sheets = pack("demo")
    standing = [f.wall for f in plan_of(setout).walls if not f.is_to_build and (f.backed.blocks or f.backed.doubling)]
    told = [sheet for sheet in sheets if "LEFT ends of blocking" in " ".join(i.text for i in sheet.items if isinstance(i, Text))]
    assert standing
    assert len(told) == len(standing)
