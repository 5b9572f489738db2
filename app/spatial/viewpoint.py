"""Where the room is looked at from, and where its millimetres then lie in the picture: nothing shrinks with distance."""

import math
from collections.abc import Sequence
from dataclasses import dataclass, replace

import numpy as np
from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QTransform

LOWEST_DEGREES, HIGHEST_DEGREES = 10.0, 80.0
"""Lower, the floor would be a line; higher, the walls would be."""
LEAST_ZOOM, MOST_ZOOM = 0.5, 24.0
TOUCH_MM = 0.5
"""Walls that share no more of the view's width than this do not cover each other."""
EDGE_ON = 1e-3
"""A wall seen at a flatter angle than this has no face to show."""

Plan = tuple[float, float]
"""A place on the floor plan in millimetres, y up."""


@dataclass(frozen=True, slots=True)
class Viewpoint:
    """``turn`` goes clockwise round the room, 0 looking along the plan's y; ``tilt`` is the height above the horizon."""

    turn_degrees: float = 35.0
    tilt_degrees: float = 35.0

    def turned(self, degrees: float) -> "Viewpoint":
        """Further round the room."""
        return replace(self, turn_degrees=(self.turn_degrees + degrees) % 360.0)

    def tilted(self, degrees: float) -> "Viewpoint":
        """Higher or lower, within what shows both walls and floor."""
        return replace(self, tilt_degrees=min(HIGHEST_DEGREES, max(LOWEST_DEGREES, self.tilt_degrees + degrees)))

    def across_and_away(self, x: float, y: float) -> tuple[float, float]:
        """A plan vector as seen: to the right, and away from the viewer."""
        cos, sin = math.cos(math.radians(self.turn_degrees)), math.sin(math.radians(self.turn_degrees))
        return x * cos - y * sin, x * sin + y * cos

    def sees_face(self, along: Plan) -> bool:
        """Whether a wall of that direction, left to right from inside, turns its inside to the viewer."""
        return self.across_and_away(along[1], -along[0])[1] < -EDGE_ON

    def facing(self, along: Plan, slant_degrees: float) -> "Viewpoint":
        """The viewpoint that looks at a wall of that direction from inside, that much aslant."""
        dx, dy = along
        return replace(self, turn_degrees=(math.degrees(math.atan2(-dy, dx)) + slant_degrees) % 360.0)


@dataclass(frozen=True, slots=True)
class Extent:
    """What the picture has to hold whichever way it is turned: a middle on the plan, a reach around it, a height."""

    middle: Plan
    reach_mm: float
    height_mm: float

    @classmethod
    def of(cls, corners: Sequence[Plan], height_mm: float) -> "Extent":
        """The extent of a plan whose walls are that high."""
        xs, ys = [x for x, _ in corners], [y for _, y in corners]
        middle = (min(xs) + max(xs)) / 2, (min(ys) + max(ys)) / 2
        return cls(middle, max(math.dist(middle, corner) for corner in corners), height_mm)


@dataclass(frozen=True, slots=True)
class Projection:
    """From the room's millimetres to pixels; ``at`` is where the middle of the room's foot lies."""

    viewpoint: Viewpoint
    middle: Plan
    scale: float
    at: QPointF

    @classmethod
    def fitting(cls, viewpoint: Viewpoint, extent: Extent, frame: QRectF, zoom: float = 1.0) -> "Projection":
        """The room centred in a frame, at one scale for every turn: a turning room must not seem to breathe."""
        tilt = math.radians(viewpoint.tilt_degrees)
        high_mm = 2 * extent.reach_mm * math.sin(tilt) + extent.height_mm * math.cos(tilt)
        scale = zoom * min(frame.width() / (2 * extent.reach_mm), frame.height() / high_mm)
        lift = extent.height_mm * math.cos(tilt) * scale / 2
        return cls(viewpoint, extent.middle, scale, frame.center() + QPointF(0.0, lift))

    def point(self, x_mm: float, y_mm: float, z_mm: float = 0.0) -> QPointF:
        """The pixel of a place in the room."""
        across, away = self.viewpoint.across_and_away(x_mm - self.middle[0], y_mm - self.middle[1])
        tilt = math.radians(self.viewpoint.tilt_degrees)
        up = away * math.sin(tilt) + z_mm * math.cos(tilt)
        return self.at + QPointF(across * self.scale, -up * self.scale)

    def upright(self, foot: Plan, along: Plan) -> QTransform:
        """What takes millimetres along a wall and above the floor to pixels, for a wall that begins at ``foot``."""
        across, away = self.viewpoint.across_and_away(*along)
        tilt = math.radians(self.viewpoint.tilt_degrees)
        origin = self.point(*foot)
        return QTransform(
            across * self.scale,
            -away * math.sin(tilt) * self.scale,
            0.0,
            -math.cos(tilt) * self.scale,
            origin.x(),
            origin.y(),
        )


def far_to_near(viewpoint: Viewpoint, walls: Sequence[tuple[Plan, Plan]]) -> list[int]:
    """The walls in an order in which each may be painted over those before it.

    Walls of a plan do not cross, so of two that share part of the view's width one lies wholly behind the other there; along
    parallel rays such an order of plane figures always exists.
    """
    ends = np.array([[viewpoint.across_and_away(*end) for end in wall] for wall in walls])
    left_first = ends[:, 0, 0] <= ends[:, 1, 0]
    left = np.where(left_first[:, None], ends[:, 0], ends[:, 1])
    right = np.where(left_first[:, None], ends[:, 1], ends[:, 0])
    begin = np.maximum(left[:, None, 0], left[None, :, 0])
    end = np.minimum(right[:, None, 0], right[None, :, 0])
    wide = np.where(right[:, 0] - left[:, 0] > TOUCH_MM, right[:, 0] - left[:, 0], np.inf)
    slope = (right[:, 1] - left[:, 1]) / wide
    depth = left[:, None, 1] + ((begin + end) / 2 - left[:, None, 0]) * slope[:, None]
    is_behind = (end - begin > TOUCH_MM) & (depth > depth.T)
    return _sorted(is_behind, ends[:, :, 1].mean(axis=1))


def _sorted(is_behind: np.ndarray, depth: np.ndarray) -> list[int]:
    """Numbers such that no one comes after one it is behind of; the furthest first where there is a choice."""
    waiting = is_behind.sum(axis=0)
    left = set(range(len(depth)))
    order: list[int] = []
    while left:
        # Rounding can make a ring of walls that merely touch; the furthest of them then goes first.
        free = [wall for wall in left if not waiting[wall]] or list(left)
        following = max(free, key=lambda wall: (depth[wall], -wall))
        left.remove(following)
        waiting = waiting - is_behind[following]
        order.append(following)
    return order
