"""The take-off as a shopping list, what each wall takes, and one order list per supplier."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import replace

from core.buying import Order, OrderLine, Purchasing
from core.buying.order import gap_in_words
from core.frame import FramePlan
from core.language import marked, tr, trc
from core.room import Room, Units, wall_letter
from core.setout.result import SetOut
from core.sheets.buying_frame import from_the_frame
from core.sheets.draft import Draft
from core.sheets.flow import Column, Line, gap, header_row, heading, needed_mm, paragraph, row, sized
from core.sheets.listing import list_drafts, list_width, table
from core.takeoff import Group, Material, TakeOff, group_of, in_order, shown_name
from core.units import format_length

NO_PRICE = marked("no price given")
"""To be put through ``tr`` where it is shown."""
_WALLS_ABREAST = 7
_SECTIONS: tuple[tuple[str, tuple[Group, ...]], ...] = (
    (marked("Bricks"), ("brick", "pin-hole brick")),
    (marked("Plates"), ("plate", "locating plate", "floor plate")),
    (marked("Tiles and plugs"), ("tile", "plug")),
    (marked("Screws and packers"), ("hardware",)),
    (marked("Timber"), ("timber",)),
)


def buying_list(setout: SetOut, takeoff: TakeOff, bought: Purchasing, frame: FramePlan | None = None) -> list[Draft]:
    """What the room takes, what is there, what to buy; then what it costs and what would make it cost less.

    With the ``frame`` also its boards, and which screw the panel screw is.
    """
    width = list_width(setout)
    lines = [
        *paragraph(_about(setout, takeoff), width, 2.5),
        gap(1.5),
        *_items(setout, takeoff, bought, width),
        *(from_the_frame(setout.room, frame, width) if frame else ()),
        *_money(setout.room, bought, width, has_timber=bool(takeoff.timber)),
    ]
    return list_drafts(setout, "take-off", tr("Take-off and buying list"), marked("buying list"), lines)


def order_lists(setout: SetOut, bought: Purchasing) -> list[Draft]:
    """One list for each supplier to order from."""
    found: list[Draft] = []
    for number, order in enumerate(bought.buying.orders, start=1):
        lines = _order(setout.room, order, list_width(setout))
        name = tr("Order list: {supplier}", supplier=order.supplier)
        found += list_drafts(setout, f"order-{number}", name, marked("order list"), lines)
    return found


def wall_lists(setout: SetOut, takeoff: TakeOff) -> list[Draft]:
    """What each wall takes, in tables of as many walls as fit side by side."""
    width = list_width(setout)
    walls = list(takeoff.by_wall)
    lines: list[Line] = []
    while walls:
        ways = (_wall_cells(setout, takeoff, walls[:count]) for count in range(min(_WALLS_ABREAST, len(walls)), 0, -1))
        titles, rows, count = next(way for way in ways if way[2] == 1 or _fits(way[0], way[1], width))
        lines.append(
            heading(tr("Walls {first} to {last}", first=wall_letter(walls[0]), last=wall_letter(walls[count - 1])), width)
        )
        lines += table(titles, rows, width)
        walls = walls[count:]
    note = tr("A corner panel counts with the wall its mark names. The starter ring's plates are in each wall's numbers.")
    lines += [gap(1.5), *paragraph(note, width, 2.5)]
    return list_drafts(setout, "take-off-walls", tr("Take-off by wall"), marked("take-off"), lines)


def _wall_cells(setout: SetOut, takeoff: TakeOff, walls: Sequence[int]) -> tuple[list[str], list[list[str]], int]:
    """Titles and rows of one table of walls, and how many they are; with the room's numbers where it holds them all."""
    counts = [takeoff.by_wall[wall] for wall in walls]
    titles = [tr("wall {wall}", wall=wall_letter(wall)) for wall in walls]
    if len(walls) == len(takeoff.by_wall):
        counts.append(takeoff.room)
        titles.append(tr("room"))
    items = [item for item in in_order(takeoff.room, setout.room.parts) if any(count[item] for count in counts)]
    units = setout.room.display_units
    rows = [[title(item, units), *(_quantity(item, count[item], units) for count in counts)] for item in items]
    return [tr("item"), *titles], rows, len(walls)


def _fits(titles: Sequence[str], rows: Sequence[Sequence[str]], width: float) -> bool:
    return sum(needed_mm([*map(Column, titles)], rows)) <= width


def title(item: Material, units: Units) -> str:
    """A material in words."""
    name = shown_name(item, units)
    return f"{name}, {tr(item.colour)}" if item.colour else name


def money(room: Room, amount: float | None) -> str:
    """An amount as people write it; says so where there is none."""
    return f"{room.stock.currency} {_amount(amount)}".strip() if amount is not None else tr(NO_PRICE)


def _amount(value: float | None) -> str:
    return tr(NO_PRICE) if value is None else f"{value:,.2f}".replace(",", "\u00a0")


def _number(count: int) -> str:
    return f"{count:,}".replace(",", "\u00a0") if count else ""


def _quantity(item: Material, count: int, units: Units) -> str:
    """So many pieces, or so much length: in metres where the room is in millimetres."""
    if item.unit == "piece" or not count:
        return _number(count)
    return f"{count / 1000:.1f} m" if units == "mm" else format_length(count, units)


def _about(setout: SetOut, takeoff: TakeOff) -> str:
    said = [
        tr("{panels} panels and the starter ring, in pieces.", panels=len(setout.panels)),
        tr("Spares: {percent:g} % of what is still needed.", percent=setout.room.stock.spare_percent),
        tr("Timber: without saw cuts.") if takeoff.timber else tr("Timber has a cut list of its own."),
    ]
    if takeoff.ring.missing_pitches:
        open_pitches = takeoff.ring.missing_pitches
        said.append(tr("The stocked plates leave {pitches} pitches of the starter ring open.", pitches=open_pitches))
    if takeoff.without_parts:
        said.append(tr("Not bonded, so without bricks here: {designs}.", designs=", ".join(takeoff.without_parts)))
    return " ".join(said)


def _items(setout: SetOut, takeoff: TakeOff, bought: Purchasing, width: float) -> Iterator[Line]:
    """The shopping list by group, all in one set of columns."""
    packs = _packs(bought)
    kinds = {part.name: part.kind for part in setout.room.parts}
    items = in_order({**takeoff.room, **dict.fromkeys(bought.lines, 1)}, setout.room.parts)
    cells = {item: _cells(item, takeoff, bought, packs, setout.room.display_units) for item in items}
    needs = (tr("still\nneeded"), tr("spares"), trc("column", "on hand"), trc("column", "to buy"), tr("packs"))
    titles = (tr("item"), trc("column", "in room"), *needs, "kg")
    names = [Column(name, anchor="start" if number == 0 else "end") for number, name in enumerate(titles)]
    columns = sized(names, list(cells.values()), width)
    head = header_row(columns)
    yield head
    for name, groups in _SECTIONS:
        mine = [item for item in items if group_of(item, kinds) in groups]
        yield from [replace(heading(tr(name), width), head=head)] if mine else []
        yield from (replace(row(columns, cells[item]), head=head) for item in mine)


def _packs(bought: Purchasing) -> dict[Material, list[OrderLine]]:
    found: dict[Material, list[OrderLine]] = {}
    for line in [*(line for order in bought.buying.orders for line in order.lines), *bought.buying.unsupplied]:
        found.setdefault(line.material, []).append(line)
    return found


def _cells(
    item: Material, takeoff: TakeOff, bought: Purchasing, packs: dict[Material, list[OrderLine]], units: Units
) -> list[str]:
    line = bought.lines.get(item)
    if line is None:
        return [title(item, units), _quantity(item, takeoff.room[item], units), *[""] * 6]
    orders = packs.get(item, [])
    boxes = " + ".join(f"{order.packs} × {order.pack}" for order in orders if order.pack > 1)
    mass = sum(order.mass_kg or 0.0 for order in orders)
    numbers = (takeoff.room[item], line.needed, line.spare, line.on_hand, line.to_buy)
    return [title(item, units), *map(_number, numbers), boxes, f"{mass:.1f}" if mass else ""]


def _money(room: Room, bought: Purchasing, width: float, *, has_timber: bool) -> list[Line]:
    """Totals: packs and mass, cost as far as prices are known, budget and ways under it."""
    buying = bought.buying
    every = [*(line for order in buying.orders for line in order.lines), *buying.unsupplied]
    mass = sum(line.mass_kg or 0.0 for line in every)
    rows = [(tr("mass of everything to buy"), f"{mass:.0f} kg")]
    if buying.total or not buying.unpriced:
        name = tr("cost, shipping included, timber not") if has_timber else tr("cost, shipping included")
        rows.append((name, money(room, buying.total)))
    if buying.unpriced:
        rows.append((tr("items with no price given, not in the cost"), f"{len(buying.unpriced)}"))
    units = room.display_units
    rows += [
        (tr("cannot be sent: {item}", item=title(item, units)), tr("{count} short", count=count))
        for item, count in buying.short.items()
    ]
    if buying.orders and buying.total:
        rows.append((tr("the least cost"), tr("proven") if buying.proof == "proven" else gap_in_words(buying)))
    if bought.budget is not None:
        rows.append((tr("budget"), money(room, bought.budget)))
        rows.append((tr("over the budget") if bought.over > 0 else tr("left of the budget"), money(room, abs(bought.over))))
    lines = [heading(tr("Totals"), width), *(replace(_pair(pair, width), keeps=pair is not rows[-1]) for pair in rows)]
    if bought.ways:
        lines.append(heading(tr("What would bring it under"), width))
        lines += [_pair((way.text, _saves(money(room, way.saves), is_enough=way.is_enough)), width) for way in bought.ways]
    return [*lines, *_heavy(room, every, width)]


def _saves(amount: str, *, is_enough: bool) -> str:
    return tr("saves {amount}, enough", amount=amount) if is_enough else tr("saves {amount}", amount=amount)


def _heavy(room: Room, every: Iterable[OrderLine], width: float) -> list[Line]:
    """Packs that one person should not lift."""
    heavy = [line for line in every if line.mass_kg and line.mass_kg / line.packs > room.stock.heaviest_box_kg]
    if not heavy:
        return []
    units = room.display_units
    names = ", ".join(f"{title(line.material, units)} ({(line.mass_kg or 0) / line.packs:.0f} kg)" for line in heavy)
    return [gap(1.5), *paragraph(tr("Heavy packs, share them out or lift by two: {packs}.", packs=names), width, 2.5)]


def _pair(pair: tuple[str, str], width: float) -> Line:
    return row([Column("", width * 0.6), Column("", width * 0.4, "end")], pair)


def _order(room: Room, order: Order, width: float) -> list[Line]:
    rows = [
        [
            title(line.material, room.display_units),
            _number(line.packs),
            _number(line.pack),
            _number(line.pieces),
            _amount(line.price),
            _amount(line.cost) if line.cost is not None else "",
        ]
        for line in order.lines
    ]
    sums = [
        (tr("goods"), money(room, order.goods)),
        (tr("shipping"), money(room, order.shipping)),
        (tr("order"), money(room, order.total)),
    ]
    if order.lacks:
        sums.append((tr("missing to the minimum order, as far as prices are known"), money(room, order.lacks)))
    sums.append((tr("mass"), tr("{mass:.0f} kg in {packs} packs", mass=order.mass_kg, packs=order.packs)))
    titles = (tr("item"), tr("packs"), tr("pieces in\na pack"), tr("pieces"), tr("price of\na pack"), tr("cost"))
    return [*table(titles, rows, width), gap(2.0), *(_pair(pair, width) for pair in sums)]
