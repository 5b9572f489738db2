"""Mounting points in wall millimetres, and how far each is from timber that would hold its screw."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from math import hypot

from core.setout.framing import BLOCKING
from core.setout.metric import mount_mm
from core.setout.result import Mount, SetOut, Timber
from core.setout.timber import UPRIGHTS


@dataclass(frozen=True, slots=True)
class Point:
    """A mounting point: the panel's mark, its place on the wall, and the member it lands on, None where there is none."""

    mark: str
    wall: int
    x_mm: float
    z_mm: float
    lands_on: str | None

    @property
    def is_held(self) -> bool:
        """Whether timber stands behind it without blocking."""
        return self.lands_on not in (None, BLOCKING)


@dataclass(frozen=True, slots=True)
class Gap:
    """From a point to the nearest place on a member where a screw keeps its edge distance: sideways, upwards, straight."""

    member: Timber
    across_mm: float
    up_mm: float

    @property
    def distance_mm(self) -> float:
        return hypot(self.across_mm, self.up_mm)


@dataclass(frozen=True, slots=True)
class Holding:
    """The rectangle of a member in which a screw keeps its edge distance from the long edges, in wall millimetres."""

    left: float
    right: float
    bottom: float
    top: float

    def holds(self, x_mm: float, z_mm: float) -> bool:
        return self.left - 1e-6 <= x_mm <= self.right + 1e-6 and self.bottom - 1e-6 <= z_mm <= self.top + 1e-6


def points_of(setout: SetOut) -> tuple[Point, ...]:
    """Every mounting point, by panel and then upwards and to the right."""
    faces = ((panel, face) for panel in setout.panels for face in panel.faces)
    return tuple(point_of(setout, panel.mark, mount) for panel, face in faces for mount in face.mounts)


def point_of(setout: SetOut, mark: str, mount: Mount) -> Point:
    """A mounting point of the panel with that mark."""
    x, z = mount_mm(setout, mount)
    return Point(mark, mount.wall, x, z, mount.lands_on)


def holding(member: Timber, edge_mm: float) -> Holding | None:
    """Where a screw may stand on a member; None where it is too narrow for any."""
    across, up = (edge_mm, 0.0) if member.member in UPRIGHTS else (0.0, edge_mm)
    left, right = member.left_mm + across, member.left_mm + member.width_mm - across
    bottom, top = member.bottom_mm + up, member.bottom_mm + member.height_mm - up
    return Holding(left, right, bottom, top) if left <= right and bottom <= top else None


def nearest_gap(members: Sequence[Timber], x_mm: float, z_mm: float, edge_mm: float) -> Gap | None:
    """The least way from a place to where a screw would hold; None where no member can hold one."""
    return min(_gaps(members, x_mm, z_mm, edge_mm), key=lambda gap: (gap.distance_mm, gap.member.left_mm), default=None)


def _gaps(members: Sequence[Timber], x_mm: float, z_mm: float, edge_mm: float) -> Iterator[Gap]:
    for member in members:
        if area := holding(member, edge_mm):
            across = min(max(x_mm, area.left), area.right) - x_mm
            yield Gap(member, across, min(max(z_mm, area.bottom), area.top) - z_mm)
