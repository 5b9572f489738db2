"""The least that a small room can take, proven: all its stacks, all ways to divide their rows, and every set-up paid once.

Work is limited by counts alone, so that the outcome is the same on every machine; where a limit is reached the bound
holds as far as it got, and nothing more is known about the room.
"""

from collections.abc import Callable, Generator, Iterator
from dataclasses import dataclass, field

import numpy as np

from core.setout.branching import Branching
from core.setout.choice import Chained, Choice, Chosen, Place, least_through
from core.setout.problem import Problem
from core.setout.rows import StackGraph
from core.setout.rowview import Joints, RowView
from core.setout.sharing import FREE
from core.setout.shell import Chain
from core.setout.tariff import TIE_ROOM, UNREACHABLE, Ints, Tariff
from core.setout.ways import Designs, Stretch, corner_ways, ways_along

Step = tuple[int, int]
"""A row by its bottom in plates and its courses."""

MOST_ROWS = 60
"""Rows worked out exactly."""
MOST_STACKS = 40
MOST_LABELS = 30_000
MOST_PIVOTS = 20_000

ROWS_AT_ONCE = 8


@dataclass(frozen=True)
class Rows:
    """The rows that stacks of one room can hold; set-ups are left out of all costs."""

    graph: StackGraph
    least: Callable[[Step], int]
    """Never more than a row's cost, and cheap."""
    cost: Callable[[Step], int]
    view: Callable[[Step], RowView]


@dataclass(frozen=True)
class Proven:
    """No plan of the room costs less than ``least`` units; ``joints`` has the rows of a better one, if there is one."""

    least: int
    joints: dict[Step, Joints] | None = None


def grain_of(tariff: Tariff) -> int:
    """Costs without their tie-breaks are whole multiples of so many units."""
    rates = (tariff.build_plain, tariff.build_shaped, tariff.build_corner, tariff.build_shaped_corner)
    return int(np.gcd.reduce([*rates, tariff.handling, tariff.setup, tariff.sliver, tariff.weak, tariff.blocking]))


def worth_finding(units: int, tariff: Tariff) -> int:
    """What a plan must stay below to be better than one of so many units, by more than tie-breaks."""
    return units // TIE_ROOM * TIE_ROOM - grain_of(tariff) + TIE_ROOM


@dataclass
class Proof:
    """The search for the best plan of one room that costs less than a known one."""

    problem: Problem
    tariff: Tariff
    rows: Rows
    _designs: Designs = field(default_factory=Designs)
    _chains: dict[int, list[Chained]] = field(default_factory=dict)
    _labels: int = 0

    def run(self, known: int) -> Generator[None, None, Proven]:
        """What can be proven about plans below ``known`` units, within the limits; pauses now and then."""
        enough = worth_finding(known, self.tariff)
        costs = [self.rows.least(step) for step in self.rows.graph.steps]
        if not (yield from self._cost_rows(costs, enough)):
            return Proven(0)
        stacks = stacks_below(self.rows.graph, costs, enough)
        if stacks is None:
            return Proven(0)
        spares = [enough - least for least in least_stacks(self.rows.graph, costs)]
        for step in sorted({step for stack in stacks for step in stack}):
            self._chains[step] = yield from self._ways(step, spares[step])
            if self._labels > MOST_LABELS:
                return Proven(0)
        return (yield from self._closed(stacks, enough))

    def _cost_rows(self, costs: list[int], enough: int) -> Generator[None, None, bool]:
        """Cost all rows exactly that a stack below ``enough`` can hold; false where there are too many."""
        known: set[int] = set()
        while True:
            through = least_stacks(self.rows.graph, costs)
            unknown = [step for step, least in enumerate(through) if least < enough and step not in known]
            if not unknown:
                return True
            for step in unknown[:ROWS_AT_ONCE]:
                costs[step] = self.rows.cost(self.rows.graph.steps[step])
                known.add(step)
                yield
            if len(known) > MOST_ROWS:
                return False

    def _ways(self, step: int, spare: int) -> Generator[None, None, list[Chained]]:
        """The ways of a row that a plan can use which spends so much more than the cheapest one without set-ups."""
        view = self.rows.view(self.rows.graph.steps[step])
        found = []
        for chain in self.problem.chains:
            places = []
            for wall, is_corner, costs, excess in _places(view, chain):
                most = np.where(costs < UNREACHABLE, costs + spare - excess, 0)
                if is_corner:
                    ways = corner_ways(view, wall, self._designs, most)
                else:
                    ways = yield from ways_along(Stretch.of(view, wall, most), self._designs, self._count)
                places.append(Place(1, (costs.shape[0], costs.shape[1]), sorted(ways, key=lambda way: (way.left, way.right))))
                yield
                if self._labels > MOST_LABELS:
                    return []
            found.append(Chained(places, chain.closed))
        return found

    def _count(self, labels: int) -> bool:
        self._labels += labels
        return self._labels <= MOST_LABELS

    def _closed(self, stacks: list[list[int]], enough: int) -> Generator[None, None, Proven]:
        """Close the stacks, always going on with the one that could still cost least."""
        found: tuple[list[list[int]], Chosen] | None = None
        searches: list[tuple[Branching, list[list[int]]]] = []
        pivots = 0

        def settle(search: Branching, groups: list[list[int]]) -> None:
            nonlocal found, enough
            if search.best is not None and search.best.units < enough:
                found, enough = (groups, search.best), worth_finding(search.best.units, self.tariff)
                for other, _ in searches:
                    other.enough = min(other.enough, enough)

        for stack in stacks:
            groups = self._alike(stack)
            chains = [_repeated(chain, len(steps)) for steps in groups for chain in self._chains[steps[0]]]
            search = Branching(Choice(chains, self.tariff.setup), enough)
            searches.append((search, groups))
            yield from search.begin()
            settle(search, groups)
            yield from search.dive()
            settle(search, groups)
        while pivots <= MOST_PIVOTS and (waiting := [one for one in searches if one[0].is_open]):
            search, groups = min(waiting, key=lambda one: one[0].least)
            yield from search.go_on()
            settle(search, groups)
            pivots = sum(one.pivots for one, _ in searches)
        least = min([enough, *(search.least for search, _ in searches)])
        return Proven(least, None if found is None else dict(self._joints(*found)))

    def _alike(self, stack: list[int]) -> list[list[int]]:
        """The rows of a stack, those together that are divided alike."""
        groups: dict[object, list[int]] = {}
        for step in stack:
            groups.setdefault(self.rows.view(self.rows.graph.steps[step]).key, []).append(step)
        return list(groups.values())

    def _joints(self, groups: list[list[int]], chosen: Chosen) -> Iterator[tuple[Step, Joints]]:
        """The joints of every row of a choice."""
        chains = iter(chosen.ways)
        for steps in groups:
            joints: list[tuple[int, ...]] = [()] * self.problem.room.wall_count
            for chain in self.problem.chains:
                for wall, way in zip(chain.walls, next(chains)[::2], strict=True):
                    joints[wall] = way.joints
            yield from ((self.rows.graph.steps[step], tuple(joints)) for step in steps)


def _repeated(chain: Chained, times: int) -> Chained:
    return Chained([place._replace(times=times) for place in chain.places], chain.closed)


def _places(view: RowView, chain: Chain) -> list[tuple[int, bool, Ints, Ints]]:
    """The walls of a chain and the corners at their left ends in turn, the closing corner last.

    Each with whether it is a corner, its least costs by legs, and by how much the row exceeds its least with such legs.
    """
    found = []
    for at, wall in enumerate(chain.walls):
        if at:
            found.append((wall, True, view.corner(wall, FREE).costs))
        found.append((wall, False, view.filling(wall, FREE).leaf.costs))
    if chain.closed:
        found.append((chain.walls[0], True, view.corner(chain.walls[0], FREE).costs))
    through = least_through([costs for _, _, costs in found], chain.closed)
    return [(wall, is_corner, costs, least - least.min()) for (wall, is_corner, costs), least in zip(found, through, strict=True)]


def least_stacks(graph: StackGraph, costs: list[int]) -> list[int]:
    """By step, the least sum of a stack that holds it."""
    above = _least_above(graph, costs)
    below = [int(UNREACHABLE)] * len(graph.onward)
    below[-1:] = [0] * len(below[-1:])
    found = [int(UNREACHABLE)] * len(graph.steps)
    for state in range(len(graph.onward) - 1, -1, -1):
        for step, onto in graph.onward[state][1]:
            reached = below[state] + costs[step]
            below[onto] = min(below[onto], reached)
            found[step] = min(found[step], reached + above[onto])
    return found


def _least_above(graph: StackGraph, costs: list[int]) -> list[int]:
    """By state, the least sum of the rows above it."""
    above: list[int] = []
    for may_end, leads in graph.onward:
        sums = [costs[step] + above[onto] for step, onto in leads]
        above.append(min([0 if may_end else int(UNREACHABLE), *sums]))
    return above


def stacks_below(graph: StackGraph, costs: list[int], limit: int) -> list[list[int]] | None:
    """All stacks, as steps from the floor up, whose costs come to less than a limit, the cheapest first; None if too many."""
    above = _least_above(graph, costs)
    found: list[tuple[int, list[int]]] = []
    growing = [(0, len(graph.onward) - 1, list[int]())] if graph.onward else []
    while growing and len(found) <= MOST_STACKS:
        cost, state, steps = growing.pop()
        may_end, leads = graph.onward[state]
        if may_end and cost < limit:
            found.append((cost, steps))
        growing += [
            (cost + costs[step], onto, [*steps, step]) for step, onto in leads if cost + costs[step] + above[onto] < limit
        ]
    return [steps for _, steps in sorted(found)] if len(found) <= MOST_STACKS else None
