"""The room from above: frame, shell, packing, openings, the corner panels of the lowest row, and the way to look."""

from dataclasses import replace

from core.drawing import Box, Item, Paper, Text
from core.drawing.lettering import shorten
from core.drawing.scale import largest_scale
from core.language import marked, tr, trc
from core.room import wall_letter
from core.setout.result import SetOut
from core.sheets.draft import Draft, drawing_box, foot_box, page_title, papers, scale_bar
from core.sheets.flow import Column, Line, header_row, pages, row
from core.sheets.plan_view import PlanView, room_drawing
from core.sheets.wording import lengths_in, unit_short
from core.units import format_length, gap_words

LABEL_MM = 26.0
"""Room for lengths and names round the room."""
HEAD_MM = 12.0
TABLE_MM = 122.0


def plan(setout: SetOut) -> list[Draft]:
    """The plan, and a page for the wall table where it is too long to stand beside it."""
    small, paper = papers(setout.room.display_units)
    area = drawing_box(paper, has_foot=True)
    below_head = Box(area.left, area.top + HEAD_MM, area.right, area.bottom)
    lines, header = _table_lines(setout), header_row(_columns(setout))
    table_box = replace(below_head, left=area.right - TABLE_MM)
    tables = pages(lines, table_box, [header])
    beside = tables[0] if len(tables) == 1 else []
    table_mm = header.height_mm + sum(line.height_mm for line in lines)
    either = (replace(below_head, right=table_box.left - 4), replace(below_head, top=below_head.top + table_mm + 4))
    fields = either if beside else (below_head,)
    view, field = min(((_fitted(setout, field), field) for field in fields), key=lambda pair: pair[0].scale.factor)
    items = (*_heading(setout, area), *room_drawing(view, field), *beside, *scale_bar(foot_box(paper)))
    drafts = [Draft("plan", tr("Plan"), marked("plan"), paper, items, view.scale.ratio)]
    return drafts if beside else [*drafts, *_wall_pages(setout, small)]


def _wall_pages(setout: SetOut, paper: Paper) -> list[Draft]:
    found = pages(_table_lines(setout), drawing_box(paper, has_foot=False), [header_row(_columns(setout))])
    return [
        Draft(f"walls-{number}", page_title(tr("Walls"), page), marked("wall schedule"), paper, tuple(items), page=page)
        for number, items in enumerate(found, start=1)
        for page in [tr("page {number} of {count}", number=number, count=len(found))]
    ]


def _fitted(setout: SetOut, field: Box) -> PlanView:
    xs, ys = [x for x, _ in setout.room.corners_mm], [y for _, y in setout.room.corners_mm]
    width, height = max(xs) - min(xs), max(ys) - min(ys)
    inner = field.grown(-LABEL_MM)
    scale = largest_scale(inner.width, inner.height, (width, height), setout.room.display_units == "ft-in")
    at = inner.centre[0] - width / scale.factor / 2, inner.centre[1] - height / scale.factor / 2
    return PlanView(scale, min(xs), max(ys), at, setout)


def _heading(setout: SetOut, area: Box) -> list[Item]:
    said = tr(
        "Seen from above. The arrow by a letter points the way you look at that wall on its elevation. "
        "Dark corners: corner panels of row 1."
    )
    return [
        Text((area.left, area.top + 5), tr("Plan"), 5.0),
        Text((area.left, area.top + 10), shorten(f"{said} {lengths_in(setout.room.display_units)}", area.width, 2.5), 2.5),
    ]


def _columns(setout: SetOut) -> list[Column]:
    unit = unit_short(setout.room.display_units)
    return [
        Column(tr("wall"), 12.0),
        Column(tr("frame, {unit}", unit=unit), 25.0, "end"),
        Column(tr("panels"), 23.0, "end"),
        Column(trc("column", "pitches"), 16.0, "end"),
        Column(tr("begin at"), 20.0, "end"),
        Column(trc("column", "packing"), 26.0, "end"),
    ]


def _table_lines(setout: SetOut) -> list[Line]:
    columns, units = _columns(setout), setout.room.display_units

    def shown(mm: float) -> str:
        return format_length(mm, units, with_unit=False)

    return [
        row(
            columns,
            [
                wall_letter(shell.wall),
                shown(shell.length_mm),
                shown(shell.pitches * setout.room.kit.pitch_mm),
                str(shell.pitches),
                shown(shell.start_mm),
                gap_words(shell.packing_mm, units, with_unit=False),
            ],
        )
        for shell in setout.walls
    ]
