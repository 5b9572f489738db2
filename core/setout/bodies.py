"""The panels a chosen candidate leaves, in its own coordinates: outline, design, mounting points and cost.

A body does not know where in the room it stands; x is counted from the candidate's left end in pitches, z from the row's bottom.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field

import numpy as np

from core.kit import Kit
from core.setout.costs import build_rate, piece_cost
from core.setout.extent import PieceExtent
from core.setout.layers import Block, Layers
from core.setout.mounting import Holes, MountLines
from core.setout.outline import Rings, traced
from core.setout.result import PanelKind
from core.setout.strip import strip_of
from core.setout.tariff import CornerKey, MakeUp, PlainKey, Tariff, make_up

FAR = 10**6


@dataclass(frozen=True, slots=True)
class ShapeKey:
    """The identity of a shaped design: make-up, rings and, around a corner, its kind and the corner's pitch line."""

    made: MakeUp
    rings: Rings
    corner: tuple[str, int] | None


DesignKey = PlainKey | CornerKey | ShapeKey


@dataclass(frozen=True, slots=True, eq=False)
class BuiltTo:
    """The design a panel is built to: its identity, its kind and whether the kit's sheets cover it.

    Of one kit the identity says it all; of two kits it may be a closer of one and a half-height panel of the other. Designs are
    gathered in sets at every step of a drag, so the hash of the identity is worked out once.
    """

    key: DesignKey
    kind: PanelKind
    in_kit: bool
    _hash: int = field(init=False, repr=False)

    def __post_init__(self) -> None:
        object.__setattr__(self, "_hash", hash(self.key))

    def __hash__(self) -> int:
        return self._hash

    def __eq__(self, other: object) -> bool:
        return isinstance(other, BuiltTo) and self.key == other.key and self.kind == other.kind


@dataclass(frozen=True, slots=True)
class BodyMount:
    """A mounting point: pitch line from the candidate's left end, and the row's course."""

    x: int
    course: int


@dataclass(frozen=True, slots=True)
class Body:
    """One panel of a candidate.

    ``left_faces`` and ``right_faces`` are its faces left and right of the corner line, each an outline and its cut-outs; away
    from a corner all are right ones.
    """

    built_to: BuiltTo
    left_faces: tuple[Rings, ...]
    right_faces: tuple[Rings, ...]
    mounts: tuple[BodyMount, ...]
    mounts_clear: bool
    build: int
    handling: int
    sliver: int
    weak: int
    total: int
    """Units of everything but set-up and blocking, tie-break included, exactly as the solver counted it."""


@dataclass(frozen=True, slots=True)
class Candidate:
    """A chosen candidate without its place: its width, the blocked cells in it, and the corner inside it, if any."""

    layers: Layers
    width: int
    blocks: tuple[Block, ...]
    corner: tuple[str, int] | None


def bodies_of(candidate: Candidate, tariff: Tariff) -> tuple[Body, ...]:
    """The panels a candidate leaves, from left to right and from below."""
    corner_at = candidate.corner[1] if candidate.corner else None
    strip = strip_of(candidate.layers, 0, candidate.width, candidate.blocks, corner_at)
    span = 0, len(strip.segments) - 1
    lines = MountLines(strip, tariff.kit, None)
    found = [
        _body(PieceExtent(strip, piece, span, np.asarray(0), np.asarray(candidate.width)), candidate, lines, tariff)
        for piece in strip.pieces(*span)
    ]
    return tuple(found)


def blocks_within(blocks: tuple[Block, ...], begin: int, width: int) -> tuple[Block, ...]:
    """The blocked cells inside a candidate, counted from its left end."""
    return tuple(
        Block(max(b.left - begin, 0), min(b.right - begin, width), b.low, b.high)
        for b in blocks
        if b.left < begin + width and b.right > begin
    )


def _body(extent: PieceExtent, candidate: Candidate, lines: MountLines, tariff: Tariff) -> Body:
    corner_at = extent.strip.corner
    points, is_clear = lines.points_and_clearance(extent)
    left_faces = () if corner_at is None else _faces(extent, -FAR, corner_at)
    right_faces = _faces(extent, -FAR if corner_at is None else corner_at, FAR)
    unrolled = right_faces if corner_at is None else _faces(extent, -FAR, FAR)
    design, in_kit = _design(extent, candidate, tariff, unrolled[0])
    return Body(
        built_to=BuiltTo(design, _kind(extent, candidate, tariff.kit), in_kit),
        left_faces=left_faces,
        right_faces=right_faces,
        mounts=_mounts(points),
        mounts_clear=bool(is_clear),
        build=int(extent.area) * build_rate(tariff, extent),
        handling=tariff.handling,
        sliver=tariff.sliver * int(extent.is_sliver(tariff.kit.half_width)),
        weak=tariff.weak * int(extent.is_weak),
        total=int(piece_cost(extent, tariff)),
    )


def _kind(extent: PieceExtent, candidate: Candidate, kit: Kit) -> PanelKind:
    if extent.is_corner:
        return "corner" if extent.piece.is_rectangle else "shaped-corner"
    if not extent.piece.is_rectangle:
        return "shaped"
    width, made = int(extent.width), make_up(candidate.layers, extent.piece.low, extent.piece.high)
    if width in kit.widths_pitches and made == (kit.full_courses, True, True):
        return "full" if width == kit.full_width else "half-width"
    if width in kit.widths_pitches and made == (kit.half_courses, True, True):
        return "half-height" if width == kit.full_width else "quarter"
    return "closer"


def _design(extent: PieceExtent, candidate: Candidate, tariff: Tariff, unrolled: Rings) -> tuple[DesignKey, bool]:
    """The design a piece is built to, and whether the kit's sheets cover it; ``unrolled`` are its rings."""
    piece, kit = extent.piece, tariff.kit
    made = make_up(candidate.layers, piece.low, piece.high)
    whole = tariff.has_all_layers(made)
    if piece.is_rectangle and not extent.is_corner:
        width = int(extent.width)
        return (width, made), whole and width in kit.widths_pitches
    corner = None
    if extent.is_corner and candidate.corner is not None:
        kind, at = candidate.corner
        left, right = at - int(extent.left), int(extent.right) - at
        if piece.is_rectangle:
            return (kind, left, right, made), whole and left in kit.legs_pitches and right in kit.legs_pitches
        corner = kind, left
    rings = _from_origin(unrolled)
    if corner is None:
        rings = min(rings, _mirrored(rings))
    return ShapeKey(made, rings, corner), False


def _mounts(points: Iterable[Holes]) -> tuple[BodyMount, ...]:
    found = []
    for course, left, right, has_left, has_right in points:
        found += [BodyMount(int(x), course) for x, exists in ((left, has_left), (right, has_right)) if exists]
    return tuple(found)


def _faces(extent: PieceExtent, low_x: int, high_x: int) -> tuple[Rings, ...]:
    """Outline and cut-outs of each connected part of a piece between two pitch lines."""
    edges = extent.strip.layers.edges
    boxes = []
    for node in extent.piece.nodes:
        left = max(low_x, int(extent.left_of(node.segment)))
        right = min(high_x, int(extent.right_of(node.segment)))
        if left < right:
            boxes.append((left, edges[node.low], right, edges[node.high]))
    return traced(boxes)


def _from_origin(rings: Rings) -> Rings:
    x0 = min(x for ring in rings for x, _ in ring)
    z0 = min(z for ring in rings for _, z in ring)
    return tuple(sorted(tuple((x - x0, z - z0) for x, z in ring) for ring in rings))


def _mirrored(rings: Rings) -> Rings:
    """The same panel turned about its vertical axis."""
    x1 = max(x for ring in rings for x, _ in ring)
    turned = []
    for ring in rings:
        points = [(x1 - x, z) for x, z in reversed(ring)]
        begin = points.index(min(points, key=lambda p: (p[1], p[0])))
        turned.append(tuple(points[begin:] + points[:begin]))
    return tuple(sorted(turned))
