"""Where else on its panel a hole may be: on another line of its course, or in a course near it, if a bond can keep it there.

Counted on the panel as bonds count: a leg, a layer from the bottom, a pitch line along the leg.
"""

from collections.abc import Iterator, Set
from dataclasses import dataclass, replace
from functools import lru_cache

from core.bond.shape import PanelShape, ShapeLayer
from core.kit import Kit
from core.language import trn
from core.setout.result import Face, Mount, Panel

MOST_PITCHES, MOST_COURSES = 6, 3
"""How far a hole is moved at most before the panel is better hung another way."""
LEAST_APART = 2
"""Pin-hole bricks of one course side by side: their holes are so many pitches apart."""

Hole = tuple[int, int, int]
"""Leg, layer, pitch line on the leg."""


@dataclass(frozen=True, slots=True)
class Place:
    """Another place for a hole, and how far it is: pitches to the right, courses up."""

    hole: Hole
    pitches: int
    courses: int

    @property
    def steps(self) -> int:
        return abs(self.pitches) + abs(self.courses)

    @property
    def words(self) -> str:
        if self.pitches > 0:
            return trn("{n} pitch to the right", "{n} pitches to the right", self.pitches)
        if self.pitches < 0:
            return trn("{n} pitch to the left", "{n} pitches to the left", -self.pitches)
        if self.courses > 0:
            return trn("{n} course up", "{n} courses up", self.courses)
        return trn("{n} course down", "{n} courses down", -self.courses)


def leg_lefts(panel: Panel) -> dict[int, int]:
    """The pitch line of the wall from which a panel's leg counts, by wall; the left leg first."""
    walls = dict.fromkeys(face.wall for face in panel.faces)
    lefts = {wall: min(face.left for face in panel.faces if face.wall == wall) for wall in walls}
    return {wall: 0 if leg else left for leg, (wall, left) in enumerate(lefts.items())}


def hole_of(panel: Panel, shape: PanelShape, mount: Mount) -> Hole:
    """A mounting point of the panel as bonds count it."""
    lefts, up = leg_lefts(panel), mount.z_half_plates - 2 * _bottom(panel)
    layer = next(n for n, one in enumerate(shape.layers) if 2 * one.z_plates < up < 2 * (one.z_plates + one.height_plates))
    return list(lefts).index(mount.wall), layer, mount.x_pitches - lefts[mount.wall]


def mount_at(panel: Panel, shape: PanelShape, hole: Hole, lands_on: str | None) -> Mount:
    """A mounting point at a hole of the panel."""
    leg, layer, line = hole
    wall, left = list(leg_lefts(panel).items())[leg]
    one = shape.layers[layer]
    return Mount(wall, left + line, 2 * (_bottom(panel) + one.z_plates) + one.height_plates, lands_on)


def remounted(panel: Panel, mounts: tuple[Mount, ...]) -> Panel:
    """The panel with all its mounting points elsewhere, each on the face it lies on."""
    on: dict[int, list[Mount]] = {}
    for mount in mounts:
        on.setdefault(next(n for n, face in enumerate(panel.faces) if _is_on(face, mount)), []).append(mount)
    key = _upwards
    return replace(
        panel, faces=tuple(replace(face, mounts=tuple(sorted(on.get(n, ()), key=key))) for n, face in enumerate(panel.faces))
    )


def _upwards(mount: Mount) -> tuple[int, int]:
    return mount.z_half_plates, mount.x_pitches


def _is_on(face: Face, mount: Mount) -> bool:
    return (
        face.wall == mount.wall
        and face.left < mount.x_pitches < face.right
        and 2 * face.bottom < mount.z_half_plates < 2 * face.top
    )


def _bottom(panel: Panel) -> int:
    return min(face.bottom for face in panel.faces)


@lru_cache(maxsize=1024)
def holes_in(shape: PanelShape) -> frozenset[Hole]:
    """All holes of a shape."""
    return frozenset(
        (leg, n, line) for n, layer in enumerate(shape.layers) for leg, lines in enumerate(layer.mounts) for line in lines
    )


def with_holes(shape: PanelShape, holes: Set[Hole]) -> PanelShape:
    """The same shape with these holes instead of its own."""

    def drilled(n: int, layer: ShapeLayer) -> ShapeLayer:
        lines = tuple(tuple(sorted(x for leg, k, x in holes if (leg, k) == (own, n))) for own in range(len(shape.legs)))
        return replace(layer, mounts=lines)

    return replace(shape, layers=tuple(drilled(n, layer) for n, layer in enumerate(shape.layers)))


@lru_cache(maxsize=1024)
def places(shape: PanelShape, hole: Hole, kit: Kit) -> tuple[Place, ...]:
    """Where a hole may go instead, along its course first and nearest first; where cut-outs come too near, last."""
    found = [place for place in _near(hole) if _is_brick(shape, place.hole) and _is_off_corner(shape, place.hole, kit)]
    clear = [place for place in found if _is_clear(shape, place.hole, kit.mounts.clear_pitches)]
    return (*clear, *(place for place in found if place not in clear))


def _near(hole: Hole) -> Iterator[Place]:
    leg, layer, line = hole
    for pitches in range(1, MOST_PITCHES + 1):
        for way in (pitches, -pitches):
            yield Place((leg, layer, line + way), way, 0)
    for courses in range(1, MOST_COURSES + 1):
        for way in (courses, -courses):
            yield Place((leg, layer + way, line), 0, way)


def _is_brick(shape: PanelShape, hole: Hole) -> bool:
    """Whether a pin-hole brick can lie there: in a brick course, all of it on the panel."""
    leg, layer, line = hole
    if not 0 <= layer < len(shape.layers) or shape.layers[layer].kind != "course":
        return False
    return _has(shape, leg, layer, line - 1, line + 1)


def _has(shape: PanelShape, leg: int, layer: int, left: int, right: int) -> bool:
    """Whether one run of the panel's cells holds these pitches."""
    return any(begin <= left and right <= end for begin, end in shape.layers[layer].runs[leg])


def _is_off_corner(shape: PanelShape, hole: Hole, kit: Kit) -> bool:
    """Whether it keeps off the legs' common square, by so much that its joint is not the other leg's side."""
    if shape.corner is None:
        return True
    leg, _, line = hole
    return abs(line - (0 if leg else shape.legs[0])) > kit.thickness_pitches + 1


def _is_clear(shape: PanelShape, hole: Hole, reach: int) -> bool:
    """Whether nothing but whole brick lies around it, as far as the panel's own rectangle goes."""
    leg, layer, line = hole
    left, right = max(0, line - 1 - reach), min(shape.legs[leg], line + 1 + reach)
    layers = range(max(0, layer - reach), min(len(shape.layers), layer + reach + 1))
    return all(_has(shape, leg, n, left, right) for n in layers)


def can_stand(shape: PanelShape, holes: frozenset[Hole]) -> bool:
    """Whether pin-hole bricks at all of these leave each other room, with no more joints in line than the shape's own have."""
    apart = all(
        abs(x - other) >= LEAST_APART for leg, n, x in holes for leg2, n2, other in holes if (leg, n) == (leg2, n2) and x != other
    )
    return apart and _in_line(shape, holes) <= _in_line(shape, holes_in(shape))


def _in_line(shape: PanelShape, holes: frozenset[Hole]) -> int:
    """How many joints beside pin-hole bricks stand right above one another."""
    joints = {(leg, n, edge) for leg, n, x in holes for edge in (x - 1, x + 1) if _has(shape, leg, n, edge - 1, edge + 1)}
    return sum((leg, n + 1, edge) in joints for leg, n, edge in joints)
