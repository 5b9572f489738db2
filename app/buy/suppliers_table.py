"""The suppliers: a name and their terms in each row, and an empty row to add one."""

from collections.abc import Callable
from dataclasses import dataclass

from app.document import Document
from app.tables.cells import Column
from app.tables.reading import amount, committed
from app.tables.table import Table
from core.edits.buying import remove_supplier, set_purchase, set_supplier
from core.edits.revise import build, revise
from core.errors import RoomError
from core.language import marked, tr
from core.purchase import Supplier
from core.room import Room
from core.sheets.buying_lists import money


@dataclass(frozen=True, slots=True)
class SupplierRow:
    """A supplier as the table shows them; without one it is the row to add with."""

    supplier: Supplier | None
    currency: str


class SuppliersTable(Table[SupplierRow]):
    """Typing another name renames; Delete removes with all prices, which undo brings back."""

    def __init__(self, document: Document) -> None:
        self._document = document
        columns: list[Column[SupplierRow]] = [
            Column(
                tr("Supplier"),
                lambda row: row.supplier.name if row.supplier else "",
                self._name,
                invite=tr("add a supplier"),
            ),
            self._terms(
                tr("Shipping"),
                lambda one: one.shipping or None,
                "shipping",
                tr("Once for every order"),
                marked("Set shipping of {supplier}"),
            ),
            self._terms(
                tr("Free from"),
                lambda one: one.free_shipping_from,
                "free_shipping_from",
                tr("Goods from which shipping is free"),
                marked("Set free from of {supplier}"),
            ),
            self._terms(
                tr("Least order"),
                lambda one: one.minimum_order or None,
                "minimum_order",
                tr("Goods that an order must reach"),
                marked("Set least order of {supplier}"),
            ),
            Column(tr("Prices"), lambda row: str(len(row.supplier.offers)) if row.supplier else "", is_number=True),
        ]
        super().__init__(tr("Suppliers"), columns)
        self.removal_asked.connect(self.remove)

    def refresh(self) -> None:
        """Show the suppliers as they are now."""
        room = self._document.room
        currency = room.stock.currency
        self.show_rows([*(SupplierRow(one, currency) for one in room.stock.suppliers), SupplierRow(None, currency)])

    @property
    def chosen(self) -> Supplier | None:
        """The supplier someone is at."""
        row = self.row_at_hand()
        return row.supplier if row else None

    def choose(self, name: str) -> None:
        """Go to a supplier."""
        names = [row.supplier.name if row.supplier else None for row in self.cells.rows]
        if name in names:
            self.setCurrentIndex(self.cells.index(names.index(name), 0))

    def remove(self, number: int) -> None:
        """Take a supplier out."""
        supplier = self.cells.rows[number].supplier
        if supplier is not None:
            committed(self._document, lambda room: remove_supplier(room, supplier.name), tr("Remove {name}", name=supplier.name))

    def _terms(
        self, title: str, read: Callable[[Supplier], float | None], field: str, hint: str, step: str
    ) -> Column[SupplierRow]:
        """A sum of money; ``step`` is how setting it is called, with a gap for the supplier."""

        def text(row: SupplierRow) -> str:
            value = read(row.supplier) if row.supplier else None
            return "" if value is None else money(self._document.room, value)

        def commit(row: SupplierRow, typed: str) -> str:
            supplier = row.supplier
            if supplier is None:
                return ""
            nothing = None if field == "free_shipping_from" else 0.0

            def edit(room: Room) -> Room:
                value = amount(typed, room.stock.currency) if typed else nothing
                return set_supplier(room, revise(supplier, **{field: value}))

            return committed(self._document, edit, tr(step, supplier=supplier.name))

        return Column(title, text, commit, is_number=True, hint=hint, can_edit=lambda row: row.supplier is not None)

    def _name(self, row: SupplierRow, typed: str) -> str:
        old = row.supplier.name if row.supplier else None
        text = tr("Add {name}", name=typed) if old is None else tr("Rename {name}", name=old)
        return committed(self._document, lambda room: named(room, old, typed), text)


def named(room: Room, old: str | None, new: str) -> Room:
    """The room with a supplier renamed, or added where ``old`` is None. Raises RoomError for a name that is taken or empty."""
    if not new:
        raise RoomError(tr("a supplier needs a name; Delete removes one"))
    suppliers = room.stock.suppliers
    if any(one.name == new for one in suppliers):
        raise RoomError(tr("there is a supplier {name!r} already", name=new))
    if old is None:
        return set_purchase(room, suppliers=(*suppliers, build(Supplier, name=new)))
    return set_purchase(room, suppliers=tuple(revise(one, name=new) if one.name == old else one for one in suppliers))
