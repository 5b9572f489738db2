"""Row stacks: which fit under a clad height, and the cheapest of them, compared with trying every one."""

import random
from collections import Counter
from collections.abc import Iterator

from hypothesis import given
from hypothesis import strategies as st

from core.kit import Kit
from core.setout.rows import Stacking, cheapest_stack, stacking_of
from tests.core.setout.rooms import KIT, demo, law
from tests.generate import TINY_KIT

Step = tuple[int, int]
HEIGHTS_TENTHS = st.integers(400, 4_200)
SEEDS = st.integers(0, 10_000)


class Prices:
    """Row costs drawn once for each row, a bound somewhere below them, and a count of what was asked."""

    def __init__(self, seed: int, kit: Kit) -> None:
        self._seed = seed
        self._kit = kit
        self.asked: Counter[Step] = Counter()

    def of(self, step: Step) -> int:
        return random.Random(f"{self._seed} {step}").randint(0, 60)

    def bound(self, bottom: int, courses: int) -> int:
        cost = self.of((bottom, courses))
        return cost - random.Random(f"below {self._seed} {bottom} {courses}").randint(0, cost)

    def evaluate(self, steps: list[Step]) -> list[int]:
        self.asked.update(steps)
        return [self.of(step) for step in steps]


def no_bound(_bottom: int, _courses: int) -> int:
    return 0


def every_stack(stacking: Stacking, bottom: int = 0, *, closed: bool = False) -> Iterator[tuple[Step, ...]]:
    """All stacks that fit, found by trying."""
    kit = stacking.kit
    if stacking.least_plates <= bottom <= stacking.most_plates:
        yield ()
    for courses in range(kit.least_closing_courses, kit.full_courses + 1):
        top = bottom + 3 * courses + 2
        is_closing = courses not in (kit.full_courses, kit.half_courses)
        if top <= stacking.most_plates and not (closed and is_closing):
            for rest in every_stack(stacking, top, closed=closed or is_closing):
                yield ((bottom, courses), *rest)


def test_demo_height_leaves_room_for_616_to_618_plates() -> None:
    """1980 mm are 618.75 plates of 3.2 mm; 10 mm less are 615.6."""
    stacking = stacking_of(KIT, demo().clad_height_mm)
    assert (stacking.least_plates, stacking.most_plates) == (616, 618)


def test_demo_height_takes_six_full_rows_and_one_half() -> None:
    """6 x 95 + 47 = 617 plates are the only seven rows that fit, and fewer do not reach."""
    rows = cheapest_stack(stacking_of(KIT, 1980.0), no_bound, lambda steps: [1 for _ in steps])
    assert [row.courses for row in rows] == [31] * 6 + [15]


@law
@given(SEEDS, HEIGHTS_TENTHS)
def test_what_stays_open_under_the_head_is_at_most_the_head_gap(seed: int, tenths: int) -> None:
    rows = cheapest_stack(stacking_of(TINY_KIT, tenths / 10), no_bound, Prices(seed, TINY_KIT).evaluate)
    if rows:
        top_tenths = 32 * sum(3 * row.courses + 2 for row in rows)
        assert tenths - 100 <= top_tenths <= tenths


@law
@given(SEEDS, HEIGHTS_TENTHS)
def test_rows_stand_on_one_another_from_the_floor(seed: int, tenths: int) -> None:
    at = 0
    for row in cheapest_stack(stacking_of(TINY_KIT, tenths / 10), no_bound, Prices(seed, TINY_KIT).evaluate):
        assert row.z_plates == at
        at += row.height_plates


def _least(prices: Prices, stacking: Stacking) -> int | None:
    return min((sum(prices.of(step) for step in stack) for stack in every_stack(stacking)), default=None)


@law
@given(SEEDS, HEIGHTS_TENTHS)
def test_no_other_stack_is_cheaper_when_nothing_is_known_beforehand(seed: int, tenths: int) -> None:
    stacking, prices = stacking_of(TINY_KIT, tenths / 10), Prices(seed, TINY_KIT)
    rows = cheapest_stack(stacking, no_bound, prices.evaluate)
    found = sum(prices.of((row.z_plates, row.courses)) for row in rows) if rows else None
    assert found == _least(prices, stacking)


@law
@given(SEEDS, HEIGHTS_TENTHS)
def test_no_other_stack_is_cheaper_when_rows_are_bounded_from_below(seed: int, tenths: int) -> None:
    stacking, prices = stacking_of(TINY_KIT, tenths / 10), Prices(seed, TINY_KIT)
    rows = cheapest_stack(stacking, prices.bound, prices.evaluate)
    found = sum(prices.of((row.z_plates, row.courses)) for row in rows) if rows else None
    assert found == _least(prices, stacking)


@law
@given(SEEDS, HEIGHTS_TENTHS)
def test_no_row_is_worked_out_twice(seed: int, tenths: int) -> None:
    prices = Prices(seed, TINY_KIT)
    cheapest_stack(stacking_of(TINY_KIT, tenths / 10), prices.bound, prices.evaluate)
    assert max(prices.asked.values(), default=1) == 1


def test_rows_ruled_out_by_their_bound_are_never_worked_out() -> None:
    prices = Prices(1, TINY_KIT)
    cheapest_stack(stacking_of(TINY_KIT, 204.8), lambda _, courses: 0 if courses == 10 else 1_000, prices.evaluate)
    assert set(prices.asked) == {(0, 10), (32, 10)}


def test_a_height_under_the_lowest_row_has_no_stack() -> None:
    """Three courses, a plate and a cap are 11 plates: 35.2 mm."""
    assert cheapest_stack(stacking_of(TINY_KIT, 35.1), no_bound, lambda steps: [0 for _ in steps]) == ()


def test_a_height_that_no_stack_comes_near_has_none() -> None:
    """The lowest rows of this kit end at 35.2 and 44.8 mm; without a head gap nothing ends at 40 mm."""
    kit = TINY_KIT.model_copy(update={"head_gap_mm": 0.0})
    assert cheapest_stack(stacking_of(kit, 40.0), no_bound, lambda steps: [0 for _ in steps]) == ()


@law
@given(HEIGHTS_TENTHS)
def test_a_stack_has_at_most_one_closing_row_however_cheap_they_are(tenths: int) -> None:
    rows = cheapest_stack(
        stacking_of(TINY_KIT, tenths / 10), no_bound, lambda steps: [100 * (courses in (10, 5)) for _, courses in steps]
    )
    assert sum(row.courses not in (10, 5) for row in rows) <= 1


def test_among_equals_the_stack_with_fewer_rows_is_taken() -> None:
    """90 to 93 plates. A full row at the foot is free, but a tall one on it is not, so that it needs three more; a closing row of
    nine courses carries two full ones."""
    rows = cheapest_stack(
        stacking_of(TINY_KIT, 297.6), no_bound, lambda steps: [int(bottom == 32 and courses >= 8) for bottom, courses in steps]
    )
    assert [row.courses for row in rows] == [9, 10, 10]


def test_among_equals_taller_rows_stand_lower_down() -> None:
    """49 plates: a full row and a half one."""
    rows = cheapest_stack(
        stacking_of(TINY_KIT, 156.8), no_bound, lambda steps: [int(courses not in (10, 5)) for _, courses in steps]
    )
    assert [row.courses for row in rows] == [10, 5]
