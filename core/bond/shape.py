"""What has to be bonded: a panel's cells layer by layer and leg by leg, without its place in the room."""

from collections.abc import Iterable, Iterator
from dataclasses import dataclass, replace
from typing import Literal

from core.bond.result import LayerKind
from core.setout.result import Face, Panel, Ring, SetOut

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


@dataclass(frozen=True, slots=True)
class PanelShape:
    """A panel's geometry, layers from the bottom. Positions count as in ``Bond``; ``corner`` is None for a flat panel."""

    legs: tuple[int, ...]
    corner: Literal["inside", "outside"] | None
    layers: tuple[ShapeLayer, ...]

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
    layers = tuple(_layers(setout, panel, sides, lefts))
    return PanelShape(legs, corner, layers)


def _sides(panel: Panel) -> list[list[Face]]:
    """The faces by wall, the left wall's first."""
    walls = list(dict.fromkeys(face.wall for face in panel.faces))
    return [[face for face in panel.faces if face.wall == wall] for wall in walls]


def _corner_kind(setout: SetOut, right_wall: int) -> Literal["inside", "outside"]:
    return "outside" if setout.walls[right_wall].left == "outside" else "inside"


def _layers(setout: SetOut, panel: Panel, sides: list[list[Face]], lefts: list[int]) -> Iterator[ShapeLayer]:
    row, kit = setout.rows[panel.row], setout.room.kit
    bottom = min(face.bottom for face in panel.faces)
    top = max(face.top for face in panel.faces)
    z = row.z_plates
    courses: list[tuple[LayerKind, int]] = [("course", kit.plates_per_course)] * row.courses
    kinds: list[tuple[LayerKind, int]] = [*courses, ("plate", 1), ("cap", 1)]
    for kind, height in kinds:
        if bottom <= z < top:
            runs = tuple(_runs_at(faces, z, left) for faces, left in zip(sides, lefts, strict=True))
            mounts = tuple(_mounts_in(faces, z, height, left) for faces, left in zip(sides, lefts, strict=True))
            yield ShapeLayer(kind, z - bottom, height, runs, mounts)
        z += height


def _mounts_in(faces: list[Face], z: int, height: int, left: int) -> tuple[int, ...]:
    lines = (m.x_pitches - left for face in faces for m in face.mounts if 2 * z < m.z_half_plates < 2 * (z + height))
    return tuple(sorted(lines))


def _runs_at(faces: list[Face], z: int, left: int) -> Runs:
    """The runs just above a plate line, counted from ``left``; those that touch are one."""
    found: list[Run] = []
    for run in sorted(run for face in faces for run in _face_runs(face, z)):
        if found and found[-1][1] == run[0]:
            found[-1] = found[-1][0], run[1]
        else:
            found.append(run)
    return tuple((begin - left, end - left) for begin, end in found)


def _face_runs(face: Face, z: int) -> Iterable[Run]:
    crossings = sorted(x for ring in (face.outline, *face.holes) for x in _crossings(ring, z))
    return zip(crossings[::2], crossings[1::2], strict=True)


def _crossings(ring: Ring, z: int) -> Iterator[int]:
    """Where a ring's upright edges cross the layer that begins at a plate line."""
    for (x0, z0), (_, z1) in zip(ring, ring[1:] + ring[:1], strict=True):
        if min(z0, z1) <= z < max(z0, z1):
            yield x0
