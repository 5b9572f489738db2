"""Take-off, orders and kitting lists as CSV for a spreadsheet. Counts are pieces unless the unit column says otherwise."""

import csv
import io
from collections.abc import Iterable, Sequence

from core.buying import Purchasing
from core.crew.kitting import KitList
from core.room import Room, wall_letter
from core.takeoff import Material, TakeOff, group_of, in_order

Cell = str | int | float


def takeoff_csv(room: Room, takeoff: TakeOff) -> str:
    """One line per material: its group, name, colour, unit, then the room, the starter ring, every row and every wall."""
    kinds = {part.name: part.kind for part in room.parts}
    rows, walls = sorted(takeoff.by_row), list(takeoff.by_wall)
    heads = ["group", "item", "colour", "unit", "room", "in_panels", "starter_ring"]
    heads += [*(f"row_{row + 1}" for row in rows), *(f"wall_{wall_letter(wall)}" for wall in walls)]
    lines: list[list[Cell]] = []
    for item in in_order(takeoff.room, room.parts):
        ring = sum(count[item] for count in takeoff.ring.by_wall().values())
        numbers = [takeoff.room[item], takeoff.panels[item], ring, *(takeoff.by_row[row][item] for row in rows)]
        lines.append([group_of(item, kinds), *_named(item), *numbers, *(takeoff.by_wall[wall][item] for wall in walls)])
    return _csv(heads, lines)


def panel_takeoff_csv(room: Room, takeoff: TakeOff) -> str:
    """One line per panel and material."""
    lines = [
        [mark, *_named(item), count[item]] for mark, count in takeoff.per_panel.items() for item in in_order(count, room.parts)
    ]
    return _csv(["mark", "item", "colour", "unit", "count"], lines)


def orders_csv(purchasing: Purchasing) -> str:
    """One line per order line, then what no supplier offers; a price nobody has given says so."""
    lines: list[list[Cell]] = []
    buying = purchasing.buying
    for supplier, order in [*((order.supplier, order.lines) for order in buying.orders), ("", buying.unsupplied)]:
        for line in order:
            price: Cell = "no price given" if line.price is None else line.price
            cost: Cell = "" if line.cost is None else line.cost
            mass: Cell = "" if line.mass_kg is None else round(line.mass_kg, 3)
            name, colour, _ = _named(line.material)
            lines.append([safe_text(supplier), name, colour, line.packs, line.pack, line.pieces, price, cost, mass])
    heads = ["supplier", "item", "colour", "packs", "pieces_per_pack", "pieces", "price_per_pack", "cost", "mass_kg"]
    return _csv(heads, lines)


def kitting_csv(lists: Sequence[KitList]) -> str:
    """One line per part of every kit list, with the marks it is for."""
    lines: list[list[Cell]] = [
        [one.round, one.bench, " ".join(panel.mark for panel in one.panels), *_named(part)[:2], count]
        for one in lists
        for part, count in sorted(one.parts.items(), key=lambda line: (line[0].name, line[0].colour or ""))
    ]
    return _csv(["round", "bench", "marks", "item", "colour", "count"], lines)


def safe_text(text: str) -> str:
    """Text that a spreadsheet takes for text: what begins like a formula gets an apostrophe in front."""
    return f"'{text}" if text[:1] in ("=", "+", "-", "@", "\t", "\r") else text


def _named(item: Material) -> list[Cell]:
    return [safe_text(item.name), safe_text(item.colour or ""), item.unit]


def _csv(heads: Sequence[str], lines: Iterable[Sequence[Cell]]) -> str:
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    writer.writerow(heads)
    writer.writerows(lines)
    return text.getvalue()
