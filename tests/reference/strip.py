"""A second reading of docs/set-out.md: the walls unrolled into strips, each row of a strip as cells of pitch by layer.

Written from the page alone, so that it can disagree with the solver. Of ``core.setout`` only the frozen result is shared.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from functools import cached_property
from itertools import pairwise
from typing import Literal

import numpy as np
from numpy.typing import NDArray

from core.kit import Kit
from core.room import Room
from core.setout.result import CornerKind, Row, WallShell

LayerKind = Literal["brick", "plate", "cap"]
TOUCH_MM = 1e-6
"""Openings that overlap a cell by less than this only touch it."""


@dataclass(frozen=True)
class Strip:
    """Walls joined by square corners, side by side. Lines are whole pitches from the strip's left end."""

    walls: tuple[int, ...]
    starts: tuple[int, ...]
    """Strip line at which each wall begins."""
    length: int
    closed: bool
    corners: dict[int, CornerKind]
    """Strip line of every square corner, 0 up to below length where closed, and whether it is inside or outside."""

    def line(self, line: int) -> int:
        """The same line within one turn."""
        return line % self.length if self.closed else line

    def wall_at(self, pitch: int) -> int:
        """The wall that holds a pitch, given by its left line."""
        return self.walls[int(np.searchsorted(self.starts, self.line(pitch), side="right")) - 1]

    def corner_inside(self, left: int, right: int) -> list[int]:
        """Unrolled lines of the corners strictly between two lines."""
        turns = (0, self.length) if self.closed else (0,)
        return sorted(line + turn for line in self.corners for turn in turns if left < line + turn < right)


def strips(walls: tuple[WallShell, ...]) -> list[Strip]:
    """Every chain of walls between free ends, or the one closed chain."""
    heads = [w.wall for w in walls if w.left == "free"]
    chains = []
    for head in heads or [0]:
        chain = [head]
        while walls[chain[-1]].right != "free" and (chain[-1] + 1) % len(walls) != head:
            chain.append((chain[-1] + 1) % len(walls))
        chains.append(chain)
    return [_strip(walls, chain, closed=not heads) for chain in chains]


def _strip(walls: tuple[WallShell, ...], chain: list[int], closed: bool) -> Strip:
    starts: list[int] = []
    corners: dict[int, CornerKind] = {}
    line = 0
    for place, wall in enumerate(chain):
        starts.append(line)
        if place or closed:
            corners[line] = walls[wall].left
        line += walls[wall].pitches
    return Strip(tuple(chain), tuple(starts), line, closed, corners)


@dataclass(frozen=True)
class Layer:
    """One layer of a row, in plates above the row's foot."""

    bottom: int
    top: int
    kind: LayerKind


def layers(kit: Kit, row: Row) -> tuple[Layer, ...]:
    """A row's layers from the bottom: brick courses, the plate course, the cap course."""
    high = kit.plates_per_course
    bricks = [Layer(high * i, high * (i + 1), "brick") for i in range(row.courses)]
    head = high * row.courses
    return (*bricks, Layer(head, head + 1, "plate"), Layer(head + 1, head + 2, "cap"))


Run = tuple[int, int, int, int]
"""First layer, layer after the last, left line, right line (unrolled)."""


@dataclass(frozen=True)
class Piece:
    """Connected cells, as maximal runs; ``corner`` is the corner line of the candidate it was cut from, if it had one."""

    runs: tuple[Run, ...]
    corner: int | None

    @property
    def left(self) -> int:
        return min(run[2] for run in self.runs)

    @property
    def right(self) -> int:
        return max(run[3] for run in self.runs)

    @property
    def lowest(self) -> int:
        return min(run[0] for run in self.runs)

    @property
    def highest(self) -> int:
        """The layer after the topmost."""
        return max(run[1] for run in self.runs)

    @property
    def wraps(self) -> bool:
        """True where it has cells on both walls."""
        return self.corner is not None and self.left < self.corner < self.right

    @property
    def is_rectangle(self) -> bool:
        return len({run[2:] for run in self.runs}) == 1

    def runs_of(self, layer: int) -> list[tuple[int, int]]:
        """Left and right lines of its runs in one layer, from the left."""
        return sorted((left, right) for low, high, left, right in self.runs if low <= layer < high)


@dataclass(frozen=True)
class RowCells:
    """One row of one strip: which cells are left when the openings are taken away."""

    kit: Kit
    strip: Strip
    row: Row
    layers: tuple[Layer, ...]
    free: NDArray[np.bool_]
    """Shape (layers, strip length)."""

    @cached_property
    def bands(self) -> list[tuple[int, int]]:
        """Ranges of layers with the same free pitches."""
        changes = np.flatnonzero(np.any(self.free[1:] != self.free[:-1], axis=1)) + 1
        edges = [0, *changes.tolist(), len(self.layers)]
        return list(pairwise(edges))

    @cached_property
    def breaks(self) -> list[int]:
        """Unrolled lines, over two turns, with different cells to the left and right."""
        before = np.roll(self.free, 1, axis=1)
        lines = np.flatnonzero(np.any(self.free != before, axis=0)).tolist()
        return [*lines, *(line + self.strip.length for line in lines)] if self.strip.closed else lines

    @cached_property
    def columns(self) -> list[tuple[bool, ...]]:
        """Per pitch: which bands are free."""
        lows = [low for low, _ in self.bands]
        return [tuple(column) for column in self.free[lows].T.tolist()]

    def profile(self, left: int, right: int) -> tuple[list[int], list[tuple[bool, ...]]]:
        """The interval's segments of equal columns: their edge lines and, per segment, which bands are free."""
        edges = [left, *(line for line in self.breaks if left < line < right), right]
        return edges, [self.columns[self.strip.line(edge)] for edge in edges[:-1]]

    def pieces(self, left: int, right: int, corner: int | None) -> list[Piece]:
        """What is left of the interval, divided by shared cell sides; empty where all of it is blocked."""
        edges, columns = self.profile(left, right)
        unseen = {(band, place) for place, column in enumerate(columns) for band, is_free in enumerate(column) if is_free}
        found = []
        while unseen:
            found.append(self._piece(_flood(unseen), edges, corner))
        return sorted(found, key=lambda piece: piece.runs)

    def _piece(self, cells: set[tuple[int, int]], edges: list[int], corner: int | None) -> Piece:
        runs = []
        for band, (low, high) in enumerate(self.bands):
            places = sorted(place for b, place in cells if b == band)
            runs += [(low, high, edges[first], edges[last + 1]) for first, last in _stretches(places)]
        return Piece(tuple(sorted(runs)), corner)


def _flood(unseen: set[tuple[int, int]]) -> set[tuple[int, int]]:
    """Takes one connected set of cells out of ``unseen`` and returns it."""
    found = set()
    todo = [unseen.pop()]
    while todo:
        band, place = todo.pop()
        found.add((band, place))
        for near in ((band + 1, place), (band - 1, place), (band, place + 1), (band, place - 1)):
            if near in unseen:
                unseen.remove(near)
                todo.append(near)
    return found


def _stretches(places: Iterable[int]) -> list[tuple[int, int]]:
    """First and last of every unbroken stretch of whole numbers, given in rising order."""
    found: list[tuple[int, int]] = []
    for place in places:
        if found and found[-1][1] == place - 1:
            found[-1] = (found[-1][0], place)
        else:
            found.append((place, place))
    return found


def row_cells(room: Room, walls: tuple[WallShell, ...], strip: Strip, row: Row) -> RowCells:
    """The row's cells that no opening on the strip's walls overlaps by any amount."""
    built = layers(room.kit, row)
    free = np.ones((len(built), strip.length), dtype=bool)
    for wall, start in zip(strip.walls, strip.starts, strict=True):
        block = free[:, start : start + walls[wall].pitches]
        for opening in room.openings:
            if opening.wall == wall:
                pitches = _overlapped_pitches(room.kit, walls[wall], opening.left_mm, opening.right_mm)
                for index, layer in enumerate(built):
                    bottom_mm = (row.z_plates + layer.bottom) * room.kit.plate_mm
                    top_mm = (row.z_plates + layer.top) * room.kit.plate_mm
                    if min(top_mm, opening.head_mm) - max(bottom_mm, opening.sill_mm) > TOUCH_MM:
                        block[index, pitches] = False
    return RowCells(room.kit, strip, row, built, free)


def _overlapped_pitches(kit: Kit, wall: WallShell, left_mm: float, right_mm: float) -> list[int]:
    found = []
    for pitch in range(wall.pitches):
        pitch_left_mm = wall.start_mm + pitch * kit.pitch_mm
        if min(right_mm, pitch_left_mm + kit.pitch_mm) - max(left_mm, pitch_left_mm) > TOUCH_MM:
            found.append(pitch)
    return found
