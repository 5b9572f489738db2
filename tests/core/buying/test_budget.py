"""The whole purchase of a room, and the ways under its budget."""

from functools import cache

from core.buying import Purchasing, purchasing
from core.edits.buying import count_boxes, receive, set_purchase, set_supplier
from core.edits.progress import mark_panels
from core.purchase import Offer, Supplier
from core.room import Room
from core.setout import solve
from core.takeoff import Material, take_off
from tests.core.takeoff.guessed import guessed_parts
from tests.generate import SMALL_KIT

BRICK = Material("brick 2x4")


@cache
def priced_room() -> Room:
    corners = ((0.0, 0.0), (0.0, 700.0), (600.0, 700.0), (600.0, 0.0))
    room = Room(name="small", corners_mm=corners, clad_height_mm=430.0, kit=SMALL_KIT)
    names = [part.name for part in room.parts]
    seller = Supplier(name="seller", offers=tuple(Offer(part=name, pack=10, price=1.0) for name in names))
    return set_supplier(room, seller)


def bought(room: Room) -> Purchasing:
    setout = solve(room)
    return purchasing(setout, take_off(setout, guessed_parts(setout)))


def test_what_is_bought_covers_needs_and_spares_beyond_what_is_on_hand() -> None:
    room = receive(priced_room(), BRICK, 100)
    found = bought(room)
    pieces = {line.material: line.pieces for order in found.buying.orders for line in order.lines}
    for material, line in found.lines.items():
        if material in pieces:
            assert line.on_hand + pieces[material] >= line.needed + line.spare
            assert pieces[material] < line.to_buy + 10
    assert found.lines[BRICK].on_hand == 100


def test_ways_under_the_budget_end_with_one_that_is_enough() -> None:
    free = bought(priced_room())
    assert free.ways == ()
    tight = bought(set_purchase(priced_room(), budget=free.buying.total * 0.6))
    assert tight.over > 0
    assert [way.is_enough for way in tight.ways][-1]
    assert all(way.saves > 0 for way in tight.ways)


def test_fewer_spares_are_proposed_before_rows_are_put_off() -> None:
    room = set_purchase(priced_room(), spare_percent=20.0)
    total = bought(room).buying.total
    ways = bought(set_purchase(room, budget=total - 1)).ways
    assert ways[0].text == "10 % spares instead of 20 %"
    assert ways[0].is_enough


def test_building_a_panel_changes_what_to_buy_by_nothing() -> None:
    """A brick in a panel is a brick no longer needed: the shopping list stays."""
    setout = solve(receive(priced_room(), BRICK, 5000))
    before = bought(setout.room)
    after = bought(mark_panels(setout, [setout.panels[0].mark], "built", guessed_parts(setout)))
    assert after.lines[BRICK].on_hand < before.lines[BRICK].on_hand
    assert after.lines[BRICK].left - before.lines[BRICK].left == before.lines[BRICK].spare - after.lines[BRICK].spare


def test_a_stock_take_explains_the_difference() -> None:
    room = receive(priced_room(), BRICK, 100)
    short = count_boxes(room, BRICK, 90)
    assert [(line.count, line.lost) for line in short.stock.received] == [(100, 10)]
    found_again = count_boxes(short, BRICK, 105)
    assert [(line.count, line.lost) for line in found_again.stock.received] == [(105, 0)]


def test_bricks_already_in_panels_are_not_bought_because_nobody_noted_that_they_came() -> None:
    setout = solve(priced_room())
    parts = guessed_parts(setout)
    room = mark_panels(setout, [panel.mark for panel in setout.panels], "hung", parts)
    found = bought(room)
    assert found.lines[BRICK].on_hand == 0
    assert found.lines[BRICK].unrecorded == found.lines[BRICK].in_panels > 0
    assert {material.name for order in found.buying.orders for line in order.lines for material in [line.material]} <= {
        "floor plate 2x8",
        *(f"plate 2x{length}" for length in (1, 2, 3, 4, 6, 8)),
    }
