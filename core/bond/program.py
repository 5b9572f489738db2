"""The integer program behind a limited stock: how many panels of each lot are built in which of its ways."""

from collections import Counter
from collections.abc import Hashable, Mapping, Sequence
from dataclasses import dataclass
from typing import Any

import highspy

from core.bond.result import Bond
from core.silent_solver import silent_solver

MISSING = 200.0
"""What a missing part weighs, in parts: more than any swap costs."""
NEAR = 1e-6
GAP = 1e-4
"""How far the cost of whole panels may be from the least, as a share of it."""

Item = tuple[str, str | None]
"""A part by its name, and its colour where the job has several."""


@dataclass(frozen=True)
class Way:
    """One way to lay a panel: its bond, what it takes, and what it costs in parts."""

    bond: Bond
    items: Counter[Item]
    cost: int


Share = tuple[int, Way]


@dataclass(frozen=True, slots=True)
class Relaxed:
    """Prices from the linear relaxation: of one more of each scarce part, and of one more panel of each lot, in parts."""

    scarcity: Mapping[Item, float]
    worth: Mapping[Hashable, float]


@dataclass(frozen=True, slots=True)
class Whole:
    """Whole panels: how many of each lot are built in which way, and the parts that are missing for it."""

    shares: Mapping[Hashable, tuple[Share, ...]]
    missing: Mapping[Item, int]


def cost_of(bond: Bond) -> int:
    """A bond's cost in parts: its parts, and one for every lap that is too short."""
    return sum(bond.parts.values()) + sum(fault.kind == "short lap" for fault in bond.faults)


class Program:
    """Panels of each lot to build, the ways known for each, and the parts there are.

    Parts that are ``rare`` are used up, and never said to be missing: nobody would buy them for this.
    """

    def __init__(
        self,
        counts: Mapping[Hashable, int],
        ways: Mapping[Hashable, Sequence[Way]],
        available: Mapping[Item, int],
        rare: frozenset[Item] = frozenset(),
    ) -> None:
        self._counts = {lot: count for lot, count in counts.items() if count}
        self._ways = ways
        self._available = available
        self._rare = rare

    def relaxed(self) -> Relaxed:
        """Solve it with parts of panels allowed."""
        solver, _, _ = self._solved(whole=False, cost=1.0)
        duals = solver.getSolution().row_dual
        lots = len(self._counts)
        worth = dict(zip(self._counts, duals[:lots], strict=True))
        scarcity = {item: -dual for item, dual in zip(self._available, duals[lots:], strict=True) if dual < -NEAR}
        return Relaxed(scarcity, worth)

    def whole(self, *, within: bool) -> Whole:
        """Solve it in whole panels; ``within`` the parts there are, if ``suffices`` said so, or with parts missing."""
        solver, shares, missing = self._solved(whole=True, cost=1.0, may_miss=not within)
        values = solver.getSolution().col_value
        found = {
            lot: tuple((round(values[v.index]), way) for v, way in of_lot if round(values[v.index]))
            for lot, of_lot in shares.items()
        }
        short = {item: round(values[v.index]) for item, v in missing.items()}
        return Whole(found, {item: count for item, count in short.items() if count})

    def suffices(self) -> bool:
        """Whether nothing is missing, whatever it costs. The relaxation, which is soon solved, often says no already."""
        for whole in (False, True):
            solver, _, missing = self._solved(whole=whole, cost=0.0)
            values = solver.getSolution().col_value
            if any(values[v.index] > NEAR for v in missing.values()):
                return False
        return True

    def _solved(
        self, *, whole: bool, cost: float, may_miss: bool = True
    ) -> tuple[Any, dict[Hashable, list[tuple[Any, Way]]], dict[Item, Any]]:
        solver = silent_solver(mip_rel_gap=GAP)
        add = solver.addIntegral if whole else solver.addVariable
        shares = {
            lot: [(add(lb=0, ub=count, obj=cost * way.cost), way) for way in self._ways[lot]]
            for lot, count in self._counts.items()
        }
        most_missing = {item: highspy.kHighsInf if may_miss and item not in self._rare else 0 for item in self._available}
        missing = {item: add(lb=0, ub=most, obj=MISSING) for item, most in most_missing.items()}
        for lot, count in self._counts.items():
            solver.addConstr(sum(v for v, _ in shares[lot]) == count)
        for item, most in self._available.items():
            used = sum(way.items[item] * v for of_lot in shares.values() for v, way in of_lot if way.items[item])
            solver.addConstr(used - missing[item] <= most)
        solver.solve()
        return solver, shares, missing
