"""The story pole: every course of a panel at full size, to cut out and hold beside a panel while building."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from core.bond.result import Bond, LayerKind
from core.drawing import Box, Item, Path, Pen, Text
from core.drawing.items import rectangle
from core.drawing.lettering import wrap
from core.kit import Kit
from core.language import marked, tr
from core.setout.result import SetOut
from core.sheets.draft import Draft, papers
from core.sheets.flow import Line
from core.sheets.full_size import Piece, full_size_drafts, join_marks, piece_words, pieces, strip_width_mm
from core.sheets.panel_bricks import hole
from core.sheets.panel_patterns import hole_lines, layer_name
from core.sheets.wording import APART
from core.units import metric_size

STRIP_MM = 26.0
"""How wide a pole is."""
_FOOT_MM = 7.0
_UNDER_MM = 8.0
_EDGE, _LINE, _AXIS = Pen(0.5), Pen(0.25), Pen(0.18, (4.0, 1.0, 0.5, 1.0))
_GREY = 0.88
_HOW = marked(
    "Cut the strip out, glue it to a straight lath and stand it beside the panel, FOOT on the table. The top of every course "
    "must meet its line. Large numbers count courses, small ones are millimetres from the table, rings show courses with holes."
)


@dataclass(frozen=True, slots=True)
class Mark:
    """One layer on a pole: its name, where it begins and ends in plates, and whether it has holes."""

    kind: LayerKind
    name: str
    low_plates: int
    high_plates: int
    has_holes: bool


Pole = tuple[Mark, ...]


def poles(bonds: Mapping[str, Bond]) -> dict[Pole, list[str]]:
    """The distinct poles and the designs each is for."""
    found: defaultdict[Pole, list[str]] = defaultdict(list)
    for design, bond in bonds.items():
        found[_marks(bond)].append(design)
    return dict(found)


def _marks(bond: Bond) -> Pole:
    return tuple(
        Mark(layer.kind, layer_name(bond, number), layer.z_plates, layer.z_plates + layer.height_plates, bool(hole_lines(layer)))
        for number, layer in enumerate(bond.layers)
    )


def story_poles(setout: SetOut, bonds: Mapping[str, Bond]) -> list[Draft]:
    """Sheets with a story pole for every height and make-up of panel in the room."""
    paper = papers(setout.room.display_units)[1]
    width = strip_width_mm(paper)
    strips = [line for pole, designs in poles(bonds).items() for line in _strips(pole, designs, setout.room.kit, width)]
    return full_size_drafts("story-pole", tr("Story pole"), marked("story pole"), paper, tr(_HOW), strips)


def _strips(pole: Pole, designs: Sequence[str], kit: Kit, width: float) -> list[Line]:
    height = pole[-1].high_plates * kit.plate_mm
    parts = pieces(height, width - _FOOT_MM)
    courses = sum(mark.kind == "course" for mark in pole)
    lines = []
    for number, piece in enumerate(parts, start=1):
        title = tr(
            "{courses} courses, {height}{part}. For {designs}",
            courses=courses,
            height=metric_size(height, 1),
            part=piece_words(number, len(parts)),
            designs=APART.join(designs),
        )
        heading = wrap(title, width, 3.5)
        top = len(heading) * 5.4 + 1.0
        items: list[Item] = [Text((0.0, 4.2 + 5.4 * i), part, 3.5) for i, part in enumerate(heading)]
        items += _strip(pole, kit, piece, top, is_foot=number == 1)
        lines.append(Line(top + STRIP_MM + _UNDER_MM, tuple(items)))
    return lines


def _strip(pole: Pole, kit: Kit, piece: Piece, top: float, *, is_foot: bool) -> list[Item]:
    """The part of a pole, lying: its foot at the right, so that lettering reads upright once it stands."""

    def x(mm: float) -> float:
        return piece.length_mm - (mm - piece.start_mm)

    items: list[Item] = []
    for mark in pole:
        low, high = mark.low_plates * kit.plate_mm, mark.high_plates * kit.plate_mm
        if piece.start_mm - 1e-6 <= low and high <= piece.end_mm + 1e-6:
            items += _mark(mark, Box(x(high), top, x(low), top + STRIP_MM), high)
    items.append(rectangle(Box(0.0, top, piece.length_mm, top + STRIP_MM), _EDGE))
    if is_foot:
        items.append(Text((piece.length_mm + 5.0, top + STRIP_MM / 2), tr("FOOT"), 3.5, "middle", 90))
    return [*items, *join_marks(piece, x, top, top + STRIP_MM)]


def _mark(mark: Mark, box: Box, high_mm: float) -> list[Item]:
    """One layer: its upper line with the height, its name in the middle, its holes' axis."""
    items: list[Item] = []
    if mark.kind != "course":
        items.append(rectangle(box, None, _GREY))
    items.append(Path(((box.left, box.top), (box.left, box.bottom)), _LINE))
    middle = box.centre[0]
    room = box.width
    size = 3.5 if mark.kind == "course" and room >= 5.0 else 2.5
    if room >= 2.9:
        value_x = box.left + min(3.2, (room + 2.5) / 2)
        items.append(Text((value_x, box.top + 1.5), f"{high_mm:.1f}", 2.5, "end", 90))
        items.append(Text((middle + size / 2, box.bottom - 1.5), mark.name.upper(), size, "start", 90))
    if mark.has_holes:
        items.append(Path(((middle, box.top), (middle, box.bottom - 9.0)), _AXIS))
        items += hole((middle, box.top + 13.5), 1.0)
    return items
