"""Fillings of one layer on one leg, many at a time, and what they cost by themselves and above one another.

Costs are whole units in four ranks: straight joints, poor bearing over openings, laps that are too short, parts. One of a
higher rank weighs more than all a usual panel has of a lower one.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field
from itertools import product

import numpy as np
from numpy.typing import NDArray

from core.bond.legs import LegLayer
from core.bond.shape import Runs
from core.bond.tilings import short_tilings

LEAST_LAP_PITCHES = 2
LEAST_BEARING_PITCHES = 2

PART = 10_000
SHORT_LAP = PART
POOR_BEARING = 1_000 * PART
STRAIGHT = 100_000 * PART

MOST_PATTERNS = 60

Pattern = tuple[tuple[int, int], ...]
"""The pieces that fill a layer's free runs: left end and length of each, from the left."""
Ints = NDArray[np.int64]
Prices = tuple[tuple[int, int], ...]
"""What a piece of each length costs, shortest first."""


def clashes(upper: NDArray[np.float32], lower: NDArray[np.float32], apart: int) -> NDArray[np.float32]:
    """How many joints of each upper row lie exactly so far from a joint of each lower one, in pitches.

    ``upper`` and ``lower`` hold 1 where a row has a joint, shape (rows, lines); the result has shape (upper, lower).
    """
    moved = np.zeros_like(lower)
    if apart == 0:
        moved += lower
    elif apart < lower.shape[1]:
        moved[:, apart:] += lower[:, :-apart]
        moved[:, :-apart] += lower[:, apart:]
    return upper @ moved.T


def lap_costs(upper: NDArray[np.float32], lower: NDArray[np.float32]) -> Ints:
    """The cost of laying every upper row of joints on every lower one, shape (upper, lower)."""
    total: Ints = clashes(upper, lower, 0).astype(np.int64) * STRAIGHT
    for apart in range(1, LEAST_LAP_PITCHES):
        total += clashes(upper, lower, apart).astype(np.int64) * SHORT_LAP
    return total


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


def edges_below(below: Runs | None) -> frozenset[int]:
    """The lines where what lies below begins or ends."""
    return frozenset(x for run in below or () for x in run)


@dataclass(eq=False)
class Pool:
    """Some patterns of one layer. ``low`` is the pitch line of the first column of ``joints``."""

    layer: LegLayer
    prices: Prices
    low: int
    lines: int
    patterns: list[Pattern] = field(default_factory=list)
    joints: NDArray[np.float32] = field(init=False)
    costs: Ints = field(init=False)

    def __post_init__(self) -> None:
        self.joints = np.zeros((0, self.lines), dtype=np.float32)
        self.costs = np.zeros(0, dtype=np.int64)
        self._price = dict(self.prices)
        self._edges = edges_below(self.layer.below)
        self._known: set[Pattern] = set()
        self.add(_first_patterns(self.layer, tuple(length for length, _ in self.prices)))

    def add(self, patterns: Iterable[Pattern]) -> bool:
        """Take patterns in that are not there yet; whether there were any."""
        new = [p for p in dict.fromkeys(patterns) if p not in self._known]
        if new:
            self._known.update(new)
            self.patterns += new
            rows = np.zeros((len(new), self.lines), dtype=np.float32)
            for row, pattern in zip(rows, new, strict=True):
                row[[x - self.low for x in self.joints_in(pattern)]] = 1
            self.joints = np.vstack([self.joints, rows])
            self.costs = np.append(self.costs, np.array([self._cost(p) for p in new], dtype=np.int64))
        return bool(new)

    def joints_in(self, pattern: Pattern) -> list[int]:
        """Every joint of the layer with that filling."""
        inside = [left for left, _ in pattern if not any(left == begin for begin, _ in self.layer.free)]
        return sorted({*inside, *self.layer.forced})

    def joint_cost(self, x: int) -> int:
        """What a joint costs whatever joints lie below: poor bearing if it stands over the edge of an opening."""
        return POOR_BEARING if x in self._edges else 0

    def piece_cost(self, left: int, length: int) -> int:
        """A piece's price, and what its bearing lacks."""
        return self._price[length] + (0 if bears(self.layer.below, left, left + length) else POOR_BEARING)

    def _cost(self, pattern: Pattern) -> int:
        pieces = sum(self.piece_cost(left, length) for left, length in pattern)
        return pieces + sum(self.joint_cost(x) for x in self.joints_in(pattern))


def _first_patterns(layer: LegLayer, lengths: tuple[int, ...]) -> list[Pattern]:
    """Patterns to begin with: all of them where they are few."""
    runs = layer.free
    each = max(2, int(MOST_PATTERNS ** (1 / max(1, len(runs)))))
    choices = [
        [_placed(left, tiling) for tiling in short_tilings(right - left, lengths, each if len(runs) > 1 else MOST_PATTERNS)]
        for left, right in runs
    ]
    found: list[Pattern] = []
    for combination in product(*choices):
        found.append(tuple(piece for part in combination for piece in part))
        if len(found) >= MOST_PATTERNS:
            break
    return found


def _placed(left: int, tiling: tuple[int, ...]) -> Pattern:
    placed = []
    for length in tiling:
        placed.append((left, length))
        left += length
    return tuple(placed)
