"""Edits of stock, suppliers and money: old room in, new room out."""

from collections.abc import Iterable

from core.buying.account import in_panels
from core.edits.revise import build, revise
from core.errors import RoomError
from core.language import tr
from core.purchase import Offer, Received, Supplier
from core.room import Room
from core.takeoff import Material


def set_purchase(room: Room, **values: object) -> Room:
    """The room with spare percentage, currency, budget or heaviest box changed. Raises RoomError where one is out of bounds."""
    return revise(room, stock=revise(room.stock, **values))


def receive(room: Room, material: Material, count: int) -> Room:
    """The room after a delivery of so many pieces."""
    before = _received(room, material)
    return _with_received(
        room, build(Received, part=material.name, colour=material.colour, count=_positive(count) + before[0], lost=before[1])
    )


def count_boxes(room: Room, material: Material, found: int) -> Room:
    """The room after somebody counted a part's boxes: what is missing is noted as lost, what is over as received.

    ``found`` is what lies in the boxes; what panels hold is known. Raises RoomError where it is below nothing.
    """
    count, lost = _received(room, material)
    reckoned = count - lost - in_panels(room)[material]
    missing = reckoned - _positive(found)
    if missing >= 0:
        lost += missing
    else:
        # Lost pieces that turn up again come off the losses first.
        back = min(lost, -missing)
        lost, count = lost - back, count - missing - back
    return _with_received(room, build(Received, part=material.name, colour=material.colour, count=count, lost=lost))


def set_supplier(room: Room, supplier: Supplier) -> Room:
    """The room with a supplier added, or the one of that name replaced."""
    others = room.stock.suppliers
    names = [one.name for one in others]
    if supplier.name not in names:
        return set_purchase(room, suppliers=(*others, supplier))
    return set_purchase(room, suppliers=tuple(supplier if one.name == supplier.name else one for one in others))


def remove_supplier(room: Room, name: str) -> Room:
    """The room without a supplier. Raises RoomError where there is none of that name."""
    kept = tuple(one for one in room.stock.suppliers if one.name != name)
    if len(kept) == len(room.stock.suppliers):
        raise RoomError(_unknown(name, room))
    return set_purchase(room, suppliers=kept)


def set_offers(room: Room, supplier: str, offers: Iterable[Offer]) -> Room:
    """The room with a supplier's whole price list replaced; the supplier is added where there is none of that name."""
    found = next((one for one in room.stock.suppliers if one.name == supplier), None)
    one = revise(found, offers=tuple(offers)) if found else build(Supplier, name=supplier, offers=tuple(offers))
    return set_supplier(room, one)


def _unknown(name: str, room: Room) -> str:
    known = ", ".join(one.name for one in room.stock.suppliers)
    if not known:
        return tr("supplier {name!r} does not exist; there are no suppliers yet", name=name)
    return tr("supplier {name!r} does not exist; the suppliers are {known}", name=name, known=known)


def _received(room: Room, material: Material) -> tuple[int, int]:
    for line in room.stock.received:
        if (line.part, line.colour) == (material.name, material.colour):
            return line.count, line.lost
    return 0, 0


def _positive(count: int) -> int:
    if count < 0:
        raise RoomError(tr("found {count} pieces; a count cannot be below nothing", count=count))
    return count


def _with_received(room: Room, line: Received) -> Room:
    others = tuple(one for one in room.stock.received if (one.part, one.colour) != (line.part, line.colour))
    return set_purchase(room, received=(*others, line))
