"""The cheapest way to buy a list, proven, or the best that a limited search finds and how far from the least it is at most."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from core.buying.order import Buying, Choice, Order, OrderLine, Proof, offers_of, order_for, unpriced_choice
from core.buying.order_model import order_model
from core.buying.price import packs_for, price_at
from core.parts import Part
from core.purchase import Supplier
from core.takeoff import Material


@dataclass(frozen=True)
class _Sure:
    """Whether a cost is the least; if not, by how much at most it is not, infinite where nothing is known."""

    is_proven: bool = True
    beyond: float = 0.0


def buy(needs: Mapping[Material, int], suppliers: Sequence[Supplier], parts: Sequence[Part]) -> Buying:
    """The cheapest orders that bring at least ``needs``, in pieces; among equally cheap ones that with fewest pieces over.

    What no supplier offers is counted in boxes by the parts list. Where nobody gives a price, none is made up.
    """
    wanted = {material: number for material, number in needs.items() if number > 0}
    masses = {part.name: part.mass_g for part in parts}
    priced = {m for m in wanted if any(offer.price is not None for one in suppliers for offer in offers_of(one, m))}
    asked = _without_price({m: n for m, n in wanted.items() if m not in priced}, suppliers)
    found, short, sure = _cheapest({m: n for m, n in wanted.items() if m in priced}, suppliers, {one.supplier for one in asked})
    choices = [*found, *asked]
    orders = [order_for(one, mine, masses) for one in suppliers if (mine := [c for c in choices if c.supplier == one.name])]
    left = {m: n for m, n in wanted.items() if m not in priced and m not in {one.material for one in asked}}
    boxes = tuple(_boxes(material, number, parts) for material, number in left.items())
    return _summed(orders, boxes, short, sure)


def _summed(orders: Sequence[Order], boxes: Sequence[OrderLine], short: Mapping[Material, int], sure: _Sure) -> Buying:
    lines = [*(line for order in orders for line in order.lines), *boxes]
    total = sum(order.total for order in orders) + sum(line.cost or 0.0 for line in boxes)
    unpriced = tuple(line.material for line in lines if line.cost is None)
    proof: Proof = "proven" if sure.is_proven else "best found"
    return Buying(tuple(orders), tuple(boxes), round(total, 4), unpriced, short, proof, max(0.0, round(total - sure.beyond, 4)))


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


def _cheapest(
    needs: Mapping[Material, int], suppliers: Sequence[Supplier], forced: set[str]
) -> tuple[list[Choice], dict[Material, int], _Sure]:
    """Choices of least cost; what cannot be had; and how sure that is. ``forced`` suppliers are ordered from anyway."""
    if not needs:
        return [], {}, _Sure()
    model = order_model(needs, suppliers, forced)
    cost = sum(model.cost)
    found = [model.minimised(goal) for goal in ([sum(model.short.values())] if model.short else [])]
    if all(one.values for one in found):
        found.append(model.minimised(cost))
    best = next((one for one in reversed(found) if one.values), None)
    if best is None:
        return _one_by_one(needs, suppliers), {}, _Sure(is_proven=False, beyond=math.inf)
    is_proven = all(one.is_proven for one in found)
    is_cost_known = best is found[-1] and all(one.is_proven for one in found[:-1])
    beyond = 0.0 if is_proven else best.reached - best.bound if is_cost_known else math.inf
    values = model.with_least_over(best.values) if best is found[-1] else best.values
    chosen = [
        Choice(take.supplier, take.material, take.offer, packs) for take in model.takes if (packs := take.packs_in(values)) > 0
    ]
    short = {material: count for material, one in model.short.items() if (count := round(values[one.index])) > 0}
    return chosen, short, _Sure(is_proven=is_proven, beyond=beyond)


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
