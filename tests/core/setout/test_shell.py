"""The one 8 mm grid of the shell, and the packing that is left between it and the frame. Arithmetic by hand throughout."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st
from shapely import LineString

from core.errors import RoomError
from core.room import Point, Room
from core.setout.shell import shell_corners_mm, shell_of
from tests.core.setout.rooms import law, plan, rectangle

LENGTHS_TENTHS = st.integers(1_300, 99_000)
L_SHAPE: tuple[Point, ...] = ((0, 0), (0, 3000), (1804, 3000), (1804, 1400), (3000, 1400), (3000, 0))
HALF_DEGREE_MM = 3000 * math.tan(math.radians(0.5))


@law
@given(LENGTHS_TENTHS)
def test_a_rectangle_holds_the_whole_pitches_of_its_length_less_the_fit(tenths: int) -> None:
    assert shell_of(rectangle(tenths / 10, 2000)).walls[1].pitches == (tenths - 10) // 80


@law
@given(LENGTHS_TENTHS)
def test_what_a_rectangle_has_left_over_is_packed_half_at_either_end(tenths: int) -> None:
    walls = shell_of(rectangle(tenths / 10, 2000)).walls
    left_over_mm = tenths / 10 - 8 * ((tenths - 10) // 80)
    assert (walls[0].packing_mm, walls[2].packing_mm) == pytest.approx((left_over_mm / 2, left_over_mm / 2), abs=2e-6)


def test_an_l_shaped_room_packs_all_walls_of_one_direction_from_one_phase() -> None:
    """Across: A from 0.5 mm up, C to 1803.5, E to 2999.5; the grid through 3.5 leaves them 3, 0 and 4 mm over the half fit."""
    assert [wall.packing_mm for wall in shell_of(plan(*L_SHAPE)).walls] == pytest.approx([3.5, 4.0, 0.5, 4.0, 4.5, 4.0])


def test_an_l_shaped_room_has_the_pitches_between_its_packed_lines() -> None:
    """Lines stand at 3.5, 1803.5 and 2995.5 mm across, at 4, 1396 and 2996 mm in depth."""
    assert [wall.pitches for wall in shell_of(plan(*L_SHAPE)).walls] == [374, 225, 200, 149, 174, 374]


def test_the_shell_goes_around_an_outside_corner_by_the_packing_of_the_wall_to_the_left() -> None:
    shell = shell_of(plan(*L_SHAPE))
    assert shell.walls[3].start_mm == pytest.approx(-shell.walls[2].packing_mm) == pytest.approx(-0.5)


def test_the_corner_that_points_into_the_room_is_the_outside_one() -> None:
    assert [corner.kind for corner in shell_of(plan(*L_SHAPE)).corners] == ["inside"] * 3 + ["outside"] + ["inside"] * 2


def _skewed(by_mm: float) -> Room:
    return plan((0, 0), (0, 3000), (3000, 3000 + by_mm), (3000, 0))


@pytest.mark.parametrize("sign", [1, -1])
def test_a_corner_just_under_half_a_degree_off_counts_as_square(sign: int) -> None:
    corner = shell_of(_skewed(sign * (HALF_DEGREE_MM - 0.1))).corners[1]
    assert corner.kind == "inside"
    assert corner.off_square_degrees == pytest.approx(0.498, abs=0.001)


@pytest.mark.parametrize("sign", [1, -1])
def test_a_corner_just_over_half_a_degree_off_is_left_free(sign: int) -> None:
    assert shell_of(_skewed(sign * (HALF_DEGREE_MM + 0.1))).corners[1].kind == "free"


def test_a_straight_corner_divides_a_wall_in_two_plain_ends_that_meet() -> None:
    """Each half of 1500 mm gives up its packed end (4 mm) and what is short of a whole pitch."""
    first, second = shell_of(plan((0, 0), (0, 1500), (0, 3000), (3000, 3000), (3000, 0))).walls[:2]
    assert (first.right, second.left) == ("free", "free")
    assert (first.pitches, second.pitches) == (187, 187)
    assert first.start_mm + 8 * first.pitches == pytest.approx(1500)
    assert second.start_mm == pytest.approx(0)


@pytest.mark.parametrize("sides", [3, 5, 6, 8])
def test_linings_that_meet_at_a_slant_stop_where_their_room_sides_touch(sides: int) -> None:
    """A regular room: its lines lie 0.5 mm in and stop 16 mm x cot(theta/2) short of their corner at both ends."""
    cot = 1 / math.tan(math.radians((180 - 360 / sides) / 2))
    radius = 2000.0
    turns = [-2 * math.pi * k / sides for k in range(sides)]
    room = plan(*((radius * math.cos(t), radius * math.sin(t)) for t in turns))
    side_mm = room.wall_length_mm(0)
    pitches = int((side_mm - 2 * (0.5 + 16) * cot) // 8)
    for wall in shell_of(room).walls:
        assert wall.pitches == pitches
        assert wall.start_mm == pytest.approx((side_mm - 8 * pitches) / 2, abs=1e-4)


def test_linings_that_meet_at_an_outward_slant_need_not_stop_short() -> None:
    """Wall A turns 45 degrees away at its right end; with a slant towards the room it would end 6.6 mm before the corner."""
    room = plan((0, 0), (0, 2000), (-1000, 3000), (3000, 3000), (3000, 0))
    first = shell_of(room).walls[0]
    short_mm = first.length_mm - (first.start_mm + 8 * first.pitches)
    assert first.right == "free"
    assert short_mm < 8


@law
@given(st.integers(200, 1500), st.integers(200, 1500), st.integers(2500, 2508))
def test_linings_that_meet_at_a_slant_do_not_overlap(across_mm: int, along_mm: int, width_mm: int) -> None:
    """A corner cut off at any angle; each lining drawn 16 mm thick from its shell line."""
    room = plan((0, 0), (0, 2500 - along_mm), (across_mm, 2500), (width_mm, 2500), (width_mm, 0))
    ends = shell_corners_mm(room, shell_of(room))
    linings = [LineString(line).buffer(-16, cap_style="flat", single_sided=True) for line in ends[:3]]
    assert linings[0].intersection(linings[1]).area < 0.01
    assert linings[1].intersection(linings[2]).area < 0.01


@law
@given(st.integers(0, 20), st.integers(0, 20), st.integers(0, 8))
def test_a_bowed_wall_loses_at_most_packing_and_a_pitch_at_either_end(left_mm: int, right_mm: int, wider_mm: int) -> None:
    """Both long walls have a corner that is hardly one; a chain takes direction from the longest wall, a bowed one here."""
    w = 3000 + wider_mm
    room = plan((0, 0), (-left_mm, 3850), (0, 6350), (w, 6350), (w + right_mm, 2824), (w, 0))
    for wall in shell_of(room).walls:
        assert wall.length_mm - 8 * wall.pitches < 2 * (8.5 + 8)


@law
@given(st.integers(0, 3599))
def test_a_rotated_room_has_the_same_pitches_as_the_unrotated(tenths_of_degree: int) -> None:
    turn = math.radians(tenths_of_degree / 10)
    c, s = math.cos(turn), math.sin(turn)
    rotated = plan(*((x * c - y * s, x * s + y * c) for x, y in L_SHAPE))
    assert [wall.pitches for wall in shell_of(rotated).walls] == [374, 225, 200, 149, 174, 374]


def test_a_wall_with_just_two_legs_of_shell_is_accepted() -> None:
    assert shell_of(rectangle(129, 2000)).walls[1].pitches == 16


def test_a_wall_too_short_for_two_legs_is_refused_by_its_letter() -> None:
    with pytest.raises(RoomError, match=r"wall B is 128\.9 mm long, which leaves 15 pitches.*need at least 16"):
        shell_of(rectangle(128.9, 2000))


def test_walls_between_free_corners_make_chains_of_their_own() -> None:
    shell = shell_of(plan((0, 0), (0, 2000), (1000, 3000), (3000, 3000), (3000, 0)))
    assert [(chain.walls, chain.closed) for chain in shell.chains] == [((1,), False), ((2, 3, 4, 0), False)]


def test_a_room_of_square_corners_is_one_closed_chain() -> None:
    chains = shell_of(plan(*L_SHAPE)).chains
    assert [(chain.walls, chain.closed) for chain in chains] == [((0, 1, 2, 3, 4, 5), True)]
