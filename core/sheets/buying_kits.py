"""Kitting lists: one kit for every set of panels that takes the same, with the benches and rounds it is counted out for."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import accumulate

from core.crew.kitting import KitList
from core.drawing import Box, Item, Pen, Text
from core.drawing.items import rectangle
from core.drawing.lettering import shorten, text_width_mm
from core.setout.result import SetOut
from core.sheets.buying_lists import title
from core.sheets.draft import Draft
from core.sheets.flow import Column, Line, gap, heading, paragraph, row
from core.sheets.listing import list_drafts, list_width
from core.takeoff import Count, Material, in_order

_BOX = Pen(0.25)
_TICK_MM = 3.6
_PARTS_ABREAST = 3
_PART_MM = 6.0
_TEXT_LEFT_MM = 6.0
_AIR_MM = 7.0
"""Between a name and its count, and after it."""


def kitting_sheets(setout: SetOut, lists: Sequence[KitList]) -> list[Draft]:
    """The kitting lists of everything still to build; none where all is built."""
    if not lists:
        return []
    width = list_width(setout)
    crew = setout.room.crew
    said = (
        f"Count out one kit for each bench and round: at most {crew.kits_per_bench} panels. Tick each part when it is in the "
        f"tray; tick the round when the tray is at the bench. {crew.benches} benches, {lists[-1].round} rounds, in hanging order."
    )
    lines = [*paragraph(said, width, 2.5)]
    for number, alike in enumerate(_alike(lists), start=1):
        lines += _kit(setout, number, alike, width)
    return list_drafts(setout, "kitting", "Kitting lists", "kitting list", lines)


def _alike(lists: Sequence[KitList]) -> list[list[KitList]]:
    """Lists of the same designs and parts together, by first use."""
    groups: dict[tuple[frozenset[tuple[str, int]], frozenset[tuple[Material, int]]], list[KitList]] = {}
    for one in lists:
        groups.setdefault((frozenset(one.designs.items()), frozenset(one.parts.items())), []).append(one)
    return list(groups.values())


def _kit(setout: SetOut, number: int, alike: Sequence[KitList], width: float) -> Iterator[Line]:
    first = alike[0]
    what = ", ".join(f"{count} × {design}" for design, count in first.designs.items())
    yield heading(f"Kit {number}: {what}", width)
    yield from _part_lines(setout, first.parts, width)
    yield replace(gap(1.2), keeps=True)
    again = heading(f"Kit {number}, more rounds: {what}", width)
    for one in alike:
        marks = ", ".join(panel.mark for panel in one.panels)
        ticked = _ticked([Column("", 40.0), Column("", width - 40.0)], (f"round {one.round}, bench {one.bench}", marks))
        yield replace(ticked, head=again)


def _part_lines(setout: SetOut, parts: Count, width: float) -> Iterator[Line]:
    """Parts and counts, several abreast, read down each column; columns share the width by their longest line."""
    units, order = setout.room.display_units, in_order(parts, setout.room.parts)
    depth = max(1, -(-len(order) // _PARTS_ABREAST))
    columns = [order[begin : begin + depth] for begin in range(0, len(order), depth)]
    needs = [max(_needed_mm(title(one, units), parts[one]) for one in column) for column in columns]
    widths = [need * width / sum(needs) for need in needs]
    for level in range(depth):
        items: list[Item] = []
        for left, each, column in zip(accumulate([0.0, *widths]), widths, columns, strict=False):
            if level < len(column):
                items += _part(title(column[level], units), f"{parts[column[level]]}", left, each)
        yield Line(_PART_MM, tuple(items), keeps=True)


def _needed_mm(name: str, count: int) -> float:
    return _TEXT_LEFT_MM + text_width_mm(name, 3.5) + text_width_mm(f"{count}", 3.5) + _AIR_MM


def _part(name: str, count: str, left: float, width: float) -> Iterator[Item]:
    yield from _tick(left)
    room = width - _TEXT_LEFT_MM - text_width_mm(count, 3.5) - _AIR_MM / 2 - 1.0
    yield Text((left + _TEXT_LEFT_MM, 4.6), shorten(name, room, 3.5), 3.5)
    yield Text((left + width - _AIR_MM / 2, 4.6), count, 3.5, "end")


def _ticked(columns: Sequence[Column], cells: Sequence[str]) -> Line:
    """A row with a box to tick in front."""
    shifted = [Column("", 5.0), *columns[:-1], Column("", columns[-1].width_mm - 5.0)]
    made = row(shifted, ["", *cells])
    return Line(made.height_mm, (*made.items, *_tick(0.0)))


def _tick(left: float) -> list[Item]:
    return [rectangle(Box(left + 0.5, 0.7, left + 0.5 + _TICK_MM, 0.7 + _TICK_MM), _BOX)]
