"""The parts of a proof: ways along a wall, and bounds from shares of set-ups."""

import random

import numpy as np
import pytest

from core.setout.branching import Branching
from core.setout.choice import Chained, Choice, Place
from core.setout.planning import Planner
from core.setout.problem import Problem
from core.setout.rows import lone_stack, stacked
from core.setout.sharing import FREE
from core.setout.tariff import UNREACHABLE
from core.setout.ways import Designs, Stretch, Way, ways_along
from core.setout.workshop import Workshop
from tests.generate import TINY_KIT, seeded_room

SETUP = 1_000
SEEDS = range(40, 46)


@pytest.mark.parametrize("seed", SEEDS)
def test_the_cheapest_of_all_ways_between_two_legs_costs_what_the_shortest_path_does(seed: int) -> None:
    room = seeded_room(seed, kit=TINY_KIT, most_pitches=24, most_rows=1)
    problem, workshop = Problem(room), Workshop(room.kit, room.rates)
    rows = Planner(problem, workshop).possible_rows()
    view = rows.view(rows.graph.steps[0])
    for wall in range(room.wall_count):
        costs = view.filling(wall, FREE).leaf.costs
        stretch = Stretch.of(view, wall, np.full(costs.shape, UNREACHABLE // 2))
        cheapest = np.full(costs.shape, UNREACHABLE)
        for way in found_ways(stretch):
            cheapest[way.left, way.right] = min(cheapest[way.left, way.right], way.units)
            assert way.joints[0] == stretch.left_legs[way.left]
            assert way.joints[-1] == stretch.pitches - stretch.right_legs[way.right]
        assert np.array_equal(cheapest, np.minimum(costs, UNREACHABLE))


def found_ways(stretch: Stretch) -> list[Way]:
    work = ways_along(stretch, Designs(), lambda _: True)
    while True:
        try:
            next(work)
        except StopIteration as done:
            found: list[Way] = done.value
            return found


def random_choice(seed: int) -> Choice:
    """Two groups of rows of two walls and the corners between them, four designs, two legs."""
    pick = random.Random(seed).randint

    def place(times: int) -> Place:
        ways = [Way(i, j, pick(1, 900), pick(0, 15), ()) for i in (0, 1) for j in (0, 1) for _ in range(3)]
        return Place(times, (2, 2), ways)

    return Choice([Chained([place(times) for _ in range(4)], closed=True) for times in (1, 3)], SETUP)


@pytest.mark.parametrize("seed", range(12))
def test_trials_come_to_the_cheapest_of_all_sets_of_designs(seed: int) -> None:
    every = [random_choice(seed).with_only(designs) for designs in range(16)]
    least = min(chosen.units for chosen in every if chosen is not None)
    search = Branching(random_choice(seed), least + 10 * SETUP)
    for work in [search.begin(), search.dive()]:
        list(work)
    while search.is_open:
        list(search.go_on())
    assert search.best is not None
    assert search.best.units == least
    assert least - 1 <= search.least <= least


@pytest.mark.parametrize("seed", range(12))
def test_the_bound_of_any_shares_exceeds_no_choice(seed: int) -> None:
    choice = random_choice(seed)
    shares = np.array([random.Random(seed * 100 + n).randint(0, SETUP) for n in range(len(choice.needs))], dtype=np.int64)
    sums = np.zeros(len(choice.designs), dtype=np.int64)
    np.add.at(sums, choice.design_of, shares)
    bound = choice.cheapest(shares).units - int(np.maximum(0, sums - SETUP).sum())
    assert all(bound <= chosen.units for chosen in map(choice.with_only, range(16)) if chosen is not None)


def test_a_pinned_stack_is_the_only_one() -> None:
    rows = stacked(TINY_KIT, (5, 10))
    graph = lone_stack(rows)
    assert graph.cheapest([1, 1]) == [0, 1]
    assert graph.steps == ((0, 5), (17, 10))
