"""One wall seen square-on from inside the room, true to scale: what to put where, and what is behind it."""

from collections.abc import Sequence
from dataclasses import replace
from itertools import takewhile
from math import inf

from core.drawing import Box, Item, Paper, Path, Pen, Text, item_box
from core.drawing.items import rectangle
from core.drawing.lettering import shorten, wrap
from core.drawing.scale import Scale, scales
from core.frame import WallFrame
from core.frame.datum import datum_words
from core.frame.remedies import misses_in_words
from core.language import marked, tr
from core.room import wall_letter
from core.setout.result import SetOut
from core.sheets.draft import Draft, drawing_box, foot_box, papers
from core.sheets.elevation_dimensions import bottom_depth_mm, dimensions, side_depths_mm
from core.sheets.elevation_openings import openings
from core.sheets.elevation_panels import Marks, mark_inside, mark_outside, panels
from core.sheets.joints import Pattern, rows_words
from core.sheets.legend import legend
from core.sheets.placing import Placer
from core.sheets.view import Part, View, joints_in, split, whole_wall
from core.sheets.wording import lengths_in
from core.units import format_length, gap_words, in_units

MATCH_MM = 7.0
VALUE_MM = 2.0
_TITLE_MM, _LEAD_MM = 7.0, 4.2
SMALLEST_FACTOR = {"mm": 20, "ft-in": 24}
"""The smallest scale at which every mark can still be read at arm's length; longer walls go on several sheets."""
_TIMBER = Pen(0.18, (2.0, 1.0), grey=0.45)
_FLOOR, _HEAD, _CORNER = Pen(0.7), Pen(0.18, (6.0, 1.0, 1.0, 1.0)), Pen(0.18)
_MATCH = Pen(0.5, (8.0, 1.5, 1.5, 1.5))


def elevations(setout: SetOut, wall: int, frame: WallFrame | None = None) -> list[Draft]:
    """The sheets of one wall: one, or as many as it takes to keep it legible. ``frame`` is what is known of what lies behind."""
    return [_draft(setout, view) for view in views(setout, wall, note_of(setout, frame))]


def note_of(setout: SetOut, frame: WallFrame | None) -> str:
    """What a crew must know besides the wall's lengths: where heights count from, and what crossed rings ask for."""
    misses = frame.backed.misses if frame else ()
    said = misses_in_words(len(frame.points), misses) + " " + tr("See the frame list.") if frame and misses else ""
    if any(miss.to for miss in misses):
        said += " " + tr("Moved holes are drawn where they go.")
    return in_units(f"{datum_words(setout)} {said}".strip(), setout.room.display_units)


def views(setout: SetOut, wall: int, note: str = "") -> list[View]:
    """The wall at the largest scale that fits the large sheet; on the small one where all of it fits at that scale."""
    units = setout.room.display_units
    small, large = papers(units)
    whole = replace(whole_wall(setout, wall), note=note)
    legible = takewhile(lambda scale: scale.factor <= SMALLEST_FACTOR[units], scales(units == "ft-in"))
    for scale in legible:
        if shown := _fitting(setout, whole, large, scale):
            on_small = _fitting(setout, whole, small, scale)
            paper = small if on_small == joints_in(setout, whole) else large
            return [_view(setout, whole, paper, scale, on_small if on_small and paper is small else shown)]
    scale = Scale(SMALLEST_FACTOR[units], units == "ft-in")
    width, height = _field_mm(setout, replace(whole, count=2), large, joints_in(setout, whole)[:1], inf)
    parts = split(setout, whole, width * scale.factor, height * scale.factor)
    return [
        _view(setout, part, large, scale, _fitting(setout, part, large, scale) or joints_in(setout, part)[:1]) for part in parts
    ]


def _fitting(setout: SetOut, part: Part, paper: Paper, scale: Scale) -> tuple[Pattern, ...] | None:
    """As many patterns of joints as can be dimensioned below the part on that paper; None where it does not fit with one."""
    every = joints_in(setout, part)
    for count in range(len(every), 0, -1):
        width, height = _field_mm(setout, part, paper, every[:count], scale.factor)
        if part.shown.width / scale.factor <= width and part.shown.height / scale.factor <= height:
            return every[:count]
    return None


def _insets(setout: SetOut, part: Part, shown: Sequence[Pattern], factor: float) -> tuple[float, float, float, float]:
    """What dimensions, heading and match lines take round the field: left, top, right, bottom."""
    left, right = side_depths_mm(setout, part, shown)
    match = MATCH_MM if part.count > 1 else 0.0
    return left + match, VALUE_MM + match, right + match, bottom_depth_mm(setout, part, shown, factor) + match


def _area(setout: SetOut, part: Part, paper: Paper, shown: Sequence[Pattern]) -> Box:
    """The sheet's drawing area below the heading."""
    box = drawing_box(paper, has_foot=True)
    return replace(box, top=box.top + _TITLE_MM + _LEAD_MM * len(wrap(_facts(setout, part, shown), box.width, 2.5)))


def _field_mm(setout: SetOut, part: Part, paper: Paper, shown: Sequence[Pattern], factor: float) -> tuple[float, float]:
    """Width and height left for the wall itself on a sheet."""
    box = _area(setout, part, paper, shown)
    left, top, right, bottom = _insets(setout, part, shown, factor)
    return box.width - left - right, box.height - top - bottom


def _view(setout: SetOut, part: Part, paper: Paper, scale: Scale, shown: tuple[Pattern, ...]) -> View:
    box = _area(setout, part, paper, shown)
    left, top, right, bottom = _insets(setout, part, shown, scale.factor)
    width, height = part.shown.width / scale.factor, part.shown.height / scale.factor
    x = box.left + left + (box.width - left - right - width) / 2
    y = box.top + top + (box.height - top - bottom - height) / 2
    return View(part, paper, scale, Box(x, y, x + width, y + height), shown)


def _draft(setout: SetOut, view: View) -> Draft:
    part = view.part
    placer = Placer(_area(setout, part, view.paper, view.patterns))
    measured = dimensions(setout, view)
    ends = [*_wall_lines(setout, view), *_match_lines(view)]
    for item in (*measured, *ends):
        placer.claim(item_box(item).grown(0.1), is_text=isinstance(item, Text))
    drawn = panels(setout, view, placer)
    marks = Marks()
    mark_inside(setout, view, placer, marks, shaped=True)
    holes = openings(setout, view, placer)
    mark_inside(setout, view, placer, marks, shaped=False)
    mark_outside(setout, view, placer, marks)
    items = (
        *_heading(setout, view),
        *drawn.fills,
        *_timber(setout, view),
        *holes.lines,
        *drawn.lines,
        *ends,
        *measured,
        *holes.labels,
        *marks.items,
        *legend(foot_box(view.paper)),
    )
    return Draft(part.code, part.title, marked("elevation"), view.paper, items, view.scale.ratio)


def _heading(setout: SetOut, view: View) -> list[Item]:
    """Title, the walls to either side, and the wall's lengths."""
    room, part = setout.room, view.part
    area = drawing_box(view.paper, has_foot=True)
    title = Text((area.left, area.top + 5), part.title, 5.0)
    before, after = wall_letter((part.wall - 1) % room.wall_count), wall_letter((part.wall + 1) % room.wall_count)
    sides = tr("Seen from inside the room. Left: wall {left}. Right: wall {right}.", left=before, right=after)
    start = item_box(title).right + 5
    lines = wrap(_facts(setout, part, view.patterns), area.width, 2.5)
    return [
        title,
        Text((start, area.top + 5), shorten(sides, area.right - start, 2.5), 2.5),
        *(Text((area.left, area.top + _TITLE_MM + _LEAD_MM * (i + 0.75)), line, 2.5) for i, line in enumerate(lines)),
    ]


def _facts(setout: SetOut, part: Part, shown: Sequence[Pattern]) -> str:
    room, shell = setout.room, setout.walls[part.wall]

    def write(mm: float) -> str:
        return format_length(mm, room.display_units)

    measured = tr(
        "Frame {frame}. Panels {panels} = {pitches} pitches, beginning {start} from the left frame corner. Packing {packing}.",
        frame=write(shell.length_mm),
        panels=write(shell.pitches * room.kit.pitch_mm),
        pitches=shell.pitches,
        start=write(shell.start_mm),
        packing=gap_words(shell.packing_mm, room.display_units),
    )
    below = tr("Below: joints from the panels' left end, openings from the frame's left corner.")
    said = f"{measured} {lengths_in(room.display_units)} {below} {part.note}".rstrip()
    left_out = sorted({row for pattern in joints_in(setout, part) if pattern not in shown for row in pattern.rows})
    if not left_out:
        return said
    rest = tr("No room below for the joints of {rows}: add up the widths in the panel schedule.", rows=rows_words(left_out))
    return f"{said} {rest}"


def _timber(setout: SetOut, view: View) -> list[Item]:
    found = []
    for timber in setout.timber:
        if timber.wall == view.part.wall:
            right, top = timber.left_mm + timber.width_mm, timber.bottom_mm + timber.height_mm
            if box := view.clipped(timber.left_mm, timber.bottom_mm, right, top):
                found.append(rectangle(box, _TIMBER))
    return list(found)


def _wall_lines(setout: SetOut, view: View) -> list[Item]:
    """Floor, clad height, and the frame's two corners."""
    shown, part = view.part.shown, view.part
    items: list[Item] = []
    if part.is_bottom:
        items.append(Path((view.point((shown.left, 0.0)), view.point((shown.right, 0.0))), _FLOOR))
    if part.is_top:
        head = setout.room.clad_height_mm
        items.append(Path((view.point((shown.left, head)), view.point((shown.right, head))), _HEAD))
    for corner, is_here in ((0.0, part.is_left_end), (setout.walls[part.wall].length_mm, part.is_right_end)):
        if is_here:
            items.append(Path((view.point((corner, shown.top)), view.point((corner, shown.bottom))), _CORNER))
    return items


def _match_lines(view: View) -> list[Item]:
    """Where the wall goes on on another sheet; panels that reach over the line are drawn whole on both."""
    part, field = view.part, view.field
    items: list[Item] = []
    for is_end, along, x, other in (
        (part.is_left_end, part.from_mm, field.left - 2.0, part.number - 1),
        (part.is_right_end, part.to_mm, field.right + 4.5, part.number + 1),
    ):
        if not is_end:
            at = view.x(along)
            items.append(Path(((at, field.top - 2), (at, field.bottom + 2)), _MATCH))
            items.append(Text((x, field.centre[1]), tr("match line: goes on in part {part}", part=other), 2.5, "middle", 90))
    for is_end, y, text_y, other in (
        (part.is_top, field.top, field.top - 1.5, part.number + part.columns),
        (part.is_bottom, field.bottom, field.bottom + 4.0, part.number - part.columns),
    ):
        if not is_end:
            items.append(Path(((field.left, y), (field.right, y)), _MATCH))
            items.append(Text((field.centre[0], text_y), tr("match line: goes on in part {part}", part=other), 2.5, "middle"))
    return items
