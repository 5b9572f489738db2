"""Edits of stock and suppliers: what is refused is refused in words, what is taken is taken whole."""

from collections import Counter

import pytest

from core.buying import account, read_offers
from core.edits.buying import count_boxes, receive, remove_supplier, set_offers, set_purchase, set_supplier
from core.edits.progress import lay_ring
from core.errors import RoomError
from core.files import parse_room, room_text
from core.purchase import Offer, Supplier
from core.setout import solve
from core.takeoff import Count, Material, starter_ring, take_off
from tests.core.crew.small import small_room

PLUG = Material("plug")


def test_a_price_list_becomes_a_suppliers_offers_and_keeps_its_shipping() -> None:
    room = set_supplier(small_room(), Supplier(name="yard", shipping=12.0))
    offers = read_offers("part,pack,price\nplug,600,9\n", room.parts).offers
    room = set_offers(room, "yard", offers)
    assert room.stock.suppliers == (Supplier(name="yard", shipping=12.0, offers=(Offer(part="plug", pack=600, price=9.0),)),)
    assert [one.name for one in set_offers(room, "store", offers).stock.suppliers] == ["yard", "store"]
    assert parse_room(room_text(room).encode()) == room


def test_suppliers_go_by_name() -> None:
    room = set_supplier(small_room(), Supplier(name="yard"))
    assert remove_supplier(room, "yard").stock.suppliers == ()
    with pytest.raises(RoomError, match="the suppliers are yard"):
        remove_supplier(room, "store")
    with pytest.raises(RoomError, match="there are no suppliers yet"):
        remove_supplier(small_room(), "store")


def test_deliveries_add_up_by_colour() -> None:
    room = receive(receive(receive(small_room(), PLUG, 10), PLUG, 5), Material("plug", "red"), 7)
    assert [(line.colour, line.count) for line in room.stock.received] == [(None, 15), ("red", 7)]


@pytest.mark.parametrize("edit", [lambda room: receive(room, PLUG, -1), lambda room: count_boxes(room, PLUG, -1)])
def test_less_than_nothing_is_refused(edit: object) -> None:
    with pytest.raises(RoomError, match="below nothing"):
        edit(small_room())  # type: ignore[operator]


@pytest.mark.parametrize("values", [{"spare_percent": -1.0}, {"spare_percent": 301.0}, {"budget": float("nan")}])
def test_absurd_settings_are_refused(values: dict[str, float]) -> None:
    with pytest.raises(RoomError):
        set_purchase(small_room(), **values)


def test_a_laid_ring_can_be_taken_up_again() -> None:
    room = small_room()
    plates: Count = Counter()
    for count in starter_ring(solve(room)).by_wall().values():
        plates.update(count)
    laid = lay_ring(room, plates)
    assert sum(line.count for line in laid.progress.ring_laid) == sum(plates.values())
    setout = solve(laid)
    lines = account(setout, take_off(setout, {}))
    assert {item: line.in_panels for item, line in lines.items() if line.in_panels} == plates
    assert all(line.needed == 0 for item, line in lines.items() if item in plates)
    assert lay_ring(laid, Counter()) == room
