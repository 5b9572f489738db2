"""Fillings in many trials side by side cost what each trial costs by itself."""

from functools import cache

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.setout.paths import WallPaths
from core.setout.planning import Planner
from core.setout.problem import Problem
from core.setout.rowview import RowView
from core.setout.tariff import UNREACHABLE, Ints, MakeUp, Prices
from core.setout.trials import Cheaper, TrialPaths
from core.setout.variants import partial_makes, whole, with_one_width_more
from core.setout.workshop import workshop_for
from tests.core.setout.rooms import demo, law

LEAST, FULL, PITCHES, TRIALS = 3, 7, 26, 4
WIDTHS = FULL - LEAST + 1
STARTS = np.array([0, 3, 4])
LEGS = np.array([0, 3, 5, 30])

CANDIDATES = [(begin, width) for begin in range(PITCHES) for width in range(LEAST, FULL + 1) if begin + width <= PITCHES]
SAVINGS = st.lists(st.tuples(st.sampled_from(CANDIDATES), st.integers(1, TRIALS), st.integers(0, 90)), max_size=60)
COSTS = st.lists(st.integers(100, 1_000), min_size=len(CANDIDATES), max_size=len(CANDIDATES))


def table_of(costs: list[int]) -> Ints:
    table = np.full((PITCHES, WIDTHS), UNREACHABLE, dtype=np.int64)
    for (begin, width), cost in zip(CANDIDATES, costs, strict=True):
        table[begin, width - LEAST] = cost
    return table


@law
@given(COSTS, SAVINGS)
def test_every_trial_costs_what_it_costs_by_itself(costs: list[int], savings: list[tuple[tuple[int, int], int, int]]) -> None:
    table = table_of(costs)
    alone = np.repeat(table[None], 1 + TRIALS, axis=0)
    for (begin, width), trial, units in savings:
        alone[trial, begin, width - LEAST] -= units
    columns = np.array([(*candidate, trial, units) for candidate, trial, units in savings], dtype=np.int64).reshape(-1, 4).T
    found = TrialPaths(table, LEAST, STARTS, Cheaper(TRIALS, *columns)).ends(LEGS)
    paths = WallPaths(alone, LEAST, STARTS)
    np.testing.assert_array_equal(found, [paths.ends(trial, LEGS) for trial in range(1 + TRIALS)])


@law
@given(COSTS, SAVINGS)
def test_paths_along_tables_alike_are_those_along_the_table_itself(
    costs: list[int], savings: list[tuple[tuple[int, int], int, int]]
) -> None:
    """Tables that differ anywhere, or nowhere, and starts that differ."""
    before, table = table_of(costs), table_of(costs)
    for (begin, width), _, units in savings:
        table[begin, width - LEAST] -= units
    alone = WallPaths(table[None], LEAST, STARTS)
    for like in (WallPaths(before[None], LEAST, STARTS), WallPaths(before[None], LEAST, STARTS + 1)):
        found = WallPaths(table[None], LEAST, STARTS, like)
        np.testing.assert_array_equal(found.ends(0, LEGS), alone.ends(0, LEGS))
        for start, leg in np.argwhere(alone.ends(0, LEGS) < UNREACHABLE):
            assert found.joints(0, start, LEGS[leg]) == alone.joints(0, start, LEGS[leg])


@cache
def rows_of_the_demo_room() -> tuple[RowView, ...]:
    problem = Problem(demo())
    planner = Planner(problem, workshop_for(problem.room.kit, problem.room.rates))
    rows = planner.stack(planner.spread)
    return tuple(planner.view_at((row.z_plates, row.courses)) for row in rows)


def makes_of(view: RowView) -> list[MakeUp]:
    return [whole(view.row.courses), *sorted(partial_makes(view))]


@pytest.mark.parametrize("at", [0, 1, 3])
def test_a_width_on_trial_costs_a_row_what_it_costs_once_set_up(at: int) -> None:
    view, prices = rows_of_the_demo_room()[at], Prices(2, 2)
    widths = (8, 13, 27, 37)
    for made in makes_of(view):
        tried = with_one_width_more(view, prices, made, widths, view.workshop.legs)
        set_up = [view.cost(prices._replace(open_plain=frozenset({(width, made)}))) for width in widths]
        assert tried.tolist() == [view.cost(prices), *set_up]
