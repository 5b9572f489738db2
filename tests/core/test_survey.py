"""Measured walls: lists of them, by how much they miss, sharing that out, and what diagonals say."""

import math
from itertools import pairwise

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.edits import rectangle
from core.edits.plan import set_diagonal
from core.edits.shapes import L_SHAPE, shape_corners
from core.errors import LengthError, RoomError
from core.room import Point, Room
from core.survey import (
    RULES,
    Leg,
    Rule,
    across_pairs,
    checked_corners,
    closure_of,
    contradiction_mm,
    parse_list,
    parse_turn_deg,
    share_out,
    traverse,
    way_in_words,
    written,
)

LENGTHS = st.floats(500, 20_000, allow_nan=False).map(lambda mm: round(mm, 1))


def walked(steps: list[Point]) -> list[Point]:
    points = [(0.0, 0.0)]
    for across, up in steps:
        points.append((points[-1][0] + across, points[-1][1] + up))
    return points


def steps_of(corners: tuple[Point, ...]) -> list[Point]:
    return [(bx - ax, by - ay) for (ax, ay), (bx, by) in pairwise([*corners, corners[0]])]


def test_the_compass_rule_gives_the_adjusted_traverse_of_a_surveying_course() -> None:
    """NPTEL, Surveying, module 9, lecture 29, example 29-6: a traverse ABCD of 976.793 m, adjusted by Bowditch's method.

    The example prints millimetres of departures and latitudes in metres; read here as thousandths.
    """
    steps = [(4.547, 372.194), (164.576, -11.653), (-12.970, -242.091), (-157.136, -119.056)]
    points = walked(steps)
    missed = closure_of(points)
    assert (missed.right_mm, missed.up_mm) == (pytest.approx(-0.983, abs=5e-4), pytest.approx(-0.606, abs=5e-4))
    assert missed.way_round_mm == pytest.approx(976.793, abs=2e-3)
    printed = [(4.922, 372.425), (164.742, -11.551), (-12.726, -241.940), (-156.938, -118.934)]
    for ours, theirs in zip(steps_of(share_out(points, "compass")), printed, strict=True):
        assert ours == pytest.approx(theirs, abs=1.01e-3)


def test_the_compass_rule_closes_a_second_published_traverse() -> None:
    """J. Mahun, Open Access Surveying Library, XVII traverse computations, chapter I: loop of 1347.57 ft missing +0.083 ft north
    and +0.075 ft east. The corrections are the rule's own, as the chapter prints its results in figures.
    """
    lengths = (472.68, 216.13, 276.52, 382.24)
    steps = [(-438.548, -176.357), (-73.093, 203.395), (198.651, 192.357), (313.065, -219.312)]
    points = walked(steps)
    assert (closure_of(points).right_mm, closure_of(points).up_mm) == pytest.approx((0.075, 0.083), abs=1e-9)
    for length, before, after in zip(lengths, steps, steps_of(share_out(points, "compass")), strict=True):
        part = length / 1347.57
        assert after == pytest.approx((before[0] - 0.075 * part, before[1] - 0.083 * part), abs=1e-5)


def test_the_transit_rule_gives_the_corrections_of_a_worked_problem() -> None:
    """A six-sided traverse in a surveying lecture ("Transit Rule", Scribd 564718393): closing 16.81 in latitude, 18.08 in
    departure; factor in latitude 0.00579, correction of course AB 2.86.
    """
    norths = (493.57, 590.53, -325.53, -996.99, -121.96, 377.19)
    easts = (47.53, 612.23, 791.09, 219.51, -1110.58, -541.70)
    points = walked(list(zip(easts, norths, strict=True)))
    # Its lengths are whole, its error 1 in 200, within what may be shared out.
    missed = closure_of(points)
    assert (missed.up_mm, missed.right_mm) == pytest.approx((16.81, 18.08), abs=1e-6)
    after = steps_of(share_out(points, "transit"))
    assert norths[0] - after[0][1] == pytest.approx(2.86, abs=0.005)
    assert norths[1] - after[1][1] == pytest.approx(590.53 * 0.00579, abs=0.01)


def test_a_list_of_lengths_and_turns_is_read_wall_by_wall() -> None:
    assert parse_list("3048 R 3048 R 3050 R 3048 R") == (Leg(3048, 90), Leg(3048, 90), Leg(3050, 90), Leg(3048, 90))


def test_a_list_may_leave_out_the_last_turn() -> None:
    assert parse_list("3048 R 3048 R 3050 R 3048")[-1] == Leg(3048, None)


def test_a_list_takes_feet_and_inches_and_angles_however_they_are_written() -> None:
    legs = parse_list("10' 6 1/2\" R 45 8' L45, 3' right 30.5° 3.5 m left; 7ft R 45")
    assert [leg.length_mm for leg in legs] == pytest.approx([3213.1, 2438.4, 914.4, 3500, 2133.6])
    assert [leg.turn_deg for leg in legs] == [45, -45, 30.5, -90, 45]


@pytest.mark.parametrize(
    ("text", "said"),
    [
        ("", "found no turns"),
        ("3048", "found no turns"),
        ("R 3048 R 3048", "begins with a turn"),
        ("3048 R R 3048", "wall B: found a turn where its length should be"),
        ("3048 R x R 3048", "wall B: 'x' is not a length"),
        ("3048 R 3048 R -5 R 3048", "wall C: found '-5'; a length cannot be negative"),
        ("0 R 3048 R 3048", "wall A: 0 mm is no wall"),
        ("3048 R 200000 R 3048", "wall B: 200000 mm is no wall"),
        ("2440 R 3048 Q 2440 R 3046 R", "wall B: '3048 Q 2440' is not a length"),
        ("3048 R 270 3048 R 3048", "wall A: a turn by 270° is no corner"),
        ("3048 R 3048 L 0° 3048 R", "wall B: a turn by 0° is no corner"),
        ("1 R " * 201, "more than 200 walls"),
        ("9" * 20_000, "too many for a list"),
    ],
)
def test_a_silly_list_is_refused_by_the_entry_that_is_wrong(text: str, said: str) -> None:
    with pytest.raises((RoomError, LengthError)) as refused:
        parse_list(text)
    assert said in str(refused.value)


@pytest.mark.parametrize(("text", "degrees"), [("", 90), ("R", 90), ("l", -90), ("R 45", 45), ("left 22,5 °", -22.5)])
def test_turns_are_read_as_people_write_them(text: str, degrees: float) -> None:
    assert parse_turn_deg(text) == degrees


@given(st.lists(st.tuples(LENGTHS, st.sampled_from([90.0, -90.0, 45.0, -30.5])), min_size=3, max_size=12))
def test_a_written_list_reads_back(walls: list[tuple[float, float]]) -> None:
    legs = tuple(Leg(length, turn) for length, turn in walls)
    assert parse_list(written(legs, "mm")) == legs


def test_two_millimetres_too_many_are_found_with_their_direction() -> None:
    missed = traverse(parse_list("3048 R 3048 R 3050 R 3048 R")).closure
    assert missed.missed_mm == 2
    assert way_in_words(missed, "mm") == "2 mm down"
    assert missed.one_in == pytest.approx(6097)


def test_turns_that_go_no_way_round_are_refused() -> None:
    with pytest.raises(RoomError, match="add up to 180°, once round is 360°"):
        traverse(parse_list("3048 R 3048 R 3048 L 3048 R"))


def test_what_measured_turns_miss_is_shared_out_before_the_lengths() -> None:
    found = traverse([Leg(3000, 90.5), Leg(4000, 90.5), Leg(3000, 90.5), Leg(4000, 90.5)])
    assert found.angle_missed_deg == pytest.approx(2)
    assert found.closure.missed_mm < 1e-6


def test_a_blunder_is_not_shared_out_but_the_walls_to_look_at_are_named() -> None:
    points = traverse(parse_list("3048 R 3048 R 350 R 3048 R")).points_mm
    with pytest.raises(RoomError, match=r"miss the first corner by 2698 mm.*look again at wall A or C"):
        share_out(points, "compass")


@pytest.mark.parametrize("rule", RULES)
def test_walls_that_close_stay_as_they_were_taped(rule: Rule) -> None:
    points = traverse(parse_list("4000 R 6000 R 4000 R 6000 R")).points_mm
    assert share_out(points, rule) == ((0, 0), (0, 4000), (6000, 4000), (6000, 0))


@given(LENGTHS, LENGTHS, st.floats(-20, 20), st.floats(-20, 20))
def test_the_transit_rule_keeps_square_walls_square(wide: float, deep: float, off: float, up: float) -> None:
    corners = share_out([(0, 0), (0, deep), (wide, deep), (wide, up), (off, up)], "transit")
    for across, along in steps_of(corners):
        assert min(abs(across), abs(along)) < 1e-6


@given(
    st.lists(st.tuples(st.floats(-900, 900), st.floats(-900, 900)), min_size=3, max_size=9), st.floats(-9, 9), st.floats(-9, 9)
)
def test_the_compass_rule_moves_no_corner_further_than_what_was_missed(steps: list[Point], across: float, up: float) -> None:
    points = walked(steps)
    points.append((across, up))
    missed = closure_of(points)
    if missed.missed_mm > 0.05 * missed.way_round_mm:
        return
    for before, after in zip(points, share_out(points, "compass"), strict=False):
        assert math.dist(before, after) <= missed.missed_mm + 1e-9


@pytest.fixture
def den() -> Room:
    return rectangle("Reading den", width_mm=4000, depth_mm=3000, clad_height_mm=2000)


def test_a_diagonal_of_five_to_three_and_four_is_square(den: Room) -> None:
    """The 3-4-5 triangle: common practice, Pythagoras."""
    assert [check.off_mm for check in checked_corners(den, {(0, 2): 5000.0})] == pytest.approx([0, 0], abs=1e-6)


def test_a_long_diagonal_makes_the_corners_across_it_wide(den: Room) -> None:
    """Law of cosines, from memory: cos = (3000² + 4000² - 5020²) / (2 · 3000 · 4000)."""
    first, second = checked_corners(den, {(0, 2): 5020.0})
    assert (first.corner, second.corner) == (1, 3)
    expected = math.degrees(math.acos((3000**2 + 4000**2 - 5020**2) / (2 * 3000 * 4000)))
    assert first.angle_deg == pytest.approx(expected)
    assert first.off_mm == pytest.approx(4000 * math.sin(math.radians(expected - 90)))
    assert first.off_mm > 0


@given(st.floats(4500, 5500))
def test_a_room_leant_to_a_diagonal_has_it_and_agrees_with_its_other_one(taped_mm: float) -> None:
    den = rectangle("Den", width_mm=4000, depth_mm=3000, clad_height_mm=2000)
    leant = set_diagonal(den, 0, taped_mm)
    assert math.dist(leant.corners_mm[0], leant.corners_mm[2]) == pytest.approx(taped_mm, abs=1e-3)
    assert [leant.wall_length_mm(wall) for wall in range(4)] == pytest.approx([3000, 4000, 3000, 4000], abs=1e-3)
    other = math.dist(leant.corners_mm[1], leant.corners_mm[3])
    assert contradiction_mm(den, {(0, 2): taped_mm, (1, 3): other}) == pytest.approx(0, abs=1e-2)
    again = set_diagonal(den, 1, other)
    assert math.dist(again.corners_mm[0], again.corners_mm[2]) == pytest.approx(taped_mm, abs=1e-2)


def test_two_diagonals_that_cannot_both_be_true_are_found_out(den: Room) -> None:
    off = contradiction_mm(den, {(0, 2): 5010.0, (1, 3): 5010.0})
    assert off is not None
    assert off > 15


def test_a_diagonal_no_walls_could_have_is_refused_by_its_corner(den: Room) -> None:
    with pytest.raises(RoomError, match=r"corner A/B: 8000 mm cannot lie across walls of 3000 mm and 4000 mm"):
        checked_corners(den, {(0, 2): 8000.0})
    with pytest.raises(RoomError, match="make no triangle"):
        set_diagonal(den, 0, 8000.0)


def test_no_tape_goes_through_a_wall() -> None:
    corners = shape_corners(L_SHAPE, L_SHAPE.usual())
    room = rectangle("L", width_mm=1000, depth_mm=1000, clad_height_mm=2000).model_copy(update={"corners_mm": corners})
    assert (2, 4) not in across_pairs(room)
    assert (1, 5) in across_pairs(room)
