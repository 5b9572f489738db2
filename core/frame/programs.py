"""The two programs of cutting stock, handed to HiGHS (J. Hall et al., highs.dev): one in fractions, one in whole boards."""

from collections.abc import Mapping, Sequence
from typing import Any

import numpy as np

from core.frame.patterns import Pattern

MOST_NODES = 1_000
"""A limit on work rather than on time, so that the same timber always gives the same plan."""


def relaxed_mix(patterns: Sequence[Pattern], demand: Sequence[int]) -> tuple[float, list[float]]:
    """Least cost of meeting the demand with fractions of patterns, and what one more of each piece would cost."""
    solver = _program(patterns, demand, is_whole=False)
    solver.run()
    return float(solver.getInfo().objective_function_value), [max(0.0, dual) for dual in solver.getSolution().row_dual]


def cheapest_mix(patterns: Sequence[Pattern], demand: Sequence[int], enough: int) -> tuple[dict[Pattern, int], float]:
    """Whole boards that meet the demand at least cost, and what no mix of these patterns can undercut.

    Stops as soon as the cost is down to ``enough``. Every piece must have a pattern of its own among ``patterns``.
    """
    solver = _program(patterns, demand, is_whole=True)
    solver.setOptionValue("mip_rel_gap", 0.0)
    solver.setOptionValue("mip_abs_gap", 0.5)
    solver.setOptionValue("mip_max_nodes", MOST_NODES)
    solver.setOptionValue("objective_target", float(enough))
    solver.run()
    values = solver.getSolution().col_value
    mix = {pattern: round(value) for pattern, value in zip(patterns, values, strict=True) if round(value) > 0}
    return mix if _meets(mix, demand) else _alone(patterns, demand), float(solver.getInfo().mip_dual_bound)


def _meets(mix: Mapping[Pattern, int], demand: Sequence[int]) -> bool:
    made = [sum(pattern.counts[i] * count for pattern, count in mix.items()) for i in range(len(demand))]
    return all(many >= wanted for many, wanted in zip(made, demand, strict=True))


def _alone(patterns: Sequence[Pattern], demand: Sequence[int]) -> dict[Pattern, int]:
    """Each piece from boards of its own: a mix for the case that the solver's limit on work ran out without any."""
    mix: dict[Pattern, int] = {}
    for i, wanted in enumerate(demand):
        own = [pattern for pattern in patterns if sum(pattern.counts) == pattern.counts[i]]
        pattern = min(own, key=lambda one: one.stock / one.counts[i])
        mix[pattern] = -(-wanted // pattern.counts[i])
    return mix


def _program(patterns: Sequence[Pattern], demand: Sequence[int], *, is_whole: bool) -> Any:
    # Tens of milliseconds that only those pay who have timber cut, not all who ask what holds a screw.
    import highspy

    from core.silent_solver import silent_solver

    solver = silent_solver()
    for wanted in demand:
        solver.addRow(float(wanted), highspy.kHighsInf, 0, np.array([], dtype=np.int32), np.array([]))
    counts = np.array([pattern.counts for pattern in patterns], dtype=np.int64).reshape(len(patterns), len(demand))
    columns, rows = np.nonzero(counts)
    values = counts[columns, rows]
    most = np.zeros(len(patterns), dtype=np.int64)
    np.maximum.at(most, columns, -(-np.array(demand, dtype=np.int64)[rows] // values))
    solver.addCols(
        len(patterns),
        np.array([float(pattern.stock) for pattern in patterns]),
        np.zeros(len(patterns)),
        most.astype(np.float64),
        len(rows),
        np.searchsorted(columns, np.arange(len(patterns))).astype(np.int32),
        rows.astype(np.int32),
        values.astype(np.float64),
    )
    if is_whole:
        for number in range(len(patterns)):
            solver.changeColIntegrality(number, highspy.HighsVarType.kInteger)
    return solver
