"""The panel schedule: every mark in hanging order of its wall, then every design with its count."""

from collections.abc import Mapping, Sequence
from itertools import accumulate

from core.drawing import Box, Item, Pen
from core.drawing.items import rectangle
from core.language import marked, tr
from core.setout.result import Design, Face, Panel, SetOut
from core.sheets.draft import Draft, drawing_box, page_title, page_words, papers
from core.sheets.flow import Column, Line, header_row, heading, needed_mm, pages, row, sized
from core.sheets.symbols import lacks_timber
from core.sheets.wording import KIND_NAMES, unit_short
from core.units import format_length

_BOX = Pen(0.25)
_TICKED = (marked("built"), marked("hung"))
"""Boxes for the crew to tick, where the sheet is wide enough for them."""
_SPARED = (2, 4, 6)
"""Columns that make room for a panel's sheet, the first first: kind and pitches are in the design's name, minutes on its list."""


def schedule(setout: SetOut, panel_pages: Mapping[str, str], names: Mapping[str, str] | None = None) -> list[Draft]:
    """The pages of the panel schedule, then those of the design list, which names the pages among the panel sheets.

    ``names`` say which sheet a panel is built by, by mark, where that is not its design's.
    """
    return [
        *_table_drafts(setout, "panels", tr("Panel schedule"), marked("panel schedule"), *_panel_table(setout, names or {})),
        *_table_drafts(
            setout, "designs", tr("Designs to build"), marked("designs to build"), *_design_table(setout, panel_pages)
        ),
    ]


def table_area(setout: SetOut) -> Box:
    """Where tables stand on the small sheet."""
    return drawing_box(papers(setout.room.display_units)[0], has_foot=False)


def _table_drafts(setout: SetOut, code: str, title: str, kind: str, columns: list[Column], lines: list[Line]) -> list[Draft]:
    paper = papers(setout.room.display_units)[0]
    found = pages(lines, table_area(setout), [header_row(columns)])
    return [
        Draft(
            f"{code}-{number}",
            page_title(title, page),
            kind,
            paper,
            tuple(items),
            page=page,
        )
        for number, items in enumerate(found, start=1)
        for page in [page_words(number, len(found))]
    ]


def size_words(setout: SetOut, panel: Panel) -> tuple[str, str]:
    """A panel's overall size as lengths and as pitches by courses; a corner panel gives both legs."""
    room, kit = setout.room, setout.room.kit
    widths = _leg_widths(panel)
    lengths = " + ".join(format_length(width * kit.pitch_mm, room.display_units, with_unit=False) for width in widths)
    low, high = min(face.bottom for face in panel.faces), max(face.top for face in panel.faces)
    height = format_length((high - low) * kit.plate_mm, room.display_units, with_unit=False)
    courses = courses_of(setout, panel.row, low, high)
    return f"{lengths} × {height}", f"{' + '.join(map(str, widths))} × {courses}"


def _leg_widths(panel: Panel) -> list[int]:
    """The panel's width in pitches on each of its walls; openings may part it into several faces on one."""
    walls = dict.fromkeys(face.wall for face in panel.faces)
    legs = ([face for face in panel.faces if face.wall == wall] for wall in walls)
    return [max(face.right for face in leg) - min(face.left for face in leg) for leg in legs]


def courses_of(setout: SetOut, index: int, bottom: int, top: int) -> int:
    """Brick courses of a row that lie between two plate heights."""
    band, per_course = setout.rows[index], setout.room.kit.plates_per_course
    starts = (band.z_plates + per_course * course for course in range(band.courses))
    return sum(bottom <= start and start + per_course <= top for start in starts)


def mount_words(faces: tuple[Face, ...]) -> str:
    """How many mounting points, and in brackets how many of them the frame itself does not hold."""
    points = [point for face in faces for point in face.mounts]
    bare = sum(lacks_timber(point) for point in points)
    return f"{len(points)}" + (f" ({bare})" if bare else "")


def _panel_table(setout: SetOut, sheets: Mapping[str, str]) -> tuple[list[Column], list[Line]]:
    width = table_area(setout).width
    titles = (
        tr("mark"),
        tr("design"),
        tr("kind"),
        tr("size, {unit}", unit=unit_short(setout.room.display_units)),
        tr("pitches\n× courses"),
        tr("mounting\npoints\n(no timber)"),
    )
    names = [*map(Column, titles), Column("min", anchor="end"), *(Column(tr(name), anchor="middle") for name in _TICKED)]
    cells = [[*_panel_cells(setout, panel, sheets.get(panel.mark, panel.design)), "", ""] for panel in setout.panels]
    shown, has_boxes = _shown(names, cells, width)
    columns = sized([names[at] for at in shown], [[texts[at] for at in shown] for texts in cells], width)
    lines: list[Line] = []
    group: tuple[str, int] | None = None
    for panel, texts in zip(setout.panels, cells, strict=True):
        letter = panel.mark.partition("-")[0]
        if (letter, panel.row) != group:
            group = (letter, panel.row)
            lines.append(heading(tr("Wall {wall}, row {row}", wall=letter, row=panel.row + 1), width))
        made = row(columns, [texts[at] for at in shown])
        lines.append(Line(made.height_mm, (*made.items, *(_tick_boxes(columns) if has_boxes else ()))))
    return columns, lines


def _shown(names: Sequence[Column], cells: Sequence[Sequence[str]], width: float) -> tuple[list[int], bool]:
    """Which columns the sheet is wide enough for, and whether the boxes to tick are among them."""
    needs = needed_mm(names, cells)
    shown = list(range(len(names)))
    for at in (None, *_SPARED):
        shown = [one for one in shown if one != at]
        if sum(needs[one] for one in shown) <= width:
            return shown, True
    return shown[: -len(_TICKED)], False


def _panel_cells(setout: SetOut, panel: Panel, name: str) -> list[str]:
    named = [panel.mark, name, tr(KIND_NAMES[panel.kind]), *size_words(setout, panel)]
    return [*named, mount_words(panel.faces), f"{panel.minutes:.1f}"]


def _tick_boxes(columns: list[Column]) -> list[Item]:
    """Boxes to tick in the last two columns, where the crew notes what is built and what is hung."""
    ends = list(accumulate(column.width_mm for column in columns))
    middles = [end - column.width_mm / 2 for end, column in zip(ends[-2:], columns[-2:], strict=True)]
    return [rectangle(Box(middle - 1.6, 0.7, middle + 1.6, 3.9), _BOX) for middle in middles]


def _design_table(setout: SetOut, panel_pages: Mapping[str, str]) -> tuple[list[Column], list[Line]]:
    width = table_area(setout).width
    counted = (tr("how many"), tr("min each"), "min", tr("page of\npanel\nsheets"))
    names = [*map(Column, (tr("design"), tr("kind"), tr("in the kit"))), *(Column(name, anchor="end") for name in counted)]
    each = {panel.design: panel.minutes for panel in setout.panels}
    total = sum(panel.minutes for panel in setout.panels)
    order = list(KIND_NAMES)
    designs = sorted(setout.designs, key=lambda design: (not design.in_kit, order.index(design.kind), design.name))
    cells = [[*_design_cells(design, each[design.name]), panel_pages.get(design.name, "")] for design in designs]
    sums = [tr("all designs"), "", "", f"{len(setout.panels)}", "", f"{total:.0f}", ""]
    # The kind is in most names, too; no name may be cut short.
    shown = [at for at in range(len(names)) if at != 1 or sum(needed_mm(names, [*cells, sums])) <= width]
    columns = sized([names[at] for at in shown], [[texts[at] for at in shown] for texts in (*cells, sums)], width)
    return columns, [row(columns, [texts[at] for at in shown]) for texts in (*cells, sums)]


def _design_cells(design: Design, each: float) -> list[str]:
    kit = tr("yes") if design.in_kit else tr("no: set-up needed")
    numbers = [f"{design.count}", f"{each:.1f}", f"{each * design.count:.0f}"]
    return [design.name, tr(KIND_NAMES[design.kind]), kit, *numbers]
