"""The cost of every candidate on a strip, in whole units, without set-up; set-up prices are laid over it afterwards."""

from collections.abc import Callable, Iterator
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.kit import Kit
from core.setout.extent import PieceExtent
from core.setout.mounting import MountLines
from core.setout.strip import Strip
from core.setout.tariff import UNREACHABLE, Ints, MakeUp, PriceList, Tariff, make_up

Small = NDArray[np.uint8]
"""Counts and widths, kept small because many tables are kept."""

Backing = Callable[[int], NDArray[np.int64]]
"""For a course of the row: 1 for each pitch line of the strip with no timber behind it, shape (pitches + 1,)."""


@dataclass(frozen=True, slots=True)
class PlainUse:
    """Where in a table a plain piece stands: its make-up, its widths and the candidates it belongs to."""

    made: MakeUp
    rows: slice
    widths: Small
    applies: NDArray[np.bool_]

    def charge(self, prices: PriceList) -> Ints:
        """Set-up prices where the piece stands, 0 elsewhere."""
        return self.applies * prices.plain(self.made)[self.widths]


@dataclass(frozen=True)
class WallTable:
    """Costs of all flat candidates of one row on one wall.

    ``cost[x, k]`` is the candidate from pitch x that is ``least + k`` wide; UNREACHABLE where it leaves the wall.
    ``shaped`` counts its shaped pieces; ``plain_uses`` tell where plain pieces would owe a set-up.
    """

    cost: Ints
    shaped: Small
    plain_uses: tuple[PlainUse, ...]

    def priced(self, prices: PriceList) -> Ints:
        """The costs with set-up prices added, shape as ``cost``."""
        total = self.cost + self.shaped * np.int64(prices.each)
        for use in self.plain_uses:
            total[use.rows] += use.charge(prices)
        return total


@dataclass(frozen=True)
class CornerTable:
    """Costs of all corner candidates of one row at one corner: ``cost[i, j]`` for left leg i and right leg j."""

    cost: Ints
    shaped: Small
    plain_uses: tuple[PlainUse, ...]
    corner_uses: tuple[tuple[MakeUp, NDArray[np.bool_]], ...]

    def priced(self, prices: PriceList, legs: Ints, kind: str) -> Ints:
        """The costs with set-up prices added, shape (legs, legs); ``kind`` is that of the corner."""
        total = self.cost + self.shaped * np.int64(prices.each)
        for use in self.plain_uses:
            total += use.charge(prices)
        for made, applies in self.corner_uses:
            total += applies * prices.corner(made, legs, kind)
        return total


def wall_table(strip: Strip, tariff: Tariff, backing: Backing | None) -> WallTable:
    """Cost every flat candidate of a wall's strip (which starts at pitch 0)."""
    kit = tariff.kit
    widths = np.arange(kit.least_width_pitches, kit.full_width + 1, dtype=np.int64)
    cost = np.full((strip.right, len(widths)), UNREACHABLE, dtype=np.int64)
    shaped = np.zeros(cost.shape, dtype=np.uint8)
    uses: list[PlainUse] = []
    lines = MountLines(strip, kit, backing)
    for part in _parts(strip, kit):
        rows, applies = part.rows, part.applies
        block = _block(strip, tariff, lines, part.span, part.starts, part.ends)
        cost[rows] = np.where(applies, block.cost, cost[rows])
        shaped[rows] += applies * np.uint8(block.shaped)
        uses += [PlainUse(made, rows, size, applies) for made, size in block.plain_widths]
    return WallTable(cost, shaped, tuple(uses))


@dataclass(frozen=True, slots=True)
class _Part:
    """The candidates of a table that begin in one segment and end in another.

    ``applies`` tells which of ``rows`` by width they are; elsewhere ``ends`` are clipped to the last segment.
    """

    span: tuple[int, int]
    rows: slice
    starts: Ints
    ends: Ints
    applies: NDArray[np.bool_]


def _parts(strip: Strip, kit: Kit) -> Iterator[_Part]:
    widths = np.arange(kit.least_width_pitches, kit.full_width + 1, dtype=np.int64)
    for i, first in enumerate(strip.segments):
        for j in range(i, len(strip.segments)):
            last = strip.segments[j]
            begin = max(first.left, last.left + 1 - kit.full_width)
            if begin >= first.right:
                break
            starts = np.arange(begin, first.right, dtype=np.int64)[:, None]
            ends = starts + widths
            applies = (ends > last.left) & (ends <= last.right)
            clipped = np.minimum(np.maximum(ends, last.left + 1), last.right)
            yield _Part((i, j), slice(begin, first.right), starts, clipped, applies)


@dataclass(frozen=True, slots=True)
class HoleUse:
    """The holes that candidates of a strip have in one course, one on the left and one on the right, shape (rows, widths) each.

    They are given by pitch line; one line past the strip's last stands for no hole.
    """

    course: int
    rows: slice
    left: NDArray[np.intp]
    right: NDArray[np.intp]

    def missing(self, bare: Ints) -> Ints:
        """How many of them have no timber behind them; ``bare`` is 1 for each pitch line of the strip that has none, and at its
        end 0 for no hole."""
        return bare.take(self.left, mode="clip") + bare.take(self.right, mode="clip")


def hole_uses(strip: Strip, kit: Kit) -> tuple[HoleUse, ...]:
    """Where the flat candidates of a strip (which starts at pitch 0) are screwed, whatever is behind it."""
    lines = MountLines(strip, kit, None)
    found = []
    for part in _parts(strip, kit):
        for piece in strip.pieces(*part.span):
            extent = PieceExtent(strip, piece, part.span, part.starts, part.ends)
            for course, left, right, has_left, has_right in lines.points(extent):
                sides = ((left, has_left), (right, has_right))
                at_left, at_right = (np.where(has & part.applies, line, strip.right + 1).astype(np.intp) for line, has in sides)
                found.append(HoleUse(course, part.rows, at_left, at_right))
    return tuple(found)


def corner_table(strip: Strip, tariff: Tariff, legs: Ints, backing: Backing | None) -> CornerTable:
    """Cost every corner candidate; the strip holds the corner at pitch 0 and ends where a wall does."""
    shape = (len(legs), len(legs))
    cost = np.full(shape, UNREACHABLE, dtype=np.int64)
    shaped = np.zeros(shape, dtype=np.uint8)
    plain_uses: list[PlainUse] = []
    corner_uses: list[tuple[MakeUp, NDArray[np.bool_]]] = []
    starts, ends = -legs[:, None], legs[None, :]
    lines = MountLines(strip, tariff.kit, backing)
    for i, first in enumerate(strip.segments):
        for j in range(i + 1, len(strip.segments)):
            last = strip.segments[j]
            if first.right > 0 or last.left < 0:
                continue
            applies = (starts >= first.left) & (starts < first.right) & (ends > last.left) & (ends <= last.right)
            block = _block(
                strip,
                tariff,
                lines,
                (i, j),
                np.minimum(np.maximum(starts, first.left), first.right - 1),
                np.minimum(np.maximum(ends, last.left + 1), last.right),
            )
            cost = np.where(applies, block.cost, cost)
            shaped = np.where(applies, np.uint8(block.shaped), shaped)
            plain_uses += [PlainUse(made, slice(None), size, applies) for made, size in block.plain_widths]
            corner_uses += [(made, applies) for made in block.plain_corners]
    return CornerTable(cost, shaped, tuple(plain_uses), tuple(corner_uses))


@dataclass(slots=True)
class _Block:
    """Costs of the candidates that begin in one segment and end in another."""

    cost: Ints
    shaped: int
    plain_widths: list[tuple[MakeUp, Small]]
    plain_corners: list[MakeUp]


def _block(strip: Strip, tariff: Tariff, lines: MountLines, span: tuple[int, int], starts: Ints, ends: Ints) -> _Block:
    block = _Block(np.zeros(np.broadcast_shapes(starts.shape, ends.shape), dtype=np.int64), 0, [], [])
    for piece in strip.pieces(*span):
        extent = PieceExtent(strip, piece, span, starts, ends)
        block.cost = block.cost + piece_cost(extent, tariff) + tariff.blocking * lines.missing(extent)
        made = make_up(strip.layers, piece.low, piece.high)
        if not piece.is_rectangle:
            block.shaped += 1
        elif extent.is_corner:
            block.plain_corners.append(made)
        else:
            block.plain_widths.append((made, np.minimum(extent.width, tariff.kit.full_width).astype(np.uint8)))
    return block


def build_rate(tariff: Tariff, extent: PieceExtent) -> int:
    """Units per pitch-plate to build this piece."""
    if extent.is_corner:
        return tariff.build_corner if extent.piece.is_rectangle else tariff.build_shaped_corner
    return tariff.build_plain if extent.piece.is_rectangle else tariff.build_shaped


def piece_cost(extent: PieceExtent, tariff: Tariff) -> Ints:
    """Build, handling, sliver and weak of a piece, plus one unit so that fewer panels win among equals."""
    cost: Ints = (
        extent.area * build_rate(tariff, extent)
        + tariff.handling
        + 1
        + tariff.sliver * extent.is_sliver(tariff.kit.half_width)
        + tariff.weak * extent.is_weak
    )
    return cost
