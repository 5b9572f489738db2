"""What set-out works out once and keeps: tables, zones, fillings and bodies for one kit and one set of rates.

Everything here is a pure function of its key; forgetting it changes nothing but the time taken.
"""

from collections.abc import Hashable, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import count
from typing import NamedTuple

import numpy as np

from core.kit import Kit, Rates
from core.setout.bodies import Body, Candidate, bodies_of
from core.setout.chain import Leaf
from core.setout.costs import Backing, CornerTable, WallTable, corner_table, wall_table
from core.setout.fillings import Filling, OpenFilling, OpenRuns, WholeFilling, Zone, ZonedFilling, within_run
from core.setout.held import NOTHING_HELD, Held
from core.setout.kept import Kept
from core.setout.layers import Block, Layers
from core.setout.paths import FREE_END, WallPaths, legs_of
from core.setout.rows import Stacking
from core.setout.strip import strip_of
from core.setout.tariff import UNREACHABLE, Ints, PriceList, Prices, tariff_of

RUN_STEP = 512

MOST_SUMMED = int(UNREACHABLE)
"""What UNREACHABLE may come to when it is summed over rows, so that such a sum can still be added to another."""


class Workshop:
    """All kept work for one kit and its rates.

    Limits grow with the room, so that all of it fits several times over and a long session stays within some tens of
    megabytes.
    """

    def __init__(self, kit: Kit, rates: Rates) -> None:
        self.kit = kit
        self.tariff = tariff_of(kit, rates)
        self.legs = legs_of(kit.least_width_pitches, kit.full_width)
        self._tables = Kept(160)
        self._runs = Kept(300)
        self._fillings = Kept(600)
        self._paths = Kept(64)
        """Few: one takes some 200 kB, and is asked for twice soon after one another, if ever again."""
        self._corners = Kept(600)
        self._bodies = Kept(4_000)
        self._serials = count()
        self.products = Kept(1_200)
        self.bounds = Kept(12)
        self.ways = Kept(4_000)
        self.looked_at: dict[tuple[Stacking, Prices, int], list[tuple[int, int]]] = {}
        self.rows = Kept(2_000)
        self.walls = Kept(2_500)

    def make_room_for(self, walls: int) -> None:
        """Keep enough for a room of so many walls: per wall, a few heights of rows at a few prices, before and after a change."""
        self._fillings.allow(60 * walls)
        self._corners.allow(60 * walls)
        self.products.allow(120 * walls)
        self.walls.allow(400 * walls)

    def next_serial(self) -> int:
        """A number nothing else in this workshop has."""
        return next(self._serials)

    def summed(self, leaves: Sequence[Leaf], times: Sequence[int]) -> Leaf:
        """The sum of cost matrices, each taken so many times."""

        def make() -> Leaf:
            far = MOST_SUMMED // sum(times)
            total = sum(n * np.minimum(leaf.costs, far) for n, leaf in zip(times, leaves, strict=True))
            return Leaf(self.next_serial(), np.asarray(total))

        return self.products.get(("sum", *(leaf.serial for leaf in leaves), *times), make)

    def bodies(self, candidate: Candidate) -> tuple[Body, ...]:
        """The panels a candidate leaves."""
        return self._bodies.get(candidate, lambda: bodies_of(candidate, self.tariff))

    def corner(self, at: "RowAtCorner", prices: Prices) -> Leaf:
        """Priced corner costs by (leg left of the corner, leg right of it)."""
        # Without designs set up for one kind of corner both kinds cost the same.
        kind = at.kind if prices.open_corner else ""

        def priced() -> Leaf:
            return Leaf(self.next_serial(), self.corner_table(at).priced(self.price_list(prices), self.legs, at.kind))

        return self._corners.get((at.key, kind, prices), priced)

    def corner_table(self, at: "RowAtCorner") -> CornerTable:
        """Corner costs before prices."""

        def table() -> CornerTable:
            strip = strip_of(at.layers, -at.reach[0], at.reach[1], at.blocks, corner=0)
            return corner_table(strip, self.tariff, self.legs, at.backing.look_up)

        return self._tables.get(at.key, table)

    def filling(self, on_wall: "RowOnWall", prices: Prices) -> "FilledWall":
        """The cheapest fillings of one row of one wall."""
        layers, pitches, free_ends, blocks, backing, held = on_wall
        key = ("wall", layers.courses, pitches, free_ends, blocks, backing.key, held, prices)
        left, right = (FREE_END if free else self.legs for free in free_ends)
        least = self.kit.least_width_pitches

        def paths() -> WallPaths:
            return self._paths.get(key, lambda: WallPaths(self.whole_wall(on_wall, prices)[None], least, left))

        def make() -> Filling:
            zones = None if backing.look_up or held.anything else _zones(blocks, pitches, free_ends, self.kit.full_width)
            if zones is None:
                return WholeFilling(paths, pitches, left, right, held)
            runs = self._open_runs(layers, pitches, prices)
            if not zones:
                return OpenFilling(runs, pitches, left, right)
            placed = [(group[0].left, self._zone(layers, group, prices)) for group in zones]
            return ZonedFilling(runs, placed, pitches, left, right)

        def numbered() -> FilledWall:
            filling = make()
            return FilledWall(filling, Leaf(self.next_serial(), filling.ends), {})

        return self._fillings.get(key, numbered)

    def priced_wall(self, on_wall: "RowOnWall", prices: Prices) -> Ints:
        """The priced costs of all flat candidates of one row of one wall, shape (pitches, widths)."""
        layers, pitches, free_ends, blocks, backing, held = on_wall
        zones = None if backing.look_up or held.anything else _zones(blocks, pitches, free_ends, self.kit.full_width)
        if zones is None or pitches <= self.kit.full_width:
            return self.whole_wall(on_wall, prices)
        by_width = self.wall_table(layers, self.kit.full_width, (), UNBACKED).priced(self.price_list(prices))[0]
        table = within_run(by_width, self.kit.least_width_pitches, pitches)
        margin = self.kit.full_width - 1
        for group in zones:
            zone, extent = self._zone_table(layers, group)
            begin = group[0].left - margin
            rows = zone.priced(self.price_list(prices))[max(0, -begin) : margin + extent]
            table[max(0, begin) : begin + margin + extent] = np.where(
                table[max(0, begin) : begin + margin + extent] >= UNREACHABLE, UNREACHABLE, rows
            )
        return table

    def whole_wall(self, on_wall: "RowOnWall", prices: Prices) -> Ints:
        """The priced costs of all flat candidates, each measured where it stands; what is held is barred."""
        layers, pitches, _, blocks, backing, held = on_wall
        costs = self.wall_table(layers, pitches, blocks, backing).priced(self.price_list(prices))
        return held.bar(costs, self.kit.least_width_pitches) if held.anything else costs

    def _zone_table(self, layers: Layers, group: tuple[Block, ...]) -> tuple[WallTable, int]:
        """Candidate costs around a group of blocks, a full width less one on either side; and the group's extent."""
        margin = self.kit.full_width - 1
        origin = group[0].left - margin
        extent = max(b.right for b in group) - group[0].left
        shifted = tuple(Block(b.left - origin, b.right - origin, b.low, b.high) for b in group)
        return self.wall_table(layers, extent + 2 * margin, shifted, UNBACKED), extent

    def price_list(self, prices: Prices) -> PriceList:
        """Prices laid out by size."""
        return self._tables.get(prices, lambda: PriceList(self.tariff, prices))

    def wall_table(self, layers: Layers, pitches: int, blocks: tuple[Block, ...], backing: "Backed") -> WallTable:
        """The costs of all flat candidates before prices, each measured where it stands."""
        key = ("table", layers.courses, pitches, blocks, backing.key)
        return self._tables.get(key, lambda: wall_table(strip_of(layers, 0, pitches, blocks), self.tariff, backing.look_up))

    def _open_runs(self, layers: Layers, pitches: int, prices: Prices) -> OpenRuns:
        longest = -(-pitches // RUN_STEP) * RUN_STEP
        least, full = self.kit.least_width_pitches, self.kit.full_width

        def make() -> OpenRuns:
            by_width = self.wall_table(layers, full, (), UNBACKED).priced(self.price_list(prices))[0]
            return OpenRuns(by_width, least, longest)

        return self._runs.get(("runs", layers.courses, longest, prices), make)

    def _zone(self, layers: Layers, group: tuple[Block, ...], prices: Prices) -> Zone:
        """The zone of a group of blocks, whichever place they have on the wall."""
        margin = self.kit.full_width - 1
        extent = max(b.right for b in group) - group[0].left

        def make() -> Zone:
            return Zone(
                lambda: self._zone_table(layers, group)[0].priced(self.price_list(prices)),
                self.kit.least_width_pitches,
                margin,
                extent,
            )

        shape = tuple(Block(b.left - group[0].left, b.right - group[0].left, b.low, b.high) for b in group)
        return self._runs.get(("zone", layers.courses, shape, prices), make)


@dataclass(frozen=True, slots=True)
class FilledWall:
    """A filling and its costs as a leaf of the row's chain."""

    filling: Filling
    leaf: Leaf
    _joints: dict[tuple[int, int], tuple[int, ...]]

    def joints(self, left: int, right: int) -> tuple[int, ...]:
        """The joints of one cheapest filling for leg indices ``left`` and ``right``."""
        if (left, right) not in self._joints:
            self._joints[left, right] = tuple(self.filling.joints(left, right))
        return self._joints[left, right]


class Backed:
    """Which lines have no timber behind them, with a key that says whether two walls are alike in it."""

    __slots__ = ("key", "look_up")

    def __init__(self, key: Hashable, look_up: Backing | None) -> None:
        self.key = key
        self.look_up = look_up


UNBACKED = Backed(None, None)


class RowOnWall(NamedTuple):
    """One row on one wall: its layers, the wall's pitches and whether its ends are free; what is blocked, bare and held there."""

    layers: Layers
    pitches: int
    free_ends: tuple[bool, bool]
    blocks: tuple[Block, ...]
    backing: Backed
    held: Held = NOTHING_HELD

    @property
    def key(self) -> Hashable:
        """Equal where the costs of all flat candidates are."""
        return self.layers.courses, self.pitches, self.free_ends, self.blocks, self.backing.key, self.held


class RowAtCorner(NamedTuple):
    """One row around one corner: its layers, the corner's kind, how far legs reach, what is blocked and what is bare there."""

    layers: Layers
    kind: str
    reach: tuple[int, int]
    blocks: tuple[Block, ...]
    backing: Backed

    @property
    def key(self) -> Hashable:
        """Equal where the costs of all corner candidates are."""
        return "corner", self.layers.courses, self.reach, self.blocks, self.backing.key


def _zones(blocks: tuple[Block, ...], pitches: int, free_ends: tuple[bool, bool], full: int) -> list[tuple[Block, ...]] | None:
    """Blocks in groups further apart than any candidate is wide; None where legs or the wall's end come too near."""
    groups: list[list[Block]] = []
    reach = 0
    for block in blocks:
        if groups and block.left - reach < full:
            groups[-1].append(block)
        else:
            groups.append([block])
            reach = 0
        reach = max(reach, block.right)
    if groups:
        near_left = groups[0][0].left < full and not free_ends[0]
        near_right = pitches - max(b.right for b in groups[-1]) < full and not free_ends[1]
        if near_left or near_right:
            return None
    return [tuple(group) for group in groups]


@lru_cache(maxsize=8)
def workshop_for(kit: Kit, rates: Rates) -> Workshop:
    """The workshop of a kit and its rates; the few last used are kept."""
    return Workshop(kit, rates)
