"""One remedy for every mounting point without timber, in the same words wherever it is named, at one price."""

import re
from functools import cache
from pathlib import Path

import pytest
from hypothesis import given

from core import edits
from core.crew.work import jobs
from core.drawing import Sheet, Text
from core.errors import RoomError
from core.export.setout_json import setout_document
from core.files import load_room
from core.frame import as_hung, plan_of
from core.frame.datum import ring_mm
from core.frame.points import point_of, points_of
from core.frame.remedies import backed_walls, misses_in_words
from core.room import MeasuredFrame, Opening, Room
from core.setout import sketch, solve
from core.setout.result import SetOut
from core.setout.timber import HEADER_DEPTH_MM
from core.sheets import sheets_for
from core.takeoff import starter_ring
from tests.core.setout.rooms import few, rectangle
from tests.generate import SMALL_KIT, rooms

DEMO = Path(__file__).resolve().parents[3] / "assets" / "demo.room.json"


@cache
def demo() -> SetOut:
    return solve(load_room(DEMO))


@cache
def sheets() -> tuple[Sheet, ...]:
    return sheets_for(demo())


def words_on(code: str) -> str:
    """All that is lettered on the sheets whose code begins so, as one text."""
    texts = [item.text for sheet in sheets() if sheet.code.startswith(code) for item in sheet.items if isinstance(item, Text)]
    return " ".join(texts)


@few
@given(rooms(kit=SMALL_KIT, standing=True))
def test_every_point_the_frame_does_not_hold_has_one_remedy_and_no_other_point_has_any(room: Room) -> None:
    setout = solve(room)
    bare = [point for point in points_of(setout) if not point.is_held]
    remedied = [miss.point for backed in backed_walls(setout) for miss in backed.misses]
    assert sorted(remedied, key=repr) == sorted(bare, key=repr)


@few
@given(rooms(kit=SMALL_KIT, standing=True))
def test_no_blocking_goes_through_an_opening(room: Room) -> None:
    setout = solve(room)
    for wall, backed in enumerate(backed_walls(setout)):
        for block in backed.blocks:
            for hole in (opening for opening in room.openings if opening.wall == wall):
                across = min(block.left_mm + block.length_mm, hole.right_mm) - max(block.left_mm, hole.left_mm)
                up = min(block.bottom_mm + block.height_mm, hole.head_mm) - max(block.bottom_mm, hole.sill_mm)
                assert across < 0.01 or up < 0.01, (block, hole)


def test_a_niche_cut_between_measured_studs_gets_no_blocking_across_it() -> None:
    """Its neighbours' screws cannot be held by a timber through the void; the frame list says so rather than draw one."""
    niche = Opening(id="niche", kind="niche", wall=0, left_mm=900.0, sill_mm=608.0, width_mm=608.0, height_mm=912.0)
    room = load_room(DEMO.parents[1] / "tests" / "rooms" / "reading-den.room.json")
    studs = MeasuredFrame(mode="measured", centres_mm=(19.0, 425.0, 832.0, 1238.0, 1645.0, 2051.0, 2419.0))
    frames = (studs, *(room.frame(wall) for wall in range(1, room.wall_count)))
    backed = backed_walls(solve(room.model_copy(update={"openings": (niche,), "frames": frames})))[0]
    assert backed.blocks
    assert not [
        b for b in backed.blocks if 608.0 - b.height_mm < b.bottom_mm < 1520.0 and b.left_mm < 1508.0 < b.left_mm + b.length_mm
    ]
    assert "none" in {miss.remedy for miss in backed.misses}


def test_json_names_the_remedy_of_the_frame_plan_for_every_point() -> None:
    plan = plan_of(demo())
    wanted = {(m.point.mark, m.point.wall, m.point.x_mm, m.point.z_mm): m for f in plan.walls for m in f.backed.misses}
    found = 0
    for panel in setout_document(demo())["panels"]:
        for face in panel["faces"]:
            for mount in face["mounts"]:
                miss = wanted.get((panel["mark"], face["wall"], mount["x_mm"], mount["z_mm"]))
                assert mount["remedy"] == (miss.remedy if miss else None)
                assert mount["remedy_text"] == (miss.words if miss else None)
                found += miss is not None
    assert found == len(wanted) > 100


def test_json_says_which_variant_a_panel_is_where_its_holes_go_and_how_it_is_laid() -> None:
    document, hung = setout_document(demo()), as_hung(demo())
    assert [(one["variant"], one["design"], tuple(one["marks"])) for one in document["variants"]] == [
        (one.name, one.design, one.marks) for one in hung.variants
    ]
    assert {one["mark"]: one["variant"] for one in document["panels"] if one["variant"]} == {
        mark: one.name for mark, one in hung.by_mark.items()
    }
    went = {
        (panel["mark"], mount["moved_to"]["x_mm"], mount["moved_to"]["z_mm"], mount["moved_to"]["lands_on"])
        for panel in document["panels"]
        for face in panel["faces"]
        for mount in face["mounts"]
        if mount["moved_to"]
    }
    places = {(mark, point_of(demo(), mark, hole.to)) for mark, its in hung.moved.items() for hole in its}
    assert went == {(mark, point.x_mm, point.z_mm, point.lands_on) for mark, point in places}
    for one in document["variants"]:
        holes = sum(part["type"] == "pin-hole brick 1x2" for course in one["courses"] for part in course)
        (panel,) = [panel for panel in hung.setout.panels if panel.mark == one["marks"][0]]
        assert holes == 2 * sum(len(face.mounts) for face in panel.faces)


def test_elevation_frame_sheet_and_cover_say_the_same_of_a_wall() -> None:
    for letter, frame in zip("ABCD", plan_of(demo()).walls, strict=True):
        said = misses_in_words(len(frame.points), frame.backed.misses)
        assert said in words_on(f"frame-{letter}")
        assert said in words_on("cover")
        assert (said in words_on(f"elevation-{letter}")) == bool(frame.backed.misses)


def test_no_sheet_but_the_frame_s_own_asks_for_blocking_where_something_else_is_done() -> None:
    """What a crossed ring asks for differs from point to point: only lists that name the point may name the remedy."""
    assert "cut blocking" not in " ".join(words_on(code) for code in ("cover", "elevation", "panels", "hole-template"))
    assert not re.search(r"\d to block", words_on("panels"))


def test_the_minutes_of_points_without_timber_are_the_crews() -> None:
    """Each costs what the rates say, whatever is done about it, where the frame stands; a frame to build is designed to suit."""
    setout = demo()
    bare = sum(mount.lands_on is None for panel in setout.panels for face in panel.faces for mount in face.mounts)
    standing = [f for f in plan_of(setout).walls if not f.is_to_build]
    rates = setout.room.rates
    assert bare == sum(len(frame.backed.misses) for frame in standing) > 0
    assert setout.minutes.blocking == pytest.approx(bare * rates.blocking)
    assert sum(job.hang for job in jobs(setout)) == pytest.approx(setout.minutes.handling + setout.minutes.blocking)


# The frame's head


def tall_door() -> Room:
    """One wall with a door as high as the lining."""
    door = Opening(id="door", kind="door", wall=0, left_mm=700.0, sill_mm=0.0, width_mm=608.0, height_mm=912.0)
    return rectangle(2000.0, 2000.0, height_mm=912.0, openings=[door])


def headless(setout: SetOut) -> list[str]:
    return [check.text for check in plan_of(setout).checks if check.code == "opening-meets-top-plate"]


def test_a_door_as_high_as_the_lining_is_told_how_high_the_frame_must_be_and_is_framed_once_it_is() -> None:
    """Door 912, header 89, top plate 38: 1039 mm."""
    (said,) = headless(solve(tall_door()))
    assert "no room for a header" in said
    assert "Build the frames up to 1039 mm" in said
    setout = solve(edits.set_frame_height(tall_door(), 1039.0))
    assert headless(setout) == []
    header = next(t for t in setout.timber if t.member == "header")
    assert (header.bottom_mm, header.height_mm) == (912.0, HEADER_DEPTH_MM)
    assert {t.bottom_mm + t.height_mm for t in setout.timber if t.member == "top plate"} == {1039.0}
    assert {t.bottom_mm + t.height_mm for t in setout.timber if t.member == "king stud"} == {1001.0}


def test_a_frame_a_little_short_of_its_header_is_told_so() -> None:
    (said,) = headless(solve(edits.set_frame_height(tall_door(), 1000.0)))
    assert "50 mm are left between it and the top plate, too little for a header 89 mm deep" in said


def test_a_frame_lower_than_the_lining_is_refused_and_one_as_high_is_the_default() -> None:
    with pytest.raises(RoomError, match="must reach up to the lining's 912 mm"):
        edits.set_frame_height(tall_door(), 900.0)
    assert edits.set_frame_height(edits.set_frame_height(tall_door(), 1039.0), 912.0) == tall_door()


def test_a_sketch_near_another_frame_height_has_the_timber_of_its_own() -> None:
    """A standing frame's studs go on behind the head gap; nothing of the lower frame is kept."""
    low = edits.set_frame(tall_door(), 0, MeasuredFrame(mode="measured", centres_mm=(19.0, 330.0, 1500.0, 1981.0)))
    high = edits.set_frame_height(low, 1200.0)
    before = sketch(low)
    assert sketch(high, near=before).timber == sketch(high).timber != before.timber


# The starter ring


def test_the_strip_under_a_sole_plate_goes_up_with_the_ring_and_its_screws_keep_their_distance() -> None:
    setout = demo()
    edge, ring = setout.room.kit.mounts.edge_mm, ring_mm(setout)
    assert ring == setout.room.kit.plate_mm
    assert starter_ring(setout).plates
    for frame in plan_of(setout).walls:
        soles = [m for m in frame.members if m.name == "sole plate"]
        lowest = min(point.z_mm for point in frame.points) + ring
        for sole in soles:
            top_over_floor = frame.strip_mm + sole.timber.height_mm
            assert frame.strip_mm <= lowest - edge
            assert top_over_floor - lowest >= edge - 1e-6
        assert bool(soles) == frame.is_to_build


def test_a_standing_sole_plate_lies_as_far_under_the_ring_as_the_floor_does() -> None:
    soles = [t for t in demo().timber if t.wall == 2 and t.member == "sole plate"]
    assert {t.bottom_mm for t in soles} == {-demo().room.kit.plate_mm}


def test_whoever_measures_heights_is_told_where_they_count_from() -> None:
    for letter in "ABCD":
        for sheet in (f"elevation-{letter}", f"frame-{letter}"):
            assert "Heights count from the top of the starter ring, 3.2 mm above the floor." in words_on(sheet)
    assert "heights-from-ring" in {check.code for check in plan_of(demo()).checks}


# The drift


def test_the_frame_sheet_says_at_which_panel_the_drift_becomes_too_much() -> None:
    """Half a 38 mm stud less 8 mm of edge is 11 mm; screws 8 mm beside the joint leave 3 mm, used up by 4 × 0.8 mm."""
    said = "panel 4 is the first with a screw too near, 7.8\u00a0mm from its stud's edge where 8\u00a0mm are needed"
    for letter in "AC":
        assert said in words_on(f"frame-{letter}")
    assert "Do not stretch the panels' joints to keep step with the studs" in words_on("hardware")


def test_the_number_said_at_a_point_is_that_of_the_piece_that_holds_it() -> None:
    """The cut list numbers pieces from b1 along each wall; whoever follows the number must find the screw's own piece."""
    told = 0
    for frame in plan_of(demo()).walls:
        for miss in frame.backed.misses:
            if miss.remedy == "blocking":
                (number,) = re.findall(r"\bb(\d+)", miss.words)
                assert miss.point in frame.backed.blocks[int(number) - 1].points
                told += 1
    assert told
