"""Take-off, orders and kitting lists as CSV for a spreadsheet. Counts are pieces unless the unit column says otherwise."""

import csv
import io
from collections.abc import Iterable, Sequence

from core.buying import Purchasing
from core.crew.kitting import KitList
from core.language import marked, tr, trc
from core.room import Room, wall_letter
from core.takeoff import Material, TakeOff, group_of, in_order, shown_name

Cell = str | int | float
_TAKEOFF_HEADS = (marked("group"), marked("item"), marked("colour"))
_COUNT_HEADS = (marked("room"), marked("in_panels"), marked("starter_ring"))
_PANEL_HEADS = (marked("mark"), marked("item"), marked("colour"))
_ORDER_HEADS = (
    marked("supplier"),
    marked("item"),
    marked("colour"),
    marked("packs"),
    marked("pieces_per_pack"),
    marked("pieces"),
    marked("price_per_pack"),
    marked("cost"),
    marked("mass_kg"),
)
_KIT_HEADS = (marked("round"), marked("bench"), marked("marks"), marked("item"), marked("colour"), marked("count"))


def takeoff_csv(room: Room, takeoff: TakeOff) -> str:
    """One line per material: its group, name, colour, unit, then the room, the starter ring, every row and every wall."""
    kinds = {part.name: part.kind for part in room.parts}
    rows, walls = sorted(takeoff.by_row), list(takeoff.by_wall)
    heads = [
        *map(tr, _TAKEOFF_HEADS),
        trc("column", "unit"),
        *map(tr, _COUNT_HEADS),
        *(tr("row_{row}", row=row + 1) for row in rows),
    ]
    heads += [tr("wall_{wall}", wall=wall_letter(wall)) for wall in walls]
    lines: list[list[Cell]] = []
    for item in in_order(takeoff.room, room.parts):
        ring = sum(count[item] for count in takeoff.ring.by_wall().values())
        numbers = [takeoff.room[item], takeoff.panels[item], ring, *(takeoff.by_row[row][item] for row in rows)]
        lines.append([tr(group_of(item, kinds)), *_named(item), *numbers, *(takeoff.by_wall[wall][item] for wall in walls)])
    return _csv(heads, lines)


def panel_takeoff_csv(room: Room, takeoff: TakeOff) -> str:
    """One line per panel and material."""
    lines = [
        [mark, *_named(item), count[item]] for mark, count in takeoff.per_panel.items() for item in in_order(count, room.parts)
    ]
    return _csv([*map(tr, _PANEL_HEADS), trc("column", "unit"), tr("count")], lines)


def orders_csv(purchasing: Purchasing) -> str:
    """One line per order line, then what no supplier offers; a price nobody has given says so."""
    lines: list[list[Cell]] = []
    buying = purchasing.buying
    for supplier, order in [*((order.supplier, order.lines) for order in buying.orders), ("", buying.unsupplied)]:
        for line in order:
            price: Cell = tr("no price given") if line.price is None else line.price
            cost: Cell = "" if line.cost is None else line.cost
            mass: Cell = "" if line.mass_kg is None else round(line.mass_kg, 3)
            name, colour, _ = _named(line.material)
            lines.append([safe_text(supplier), name, colour, line.packs, line.pack, line.pieces, price, cost, mass])
    return _csv([*map(tr, _ORDER_HEADS)], lines)


def kitting_csv(lists: Sequence[KitList]) -> str:
    """One line per part of every kit list, with the marks it is for."""
    lines: list[list[Cell]] = [
        [one.round, one.bench, " ".join(panel.mark for panel in one.panels), *_named(part)[:2], count]
        for one in lists
        for part, count in sorted(one.parts.items(), key=lambda line: (line[0].name, line[0].colour or ""))
    ]
    return _csv([*map(tr, _KIT_HEADS)], lines)


def safe_text(text: str) -> str:
    """Text that a spreadsheet takes for text: what begins like a formula gets an apostrophe in front."""
    return f"'{text}" if text[:1] in ("=", "+", "-", "@", "\t", "\r") else text


def _named(item: Material) -> list[Cell]:
    return [safe_text(shown_name(item, "mm")), safe_text(tr(item.colour) if item.colour else ""), tr(item.unit)]


def _csv(heads: Sequence[str], lines: Iterable[Sequence[Cell]]) -> str:
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    writer.writerow(heads)
    writer.writerows(lines)
    return text.getvalue()
