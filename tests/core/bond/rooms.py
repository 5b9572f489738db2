"""Set-outs and single panels the bond tests share."""

from functools import cache

from core.bond.palette import Palette, palette_of
from core.bond.result import LayerKind
from core.bond.shape import PanelShape, Runs, ShapeLayer
from core.kit import Kit
from core.parts import DEFAULT_PARTS, Part
from core.room import Opening, Room
from core.setout import solve
from core.setout.result import SetOut


def room(*openings: Opening, parts: tuple[Part, ...] = DEFAULT_PARTS, size_mm: float = 1000.0, height_mm: float = 304.0) -> Room:
    corners = ((0.0, 0.0), (0.0, size_mm), (size_mm, size_mm), (size_mm, 0.0))
    return Room(name="shed", corners_mm=corners, clad_height_mm=height_mm, openings=openings, parts=parts)


@cache
def ten_feet() -> SetOut:
    """Ten feet square, one row of full panels and an outlet."""
    outlet = Opening(id="outlet", kind="outlet", wall=0, left_mm=600, sill_mm=100, width_mm=60, height_mm=100)
    return solve(room(outlet, size_mm=3048.0))


def usual_palette() -> Palette:
    return palette_of(DEFAULT_PARTS, Kit())


def with_stock(*names: str) -> tuple[Part, ...]:
    """The default parts with no other bricks stocked than those named."""
    return tuple(
        part.model_copy(update={"is_stocked": part.name in names}) if part.kind == "brick" else part for part in DEFAULT_PARTS
    )


def shape(*courses: Runs, mounts: dict[int, tuple[int, ...]] | None = None) -> PanelShape:
    """A flat shape of brick courses only, from the bottom up."""
    kind: LayerKind = "course"
    layers = tuple(ShapeLayer(kind, 3 * n, 3, (runs,), ((mounts or {}).get(n, ()),)) for n, runs in enumerate(courses))
    return PanelShape((max(right for runs in courses for _, right in runs),), None, layers)
