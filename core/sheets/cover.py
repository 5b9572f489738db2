"""The cover: what is planned, what it takes, what to beware of, and which sheets follow."""

from collections.abc import Sequence
from itertools import groupby, zip_longest

from core.drawing import Path, Pen
from core.drawing.items import moved
from core.drawing.lettering import text_width_mm
from core.setout.metric import z_mm
from core.setout.result import SetOut
from core.sheets.draft import Draft, drawing_box, papers
from core.sheets.flow import LINE_MM, Column, Line, gap, heading, pages, paragraph, row
from core.sheets.wording import CAUTIONS, KIND_NAMES, hours, term_rows
from core.units import format_length

_BETWEEN_MM = 8.0
_LEVELS = {"error": "ERROR", "warning": "Warning", "note": "Note"}

Pairs = Sequence[tuple[str, str]]


def cover(setout: SetOut, others: Sequence[Draft]) -> list[Draft]:
    """The cover's pages, listing themselves and the sheets that follow."""
    count = 1
    while True:
        made = _pages(setout, others, count)
        if len(made) <= count:
            return made
        count = len(made)


def _pages(setout: SetOut, others: Sequence[Draft], count: int) -> list[Draft]:
    paper = papers(setout.room.display_units)[0]
    area = drawing_box(paper, has_foot=False)
    width = area.width
    lines = [
        *_title(setout, width),
        *_cautions(width),
        *_side_by_side(_totals(setout), term_rows(setout.minutes), ("Panels", "Crew time"), width),
        *_side_by_side(
            _sheets(others, count), [*_rows(setout), *_heights(setout)], ("Sheets of this pack", "Rows and heights"), width
        ),
        *_checks(setout, width),
    ]
    found = pages(lines, area)
    names = ["Cover"] if len(found) == 1 else [f"Cover, page {i} of {len(found)}" for i in range(1, len(found) + 1)]
    return [
        Draft("cover" if i == 0 else f"cover-{i + 1}", name, "cover", paper, tuple(items))
        for i, (name, items) in enumerate(zip(names, found, strict=True))
    ]


def _title(setout: SetOut, width: float) -> list[Line]:
    name = setout.room.name
    height = next((h for h in (7.0, 5.0, 3.5) if text_width_mm(name, h) <= width), 3.5)
    said = (
        f"{setout.tally.panels} panels of bricks on {len(setout.walls)} walls, about {hours(setout.minutes.total)} of crew time."
    )
    return [*paragraph(name, width, height), *paragraph(said, width, 3.5)]


def _cautions(width: float) -> list[Line]:
    lines = [heading("Read before you start", width), Line(2.0, (Path(((0.0, 0.0), (width, 0.0)), Pen(0.7)),), keeps=True)]
    for caution in CAUTIONS:
        lines += [*paragraph(caution, width, 2.5, has_bullet=True), gap(0.8)]
    return [*lines, Line(1.0, (Path(((0.0, 0.5), (width, 0.5)), Pen(0.7)),))]


def _totals(setout: SetOut) -> Pairs:
    tally = setout.tally
    kinds = [(KIND_NAMES[kind], str(tally.by_kind[kind])) for kind in KIND_NAMES if tally.by_kind.get(kind)]
    bare = sum(point.lands_on is None for panel in setout.panels for face in panel.faces for point in face.mounts)
    return [
        *kinds,
        ("all panels", str(tally.panels)),
        ("designs not in the kit", str(tally.designs_not_in_kit)),
        ("mounting points without timber", str(bare)),
    ]


def _rows(setout: SetOut) -> Pairs:
    kit, units = setout.room.kit, setout.room.display_units
    return [
        (
            f"row {band.index + 1}, from {format_length(z_mm(kit, band.z_plates), units)}",
            f"{band.courses} courses, {format_length(z_mm(kit, band.height_plates), units)}",
        )
        for band in reversed(setout.rows)
    ]


def _heights(setout: SetOut) -> Pairs:
    room = setout.room
    top = z_mm(room.kit, setout.rows[-1].z_plates + setout.rows[-1].height_plates) if setout.rows else 0.0
    named = (
        ("clad height asked for", room.clad_height_mm),
        ("top of the last row", top),
        ("head gap under the trim", room.clad_height_mm - top),
    )
    return [(name, format_length(value, room.display_units)) for name, value in named]


def _side_by_side(left: Pairs, right: Pairs, titles: tuple[str, str], width: float) -> list[Line]:
    """Two tables of two columns next to each other."""
    half = (width - _BETWEEN_MM) / 2
    mine_columns, yours_columns = (_pair_columns(pairs, half) for pairs in (left, right))
    shift = half + _BETWEEN_MM
    heads = [heading(title, half) for title in titles]
    both = (*heads[0].items, *(moved(item, shift, 0.0) for item in heads[1].items))
    lines = [Line(heads[0].height_mm, both, keeps=True)]
    for mine, yours in zip_longest(left, right):
        first = row(mine_columns, mine).items if mine else ()
        second = row(yours_columns, yours).items if yours else ()
        lines.append(Line(LINE_MM, (*first, *(moved(item, shift, 0.0) for item in second))))
    return lines


def _pair_columns(pairs: Pairs, width: float) -> list[Column]:
    numbers = max((text_width_mm(value, 2.5) for _, value in pairs), default=0.0) + 3.0
    return [Column("", width - numbers), Column("", numbers, "end")]


def _checks(setout: SetOut, width: float) -> list[Line]:
    order = list(_LEVELS)
    checks = sorted(setout.checks, key=lambda check: order.index(check.level))
    lines = [heading("Checks", width)]
    for check in checks:
        lines += paragraph(f"{_LEVELS[check.level]}, {check.where}: {check.text}", width, 2.5, has_bullet=check.level != "note")
        lines.append(gap(0.8))
    return lines if checks else [*lines, *paragraph("Nothing was found. Fire behaviour is not assessed.", width)]


def _sheets(others: Sequence[Draft], count: int) -> Pairs:
    """Number and title, scale and paper of every sheet; the pages of one table in one line."""
    listed = [(f"{_span(1, count)}   Cover", "")]
    number = count + 1
    for title, alike in groupby(others, key=lambda draft: draft.title.partition(", page ")[0]):
        first, *more = alike
        last = number + len(more)
        scale = first.scale.removeprefix("SCALE ").partition("  ")[0]
        paper = first.paper.name.removeprefix("US ")
        listed.append((f"{_span(number, last)}   {title}", f"{scale}, {paper}" if scale else paper))
        number = last + 1
    return listed


def _span(first: int, last: int) -> str:
    return str(first) if first == last else f"{first} to {last}"
