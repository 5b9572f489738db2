"""Running dimensions of an elevation: joints and openings along the bottom, rows and openings up the sides."""

from collections.abc import Callable

from core.drawing import Item, Text
from core.room import Opening
from core.setout.metric import x_mm, z_mm
from core.setout.result import SetOut
from core.sheets.running import Along, Tick, label_depth_mm, running_dimension
from core.sheets.view import Part, View, faces_in
from core.units import format_length

LINE_GAP_MM = 3.0
"""From the wall, or the values of the line before, to a dimension line."""


def side_depths_mm(setout: SetOut, part: Part) -> tuple[float, float]:
    """Room the values of row heights (left) and opening heights (right) take beside the wall."""
    write = _writer(setout)
    rows = [write(height) for height in _row_heights(setout, part)]
    holes = [write(height) for height in _opening_heights(setout, part)]
    return LINE_GAP_MM + label_depth_mm([*rows, "0"]), (LINE_GAP_MM + label_depth_mm(holes)) if holes else LINE_GAP_MM


def bottom_depth_mm(setout: SetOut, part: Part) -> float:
    """Room the two lines along the floor take below the wall."""
    write = _writer(setout)
    joints = [write(x) for x in _joints(setout, part)]
    edges = [write(x) for x in _edges(setout, part)]
    return 2 * LINE_GAP_MM + label_depth_mm(joints) + label_depth_mm(edges)


def dimensions(setout: SetOut, view: View) -> list[Item]:
    """All four running dimensions of a view; each length stands on the sheet once."""
    part, field = view.part, view.field
    write = _writer(setout)
    shell_left = x_mm(setout, part.wall, 0)
    joints = [Tick(view.x(shell_left + x), write(x)) for x in _joints(setout, part)]
    edges = [Tick(view.x(x), write(x)) for x in _edges(setout, part)]
    rows = [Tick(view.y(height), write(height)) for height in _row_heights(setout, part)]
    heads = [Tick(view.y(height), write(height)) for height in _opening_heights(setout, part)]
    match = 5.0 if part.count > 1 else 0.0
    below = field.bottom + LINE_GAP_MM + match
    second = below + label_depth_mm([tick.value for tick in joints]) + LINE_GAP_MM
    along = (field.left - 8, field.right + 8)
    up = (field.top - 0.5, field.bottom + 2)
    items = running_dimension(
        Along(below, field.bottom + match, False, *along), view.x(shell_left), joints, has_origin=part.is_left_end
    )
    items += running_dimension(Along(second, second - 2, False, *along), view.x(0.0), edges, has_origin=part.is_left_end)
    start = field.left - (3.0 if part.is_left_end else 9.0)
    lowest = part.rows[0].index + 1 if part.rows else 1
    items += [
        Text((start, line + 1.25), words, 2.5, "end")
        for line, words, ticks in ((below, f"row {lowest}", joints), (second, "frame", edges))
        if ticks
    ]
    left, right = field.left - LINE_GAP_MM - match, field.right + LINE_GAP_MM + match
    items += running_dimension(Along(left, field.left - match, True, *up), view.y(0.0), rows, has_origin=part.is_bottom)
    if heads:
        items += running_dimension(Along(right, field.right + match, True, *up), view.y(0.0), heads, has_origin=part.is_bottom)
    return items


def _writer(setout: SetOut) -> Callable[[float], str]:
    units = setout.room.display_units
    return lambda mm: format_length(mm, units, with_unit=False)


def _joints(setout: SetOut, part: Part) -> list[float]:
    """Where panels of the part's lowest row begin and end, from the shell's left end."""
    lowest = part.rows[0].index if part.rows else 0
    pitch = setout.room.kit.pitch_mm
    faces = [face for panel, face in faces_in(setout, part) if panel.row == lowest]
    return sorted({edge * pitch for face in faces for edge in (face.left, face.right)} - {0.0})


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
