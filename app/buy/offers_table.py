"""One supplier's price list, offer by offer, and an empty row to add one."""

import difflib
from collections.abc import Callable, Sequence
from dataclasses import dataclass

from app.document import Document
from app.tables.cells import Column
from app.tables.reading import TypedError, amount, committed, whole
from app.tables.table import Table
from core.edits.buying import set_offers
from core.edits.revise import build, revise
from core.language import marked, tr
from core.purchase import Offer, PriceBreak
from core.room import Room
from core.sheets.buying_lists import NO_PRICE, money

BREAKS_HINT = marked("Dearer alone than together: “10: 9.50; 50: 9.00” is 9.50 each from 10 packs on, 9.00 from 50")


ReadTyped = Callable[[Room, str], dict[str, object]]
"""What is typed into a cell as fields of the offer."""


@dataclass(frozen=True, slots=True)
class OfferRow:
    """An offer by its place in the list; without one it is the row to add with."""

    number: int
    offer: Offer | None
    currency: str


class OffersTable(Table[OfferRow]):
    """Shows the offers of whichever supplier it is turned to; Delete removes a row."""

    def __init__(self, document: Document) -> None:
        self._document = document
        self.supplier: str | None = None
        self.known_parts: Sequence[str] = ()
        """What may be offered."""
        super().__init__(tr("Prices"), self._columns())
        self.removal_asked.connect(self.remove)

    def refresh(self) -> None:
        """Show the supplier's offers as they are now."""
        if self.supplier is None:
            self.show_rows([])
            return
        offers, currency = _offers(self._document.room, self.supplier), self._document.room.stock.currency
        rows = [OfferRow(number, offer, currency) for number, offer in enumerate(offers)]
        self.show_rows([*rows, OfferRow(len(rows), None, currency)])

    def remove(self, number: int) -> None:
        """Take an offer out."""
        offer = self.cells.rows[number].offer
        if offer is not None:
            self._commit(number, lambda _room: None, tr("Remove the price of {part}", part=tr(offer.part)))

    def _columns(self) -> list[Column[OfferRow]]:
        return [
            Column(
                tr("Part"),
                lambda row: tr(row.offer.part) if row.offer else "",
                self._set_part,
                proposals=lambda: [tr(part) for part in self.known_parts],
                invite=tr("add a part"),
            ),
            self._field(
                tr("Colour"),
                lambda offer: tr(offer.colour) if offer.colour else "",
                self._read_colour,
                (tr("any"), marked("Set “colour” of {part}")),
                is_number=False,
            ),
            self._field(
                tr("In a pack"),
                lambda offer: str(offer.pack),
                lambda _room, typed: {"pack": whole(typed)},
                (tr("Pieces"), marked("Set “in a pack” of {part}")),
            ),
            self._field(
                tr("A pack costs"),
                self._price_text,
                self._read_price,
                (tr("Empty where the supplier has not said"), marked("Set “a pack costs” of {part}")),
            ),
            self._field(
                tr("Cheaper from"),
                self._breaks_text,
                self._read_breaks,
                (tr(BREAKS_HINT), marked("Set “cheaper from” of {part}")),
            ),
            self._field(
                tr("Most packs"),
                lambda offer: "" if offer.most_packs is None else str(offer.most_packs),
                lambda _room, typed: {"most_packs": whole(typed) if typed else None},
                (tr("The most the supplier can send; empty without a limit"), marked("Set “most packs” of {part}")),
            ),
        ]

    def _field(
        self, title: str, text: Callable[[Offer], str], read: ReadTyped, words: tuple[str, str], *, is_number: bool = True
    ) -> Column[OfferRow]:
        """A column of offers; ``words`` are its hint and how an edit is called, with a gap for the part."""
        hint, step = words

        def commit(row: OfferRow, typed: str) -> str:
            offer = row.offer
            if offer is None:
                return ""
            text = tr(step, part=tr(offer.part))
            return self._commit(row.number, lambda room: revise(offer, **read(room, typed)), text)

        return Column(
            title,
            lambda row: text(row.offer) if row.offer else "",
            commit,
            is_number=is_number,
            hint=hint,
            can_edit=lambda row: row.offer is not None,
        )

    def _set_part(self, row: OfferRow, typed: str) -> str:
        def made(_room: Room) -> Offer:
            part = self._known(typed)
            return build(Offer, part=part) if row.offer is None else revise(row.offer, part=part)

        text = tr("Add a price of {part}", part=typed) if row.offer is None else tr("Offer {part} instead", part=typed)
        return self._commit(row.number, made, text)

    def _known(self, typed: str) -> str:
        by_name = {tr(part): part for part in self.known_parts}
        if typed in by_name:
            return by_name[typed]
        if typed in self.known_parts:
            return typed
        fault = tr("found {typed!r}, which is no part of this job", typed=typed[:40])
        near = difflib.get_close_matches(typed, by_name, 1)
        hint = tr("did you mean {part!r}?", part=near[0]) if near else tr("the table of needs names the parts")
        raise TypedError(f"{fault}; {hint}")

    def _commit(self, number: int, made: Callable[[Room], Offer | None], text: str) -> str:
        """Put an offer in its place, or take it out where there is none."""
        supplier = self.supplier
        if supplier is None:
            return ""

        def edit(room: Room) -> Room:
            offers, offer = _offers(room, supplier), made(room)
            return set_offers(room, supplier, (*offers[:number], *((offer,) if offer else ()), *offers[number + 1 :]))

        return committed(self._document, edit, text)

    def _price_text(self, offer: Offer) -> str:
        return tr(NO_PRICE) if offer.price is None else money(self._document.room, offer.price)

    def _read_price(self, room: Room, typed: str) -> dict[str, object]:
        return {"price": amount(typed, room.stock.currency) if typed and typed != tr(NO_PRICE) else None}

    def _read_colour(self, room: Room, typed: str) -> dict[str, object]:
        """A colour by its name as it is shown, or as the room has it."""
        names = {tr(colour.name): colour.name for colour in room.colouring.colours}
        return {"colour": names.get(typed, typed) or None}

    def _breaks_text(self, offer: Offer) -> str:
        return "; ".join(f"{step.from_packs}: {money(self._document.room, step.price)}" for step in offer.breaks)

    def _read_breaks(self, room: Room, typed: str) -> dict[str, object]:
        return {"breaks": tuple(_break(step, room.stock.currency) for step in typed.split(";") if step.strip())}


def _break(step: str, currency: str) -> PriceBreak:
    packs, colon, price = step.partition(":")
    if not colon:
        raise TypedError(tr("found {typed!r}, should be packs and a price like 10: 9.50", typed=step.strip()[:20]))
    return build(PriceBreak, from_packs=whole(packs), price=amount(price, currency))


def _offers(room: Room, supplier: str) -> tuple[Offer, ...]:
    return next((one.offers for one in room.stock.suppliers if one.name == supplier), ())
