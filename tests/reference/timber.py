"""Mounting points read a second time from docs/set-out.md, and whether timber stands behind them.

Choices where the page is silent: "at most 2 pitches" and "as many layers" count the cells' numbers apart. Plate and cap layers
count as layers there. The lines next to a corner stay barred where the clearance is waived.
"""

from collections.abc import Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.room import Room
from core.setout.result import Timber, WallShell
from tests.reference.price import brick_courses
from tests.reference.strip import Piece, RowCells

UPRIGHTS = ("stud", "king stud", "trimmer")

Point = tuple[int, int]
"""Unrolled pitch line, layer of the row."""


@dataclass(frozen=True)
class MountRuleReader:
    """Where the pieces of one row are screwed through."""

    cells: RowCells

    def is_near_cut_out(self, piece: Piece) -> NDArray[np.bool_]:
        """Cells of the piece's bounding rectangle within the clearance of one it leaves out: shape (its layers, its width)."""
        own = np.zeros((piece.highest - piece.lowest, piece.right - piece.left), dtype=bool)
        for low, high, left, right in piece.runs:
            own[low - piece.lowest : high - piece.lowest, left - piece.left : right - piece.left] = True
        near = np.zeros_like(own)
        reach = self.cells.kit.mounts.clear_pitches
        for layer, pitch in np.argwhere(~own).tolist():
            near[max(0, layer - reach) : layer + reach + 1, max(0, pitch - reach) : pitch + reach + 1] = True
        return near

    def courses(self, piece: Piece) -> list[int]:
        """The layers its mounting points stand in."""
        bricks = brick_courses(self.cells, piece)
        wanted = self.cells.kit.mounts.course
        if not bricks:
            return []
        if len(bricks) < 2 * wanted:
            return [bricks[(len(bricks) - 1) // 2]]
        return [bricks[wanted - 1], bricks[-wanted]]

    def points(self, piece: Piece) -> list[Point]:
        """All its mounting points."""
        kept = self._points(piece, keeps_clear=True)
        return kept if len(kept) >= 2 else self._points(piece, keeps_clear=False)

    def _points(self, piece: Piece, *, keeps_clear: bool) -> list[Point]:
        return [(line, layer) for layer in self.courses(piece) for line in self._lines(piece, layer, keeps_clear)]

    def _lines(self, piece: Piece, layer: int, keeps_clear: bool) -> list[int]:
        inset = self.cells.kit.mounts.inset_pitches
        first = next((x for x in self._usable(piece, layer, keeps_clear) if x >= piece.left + inset), None)
        last = next((x for x in self._usable(piece, layer, keeps_clear, back=True) if x <= piece.right - inset), None)
        if first is None or last is None or last < first:
            return []
        return [first] if last - first < 2 else [first, last]

    def _usable(self, piece: Piece, layer: int, keeps_clear: bool, back: bool = False) -> Iterator[int]:
        near = self.is_near_cut_out(piece)[layer - piece.lowest]
        for left, right in piece.runs_of(layer)[:: -1 if back else 1]:
            for line in range(left + 1, right)[:: -1 if back else 1]:
                is_clear = not near[line - 1 - piece.left : line + 1 - piece.left].any()
                if (is_clear or not keeps_clear) and not self._is_in_corner(line):
                    yield line

    def _is_in_corner(self, line: int) -> bool:
        """True where the other wall's bricks, or its timber, leave no room for the screw."""
        reach = self.cells.kit.thickness_pitches
        return bool(self.cells.strip.corner_inside(line - reach - 1, line + reach + 1))


@dataclass(frozen=True)
class Landing:
    """Tells whether a mounting point on a standing frame has timber behind it."""

    room: Room
    walls: tuple[WallShell, ...]
    timber: tuple[Timber, ...]

    def wants_blocking(self, cells: RowCells, point: Point) -> bool:
        """True where the frame already stands and no member covers the hole with its edge distance."""
        line, layer = point
        wall = cells.strip.wall_at(line)
        if self.room.frame(wall).mode == "to_build":
            return False
        kit = self.room.kit
        start = cells.strip.starts[cells.strip.walls.index(wall)]
        x_mm = self.walls[wall].start_mm + (cells.strip.line(line) - start) * kit.pitch_mm
        middle = cells.row.z_plates + (cells.layers[layer].bottom + cells.layers[layer].top) / 2
        return not self.lands(wall, x_mm, middle * kit.plate_mm)

    def lands(self, wall: int, x_mm: float, z_mm: float) -> bool:
        """True where some member has the hole inside it, the edge distance away from its long edges."""
        return any(self._covers(member, x_mm, z_mm) for member in self._on(wall))

    def _on(self, wall: int) -> list[Timber]:
        return [member for member in self.timber if member.wall == wall]

    def _covers(self, member: Timber, x_mm: float, z_mm: float) -> bool:
        edge = self.room.kit.mounts.edge_mm - 1e-6
        across, along = (edge, -1e-6) if member.member in UPRIGHTS else (-1e-6, edge)
        inside_x = member.left_mm + across <= x_mm <= member.left_mm + member.width_mm - across
        inside_z = member.bottom_mm + along <= z_mm <= member.bottom_mm + member.height_mm - along
        return inside_x and inside_z
