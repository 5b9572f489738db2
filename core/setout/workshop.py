"""What set-out works out once and keeps: tables, zones, fillings and bodies for one kit and one set of rates.

Everything here is a pure function of its key; forgetting it changes nothing but the time taken.
"""

from collections import OrderedDict
from collections.abc import Callable, Hashable
from functools import lru_cache
from typing import TypeVar, cast

import numpy as np

from core.kit import Kit, Rates
from core.setout.bodies import Body, Candidate, bodies_of
from core.setout.costs import Backing, CornerTable, WallTable, corner_table, wall_table
from core.setout.fillings import Filling, OpenFilling, OpenRuns, WholeFilling, Zone, ZonedFilling
from core.setout.layers import Block, Layers
from core.setout.paths import FREE_END, WallPaths, legs_of
from core.setout.strip import strip_of
from core.setout.tariff import Ints, Prices, tariff_of

T = TypeVar("T")

KEPT = 20_000
RUN_STEP = 512


class Kept:
    """A bounded memory of results; the longest unused go first."""

    def __init__(self, most: int = KEPT) -> None:
        self._most = most
        self._held: OrderedDict[Hashable, object] = OrderedDict()

    def get(self, key: Hashable, make: Callable[[], T]) -> T:
        """The result kept under ``key``, made now if it is not there."""
        if key in self._held:
            self._held.move_to_end(key)
            return cast(T, self._held[key])
        made = make()
        self._held[key] = made
        if len(self._held) > self._most:
            self._held.popitem(last=False)
        return made


class Workshop:
    """All kept work for one kit and its rates."""

    def __init__(self, kit: Kit, rates: Rates) -> None:
        self.kit = kit
        self.tariff = tariff_of(kit, rates)
        self.legs = legs_of(kit.least_width_pitches, kit.full_width)
        self._tables = Kept(400)
        self._fillings = Kept(4_000)
        self._bodies = Kept(20_000)
        self.plans = Kept(600)

    def bodies(self, candidate: Candidate) -> tuple[Body, ...]:
        """The panels a candidate leaves."""
        return self._bodies.get(candidate, lambda: bodies_of(candidate, self.tariff))

    def corner(
        self, layers: Layers, kind: str, reach: tuple[int, int], blocks: tuple[Block, ...], prices: Prices, backing: "Backed"
    ) -> Ints:
        """Priced corner costs by (leg left of the corner, leg right of it)."""
        table_key = ("corner", layers, kind, reach, blocks, backing.key)

        def table() -> CornerTable:
            strip = strip_of(layers, -reach[0], reach[1], blocks, corner=0)
            return corner_table(strip, self.tariff, kind, self.legs, backing.look_up)

        return self._fillings.get((table_key, prices.key), lambda: self._tables.get(table_key, table).priced(prices, self.legs))

    def filling(
        self,
        layers: Layers,
        pitches: int,
        free_ends: tuple[bool, bool],
        blocks: tuple[Block, ...],
        prices: Prices,
        backing: "Backed",
    ) -> Filling:
        """The cheapest fillings of one row of one wall."""
        key = ("wall", layers, pitches, free_ends, blocks, backing.key, prices.key)
        left, right = (FREE_END if free else self.legs for free in free_ends)

        def make() -> Filling:
            zones = None if backing.look_up else _zones(blocks, pitches, free_ends, self.kit.full_width)
            if zones is None:
                tables = self._wall_table(layers, pitches, blocks, backing).priced(prices)
                return WholeFilling(WallPaths(tables[None], self.kit.least_width_pitches, left), left, right)
            runs = self._open_runs(layers, pitches, prices)
            if not zones:
                return OpenFilling(runs, pitches, left, right)
            placed = [(group[0].left, self._zone(layers, group, prices)) for group in zones]
            return ZonedFilling(runs, placed, pitches, left, right)

        return self._fillings.get(key, make)

    def _wall_table(self, layers: Layers, pitches: int, blocks: tuple[Block, ...], backing: "Backed") -> WallTable:
        key = ("table", layers, pitches, blocks, backing.key)
        return self._tables.get(key, lambda: wall_table(strip_of(layers, 0, pitches, blocks), self.tariff, backing.look_up))

    def _open_runs(self, layers: Layers, pitches: int, prices: Prices) -> OpenRuns:
        longest = -(-pitches // RUN_STEP) * RUN_STEP
        least, full = self.kit.least_width_pitches, self.kit.full_width

        def make() -> OpenRuns:
            by_width = self._wall_table(layers, full, (), UNBACKED).priced(prices)[0]
            return OpenRuns(by_width, least, longest)

        return self._fillings.get(("runs", layers, longest, prices.key), make)

    def _zone(self, layers: Layers, group: tuple[Block, ...], prices: Prices) -> Zone:
        """The zone of a group of blocks, whichever place they have on the wall."""
        margin = self.kit.full_width - 1
        origin = group[0].left - margin
        extent = max(b.right for b in group) - group[0].left
        shifted = tuple(Block(b.left - origin, b.right - origin, b.low, b.high) for b in group)

        def make() -> Zone:
            tables = self._wall_table(layers, extent + 2 * margin, shifted, UNBACKED).priced(prices)
            entries = np.arange(margin + 1, dtype=np.int64)
            return Zone(WallPaths(tables[None], self.kit.least_width_pitches, entries), margin, extent)

        return self._fillings.get(("zone", layers, shifted, prices.key), make)


class Backed:
    """Which lines have no timber behind them, with a key that says whether two walls are alike in it."""

    __slots__ = ("key", "look_up")

    def __init__(self, key: Hashable, look_up: Backing | None) -> None:
        self.key = key
        self.look_up = look_up


UNBACKED = Backed(None, None)


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
