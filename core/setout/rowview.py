"""One row of the room as its division sees it: what is blocked, bare and held in it, and its cheapest fillings and legs."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from functools import cached_property

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view
from numpy.typing import NDArray

from core.setout.chain import ChainClosing, Leaf
from core.setout.held import Held
from core.setout.holding import held_in
from core.setout.layers import Block, Layers
from core.setout.paths import WallPaths
from core.setout.problem import Problem
from core.setout.result import Row
from core.setout.shell import Chain
from core.setout.tables import UNBACKED, Backed, RowAtCorner, RowOnWall
from core.setout.tariff import UNREACHABLE, Ints, Prices
from core.setout.workshop import FilledWall, Workshop

STRAY = 256
"""Units for a joint out of line: more than fewer panels may gain on a wall of up to so many panels, and never a minute."""

Joints = tuple[tuple[int, ...], ...]
"""Per wall, the pitch lines from the end of its left leg to the end of its right one."""


@dataclass(frozen=True)
class RowView:
    """A row of the room with everything its division depends on, looked up once."""

    problem: Problem
    workshop: Workshop
    row: Row
    shunned: tuple[tuple[int, ...], ...] = ()
    """By wall, the lines that joints are to keep off."""
    blocks: tuple[tuple[Block, ...], ...] = field(init=False)
    backed: tuple[Backed, ...] = field(init=False)
    held: tuple[Held, ...] = field(init=False)

    def __post_init__(self) -> None:
        walls = range(self.problem.room.wall_count)
        object.__setattr__(self, "blocks", self.problem.blocks(self.row))
        object.__setattr__(self, "backed", tuple(self._backed(w) for w in walls))
        held = held_in(self.problem, self.workshop, self.row)
        if self.shunned:
            held = tuple(one._replace(shunned=lines) for one, lines in zip(held, self.shunned, strict=True))
        object.__setattr__(self, "held", held)

    def _backed(self, wall: int) -> Backed:
        look_up = self.problem.wall_backing(wall, self.row)
        if look_up is None:
            return UNBACKED
        return Backed(self.problem.backing_key(wall, self.row, whole=not self.has_partial_blocks), look_up)

    @property
    def has_partial_blocks(self) -> bool:
        """Whether pieces of this row can be other than whole-height, and so be screwed through other courses."""
        count = self.layers.count
        return any(b.low > 0 or b.high < count for blocks in self.blocks for b in blocks)

    def blocked_pitches(self, wall: int) -> int:
        """How many pitches of a wall openings touch in this row."""
        return sum(block.right - block.left for block in self.blocks[wall])

    @property
    def layers(self) -> Layers:
        return self.problem.layers(self.row)

    @cached_property
    def key(self) -> tuple[object, ...]:
        """Rows with equal keys have the same cheapest divisions."""
        return (self.row.courses, self.blocks, tuple(b.key for b in self.backed), self.held)

    def on_wall(self, wall: int) -> RowOnWall:
        """The row on one wall."""
        shell = self.problem.shell.walls[wall]
        free_ends = shell.left == "free", shell.right == "free"
        return RowOnWall(self.layers, shell.pitches, free_ends, self.blocks[wall], self.backed[wall], self.held[wall])

    def filling(self, wall: int, prices: Prices) -> FilledWall:
        """The cheapest fillings of the row on one wall."""
        return self.workshop.filling(self.on_wall(wall), prices)

    def in_line(self, wall: int, ends: tuple[int, int], wanted: frozenset[int], prices: Prices) -> tuple[int, ...]:
        """The joints of one wall between given leg ends that cost least and, among equals, leave ``wanted`` least often.

        None at all where the wall cannot be filled between these ends.
        """
        key = "in line", self.on_wall(wall).key, (wall, self.problem.surroundings(wall)), ends, wanted, prices
        return self.workshop.walls.get(key, lambda: self._in_line(wall, ends, wanted, prices))

    def _in_line(self, wall: int, ends: tuple[int, int], wanted: frozenset[int], prices: Prices) -> tuple[int, ...]:
        paths = self.paths_in_line(wall, np.array(ends[:1]), wanted, prices)
        right_leg = self.problem.pitches(wall) - ends[1]
        is_filled = paths.ends(0, np.array([right_leg]))[0, 0] < UNREACHABLE
        return tuple(paths.joints(0, 0, right_leg)) if is_filled else ()

    def paths_in_line(self, wall: int, legs: Ints, wanted: frozenset[int], prices: Prices) -> WallPaths:
        """The cheapest fillings of one wall from given left legs; among equals those that leave ``wanted`` least often."""
        costs = self.workshop.tables.priced_wall(self.on_wall(wall), prices)
        pitches, widths = costs.shape
        least = self.problem.room.kit.least_width_pitches
        strays = np.full(pitches + widths + least, STRAY)
        strays[list(wanted)] = 0
        tables = (costs + sliding_window_view(strays[least:-1], widths))[None]
        # At the next step of a drag all that lies left of the opening is as it was.
        key = "paths in line", wall, self.row.courses, self.row.z_plates
        before = self.workshop.lines.known(key)
        paths = WallPaths(tables, least, legs, before if isinstance(before, WallPaths) else None)
        self.workshop.lines.put(key, paths)
        return paths

    def corner(self, wall: int, prices: Prices) -> Leaf:
        """Corner costs at a wall's left end."""
        return self.workshop.corner(self.at_corner(wall), prices)

    def at_corner(self, wall: int) -> RowAtCorner:
        """The row around the corner at a wall's left end."""
        before, reach = self.problem.before(wall), self.problem.corner_reach(wall)
        look_up = self.problem.corner_backing(wall, self.row)
        backing = UNBACKED
        if look_up is not None:
            backing = Backed((wall, reach, self.backed[before].key, self.backed[wall].key), look_up)
        kind = self.problem.shell.walls[wall].left
        return RowAtCorner(self.layers, kind, reach, self.corner_blocks(wall), backing)

    def corner_blocks(self, wall: int) -> tuple[Block, ...]:
        """Blocked cells around a wall's left corner, counted from the corner line, as far as legs reach."""
        return self._corner_blocks[wall]

    @cached_property
    def _corner_blocks(self) -> tuple[tuple[Block, ...], ...]:
        return tuple(self._around_corner(wall) for wall in range(len(self.blocks)))

    def _around_corner(self, wall: int) -> tuple[Block, ...]:
        before = self.problem.before(wall)
        if not self.blocks[before] and not self.blocks[wall]:
            return ()
        reach_left, reach_right = self.problem.corner_reach(wall)
        end = self.problem.pitches(before)
        left = [Block(max(b.left - end, -reach_left), b.right - end, b.low, b.high) for b in self.blocks[before]]
        right = [Block(b.left, min(b.right, reach_right), b.low, b.high) for b in self.blocks[wall]]
        return tuple(b for b in (*left, *right) if b.left < b.right)

    def closings(self, prices: Prices) -> tuple[ChainClosing, ...]:
        """Every chain of the row, ready to have its legs chosen."""
        return tuple(self._closing(chain, prices) for chain in self.problem.chains)

    def _closing(self, chain: Chain, prices: Prices) -> ChainClosing:
        return ChainClosing(
            [self.filling(w, prices).leaf for w in chain.walls],
            [self.corner(w, prices) for w in chain.walls[1:]],
            self.corner(chain.walls[0], prices) if chain.closed else None,
            self.workshop.products,
        )

    def cost(self, prices: Prices) -> int:
        """Units of the cheapest division at these prices."""
        return sum(closing.cost() for closing in self.closings(prices))

    def divide(self, prices: Prices) -> Joints:
        """The joints of one cheapest division."""
        legs: dict[int, tuple[int, int]] = {}
        for chain, closing in zip(self.problem.chains, self.closings(prices), strict=True):
            legs |= dict(zip(chain.walls, closing.legs().legs, strict=True))
        return self.joints_for(legs, prices)

    def seams(self, wall: int) -> NDArray[np.bool_]:
        """Whether a joint on a pitch line is seen: where one layer has cells on both sides, shape (pitches + 1,)."""
        free = np.ones((self.problem.pitches(wall), self.layers.count), dtype=bool)
        for block in self.blocks[wall]:
            free[block.left : block.right, block.low : block.high] = False
        seen = np.zeros(len(free) + 1, dtype=bool)
        seen[1:-1] = (free[1:] & free[:-1]).any(axis=1)
        return seen

    def joints_for(self, legs: Mapping[int, tuple[int, int]], prices: Prices) -> Joints:
        """The joints of one cheapest division with given legs, by wall as indices of the left and the right leg."""
        return tuple(self.filling(w, prices).joints(*legs[w]) for w in range(len(self.blocks)))
