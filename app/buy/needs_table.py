"""The table of what the room needs: every material with its account, and cells for a stock take and for a delivery."""

from collections import defaultdict
from collections.abc import Callable, Mapping
from dataclasses import dataclass

from app.buy.counting import Needs
from app.document import Document
from app.tables.cells import Column
from app.tables.reading import committed, number_text, whole
from app.tables.table import Table
from core.buying import AccountLine, OrderLine, Purchasing
from core.edits.buying import count_boxes, receive
from core.language import tr
from core.sheets.buying_lists import title
from core.takeoff import Material

NOT_YET = "…"


@dataclass(frozen=True, slots=True)
class Need:
    """One material; what is ordered of it is not known before the orders are."""

    material: Material
    line: AccountLine
    boxes: str
    mass: str


class NeedsTable(Table[Need]):
    """Typing into “on hand” is a stock take, typing into “delivery” adds what came."""

    def __init__(self, document: Document) -> None:
        self._document = document
        super().__init__(tr("What the room needs"), self._columns())

    def show_needs(self, needs: Needs, bought: Purchasing | None) -> None:
        """Show an account, with what is ordered where that is worked out."""
        ordered = ordered_lines(bought) if bought else {}
        self.show_rows([_need(material, line, ordered.get(material, []), bought) for material, line in needs.lines.items()])

    def _columns(self) -> list[Column[Need]]:
        return [
            Column(tr("Part"), lambda need: self._title(need)),
            _number(tr("Needed"), lambda line: line.needed, tr("Pieces that panels still take")),
            _number(tr("Spare"), lambda line: line.spare, tr("Pieces kept for what gets lost")),
            Column(
                tr("On hand"),
                lambda need: number_text(need.line.on_hand),
                self._count,
                is_number=True,
                hint=tr("What lies in the boxes. Type what a stock take finds"),
            ),
            Column(
                tr("Delivery"),
                lambda _need: "",
                self._receive,
                is_number=True,
                hint=tr("Type how many pieces came; they are added"),
            ),
            _number(tr("To buy"), lambda line: line.to_buy, tr("Pieces")),
            Column(
                tr("Boxes"), lambda need: need.boxes, is_number=True, hint=tr("How many boxes or bags, and of how many pieces")
            ),
            Column("kg", lambda need: need.mass, is_number=True, hint=tr("What the boxes weigh together")),
        ]

    def _title(self, need: Need) -> str:
        return title(need.material, self._document.room.display_units)

    def _count(self, need: Need, typed: str) -> str:
        text = tr("Stock take of {part}", part=self._title(need))
        return committed(self._document, lambda room: count_boxes(room, need.material, whole(typed)), text)

    def _receive(self, need: Need, typed: str) -> str:
        text = tr("Delivery of {part}", part=self._title(need))
        return committed(self._document, lambda room: receive(room, need.material, whole(typed)), text)


def _number(title: str, read: Callable[[AccountLine], int], hint: str) -> Column[Need]:
    return Column(title, lambda need: number_text(read(need.line)), is_number=True, hint=hint)


def ordered_lines(bought: Purchasing) -> Mapping[Material, list[OrderLine]]:
    """Everything ordered or wanted in boxes, by material."""
    found: defaultdict[Material, list[OrderLine]] = defaultdict(list)
    for line in every_line(bought):
        found[line.material].append(line)
    return found


def every_line(bought: Purchasing) -> list[OrderLine]:
    """The lines of all orders, and what nobody offers."""
    return [*(line for order in bought.buying.orders for line in order.lines), *bought.buying.unsupplied]


def _need(material: Material, line: AccountLine, ordered: list[OrderLine], bought: Purchasing | None) -> Need:
    if bought is None:
        return Need(material, line, NOT_YET if line.to_buy else "", "")
    boxes = " + ".join(f"{number_text(one.packs)} × {number_text(one.pack)}" for one in ordered if one.pack > 1)
    mass = sum(one.mass_kg or 0.0 for one in ordered)
    return Need(material, line, boxes, f"{mass:.1f}" if mass else "")
