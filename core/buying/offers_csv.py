"""A supplier's price list from a spreadsheet: good lines are kept, bad ones are named by row and column.

Columns, in any order: ``part``, ``pack`` (pieces), ``price`` (of one pack); also ``colour``, ``from_packs`` (the price holds from
so many packs on) and ``most_packs``. A part's further prices stand in lines of their own.
"""

import csv
import difflib
import io
import math
from collections.abc import Iterable, Mapping
from dataclasses import dataclass

from core.errors import CoursewrightError
from core.language import tr
from core.parts import Part
from core.purchase import Offer, PriceBreak
from core.takeoff import SCREW

_NEEDED = ("part", "pack", "price")
_KNOWN = (*_NEEDED, "colour", "from_packs", "most_packs")
_MOST_ROWS = 20_000
_MOST_FAULTS = 200


@dataclass(frozen=True, slots=True)
class OfferFault:
    """A line that was left out. ``row`` counts from 1, the line of titles included."""

    row: int
    column: str
    text: str

    def __str__(self) -> str:
        return tr("row {row}, column {column}: {text}", row=self.row, column=self.column, text=self.text)


@dataclass(frozen=True, slots=True)
class OfferList:
    offers: tuple[Offer, ...]
    faults: tuple[OfferFault, ...]


@dataclass(frozen=True, slots=True)
class _Line:
    row: int
    part: str
    colour: str | None
    pack: int
    price: float | None
    from_packs: int
    most_packs: int | None


class _FaultError(CoursewrightError):
    """One cell that cannot be read."""

    def __init__(self, column: str, text: str) -> None:
        super().__init__(text)
        self.column = column


def read_offers(text: str, parts: Iterable[Part]) -> OfferList:
    """The offers in a price list. Raises CoursewrightError where it has no usable line of titles."""
    rows = _rows(text)
    if not rows:
        raise CoursewrightError(tr("the price list is empty; it needs a line of titles: {titles}", titles=", ".join(_NEEDED)))
    titles = [cell.strip().lstrip("\ufeff").lower().replace(" ", "_") for cell in rows[0]]
    if missing := [name for name in _NEEDED if name not in titles]:
        raise CoursewrightError(
            tr(
                "row 1: found no column {missing}; the titles must be {titles}",
                missing=tr(" or ").join(missing),
                titles=", ".join(_NEEDED),
            )
        )
    names = [*(part.name for part in parts), SCREW]
    lines: list[_Line] = []
    faults: list[OfferFault] = []
    for number, cells in enumerate(rows[1:_MOST_ROWS], start=2):
        if not any(cell.strip() for cell in cells):
            continue
        fields = {title: cell.strip() for title, cell in zip(titles, cells, strict=False) if title in _KNOWN}
        try:
            lines.append(_line(number, fields, names))
        except _FaultError as fault:
            faults.append(OfferFault(number, fault.column, str(fault)))
    if len(rows) > _MOST_ROWS:
        faults.append(OfferFault(_MOST_ROWS + 1, "part", tr("only the first {most} lines are read", most=_MOST_ROWS)))
    offers, more = _merged(lines)
    return OfferList(offers, tuple(sorted([*faults, *more], key=lambda fault: fault.row)[:_MOST_FAULTS]))


def decoded(data: bytes) -> str:
    """The text of a price list's bytes: UTF-8 where it is that, else the Western code page spreadsheets still save in."""
    try:
        return data.decode("utf-8-sig")
    except UnicodeDecodeError:
        return data.decode("cp1252", errors="replace")


def _rows(text: str) -> list[list[str]]:
    """The cells, whichever of tab, semicolon and comma the title line is parted by."""
    first = text.lstrip("\ufeff\r\n").partition("\n")[0]
    delimiter = max("\t;,", key=first.count)
    try:
        return list(csv.reader(io.StringIO(text.lstrip("\ufeff"), newline=""), delimiter=delimiter))
    except csv.Error as error:
        raise CoursewrightError(tr("the price list is not CSV text ({why})", why=error)) from None


def _line(row: int, fields: Mapping[str, str], names: list[str]) -> _Line:
    part = fields.get("part", "")
    if part not in names:
        near = difflib.get_close_matches(part, names, 1)
        raise _FaultError(
            "part",
            tr("found {part!r}, which is no part of this job; did you mean {near!r}?", part=part[:40], near=near[0])
            if near
            else tr("found {part!r}, which is no part of this job; the parts list names the parts", part=part[:40]),
        )
    price = fields.get("price", "")
    colour = fields.get("colour", "")
    if len(colour) > 40:
        raise _FaultError("colour", tr("found {count} letters, at most 40 are allowed", count=len(colour)))
    return _Line(
        row=row,
        part=part,
        colour=colour or None,
        pack=_whole("pack", fields.get("pack", "")),
        price=_money(price) if price else None,
        from_packs=_whole("from_packs", fields.get("from_packs") or "1"),
        most_packs=_whole("most_packs", fields["most_packs"]) if fields.get("most_packs") else None,
    )


def _whole(column: str, text: str) -> int:
    if not (text.isascii() and text.isdigit() and 1 <= len(text) <= 7 and 1 <= int(text) <= 1_000_000):
        raise _FaultError(column, tr("found {text!r}, should be a whole number from 1 to 1000000", text=text[:20]))
    return int(text)


def _money(text: str) -> float:
    """A price with a point or a comma before the cents; a list that parts thousands must be written without."""
    plain = text.replace(",", ".")
    try:
        value = float(plain) if plain.replace(".", "", 1).isdigit() and plain.isascii() else math.nan
    except ValueError:
        value = math.nan
    if not 0 <= value <= 1_000_000_000:
        raise _FaultError("price", tr("found {text!r}, should be a price like 12.50, without a currency sign", text=text[:20]))
    return value


def _merged(lines: Iterable[_Line]) -> tuple[tuple[Offer, ...], list[OfferFault]]:
    """Lines of one part, colour and pack made one offer with price breaks."""
    groups: dict[tuple[str, str | None, int], list[_Line]] = {}
    for line in lines:
        groups.setdefault((line.part, line.colour, line.pack), []).append(line)
    offers: list[Offer] = []
    faults: list[OfferFault] = []
    for (part, colour, pack), group in groups.items():
        group.sort(key=lambda line: line.from_packs)
        first, *rest = group
        repeated = next((b for a, b in zip(group, rest, strict=False) if a.from_packs == b.from_packs), None)
        if repeated:
            faults.append(
                OfferFault(
                    repeated.row,
                    "from_packs",
                    tr("{part!r} in packs of {pack} has two prices from there on", part=part, pack=pack),
                )
            )
            continue
        if first.from_packs != 1:
            faults.append(
                OfferFault(
                    first.row,
                    "from_packs",
                    tr("{part!r} in packs of {pack} has no price for a single pack", part=part, pack=pack),
                )
            )
            continue
        blank = next((line for line in group if line.price is None), None)
        if blank and rest:
            faults.append(
                OfferFault(
                    blank.row,
                    "price",
                    tr("{part!r} in packs of {pack} has several lines, so each needs a price", part=part, pack=pack),
                )
            )
            continue
        breaks = tuple(PriceBreak(from_packs=line.from_packs, price=line.price) for line in rest if line.price is not None)
        offers.append(Offer(part=part, colour=colour, pack=pack, price=first.price, breaks=breaks, most_packs=first.most_packs))
    return tuple(offers), faults
