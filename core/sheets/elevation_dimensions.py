"""Running dimensions of an elevation: joints and openings along the bottom, rows and openings up the sides."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from core.drawing import Item, Text
from core.drawing.lettering import text_width_mm, wrap
from core.language import tr
from core.room import Opening
from core.setout.metric import x_mm, z_mm
from core.setout.result import SetOut
from core.sheets.joints import Pattern
from core.sheets.running import HEIGHT_MM, Along, Tick, have_room_level, label_depth_mm, running_dimension
from core.sheets.view import Part, View
from core.units import format_length

LINE_GAP_MM = 3.0
"""From the wall, or the values of the line before, to a dimension line."""
MATCH_AIR_MM = 5.0
"""More of it where a match line runs along the wall's edge."""
LABEL_MM, LABEL_LEAD_MM = 22.0, 3.8
"""Widest name of a line in front of it, and from one line of the name to the next."""
LEVEL_REACH_MM = (1.0, 4.0)
TURNED_REACH_MM = (8.0, 8.0)
"""How far values may stand past the wall's left and right end: level ones are wide themselves, and names stand at the left."""


@dataclass(frozen=True, slots=True)
class FloorLine:
    """A running dimension below the wall: what its values belong to, its origin along the wall, and where they stand."""

    words: str
    origin_mm: float
    places_mm: tuple[float, ...]
    values: tuple[str, ...]

    @property
    def label(self) -> list[str]:
        return wrap(self.words, LABEL_MM, HEIGHT_MM)

    def is_level(self, part: Part, factor: float) -> bool:
        """Whether its values have room side by side at a scale."""
        left, right = part.shown.left / factor, part.shown.right / factor
        origin = [Tick(self.origin_mm / factor, "0")] if part.is_left_end else []
        ticks = [Tick(at / factor, value) for at, value in zip(self.places_mm, self.values, strict=True)]
        return have_room_level([*origin, *ticks], left - LEVEL_REACH_MM[0], right + LEVEL_REACH_MM[1])

    def depth_mm(self, part: Part, factor: float) -> float:
        """Room it takes below its line at a scale."""
        values = label_depth_mm(self.values, is_level=self.is_level(part, factor))
        return max(values, LABEL_LEAD_MM * (len(self.label) - 1) + HEIGHT_MM)


def floor_lines(setout: SetOut, part: Part, shown: Sequence[Pattern]) -> list[FloorLine]:
    """The lines below a part of a wall: one for each pattern of joints, then that of the openings and the frame."""
    write = _writer(setout)
    start = x_mm(setout, part.wall, 0)
    found = [
        FloorLine(pattern.words, start, tuple(start + x for x in pattern.joints_mm), tuple(write(x) for x in pattern.joints_mm))
        for pattern in shown
    ]
    edges = _edges(setout, part)
    frame = FloorLine(tr("frame"), 0.0, tuple(edges), tuple(write(x) for x in edges))
    return [*found, frame] if edges else found


def side_depths_mm(setout: SetOut, part: Part, shown: Sequence[Pattern]) -> tuple[float, float]:
    """Room beside the wall: row heights and the names of the floor's lines at its left, opening heights at its right."""
    write = _writer(setout)
    rows = LINE_GAP_MM + label_depth_mm([*(write(height) for height in _row_heights(setout, part)), "0"])
    holes = [write(height) for height in _opening_heights(setout, part)]
    heads = LINE_GAP_MM + label_depth_mm(holes) if holes else LINE_GAP_MM
    lines = floor_lines(setout, part, shown)
    names = [text_width_mm(word, HEIGHT_MM) for line in lines for word in line.label]
    ends = [text_width_mm(line.values[-1], HEIGHT_MM) / 2 for line in lines]
    left = max(rows, _label_gap_mm(part) + max(names, default=0.0))
    return left, max(heads, LEVEL_REACH_MM[1] + max(ends, default=0.0))


def bottom_depth_mm(setout: SetOut, part: Part, shown: Sequence[Pattern], factor: float) -> float:
    """Room the lines along the floor take below the wall at a scale."""
    return sum(LINE_GAP_MM + line.depth_mm(part, factor) for line in floor_lines(setout, part, shown))


def dimensions(setout: SetOut, view: View) -> list[Item]:
    """All running dimensions of a view; each length stands on the sheet once."""
    return [*_along_floor(setout, view), *_up_sides(setout, view)]


def _along_floor(setout: SetOut, view: View) -> list[Item]:
    part, field = view.part, view.field
    edge = field.bottom + (MATCH_AIR_MM if part.count > 1 else 0.0)
    at = edge
    items: list[Item] = []
    for line in floor_lines(setout, part, view.patterns):
        at += LINE_GAP_MM
        level = line.is_level(part, view.scale.factor)
        before, after = LEVEL_REACH_MM if level else TURNED_REACH_MM
        lie = Along(at, edge if not items else at - 2.0, False, field.left - before, field.right + after, level)
        ticks = [Tick(view.x(x), value) for x, value in zip(line.places_mm, line.values, strict=True)]
        items += running_dimension(lie, view.x(line.origin_mm), ticks, has_origin=part.is_left_end)
        right = field.left - _label_gap_mm(part)
        items += [
            Text((right, at + HEIGHT_MM / 2 + i * LABEL_LEAD_MM), words, HEIGHT_MM, "end") for i, words in enumerate(line.label)
        ]
        at += line.depth_mm(part, view.scale.factor)
    return items


def _label_gap_mm(part: Part) -> float:
    """From a line's name to the wall: a line that comes from another sheet begins before the wall."""
    return LINE_GAP_MM if part.is_left_end else TURNED_REACH_MM[0] + LINE_GAP_MM


def _up_sides(setout: SetOut, view: View) -> list[Item]:
    part, field = view.part, view.field
    write = _writer(setout)
    rows = [Tick(view.y(height), write(height)) for height in _row_heights(setout, part)]
    heads = [Tick(view.y(height), write(height)) for height in _opening_heights(setout, part)]
    match = MATCH_AIR_MM if part.count > 1 else 0.0
    up = (field.top - 0.5, field.bottom + 2)
    left, right = field.left - LINE_GAP_MM - match, field.right + LINE_GAP_MM + match
    items = running_dimension(Along(left, field.left - match, True, *up), view.y(0.0), rows, has_origin=part.is_bottom)
    if heads:
        items += running_dimension(Along(right, field.right + match, True, *up), view.y(0.0), heads, has_origin=part.is_bottom)
    return items


def _writer(setout: SetOut) -> Callable[[float], str]:
    units = setout.room.display_units
    return lambda mm: format_length(mm, units, with_unit=False)


def _edges(setout: SetOut, part: Part) -> list[float]:
    """Sides of the openings and the frame's right end, from the frame's left corner."""
    sides = {side for opening in _openings(setout, part) for side in (opening.left_mm, opening.right_mm)}
    if part.is_right_end:
        sides.add(setout.walls[part.wall].length_mm)
    shown = part.shown
    return sorted(side for side in sides if side > 0 and shown.left <= side <= shown.right)


def _row_heights(setout: SetOut, part: Part) -> list[float]:
    """Top of every row of the part and, where it is higher than the last, the clad height."""
    tops = {z_mm(setout.room.kit, row.z_plates + row.height_plates) for row in part.rows}
    if part.is_top:
        tops.add(setout.room.clad_height_mm)
    return sorted(tops)


def _opening_heights(setout: SetOut, part: Part) -> list[float]:
    """Sills and heads of the openings in the part, from the floor."""
    shown = part.shown
    heights = {edge for opening in _openings(setout, part) for edge in (opening.sill_mm, opening.head_mm)}
    return sorted(height for height in heights if height > 0 and shown.top <= height <= shown.bottom)


def _openings(setout: SetOut, part: Part) -> list[Opening]:
    shown = part.shown
    return [
        opening
        for opening in setout.room.openings
        if opening.wall == part.wall
        and opening.left_mm < shown.right
        and opening.right_mm > shown.left
        and opening.sill_mm < shown.bottom
        and opening.head_mm > shown.top
    ]
