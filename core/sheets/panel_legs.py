"""A panel's legs laid out flat on the sheet: where each begins and ends, and how its knobs are counted."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from core.bond.cells import corner_square
from core.bond.result import Bond, Layer
from core.bond.shape import Run
from core.drawing import Item, Path, Pen, Text
from core.drawing.lettering import text_width_mm
from core.language import marked, tr

COUNT_MM = 2.5
COUNTS_HEIGHT_MM = 4.6
"""What a line of running counts takes below or above a drawing."""
_TICK = Pen(0.18)
_LEG_NAMES = (marked("left leg"), marked("right leg"))


@dataclass(frozen=True, slots=True)
class LegSpan:
    """One leg with the corner's square: first and last pitch line on it. Knobs are counted from the first."""

    leg: int
    begin: int
    end: int
    square: Run | None

    @property
    def width(self) -> int:
        return self.end - self.begin

    def knobs(self, line: int) -> int:
        """The running count at a pitch line: how many knobs lie left of it."""
        return line - self.begin


def leg_spans(bond: Bond) -> tuple[LegSpan, ...]:
    """The legs of a bond from the left; a flat panel has one."""
    spans = []
    for leg, length in enumerate(bond.legs):
        square = corner_square(bond.legs, bond.corner, bond.depth, leg)
        ends = (0, length, *(square or ()))
        spans.append(LegSpan(leg, min(ends), max(ends), square))
    return tuple(spans)


def leg_name(bond: Bond, leg: int) -> str:
    """``left leg`` or ``right leg`` as seen from the room; nothing for a flat panel."""
    return tr(_LEG_NAMES[leg]) if bond.corner else ""


def owns_square(layer: Layer, span: LegSpan) -> bool:
    """Whether this leg's own part fills the corner's square in a layer."""
    square = span.square
    if square is None:
        return False
    return any(laid.leg == span.leg and laid.at < square[1] and laid.at + laid.length > square[0] for laid in layer.laid)


def running_counts(places: Iterable[tuple[float, int]], y_mm: float, *, has_ticks: bool = True) -> list[Item]:
    """Knob counts below a line: places on the sheet with their counts. The first and last stand, others where there is room."""
    ordered = sorted(set(places))
    items: list[Item] = []
    if has_ticks:
        items += [Path(((x, y_mm), (x, y_mm + 1.0)), _TICK) for x, _ in ordered]
    for x, count in thinned(ordered):
        items.append(Text((x, y_mm + 1.5 + COUNT_MM), str(count), COUNT_MM, "middle"))
    return items


def thinned(places: Sequence[tuple[float, int]]) -> list[tuple[float, int]]:
    """As many of the places as can bear their counts side by side, the ends among them."""
    if not places:
        return []
    *others, last = places
    kept: list[tuple[float, int]] = []
    for place in others:
        if _stand_apart(place, last) and (not kept or _stand_apart(kept[-1], place)):
            kept.append(place)
    return [*kept, last]


def _stand_apart(one: tuple[float, int], other: tuple[float, int]) -> bool:
    half = (text_width_mm(str(one[1]), COUNT_MM) + text_width_mm(str(other[1]), COUNT_MM)) / 2
    return other[0] - one[0] >= half + 0.8
