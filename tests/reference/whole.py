"""The whole objective of docs/set-out.md as one integer program: row stack, every row of every wall, and set-ups shared.

One variable per row that a stack may hold, per candidate of such a row and per design outside the kit.
"""

import math
from collections import defaultdict
from dataclasses import dataclass, field
from fractions import Fraction

from ortools.sat.python import cp_model

from core.room import Room
from core.setout.result import Row, SetOut, WallShell
from tests.reference.model import Candidate, RowPrices, candidates, stacks
from tests.reference.price import DesignKey, design_key, exact, in_kit
from tests.reference.strip import Strip, row_cells, strips
from tests.reference.timber import Landing

State = tuple[int, bool]


@dataclass(frozen=True)
class Proven:
    """What the solver proved about the least minutes; ``least`` equals ``found`` where it closed."""

    least: Fraction
    found: Fraction


@dataclass
class WholeModel:
    """The integer program of one room."""

    room: Room
    walls: tuple[WallShell, ...]
    landing: Landing | None
    model: cp_model.CpModel = field(default_factory=cp_model.CpModel)
    costs: list[tuple[Fraction, cp_model.IntVar]] = field(default_factory=list)
    users: dict[DesignKey, list[cp_model.IntVar]] = field(default_factory=lambda: defaultdict(list))

    @classmethod
    def of(cls, setout: SetOut) -> "WholeModel":
        """The model of the set-out's room; takes the shell and the standing timber as given."""
        built = cls(setout.room, setout.walls, Landing(setout.room, setout.walls, setout.timber))
        built._stacks()
        built._setups()
        return built

    def size(self) -> int:
        """How many candidates it prices."""
        return len(self.costs)

    def solve(self, seconds: float) -> Proven:
        """Prove the least minutes as well as may be in a number of deterministic seconds."""
        scale = math.lcm(*(cost.denominator for cost, _ in self.costs))
        self.model.minimize(sum(int(cost * scale) * variable for cost, variable in self.costs))
        solver = cp_model.CpSolver()
        solver.parameters.num_workers = 1
        solver.parameters.max_deterministic_time = seconds
        if solver.solve(self.model) not in (cp_model.OPTIMAL, cp_model.FEASIBLE):
            raise ValueError("no set-out found in that time")
        return Proven(Fraction(round(solver.best_objective_bound), scale), Fraction(round(solver.objective_value), scale))

    def _stacks(self) -> None:
        """A stack is a way from the floor to a height under the head; each of its rows is divided."""
        rows = {(row.z_plates, row.courses): row for stack in stacks(self.room) for row in stack}
        leaving: dict[State, list[cp_model.IntVar]] = defaultdict(list)
        arriving: dict[State, list[cp_model.IntVar]] = defaultdict(list)
        kit = self.room.kit
        taken: dict[tuple[int, int], list[cp_model.IntVar]] = defaultdict(list)
        for bottom, courses in rows:
            is_closing = courses not in (kit.full_courses, kit.half_courses)
            for had_closing in (False, True):
                if is_closing and had_closing:
                    continue
                variable = self.model.new_bool_var("")
                leaving[bottom, had_closing].append(variable)
                arriving[bottom + kit.row_plates(courses), had_closing or is_closing].append(variable)
                taken[bottom, courses].append(variable)
        ends = {(stack[-1].z_plates + stack[-1].height_plates) for stack in stacks(self.room)}
        stops = []
        for state in {*leaving, *arriving}:
            stop = self.model.new_bool_var("") if state[0] in ends and state[0] else None
            came = sum(arriving[state]) + (1 if state == (0, False) else 0)
            self.model.add(came == sum(leaving[state]) + (0 if stop is None else stop))
            if stop is not None:
                stops.append(stop)
        self.model.add_exactly_one(stops)
        for place, row in rows.items():
            for strip in strips(self.walls):
                self._row(row, strip, taken[place])

    def _row(self, row: Row, strip: Strip, taken: list[cp_model.IntVar]) -> None:
        cells = row_cells(self.room, self.walls, strip, row)
        prices = RowPrices(self.room, cells, self.landing)
        flows: dict[int, list[cp_model.LinearExpr | cp_model.IntVar]] = defaultdict(list)
        first = []
        for candidate in candidates(self.room.kit, strip):
            variable = self.model.new_bool_var("")
            left, right, _ = candidate
            flows[left].append(variable)
            flows[strip.line(right)].append(-variable)
            if left == 0 or right > strip.length:
                first.append(variable)
            self.costs.append((prices.of(candidate), variable))
            for key in self._designs(prices, candidate):
                self.users[key].append(variable)
        ends = set() if strip.closed else {0, strip.length}
        for line, flow in flows.items():
            if line not in ends:
                self.model.add(sum(flow) == 0)
        self.model.add(sum(first) == sum(taken))

    def _designs(self, prices: RowPrices, candidate: Candidate) -> set[DesignKey]:
        cells = prices.cells
        return {design_key(cells, piece) for piece in cells.pieces(*candidate) if not in_kit(cells, piece)}

    def _setups(self) -> None:
        setup = exact(self.room.rates.setup)
        for users in self.users.values():
            owed = self.model.new_bool_var("")
            for user in users:
                self.model.add_implication(user, owed)
            self.costs.append((setup, owed))
