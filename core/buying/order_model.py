"""The integer program of buying: every price of every offer is a choice, and so is every supplier.

Buying more can cost less: a break may make eleven packs cheaper than ten, and an order that reaches free shipping cheaper than
one that does not. So packs are free to exceed what is needed. Packs that bring what is needed are told from packs beyond that:
the tight bounds of the first make a supplier count nearly whole in the relaxation where anything comes from it, which is what
lets a solver prove the least cost soon.
"""

import math
from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from highspy import HighsModelStatus, HighsVarType, SolutionStatus

from core.buying.order import offers_of
from core.buying.price import Tier, packs_for, tiers
from core.purchase import Offer, Supplier
from core.silent_solver import silent_solver
from core.takeoff import Material

MOST_NODES = 1_000
"""Where the search for the least cost gives up proving, counted in nodes so that every machine stops at the same place."""
LAST_NODES = 50
"""The same for what one material may leave over, which no cost hangs on."""
_CENT_SLACK = 1e-6
_RELATIVE_SLACK = 1e-12
"""Large sums are known to no more digits than a double has."""
_MOST_PACKS = 10_000_000


@dataclass(frozen=True)
class Take:
    """One price of one offer for one material, with its variables: packs that bring what is needed, packs beyond, whether any."""

    supplier: str
    material: Material
    offer: Offer
    tier: Tier
    is_taken: Any
    useful: Any
    beyond: Any

    @property
    def packs(self) -> Any:
        return self.useful + self.beyond

    @property
    def columns(self) -> tuple[int, ...]:
        return self.is_taken.index, self.useful.index, self.beyond.index

    def packs_in(self, values: Sequence[float]) -> int:
        """How many packs a solution takes."""
        return int(round(values[self.useful.index]) + round(values[self.beyond.index]))


@dataclass(frozen=True)
class Found:
    """What one aim reached, and what nothing can undercut; no values where nothing was found."""

    values: list[float]
    reached: float
    bound: float
    is_proven: bool


@dataclass
class OrderModel:
    """Variables and constraints of one list of needs; ``short`` is what is not brought of a material that may run out."""

    solver: Any
    takes: list[Take] = field(default_factory=list)
    short: dict[Material, Any] = field(default_factory=dict)
    cost: list[Any] = field(default_factory=list)

    def minimised(self, goal: Any) -> Found:
        """Minimises one aim and keeps what was reached for the aims that follow."""
        solver = self.solver
        solver.minimize(goal)
        info = solver.getInfo()
        if info.primal_solution_status != SolutionStatus.kSolutionStatusFeasible:
            return Found([], 0.0, 0.0, is_proven=False)
        is_proven = solver.getModelStatus() == HighsModelStatus.kOptimal
        values = list(solver.getSolution().col_value)
        reached = info.objective_function_value
        bound = reached if is_proven else min(reached, info.mip_dual_bound)
        solver.addConstr(goal <= reached + _CENT_SLACK + abs(reached) * _RELATIVE_SLACK)
        return Found(values, reached, bound, is_proven)

    def with_least_over(self, values: list[float]) -> list[float]:
        """A solution as cheap in which no material by itself could come with fewer pieces over, as far as a short search sees."""
        solver = self.solver
        solver.setOptionValue("mip_max_nodes", LAST_NODES)
        bounds = [(solver.getLp().col_lower_[i], solver.getLp().col_upper_[i]) for i in range(len(values))]
        for column, value in enumerate(values):
            solver.changeColBounds(column, round(value), round(value))
        by_material: defaultdict[Material, list[Take]] = defaultdict(list)
        for take in self.takes:
            by_material[take.material].append(take)
        for mine in by_material.values():
            values = self._one_with_least_over(mine, bounds, values)
        return values

    def _one_with_least_over(
        self, mine: Sequence[Take], bounds: Sequence[tuple[float, float]], values: list[float]
    ) -> list[float]:
        """The same for one material's takes, all others as they are."""
        if len(mine) == 1:
            return values
        solver, columns = self.solver, sorted(column for take in mine for column in take.columns)
        for column in columns:
            solver.changeColBounds(column, *bounds[column])
        solver.minimize(sum(take.packs * take.offer.pack for take in mine))
        is_found = solver.getInfo().primal_solution_status == SolutionStatus.kSolutionStatusFeasible
        better = list(solver.getSolution().col_value) if is_found else values
        for column in columns:
            solver.changeColBounds(column, round(better[column]), round(better[column]))
        return better


def order_model(needs: Mapping[Material, int], suppliers: Sequence[Supplier], forced: set[str]) -> OrderModel:
    """The program of ordering ``needs``, in pieces; ``forced`` suppliers are ordered from anyway."""
    solver = silent_solver(
        mip_rel_gap=0.0,
        mip_abs_gap=_CENT_SLACK,
        mip_feasibility_tolerance=1e-9,
        primal_feasibility_tolerance=1e-9,
        mip_max_nodes=MOST_NODES,
    )
    model = OrderModel(solver)
    for supplier in suppliers:
        _add_supplier(model, supplier, needs, is_forced=supplier.name in forced)
    for material, number in needs.items():
        mine = [take for take in model.takes if take.material == material]
        pieces = sum(take.useful * take.offer.pack for take in mine)
        if any(take.tier.most is None for take in mine):
            solver.addConstr(pieces >= number)
        else:
            missing = model.short[material] = solver.addIntegral(lb=0, ub=number)
            solver.addConstr(pieces + missing >= number)
    return model


def _add_supplier(model: OrderModel, supplier: Supplier, needs: Mapping[Material, int], *, is_forced: bool) -> None:
    solver = model.solver
    takes = [
        _take(model, supplier, material, offer, tier, number)
        for material, number in needs.items()
        for offer in offers_of(supplier, material)
        for tier in tiers(offer)
    ]
    if not takes and not is_forced:
        return
    is_used = solver.addVariable(lb=1.0 if is_forced else 0.0, ub=1.0, type=HighsVarType.kInteger)
    goods = sum((take.packs * take.tier.price for take in takes), start=0.0 * is_used)
    alike: defaultdict[tuple[int, Material], list[Any]] = defaultdict(list)
    for take in takes:
        solver.addConstr(take.is_taken <= is_used)
        alike[id(take.offer), take.material].append(take.is_taken)
    for same in alike.values():
        if len(same) > 1:
            solver.addConstr(sum(same) <= 1)
    if supplier.minimum_order and not is_forced:
        # Where prices are missing, whether the minimum is reached cannot be known; the order says what it lacks.
        solver.addConstr(goods >= supplier.minimum_order * is_used)
    model.takes += takes
    model.cost += [goods, supplier.shipping * is_used]
    if supplier.shipping and supplier.free_shipping_from is not None:
        is_free = solver.addBinary()
        solver.addConstr(is_free <= is_used)
        solver.addConstr(goods >= supplier.free_shipping_from * is_free)
        model.cost.append(-supplier.shipping * is_free)


def _take(model: OrderModel, supplier: Supplier, material: Material, offer: Offer, tier: Tier, number: int) -> Take:
    solver, enough = model.solver, packs_for(number, offer.pack)
    most = _most(supplier, tier, max(enough, tier.least))
    needed = min(most, enough)
    useful, is_taken = solver.addIntegral(lb=0, ub=needed), solver.addBinary()
    beyond = solver.addIntegral(lb=0, ub=most)
    solver.addConstr(useful <= needed * is_taken)
    solver.addConstr(useful + beyond <= most * is_taken)
    solver.addConstr(useful + beyond >= tier.least * is_taken)
    return Take(supplier.name, material, offer, tier, is_taken, useful, beyond)


def _most(supplier: Supplier, tier: Tier, enough: int) -> int:
    """More packs than this no cheapest order needs: enough pieces, or enough value for the minimum and for free shipping."""
    value = max(supplier.minimum_order, supplier.free_shipping_from or 0.0)
    for_value = math.ceil(value / tier.price) if tier.price > 0 else 0
    most = max(enough, min(for_value, _MOST_PACKS))
    return most if tier.most is None else min(most, tier.most)
