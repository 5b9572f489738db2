"""Which openings take something from a panel's place, and with which of their edges."""

from dataclasses import dataclass, replace
from typing import Literal

from core.room import Opening
from core.setout.layers import blocks_in_row, holes_of, layers_of
from core.setout.result import Panel, SetOut
from core.setout.shell import shell_of

Edge = Literal["left edge", "right edge", "sill", "head"]


@dataclass(frozen=True, slots=True)
class Spread:
    """A rectangle on a wall's grid: pitches from left to right, plates from bottom to top."""

    left: int
    right: int
    bottom: int
    top: int

    def meets(self, other: "Spread") -> bool:
        """Whether the two share more than an edge."""
        across = self.left < other.right and other.left < self.right
        return across and self.bottom < other.top and other.bottom < self.top


@dataclass(frozen=True, slots=True)
class Cut:
    """An opening and the cells of the panel's row that it blocks, on one of the panel's walls."""

    opening: Opening
    blocked: Spread
    edges: tuple[Edge, ...]
    """The opening's edges that run inside the panel's own rectangle; none where it only stands beside, above or below."""


def spread_of(panel: Panel, wall: int) -> Spread:
    """The rectangle round a panel's faces on a wall."""
    faces = [face for face in panel.faces if face.wall == wall]
    return Spread(
        min(face.left for face in faces),
        max(face.right for face in faces),
        min(face.bottom for face in faces),
        max(face.top for face in faces),
    )


def cuts_of(setout: SetOut, panel: Panel) -> tuple[Cut, ...]:
    """The openings that cut into a panel's rectangle; around a corner that is as high on both walls."""
    found = []
    bottom, top = min(face.bottom for face in panel.faces), max(face.top for face in panel.faces)
    for wall in dict.fromkeys(face.wall for face in panel.faces):
        mine = replace(spread_of(panel, wall), bottom=bottom, top=top)
        found += [
            Cut(opening, blocked, _edges_inside(blocked, mine))
            for opening, blocked in blocked_in_row(setout, wall, panel.row)
            if blocked.meets(mine)
        ]
    return tuple(found)


def bounds_of(setout: SetOut, panel: Panel) -> tuple[tuple[Opening, Literal["under", "over"]], ...]:
    """The openings under or over which a panel ends before its row does."""
    found: list[tuple[Opening, Literal["under", "over"]]] = []
    row = setout.rows[panel.row]
    for wall in dict.fromkeys(face.wall for face in panel.faces):
        mine = spread_of(panel, wall)
        for opening, blocked in blocked_in_row(setout, wall, panel.row):
            is_across = blocked.left < mine.right and mine.left < blocked.right
            if is_across and blocked.bottom == mine.top < row.z_plates + row.height_plates:
                found.append((opening, "under"))
            elif is_across and blocked.top == mine.bottom > row.z_plates:
                found.append((opening, "over"))
    return tuple(found)


def blocked_in_row(setout: SetOut, wall: int, row_number: int) -> list[tuple[Opening, Spread]]:
    """Every opening of a wall that blocks cells of a row, with those cells."""
    room, row = setout.room, setout.rows[row_number]
    layers = layers_of(room.kit.plates_per_course, row.courses)
    openings = [opening for opening in room.openings if opening.wall == wall]
    found = []
    for opening, hole in zip(openings, holes_of(room, shell_of(room), wall), strict=True):
        for block in blocks_in_row((hole,), row, layers):
            bottom, top = (row.z_plates + layers.edges[layer] for layer in (block.low, block.high))
            found.append((opening, Spread(block.left, block.right, bottom, top)))
    return found


def _edges_inside(blocked: Spread, mine: Spread) -> tuple[Edge, ...]:
    inside: list[tuple[Edge, bool]] = [
        ("left edge", mine.left < blocked.left < mine.right),
        ("right edge", mine.left < blocked.right < mine.right),
        ("sill", mine.bottom < blocked.bottom < mine.top),
        ("head", mine.bottom < blocked.top < mine.top),
    ]
    return tuple(edge for edge, is_inside in inside if is_inside)
