"""Filling a wall: the three ways to work it out agree, and the joints they give cost what they say."""

from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.kit import Rates
from core.setout.fillings import Filling, OpenFilling, WholeFilling, ZonedFilling
from core.setout.layers import Block, layers_of
from core.setout.tables import UNBACKED, Backed, RowOnWall
from core.setout.tariff import UNREACHABLE, Ints, Prices
from core.setout.workshop import Workshop
from tests.core.setout.rooms import blocks_on_a_wall, law
from tests.generate import TINY_KIT

LEAST = TINY_KIT.least_width_pitches
COURSES = TINY_KIT.full_courses
LAYERS = layers_of(3, COURSES)
SHOP = Workshop(TINY_KIT, Rates())
PITCHES = 44
WALLS = st.tuples(blocks_on_a_wall(PITCHES, courses=COURSES), st.sampled_from([(False, False), (True, False), (True, True)]))
PRICES = st.builds(Prices, st.integers(1, 4), st.integers(1, 4))


def timber_everywhere(_course: int) -> Ints:
    return np.zeros(PITCHES + 1, dtype=np.int64)


WHOLE = Backed("timber everywhere", timber_everywhere)
"""A wall before timber is solved pitch by pitch; timber everywhere adds nothing to its cost."""


def filling(blocks: tuple[Block, ...], free_ends: tuple[bool, bool], prices: Prices, backed: Backed = UNBACKED) -> Filling:
    return SHOP.filling(RowOnWall(LAYERS, PITCHES, free_ends, blocks, backed), prices).filling


MIDDLE = (Block(18, 24, 2, 9),)
TWO = (Block(12, 15, 2, 9), Block(30, 32, 0, 12))
NEAR_THE_CORNER = (Block(3, 9, 2, 9),)


@pytest.mark.parametrize(
    ("blocks", "kind"), [((), OpenFilling), (MIDDLE, ZonedFilling), (TWO, ZonedFilling), (NEAR_THE_CORNER, WholeFilling)]
)
def test_a_wall_is_filled_by_the_way_its_blocks_allow(blocks: tuple[Block, ...], kind: type) -> None:
    assert isinstance(filling(blocks, (False, False), Prices(1, 1)), kind)


@law
@given(PRICES, st.booleans())
def test_an_open_wall_costs_the_same_solved_pitch_by_pitch(prices: Prices, is_free: bool) -> None:
    quick, whole = (filling((), (is_free, is_free), prices, backed).ends for backed in (UNBACKED, WHOLE))
    np.testing.assert_array_equal(quick, whole)


@law
@given(st.integers(8, 20), st.integers(1, 8), st.integers(0, 11), PRICES)
def test_a_blocked_zone_costs_the_same_solved_pitch_by_pitch(left: int, width: int, low: int, prices: Prices) -> None:
    blocks = (Block(left, left + width, low, 12),)
    quick, whole = (filling(blocks, (False, False), prices, backed).ends for backed in (UNBACKED, WHOLE))
    np.testing.assert_array_equal(quick, whole)


@law
@given(WALLS, PRICES)
def test_any_wall_costs_the_same_solved_pitch_by_pitch(wall: tuple[tuple[Block, ...], tuple[bool, bool]], prices: Prices) -> None:
    quick, whole = (filling(*wall, prices, backed).ends for backed in (UNBACKED, WHOLE))
    np.testing.assert_array_equal(quick, whole)


def legs_and_joints(found: Filling, free_ends: tuple[bool, bool]) -> list[tuple[int, int, int, list[int]]]:
    """Left leg, right leg, cost and joints for every pair of legs that can be filled between."""
    lefts, rights = ([0] if free else [int(leg) for leg in SHOP.legs] for free in free_ends)
    return [
        (left, right, int(found.ends[i, j]), [int(x) for x in found.joints(i, j)])
        for i, left in enumerate(lefts)
        for j, right in enumerate(rights)
        if found.ends[i, j] < UNREACHABLE
    ]


@law
@given(WALLS, PRICES)
def test_joints_run_from_the_left_leg_to_the_right_one(wall: tuple[tuple[Block, ...], tuple[bool, bool]], prices: Prices) -> None:
    for left, right, _, joints in legs_and_joints(filling(*wall, prices), wall[1]):
        assert (joints[0], joints[-1]) == (left, PITCHES - right)


@law
@given(WALLS, PRICES)
def test_no_panel_is_narrower_or_wider_than_the_kit_allows(
    wall: tuple[tuple[Block, ...], tuple[bool, bool]], prices: Prices
) -> None:
    for _, _, _, joints in legs_and_joints(filling(*wall, prices), wall[1]):
        assert all(LEAST <= b - a <= TINY_KIT.full_width for a, b in pairwise(joints))


BARE = st.lists(st.lists(st.booleans(), min_size=PITCHES + 1, max_size=PITCHES + 1), min_size=COURSES, max_size=COURSES)


@law
@given(WALLS, PRICES, BARE)
def test_a_table_put_together_is_the_one_measured_whole(
    wall: tuple[tuple[Block, ...], tuple[bool, bool]], prices: Prices, bare: list[list[bool]]
) -> None:
    """Blocks anywhere, and for every course and pitch line drawn whether timber is behind it."""
    blocks, free_ends = wall
    by_course = np.array(bare, dtype=np.int64)
    backed = Backed(by_course.tobytes(), lambda course: np.asarray(by_course[course]))
    on_wall = RowOnWall(LAYERS, PITCHES, free_ends, blocks, backed)
    together, whole = SHOP.tables.priced_wall(on_wall, prices), SHOP.tables.whole_wall(on_wall, prices)
    inside = whole < UNREACHABLE
    np.testing.assert_array_equal(together[inside], whole[inside])
    np.testing.assert_array_equal(together >= UNREACHABLE, ~inside)


@law
@given(WALLS, PRICES)
def test_the_panels_between_joints_cost_together_what_the_filling_says(
    wall: tuple[tuple[Block, ...], tuple[bool, bool]], prices: Prices
) -> None:
    blocks, free_ends = wall
    table = SHOP.tables.priced_wall(RowOnWall(LAYERS, PITCHES, free_ends, blocks, UNBACKED), prices)
    for _, _, cost, joints in legs_and_joints(filling(blocks, free_ends, prices), free_ends):
        assert sum(int(table[a, b - a - LEAST]) for a, b in pairwise(joints)) == cost


def test_legs_that_leave_less_than_a_panel_between_them_do_not_fit() -> None:
    """19 pitches less legs of 8 leave 3, less than the least panel of 4; legs of 8 and 7 leave just 4."""
    ends = SHOP.filling(RowOnWall(LAYERS, 19, (False, False), (), UNBACKED), Prices(1, 1)).filling.ends
    assert ends[-1, -1] == UNREACHABLE
    assert ends[-1, -2] < UNREACHABLE


def test_legs_that_meet_leave_nothing_to_fill() -> None:
    assert SHOP.filling(RowOnWall(LAYERS, 16, (False, False), (), UNBACKED), Prices(1, 1)).filling.ends[-1, -1] == 0


def test_a_zone_costs_the_same_wherever_it_lies() -> None:
    """Moved by one pitch, with legs one pitch longer on the left and shorter on the right."""
    here = filling((Block(18, 24, 2, 9),), (False, False), Prices(1, 1)).ends
    moved = filling((Block(19, 25, 2, 9),), (False, False), Prices(1, 1)).ends
    np.testing.assert_array_equal(here[:-1, 1:], moved[1:, :-1])
