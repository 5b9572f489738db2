"""Bow and lean: how thick the packer behind every mounting point must be for the panels to lie in one plane.

The plane is parallel to the plumb plane the readings were taken from, the wall's least packing in front of the most forward
reading. Between readings that form a complete grid the face is interpolated bilinearly and kept level beyond its outermost
lines; with any other set of readings the nearest one counts.
"""

from bisect import bisect_right
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Literal

from core.frame.points import Point
from core.setout.result import WallShell
from core.timberwork import FaceReadings, Reading, Timberwork

ReadingMethod = Literal["not measured", "bilinear between readings", "nearest reading"]


@dataclass(frozen=True, slots=True)
class Packers:
    """One wall's packers: a thickness for every one of its points, in the order of the points."""

    wall: int
    method: ReadingMethod
    thickness_mm: tuple[float, ...]

    @property
    def least_mm(self) -> float:
        return min(self.thickness_mm, default=0.0)

    @property
    def most_mm(self) -> float:
        return max(self.thickness_mm, default=0.0)


def packers_for(shell: WallShell, points: Sequence[Point], timberwork: Timberwork) -> Packers:
    """The packers of a wall's points: the wall's packing everywhere unless its face was measured."""
    face = next((face for face in timberwork.faces if face.wall == shell.wall), None)
    if face is None:
        return Packers(shell.wall, "not measured", tuple(shell.packing_mm for _ in points))
    most_forward = min(reading.depth_mm for reading in face.readings)
    surface = Surface(face)
    thickness = (surface.depth_mm(p.x_mm, p.z_mm) - most_forward + shell.packing_mm for p in points)
    return Packers(shell.wall, surface.method, tuple(round(t, 2) for t in thickness))


def on_two_lines(points: Sequence[Point], thickness_mm: Sequence[float]) -> dict[str, tuple[list[float], list[float]]]:
    """Packers by mark: behind a panel's lower screws and behind its upper ones, each from the left.

    A screw whose hole was moved to another course goes with the line it is nearer to. A panel screwed at one height has no upper
    line.
    """
    of_panel: dict[str, list[tuple[Point, float]]] = {}
    for point, thickness in zip(points, thickness_mm, strict=True):
        of_panel.setdefault(point.mark, []).append((point, thickness))
    found = {}
    for mark, mine in of_panel.items():
        heights = [point.z_mm for point, _ in mine]
        middle = (min(heights) + max(heights)) / 2
        ordered = sorted(mine, key=lambda one: one[0].x_mm)
        lower = [thickness for point, thickness in ordered if point.z_mm <= middle]
        found[mark] = lower, [thickness for point, thickness in ordered if point.z_mm > middle]
    return found


class Surface:
    """A frame's face between the places where it was read."""

    def __init__(self, face: FaceReadings) -> None:
        self._readings: tuple[Reading, ...] = face.readings
        self._xs = sorted({reading.x_mm for reading in face.readings})
        self._zs = sorted({reading.z_mm for reading in face.readings})
        self._depths = {(reading.x_mm, reading.z_mm): reading.depth_mm for reading in face.readings}
        is_grid = len(self._depths) == len(self._xs) * len(self._zs)
        self.method: ReadingMethod = "bilinear between readings" if is_grid else "nearest reading"

    def depth_mm(self, x_mm: float, z_mm: float) -> float:
        """How far the face lies behind the plane of the readings at a place."""
        if self.method == "nearest reading":
            nearest = min(self._readings, key=lambda r: ((r.x_mm - x_mm) ** 2 + (r.z_mm - z_mm) ** 2, r.x_mm, r.z_mm))
            return nearest.depth_mm
        x0, x1, across = _between(self._xs, x_mm)
        z0, z1, up = _between(self._zs, z_mm)
        low = self._depths[x0, z0] * (1 - across) + self._depths[x1, z0] * across
        high = self._depths[x0, z1] * (1 - across) + self._depths[x1, z1] * across
        return low * (1 - up) + high * up


def _between(lines: Sequence[float], at: float) -> tuple[float, float, float]:
    """The two lines around a place and the share of the way from the first to the second; the end line twice beyond it."""
    place = min(max(at, lines[0]), lines[-1])
    second = min(bisect_right(lines, place), len(lines) - 1)
    first = max(0, second - 1)
    span = lines[second] - lines[first]
    return lines[first], lines[second], (place - lines[first]) / span if span else 0.0
