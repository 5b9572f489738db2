"""What has to be bonded: a panel's cells layer by layer and leg by leg, without its place in the room."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from functools import cached_property, lru_cache
from typing import Literal

from core.bond.result import LayerKind, without_hash
from core.setout.result import Face, Mount, Panel, Ring, SetOut

Run = tuple[int, int]
"""Pitches from the first to the second, the latter not included."""
Runs = tuple[Run, ...]


@dataclass(frozen=True, slots=True)
class ShapeLayer:
    """One layer: the runs of cells on each leg, and the pitch lines of the holes on each leg."""

    kind: LayerKind
    z_plates: int
    height_plates: int
    runs: tuple[Runs, ...]
    mounts: tuple[tuple[int, ...], ...]


@dataclass(frozen=True)
class PanelShape:
    """A panel's geometry, layers from the bottom. Positions count as in ``Bond``; ``corner`` is None for a flat panel."""

    legs: tuple[int, ...]
    corner: Literal["inside", "outside"] | None
    layers: tuple[ShapeLayer, ...]

    def __hash__(self) -> int:
        return self._hash

    @cached_property
    def _hash(self) -> int:
        # What is remembered of a shape is looked up for every panel.
        return hash((self.legs, self.corner, self.layers))

    def __getstate__(self) -> dict[str, object]:
        return without_hash(self.__dict__)

    @property
    def mounts(self) -> int:
        """How many mounting points the panel has."""
        return sum(len(lines) for layer in self.layers for lines in layer.mounts)

    def turned(self) -> "PanelShape":
        """The flat panel turned about its vertical axis."""
        (width,) = self.legs

        def turn(layer: ShapeLayer) -> ShapeLayer:
            runs = tuple((width - right, width - left) for left, right in reversed(layer.runs[0]))
            mounts = tuple(sorted(width - line for line in layer.mounts[0]))
            return replace(layer, runs=(runs,), mounts=(mounts,))

        return replace(self, layers=tuple(turn(layer) for layer in self.layers))

    def canonical(self) -> tuple["PanelShape", bool]:
        """Of a flat panel and its mirror image the same one whichever is given, and whether it is the other one."""
        if self.corner is not None:
            return self, False
        turned = self.turned()
        return (turned, True) if _order(turned) < _order(self) else (self, False)


def _order(shape: PanelShape) -> list[tuple[tuple[Runs, ...], tuple[tuple[int, ...], ...]]]:
    return [(layer.runs, layer.mounts) for layer in shape.layers]


def shape_of(setout: SetOut, panel: Panel) -> PanelShape:
    """The geometry of a panel of that set-out."""
    sides = _sides(panel)
    lefts = [min(face.left for face in faces) for faces in sides]
    if len(sides) == 1:
        legs: tuple[int, ...] = (max(face.right for face in sides[0]) - lefts[0],)
        corner = None
    else:
        line = setout.walls[sides[0][0].wall].pitches
        legs = line - lefts[0], max(face.right for face in sides[1])
        lefts[1] = 0
        corner = _corner_kind(setout, sides[1][0].wall)
    bottom, row = min(face.bottom for face in panel.faces), setout.rows[panel.row]
    own = tuple(tuple(_shifted(face, left, bottom) for face in faces) for faces, left in zip(sides, lefts, strict=True))
    return _shape(own, legs, corner, (row.z_plates - bottom, row.courses, setout.room.kit.plates_per_course))


def _shifted(face: Face, left: int, bottom: int) -> Face:
    """A face without its place in the room."""
    rings = [tuple((x - left, z - bottom) for x, z in ring) for ring in (face.outline, *face.holes)]
    mounts = tuple(Mount(0, m.x_pitches - left, m.z_half_plates - 2 * bottom, None) for m in face.mounts)
    return Face(0, rings[0], tuple(rings[1:]), mounts)


@lru_cache(maxsize=2048)
def _shape(
    sides: tuple[tuple[Face, ...], ...],
    legs: tuple[int, ...],
    corner: Literal["inside", "outside"] | None,
    band: tuple[int, int, int],
) -> PanelShape:
    """Faces that count from their panel's foot and leg's left end; ``band`` is their row's foot, courses, plates to a course."""
    return PanelShape(legs, corner, tuple(_layers(sides, *band)))


def _sides(panel: Panel) -> list[list[Face]]:
    """The faces by wall, the left wall's first."""
    walls = list(dict.fromkeys(face.wall for face in panel.faces))
    return [[face for face in panel.faces if face.wall == wall] for wall in walls]


def _corner_kind(setout: SetOut, right_wall: int) -> Literal["inside", "outside"]:
    return "outside" if setout.walls[right_wall].left == "outside" else "inside"


def _layers(sides: tuple[tuple[Face, ...], ...], foot: int, brick_courses: int, plates_per_course: int) -> Iterator[ShapeLayer]:
    top = max(face.top for faces in sides for face in faces)
    z = foot
    courses: list[tuple[LayerKind, int]] = [("course", plates_per_course)] * brick_courses
    kinds: list[tuple[LayerKind, int]] = [*courses, ("plate", 1), ("cap", 1)]
    for kind, height in kinds:
        if 0 <= z < top:
            runs = tuple(_runs_at(faces, z) for faces in sides)
            mounts = tuple(_mounts_in(faces, z, height) for faces in sides)
            yield ShapeLayer(kind, z, height, runs, mounts)
        z += height


def _mounts_in(faces: tuple[Face, ...], z: int, height: int) -> tuple[int, ...]:
    return tuple(sorted(m.x_pitches for face in faces for m in face.mounts if 2 * z < m.z_half_plates < 2 * (z + height)))


def _runs_at(faces: tuple[Face, ...], z: int) -> Runs:
    """The runs just above a plate line; those that touch are one."""
    found: list[Run] = []
    for run in sorted(run for face in faces for run in _face_runs(face, z)):
        if found and found[-1][1] == run[0]:
            found[-1] = found[-1][0], run[1]
        else:
            found.append(run)
    return tuple(found)


def _face_runs(face: Face, z: int) -> Iterable[Run]:
    crossings = sorted(x for ring in (face.outline, *face.holes) for x in _crossings(ring, z))
    return zip(crossings[::2], crossings[1::2], strict=True)


def _crossings(ring: Ring, z: int) -> Iterator[int]:
    """Where a ring's upright edges cross the layer that begins at a plate line."""
    for (x0, z0), (_, z1) in zip(ring, ring[1:] + ring[:1], strict=True):
        if min(z0, z1) <= z < max(z0, z1):
            yield x0
