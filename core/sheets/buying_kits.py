"""Kitting lists: one kit for every set of panels that takes the same, with the benches and rounds it is counted out for."""

from collections import Counter
from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate

from core.crew.kitting import KitList
from core.drawing import Box, Item, Pen, Text
from core.drawing.items import rectangle
from core.drawing.lettering import shorten, text_width_mm
from core.language import marked, tr
from core.laying.own import COLOURS
from core.setout.result import SetOut
from core.sheets.buying_lists import title
from core.sheets.draft import Draft
from core.sheets.flow import LINE_MM, Column, Line, gap, heading, heading_and_words, paragraph, row
from core.sheets.listing import list_drafts, list_width
from core.takeoff import Count, Material, in_order

_BOX = Pen(0.25)
_TICK_MM = 3.6
_WAYS = ((3.5, 3), (2.5, 3), (2.5, 2), (2.5, 1))
"""Sizes of letters, and how many parts stand abreast in them, the best first."""
_MOST_KEPT_MM = 150.0
"""Parts that take more are not kept on one page."""
_TEXT_LEFT_MM = 6.0
_AIR_MM = 7.0
"""Between a name and its count, and after it."""


def kitting_sheets(setout: SetOut, lists: Sequence[KitList]) -> list[Draft]:
    """The kitting lists of everything still to build; none where all is built."""
    if not lists:
        return []
    width = list_width(setout)
    crew = setout.room.crew
    said = tr(
        "Count out one kit for each bench and round: at most {panels} panels. Tick each part when it is in the "
        "tray; tick the round when the tray is at the bench. {benches} benches, {rounds} rounds, in hanging order.",
        panels=crew.kits_per_bench,
        benches=crew.benches,
        rounds=lists[-1].round,
    )
    lines = [*paragraph(said, width, 2.5)]
    for number, alike in enumerate(_alike(lists), start=1):
        lines += _kit(setout, number, alike, width)
    return list_drafts(setout, "kitting", tr("Kitting lists"), marked("kitting list"), lines)


def _alike(lists: Sequence[KitList]) -> list[list[KitList]]:
    """Lists of the same designs and parts together, by first use."""
    groups: dict[tuple[frozenset[tuple[str, int]], frozenset[tuple[Material, int]]], list[KitList]] = {}
    for one in lists:
        groups.setdefault((frozenset(one.designs.items()), frozenset(one.parts.items())), []).append(one)
    return list(groups.values())


def _kit(setout: SetOut, number: int, alike: Sequence[KitList], width: float) -> Iterator[Line]:
    first = alike[0]
    what = _what(first)
    yield from (replace(line, keeps=True) for line in heading_and_words(tr("Kit {number}", number=number), what, width))
    yield from _part_lines(setout, first.parts, again(tr("Kit {number}, more parts", number=number), what, width), width)
    yield replace(gap(1.2), keeps=True)
    on_top = again(tr("Kit {number}, more rounds", number=number), what, width)
    for one in alike:
        marks = ", ".join(panel.mark for panel in one.panels)
        place = tr("round {round}, bench {bench}", round=one.round, bench=one.bench)
        ticked = _ticked([Column("", 40.0), Column("", width - 40.0)], (place, marks))
        yield replace(ticked, head=on_top)


def again(title: str, what: str, width: float) -> Line:
    """What stands over the rest of a kit on another page: what it is for only where that has room."""
    said = f"{title}: {what}"
    return heading(said if text_width_mm(said, 3.5) <= width else title, width)


def _what(kit: KitList) -> str:
    """How many of what; panels cut at their colours by design, for which is which the marks below say."""
    colours = tr(COLOURS)
    counts = Counter(
        tr("{design} by colour sheets", design=name.partition(colours)[0]) if colours in name else name for name in kit.sheets
    )
    return ", ".join(f"{count} × {name}" for name, count in counts.items())


@dataclass(frozen=True, slots=True)
class _Setting:
    """How a kit's parts are set: in columns read downwards, as wide as their longest line needs."""

    columns: tuple[tuple[Material, ...], ...]
    needs_mm: tuple[float, ...]
    text_mm: float

    @property
    def row_mm(self) -> float:
        return self.text_mm + 2.5 if self.text_mm > 3.0 else LINE_MM

    @property
    def depth(self) -> int:
        return len(self.columns[0]) if self.columns else 0


def _set(order: Sequence[Material], parts: Count, names: Mapping[Material, str], text_mm: float, abreast: int) -> _Setting:
    depth = max(1, -(-len(order) // abreast))
    columns = tuple(tuple(order[begin : begin + depth]) for begin in range(0, len(order), depth))
    needs = tuple(max(_needed_mm(names[one], parts[one], text_mm) for one in column) for column in columns)
    return _Setting(columns, needs, text_mm)


def _part_lines(setout: SetOut, parts: Count, again: Line, width: float) -> Iterator[Line]:
    """Parts and counts, three abreast in large letters if they fit so, else smaller, else fewer abreast.

    What is too long for a page goes on under ``again``.
    """
    order = in_order(parts, setout.room.parts)
    names = {one: title(one, setout.room.display_units) for one in order}
    ways = [_set(order, parts, names, text, abreast) for text, abreast in _WAYS]
    way = next((way for way in ways if sum(way.needs_mm) <= width), ways[-1])
    widths = [need * width / sum(way.needs_mm) for need in way.needs_mm]
    keeps = way.depth * way.row_mm <= _MOST_KEPT_MM
    for level in range(way.depth):
        items: list[Item] = []
        for left, each, column in zip(accumulate([0.0, *widths]), widths, way.columns, strict=False):
            if level < len(column):
                items += _part(names[column[level]], f"{parts[column[level]]}", left, each, way)
        is_edge = level < 2 or level >= way.depth - 2
        yield Line(way.row_mm, tuple(items), keeps=keeps or is_edge, head=again)


def _needed_mm(name: str, count: int, text_mm: float) -> float:
    return _TEXT_LEFT_MM + text_width_mm(name, text_mm) + text_width_mm(f"{count}", text_mm) + _AIR_MM


def _part(name: str, count: str, left: float, width: float, way: _Setting) -> Iterator[Item]:
    yield from _tick(left)
    room = width - _TEXT_LEFT_MM - text_width_mm(count, way.text_mm) - _AIR_MM / 2 - 1.0
    base = way.row_mm - 1.4 if way.text_mm > 3.0 else 3.6
    yield Text((left + _TEXT_LEFT_MM, base), shorten(name, room, way.text_mm), way.text_mm)
    yield Text((left + width - _AIR_MM / 2, base), count, way.text_mm, "end")


def _ticked(columns: Sequence[Column], cells: Sequence[str]) -> Line:
    """A row with a box to tick in front."""
    shifted = [Column("", 5.0), *columns[:-1], Column("", columns[-1].width_mm - 5.0)]
    made = row(shifted, ["", *cells])
    return Line(made.height_mm, (*made.items, *_tick(0.0)))


def _tick(left: float) -> list[Item]:
    return [rectangle(Box(left + 0.5, 0.7, left + 0.5 + _TICK_MM, 0.7 + _TICK_MM), _BOX)]
