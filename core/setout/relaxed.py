"""The choice of ways with fractions allowed, as a linear program for HiGHS (J. Hall et al., highs.dev).

It only suggests how set-ups are shared out over places; what follows from that is reckoned in whole units elsewhere.
"""

from collections.abc import Generator, Sequence
from typing import Any, NamedTuple

import highspy
import numpy as np
from numpy.typing import NDArray

from core.silent_solver import silent_solver

PIVOTS_A_SLICE = 60
"""Simplex steps between pauses."""

MOST_SLICES = 200
"""More than any program of this size needs; one that goes round in circles is given up."""

Entries = dict[int, float]
"""Coefficients of one row by column."""


class Suggestion(NamedTuple):
    """How far each design is set up, and the share of its set-up that each place should bear."""

    set_up: NDArray[np.float64]
    shares: NDArray[np.float64]


class Relaxed:
    """The linear program: one column for every way, then one for every design.

    ``meets`` are rows in which as much arrives as leaves, ``ones`` rows that are taken once, and ``needs`` says for each share
    which ways need its design.
    """

    def __init__(
        self,
        costs: Sequence[float],
        setup: float,
        ones: list[list[int]],
        meets: list[Entries],
        needs: list[tuple[int, list[int]]],
    ) -> None:
        self._ways = len(costs)
        designs = 1 + max((design for design, _ in needs), default=-1)
        rows: list[tuple[Entries, float, float]] = [(dict.fromkeys(columns, 1.0), 1.0, 1.0) for columns in ones]
        rows += [(entries, 0.0, 0.0) for entries in meets]
        self._first_need = len(rows)
        for design, ways in needs:
            rows.append(({self._ways + design: 1.0, **dict.fromkeys(ways, -1.0)}, 0.0, highspy.kHighsInf))
        self._solver = silent_solver(presolve="off", simplex_iteration_limit=PIVOTS_A_SLICE)
        self._solver.passModel(_program([*costs, *[setup] * designs], rows))
        self._designs = designs
        self.pivots = 0
        """Simplex steps taken."""

    def fix(self, given: NDArray[np.bool_], allowed: NDArray[np.bool_]) -> None:
        """Say which designs must and which may be set up."""
        columns = np.arange(self._ways, self._ways + self._designs, dtype=np.int32)
        self._solver.changeColsBounds(self._designs, columns, given.astype(float), allowed.astype(float))

    def solve(self) -> Generator[None, None, Suggestion | None]:
        """The best mixture of ways; None where there is none. Pauses now and then."""
        for _ in range(MOST_SLICES):
            self._solver.run()
            self.pivots += max(1, self._solver.getInfo().simplex_iteration_count)
            status = self._solver.getModelStatus()
            if status != highspy.HighsModelStatus.kIterationLimit:
                break
            yield
        if status != highspy.HighsModelStatus.kOptimal:
            return None
        solution = self._solver.getSolution()
        values = np.array(solution.col_value[self._ways :])
        return Suggestion(values, np.array(solution.row_dual[self._first_need :]))


def _program(costs: list[float], rows: list[tuple[Entries, float, float]]) -> Any:
    program = highspy.HighsLp()
    program.num_col_, program.num_row_ = len(costs), len(rows)
    program.col_cost_ = np.array(costs)
    program.col_lower_, program.col_upper_ = np.zeros(len(costs)), np.ones(len(costs))
    program.row_lower_ = np.array([least for _, least, _ in rows])
    program.row_upper_ = np.array([most for _, _, most in rows])
    program.a_matrix_.format_ = highspy.MatrixFormat.kRowwise
    program.a_matrix_.start_ = np.cumsum([0, *(len(entries) for entries, _, _ in rows)]).astype(np.int32)
    program.a_matrix_.index_ = np.array([column for entries, _, _ in rows for column in entries], dtype=np.int32)
    program.a_matrix_.value_ = np.array([value for entries, _, _ in rows for value in entries.values()])
    return program
