"""One sheet for each design: everything a person needs who builds it at the bench and has never seen another."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from core.bond.bonds import first_panels
from core.bond.each import Bonding
from core.bond.result import Bond
from core.bond.shape import shape_of
from core.colour import Finish
from core.drawing import Box, Item, Paper, Pen, Text
from core.drawing.items import moved, rectangle
from core.frame import Hung
from core.language import marked, tr
from core.laying import FromStock
from core.setout.result import Design, SetOut
from core.sheets.colour_sheet import colour_lines, on_colour_sheets
from core.sheets.draft import BLOCK_WIDTH_MM, Draft, drawing_box, page_title, papers, scale_bar, sheet_title
from core.sheets.flow import Line, gap, heading, pages, paragraph
from core.sheets.panel_back import back_differs, back_words
from core.sheets.panel_batch import Batch, batches_of, stock_lines
from core.sheets.panel_bricks import Look, looks_of
from core.sheets.panel_columns import abreast, in_columns, leading, page_count, stacked_mm
from core.sheets.panel_corner import corner_lines
from core.sheets.panel_facts import check_lines, part_lines, place_lines, weak_lines
from core.sheets.panel_head import band
from core.sheets.panel_moves import move_lines
from core.sheets.panel_patterns import Pattern, layer_name, letters_by_layer, patterns_of
from core.sheets.panel_strength import strength_lines
from core.sheets.panel_strip import StripView, pattern_lines
from core.sheets.panel_view import LEAST_FACTOR, PanelView, fitted_view, view_items

TITLE = marked("Panel sheets")
_BAND_MM = 27.0
_BETWEEN_MM = 4.0
_BAR_MM = 7.0
_TABLE_GAP_MM = 6.0
_BACK_HEAD_MM = 7.0
_BESIDE_VIEW_MM, _LEAST_WORDS_MM, _BESIDE_CORNER_MM = 8.0, 55.0, 66.0
"""Between a drawing and words beside it, how narrow those may be beside the view, and how wide they are beside the corner."""
_CHIP_MM = 22.0
_TICK_BOX = Pen(0.25)


@dataclass(frozen=True, slots=True)
class _Job:
    """One design made ready to be drawn."""

    setout: SetOut
    design: Design
    batch: Batch
    bond: Bond
    patterns: tuple[Pattern, ...]
    looks: dict[str, Look]
    marks: tuple[str, ...]
    turned: tuple[str, ...]
    finishes: Mapping[str, Finish]
    hung: Hung
    says_moves: bool = False
    """Whether moved holes are told of already."""
    words_report: bool = False
    """Whether the strength report is among its words."""

    @property
    def is_us(self) -> bool:
        return self.setout.room.display_units == "ft-in"


def panel_sheets(
    setout: SetOut,
    found: Bonding,
    finishes: Mapping[str, Finish] | None = None,
    stock: FromStock | None = None,
    hung: Hung | None = None,
) -> list[Draft]:
    """The panel sheets of all designs, in the designs' order; a design without a bond gets a sheet that says why.

    ``finishes`` are the panels' colours by mark, where the job has several. With ``stock`` there is a sheet for every bond laid
    from it, and none for what is built already. ``hung`` says which designs have moved holes.
    """
    paper = papers(setout.room.display_units)[1]
    looks = looks_of(setout.room.parts)
    drafts: list[Draft] = []
    for design in setout.designs:
        bond = found[design.name]
        if isinstance(bond, Bond):
            for batch in batches_of(setout, design, bond, stock):
                drafts += _design_drafts(_job(setout, design, batch, looks, finishes or {}, hung or Hung(setout, (), {})), paper)
        else:
            drafts.append(_unbuildable(design, str(bond), paper))
    return [
        replace(draft, title=page_title(tr(TITLE), page), page=page)
        for number, draft in enumerate(drafts, start=1)
        for page in [tr("page {number} of {count}: {sheet}", number=number, count=len(drafts), sheet=draft.title)]
    ]


def first_pages(drafts: Sequence[Draft]) -> dict[str, str]:
    """The page among the panel sheets on which each design begins; of one with several bonds, every bond's."""
    found: dict[str, list[str]] = {}
    for number, draft in enumerate(drafts, start=1):
        if draft.begins is not None:
            found.setdefault(draft.begins, []).append(str(number))
    return {design: ", ".join(numbers) for design, numbers in found.items()}


def sheet_code(name: str) -> str:
    """The code of the first sheet of a design, or of one of its bonds."""
    return f"panel-{name.replace(',', '').replace(' ', '-')}"


def _job(
    setout: SetOut, design: Design, batch: Batch, looks: dict[str, Look], finishes: Mapping[str, Finish], hung: Hung
) -> _Job:
    mine = set(batch.marks)
    panels = [panel for panel in setout.panels if panel.mark in mine]
    first = shape_of(setout, first_panels(setout)[design.name])
    # A flat panel that is its own mirror image hangs either way; only others can be turned about.
    can_turn = first.corner is None and first.turned() != first
    turned = tuple(panel.mark for panel in panels if can_turn and shape_of(setout, panel) != first)
    marks = tuple(panel.mark for panel in panels)
    batch = replace(batch.without(on_colour_sheets(marks, finishes)), has_moved_holes=design.name in hung.by_name)
    return _Job(setout, design, batch, batch.bond, patterns_of(batch.bond), looks, marks, turned, finishes, hung)


def _unbuildable(design: Design, why: str, paper: Paper) -> Draft:
    area = drawing_box(paper, has_foot=False)
    title = tr("{design}: no bond from the stocked parts", design=design.name)
    lines = [heading(title, area.width), *paragraph(why, area.width, 3.5)]
    (items,) = pages(lines, area)
    return Draft(sheet_code(design.name), design.name, marked("panel sheet"), paper, tuple(items), begins=design.name)


def _design_drafts(job: _Job, paper: Paper) -> list[Draft]:
    area = drawing_box(paper, has_foot=False)
    left, right = _column_boxes(paper, area)
    view = _view(job, left, right)
    placed = _placed(job, view, left, right)
    name = job.batch.name
    code = sheet_code(name)
    return [
        Draft(
            code if number == 1 else f"{code}-{number}",
            sheet_title(name, number, len(placed)),
            marked("panel sheet"),
            paper,
            (*band(job.setout, job.batch, job.design, job.marks, area, number), *items, *_bar(paper)),
            _scale_words(view),
            begins=job.design.name if number == 1 else None,
        )
        for number, items in enumerate(placed, start=1)
    ]


def _drawn(job: _Job, view: PanelView, left: Box, right: Box) -> tuple[list[Line], list[Line]]:
    """What stands in either column whatever words go with it: views and tables, and the courses."""
    head = Line(view.height_mm + 1.0, tuple(view_items(view, job.looks, job.patterns)))
    back = [_back(job, left)] if back_differs(job.bond) else []
    return [head, *_beneath(job, view, left.width), *back], _drawn_patterns(job, view, right.width)


def _columns(
    job: _Job, view: PanelView, drawn: tuple[list[Line], list[Line]], left: Box, right: Box
) -> tuple[list[Line], list[Line]]:
    """What goes into either column. Words stand where there is room: under the tables, beside the view or the corner, or last."""
    left_lines, right_lines = drawn
    head = left_lines[0]
    moves = _moves(job, left.width)
    if stacked_mm(left_lines) + stacked_mm(moves) <= left.height:
        # By the figures for holes they are read, and a full panel stays on one sheet.
        left_lines, job = [*left_lines, *moves], replace(job, says_moves=True)
    words, beside_mm = _words(job, left.width), left.width - view.width_mm - _BESIDE_VIEW_MM
    if view.width_mm > left.width + 1e-6:
        return left_lines, [gap(head.height_mm), *_words(job, right.width), *right_lines]
    if stacked_mm(left_lines) + stacked_mm(words) <= left.height:
        return [*left_lines, *words], right_lines
    if beside_mm >= _LEAST_WORDS_MM and stacked_mm(beside := _words(job, beside_mm)) <= head.height_mm:
        return [*abreast([head], beside, left.width - beside_mm), *left_lines[1:]], right_lines
    narrow = right.width - _BESIDE_CORNER_MM - _BESIDE_VIEW_MM
    corner, beside = _corner(job, view, narrow), _words(job, _BESIDE_CORNER_MM)
    if corner and stacked_mm(beside) <= stacked_mm(corner):
        return left_lines, [*abreast(corner, beside, narrow + _BESIDE_VIEW_MM), *right_lines[len(corner) :]]
    return left_lines, [*right_lines, *_words(job, right.width)]


def _placed(job: _Job, view: PanelView, left: Box, right: Box) -> list[list[Item]]:
    """The pages. The strength report stands where it takes fewest: by the other words, below either column, among the courses."""
    kit = job.setout.room.kit
    drawn = _drawn(job, view, left, right)
    left_lines, right_lines = _columns(job, view, drawn, left, right)
    wide, report = (strength_lines(job.bond, kit, box.width) for box in (left, right))
    fitting = leading(right_lines, right.height - stacked_mm(report))
    found: list[tuple[list[Line], list[Line]]] = [
        _columns(replace(job, words_report=True), view, drawn, left, right),
        ([*left_lines, *wide], right_lines),
        (left_lines, [*right_lines, *report]),
        (left_lines, [*right_lines[:fitting], *report, *right_lines[fitting:]]),
    ]
    left_lines, right_lines = min(found, key=lambda columns: page_count(columns[0], columns[1], left, right))
    return in_columns(left_lines, right_lines, left, right)


def _corner(job: _Job, view: PanelView, width: float) -> list[Line]:
    """The corner in its first courses; nothing for a flat panel."""
    return corner_lines(job.bond, job.setout.room.kit, _strip_factor(view), width, job.patterns, job.looks)


def _view(job: _Job, left: Box, right: Box) -> PanelView:
    """The front view within the left column, or across both where its legs are long."""
    kit = job.setout.room.kit
    height = right.height - 4.0
    narrow = fitted_view(job.bond, kit, (left.width, height), job.is_us)
    wide = fitted_view(job.bond, kit, (right.right - left.left, height), job.is_us)
    return narrow if narrow.scale.factor <= wide.scale.factor else wide


def _column_boxes(paper: Paper, area: Box) -> tuple[Box, Box]:
    """The left column goes down beside the title block to the bar for the scale; the right one stands on the block."""
    right = Box(paper.frame.right - BLOCK_WIDTH_MM + 3.0, area.top + _BAND_MM, area.right, area.bottom)
    left = Box(area.left, right.top, right.left - _BETWEEN_MM, paper.frame.bottom - _BAR_MM)
    return left, right


def _bar(paper: Paper) -> list[Item]:
    frame = paper.frame
    return scale_bar(Box(frame.left + 3, frame.bottom - _BAR_MM, frame.right - BLOCK_WIDTH_MM - 3, frame.bottom))


def _beneath(job: _Job, view: PanelView, width: float) -> list[Line]:
    """Parts and checks side by side under the view."""
    half = (width - _TABLE_GAP_MM) / 2
    kit = job.setout.room.kit
    parts = part_lines(job.bond, job.batch.build, job.looks, half)
    checks = check_lines(job.bond, kit, half)
    listed = [] if view.names_layers else _course_list(job, width)
    return [*abreast(parts, checks, half + _TABLE_GAP_MM), *listed]


def _course_list(job: _Job, width: float) -> list[Line]:
    """Every layer with its pattern and a box to tick, for panels drawn too small to have them beside the drawing."""
    across = int(width / _CHIP_MM)
    letters = letters_by_layer(job.patterns)
    lines = [heading(tr("Tick every course when it is laid"), width)]
    for first in range(0, len(letters), across):
        items: list[Item] = []
        for place, number in enumerate(range(first, min(first + across, len(letters)))):
            x = place * _CHIP_MM
            name = layer_name(job.bond, number)
            items.append(Text((x + 9.0, 4.4), name, 3.5 if name.isdigit() else 2.5, "end"))
            items.append(Text((x + 12.6, 4.4), letters[number], 3.5, "middle"))
            items.append(rectangle(Box(x + 15.6, 0.9, x + 19.0, 4.3), _TICK_BOX))
        lines.append(Line(6.0, tuple(items), keeps=True))
    return [*lines, gap(1.0)]


def _strip_factor(view: PanelView) -> float:
    """Patterns are drawn like the panel, and at half size where that would be too small to read."""
    return float(view.scale.factor if view.names_layers else LEAST_FACTOR)


def _scale_words(view: PanelView) -> str:
    """The title block's scale, and that of the patterns where it is another."""
    ratio = view.scale.ratio
    return ratio if view.names_layers else tr("{scale}, courses 1:{factor}", scale=ratio, factor=LEAST_FACTOR)


def _drawn_patterns(job: _Job, view: PanelView, width: float) -> list[Line]:
    """The corner, then every pattern in the order in which the crew meets them."""
    factor = _strip_factor(view)
    strip = StripView(job.bond, job.setout.room.kit, factor, width)
    lines = _corner(job, view, width)
    for pattern in job.patterns:
        lines += pattern_lines(strip, pattern, job.looks)
    return lines


def _words(job: _Job, width: float) -> list[Line]:
    """Which panels wait, where the others go, where they are weak, and their back."""
    lines = [
        *stock_lines(job.batch, width),
        *([] if job.says_moves else _moves(job, width)),
        *place_lines(job.marks, job.turned, width),
        *colour_lines(job.marks, job.finishes, job.setout.room.colouring, width),
        *weak_lines(job.bond, width),
        *(strength_lines(job.bond, job.setout.room.kit, width) if job.words_report else ()),
    ]
    return [*lines, gap(1.0), *paragraph(back_words(job.bond), width)]


def _moves(job: _Job, width: float) -> list[Line]:
    """Which holes are moved, as the sheet's bond is drawn: as the first panel of the design hangs."""
    drawn = first_panels(job.setout)[job.design.name].mark
    return move_lines(job.design.name, job.marks, drawn, job.bond, job.hung, width)


def _back(job: _Job, left: Box) -> Line:
    """The back view as one block under its heading."""
    view = fitted_view(job.bond, job.setout.room.kit, (left.width, left.height - _BACK_HEAD_MM), job.is_us, from_back=True)
    items = [moved(item, 0.0, _BACK_HEAD_MM) for item in view_items(view, job.looks, job.patterns)]
    title = Text((0.0, 5.0), tr("Back, seen from the frame, scale {scale}", scale=view.scale.ratio), 3.5)
    return Line(_BACK_HEAD_MM + view.height_mm, (title, *items))
