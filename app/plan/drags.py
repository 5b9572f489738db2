"""Drags on the plan: a corner, or a whole wall parallel to itself. Each previews as it goes and commits once."""

from typing import Protocol

from PySide6.QtCore import QPointF

from app.document import Document
from app.elevation.hand import TREMBLE_PX
from core.edits import move_corner
from core.edits.plan import move_wall
from core.language import tr
from core.room import Point, Room, wall_letter


class Drag(Protocol):
    """What the plan runs from press to release."""

    def move(self, position: QPointF, *, square: bool, step_mm: float) -> None: ...
    def finish(self) -> None: ...
    def cancel(self) -> None: ...


class _PlanDrag:
    """What both drags share: a hand that only trembles moves nothing, and nothing jumps under the pointer."""

    def __init__(self, document: Document, pressed: QPointF, px_per_mm: float) -> None:
        self._document, self._pressed, self._px_per_mm = document, pressed, px_per_mm
        self._has_begun = False

    def _way_mm(self, position: QPointF) -> Point | None:
        """How far the pointer has gone on the plan; None while it only trembles."""
        way = position - self._pressed
        self._has_begun = self._has_begun or way.manhattanLength() >= TREMBLE_PX
        return (way.x() / self._px_per_mm, -way.y() / self._px_per_mm) if self._has_begun else None

    def cancel(self) -> None:
        self._document.cancel()


class CornerDrag(_PlanDrag):
    """Dragging one corner."""

    def __init__(self, document: Document, corner: int, pressed: QPointF, px_per_mm: float) -> None:
        super().__init__(document, pressed, px_per_mm)
        self._corner = corner
        self._origin: Point = document.room.corners_mm[corner]

    def move(self, position: QPointF, *, square: bool, step_mm: float) -> None:
        """The corner to the nearest step; ``square`` takes its neighbours along."""
        way = self._way_mm(position)
        if way is None:
            return
        target = (stepped(self._origin[0] + way[0], step_mm), stepped(self._origin[1] + way[1], step_mm))
        self._document.preview_edit(lambda room: move_corner(room, self._corner, target, square=square))

    def finish(self) -> None:
        self._document.finish(tr("Move corner"))


class WallDrag(_PlanDrag):
    """Dragging a wall out of the room or into it."""

    def __init__(self, document: Document, wall: int, pressed: QPointF, px_per_mm: float) -> None:
        super().__init__(document, pressed, px_per_mm)
        self._wall, self._out = wall, outwards(document.room, wall)

    def move(self, position: QPointF, *, square: bool, step_mm: float) -> None:  # noqa: ARG002 - a wall stays parallel either way
        """The wall by whole steps; its neighbours keep their direction."""
        way = self._way_mm(position)
        if way is None:
            return
        out_mm = stepped(way[0] * self._out[0] + way[1] * self._out[1], step_mm)
        self._document.preview_edit(lambda room: move_wall(room, self._wall, out_mm))

    def finish(self) -> None:
        self._document.finish(tr("Move wall {wall}", wall=wall_letter(self._wall)))


def outwards(room: Room, wall: int) -> Point:
    """The unit step out of the room, square to a wall."""
    (x0, y0), (x1, y1) = room.wall_ends_mm(wall)
    length = room.wall_length_mm(wall)
    return -(y1 - y0) / length, (x1 - x0) / length


def stepped(mm: float, step_mm: float) -> float:
    """The nearest whole number of steps."""
    return round(mm / step_mm) * step_mm
