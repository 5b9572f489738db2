"""The corner of a corner panel from above, in its first and its second course: which leg is laid first, and how far it goes."""

from collections.abc import Sequence
from dataclasses import dataclass

from core.bond.result import Bond, Laid
from core.drawing import Box, Item, Pen, Text
from core.drawing.items import Anchor, moved, rectangle
from core.kit import Kit
from core.language import marked, tr
from core.sheets.flow import Line
from core.sheets.panel_bricks import Look, fill, lettered
from core.sheets.panel_legs import leg_spans, owns_square
from core.sheets.panel_patterns import Pattern, layer_name

_MOST_SHOWN = 24
"""Pitches of a leg that are drawn at most, from the corner."""
_BETWEEN_MM = 10.0
_HEAD_MM = 16.0
_NUMBER_MM = 13.0
"""Room for a number beside the right leg, where that is the room's side."""
_FIRST = Pen(0.7)
_ORDER = (marked("left leg first, the other up to it"), marked("right leg first, the other up to it"))


@dataclass(frozen=True, slots=True)
class _Plan:
    """Both legs from above: the left one lies across the sheet, its frame side on top; ``shown`` pitches of each."""

    bond: Bond
    pitch: float
    shown: int

    @property
    def is_inside(self) -> bool:
        return self.bond.corner == "inside"

    @property
    def size_mm(self) -> tuple[float, float]:
        beyond = 0 if self.is_inside else self.bond.depth
        return (self.shown + beyond) * self.pitch, (self.shown + beyond) * self.pitch

    def box(self, laid: Laid) -> Box | None:
        """What a part covers, cut off where the drawing ends; None where it lies beyond."""
        begin, end = laid.at, laid.at + laid.length
        sides = (0, self.bond.depth) if laid.side is None else (laid.side, laid.side + 1)
        if laid.leg == 0:
            begin, end = max(begin, self.bond.legs[0] - self.shown), end
        else:
            end = min(end, self.shown)
        if begin >= end:
            return None
        return self._left_box(begin, end, sides) if laid.leg == 0 else self._right_box(begin, end, sides)

    def _left_box(self, begin: int, end: int, sides: tuple[int, int]) -> Box:
        depth, from_left = self.bond.depth, self.bond.legs[0] - self.shown
        top = 0 if self.is_inside else self.shown
        return self._scaled(begin - from_left, top + depth - sides[1], end - from_left, top + depth - sides[0])

    def _right_box(self, begin: int, end: int, sides: tuple[int, int]) -> Box:
        depth = self.bond.depth
        if self.is_inside:
            left = self.shown - depth
            return self._scaled(left + sides[0], begin, left + sides[1], end)
        return self._scaled(self.shown + depth - sides[1], self.shown - end, self.shown + depth - sides[0], self.shown - begin)

    def _scaled(self, left: int, top: int, right: int, bottom: int) -> Box:
        return Box(left * self.pitch, top * self.pitch, right * self.pitch, bottom * self.pitch)


def corner_lines(
    bond: Bond, kit: Kit, factor: float, width_mm: float, patterns: Sequence[Pattern], looks: dict[str, Look]
) -> list[Line]:
    """The corner in the first two courses side by side; nothing for a flat panel or one without a corner that is filled."""
    shown = [pattern for pattern in patterns if any(owns_square(pattern.layer, span) for span in leg_spans(bond))][:2]
    if bond.corner is None or not shown:
        return []
    pitch = kit.pitch_mm / factor
    column = (width_mm - _BETWEEN_MM) / 2
    most = int(column / pitch) if bond.corner == "inside" else int((column - _NUMBER_MM) / pitch) - bond.depth
    plan = _Plan(bond, pitch, max(bond.depth + 1, min(_MOST_SHOWN, max(bond.legs), most)))
    items: list[Item] = []
    for number, pattern in enumerate(shown):
        items += _one(plan, pattern, looks, number * (column + _BETWEEN_MM))
    least = bond.depth * pitch + 24.0 if plan.is_inside else 0.0
    return [Line(_HEAD_MM + max(plan.size_mm[1], least) + (4.0 if plan.is_inside else 10.0), tuple(items))]


def _one(plan: _Plan, pattern: Pattern, looks: dict[str, Look], x: float) -> list[Item]:
    bond = plan.bond
    course = layer_name(bond, pattern.layers[0])
    first = next(span.leg for span in leg_spans(bond) if owns_square(pattern.layer, span))
    items: list[Item] = [
        Text((0.0, 5.0), tr("Course {course}, laid as {letter}", course=course, letter=pattern.letter), 3.5),
        Text((0.0, 10.4), tr(_ORDER[first]), 2.5),
    ]
    heavy: list[Item] = []
    for laid in pattern.layer.laid:
        box = plan.box(laid)
        if box is None:
            continue
        down = Box(box.left, box.top + _HEAD_MM, box.right, box.bottom + _HEAD_MM)
        is_whole = round((box.width + box.height) / plan.pitch) == laid.length + (bond.depth if laid.side is None else 1)
        items += fill(looks[laid.part], down)
        items += (
            lettered(looks[laid.part], down, 3.5)
            if is_whole
            else [Text((down.centre[0], down.centre[1] + 1.0), "…", 2.5, "middle")]
        )
        if laid.leg == first:
            heavy.append(rectangle(down, _FIRST))
    return [moved(item, x, 0.0) for item in (*items, *heavy, *_numbers(plan, first))]


def _numbers(plan: _Plan, first: int) -> list[Item]:
    """Which leg goes first, by number on the room's side of each; and where the room is."""
    size, depth = plan.size_mm[0], plan.bond.depth * plan.pitch
    order = (tr("1st"), tr("2nd")) if first == 0 else (tr("2nd"), tr("1st"))
    if plan.is_inside:
        under = depth + 6.5
        beside = max(size * 0.62, under + 8.0)
        return [
            _at((size * 0.3, under), order[0], 5.0),
            _at((size - depth - 2.0, beside), order[1], 5.0, "end"),
            _at((size * 0.35, max(size * 0.7, under + 16.0, beside + 6.0)), tr("room"), 3.5),
        ]
    found: list[Item] = [_at((size * 0.3, size + 6.5), order[0], 5.0), _at((size + 1.5, size * 0.4), order[1], 5.0, "start")]
    return [*found, _at((size * 0.35, size * 0.5), tr("frame"), 3.5)] if size - depth > 24.0 else found


def _at(place: tuple[float, float], words: str, height: float, anchor: Anchor = "middle") -> Text:
    return Text((place[0], place[1] + _HEAD_MM), words, height, anchor)
