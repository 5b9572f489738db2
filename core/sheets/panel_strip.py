"""One pattern drawn large: a layer from above, with the joints of the layer it is laid on beneath it."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from core.bond.result import Bond, Laid, Layer
from core.drawing import Box, Circle, Item, Path, Pen, Text
from core.drawing.items import rectangle
from core.drawing.lettering import text_width_mm, wrap
from core.kit import Kit
from core.language import tr
from core.sheets.flow import Line
from core.sheets.panel_bricks import Look, end_of_other_leg, fill, lettered
from core.sheets.panel_legs import COUNTS_HEIGHT_MM, LegSpan, leg_spans, owns_square, running_counts
from core.sheets.panel_patterns import Pattern, layers_words

LETTER_MM = 12.0
"""Room at the left for the pattern's letter."""
_LAST_COUNT_MM = 2.0
"""How far the count at a strip's end reaches beyond it."""
_GHOST_MM = 3.4
_GHOST, _PITCH_TICK, _JOINT = Pen(0.13, grey=0.35), Pen(0.13), Pen(0.35)
_KNOB_GREY = 0.82
_KNOB_MM = 4.9
_BETWEEN_LEGS_MM = 8.0
_AIR_MM = 1.1


@dataclass(frozen=True, slots=True)
class _Stretch:
    """A stretch of one leg that is drawn on one line."""

    span: LegSpan
    begin: int
    end: int


@dataclass(frozen=True, slots=True)
class StripView:
    """How patterns are drawn: at what scale, how wide they may be."""

    bond: Bond
    kit: Kit
    factor: float
    width_mm: float

    @property
    def pitch(self) -> float:
        return self.kit.pitch_mm / self.factor

    @property
    def strip_mm(self) -> float:
        """The longest strip one line takes."""
        return self.width_mm - LETTER_MM - _LAST_COUNT_MM

    @property
    def depth_mm(self) -> float:
        return self.bond.depth * self.pitch


def pattern_lines(view: StripView, pattern: Pattern, looks: dict[str, Look]) -> list[Line]:
    """The lines for one pattern: what it is for, what it takes, then its drawing; they keep together."""
    lines = _words(view, pattern)
    rows = _rows(view, pattern.layer)
    for row in rows:
        lines.append(_drawn(view, pattern, row, looks))
    letter = Text((LETTER_MM / 2 - 1.5, 7.6), pattern.letter, 7.0, "middle")
    first, *rest = lines
    lines = [Line(first.height_mm, (*first.items, letter), keeps=True), *rest]
    kept = [Line(line.height_mm, line.items, keeps=True) for line in lines]
    return [*kept, Line(_AIR_MM)]


def _words(view: StripView, pattern: Pattern) -> list[Line]:
    width = view.width_mm - LETTER_MM
    said = layers_words(view.bond, pattern.layers)
    said = said[0].upper() + said[1:]
    counted = ", ".join(f"{count} × {tr(name)}" for name, count in sorted(pattern.layer.parts.items(), key=_by_count))
    text = tr("{parts}: {count} parts", parts=counted, count=sum(pattern.layer.parts.values()))
    text += _first_leg(view, pattern.layer)
    beside = text_width_mm(said, 3.5) + 6.0
    if beside + text_width_mm(text, 2.5) <= width:
        return [Line(5.4, (Text((LETTER_MM, 4.2), said, 3.5), Text((LETTER_MM + beside, 4.2), text, 2.5)))]
    lines = [(part, 3.5, 5.4) for part in wrap(said, width, 3.5)]
    lines += [(part, 2.5, 4.0) for part in wrap(text, width, 2.5)]
    return [Line(height, (Text((LETTER_MM, height - 1.2), part, size),)) for part, size, height in lines]


def _by_count(pair: tuple[str, int]) -> tuple[int, str]:
    return -pair[1], pair[0]


def _first_leg(view: StripView, layer: Layer) -> str:
    through = next((span for span in leg_spans(view.bond) if owns_square(layer, span)), None)
    if through is None:
        return ""
    return ". " + (tr("Lay the left leg first") if through.leg == 0 else tr("Lay the right leg first"))


def _rows(view: StripView, layer: Layer) -> list[list[_Stretch]]:
    """The legs in as few lines as they fit, long ones broken at a joint."""
    most = int(view.strip_mm / view.pitch)
    rows: list[list[_Stretch]] = []
    for span in leg_spans(view.bond):
        for stretch in _broken(span, layer, most):
            taken = sum(one.end - one.begin for one in rows[-1]) if rows else most
            gap = _BETWEEN_LEGS_MM * len(rows[-1]) if rows else 0.0
            if (taken + stretch.end - stretch.begin) * view.pitch + gap <= view.strip_mm + 1e-6:
                rows[-1].append(stretch)
            else:
                rows.append([stretch])
    return rows


def _broken(span: LegSpan, layer: Layer, most: int) -> Iterator[_Stretch]:
    joints = sorted({span.end, *(laid.at for laid in layer.laid if laid.leg == span.leg and laid.at > span.begin)})
    begin = span.begin
    while begin < span.end:
        reached = [line for line in joints if begin < line <= begin + most]
        end = reached[-1] if reached else min(begin + most, span.end)
        yield _Stretch(span, begin, end)
        begin = end


def _drawn(view: StripView, pattern: Pattern, row: Sequence[_Stretch], looks: dict[str, Look]) -> Line:
    top = 1.2
    items: list[Item] = []
    x = LETTER_MM
    bottom = top + view.depth_mm
    ghosts_top = bottom + COUNTS_HEIGHT_MM + 0.4
    for stretch in row:
        items += _from_above(view, pattern.layer, stretch, (x, top), looks)
        items += _counts(view, pattern.layer, stretch, x, bottom)
        for number, below in enumerate(pattern.below):
            items += _ghost(view, below.layer, stretch, (x, ghosts_top + number * _GHOST_MM))
        x += (stretch.end - stretch.begin) * view.pitch + _BETWEEN_LEGS_MM
    if view.bond.corner and row[0].begin == row[0].span.begin:
        side = tr("left") if row[0].span.leg == 0 else tr("right")
        items.append(Text((LETTER_MM - 1.2, bottom - 0.6), side, 2.5, "end"))
    for number, below in enumerate(pattern.below):
        y = ghosts_top + number * _GHOST_MM
        items.append(Text((LETTER_MM - 1.2, y + _GHOST_MM / 2 + 0.85), tr("on {letter}", letter=below.letter), 2.5, "end"))
    return Line(ghosts_top + len(pattern.below) * _GHOST_MM + 0.6, tuple(items))


def _from_above(view: StripView, layer: Layer, stretch: _Stretch, at: tuple[float, float], looks: dict[str, Look]) -> list[Item]:
    """The parts of a stretch from above, the room's side at the bottom; knobs grey, labels on top."""
    items: list[Item] = []
    span = stretch.span
    if span.square is not None and not owns_square(layer, span) and _shows(stretch, span.square):
        items += end_of_other_leg(_box(view, stretch, at, *span.square, None))
    for laid in _in(layer, stretch):
        look = looks[laid.part]
        box = _box(view, stretch, at, laid.at, laid.at + laid.length, laid.side)
        items += fill(look, box)
        items += _knobs(view, look, laid, box)
        items += lettered(look, box, 5.0)
    return items


def _shows(stretch: _Stretch, run: tuple[int, int]) -> bool:
    return stretch.begin <= run[0] and run[1] <= stretch.end


def _in(layer: Layer, stretch: _Stretch) -> list[Laid]:
    return [laid for laid in layer.laid if laid.leg == stretch.span.leg and stretch.begin <= laid.at < stretch.end]


def _box(view: StripView, stretch: _Stretch, at: tuple[float, float], begin: int, end: int, side: int | None) -> Box:
    left, right = (at[0] + (line - stretch.begin) * view.pitch for line in (begin, end))
    bottom = at[1] + view.depth_mm
    if side is None:
        return Box(left, at[1], right, bottom)
    return Box(left, bottom - (side + 1) * view.pitch, right, bottom - side * view.pitch)


def _knobs(view: StripView, look: Look, laid: Laid, box: Box) -> list[Item]:
    """The knobs on a part: none on tiles, the one in the middle of a locating plate."""
    if look.kind == "tile":
        return []
    radius = _KNOB_MM / 2 / view.factor
    if look.kind == "locating plate":
        return [Circle(box.centre, radius, None, fill=_KNOB_GREY)]
    deep = round(box.height / view.pitch)
    return [
        Circle((box.left + (i + 0.5) * view.pitch, box.top + (j + 0.5) * view.pitch), radius, None, fill=_KNOB_GREY)
        for i in range(laid.length)
        for j in range(deep)
    ]


def _counts(view: StripView, layer: Layer, stretch: _Stretch, x: float, y: float) -> list[Item]:
    """A tick at every knob, and the running count at every joint that has room for it."""
    span = stretch.span
    joints = {end for laid in _in(layer, stretch) for end in (laid.at, laid.at + laid.length)} | {stretch.begin, stretch.end}
    items: list[Item] = []
    for line in range(stretch.begin, stretch.end + 1):
        at = x + (line - stretch.begin) * view.pitch
        is_joint = line in joints
        items.append(Path(((at, y), (at, y + (1.3 if is_joint else 0.6))), _JOINT if is_joint else _PITCH_TICK))
    places = [(x + (line - stretch.begin) * view.pitch, span.knobs(line)) for line in joints]
    return [*items, *running_counts(places, y, has_ticks=False)]


def _ghost(view: StripView, layer: Layer, stretch: _Stretch, at: tuple[float, float]) -> list[Item]:
    """The layer below as a low grey strip: where its joints are."""
    runs = [(laid.at, laid.at + laid.length) for laid in layer.laid if laid.leg == stretch.span.leg and not laid.side]
    items: list[Item] = []
    for begin, end in runs:
        left, right = max(begin, stretch.begin), min(end, stretch.end)
        if left < right:
            x0, x1 = (at[0] + (line - stretch.begin) * view.pitch for line in (left, right))
            items.append(rectangle(Box(x0, at[1] + 0.6, x1, at[1] + _GHOST_MM - 0.6), _GHOST, 1.0))
    return items
