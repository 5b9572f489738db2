"""Panels in their places: where a division puts its bodies, and the faces they show, given what their points land on."""

from collections.abc import Iterator
from dataclasses import dataclass
from itertools import islice

import numpy as np

from core.setout.bodies import Body, BodyMount, BuiltTo
from core.setout.division import Division, Placed
from core.setout.mounting import LEAST_POINTS
from core.setout.outline import Rings
from core.setout.problem import Problem
from core.setout.result import Face, Mount, Ring
from core.setout.tariff import Ints
from core.setout.workshop import Workshop

Landed = tuple[str | None, ...]
"""What mounting points land on, in their order; None for nothing."""


@dataclass(frozen=True, slots=True)
class Points:
    """Mounting points of a layout on one wall: pitch lines and heights in half plates, shape (points,) each."""

    x_pitches: Ints
    z_half_plates: Ints


@dataclass(frozen=True, slots=True)
class Spot:
    """A body in its place: the wall its mark names, its left end there, and the faces it shows, their mounts in order."""

    wall: int
    left: int
    body: Body
    faces: tuple[tuple[int, Rings, tuple[tuple[int, int], ...]], ...]
    """Of each face the wall, the rings in wall coordinates, and its mounting points as (pitch line, half plates)."""


@dataclass(frozen=True, eq=False)
class Layout:
    """Where some of a wall's candidates stand in one row, whatever is behind them, with a number that tells it from others.

    ``before`` are its mounting points on the wall to the left, ``here`` those on the wall itself.
    """

    serial: int
    wall: int
    spots: tuple[Spot, ...]
    before: Points
    here: Points


@dataclass(frozen=True, slots=True)
class Standing:
    """A body where it stands: the wall its mark names, its left end there, the faces it shows."""

    wall: int
    left: int
    body: Body
    faces: tuple[Face, ...]

    @property
    def mounts(self) -> int:
        """How many mounting points it has."""
        return len(self.body.mounts)

    @property
    def is_doubtful(self) -> bool:
        """Whether anything about the panel is worth a check."""
        return bool(self.body.weak) or not self.body.mounts_clear or self.mounts < LEAST_POINTS

    @property
    def bare_mounts(self) -> int:
        """Mounting points with no timber behind them."""
        return sum(mount.lands_on is None for face in self.faces for mount in face.mounts)


@dataclass(frozen=True, eq=False)
class Batch:
    """What stands in one row for some of a wall's candidates, with a number that tells it from others."""

    serial: int
    standing: tuple[Standing, ...]
    designs: frozenset[BuiltTo]


def laid_out(problem: Problem, division: Division, wall: int, workshop: Workshop, *, corner: bool) -> Layout:
    """The candidate around a wall's left corner, or the flat ones on the wall, in their places."""
    mine = [(placed, body) for placed, body in division.walls[wall].placed if (placed.candidate.corner is not None) == corner]
    spots = tuple(_spot(problem, division, placed, body) for placed, body in mine)
    before = problem.before(wall) if corner else None
    return Layout(workshop.next_serial(), wall, spots, _points(spots, before), _points(spots, wall))


def stood(layout: Layout, landed: tuple[Landed, Landed], workshop: Workshop) -> Batch:
    """The panels of a layout, given what its mounting points on the wall to the left, and on its own wall, land on."""
    on_walls = iter(landed[0]), iter(landed[1])
    standing = tuple(_standing(spot, layout.wall, on_walls) for spot in layout.spots)
    return Batch(workshop.next_serial(), standing, frozenset(s.body.built_to for s in standing))


def _standing(spot: Spot, here: int, landed: tuple[Iterator[str | None], Iterator[str | None]]) -> Standing:
    faces = []
    for wall, rings, points in spot.faces:
        members = islice(landed[wall == here], len(points))
        mounts = tuple(Mount(wall, x, z, member) for (x, z), member in zip(points, members, strict=True))
        faces.append(Face(wall, rings[0], rings[1:], mounts))
    return Standing(spot.wall, spot.left, spot.body, tuple(faces))


def _points(spots: tuple[Spot, ...], wall: int | None) -> Points:
    found = [point for spot in spots for on_wall, _, points in spot.faces if on_wall == wall for point in points]
    xs, zs = np.array(found, dtype=np.int64).reshape(-1, 2).T
    return Points(xs, zs)


def _spot(problem: Problem, division: Division, placed: Placed, body: Body) -> Spot:
    faces = tuple(_faces(problem, division, placed, body))
    left = min(x for outline, *_ in (*body.left_faces, *body.right_faces) for x, _ in outline) + placed.begin
    if body.right_faces:
        return Spot(placed.wall, max(0, left), body, faces)
    before = problem.before(placed.wall)
    return Spot(before, problem.pitches(before) + left, body, faces)


def _faces(
    problem: Problem, division: Division, placed: Placed, body: Body
) -> Iterator[tuple[int, Rings, tuple[tuple[int, int], ...]]]:
    kit = problem.room.kit
    before = problem.before(placed.wall)
    sides = (
        (before, problem.pitches(before) + placed.begin, body.left_faces, True),
        (placed.wall, placed.begin, body.right_faces, False),
    )
    bottom = division.view.row.z_plates
    for wall, shift, faces, is_left in sides:
        mounts = [m for m in body.mounts if (placed.begin + m.x < 0) == is_left]
        for rings in faces:
            mine = [m for m in mounts if len(faces) == 1 or _holds(rings, m, kit.plates_per_course)]
            moved: tuple[Ring, ...] = tuple(tuple((x + shift, z + bottom) for x, z in ring) for ring in rings)
            middles = tuple((m.x + shift, 2 * bottom + (2 * m.course + 1) * kit.plates_per_course) for m in mine)
            yield wall, moved, middles


def _holds(rings: Rings, mount: BodyMount, plates_per_course: int) -> bool:
    xs = [x for x, _ in rings[0]]
    zs = [z for _, z in rings[0]]
    return min(xs) < mount.x < max(xs) and min(zs) <= mount.course * plates_per_course < max(zs)
