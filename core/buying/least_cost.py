"""The cheapest way to buy a list, proven: an integer program over suppliers, packs, price breaks, minimum orders and shipping.

Buying more can cost less: a break may make eleven packs cheaper than ten, and an order that reaches free shipping cheaper than
one that does not. So packs are free to exceed what is needed, and every price of every offer is a choice of its own.
"""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field
from typing import Any

from highspy import HighsModelStatus, HighsVarType, SolutionStatus

from core.buying.order import Buying, Choice, Order, OrderLine, Proof, offers_of, order_for, unpriced_choice
from core.buying.price import Tier, packs_for, price_at, tiers
from core.parts import Part
from core.purchase import Offer, Supplier
from core.silent_solver import silent_solver
from core.takeoff import Material

_MOST_NODES = 200_000
"""Where the search gives up proving, counted in nodes so that every machine stops at the same place."""
_CENT_SLACK = 1e-6
_RELATIVE_SLACK = 1e-12
"""Large sums are known to no more digits than a double has."""


def buy(needs: Mapping[Material, int], suppliers: Sequence[Supplier], parts: Sequence[Part]) -> Buying:
    """The cheapest orders that bring at least ``needs``, in pieces; among equally cheap ones that with fewest pieces over.

    What no supplier offers is counted in boxes by the parts list. Where nobody gives a price, none is made up.
    """
    wanted = {material: number for material, number in needs.items() if number > 0}
    masses = {part.name: part.mass_g for part in parts}
    priced = {m for m in wanted if any(offer.price is not None for one in suppliers for offer in offers_of(one, m))}
    asked = _without_price({m: n for m, n in wanted.items() if m not in priced}, suppliers)
    found, short, proof = _cheapest({m: n for m, n in wanted.items() if m in priced}, suppliers, {one.supplier for one in asked})
    choices = [*found, *asked]
    orders = [order_for(one, mine, masses) for one in suppliers if (mine := [c for c in choices if c.supplier == one.name])]
    left = {m: n for m, n in wanted.items() if m not in priced and m not in {one.material for one in asked}}
    boxes = tuple(_boxes(material, number, parts) for material, number in left.items())
    return _summed(orders, boxes, short, proof)


def _summed(orders: Sequence[Order], boxes: Sequence[OrderLine], short: Mapping[Material, int], proof: Proof) -> Buying:
    lines = [*(line for order in orders for line in order.lines), *boxes]
    total = sum(order.total for order in orders) + sum(line.cost or 0.0 for line in boxes)
    unpriced = tuple(line.material for line in lines if line.cost is None)
    return Buying(tuple(orders), tuple(boxes), round(total, 4), unpriced, short, proof)


def _without_price(wanted: Mapping[Material, int], suppliers: Sequence[Supplier]) -> list[Choice]:
    """Whom to ask about materials that are offered without a price: the first supplier who can send them."""
    found = []
    for material, number in wanted.items():
        choices = (unpriced_choice(one, material, number) for one in suppliers)
        if choice := next((choice for choice in choices if choice), None):
            found.append(choice)
    return found


def _boxes(material: Material, number: int, parts: Sequence[Part]) -> OrderLine:
    """A material nobody offers, in boxes of the parts list and at its price, where it has one."""
    part = next((part for part in parts if part.name == material.name), None)
    pack = part.pack if part else 1
    packs = packs_for(number, pack)
    price = None if part is None or part.price is None else part.price * pack
    return OrderLine(material, packs, pack, price, None if part is None else round(packs * pack * part.mass_g / 1000, 6))


@dataclass
class _Take:
    """One price of one offer for one material, with its variables: whether it is taken and how many packs."""

    supplier: str
    material: Material
    offer: Offer
    tier: Tier
    is_taken: Any
    packs: Any


@dataclass
class _Model:
    solver: Any
    takes: list[_Take] = field(default_factory=list)
    short: dict[Material, Any] = field(default_factory=dict)
    cost: list[Any] = field(default_factory=list)


def _cheapest(
    needs: Mapping[Material, int], suppliers: Sequence[Supplier], forced: set[str]
) -> tuple[list[Choice], dict[Material, int], Proof]:
    """Choices of least cost; what cannot be had; and whether that is proven. ``forced`` suppliers are ordered from anyway."""
    if not needs:
        return [], {}, "proven"
    model = _Model(_solver())
    for supplier in suppliers:
        _add_supplier(model, supplier, needs, is_forced=supplier.name in forced)
    for material, number in needs.items():
        missing = model.solver.addIntegral(lb=0, ub=number)
        model.short[material] = missing
        pieces = sum(take.packs * take.offer.pack for take in model.takes if take.material == material)
        model.solver.addConstr(pieces + missing >= number)
    values: list[float] = []
    is_proven = True
    for goal in (sum(model.short.values()), sum(model.cost), _pieces(model)):
        found = _minimised(model, goal)
        is_proven = is_proven and found.is_proven
        if not found.values:
            break
        values = found.values
    if not values:
        return _one_by_one(needs, suppliers), {}, "best found"
    chosen = [
        Choice(take.supplier, take.material, take.offer, packs)
        for take in model.takes
        if (packs := round(values[take.packs.index])) > 0
    ]
    short = {material: count for material, one in model.short.items() if (count := round(values[one.index])) > 0}
    return chosen, short, "proven" if is_proven else "best found"


def _one_by_one(needs: Mapping[Material, int], suppliers: Sequence[Supplier]) -> list[Choice]:
    """Each material from whoever is cheapest for it alone: a way for the case that the search ran out of work without any."""
    found = []
    for material, number in needs.items():
        priced = [
            Choice(one.name, material, offer, packs_for(number, offer.pack))
            for one in suppliers
            for offer in offers_of(one, material)
            if offer.price is not None
        ]
        found.append(min(priced, key=lambda one: one.packs * (price_at(one.offer, one.packs) or 0.0)))
    return found


def _solver() -> Any:
    return silent_solver(
        mip_rel_gap=0.0,
        mip_abs_gap=_CENT_SLACK,
        mip_feasibility_tolerance=1e-9,
        primal_feasibility_tolerance=1e-9,
        mip_max_nodes=_MOST_NODES,
    )


def _add_supplier(model: _Model, supplier: Supplier, needs: Mapping[Material, int], *, is_forced: bool) -> None:
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
    for take in takes:
        solver.addConstr(take.is_taken <= is_used)
    for one in {id(take.offer): take for take in takes}.values():
        for material in needs:
            same = [t.is_taken for t in takes if t.offer is one.offer and t.material == material]
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


def _take(model: _Model, supplier: Supplier, material: Material, offer: Offer, tier: Tier, number: int) -> _Take:
    most = tier.most if tier.most is not None else max(tier.least, _enough(supplier, offer, tier, number))
    packs = model.solver.addIntegral(lb=0, ub=most)
    is_taken = model.solver.addBinary()
    model.solver.addConstr(packs <= most * is_taken)
    model.solver.addConstr(packs >= tier.least * is_taken)
    return _Take(supplier.name, material, offer, tier, is_taken, packs)


def _enough(supplier: Supplier, offer: Offer, tier: Tier, number: int) -> int:
    """More packs than this no cheapest order needs: enough pieces, or enough value for the minimum and for free shipping."""
    value = max(supplier.minimum_order, supplier.free_shipping_from or 0.0)
    for_value = math.ceil(value / tier.price) if tier.price > 0 else 0
    return max(packs_for(number, offer.pack), min(for_value, 10_000_000))


@dataclass(frozen=True)
class _Found:
    """What one aim reached; no values where nothing was found."""

    values: list[float]
    is_proven: bool


def _minimised(model: _Model, goal: Any) -> _Found:
    """Minimises one aim and keeps what was reached for the aims that follow."""
    solver = model.solver
    solver.minimize(goal)
    info = solver.getInfo()
    if info.primal_solution_status != SolutionStatus.kSolutionStatusFeasible:
        return _Found([], is_proven=False)
    is_proven = solver.getModelStatus() == HighsModelStatus.kOptimal
    values = list(solver.getSolution().col_value)
    least = info.objective_function_value
    solver.addConstr(goal <= least + _CENT_SLACK + abs(least) * _RELATIVE_SLACK)
    return _Found(values, is_proven)


def _pieces(model: _Model) -> Any:
    return sum(take.packs * take.offer.pack for take in model.takes)
