"""The orders as a list: supplier after supplier, then what nobody offers and what cannot be had."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from app.tables.cells import Column
from app.tables.reading import number_text
from app.tables.table import Table
from core.buying import Order, OrderLine, Purchasing
from core.language import marked, tr, trc
from core.room import Room
from core.sheets.buying_lists import money, title

UNSUPPLIED = marked("Nobody offers these")
SHORT = marked("Suppliers cannot send all of these")


@dataclass(frozen=True, slots=True)
class OrderRow:
    """One line as it is read; heads name who the lines below are ordered from."""

    what: str
    packs: str = ""
    pieces: str = ""
    price: str = ""
    cost: str = ""
    is_head: bool = False


class OrdersTable(Table[OrderRow]):
    """Read only: orders follow from needs and prices."""

    def __init__(self) -> None:
        columns: list[Column[OrderRow]] = [
            Column(trc("a list", "Order"), lambda row: row.what),
            Column(tr("Boxes"), lambda row: row.packs, is_number=True),
            Column(tr("Pieces"), lambda row: row.pieces, is_number=True),
            Column(tr("A box"), lambda row: row.price, is_number=True, hint=tr("Price of one box or bag")),
            Column(tr("Cost"), lambda row: row.cost, is_number=True),
        ]
        super().__init__(tr("Orders"), columns, is_strong=lambda row: row.is_head)

    def show_orders(self, room: Room, bought: Purchasing | None) -> None:
        """Show what to order, or nothing while it is not known."""
        self.show_rows(list(_rows(room, bought)) if bought else [])


def _rows(room: Room, bought: Purchasing) -> Iterator[OrderRow]:
    buying = bought.buying
    for order in buying.orders:
        yield from _order(room, order)
    if buying.unsupplied:
        known = [line.cost for line in buying.unsupplied if line.cost is not None]
        yield OrderRow(tr(UNSUPPLIED), _boxes(buying.unsupplied), cost=money(room, sum(known)) if known else "", is_head=True)
        yield from (_line(room, line) for line in buying.unsupplied)
    if buying.short:
        yield OrderRow(tr(SHORT), is_head=True)
        for item, count in buying.short.items():
            yield OrderRow(title(item, room.display_units), pieces=tr("{count} short", count=number_text(count)))


def _order(room: Room, order: Order) -> Iterator[OrderRow]:
    is_unpriced = all(line.cost is None for line in order.lines)
    yield OrderRow(order.supplier, _boxes(order.lines), cost=money(room, None if is_unpriced else order.total), is_head=True)
    yield from (_line(room, line) for line in order.lines)
    if order.shipping:
        yield OrderRow(tr("shipping"), cost=money(room, order.shipping))
    if order.lacks:
        yield OrderRow(tr("lacks to the least order"), cost=money(room, order.lacks))


def _line(room: Room, line: OrderLine) -> OrderRow:
    cost = "" if line.cost is None else money(room, line.cost)
    pieces = number_text(line.pieces)
    return OrderRow(title(line.material, room.display_units), _boxes([line]), pieces, money(room, line.price), cost)


def _boxes(lines: Sequence[OrderLine]) -> str:
    """How many boxes or bags; what comes by the piece has none."""
    return number_text(sum(line.packs for line in lines if line.pack > 1)) if any(line.pack > 1 for line in lines) else ""
