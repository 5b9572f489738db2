"""The frame plan as a whole, on the demo room, by laws over generated rooms, and with absurd settings."""

from collections import Counter
from itertools import combinations, pairwise
from pathlib import Path

import pytest
from hypothesis import given

from core.files import load_room
from core.frame import FramePlan, plan_of, takes_timber
from core.frame.blocking import Block, blocks_for
from core.frame.cutlist import spliced
from core.frame.doubling import DOUBLE
from core.frame.members import CORNER_POST
from core.frame.points import Point, points_of
from core.room import FrameToBuild, MeasuredFrame, Opening, RegularFrame, Room
from core.setout import solve
from core.setout.result import SetOut, Timber
from core.timberwork import Bore, FaceReadings, Reading, Timberwork
from tests.core.frame.firm import holds_screw
from tests.core.setout.rooms import few
from tests.generate import SMALL_KIT, TINY_KIT, rooms

ROOMS = rooms(kit=TINY_KIT, most_pitches=60, most_rows=2, standing=True) | rooms(kit=SMALL_KIT, most_pitches=60, most_rows=2)
SQUARE = ((0.0, 0.0), (0.0, 3048.0), (3048.0, 3048.0), (3048.0, 0.0))


@pytest.fixture
def demo(demo_room_path: Path) -> SetOut:
    return solve(load_room(demo_room_path))


def square(**fields: object) -> SetOut:
    return solve(Room.model_validate({"name": "square", "corners_mm": SQUARE, "clad_height_mm": 1980.0, **fields}))


def overlap(a: Timber, b: Timber) -> bool:
    across = min(a.left_mm + a.width_mm, b.left_mm + b.width_mm) - max(a.left_mm, b.left_mm)
    up = min(a.bottom_mm + a.height_mm, b.bottom_mm + b.height_mm) - max(a.bottom_mm, b.bottom_mm)
    return across > 0.01 and up > 0.01


@few
@given(ROOMS)
def test_no_screw_is_lost(room: Room) -> None:
    """Every mounting point is either held by the frame or has a miss of its own."""
    setout = solve(room)
    plan = plan_of(setout)
    assert sum(len(frame.points) for frame in plan.walls) == sum(len(f.mounts) for p in setout.panels for f in p.faces)
    for frame in plan.walls:
        missed = Counter(miss.point for miss in frame.backed.misses)
        assert missed == Counter(point for point in points_of(setout) if point.wall == frame.wall and not point.is_held)
        assert len(frame.packers.thickness_mm) == len(frame.points)


@few
@given(ROOMS)
def test_whether_timber_is_cut_is_known_without_a_cut_list(room: Room) -> None:
    setout = solve(room)
    assert takes_timber(setout) == bool(plan_of(setout).cuts.groups)


def test_walls_that_stand_and_bear_no_panel_take_no_timber() -> None:
    stands = MeasuredFrame(mode="measured", centres_mm=(19.0, 1500.0))
    standing, begun = (square(frames=frames, clad_height_mm=30.0) for frames in ((stands,) * 4, (*(stands,) * 3, FrameToBuild())))
    assert not standing.panels
    assert not plan_of(standing).cuts.groups
    assert (takes_timber(standing), takes_timber(begun)) == (False, True)


@few
@given(ROOMS)
def test_blocking_holds_its_screws_and_runs_into_nothing(room: Room) -> None:
    setout = solve(room)
    for frame in plan_of(setout).walls:
        cut_in = [*(block.timber for block in frame.backed.blocks), *frame.backed.doubling]
        standing = [t for t in setout.timber if t.wall == frame.wall]
        assert not any(overlap(a, b) for a, b in combinations(cut_in, 2))
        assert not any(overlap(a, b) for a in cut_in for b in standing)
        assert all(_holds(block, room.kit.mounts.edge_mm) for block in frame.backed.blocks)


def test_blocking_under_a_doubling_piece_ends_where_that_begins() -> None:
    """Its bay goes on past the piece to the stud, but only below the piece."""
    studs = [Timber(0, "stud", left, 38.0, 38.0, 1900.0) for left in (184.0, 312.0)]
    piece = Timber(0, DOUBLE, 222.0, 109.6, 38.0, 171.7)
    point = Point("A-1-01", 0, 270.0, 98.0, None)
    ((block,), _) = blocks_for([point], [*studs, piece], 38.0, 8.0)
    assert not overlap(block.timber, piece)
    assert _holds(block, 8.0)


def _holds(block: Block, edge_mm: float) -> bool:
    return all(holds_screw(block.timber, p.x_mm, p.z_mm, edge_mm) for p in block.points)


@few
@given(ROOMS)
def test_all_that_is_drawn_is_cut(room: Room) -> None:
    plan = plan_of(solve(room))
    wanted = sum(m.length_mm * m.plies for f in plan.walls for m in f.members)
    wanted += sum(b.length_mm for f in plan.walls for b in f.backed.blocks)
    wanted += sum(t.height_mm for f in plan.walls for t in f.backed.doubling)
    pieces = sum(g.count for g in plan.cuts.groups)
    assert sum(g.length_mm * g.count for g in plan.cuts.groups) == pytest.approx(wanted, abs=0.051 * pieces + 1e-6)
    assert plan.cuts.plan.needed_mm <= plan.cuts.plan.at_least_mm <= plan.cuts.plan.bought_mm
    assert plan.cuts.plan.too_long_mm == ()


@few
@given(rooms(kit=TINY_KIT, most_pitches=60, most_rows=2))
@pytest.mark.slow
def test_uprights_to_cut_never_overlap_and_marks_rise(room: Room) -> None:
    for frame in plan_of(solve(room)).walls:
        uprights = [m.timber for m in frame.members if m.is_upright]
        assert not any(overlap(a, b) for a, b in combinations(uprights, 2))
        assert all(a.left_mm < b.left_mm for a, b in pairwise(frame.marks))
        assert sorted(n for mark in frame.marks for n in mark.numbers) == [m.number for m in frame.members if m.is_upright]


def test_the_demo_s_boards_are_the_least_there_are(demo: SetOut) -> None:
    plan = plan_of(demo).cuts.plan
    assert plan.is_proven
    assert plan.bought_mm == plan.at_least_mm > plan.needed_mm


def test_every_kind_of_member_stands_around_the_demo_s_window(demo: SetOut) -> None:
    names = Counter(member.name for member in plan_of(demo).walls[1].members)
    assert names["king stud"] == names["trimmer"] == 2
    assert names["header"] == names["sill"] == 1
    assert names["cripple"] == 4


def test_a_corner_of_two_frames_to_build_gets_a_post_that_closes_it(demo: SetOut) -> None:
    """Wall A runs on to wall B; wall C stands already, so that wall B stops at its corner."""
    a, b, *_ = plan_of(demo).walls
    (post,) = [m for m in a.members if m.name == CORNER_POST]
    top = next(m for m in a.members if m.name == "top plate")
    assert post.timber.left_mm + post.timber.width_mm == pytest.approx(3048.0 + 88.9) == pytest.approx(top.length_mm)
    assert CORNER_POST not in {m.name for m in b.members}


def test_at_an_outside_corner_the_second_frame_begins_behind_the_first(rooms: Path) -> None:
    setout = solve(load_room(rooms / "reading-den.room.json"))
    wall = next(shell.wall for shell in setout.walls if shell.left == "outside")
    members = plan_of(setout).walls[wall].members
    plates = [m.timber.left_mm for m in members if m.name in ("sole plate", "top plate")]
    assert plates == [pytest.approx(88.9)] * 2
    assert plan_of(setout).walls[wall].marks[0].left_mm >= 44.0


def test_a_standing_wall_has_misses_by_how_much_and_what_to_do(demo: SetOut) -> None:
    """Wall C: studs at 304.8 mm behind panels of 304, as in the drift trap.

    Its lowest screws stand 33.6 mm over the starter ring, which lies 3.2 mm over the floor that the 38 mm sole plate lies on.
    """
    frame = plan_of(demo).walls[2]
    assert frame.members == ()
    assert {miss.remedy for miss in frame.backed.misses} >= {"move", "doubling", "blocking"}
    lowest = [m.gap for m in frame.backed.misses if m.gap and m.point.z_mm == pytest.approx(33.6)]
    assert lowest
    assert all(gap.distance_mm <= 6.8 + 1e-6 for gap in lowest)


def test_the_words_about_a_doubling_piece_give_the_edge_that_the_list_gives(demo: SetOut) -> None:
    backed = plan_of(demo).walls[2].backed
    edges = {f"{round(piece.left_mm, 1):g}" for piece in backed.doubling}
    told = {miss.words.split(" mm")[0].rpartition(" ")[2] for miss in backed.misses if miss.remedy == "doubling"}
    assert told
    assert any("." in edge for edge in told)
    assert told <= edges


def test_readings_become_packers_in_front_of_the_most_forward_place() -> None:
    corners = ((0.0, 0.0, 2.0), (3048.0, 0.0, 0.0), (0.0, 1980.0, 6.0), (3048.0, 1980.0, 4.0))
    face = FaceReadings(wall=0, readings=tuple(Reading(x_mm=x, z_mm=z, depth_mm=d) for x, z, d in corners))
    frame = plan_of(square(timberwork=Timberwork(faces=(face,)))).walls[0]
    assert frame.packers.method == "bilinear between readings"
    for point, packer in zip(frame.points, frame.packers.thickness_mm, strict=True):
        by_hand = 4.0 + 2.0 * (1 - point.x_mm / 3048.0) + 4.0 * point.z_mm / 1980.0
        assert packer == pytest.approx(by_hand, abs=0.01)


def test_scattered_readings_count_where_they_are_nearest() -> None:
    readings = (Reading(x_mm=0.0, z_mm=0.0, depth_mm=0.0), Reading(x_mm=3048.0, z_mm=1980.0, depth_mm=5.0))
    packers = plan_of(square(timberwork=Timberwork(faces=(FaceReadings(wall=0, readings=readings),)))).walls[0].packers
    assert packers.method == "nearest reading"
    assert set(packers.thickness_mm) == {4.0, 9.0}


def codes(plan: FramePlan) -> set[str]:
    return {check.code for check in plan.checks}


def test_a_hopeless_bore_says_that_no_screw_fits_and_why_for_each() -> None:
    plan = plan_of(square(timberwork=Timberwork(bore=Bore(hole_mm=1.0, counterbore_mm=1.5))))
    assert "no-screw-fits" in codes(plan)
    screws = plan.walls[0].screws
    assert screws is not None
    assert screws.chosen is None
    assert all(verdict.failures for verdict in screws.verdicts)
    assert screws.unheld == len(plan.walls[0].points)


def test_a_screw_a_person_chose_is_used_or_refused_by_name() -> None:
    assert "screw-unfit" in codes(plan_of(square(timberwork=Timberwork(screw="#8 flat-head wood screw"))))
    assert "screw-unfit" not in codes(plan_of(square(timberwork=Timberwork(screw="3.0 mm pan-head chipboard screw"))))


def test_stock_too_short_for_a_stud_is_an_error_and_the_rest_is_still_cut() -> None:
    plan = plan_of(square(timberwork=Timberwork(stock_mm=(1000.0,))))
    assert "timber-too-long" in codes(plan)
    assert plan.cuts.plan.boards > 0


def test_a_wall_with_one_measured_stud_says_which_screws_cannot_be_held() -> None:
    frames = (MeasuredFrame(mode="measured", centres_mm=(1500.0,)), FrameToBuild(), FrameToBuild(), FrameToBuild())
    plan = plan_of(square(frames=frames))
    assert "mount-not-held" in codes(plan)
    assert all(miss.words for miss in plan.walls[0].backed.misses)


def test_readings_of_a_wall_that_is_not_there_are_an_error() -> None:
    face = FaceReadings(wall=9, readings=(Reading(x_mm=0.0, z_mm=0.0, depth_mm=0.0),))
    assert "readings-no-wall" in codes(plan_of(square(timberwork=Timberwork(faces=(face,)))))


def test_a_door_as_high_as_the_lining_is_said_to_meet_the_top_plate(demo: SetOut) -> None:
    assert "opening-meets-top-plate" in codes(plan_of(demo))


def test_masses_given_are_used_and_the_rest_estimated(demo: SetOut) -> None:
    light, heavy = plan_of(demo, {"full": 0.5}).loads, plan_of(demo, {"full": 1.5}).loads
    full = sum(panel.design == "full" for panel in demo.panels)
    assert heavy.total_kg - light.total_kg == pytest.approx(full)
    assert heavy.is_estimated
    assert sum(heavy.by_wall.values()) == pytest.approx(heavy.total_kg)


def test_a_room_no_row_fits_has_a_plan_without_screws() -> None:
    plan = plan_of(square(clad_height_mm=20.0))
    assert all(frame.screws is None for frame in plan.walls)


def test_openings_wall_to_wall_still_have_a_plan() -> None:
    door = Opening(id="gate", kind="door", wall=0, left_mm=0.0, sill_mm=0.0, width_mm=3048.0, height_mm=1980.0)
    assert "opening-without-king" in codes(plan_of(square(openings=(door,))))


def test_a_wall_100_m_long_is_planned_and_its_plates_spliced() -> None:
    corners = ((0.0, 0.0), (0.0, 2000.0), (20_000.0, 2000.0), (20_000.0, 0.0))
    plan = plan_of(solve(Room(name="long", corners_mm=corners, clad_height_mm=310.0)))
    assert plan.cuts.plan.too_long_mm == ()
    lengths = [g.length_mm for g in plan.cuts.groups if g.name == "top plate"]
    assert max(lengths) <= max(plan.cuts.stock_mm)


def test_plates_without_a_stud_in_reach_are_cut_at_the_stock_s_length() -> None:
    assert spliced(5000.0, 2000.0, []) == (2000.0, 2000.0, 1000.0)


@pytest.mark.parametrize("spacing", [50.0, 5000.0])
def test_extreme_spacings_are_planned(spacing: float) -> None:
    frames = tuple(RegularFrame(mode="regular", spacing_mm=spacing, first_centre_mm=19.0) for _ in range(4))
    plan = plan_of(square(frames=frames))
    assert all(not frame.members for frame in plan.walls)


@pytest.mark.parametrize(("from_the_end_mm", "is_held"), [(15.9, False), (16.0, True), (100.0, True)])
def test_a_screw_into_blocking_keeps_twice_its_edge_distance_from_the_end_grain(from_the_end_mm: float, is_held: bool) -> None:
    """8 mm from an edge, so 16 from an end, on either side. Common practice, no published source."""
    studs = [Timber(0, "stud", left, 38.0, 38.0, 1900.0) for left in (184.0, 500.0)]
    for x_mm in (222.0 + from_the_end_mm, 500.0 - from_the_end_mm):
        blocks, stray = blocks_for([Point("A-1-01", 0, x_mm, 500.0, None)], studs, 38.0, 8.0)
        assert (len(blocks), len(stray)) == ((1, 0) if is_held else (0, 1))
