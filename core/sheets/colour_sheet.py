"""Sheets for panels of more than one colour: every brick lettered with its colour, and every course in words from the left.

Nothing on them needs colour to be read: a colour is a small letter behind the brick's length, and a name in the list.
"""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import groupby

from core.bond.result import LayerKind
from core.colour import Finish
from core.colouring import Colouring
from core.drawing import Box, Item, Paper, Text
from core.drawing.lettering import shorten
from core.frame import Hung
from core.language import marked, tr, trn
from core.setout.result import SetOut
from core.sheets.draft import BLOCK_WIDTH_MM, Draft, drawing_box, page_title, papers, scale_bar, sheet_title
from core.sheets.flow import Column, Line, gap, heading, paragraph, sized
from core.sheets.listing import rows_under
from core.sheets.panel_bricks import looks_of
from core.sheets.panel_columns import in_columns, stacked_mm
from core.sheets.panel_facts import mark_groups, weak_lines
from core.sheets.panel_legs import leg_name
from core.sheets.panel_moves import move_lines
from core.sheets.panel_patterns import layers_words, patterns_of
from core.sheets.panel_strength import strength_lines
from core.sheets.panel_view import Codes, PanelView, fitted_view, view_items
from core.takeoff import Material, in_order

TITLE = marked("Colour sheets")
ANY_COLOUR = marked("any colour")
ANY_CODE = "–"
"""Stands for a brick that may have any colour."""
_BAND_MM = 22.0
_BETWEEN_MM = 4.0
_BAR_MM = 7.0
_MOST_ABREAST = 14
_PART_MM, _COUNT_MM = 44.0, 14.0
_HOW = (
    marked(
        "Front view. On a brick: its length in knobs and the letter of its colour. The list reads every course from its left end."
    ),
    marked("A brick has one colour right through, so the back is the same in mirror image."),
)


@dataclass(frozen=True, slots=True)
class ColouredGroup:
    """Panels that are laid alike in the same colours."""

    code: str
    finish: Finish
    design: str
    marks: tuple[str, ...]


def colour_groups(setout: SetOut, finishes: Mapping[str, Finish]) -> tuple[ColouredGroup, ...]:
    """Panels of more than one colour by what they have in common, in the panels' order."""
    marks: defaultdict[int, list[str]] = defaultdict(list)
    first: dict[int, tuple[Finish, str]] = {}
    for panel in setout.panels:
        finish = finishes.get(panel.mark)
        if finish is not None and _has_sheet(finish):
            marks[id(finish)].append(panel.mark)
            first.setdefault(id(finish), (finish, panel.design))
    return tuple(
        ColouredGroup(f"colour-{number}", *first[key], tuple(mine)) for number, (key, mine) in enumerate(marks.items(), start=1)
    )


def on_colour_sheets(marks: Iterable[str], finishes: Mapping[str, Finish]) -> list[str]:
    """Those of the panels that are built by a colour sheet."""
    return [mark for mark in marks if mark in finishes and _has_sheet(finishes[mark])]


def _has_sheet(finish: Finish) -> bool:
    return len(finish.colours) > 1 or finish.is_cut


def colour_sheets(setout: SetOut, finishes: Mapping[str, Finish], hung: Hung | None = None) -> list[Draft]:
    """A sheet for every group, as many pages as it takes; none where every panel has one colour.

    ``hung`` says which designs have moved holes.
    """
    groups = colour_groups(setout, finishes)
    drafts = [draft for group in groups for draft in _group_drafts(setout, group, hung)]
    return [
        replace(draft, title=page_title(tr(TITLE), page), page=page)
        for number, draft in enumerate(drafts, start=1)
        for page in [tr("page {number} of {count}: {sheet}", number=number, count=len(drafts), sheet=draft.title)]
    ]


def colour_lines(marks: Sequence[str], finishes: Mapping[str, Finish], colouring: Colouring, width_mm: float) -> list[Line]:
    """For a design's own sheet: which of its panels are laid in which colour, and which have a sheet of their own."""
    if not finishes:
        return []
    plain: defaultdict[str | None, list[str]] = defaultdict(list)
    mixed: list[str] = []
    for mark in marks:
        finish = finishes.get(mark)
        if finish is None:
            continue
        if _has_sheet(finish):
            mixed.append(mark)
        else:
            plain[finish.colours[0]].append(mark)
    lines = [heading(tr("Colours"), width_mm)]
    for name, mine in plain.items():
        lines += paragraph(f"{_named(colouring, name)}: {'; '.join(mark_groups(mine))}", width_mm, has_bullet=True)
    if mixed:
        said = tr("several colours, build these from their colour sheets: {panels}", panels="; ".join(mark_groups(mixed)))
        lines += paragraph(said, width_mm, has_bullet=True)
    return lines


def _named(colouring: Colouring, name: str | None) -> str:
    return tr(ANY_COLOUR) if name is None else f"{tr(name)} ({colouring.colour(name).code})"


def _group_drafts(setout: SetOut, group: ColouredGroup, hung: Hung | None) -> list[Draft]:
    room = setout.room
    paper = papers(room.display_units)[1]
    left, right = _columns(paper)
    codes = tuple(tuple(code_of(room.colouring, colour) for _, colour in layer) for layer in group.finish.layers)
    view = _view(setout, group, codes, left, right)
    patterns = patterns_of(group.finish.bond)
    if group.finish.is_cut:
        # Courses of its own have no letters on the design's sheet.
        patterns = tuple(replace(pattern, letter=ANY_CODE) for pattern in patterns)
    drawn = Line(view.height_mm + 1.0, tuple(view_items(view, looks_of(room.parts), patterns)))
    pushed = [gap(drawn.height_mm)] if view.width_mm > left.width + 1e-6 else []
    beside = [*pushed, *(_moves(group, hung, min(left.width, right.width)) if hung else [])]
    placed = _placed(setout, group, codes, ([drawn], beside), (left, right))
    area, frame = drawing_box(paper, has_foot=False), paper.frame
    bar = scale_bar(Box(frame.left + 3, frame.bottom - _BAR_MM, frame.right - BLOCK_WIDTH_MM - 3, frame.bottom))
    return [
        Draft(
            group.code if number == 1 else f"{group.code}-{number}",
            sheet_title(_title(group), number, len(placed)),
            marked("colour sheet"),
            paper,
            (*_band(group, area, number), *items, *bar),
            view.scale.ratio,
        )
        for number, items in enumerate(placed, start=1)
    ]


def _moves(group: ColouredGroup, hung: Hung, width: float) -> list[Line]:
    """Which holes of these panels are moved; of their sisters the design's sheet speaks."""
    if group.design not in hung.by_name:
        return []
    return move_lines(group.design, group.marks, group.marks[0], group.finish.bond, hung, width)


def _columns(paper: Paper) -> tuple[Box, Box]:
    """The left column goes down beside the title block, the right one stands on it."""
    area = drawing_box(paper, has_foot=False)
    right = Box(paper.frame.right - BLOCK_WIDTH_MM + 3.0, area.top + _BAND_MM, area.right, area.bottom)
    return Box(area.left, right.top, right.left - _BETWEEN_MM, paper.frame.bottom - _BAR_MM), right


def _view(setout: SetOut, group: ColouredGroup, codes: Codes, left: Box, right: Box) -> PanelView:
    """The panel within the left column, or across both where its legs are long."""
    kit, is_us, bond = setout.room.kit, setout.room.display_units == "ft-in", group.finish.bond
    height = right.height - 4.0
    narrow = fitted_view(bond, kit, (left.width, height), is_us)
    wide = fitted_view(bond, kit, (right.right - left.left, height), is_us)
    return replace(narrow if narrow.scale.factor <= wide.scale.factor else wide, codes=codes)


def _placed(
    setout: SetOut, group: ColouredGroup, codes: Codes, heads: tuple[list[Line], list[Line]], columns: tuple[Box, Box]
) -> list[list[Item]]:
    """Under what both columns begin with: beneath the drawing what fits, and the rest beside it."""
    left, right = columns
    left_lines, right_lines = map(list, heads)
    width = min(left.width, right.width)
    finish, looks = group.finish, looks_of(setout.room.parts)
    labels = tuple(
        tuple(looks[laid.part].label + code for (laid, _), code in zip(layer, line, strict=True))
        for layer, line in zip(finish.layers, codes, strict=True)
    )
    held = strength_lines(finish.bond, setout.room.kit, width) if finish.is_cut else []
    for block in (_legend(setout, group, width), weak_lines(finish.bond, width), held, top_lines(finish, labels, width)):
        fits = stacked_mm(left_lines) + stacked_mm(block) <= left.height
        (left_lines if fits else right_lines).extend(block)
    return in_columns(left_lines, [*right_lines, *course_lines(finish, labels, right.width)], left, right)


def code_of(colouring: Colouring, name: str | None) -> str:
    """The letters a colour has on a brick; a dash where any colour will do."""
    return ANY_CODE if name is None else colouring.colour(name).code


def _title(group: ColouredGroup) -> str:
    first, others = group.marks[0], len(group.marks) - 1
    return tr("{mark} and {others} more", mark=first, others=others) if others else first


def _band(group: ColouredGroup, area: Box, number: int) -> list[Item]:
    """Which panels these are, and how to read the sheet."""
    marks = shorten("; ".join(mark_groups(group.marks)), area.width - 60.0, 7.0)
    if group.finish.is_cut:
        said = tr(
            "Design {design}: cut at its colours, so laid by this sheet alone; check figures as on the design's sheet.",
            design=group.design,
        )
    else:
        said = tr("Design {design}: laid as the design's sheet shows.", design=group.design)
    items: list[Item] = [
        Text((area.left, area.top + 8.6), marks, 7.0),
        Text((area.right, area.top + 8.6), tr("build {count}", count=len(group.marks)), 7.0, "end"),
        Text((area.left, area.top + 14.0), shorten(said, area.width, 3.5), 3.5),
    ]
    if number == 1:
        items += [Text((area.left, area.top + 18.0 + 3.6 * i), tr(line), 2.5) for i, line in enumerate(_HOW)]
    return items


def _legend(setout: SetOut, group: ColouredGroup, width_mm: float) -> list[Line]:
    """How many of each part in each colour; then what the letters mean and what was lost."""
    colouring, finish = setout.room.colouring, group.finish
    names = [colour.name for colour in colouring.colours if colour.name in finish.colours]
    columns_of = [*names, *([None] if None in finish.colours else [])]
    lines = [heading(tr("Parts by colour: {parts} in one panel", parts=sum(finish.parts.values())), width_mm)]
    for first in range(0, len(columns_of), _MOST_ABREAST):
        lines += _counts(setout, finish, columns_of[first : first + _MOST_ABREAST], width_mm)
    said = ", ".join(f"{code_of(colouring, name)} {tr(name or ANY_COLOUR)}" for name in columns_of)
    lines += [gap(1.2), *paragraph(tr("Letters: {colours}.", colours=said), width_mm)]
    return [*lines, *(paragraph(_missed_words(finish), width_mm) if finish.missed else [])]


def _counts(setout: SetOut, finish: Finish, names: Sequence[str | None], width_mm: float) -> list[Line]:
    """A row for every part, a column for every colour."""
    colouring = setout.room.colouring
    parts = list(dict.fromkeys(one.name for one in in_order(finish.parts, setout.room.parts)))
    titles = [Column(tr("part")), *(Column(code_of(colouring, name), anchor="end") for name in names)]
    counts = [[finish.parts.get(Material(part, name), 0) for name in names] for part in parts]
    cells = [
        [tr(part), *(str(n) if n else "" for n in numbers)] for part, numbers in zip(parts, counts, strict=True) if any(numbers)
    ]
    columns = sized(titles, cells, min(width_mm, _PART_MM + _COUNT_MM * len(names)))
    return list(rows_under(columns, cells))


def _missed_words(finish: Finish) -> str:
    return trn(
        "{n} place shows another colour than wished, where a brick lies over a line between colours.",
        "{n} places show another colour than wished, where a brick lies over a line between colours.",
        finish.missed,
    )


def course_lines(finish: Finish, labels: Codes, width_mm: float) -> list[Line]:
    """Every brick course in words from the left, like ones together: ``course 4: 2c, 3 × 4w, 1b``."""
    return _in_words(finish, labels, width_mm, tr("Course by course, from the left"), ("course",))


def top_lines(finish: Finish, labels: Codes, width_mm: float) -> list[Line]:
    """The two layers on top in words, which are drawn too low to be lettered; L is a locating plate."""
    return _in_words(finish, labels, width_mm, tr("On top, from the left"), ("plate", "cap"))


def _in_words(finish: Finish, labels: Codes, width_mm: float, title: str, kinds: tuple[LayerKind, ...]) -> list[Line]:
    alike: dict[tuple[str, ...], list[int]] = {}
    for number, layer in enumerate(finish.bond.layers):
        if layer.kind in kinds:
            alike.setdefault(_leg_words(finish, labels, number), []).append(number)
    lines = [heading(title, width_mm)] if alike else []
    for words, numbers in alike.items():
        lines += paragraph(f"{layers_words(finish.bond, numbers)}: {'; '.join(words)}", width_mm, has_bullet=True)
    return lines


def _leg_words(finish: Finish, labels: Codes, number: int) -> tuple[str, ...]:
    found = []
    for leg in range(len(finish.bond.legs)):
        words = ", ".join(_runs(finish, labels, number, leg))
        name = leg_name(finish.bond, leg)
        if words:
            found.append(f"{name}: {words}" if name else words)
    return tuple(found)


def _runs(finish: Finish, labels: Codes, number: int, leg: int) -> Iterator[str]:
    """What lies along a leg at the room's side, equal neighbours drawn together."""
    parts = zip(finish.layers[number], labels[number], strict=True)
    said = [label for (laid, _), label in parts if laid.leg == leg and not laid.side]
    for word, same in groupby(said):
        count = len(list(same))
        yield word if count == 1 else f"{count} × {word}"
