"""The panels of an elevation: outline, kind, mounting points and, once openings have their labels, a mark each."""

from collections.abc import Iterator
from dataclasses import dataclass, field

from shapely import MultiPolygon, Polygon, box, prepare

from core.drawing import Box, Circle, Item, Path, Pen, Text, item_box
from core.drawing.items import Point, rectangle
from core.setout.metric import mount_mm, ring_mm
from core.setout.result import Face, Panel, SetOut
from core.sheets.placing import Placer, around, block_box, nearest_point, stacked
from core.sheets.symbols import (
    CORNER_EDGE,
    CORNER_EDGE_SMALL,
    corner_edge,
    fill_grey,
    lacks_timber,
    mount,
    panel_fill,
    panel_outline,
)
from core.sheets.view import View, faces_in

_LEADER = Pen(0.18)
_CLEAR_MM = 0.3


@dataclass(slots=True)
class Drawn:
    """Items of the panels in the order in which the sheet lays them down."""

    fills: list[Item] = field(default_factory=list)
    lines: list[Item] = field(default_factory=list)


def panels(setout: SetOut, view: View, placer: Placer) -> Drawn:
    """Every panel of the view without its mark."""
    drawn = Drawn()
    for panel, face in faces_in(setout, view.part):
        rings = _rings(setout, view, face)
        drawn.fills += panel_fill(panel.kind, rings[0], rings[1:])
        drawn.lines += panel_outline(panel.kind, rings[0], rings[1:])
        if len(panel.faces) > 1:
            edge = _corner(panel, face, rings[0], CORNER_EDGE if view.scale.factor <= 12 else CORNER_EDGE_SMALL)
            placer.claim(item_box(edge).grown(edge.pen.width_mm / 2 if edge.pen else 0.0))
            drawn.lines.append(edge)
        drawn.lines += _mounts(setout, view, face, placer)
    return drawn


@dataclass(slots=True)
class Marks:
    """The marks laid down so far, and the panels with outlines that had no room for theirs."""

    items: list[Item] = field(default_factory=list)
    homeless: list[tuple[Panel, list[Point]]] = field(default_factory=list)


def mark_inside(setout: SetOut, view: View, placer: Placer, marks: Marks, *, shaped: bool) -> None:
    """Marks the shaped panels, or all others, each inside its outline.

    Shaped ones go before the labels of openings, which else would take the little room they have.
    """
    for panel, face in faces_in(setout, view.part):
        if (panel.kind in ("shaped", "shaped-corner")) != shaped:
            continue
        rings = _rings(setout, view, face)
        text = _inside(panel, rings, placer)
        if text is None:
            marks.homeless.append((panel, rings[0]))
        else:
            marks.items += [_patch(text, fill_grey(panel.kind)), text]


def mark_outside(setout: SetOut, view: View, placer: Placer, marks: Marks) -> None:
    """Marks the panels left over, each near its place with a leader."""
    walled = Placer(view.field.grown(100.0))
    for _, face in faces_in(setout, view.part):
        walled.claim(_bounds(_rings(setout, view, face)[0]))
    for panel, outline in marks.homeless:
        marks.items += _led(panel, outline, walled, placer)


def _rings(setout: SetOut, view: View, face: Face) -> list[list[Point]]:
    return [[view.point(at) for at in ring_mm(setout, face.wall, ring)] for ring in (face.outline, *face.holes)]


def _corner(panel: Panel, face: Face, outline: list[Point], pen: Pen) -> Path:
    """The heavy edge on the side where the panel goes round the corner: right on the first face's wall, left on the other.

    An opening at the corner may part a leg into several faces on one wall.
    """
    is_right = face.wall == panel.faces[0].wall
    x = max(p[0] for p in outline) if is_right else min(p[0] for p in outline)
    heights = [p[1] for p in outline if abs(p[0] - x) < 1e-6]
    return corner_edge(x, min(heights), max(heights), -1.0 if is_right else 1.0, pen)


def _mounts(setout: SetOut, view: View, face: Face, placer: Placer) -> list[Item]:
    radius = min(0.6, max(0.4, 0.8 * setout.room.kit.pitch_mm / view.scale.factor))
    items: list[Item] = []
    for point in face.mounts:
        symbol = mount(view.point(mount_mm(setout, point)), radius, lands=not lacks_timber(point))
        placer.claim(item_box(symbol[0]))
        items += symbol
    return items


def _inside(panel: Panel, rings: list[list[Point]], placer: Placer) -> Text | None:
    """The mark as large as it fits in the panel, level before upright."""
    bounds = _bounds(rings[0]).grown(-_CLEAR_MM)
    area = None if len(rings) == 1 and len(rings[0]) == 4 else Polygon(rings[0], rings[1:]).buffer(-_CLEAR_MM)
    if area is not None:
        prepare(area)
    for height in (3.5, 2.5):
        for turn in (0, 90):
            found = placer.first_free(_fitting(panel.mark, height, turn, bounds, area))
            if found is not None:
                return found[0]
    return None


def _fitting(mark: str, height: float, turn: int, bounds: Box, area: Polygon | MultiPolygon | None) -> Iterator[tuple[Text, ...]]:
    """The mark at every place where it lies in the bounds and, for a panel that is no rectangle, in its area."""
    size = item_box(Text((0.0, 0.0), mark, height, "middle", turn))
    if size.width > bounds.width or size.height > bounds.height:
        return
    for x, y in around(bounds, 0.0, 1.5):
        outer = Box(x - size.width / 2, y - size.height / 2, x + size.width / 2, y + size.height / 2)
        if bounds.holds(outer) and (area is None or area.contains(box(outer.left, outer.top, outer.right, outer.bottom))):
            yield stacked((x, y), (mark,), height, turn_degrees=turn)


def _led(panel: Panel, outline: list[Point], walled: Placer, placer: Placer) -> list[Item]:
    """The mark in the nearest free place, off all panels if there is one near, with a leader to a dot in its panel.

    ``walled`` knows where panels are.
    """
    middle = Polygon(outline).representative_point()
    target = middle.x, middle.y
    found = placer.first_led(_places(panel.mark, outline, walled), target)
    found = found or placer.first_free(_places(panel.mark, outline, walled))
    return [*led_label(found, target), *found] if found else []


def _places(mark: str, outline: list[Point], walled: Placer) -> Iterator[tuple[Text, ...]]:
    home = _bounds(outline)
    near = (stacked(spot, (mark,), 2.5) for spot in around(home, 20.0, 1.0))
    yield from (lines for lines in near if walled.is_free(block_box(lines)))
    yield from (stacked(spot, (mark,), 2.5) for spot in around(home, 80.0))


def led_label(lines: tuple[Text, ...], target: Point) -> list[Item]:
    """A white patch for lines of text and a leader from its nearest edge to a dot at the target."""
    patch = block_box(lines).grown(0.4)
    return [
        Path((nearest_point(patch, target), target), _LEADER),
        Circle(target, 0.4, None, fill=0.0),
        rectangle(patch, None, fill=1.0),
    ]


def _patch(text: Text, grey: float | None) -> Path:
    return rectangle(item_box(text).grown(0.25), None, fill=1.0 if grey is None else grey)


def _bounds(outline: list[Point]) -> Box:
    xs, ys = [x for x, _ in outline], [y for _, y in outline]
    return Box(min(xs), min(ys), max(xs), max(ys))
