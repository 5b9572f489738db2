"""The integer program behind a limited stock: how many panels of each design are built to which of its bonds."""

from collections.abc import Mapping, Sequence
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

Share = tuple[int, Bond]


@dataclass(frozen=True, slots=True)
class Relaxed:
    """Prices from the linear relaxation: of one more of each scarce part, and of one more panel of each design, in parts."""

    scarcity: Mapping[str, float]
    worth: Mapping[str, float]


@dataclass(frozen=True, slots=True)
class Whole:
    """Whole panels: how many of each design are built to which bond, and the parts that are missing for it."""

    shares: Mapping[str, tuple[Share, ...]]
    missing: Mapping[str, int]


def cost_of(bond: Bond) -> int:
    """A bond's cost in parts: its parts, and one for every lap that is too short."""
    return sum(bond.parts.values()) + sum(fault.kind == "short lap" for fault in bond.faults)


class Program:
    """Panels of each design to build, the bonds known for each, and the parts there are."""

    def __init__(self, counts: Mapping[str, int], bonds: Mapping[str, Sequence[Bond]], available: Mapping[str, int]) -> None:
        self._counts = {design: count for design, count in counts.items() if count}
        self._bonds = bonds
        self._available = available

    def relaxed(self) -> Relaxed:
        """Solve it with parts of panels allowed."""
        solver, _, _ = self._solved(whole=False, cost=1.0)
        duals = solver.getSolution().row_dual
        designs = len(self._counts)
        worth = dict(zip(self._counts, duals[:designs], strict=True))
        scarcity = {part: -dual for part, dual in zip(self._available, duals[designs:], strict=True) if dual < -NEAR}
        return Relaxed(scarcity, worth)

    def whole(self, *, within: bool) -> Whole:
        """Solve it in whole panels; ``within`` the parts there are, if ``suffices`` said so, or with parts missing."""
        solver, shares, missing = self._solved(whole=True, cost=1.0, may_miss=not within)
        values = solver.getSolution().col_value
        found = {
            design: tuple((round(values[v.index]), bond) for v, bond in of_design if round(values[v.index]))
            for design, of_design in shares.items()
        }
        short = {part: round(values[v.index]) for part, v in missing.items()}
        return Whole(found, {part: count for part, count in short.items() if count})

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
    ) -> tuple[Any, dict[str, list[tuple[Any, Bond]]], dict[str, Any]]:
        solver = silent_solver(mip_rel_gap=GAP)
        add = solver.addIntegral if whole else solver.addVariable
        shares = {
            design: [(add(lb=0, ub=count, obj=cost * cost_of(bond)), bond) for bond in self._bonds[design]]
            for design, count in self._counts.items()
        }
        missing = {part: add(lb=0, ub=highspy.kHighsInf if may_miss else 0, obj=MISSING) for part in self._available}
        for design, count in self._counts.items():
            solver.addConstr(sum(v for v, _ in shares[design]) == count)
        for part, most in self._available.items():
            used = sum(bond.parts[part] * v for of_design in shares.values() for v, bond in of_design if bond.parts[part])
            solver.addConstr(used - missing[part] <= most)
        solver.solve()
        return solver, shares, missing
