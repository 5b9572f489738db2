"""Cutting boards from stock lengths: the least timber there is, with a proof.

A pattern is what is cut from one board. Boards filled one after the other, as full as they can be, make the first plans; where
one of them meets the pieces' own length, rounded up to whole boards, it is the least there is. Otherwise the linear program over
all patterns is solved by column generation (P. C. Gilmore and R. E. Gomory, Operations Research 9, 1961): a knapsack priced by
dynamic programming finds the pattern that would help most, until none helps. Its optimum is a better bound, and an integer
program over the patterns found may give a better plan; while that is above the bound, all patterns whose reduced cost could still
close the gap are added and the program is solved again, which makes it exact. Where that would take too many patterns, or the
lengths are very many and the plan is within a hundredth of the bound, the plan shows the bound without meeting it. Lengths are
whole tenths of a millimetre throughout.
"""

from collections import Counter
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from math import ceil, gcd

from core.frame.patterns import Pattern, Pricing, all_within, filled_boards
from core.frame.programs import cheapest_mix, relaxed_mix

PER_MM = 10
MOST_PATTERNS = 6_000
MANY_LENGTHS, MANY_SLACK = 60, 0.01
"""With more different lengths than that, a plan within a hundredth of the bound is good enough."""
_ROUNDS = 500
_SMALL = 1e-6
_FAVOURS = (1.0, 1.02, 1.1, 1.3, 2.0)
"""How strongly the first plans prefer long pieces; the best of them often meets the bound, which ends the search."""


@dataclass(frozen=True, slots=True)
class Cut:
    """Boards of one stock length that are all cut alike: pieces longest first, and what is left of each."""

    stock_mm: float
    pieces_mm: tuple[float, ...]
    offcut_mm: float
    count: int


@dataclass(frozen=True, slots=True)
class CuttingPlan:
    """``bought_mm`` is the timber the boards come to; no plan needs less than ``at_least_mm``."""

    cuts: tuple[Cut, ...]
    bought_mm: float
    at_least_mm: float
    needed_mm: float
    too_long_mm: tuple[float, ...]
    """Pieces no stock length holds, each as often as it was asked for."""

    @property
    def boards(self) -> int:
        return sum(cut.count for cut in self.cuts)

    @property
    def is_proven(self) -> bool:
        """Whether this is the least timber there is."""
        return self.bought_mm <= self.at_least_mm + 1e-6

    @property
    def waste_share(self) -> float:
        """What of the timber bought does not end up in pieces, saw cuts included."""
        return 1 - self.needed_mm / self.bought_mm if self.bought_mm else 0.0


def cut_from_stock(pieces_mm: Mapping[float, int], stock_mm: Sequence[float], kerf_mm: float = 0.0) -> CuttingPlan:
    """The plan that buys least timber. ``pieces_mm`` counts pieces by length; a cut between two pieces takes ``kerf_mm``."""
    wanted = Counter[int]()
    for length, count in pieces_mm.items():
        if count > 0:
            wanted[round(length * PER_MM)] += count
    stock = tuple(sorted({round(length * PER_MM) for length in stock_mm}))
    return _planned(tuple(sorted(wanted.items(), reverse=True)), stock, round(kerf_mm * PER_MM))


@lru_cache(maxsize=64)
def _planned(wanted: tuple[tuple[int, int], ...], stock: tuple[int, ...], kerf: int) -> CuttingPlan:
    longest = max(stock, default=0)
    too_long = tuple(length / PER_MM for length, count in wanted if length > longest for _ in range(count))
    fitting = [(length, count) for length, count in wanted if 0 < length <= longest]
    needed = sum(length * count for length, count in fitting)
    if not fitting:
        return CuttingPlan((), 0.0, 0.0, 0.0, too_long)
    lengths, demand = [length for length, _ in fitting], [count for _, count in fitting]
    mix, at_least = _least(Pricing([w + kerf for w in lengths], demand, [s + kerf for s in stock]), stock)
    mix = _without_surplus(mix, demand)
    cuts = [_cut(pattern, count, lengths, kerf) for pattern, count in mix.items()]
    cuts.sort(key=lambda cut: (-cut.stock_mm, [-p for p in cut.pieces_mm]))
    bought = sum(pattern.stock * count for pattern, count in mix.items())
    return CuttingPlan(tuple(cuts), bought / PER_MM, at_least / PER_MM, needed / PER_MM, too_long)


def _least(pricing: Pricing, stock: tuple[int, ...]) -> tuple[dict[Pattern, int], int]:
    """The cheapest mix of patterns found, and the least any mix costs."""
    step = gcd(*stock)
    at_least = _whole(_material(pricing, stock), step)
    near = at_least * (1 + MANY_SLACK) if len(pricing.demand) > MANY_LENGTHS else at_least
    mix = _filled(pricing, stock, near)
    if _cost(mix) <= near:
        return mix, at_least
    patterns, duals, bound = _relaxed(pricing, stock, lambda found: _whole(found, step) >= _cost(mix))
    at_least = max(at_least, _whole(bound, step))
    if _cost(mix) > at_least:
        known = list(dict.fromkeys([*patterns, *mix]))
        mix = min(mix, cheapest_mix(known, pricing.demand, at_least)[0], key=_cost)
    if _cost(mix) > at_least:
        helpful = all_within(pricing, stock, duals, _cost(mix) - bound, MOST_PATTERNS)
        if helpful is not None:
            known = list(dict.fromkeys([*patterns, *mix, *helpful]))
            better, reached = cheapest_mix(known, pricing.demand, at_least)
            mix = min(mix, better, key=_cost)
            at_least = max(at_least, min(_cost(mix), _whole(reached, step)))
    return mix, at_least


def _filled(pricing: Pricing, stock: tuple[int, ...], enough: float) -> dict[Pattern, int]:
    """The best of the plans that fill board after board; the first whose cost is down to ``enough`` ends the search."""
    best = filled_boards(pricing, stock, _FAVOURS[0])
    for favour in _FAVOURS[1:]:
        if _cost(best) <= enough:
            break
        best = min(best, filled_boards(pricing, stock, favour), key=_cost)
    return best


def _material(pricing: Pricing, stock: tuple[int, ...]) -> float:
    """Board length that the pieces and their saw cuts take up at least."""
    pieces = sum(width * many for width, many in zip(pricing.widths, pricing.demand, strict=True))
    return pieces * min(length / room for length, room in zip(stock, pricing.rooms, strict=True))


def _whole(bound: float, step: int) -> int:
    """A bound rounded up to what whole boards can add up to."""
    return ceil((bound - _SMALL * max(1.0, bound)) / step) * step if bound > 0 else 0


def _relaxed(
    pricing: Pricing, stock: tuple[int, ...], is_enough: Callable[[float], bool]
) -> tuple[list[Pattern], list[float], float]:
    """Patterns that the linear program needs, its prices of pieces, and a lower bound of its cost; ends early on enough of it."""
    patterns = dict.fromkeys(pricing.simple_patterns(stock))
    best = 0.0
    duals: list[float] = [0.0] * len(pricing.demand)
    for _ in range(_ROUNDS):
        cost, prices = relaxed_mix(list(patterns), pricing.demand)
        found = pricing.best_patterns(stock, prices)
        # Farley's bound: prices scaled down until no pattern is worth more than its board are feasible for the dual program.
        scale = max([1.0, *(worth / pattern.stock for pattern, worth in found)])
        if sum(p * d for p, d in zip(prices, pricing.demand, strict=True)) / scale > best:
            duals = [price / scale for price in prices]
            best = sum(p * d for p, d in zip(duals, pricing.demand, strict=True))
        helping = [pattern for pattern, worth in found if worth > pattern.stock * (1 + 1e-9) and pattern not in patterns]
        if not helping or cost - best <= _SMALL * cost or is_enough(best):
            break
        patterns.update(dict.fromkeys(helping))
    return list(patterns), duals, best


def _cost(mix: Mapping[Pattern, int]) -> int:
    return sum(pattern.stock * count for pattern, count in mix.items())


def _without_surplus(mix: Mapping[Pattern, int], demand: Sequence[int]) -> dict[Pattern, int]:
    """The same boards with no piece cut more often than it is asked for."""
    left = list(demand)
    cut: Counter[Pattern] = Counter()
    for pattern, count in mix.items():
        for _ in range(count):
            taken = tuple(min(many, rest) for many, rest in zip(pattern.counts, left, strict=True))
            left = [rest - many for rest, many in zip(left, taken, strict=True)]
            if any(taken):
                cut[Pattern(pattern.stock, taken)] += 1
    return dict(cut)


def _cut(pattern: Pattern, count: int, lengths: Sequence[int], kerf: int) -> Cut:
    pieces = [length for length, many in zip(lengths, pattern.counts, strict=True) for _ in range(many)]
    left = max(0, pattern.stock - sum(pieces) - kerf * len(pieces))
    return Cut(pattern.stock / PER_MM, tuple(p / PER_MM for p in sorted(pieces, reverse=True)), left / PER_MM, count)
