"""Points too near a timber's edge: closed by the timber beside it, or by a piece fixed tight against that edge.

A screw that stands at least half its edge distance from the seam of two timbers fixed together, and its whole edge distance
from their outer edges, is taken to hold after a pilot hole was drilled. Common practice, no published source.
"""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from core.frame.points import Point
from core.setout.result import Timber
from core.setout.timber import UPRIGHTS

DOUBLE = "doubling piece"
REACH_MM = 100.0
"""A doubling piece goes on this far past the points it holds."""
_SLACK_MM = 1e-6


@dataclass(frozen=True, slots=True)
class Seam:
    """A point near a long edge of an upright: which upright, on which side of it the edge lies."""

    upright: Timber
    is_right: bool

    @property
    def at_mm(self) -> float:
        return self.upright.left_mm + (self.upright.width_mm if self.is_right else 0.0)


def is_closed(point: Point, members: Sequence[Timber], edge_mm: float) -> bool:
    """Whether the edge a point is too near to is covered by another member all along the screw."""
    on = [m for m in members if _reaches(m, point.x_mm, point.z_mm)]
    for member in on:
        for x, z, near in _nearest_edges(member, point, edge_mm):
            if near >= edge_mm / 2 - _SLACK_MM and any(m is not member and _reaches(m, x, z) for m in members):
                return True
    return False


def _nearest_edges(member: Timber, point: Point, edge: float) -> list[tuple[float, float, float]]:
    """Just past a member's near long edge as seen from a point: a place there, and the point's distance from that edge.

    Nothing where the point is too near both edges.
    """
    if member.member in UPRIGHTS:
        low, high, at = member.left_mm, member.left_mm + member.width_mm, point.x_mm
    else:
        low, high, at = member.bottom_mm, member.bottom_mm + member.height_mm, point.z_mm
    if at - low < edge and high - at < edge:
        return []
    past, near = (low - 1.0, at - low) if at - low < high - at else (high + 1.0, high - at)
    return [(past, point.z_mm, near) if member.member in UPRIGHTS else (point.x_mm, past, near)]


def _reaches(member: Timber, x: float, z: float) -> bool:
    return (
        member.left_mm - _SLACK_MM <= x <= member.left_mm + member.width_mm + _SLACK_MM
        and member.bottom_mm - _SLACK_MM <= z <= member.bottom_mm + member.height_mm + _SLACK_MM
    )


def doubled(
    points: Sequence[Point], members: Sequence[Timber], thickness_mm: float, edge_mm: float
) -> tuple[tuple[Timber, ...], dict[Point, Timber]]:
    """Upright pieces fixed against studs for points near their edges, and which piece serves which point."""
    wanted: defaultdict[Seam, list[Point]] = defaultdict(list)
    for point in points:
        seam = _seam_at(point, members, thickness_mm, edge_mm)
        if seam is not None:
            wanted[seam].append(point)
    pieces: list[Timber] = []
    serves: dict[Point, Timber] = {}
    for seam in sorted(wanted, key=lambda s: (s.at_mm, s.upright.bottom_mm)):
        for piece, group in _pieces(seam, wanted[seam], thickness_mm, (*members, *pieces)):
            pieces.append(piece)
            serves |= dict.fromkeys(group, piece)
    return tuple(pieces), serves


def _seam_at(point: Point, members: Sequence[Timber], thickness: float, edge: float) -> Seam | None:
    """The upright edge a point is near to, from either side of it, but not on it."""
    for member in members:
        if member.member in UPRIGHTS and member.bottom_mm <= point.z_mm <= member.bottom_mm + member.height_mm:
            for is_right in (False, True):
                seam = Seam(member, is_right)
                outward = (point.x_mm - seam.at_mm) * (1 if is_right else -1)
                inside = -(member.width_mm - edge) <= outward <= -edge / 2
                if inside or edge / 2 <= outward <= min(2 * edge, thickness - edge):
                    return seam
    return None


def _pieces(seam: Seam, points: Sequence[Point], thickness: float, others: Sequence[Timber]) -> list[tuple[Timber, list[Point]]]:
    """Pieces along a seam from the bottom up, each for as many points in reach of each other as other timber leaves room for."""
    found: list[tuple[Timber, list[Point]]] = []
    for point in sorted(points, key=lambda p: p.z_mm):
        groups = [[point]]
        if found and point.z_mm - found[-1][1][-1].z_mm <= 3 * REACH_MM:
            groups.insert(0, [*found[-1][1], point])
        for group in groups:
            piece, is_longer = _piece(seam, group, thickness), len(group) > 1
            beside = (*others, *(one for one, _ in (found[:-1] if is_longer else found)))
            if not any(_overlap(piece, other) for other in beside):
                found[len(found) - is_longer :] = [(piece, group)]
                break
    return found


def _piece(seam: Seam, group: Sequence[Point], thickness: float) -> Timber:
    upright = seam.upright
    low = max(upright.bottom_mm, group[0].z_mm - REACH_MM)
    high = min(upright.bottom_mm + upright.height_mm, group[-1].z_mm + REACH_MM)
    left = seam.at_mm if seam.is_right else seam.at_mm - thickness
    return Timber(upright.wall, DOUBLE, round(left, 4), round(low, 4), thickness, round(high - low, 4))


def _overlap(a: Timber, b: Timber) -> bool:
    across = min(a.left_mm + a.width_mm, b.left_mm + b.width_mm) - max(a.left_mm, b.left_mm)
    up = min(a.bottom_mm + a.height_mm, b.bottom_mm + b.height_mm) - max(a.bottom_mm, b.bottom_mm)
    return across > 1e-6 and up > 1e-6
