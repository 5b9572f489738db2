"""The bond of one leg: a shortest path through its layers over pools of patterns, which grow until nothing better turns up."""

from dataclasses import dataclass

import numpy as np

from core.bond.legs import Leg, LegLayer
from core.bond.palette import FillKind
from core.bond.patterns import LEAST_LAP_PITCHES, SHORT_LAP, STRAIGHT, Ints, Pattern, Pool, Prices, lap_costs

MOST_ROUNDS = 12


@dataclass(frozen=True, slots=True)
class Bonded:
    """A leg's patterns from the bottom up, and what they cost in units of ``patterns``."""

    patterns: tuple[Pattern, ...]
    cost: int


def bond_leg(leg: Leg, prices: dict[FillKind, Prices]) -> Bonded:
    """The cheapest bond found for a leg whose every free run can be filled.

    It is the cheapest there is if every layer has few patterns; otherwise no single layer can be laid better.
    """
    return _Search(leg, prices).bonded()


class _Search:
    def __init__(self, leg: Leg, prices: dict[FillKind, Prices]) -> None:
        low, high = _reach(leg)
        self._layers = leg.layers
        made: dict[LegLayer, Pool] = {}
        for layer in leg.layers:
            if layer not in made:
                made[layer] = Pool(layer, prices[layer.fill], low, high - low + 1)
        self._pools = [made[layer] for layer in leg.layers]
        self._laps: dict[tuple[int, int], Ints] = {}

    def bonded(self) -> Bonded:
        best = self._shortest()
        for _ in range(MOST_ROUNDS):
            if not self._grow(best):
                break
            found = self._shortest()
            if found.cost >= best.cost:
                break
            best = found
        return best

    def _shortest(self) -> Bonded:
        """The cheapest choice of one pattern per layer; the earlier pattern among equals."""
        self._laps.clear()
        cost = self._pools[0].costs
        back: list[Ints] = []
        for lower, upper in zip(self._pools, self._pools[1:], strict=False):
            total = self._lap(upper, lower) + cost[None, :]
            chosen = total.argmin(axis=1)
            back.append(chosen)
            cost = total[np.arange(len(chosen)), chosen] + upper.costs
        last = int(cost.argmin())
        picks = [last]
        for chosen in reversed(back):
            picks.append(int(chosen[picks[-1]]))
        picks.reverse()
        return Bonded(tuple(pool.patterns[n] for pool, n in zip(self._pools, picks, strict=True)), int(cost[last]))

    def _lap(self, upper: Pool, lower: Pool) -> Ints:
        key = id(upper), id(lower)
        if key not in self._laps:
            self._laps[key] = lap_costs(upper.joints, lower.joints)
        return self._laps[key]

    def _grow(self, best: Bonded) -> bool:
        """Add to every pool the best patterns between, above and below the neighbours chosen; whether any was new."""
        grown = False
        chosen = [pool.joints_in(pattern) for pool, pattern in zip(self._pools, best.patterns, strict=True)]
        answers: list[tuple[Pool, Pattern]] = []
        seen = set()
        for n, pool in enumerate(self._pools):
            below = tuple(chosen[n - 1]) if n else ()
            above = tuple(chosen[n + 1]) if n + 1 < len(chosen) else ()
            for neighbours in ((below, above), (below,), (above,)):
                key = id(pool), neighbours
                if key not in seen:
                    seen.add(key)
                    answers.append((pool, best_pattern(pool, neighbours)))
        for pool, pattern in answers:
            grown |= pool.add([pattern])
        return grown


def best_pattern(pool: Pool, neighbours: tuple[tuple[int, ...], ...]) -> Pattern:
    """The cheapest filling of a layer between neighbours whose joints are given; it need not be in the pool."""
    weights: dict[int, int] = {}
    for joints in neighbours:
        for x in joints:
            weights[x] = weights.get(x, 0) + STRAIGHT
            for apart in range(1, LEAST_LAP_PITCHES):
                for line in (x - apart, x + apart):
                    weights[line] = weights.get(line, 0) + SHORT_LAP
    found: list[tuple[int, int]] = []
    for left, right in pool.layer.free:
        found += _fill(pool, weights, left, right)
    return tuple(found)


def _fill(pool: Pool, weights: dict[int, int], left: int, right: int) -> list[tuple[int, int]]:
    """The cheapest filling of one run, from the left."""
    best: list[tuple[int, int] | None] = [(0, 0)]
    for x in range(left + 1, right + 1):
        joint = weights.get(x, 0) + pool.joint_cost(x) if x < right else 0
        options = []
        for length, _ in pool.prices:
            before = best[x - length - left] if x - length >= left else None
            if before is not None:
                options.append((before[0] + joint + pool.piece_cost(x - length, length), length))
        best.append(min(options, default=None))
    found = []
    x = right
    while x > left:
        entry = best[x - left]
        if entry is None:
            raise ValueError(f"a run of {right - left} pitches cannot be filled")
        found.append((x - entry[1], entry[1]))
        x -= entry[1]
    return found[::-1]


def _reach(leg: Leg) -> tuple[int, int]:
    """The lowest and highest pitch line of a leg."""
    lines = [x for layer in leg.layers for run in (*layer.free, *layer.fixed, *(layer.below or ())) for x in run]
    return min(lines, default=0), max(lines, default=0)
