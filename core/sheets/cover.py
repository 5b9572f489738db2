"""The cover: what is planned, what it takes, what to beware of, and which sheets follow."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import groupby, zip_longest

from core.cautions import CAUTIONS
from core.drawing import Path, Pen
from core.drawing.items import moved
from core.drawing.lettering import text_width_mm
from core.frame import FramePlan
from core.language import marked, tr, trc, trn
from core.places import place_words
from core.room import Units
from core.setout.metric import z_mm
from core.setout.result import Check, SetOut
from core.sheets.draft import Draft, drawing_box, page_title, page_words, papers
from core.sheets.flow import LINE_MM, Column, Line, gap, heading, pages, paragraph, row
from core.sheets.frames import frames
from core.sheets.wording import KIND_NAMES, hours, span_words, term_rows
from core.units import format_length, in_units

_BETWEEN_MM = 8.0
_SAID_ABOVE = frozenset({"fire-not-assessed", "escape-not-assessed", "mount-no-timber", "head-gap"})
_LEVELS = ("error", "warning", "note")

Pairs = Sequence[tuple[str, str]]


def cover(setout: SetOut, plan: FramePlan, others: Sequence[Draft], checks: Sequence[Check]) -> list[Draft]:
    """The cover's pages, listing themselves and the sheets that follow, and what was found about the room."""
    count = 1
    while True:
        made = _pages(setout, plan, others, checks, count)
        if len(made) <= count:
            return made
        count = len(made)


def _pages(setout: SetOut, plan: FramePlan, others: Sequence[Draft], checks: Sequence[Check], count: int) -> list[Draft]:
    paper = papers(setout.room.display_units)[0]
    area = drawing_box(paper, has_foot=False)
    width = area.width
    left = [
        *_table(tr("Panels"), _totals(setout), _half(width)),
        *_table(tr("Sheets of this pack"), _sheets(others, count), _half(width)),
    ]
    right = [
        *_table(tr("Crew time"), [row for row in term_rows(setout.minutes) if row[1] != "0 min"], _half(width)),
        *_table(tr("Rows and heights"), [*_rows(setout), *_heights(setout)], _half(width)),
    ]
    lines = [
        *_title(setout, width),
        *_cautions(width),
        *_side_by_side(left, right, width),
        *frames(setout, plan, width),
        *_checks(setout.room.display_units, checks, width),
    ]
    found = pages(lines, area)
    return [
        Draft(code, page_title(tr("Cover"), page), marked("cover"), paper, tuple(items), page=page)
        for number, items in enumerate(found, start=1)
        for code, page in [("cover" if number == 1 else f"cover-{number}", page_words(number, len(found)))]
    ]


def _title(setout: SetOut, width: float) -> list[Line]:
    name = setout.room.name
    height = next((h for h in (5.0, 3.5) if text_width_mm(name, h) <= width), 3.5)
    said = tr(
        "{panels} panels of bricks on {walls} walls, about {hours} of crew time.",
        panels=setout.tally.panels,
        walls=len(setout.walls),
        hours=hours(setout.minutes.total),
    )
    return [*paragraph(name, width, height), *paragraph(said, width, 3.5)]


def _cautions(width: float) -> list[Line]:
    lines = [heading(tr("Read before you start"), width), Line(2.0, (Path(((0.0, 0.0), (width, 0.0)), Pen(0.7)),), keeps=True)]
    for caution in CAUTIONS:
        lines += [*paragraph(tr(caution), width, 2.5, has_bullet=True), gap(0.3)]
    return [*lines, Line(1.0, (Path(((0.0, 0.5), (width, 0.5)), Pen(0.7)),))]


def _totals(setout: SetOut) -> Pairs:
    tally = setout.tally
    kinds = [(tr(KIND_NAMES[kind]), str(tally.by_kind[kind])) for kind in KIND_NAMES if tally.by_kind.get(kind)]
    return [
        *kinds,
        (tr("all panels"), str(tally.panels)),
        (tr("designs not in the kit"), str(tally.designs_not_in_kit)),
    ]


def _rows(setout: SetOut) -> Pairs:
    kit, units = setout.room.kit, setout.room.display_units
    return [
        (
            tr("row {row}, from {height}", row=band.index + 1, height=format_length(z_mm(kit, band.z_plates), units)),
            tr("{courses} courses, {height}", courses=band.courses, height=format_length(z_mm(kit, band.height_plates), units)),
        )
        for band in reversed(setout.rows)
    ]


def _heights(setout: SetOut) -> Pairs:
    room = setout.room
    top = z_mm(room.kit, setout.rows[-1].z_plates + setout.rows[-1].height_plates) if setout.rows else 0.0
    named = (
        (tr("clad height asked for"), room.clad_height_mm),
        (tr("top of the last row"), top),
        (tr("head gap under the trim"), room.clad_height_mm - top),
    )
    return [(name, format_length(value, room.display_units)) for name, value in named]


def _half(width: float) -> float:
    return (width - _BETWEEN_MM) / 2


def _table(title: str, pairs: Pairs, width: float) -> list[Line]:
    """A heading over a table of two columns, the heading as high as two rows."""
    columns = _pair_columns(pairs, width)
    head = heading(title, width)
    return [replace(head, height_mm=2 * LINE_MM), *(row(columns, pair) for pair in pairs)]


def _side_by_side(left: Sequence[Line], right: Sequence[Line], width: float) -> list[Line]:
    """Two columns of lines next to each other; a heading, two rows high, may stand by rows of the other column."""
    shift = _half(width) + _BETWEEN_MM
    return [
        Line(LINE_MM, (*mine.items, *(moved(item, shift, 0.0) for item in yours.items)), keeps=mine.keeps or yours.keeps)
        for mine, yours in zip_longest(_in_rows(left), _in_rows(right), fillvalue=Line(LINE_MM))
    ]


def _in_rows(lines: Sequence[Line]) -> Iterator[Line]:
    """The lines in strips one row high: a heading becomes two that keep together."""
    for line in lines:
        yield replace(line, height_mm=LINE_MM)
        yield from [Line(LINE_MM, keeps=line.keeps)] * (round(line.height_mm / LINE_MM) - 1)


def _pair_columns(pairs: Pairs, width: float) -> list[Column]:
    numbers = max((text_width_mm(value, 2.5) for _, value in pairs), default=0.0) + 3.0
    return [Column("", width - numbers), Column("", numbers, "end")]


def _checks(units: Units, checks: Sequence[Check], width: float) -> list[Line]:
    """The findings, like ones in one, without those that cautions and frames above have said already."""
    order = list(_LEVELS)
    places: defaultdict[tuple[int, str], list[str]] = defaultdict(list)
    for check in checks:
        if check.code not in _SAID_ABOVE:
            places[order.index(check.level), check.text].append(check.where)
    lines = [heading(tr("Checks"), width)]
    for (level, text), where in sorted(places.items(), key=lambda found: found[0][0]):
        said = f"{_level_words(order[level])}, {_joined(where)}: {in_units(text, units)}"
        lines += [*paragraph(said, width, 2.5, has_bullet=order[level] != "note"), gap(0.8)]
    return lines if places else [*lines, *paragraph(tr("Nothing else was found."), width)]


def _level_words(level: str) -> str:
    """A level as it begins a line, errors to be seen from afar."""
    if level == "error":
        return tr("ERROR")
    return tr("Warning") if level == "warning" else trc("level", "Note")


def _joined(places: Sequence[str]) -> str:
    """Places of one sort share its name: ``panels A-1-01, A-1-02``."""
    sorts: defaultdict[str, list[str]] = defaultdict(list)
    for sort, _, name in (place.partition(" ") for place in places):
        sorts[sort].append(name)
    return "; ".join(_places(sort, names) for sort, names in sorts.items())


def _places(sort: str, names: Sequence[str]) -> str:
    count, joined = len(names), ", ".join(names)
    if sort == "panel":
        return trn("panel {panels}", "panels {panels}", count, panels=joined)
    if sort == "wall":
        return trn("wall {walls}", "walls {walls}", count, walls=joined)
    if sort == "opening":
        return trn("opening {openings}", "openings {openings}", count, openings=joined)
    return place_words(f"{sort} {joined}".strip())


def _sheets(others: Sequence[Draft], count: int) -> Pairs:
    """Number and title, scale and paper of every sheet; the pages of one table in one line."""
    listed = [(span_words(1, count) + "   " + tr("Cover"), "")]
    number = count + 1
    for title, alike in groupby(others, key=lambda draft: draft.heading):
        first, *more = alike
        last = number + len(more)
        scale = first.scale.partition("  ")[0]
        paper = first.paper.name.removeprefix("US ")
        listed.append((f"{span_words(number, last)}   {title}", f"{scale}, {paper}" if scale else paper))
        number = last + 1
    return listed
