"""Fillings of one layer on one leg, many at a time, and what they cost by themselves and above one another.

Costs are whole units, held as floats that stay exact. The unit that people think in is one part.
"""

from dataclasses import dataclass, field
from functools import lru_cache
from itertools import accumulate, chain, islice, product

import numpy as np
from numpy.typing import NDArray

from core.bond.legs import LegLayer, covers, touches
from core.bond.shape import Run, Runs
from core.bond.tilings import Tiling, joints_of, short_tilings

LEAST_LAP_PITCHES = 2
LEAST_BEARING_PITCHES = 2

PART = 10_000
SHORT_LAP = PART
"""A lap too short is put up with where only more than one further part would do away with it."""
POOR_BEARING = 1_000 * PART
STRAIGHT = 100_000 * PART
LOOSE = 10 * STRAIGHT
"""A piece that touches nothing below and nothing above."""

MOST_PATTERNS = 120
"""So many to begin with where a layer has more."""
SMALL = 210
"""Layers with no more patterns than this have all of them."""

SINGLE_THREADED = 250_000
"""Products up to this many terms are taken by one thread; waking others costs more than it saves."""

Pattern = tuple[tuple[int, int], ...]
"""The pieces that fill a layer's free runs: left end and length of each, from the left."""
Prices = tuple[tuple[int, int], ...]
"""What a piece of each length costs in units, shortest first."""
Floats = NDArray[np.float64]


def clashes(upper: Floats, lower: Floats, weights: dict[int, int]) -> Floats:
    """What the joints of every upper row lying so far from those of every lower row weigh, shape (upper, lower).

    ``upper`` and ``lower`` hold 1 where a row has a joint, shape (rows, lines); ``weights`` is by distance in pitches.
    """
    weighed = np.zeros_like(lower)
    for apart, weight in weights.items():
        if apart == 0:
            weighed += weight * lower
        elif apart < lower.shape[1]:
            weighed[:, apart:] += weight * lower[:, :-apart]
            weighed[:, :-apart] += weight * lower[:, apart:]
    rows = max(1, SINGLE_THREADED // max(1, weighed.size))
    return np.vstack([upper[n : n + rows] @ weighed.T for n in range(0, max(1, len(upper)), rows)])


LAP_WEIGHTS = {0: STRAIGHT} | dict.fromkeys(range(1, LEAST_LAP_PITCHES), SHORT_LAP)


def bears(below: Runs | None, left: int, right: int) -> bool:
    """Whether a piece finds enough below it: at both its ends, or two pitches, or half its length; or nothing at all.

    A piece with nothing below hangs from the layer above, as it must over wide openings.
    """
    if below is None:
        return True
    held = sum(max(0, min(right, b) - max(left, a)) for a, b in below)
    if held in (0, right - left) or held >= LEAST_BEARING_PITCHES or 2 * held >= right - left:
        return True
    return any(a <= left < b for a, b in below) and any(a < right <= b for a, b in below)


@dataclass(frozen=True, slots=True)
class _Fillings:
    """Tilings of one run: their joints inside the run, shape (tilings, pitches + 1), and how many of each length they take."""

    tilings: tuple[Tiling, ...]
    joints: Floats
    pieces: Floats


@lru_cache(maxsize=256)
def _fillings(run: int, lengths: tuple[int, ...], few: int, small: int) -> _Fillings:
    tilings = short_tilings(run, lengths, few, small)
    joints = np.zeros((len(tilings), run + 1))
    for row, tiling in zip(joints, tilings, strict=True):
        row[list(joints_of(tiling))] = 1
    pieces = np.array([[tiling.count(length) for length in lengths] for tiling in tilings], dtype=np.float64)
    return _Fillings(tilings, joints, pieces.reshape(len(tilings), len(lengths)))


@dataclass(eq=False)
class Pool:
    """Some patterns of one layer; ``low`` is the pitch line of the first column of ``joints``, shape (patterns, lines).

    ``takes`` tells which lengths a pattern has pieces of, shape (patterns, lengths).
    """

    layer: LegLayer
    prices: Prices
    low: int
    joints: Floats
    costs: Floats
    takes: NDArray[np.bool_]
    first: "_First"
    added: list[Pattern] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.tariff = tariff_of(self.layer, self.prices)

    def __len__(self) -> int:
        return len(self.costs)

    def pattern(self, n: int) -> Pattern:
        """One of the patterns; of the first ones few are ever asked for."""
        known = len(self.first.costs)
        return self.first.pattern(n) if n < known else self.added[n - known]

    def add(self, pattern: Pattern) -> bool:
        """Take a pattern in; whether it is new."""
        row = np.zeros(self.joints.shape[1])
        row[[x - self.low for x in self.joints_in(pattern)]] = 1
        if (self.joints == row).all(axis=1).any():
            return False
        cost = sum(self.tariff.piece(*piece) for piece in pattern) + sum(self.tariff.joint(x) for x in self.joints_in(pattern))
        self.joints = np.vstack([self.joints, row])
        self.costs = np.append(self.costs, float(cost))
        used = {length for _, length in pattern}
        self.takes = np.vstack([self.takes, [length in used for length, _ in self.prices]])
        self.added.append(pattern)
        return True

    def joints_in(self, pattern: Pattern) -> list[int]:
        """Every joint of the layer with that filling."""
        begins = {begin for begin, _ in self.layer.free}
        return sorted({*(left for left, _ in pattern if left not in begins), *self.layer.forced})

    def without(self, lengths: set[int]) -> NDArray[np.bool_]:
        """Which patterns do without pieces of some lengths."""
        barred = [n for n, (length, _) in enumerate(self.prices) if length in lengths]
        does_without: NDArray[np.bool_] = ~np.any(self.takes[:, barred], axis=1, keepdims=True)
        return does_without[:, 0]


class Tariff:
    """What the pieces and joints of a layer cost, whatever joints lie below."""

    def __init__(self, layer: LegLayer, prices: Prices) -> None:
        self._below = layer.below
        self._above = layer.above
        self._edges = frozenset(x for run in layer.below or () for x in run)
        self._price = dict(prices)
        self._bears = all(self.is_plain(run) for run in layer.free)
        self._pieces: dict[tuple[int, int], int] = {}
        self._runs: dict[Run, list[tuple[int, list[int]]]] = {}

    def joint(self, x: int) -> int:
        """Poor bearing if the joint stands over the edge of an opening."""
        return POOR_BEARING if x in self._edges else 0

    def piece(self, left: int, length: int) -> int:
        """A piece's price, and what its bearing lacks."""
        if self._bears:
            return self._price[length]
        key = left, length
        known = self._pieces.get(key)
        if known is None:
            poor = 0 if bears(self._below, left, left + length) else POOR_BEARING
            loose = 0 if touches((*(self._below or ()), *(self._above or ())), left, left + length) else LOOSE
            known = self._pieces[key] = self._price[length] + poor + loose
        return known

    def pieces(self, run: Run) -> list[tuple[int, list[int]]]:
        """What pieces of each length cost, the shortest first, by how far into a run they begin."""
        left, right = run
        if run not in self._runs:
            self._runs[run] = [
                (length, [self.piece(at, length) for at in range(left, right - length + 1)]) for length in self._price
            ]
        return self._runs[run]

    def is_plain(self, run: Run) -> bool:
        """Whether every piece of a run bears well and none is loose."""
        if self._below is None:
            return covers(self._above or (), run)
        return covers(self._below, run)


@lru_cache(maxsize=256)
def tariff_of(layer: LegLayer, prices: Prices) -> Tariff:
    """The tariff of a layer, with the pieces it has priced so far."""
    return Tariff(layer, prices)


def pool_for(layer: LegLayer, prices: Prices, low: int, lines: int) -> Pool:
    """A pool to begin with: all patterns of the layer where they are few."""
    first = _first(layer, prices, low, lines)
    return Pool(layer, prices, low, first.joints, first.costs, first.takes, first)


@dataclass(frozen=True, slots=True)
class _First:
    """The patterns a pool begins with: ``picks`` have the number of a tiling for each of the layer's ``runs``."""

    runs: tuple[tuple[int, _Fillings], ...]
    picks: list[tuple[int, ...]]
    joints: Floats
    costs: Floats
    takes: NDArray[np.bool_]

    def pattern(self, n: int) -> Pattern:
        """One of them, its pieces in their places."""
        placed = (_placed(left, run.tilings[pick]) for (left, run), pick in zip(self.runs, self.picks[n], strict=True))
        return tuple(chain.from_iterable(placed))


@lru_cache(maxsize=128)
def _first(layer: LegLayer, prices: Prices, low: int, lines: int) -> _First:
    lengths = tuple(length for length, _ in prices)
    each = max(2, int(SMALL ** (1 / max(1, len(layer.free)))))
    runs = [_fillings(right - left, lengths, min(each, MOST_PATTERNS), each) for left, right in layer.free]
    picks = list(islice(product(*(range(len(run.tilings)) for run in runs)), SMALL))
    joints = np.zeros((len(picks), lines))
    joints[:, [x - low for x in layer.forced]] = 1
    takes = np.zeros((len(picks), len(lengths)), dtype=bool)
    tariff = tariff_of(layer, prices)
    costs = np.full(len(picks), float(sum(tariff.joint(x) for x in layer.forced)))
    for number, ((left, right), run) in enumerate(zip(layer.free, runs, strict=True)):
        rows = [pick[number] for pick in picks]
        joints[:, left - low : right - low + 1] += run.joints[rows]
        takes |= run.pieces[rows] > 0
        costs += _run_costs(tariff, (left, right), run, prices)[rows]
    lefts = (left for left, _ in layer.free)
    return _First(tuple(zip(lefts, runs, strict=True)), picks, joints, costs, takes)


def _run_costs(tariff: Tariff, run: Run, fillings: _Fillings, prices: Prices) -> Floats:
    if tariff.is_plain(run):
        total: Floats = fillings.pieces @ np.array([price for _, price in prices], dtype=np.float64)
        return total
    patterns = [_placed(run[0], tiling) for tiling in fillings.tilings]
    costs = [
        sum(tariff.piece(*piece) for piece in placed) + sum(tariff.joint(left) for left, _ in placed[1:]) for placed in patterns
    ]
    return np.array(costs, dtype=np.float64)


def _placed(left: int, tiling: Tiling) -> Pattern:
    return tuple(zip(accumulate(tiling, initial=left), tiling, strict=False))
