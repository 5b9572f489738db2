"""The bond of one leg: a shortest path through its layers over pools of patterns, which grow until nothing better turns up."""

from dataclasses import dataclass
from functools import cached_property, lru_cache
from itertools import pairwise

import numpy as np
from numpy.typing import NDArray

from core.bond.legs import Leg, LegLayer
from core.bond.palette import FillKind
from core.bond.patterns import LAP_WEIGHTS, POOR_BEARING, Floats, Pattern, Pool, Prices, Tariff, clashes, pool_for, tariff_of

MOST_ROUNDS = 12

Size = tuple[FillKind, int]
"""A kind of filling piece and its length."""
Neighbours = tuple[tuple[int, ...], ...]
"""The joints of the layers beside one."""


@dataclass(frozen=True, slots=True)
class Bonded:
    """A leg's patterns from the bottom up, and what they cost in the units of ``patterns``."""

    patterns: tuple[Pattern, ...]
    cost: int


class LegSearch:
    """Looks for the cheapest bond of a leg whose every free run can be filled.

    What it finds is the cheapest there is if every layer has few patterns; otherwise no single layer can be laid better.
    """

    def __init__(self, leg: Leg, prices: dict[FillKind, Prices]) -> None:
        low, high = _lines(leg)
        made: dict[LegLayer, Pool] = {}
        for layer in leg.layers:
            if layer not in made:
                made[layer] = pool_for(layer, prices[layer.fill], low, high - low + 1)
                made[layer].add(best_pattern(layer, prices[layer.fill], ()))
        self._pools = [made[layer] for layer in leg.layers]
        self._laps: dict[tuple[int, int, int, int], Floats] = {}
        self.best = self._search()

    def without(self, sizes: frozenset[Size], most: int) -> Bonded | None:
        """The cheapest bond among the patterns known that does without some sizes; None where none costs at most ``most``."""
        costs: dict[int, Floats] = {}
        for key, (pool, through) in self._through.items():
            kept = pool.without({length for fill, length in sizes if fill == pool.layer.fill})
            if not kept.any() or through[:, kept].min(axis=1).max() > most:
                return None
            costs[key] = np.where(kept, pool.costs, np.inf)
        found = self._shortest(costs)
        return found if found.cost <= most else None

    @cached_property
    def _through(self) -> dict[int, tuple[Pool, Floats]]:
        """What the cheapest bond comes to that has a pattern in a layer, by pool, shape (layers of the pool, patterns)."""
        costs = self._costs()
        rising, falling = self._reach(costs), self._reach(costs, down=True)[::-1]
        found: dict[int, tuple[Pool, list[Floats]]] = {}
        for pool, below, above in zip(self._pools, rising, falling, strict=True):
            found.setdefault(id(pool), (pool, []))[1].append(below + above - pool.costs)
        return {key: (pool, np.array(rows)) for key, (pool, rows) in found.items()}

    def _search(self) -> Bonded:
        best = self._shortest(self._costs())
        for _ in range(MOST_ROUNDS):
            if not self._grow(best):
                break
            found = self._shortest(self._costs())
            if found.cost >= best.cost:
                break
            best = found
        return best

    def _costs(self) -> dict[int, Floats]:
        """What the patterns of every pool cost by themselves."""
        return {id(pool): pool.costs for pool in self._pools}

    def _shortest(self, costs: dict[int, Floats]) -> Bonded:
        """The cheapest choice of one pattern per layer, at these costs by pool; the earlier pattern among equals."""
        cost = costs[id(self._pools[0])]
        back: list[NDArray[np.intp]] = []
        for lower, upper in pairwise(self._pools):
            total = self._lap(upper, lower) + cost
            chosen = total.argmin(axis=1)
            back.append(chosen)
            cost = total[np.arange(len(chosen)), chosen] + costs[id(upper)]
        picks = [int(cost.argmin())]
        least = int(cost[picks[0]])
        for chosen in reversed(back):
            picks.append(int(chosen[picks[-1]]))
        picks.reverse()
        return Bonded(tuple(pool.pattern(n) for pool, n in zip(self._pools, picks, strict=True)), least)

    def _reach(self, costs: dict[int, Floats], *, down: bool = False) -> list[Floats]:
        """What the layers up to each of a layer's patterns come to at least, from the bottom, or from the top ``down``."""
        pools = self._pools[::-1] if down else self._pools
        found = [costs[id(pools[0])]]
        for before, pool in pairwise(pools):
            lap = self._lap(before, pool).T if down else self._lap(pool, before)
            found.append((lap + found[-1]).min(axis=1) + costs[id(pool)])
        return found

    def _lap(self, upper: Pool, lower: Pool) -> Floats:
        key = id(upper), len(upper), id(lower), len(lower)
        if key not in self._laps:
            self._laps[key] = clashes(upper.joints, lower.joints, LAP_WEIGHTS)
        return self._laps[key]

    def _grow(self, best: Bonded) -> bool:
        """Add to the pools the best patterns between, above and below the neighbours chosen; whether any was new.

        Layers that cost no more than they must are left alone. Where worse than a short lap is at stake, the neighbours are also
        asked what they would answer to each of those patterns.
        """
        chosen = [tuple(pool.joints_in(pattern)) for pool, pattern in zip(self._pools, best.patterns, strict=True)]
        answers: dict[tuple[int, Neighbours], Pool] = {}
        for n, pool in enumerate(self._pools):
            below, above = chosen[n - 1] if n else (), chosen[n + 1] if n + 1 < len(chosen) else ()
            cost = _own_cost(pool, best.patterns[n], chosen[n]) + _clash(chosen[n], below) + _clash(chosen[n], above)
            excess = cost - pool.costs.min()
            if excess > 0:
                asked: list[Neighbours] = [(below, above), (below,), (above,)]
                answers |= {(id(pool), beside): pool for beside in asked}
                if excess >= POOR_BEARING:
                    answers |= self._second_thoughts(n, [*asked, ()], chosen)
        grown = [pool.add(best_pattern(pool.layer, pool.prices, beside)) for (_, beside), pool in answers.items()]
        return any(grown)

    def _second_thoughts(
        self, n: int, asked: list[Neighbours], chosen: list[tuple[int, ...]]
    ) -> dict[tuple[int, Neighbours], Pool]:
        """What to ask the layers beside one about the patterns it might take."""
        pool = self._pools[n]
        answers: dict[tuple[int, Neighbours], Pool] = {}
        for beside in asked:
            joints = tuple(pool.joints_in(best_pattern(pool.layer, pool.prices, beside)))
            for m, beyond in ((n - 1, n - 2), (n + 1, n + 2)):
                if 0 <= m < len(self._pools):
                    further = chosen[beyond] if 0 <= beyond < len(chosen) else ()
                    neighbour = self._pools[m]
                    answers[id(neighbour), (joints,)] = neighbour
                    answers[id(neighbour), (joints, further)] = neighbour
        return answers


def _own_cost(pool: Pool, pattern: Pattern, joints: tuple[int, ...]) -> int:
    return sum(pool.tariff.piece(*piece) for piece in pattern) + sum(pool.tariff.joint(x) for x in joints)


def _clash(joints: tuple[int, ...], others: tuple[int, ...]) -> int:
    near = set(others)
    weight = 0
    for apart, cost in LAP_WEIGHTS.items():
        weight += cost * sum((x - apart in near) + (apart > 0 and x + apart in near) for x in joints)
    return weight


@lru_cache(maxsize=4096)
def best_pattern(layer: LegLayer, prices: Prices, beside: Neighbours) -> Pattern:
    """The cheapest filling of a layer between neighbours whose joints are given."""
    weights: dict[int, int] = {}
    for joints in beside:
        for x in joints:
            for apart, cost in LAP_WEIGHTS.items():
                for line in {x - apart, x + apart}:
                    weights[line] = weights.get(line, 0) + cost
    tariff = tariff_of(layer, prices)
    return tuple(piece for run in layer.free for piece in _fill(tariff, weights, *run))


def _fill(tariff: Tariff, weights: dict[int, int], left: int, right: int) -> list[tuple[int, int]]:
    """The cheapest filling of one run, from the left; the shorter last piece among equals."""
    pieces = tariff.pieces((left, right))
    best: list[tuple[int, int] | None] = [(0, 0)]
    for end in range(1, right - left + 1):
        least: tuple[int, int] | None = None
        for length, costs in pieces:
            if length > end:
                break
            before = best[end - length]
            if before is not None and (least is None or before[0] + costs[end - length] < least[0]):
                least = before[0] + costs[end - length], length
        if least is not None and left + end < right:
            least = least[0] + weights.get(left + end, 0) + tariff.joint(left + end), least[1]
        best.append(least)
    found = []
    x = right
    while x > left:
        entry = best[x - left]
        if entry is None:
            raise ValueError(f"a run of {right - left} pitches cannot be filled")
        found.append((x - entry[1], entry[1]))
        x -= entry[1]
    return found[::-1]


def _lines(leg: Leg) -> tuple[int, int]:
    """The lowest and highest pitch line of a leg."""
    lines = [x for layer in leg.layers for run in (*layer.free, *layer.fixed, *(layer.below or ())) for x in run]
    return min(lines, default=0), max(lines, default=0)
