"""How panels of each kind and their mounting points look without colour."""

from collections.abc import Sequence

from core.drawing import Circle, Item, Path, Pen
from core.drawing.hatch import hatch
from core.drawing.items import Point
from core.setout.framing import BLOCKING
from core.setout.result import Mount, PanelKind

OUTLINE, OUTLINE_SPECIAL = Pen(0.35), Pen(0.5)
CORNER_EDGE, CORNER_EDGE_SMALL = Pen(1.0), Pen(0.7)
_HATCH = Pen(0.13)
_HOLE = Pen(0.25)
CLOSER_GREY = 0.88


def fill_grey(kind: PanelKind) -> float | None:
    """The grey a panel is filled with; only closers have one."""
    return CLOSER_GREY if kind == "closer" else None


def panel_fill(kind: PanelKind, outline: Sequence[Point], holes: Sequence[Sequence[Point]]) -> list[Item]:
    """What fills a panel: grey for a closer, hatching for a shaped one, nothing for the kit's own."""
    if kind == "closer":
        return [Path(tuple(outline), None, closed=True, fill=CLOSER_GREY)]
    if kind in ("shaped", "shaped-corner"):
        return list(hatch(outline, holes, 2.2, _HATCH))
    return []


def panel_outline(kind: PanelKind, outline: Sequence[Point], holes: Sequence[Sequence[Point]]) -> list[Item]:
    """A panel's edge and its cut-outs' edges."""
    pen = OUTLINE if fill_grey(kind) is None and kind not in ("shaped", "shaped-corner") else OUTLINE_SPECIAL
    return [Path(tuple(ring), pen, closed=True) for ring in (outline, *holes)]


def corner_edge(x: float, top: float, bottom: float, inward: float, pen: Pen = CORNER_EDGE) -> Path:
    """The heavy line down the corner side of a corner panel's leg; ``inward`` is +1 where the leg lies to the right."""
    at = x + inward * pen.width_mm / 2
    return Path(((at, top), (at, bottom)), pen)


def lacks_timber(point: Mount) -> bool:
    """Whether the frame itself does not hold a mounting point, be it standing or still to be built."""
    return point.lands_on in (None, BLOCKING)


def mount(centre: Point, radius_mm: float, *, lands: bool) -> list[Item]:
    """A mounting point: a dot on timber, a crossed ring where there is none."""
    if lands:
        return [Circle(centre, radius_mm, None, fill=0.0)]
    x, y = centre
    r = radius_mm + 0.5
    return [
        Circle(centre, r, _HOLE, fill=1.0),
        Path(((x - r, y - r), (x + r, y + r)), _HOLE),
        Path(((x - r, y + r), (x + r, y - r)), _HOLE),
    ]
