"""What every sheet of every pack must hold to, on rooms with every kind of panel."""

import re
from collections.abc import Iterator
from dataclasses import replace
from datetime import date
from functools import cache
from itertools import combinations, pairwise
from pathlib import Path as FilePath

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.drawing import Circle, Path, Sheet, Text, item_box
from core.drawing.items import TEXT_HEIGHTS_MM
from core.drawing.lettering import wrap
from core.files import load_room
from core.frame import as_hung, plan_of
from core.room import Opening, Room, wall_letter
from core.setout import solve
from core.setout.metric import z_mm
from core.setout.result import SetOut
from core.sheets import sheets_for
from core.sheets.elevation import note_of, views
from core.sheets.elevation_dimensions import LABEL_MM
from core.sheets.joints import rows_words
from core.sheets.placing import meets
from core.sheets.running import HEIGHT_MM, spread
from core.sheets.view import View, faces_on, joints_in
from tests.core.handmade import handmade

ROOT = FilePath(__file__).resolve().parents[2]
MARK = re.compile(r"[A-Z]+-\d+-\d\d+")
LEAST_READABLE_MM = 2.5
FIELD_LABELS = {
    *("Legal owner", "Approved by", "Creator", "Document type", "Title", "Identification number"),
    *("Room", "Scale", "Date of issue", "Sheet"),
}


def _demo() -> Room:
    return load_room(ROOT / "assets" / "demo.room.json")


def _den() -> Room:
    return load_room(ROOT / "tests" / "rooms" / "reading-den.room.json")


def _workshop() -> Room:
    """Long and tall enough to need several sheets a wall, with a name no title block can hold."""
    windows = tuple(
        Opening(
            id=f"window {i}", kind="window", wall=1, left_mm=900.0 + 2500 * i, sill_mm=900.0, width_mm=1200.0, height_mm=1300.0
        )
        for i in range(3)
    )
    return Room(
        name="Workshop with a name that goes on and on until the title block can take no more of it",
        corners_mm=((0.0, 0.0), (0.0, 4000.0), (8600.0, 4000.0), (8600.0, 0.0)),
        clad_height_mm=5200.0,
        openings=windows,
    )


def _bay() -> Room:
    """Slanting walls, and openings too small for their labels."""
    boxes = (
        Opening(id="outlet", kind="outlet", wall=2, left_mm=400.0, sill_mm=300.0, width_mm=60.0, height_mm=100.0),
        Opening(id="switch by the door", kind="switch", wall=3, left_mm=300.0, sill_mm=1100.0, width_mm=60.0, height_mm=100.0),
    )
    corners = (
        (0.0, 900.0),
        (0.0, 2100.0),
        (900.0, 3000.0),
        (2100.0, 3000.0),
        (3000.0, 2100.0),
        (3000.0, 900.0),
        (2100.0, 0.0),
        (900.0, 0.0),
    )
    return Room(name="Bay", corners_mm=corners, clad_height_mm=2400.0, openings=boxes)


@cache
def _setout(name: str) -> SetOut:
    if name == "demo":
        return solve(_demo())
    if name == "den":
        return solve(_den())
    if name == "demo by hand":
        return handmade(_demo())
    if name == "demo in feet":
        return solve(_demo().model_copy(update={"display_units": "ft-in"}))
    if name == "den by hand":
        return handmade(_den())
    if name == "workshop by hand":
        return handmade(_workshop(), closing_courses=3)
    return handmade(_bay(), width=30)


@cache
def _sheets(name: str) -> tuple[Sheet, ...]:
    return sheets_for(_setout(name), issued=date(2026, 3, 1))


NAMES = ("demo", "demo in feet", "den", "demo by hand", "den by hand", "workshop by hand", "bay by hand")
every_room = pytest.mark.parametrize("name", NAMES)


def _views(setout: SetOut, wall: int) -> list[View]:
    """The views that the pack draws, with what is said of the frame above them."""
    return views(setout, wall, note_of(setout, plan_of(setout).walls[wall]))


def _texts(sheet: Sheet) -> list[Text]:
    return [item for item in sheet.items if isinstance(item, Text)]


def _elevations(name: str) -> Iterator[tuple[int, list[Sheet]]]:
    for shell in _setout(name).walls:
        code = re.compile(rf"elevation-{wall_letter(shell.wall)}(-\d+)?")
        yield shell.wall, [sheet for sheet in _sheets(name) if code.fullmatch(sheet.code)]


@every_room
@pytest.mark.slow
def test_no_two_texts_overlap(name: str) -> None:
    for sheet in _sheets(name):
        boxes = sorted(((item_box(text), text.text) for text in _texts(sheet)), key=lambda pair: pair[0].left)
        for (first, one), (second, other) in combinations(boxes, 2):
            assert not first.overlaps(second, 0.01), f"{sheet.code}: {one!r} and {other!r} at {first}"


@every_room
def test_nothing_leaves_the_frame(name: str) -> None:
    for sheet in _sheets(name):
        for item in sheet.items:
            assert sheet.paper.frame.holds(item_box(item), 1e-6), f"{sheet.code}: {item}"


@every_room
def test_elevations_bear_every_mark_of_their_wall_and_no_other(name: str) -> None:
    for wall, sheets in _elevations(name):
        shown = {text.text for sheet in sheets for text in _texts(sheet) if MARK.fullmatch(text.text)}
        assert shown == {panel.mark for panel, _ in faces_on(_setout(name), wall)}


@every_room
def test_no_sheet_bears_a_mark_twice(name: str) -> None:
    for _, sheets in _elevations(name):
        for sheet in sheets:
            marks = [text.text for text in _texts(sheet) if MARK.fullmatch(text.text)]
            assert len(marks) == len(set(marks))


@every_room
def test_ink_is_grey_and_letters_are_readable(name: str) -> None:
    """Black-and-white safety is built in: an item has no colour but a grey, and only labels of title fields are smaller."""
    for sheet in _sheets(name):
        for item in sheet.items:
            greys = [item.grey] if isinstance(item, Text) else [item.fill, item.pen.grey if item.pen else None]
            assert all(grey is None or 0.0 <= grey <= 1.0 for grey in greys)
        small = {text.text for text in _texts(sheet) if text.height_mm < LEAST_READABLE_MM}
        assert small <= FIELD_LABELS
        assert all(text.height_mm in TEXT_HEIGHTS_MM for text in _texts(sheet))


@every_room
def test_panel_schedule_lists_every_mark_once(name: str) -> None:
    listed = [text.text for sheet in _sheets(name) if sheet.code.startswith("panels-") for text in _texts(sheet)]
    assert sorted(text for text in listed if MARK.fullmatch(text)) == sorted(panel.mark for panel in _setout(name).panels)


@every_room
def test_every_page_of_the_schedule_repeats_the_head(name: str) -> None:
    for sheet in _sheets(name):
        if sheet.code.startswith("panels-"):
            assert {"mark", "design", "points", "hung"} <= {text.text for text in _texts(sheet)}


@every_room
def test_sheets_are_numbered_through(name: str) -> None:
    sheets = _sheets(name)
    for number, sheet in enumerate(sheets, start=1):
        assert f"{number} / {len(sheets)}" in {text.text for text in _texts(sheet)}
    assert len({sheet.code for sheet in sheets}) == len(sheets)


@every_room
def test_drawn_panels_have_their_size_at_the_scale(name: str) -> None:
    setout = _setout(name)
    kit = setout.room.kit
    for wall, sheets in _elevations(name):
        for sheet, view in zip(sheets, _views(setout, wall), strict=True):
            assert view.scale.title in {text.text for text in _texts(sheet)}
            outlines = {
                tuple((round(x, 6), round(y, 6)) for x, y in item.points)
                for item in sheet.items
                if isinstance(item, Path) and item.closed
            }
            start = setout.walls[wall].start_mm
            for panel, face in faces_on(setout, wall):
                if (
                    panel.row not in view.part.row_numbers
                    or start + face.right * 8 <= view.part.from_mm
                    or start + face.left * 8 >= view.part.to_mm
                ):
                    continue
                points = [view.point((start + x * kit.pitch_mm, z_mm(kit, z))) for x, z in face.outline]
                assert tuple((round(x, 6), round(y, 6)) for x, y in points) in outlines, panel.mark
                width = max(x for x, _ in points) - min(x for x, _ in points)
                assert width == pytest.approx((face.right - face.left) * kit.pitch_mm / view.scale.factor)


def _floor_rows(sheet: Sheet, wall: int) -> dict[str, set[float]]:
    """Values along the floor by the name of their line, in millimetres; for rooms that show millimetres."""
    view = next(view for view in _views(_setout_of(sheet), wall) if view.part.code == sheet.code)
    texts = [text for text in _texts(sheet) if text.at[1] > view.field.bottom]
    names = sorted((text for text in texts if re.match(r"rows? \d|frame", text.text)), key=lambda text: text.at[1])
    ends = [*(name.at[1] for name in names[1:]), sheet.paper.frame.bottom - 30]
    found: dict[str, set[float]] = {}
    for name, end in zip(names, ends, strict=True):
        beside = [text for text in texts if name.at[1] <= text.at[1] < end]
        words = sorted((text.at[1], text.text) for text in beside if text.at[0] == name.at[0])
        values = {float(text.text) for text in beside if re.fullmatch(r"[\d.]+", text.text) and text.at[0] > name.at[0]}
        found[" ".join(word for _, word in words)] = values
    return found


def _setout_of(sheet: Sheet) -> SetOut:
    return next(_setout(name) for name in NAMES if any(one is sheet for one in _sheets(name)))


def test_every_row_of_a_wall_has_its_joints_dimensioned_from_the_shell() -> None:
    """Rows beside the window on wall B lack joints where they have no panel; what their line has besides meets none of theirs."""
    setout = _setout("demo")
    sheet = next(sheet for sheet in _sheets("demo") if sheet.code == "elevation-B")
    lines = _floor_rows(sheet, 1)
    assert len(lines) > 2
    for row in setout.rows:
        spans = [(face.left * 8.0, face.right * 8.0) for panel, face in faces_on(setout, 1) if panel.row == row.index]
        joints = {edge for span in spans for edge in span}
        mine = [values for name, values in lines.items() if name != "frame" and row.index + 1 in _rows_named(name)]
        assert len(mine) == 1
        assert joints <= mine[0]
        assert not any(left < extra < right for extra in mine[0] - joints for left, right in spans)


def _rows_named(name: str) -> set[int]:
    """Numbers of the rows that a line's name covers."""
    spans = (part.partition(" to ") for part in name.split(" ", 1)[1].split(", "))
    return {row for first, _, last in spans for row in range(int(first), int(last or first) + 1)}


@every_room
@pytest.mark.slow
def test_every_row_is_dimensioned_or_said_not_to_be(name: str) -> None:
    for wall, sheets in _elevations(name):
        for sheet, view in zip(sheets, _views(_setout(name), wall), strict=True):
            every = joints_in(_setout(name), view.part)
            left_out = [row for pattern in every if pattern not in view.patterns for row in pattern.rows]
            said = " ".join(text.text for text in _texts(sheet))
            assert view.patterns == every[: len(view.patterns)]
            assert all(wrapped in said for pattern in view.patterns for wrapped in wrap(pattern.words, LABEL_MM, HEIGHT_MM))
            assert (f"No room below for the joints of {rows_words(left_out)}" in said) == bool(left_out)


def test_rows_are_counted_from_one_and_joined() -> None:
    assert [rows_words(rows) for rows in ([6], [0, 1], [0, 1, 2, 5], [7, 3, 2])] == [
        "row 7",
        "rows 1, 2",
        "rows 1 to 3, 6",
        "rows 3, 4, 8",
    ]


def test_long_walls_are_split_rather_than_drawn_too_small() -> None:
    for wall, sheets in _elevations("workshop by hand"):
        found = views(_setout("workshop by hand"), wall)
        assert all(view.scale.factor <= 20 for view in found)
        assert len(sheets) == len(found) > 1
        for view in found:
            assert view.part.shown.width / view.scale.factor <= view.paper.frame.width


def test_short_walls_take_the_small_sheet_at_the_same_scale() -> None:
    corners = ((0.0, 0.0), (0.0, 900.0), (2400.0, 900.0), (2400.0, 0.0))
    setout = handmade(Room(name="Passage", corners_mm=corners, clad_height_mm=1200.0))
    short, long = (views(setout, wall)[0] for wall in (0, 1))
    assert (short.paper.name, long.paper.name) == ("A4", "A3")
    assert short.scale == long.scale


@every_room
def test_cover_carries_the_cautions_and_says_fire_is_not_assessed(name: str) -> None:
    words = " ".join(text.text for sheet in _sheets(name) if sheet.code.startswith("cover") for text in _texts(sheet))
    for needed in (
        "Fire: not assessed",
        "licensed electrician",
        "cable and pipe",
        "ways out",
        "Lifting",
        "qualified person",
        "Planning aid only",
    ):
        assert needed in words
    assert "complies" not in words


def test_mounting_points_without_timber_look_different() -> None:
    setout = _setout("demo by hand")
    bare = sum(m.lands_on is None for _, face in faces_on(setout, 0) for m in face.mounts)
    landed = sum(m.lands_on is not None for _, face in faces_on(setout, 0) for m in face.mounts)
    sheet = next(sheet for sheet in _sheets("demo by hand") if sheet.code == "elevation-A")
    circles = [item for item in sheet.items if isinstance(item, Circle)]
    assert sum(circle.fill == 0.0 and circle.radius_mm > 0.5 for circle in circles) == landed + 1
    assert sum(circle.fill == 1.0 and circle.radius_mm > 1.0 for circle in circles) == bare + 1
    assert bare > 0 < landed


def test_points_that_wait_for_blocking_look_bare_in_a_frame_to_build_too() -> None:
    setout = as_hung(_setout("demo")).setout
    on_blocking = sum(m.lands_on == "blocking" for _, face in faces_on(setout, 1) for m in face.mounts)
    bare = sum(m.lands_on is None for _, face in faces_on(setout, 1) for m in face.mounts)
    sheet = next(sheet for sheet in _sheets("demo") if sheet.code == "elevation-B")
    rings = [item for item in sheet.items if isinstance(item, Circle) and item.fill == 1.0 and item.radius_mm > 1.0]
    assert len(rings) == on_blocking + bare + 1
    assert on_blocking > 0


def test_cover_says_how_each_wall_is_framed() -> None:
    words = [text.text for sheet in _sheets("demo") if sheet.code.startswith("cover") for text in _texts(sheet)]
    assert any(word.startswith("standing: 38 mm studs every 304.8 mm, the first centred at 156 mm.") for word in words)
    assert sum(word.startswith("to build: 38 mm studs") for word in words) == 3
    assert {"wall A", "wall B", "wall C", "wall D"} <= set(words)
    assert "says for each what to do" in " ".join(words)


def test_another_room_gets_another_identification() -> None:
    one = _setout("demo by hand")
    other = replace(one, room=one.room.model_copy(update={"clad_height_mm": 1981.0}))

    def number(setout: SetOut) -> str:
        return next(text.text for text in _texts(sheets_for(setout)[0]) if re.fullmatch(r"[0-9A-F]{6}-001", text.text))

    assert number(one) == number(handmade(_demo())) != number(other)


def test_date_of_issue_stays_blank_unless_given() -> None:
    words = {text.text for text in _texts(sheets_for(_setout("demo by hand"))[0])}
    assert "Date of issue" in words
    assert not any(re.fullmatch(r"\d{4}-\d\d-\d\d", word) for word in words)
    assert "2026-03-01" in {text.text for text in _texts(_sheets("demo by hand")[0])}


@given(st.lists(st.tuples(st.floats(0, 300), st.floats(1, 5)), min_size=1, max_size=60).map(sorted))
def test_spread_values_keep_their_order_and_distance(found: list[tuple[float, float]]) -> None:
    gaps = [gap for _, gap in found[1:]]
    moved = spread([place for place, _ in found], gaps, -20.0, 320.0)
    assert all(after - before >= gap - 1e-6 for (before, after), gap in zip(pairwise(moved), gaps, strict=True))
    assert moved[0] >= -20.0 - 1e-6
    assert moved[-1] <= 320.0 + 1e-6


@given(st.lists(st.integers(0, 60), min_size=1, max_size=30, unique=True).map(sorted))
def test_values_that_stand_apart_stay_where_they_are(steps: list[int]) -> None:
    places = [step * 5.0 for step in steps]
    assert spread(places, [3.6] * (len(places) - 1), 0.0, 300.0) == pytest.approx(places)


def test_no_leader_on_the_plan_runs_through_a_text() -> None:
    """Windows close to corners, whose names find no room beside them."""
    windows = tuple(
        Opening(id=f"{wall}{side} window", kind="window", wall=wall, left_mm=left, sill_mm=900.0, width_mm=500.0, height_mm=900.0)
        for wall in range(4)
        for side, left in (("left", 60.0), ("middle", 700.0), ("right", 1340.0))
    )
    corners = ((0.0, 0.0), (0.0, 1900.0), (1900.0, 1900.0), (1900.0, 0.0))
    room = Room(name="Lookout", corners_mm=corners, clad_height_mm=1980.0, openings=windows)
    sheet = next(sheet for sheet in sheets_for(handmade(room)) if sheet.code == "plan")
    ends = {item.centre for item in sheet.items if isinstance(item, Circle) and item.radius_mm == 0.4}
    leaders = [item for item in sheet.items if isinstance(item, Path) and len(item.points) == 2 and item.points[1] in ends]
    assert len(leaders) == len(windows)
    for leader in leaders:
        crossed = [text.text for text in _texts(sheet) if meets(item_box(text), *leader.points)]
        assert crossed == []


def test_no_sheet_of_a_room_in_feet_says_a_length_in_millimetres() -> None:
    """Sizes made in millimetres have a no-break space before their unit; a screw's own name may hold a figure."""
    screws = [screw.name for screw in _setout("demo in feet").room.timberwork.screws]
    bare = set()
    for text in (text.text for sheet in _sheets("demo in feet") for text in _texts(sheet)):
        for name in screws:
            text = text.replace(name, "")
        if re.search(r"\d mm\b|, mm\b", text):
            bare.add(text)
    assert bare == set()


def test_findings_on_the_cover_use_the_rooms_units() -> None:
    words = " ".join(text.text for text in _texts(_sheets("demo in feet")[0]))
    assert not re.search(r"\d mm\b", words)
