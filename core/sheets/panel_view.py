"""A panel seen square-on with every part in it: each layer with its number, its pattern, a box to tick and its holes."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from core.bond.result import Bond, Layer
from core.drawing import Box, Item, Path, Pen, Text
from core.drawing.items import rectangle
from core.drawing.lettering import text_width_mm
from core.drawing.scale import Scale, largest_scale
from core.kit import Kit
from core.language import tr
from core.sheets.panel_bricks import HOLE_MM, Look, coded, end_of_other_leg, fill, hole, is_seen, lettered
from core.sheets.panel_legs import COUNTS_HEIGHT_MM, LegSpan, leg_name, leg_spans, owns_square, running_counts
from core.sheets.panel_patterns import Pattern, hole_lines, layer_name, letters_by_layer
from core.sheets.running import spread

LEFT_MM, RIGHT_MM = 23.0, 20.0
"""Room for the layers' names on the left, and for boxes and holes on the right."""
HEAD_MM = 10.0
LEG_NAME_MM = 5.0
BETWEEN_LEGS_MM = 10.0
_NAME_MM = 3.5
_HOLES_MM = 7.4
"""From the panel's edge to the words on its holes."""
_NAME_PITCH_MM = 4.4
"""Layers' names closer than this cannot be read; layers drawn lower than this are listed beside the drawing instead."""
_LEADER, _OUTLINE, _TICK_BOX = Pen(0.13), Pen(0.5), Pen(0.25)
_EVERY = 2
"""Knobs between two counts along the edges."""
Codes = tuple[tuple[str, ...], ...]
LEAST_FACTOR = 2
"""Panels are drawn at half size at most, so that one sheet holds a full one."""


@dataclass(frozen=True, slots=True)
class PanelView:
    """The drawing of one bond; its items are measured from its own top left corner."""

    bond: Bond
    kit: Kit
    scale: Scale
    from_back: bool = False
    codes: Codes | None = None
    """The codes of the bricks' colours, layer by layer and part by part, where the drawing tells them."""

    @property
    def pitch(self) -> float:
        return self.scale.on_paper_mm(self.kit.pitch_mm)

    @property
    def plate(self) -> float:
        return self.scale.on_paper_mm(self.kit.plate_mm)

    @property
    def hole_mm(self) -> float:
        """A hole's width on paper."""
        return max(HOLE_MM / self.scale.factor, 1.2)

    @property
    def layers_mm(self) -> float:
        """The height of the panel itself on paper."""
        return self.plate * max(layer.z_plates + layer.height_plates for layer in self.bond.layers)

    @property
    def width_mm(self) -> float:
        spans = leg_spans(self.bond)
        return LEFT_MM + sum(span.width for span in spans) * self.pitch + (len(spans) - 1) * BETWEEN_LEGS_MM + RIGHT_MM

    @property
    def height_mm(self) -> float:
        return self.head_mm + self.layers_mm + COUNTS_HEIGHT_MM + 1.0

    @property
    def head_mm(self) -> float:
        """What stands above the panel: counts, the names of the topmost layers, and of the legs where there are two."""
        return head_mm(self.bond)

    @property
    def names_layers(self) -> bool:
        """Whether layers are drawn high enough to be named one by one."""
        return self.plate * self.kit.plates_per_course >= _NAME_PITCH_MM

    def legs(self) -> list[tuple[LegSpan, float]]:
        """The legs as they stand on the sheet from the left, each with its left edge."""
        spans = leg_spans(self.bond)
        placed = []
        x = LEFT_MM
        for span in reversed(spans) if self.from_back else spans:
            placed.append((span, x))
            x += span.width * self.pitch + BETWEEN_LEGS_MM
        return placed

    def x(self, span: LegSpan, left: float, line: int) -> float:
        """Where a pitch line of a leg is."""
        knobs = span.end - line if self.from_back else line - span.begin
        return left + knobs * self.pitch

    def y(self, plates: float) -> float:
        """Where a plate line above the panel's foot is."""
        return self.head_mm + self.layers_mm - plates * self.plate

    def part_box(self, span: LegSpan, left: float, layer: Layer, run: tuple[int, int]) -> Box:
        """What some pitches of a layer cover."""
        ends = sorted(self.x(span, left, line) for line in run)
        return Box(ends[0], self.y(layer.z_plates + layer.height_plates), ends[1], self.y(layer.z_plates))


def head_mm(bond: Bond) -> float:
    """The room above the drawing of a bond."""
    return HEAD_MM + (LEG_NAME_MM if bond.corner else 0.0)


def fitted_view(bond: Bond, kit: Kit, room_mm: tuple[float, float], is_us: bool, *, from_back: bool = False) -> PanelView:
    """The panel at the largest scale of the series that fits, half size at most."""
    spans = leg_spans(bond)
    gaps = LEFT_MM + RIGHT_MM + (len(spans) - 1) * BETWEEN_LEGS_MM
    real = (
        sum(span.width for span in spans) * kit.pitch_mm,
        max(layer.z_plates + layer.height_plates for layer in bond.layers) * kit.plate_mm,
    )
    scale = largest_scale(room_mm[0] - gaps, room_mm[1] - head_mm(bond) - COUNTS_HEIGHT_MM - 1.0, real, is_us)
    return PanelView(bond, kit, Scale(max(LEAST_FACTOR, scale.factor), is_us), from_back)


def view_items(view: PanelView, looks: dict[str, Look], patterns: Sequence[Pattern]) -> list[Item]:
    """The whole drawing: parts, counts along the edges, and the names and boxes of the layers beside it."""
    items: list[Item] = []
    for span, left in view.legs():
        for number in range(len(view.bond.layers)):
            items += _layer(view, span, left, number, looks)
        items += _edges(view, span, left)
    if view.names_layers:
        items += _names(view, patterns)
    return items


def _layer(view: PanelView, span: LegSpan, left: float, number: int, looks: dict[str, Look]) -> list[Item]:
    layer = view.bond.layers[number]
    codes = view.codes[number] if view.codes else [""] * len(layer.laid)
    items: list[Item] = []
    if span.square is not None and not owns_square(layer, span) and _is_square_filled(layer):
        items += end_of_other_leg(view.part_box(span, left, layer, span.square))
    for laid, code in zip(layer.laid, codes, strict=True):
        if laid.leg != span.leg or not is_seen(laid, view.bond.depth, from_back=view.from_back):
            continue
        box = view.part_box(span, left, layer, (laid.at, laid.at + laid.length))
        look = looks[laid.part]
        items += fill(look, box)
        if laid.side is None:
            items += coded(look, box, code, 3.5) if code else lettered(look, box, 3.5)
        elif code:
            items += lettered(
                replace(look, label=code), Box(box.left, box.top, box.centre[0] - view.hole_mm / 2, box.bottom), 3.5
            )
    for leg, line in hole_lines(layer):
        if leg == span.leg:
            middle = layer.z_plates + layer.height_plates / 2
            items += hole((view.x(span, left, line), view.y(middle)), view.scale.factor)
    return items


def _is_square_filled(layer: Layer) -> bool:
    """Whether any part of the other leg is in the layer, to fill the square with."""
    return len({laid.leg for laid in layer.laid}) > 1


def _edges(view: PanelView, span: LegSpan, left: float) -> list[Item]:
    """The outline's foot and the running counts above and below; the corner named where there is one."""
    lines = [*range(span.begin, span.end, _EVERY), span.end]
    places = [(view.x(span, left, line), span.knobs(line)) for line in lines]
    bottom, top = view.y(0), view.head_mm
    right = left + span.width * view.pitch
    items: list[Item] = [Path(((left, bottom), (right, bottom)), _OUTLINE)]
    items += running_counts(places, bottom + 0.3)
    items += [Text((x, top - 1.6), one.text, one.height_mm, "middle") for one, x in _above(places)]
    items += [Path(((x, top - 1.0), (x, top)), _LEADER) for x, _ in places]
    if name := leg_name(view.bond, span.leg):
        items.append(Text(((left + right) / 2, top - 6.4), name, _NAME_MM, "middle"))
        at_right = (span.leg == 0) != view.from_back
        items += _corner_words(view, right if at_right else left, at_right=at_right)
    return items


def _above(places: list[tuple[float, int]]) -> list[tuple[Text, float]]:
    texts = [item for item in running_counts(places, 0.0, has_ticks=False) if isinstance(item, Text)]
    return [(text, text.at[0]) for text in texts]


def _corner_words(view: PanelView, x: float, *, at_right: bool) -> list[Item]:
    """The corner's edge, drawn heavy, with its word turned upright beside it."""
    out = 1.0 if at_right else -1.0
    bottom = view.y(0)
    edge = Path(((x + out * 0.5, view.head_mm), (x + out * 0.5, bottom)), Pen(1.0))
    return [edge, Text((x + out * 2.5 + 1.25, (view.head_mm + bottom) / 2), tr("corner"), 2.5, "middle", 90)]


def _names(view: PanelView, patterns: Sequence[Pattern]) -> list[Item]:
    """Number and pattern of every layer on the left, its box and its holes on the right."""
    bond = view.bond
    middles = [view.y(layer.z_plates + layer.height_plates / 2) for layer in bond.layers]
    gaps = [_NAME_PITCH_MM] * (len(middles) - 1)
    places = spread(middles[::-1], gaps, view.head_mm - 7.4, middles[0])[::-1]
    letters = letters_by_layer(patterns)
    left = LEFT_MM
    right = view.width_mm - RIGHT_MM
    items = _titles(view, left, right)
    for number, (middle, place) in enumerate(zip(middles, places, strict=True)):
        base = place + _NAME_MM / 2
        name = layer_name(bond, number)
        size = _NAME_MM if name.isdigit() else 2.5
        items.append(Text((left - 9.0, place + size / 2), name, size, "end"))
        items.append(Text((left - 5.2, base), letters[number], _NAME_MM, "middle"))
        items.append(Path(((left, middle), (left - 2.4, place)), _LEADER))
        items.append(Path(((right, middle), (right + 3.0, place)), _LEADER))
        items.append(rectangle(Box(right + 3.0, place - 1.7, right + 6.4, place + 1.7), _TICK_BOX))
        if words := _hole_words(view, bond.layers[number]):
            items.append(Text((right + _HOLES_MM, place + 1.25), words, 2.5))
    return items


def _titles(view: PanelView, left: float, right: float) -> list[Item]:
    y = view.y(0) + 5.0
    return [
        Text((left - 9.0, y), tr("course"), 2.5, "end"),
        Text((left - 5.2, y), tr("as"), 2.5, "middle"),
        Text((right + 3.0, y), tr("laid?"), 2.5),
    ]


def _hole_words(view: PanelView, layer: Layer) -> str:
    """Where a layer's holes are, by running count; of a corner panel the left leg's first. Many are left to the words below."""
    spans = leg_spans(view.bond)
    by_leg = [[spans[leg].knobs(line) for leg, line in hole_lines(layer) if leg == span.leg] for span in spans]
    if view.from_back:
        by_leg = [[span.width - count for count in reversed(counts)] for span, counts in zip(spans, by_leg, strict=True)][::-1]
    said = [", ".join(map(str, counts)) or tr("none") for counts in by_leg]
    words = f"H {' | '.join(said)}" if any(by_leg) else ""
    return words if text_width_mm(words, 2.5) <= RIGHT_MM - _HOLES_MM else tr("holes")
