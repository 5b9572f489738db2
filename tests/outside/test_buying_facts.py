"""Published figures about packs and price breaks that buying must agree with."""

import math

import pytest

from core.buying import buy
from core.buying.price import price_at
from core.parts import DEFAULT_PARTS
from core.purchase import Offer, PriceBreak, Supplier
from core.takeoff import Material

PLUG = Material("plug")


def offer(price: float, *breaks: tuple[int, float]) -> Offer:
    return Offer(part="plug", price=price, breaks=tuple(PriceBreak(from_packs=n, price=p) for n, p in breaks))


def yearly_cost(one: Offer, demand: float, per_order: float, holding: float, quantity: float) -> float:
    """Goods, ordering and holding for a year: D P + D S / Q + Q i P / 2, the classic lot-size formula."""
    price = price_at(one, math.floor(quantity))
    assert price is not None
    return demand * price + demand / quantity * per_order + quantity / 2 * holding * price


def test_the_published_price_break_example_comes_out_at_40_080_for_200() -> None:
    """D = 800, S = 60, holding 30 %; 53.00, from 50 51.50, from 100 49.50, from 200 48.00, from 500 47.00.

    Printed totals: 79 42 417.9; 100 40 822.5; 200 40 080; 500 41 221. Source: solved exercise, quantity discounts, at
    nursingexpertshelp.com, "Using the data below find the least cost order quantities".
    """
    one = offer(53.0, (50, 51.5), (100, 49.5), (200, 48.0), (500, 47.0))
    for quantity, printed in ((79, 42_417.9), (100, 40_822.5), (200, 40_080.0), (500, 41_221.0)):
        assert yearly_cost(one, 800, 60, 0.3, quantity) == pytest.approx(printed, abs=0.05)
    assert min(range(1, 801), key=lambda quantity: yearly_cost(one, 800, 60, 0.3, quantity)) == 200


def test_the_textbook_discount_store_orders_1000() -> None:
    """D = 5000, S = 49, i = 20 %; 5.00, from 1000 4.80, from 2000 4.75: totals 25 700, 24 725, 24 822.50; order 1000.

    Source: Heizer & Render, Operations Management, quantity-discount example (data read at quesba.com; totals from memory).
    """
    one = offer(5.0, (1000, 4.8), (2000, 4.75))
    totals = [yearly_cost(one, 5000, 49, 0.2, quantity) for quantity in (700, 1000, 2000)]
    assert totals == pytest.approx([25_700, 24_725, 24_822.5])
    assert min(range(1, 5001), key=lambda quantity: yearly_cost(one, 5000, 49, 0.2, quantity)) == 1000


def test_buying_to_the_break_beats_buying_what_is_needed() -> None:
    """990 at 5.00 are 4950, 1000 at 4.80 are 4800. Arithmetic on the textbook's own price list, no published source."""
    seller = Supplier(name="seller", offers=(offer(5.0, (1000, 4.8), (2000, 4.75)),))
    found = buy({PLUG: 990}, (seller,), DEFAULT_PARTS)
    assert (found.total, found.orders[0].lines[0].packs, found.proof) == (4800.0, 1000, "proven")
    assert buy({PLUG: 959}, (seller,), DEFAULT_PARTS).total == 4795.0


UNBUYABLE = (1, 2, 3, 4, 5, 7, 8, 10, 11, 13, 14, 16, 17, 19, 22, 23, 25, 28, 31, 34, 37, 43)


def exactly_bought(packs: tuple[int, ...], pieces: int) -> bool:
    """Whether the cheapest order, at one a piece, holds exactly so many."""
    seller = Supplier(name="seller", offers=tuple(Offer(part="plug", pack=pack, price=float(pack)) for pack in packs))
    found = buy({PLUG: pieces}, (seller,), DEFAULT_PARTS)
    return sum(line.pieces for line in found.orders[0].lines) == pieces


def test_43_is_the_largest_number_packs_of_6_9_and_20_cannot_make() -> None:
    """Frobenius number of 6, 9, 20. Source: MathWorld, "Frobenius Number"; the list of 22 is arithmetic."""
    assert tuple(n for n in range(1, 62) if not exactly_bought((6, 9, 20), n)) == UNBUYABLE


def test_23_is_the_largest_number_packs_of_4_and_9_cannot_make() -> None:
    """Frobenius number of 4, 9: 4 x 9 - 4 - 9 = 23. Source: MathWorld, "Frobenius Number"."""
    assert [n for n in range(1, 40) if not exactly_bought((4, 9), n)][-1] == 4 * 9 - 4 - 9 == 23


def test_taking_the_largest_packs_first_is_not_the_cheapest() -> None:
    """1, 3 and 4 for 6: largest first takes three packs, two of 3 are enough. Classic change-making example, from memory."""
    seller = Supplier(name="seller", offers=tuple(Offer(part="plug", pack=pack, price=1.0) for pack in (1, 3, 4)))
    found = buy({PLUG: 6}, (seller,), DEFAULT_PARTS)
    assert [(line.pack, line.packs) for line in found.orders[0].lines] == [(3, 2)]
