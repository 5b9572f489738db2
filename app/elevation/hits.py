"""What lies under the pointer: a panel, an opening, or the edge by which to resize it."""

from typing import Literal

from PySide6.QtCore import QPointF, QRectF

from app.elevation.content import PlacedFace, WallContent, covers, grid_box
from app.elevation.strip import WallPoint

Edge = Literal["left", "right", "sill", "head"]
Grip = frozenset[Edge]
"""The edges that a drag moves: one for a side, two for a corner, none for the body."""

BODY: Grip = frozenset()
EDGE_PX = 5.0
CORNER_PX = 9.0
LEAST_BODY_PX = 14.0
"""Smaller openings are caught from a little outside, and larger ones keep at least this much to move them by."""


def body_px(shown: QRectF) -> QRectF:
    """The area that counts as an opening: itself, or a little more where it is small."""
    across = max(0.0, (LEAST_BODY_PX - shown.width()) / 2)
    down = max(0.0, (LEAST_BODY_PX - shown.height()) / 2)
    return shown.adjusted(-across, -down, across, down)


def grip_at(shown: QRectF, pos: QPointF, *, selected: bool) -> Grip | None:
    """The part of an opening at a pixel, None outside it. Edges reach outwards only on the selected opening."""
    body = body_px(shown)
    outside = EDGE_PX + 1 if selected else 0.0
    if not body.adjusted(-outside, -outside, outside, outside).contains(pos):
        return None
    reach_x = _inner_reach(body.width())
    reach_y = _inner_reach(body.height())
    across = _side(pos.x(), body.left(), body.right(), reach_x, "left", "right")
    down = _side(pos.y(), body.top(), body.bottom(), reach_y, "head", "sill")
    if across and not down:
        down = _side(pos.y(), body.top(), body.bottom(), min(CORNER_PX, reach_y * 2), "head", "sill")
    elif down and not across:
        across = _side(pos.x(), body.left(), body.right(), min(CORNER_PX, reach_x * 2), "left", "right")
    return frozenset(edge for edge in (across, down) if edge)


def _inner_reach(length_px: float) -> float:
    return max(0.0, min(EDGE_PX, (length_px - LEAST_BODY_PX) / 2))


def _side(at: float, low: float, high: float, reach: float, low_edge: Edge, high_edge: Edge) -> Edge | None:
    if at < low + reach or at < low:
        return low_edge
    if at > high - reach or at > high:
        return high_edge
    return None


def face_on(content: WallContent, point: WallPoint) -> PlacedFace | None:
    """The face of a panel at a place on a wall."""
    x = (point.x_mm - content.shell.start_mm) / content.kit.pitch_mm
    z = point.z_mm / content.kit.plate_mm
    for placed in content.faces:
        left, bottom, right, top = grid_box(placed.face)
        if left <= x < right and bottom <= z < top and covers(placed.face, x, z):
            return placed
    return None
