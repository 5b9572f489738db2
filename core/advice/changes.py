"""A change that could be made: where an opening would go, what it would measure, how long a wall would be."""

from dataclasses import dataclass
from typing import Literal

from core import edits
from core.room import Opening, Room

Way = Literal[
    "left",
    "right",
    "up",
    "down",
    "left edge left",
    "left edge right",
    "right edge left",
    "right edge right",
    "sill down",
    "sill up",
    "head down",
    "head up",
    "narrower",
    "wider",
]
"""What moves and where to: the whole opening, one edge of it, or both upright ones (narrower, wider)."""

SIDEWAYS: frozenset[Way] = frozenset({"left", "right"})
MOVES: frozenset[Way] = SIDEWAYS | {"up", "down"}


@dataclass(frozen=True, slots=True)
class Box:
    """An opening's place and size on its wall, in wall-local millimetres."""

    left_mm: float
    sill_mm: float
    width_mm: float
    height_mm: float

    @classmethod
    def of(cls, opening: Opening) -> "Box":
        """Where an opening is now."""
        return cls(opening.left_mm, opening.sill_mm, opening.width_mm, opening.height_mm)


@dataclass(frozen=True, slots=True)
class OpeningChange:
    """An opening moved, or with an edge moved, by ``distance_mm`` (both edges together where both move)."""

    opening: str
    way: Way
    distance_mm: float
    box: Box

    def applied(self, room: Room) -> Room:
        """The room with the opening there. Raises RoomError where it does not fit."""
        box = self.box
        return edits.resize_opening(
            room,
            self.opening,
            left_mm=box.left_mm,
            sill_mm=box.sill_mm,
            width_mm=box.width_mm,
            height_mm=box.height_mm,
        )


@dataclass(frozen=True, slots=True)
class LengthChange:
    """A frame still to be built, made ``distance_mm`` longer or shorter."""

    wall: int
    length_mm: float
    distance_mm: float
    way: Literal["longer", "shorter"]

    def applied(self, room: Room) -> Room:
        """The room with the wall that long. Raises RoomError where the rest of the room cannot follow."""
        return edits.set_wall_length(room, self.wall, self.length_mm)


Change = OpeningChange | LengthChange
