"""What to order: from whom, how many packs, at what cost."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from core.buying.price import packs_for, price_at
from core.language import tr
from core.purchase import Offer, Supplier
from core.takeoff import Material


@dataclass(frozen=True, slots=True)
class Choice:
    """An offer taken: so many packs of it for one material."""

    supplier: str
    material: Material
    offer: Offer
    packs: int


@dataclass(frozen=True, slots=True)
class OrderLine:
    """One line of an order. Money is None where the supplier gives no price."""

    material: Material
    packs: int
    pack: int
    price: float | None
    mass_kg: float | None

    @property
    def pieces(self) -> int:
        return self.packs * self.pack

    @property
    def cost(self) -> float | None:
        return None if self.price is None else round(self.packs * self.price, 4)


@dataclass(frozen=True, slots=True)
class Order:
    """Everything ordered from one supplier. Sums leave out lines without a price; ``lacks`` is missing to its minimum order."""

    supplier: str
    lines: tuple[OrderLine, ...]
    goods: float
    shipping: float
    lacks: float = 0.0

    @property
    def total(self) -> float:
        return round(self.goods + self.shipping, 4)

    @property
    def packs(self) -> int:
        return sum(line.packs for line in self.lines)

    @property
    def mass_kg(self) -> float:
        """Of the lines whose parts have a known mass."""
        return sum(line.mass_kg or 0.0 for line in self.lines)


Proof = Literal["proven", "best found"]


@dataclass(frozen=True, slots=True)
class Buying:
    """All orders, and what no supplier offers: counted in boxes as the parts list says.

    ``total`` leaves out what has no price; ``unpriced`` lists that. ``short`` is what the suppliers cannot send.
    """

    orders: tuple[Order, ...]
    unsupplied: tuple[OrderLine, ...]
    total: float
    unpriced: tuple[Material, ...]
    short: Mapping[Material, int]
    proof: Proof
    at_least: float
    """No way of buying the same costs less; ``total`` itself where that is proven."""

    @property
    def gap(self) -> float:
        """By what share of the total a better way could be cheaper at most."""
        return (self.total - self.at_least) / self.total if self.total else 0.0

    @property
    def is_complete(self) -> bool:
        """Whether ``total`` pays for everything."""
        return not self.unpriced and not self.short


def gap_in_words(buying: Buying) -> str:
    """How far a cost that is not proven may be from the least."""
    if buying.at_least <= 0:
        return tr("not proven to be the least cost")
    return tr("not proven: at most {percent:.2f} % above the least cost", percent=100 * buying.gap)


def order_for(supplier: Supplier, choices: Iterable[Choice], masses_g: Mapping[str, float]) -> Order:
    """An order with its sums reckoned from the price list."""
    lines = tuple(_line(choice, masses_g) for choice in choices)
    goods = round(sum(line.cost or 0.0 for line in lines), 4)
    is_free = supplier.free_shipping_from is not None and goods >= supplier.free_shipping_from - 1e-6
    lacks = round(max(0.0, supplier.minimum_order - goods), 4)
    return Order(supplier.name, lines, goods, 0.0 if is_free else supplier.shipping, lacks)


def _line(choice: Choice, masses_g: Mapping[str, float]) -> OrderLine:
    offer = choice.offer
    mass = masses_g.get(choice.material.name)
    kilograms = None if mass is None else round(choice.packs * offer.pack * mass / 1000, 6)
    return OrderLine(choice.material, choice.packs, offer.pack, price_at(offer, choice.packs), kilograms)


def offers_of(supplier: Supplier, material: Material) -> Sequence[Offer]:
    """A supplier's offers of a material; one that names no colour holds for every colour."""
    return [offer for offer in supplier.offers if offer.part == material.name and offer.colour in (None, material.colour)]


def unpriced_choice(supplier: Supplier, material: Material, pieces: int) -> Choice | None:
    """The offer without a price that leaves least over; None where there is none that can send enough."""
    offers = [offer for offer in offers_of(supplier, material) if offer.price is None]
    enough = [offer for offer in offers if offer.most_packs is None or offer.most_packs * offer.pack >= pieces]
    if not enough:
        return None
    best = min(enough, key=lambda offer: (packs_for(pieces, offer.pack) * offer.pack, packs_for(pieces, offer.pack)))
    return Choice(supplier.name, material, best, packs_for(pieces, best.pack))
