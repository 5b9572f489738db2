"""What set-out works out once and keeps: tables, zones, fillings and bodies for one kit and one set of rates.

Everything here is a pure function of its key; forgetting it changes nothing but the time taken.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import count

import numpy as np

from core.kit import Kit, Rates
from core.setout.bodies import Body, Candidate, bodies_of
from core.setout.chain import Leaf
from core.setout.fillings import Filling, OpenFilling, OpenRuns, WholeFilling, Zone, ZonedFilling
from core.setout.kept import Kept
from core.setout.layers import Block, Layers
from core.setout.paths import FREE_END, WallPaths, legs_of
from core.setout.rows import Stacking
from core.setout.tables import RowAtCorner, RowOnWall, Tables, Zoned, groups_of
from core.setout.tariff import UNREACHABLE, Prices, tariff_of

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
        self.tables = Tables(kit, self.tariff, self.legs)
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
        self.lines = Kept(48)
        """The last paths along a wall in a row, some 100 kB each."""

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

    def corner(self, at: RowAtCorner, prices: Prices) -> Leaf:
        """Priced corner costs by (leg left of the corner, leg right of it)."""
        # Without designs set up for one kind of corner both kinds cost the same.
        kind = at.kind if prices.open_corner else ""

        def make() -> Leaf:
            priced = self.tables.corner(at).priced(self.tables.price_list(prices), self.legs, at.kind)
            return Leaf(self.next_serial(), priced)

        return self._corners.get((at.key, kind, prices), make)

    def filling(self, on_wall: RowOnWall, prices: Prices) -> "FilledWall":
        """The cheapest fillings of one row of one wall."""
        layers, pitches, free_ends, blocks, backing, held = on_wall
        key = ("wall", layers.courses, pitches, free_ends, blocks, backing.key, held, prices)
        left, right = (FREE_END if free else self.legs for free in free_ends)
        least = self.kit.least_width_pitches

        def paths() -> WallPaths:
            return self._paths.get(key, lambda: WallPaths(self.tables.whole_wall(on_wall, prices)[None], least, left))

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

    def _open_runs(self, layers: Layers, pitches: int, prices: Prices) -> OpenRuns:
        longest = -(-pitches // RUN_STEP) * RUN_STEP
        least = self.kit.least_width_pitches

        def make() -> OpenRuns:
            return OpenRuns(self.tables.open_run(layers, prices), least, longest)

        return self._runs.get(("runs", layers.courses, longest, prices), make)

    def _zone(self, layers: Layers, group: tuple[Block, ...], prices: Prices) -> Zone:
        """The zone of a group of blocks, whichever place they have on the wall."""
        zoned = Zoned(group, self.kit.full_width)
        margin = self.kit.full_width - 1

        def make() -> Zone:
            return Zone(
                lambda: self.tables.zone(layers, zoned).priced(self.tables.price_list(prices)),
                self.kit.least_width_pitches,
                margin,
                zoned.length - 2 * margin,
            )

        return self._runs.get(("zone", layers.courses, zoned.blocks, prices), make)


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


def _zones(blocks: tuple[Block, ...], pitches: int, free_ends: tuple[bool, bool], full: int) -> list[tuple[Block, ...]] | None:
    """Blocks in groups further apart than any candidate is wide; None where legs or the wall's end come too near."""
    groups = groups_of(blocks, full)
    if groups:
        near_left = groups[0][0].left < full and not free_ends[0]
        near_right = pitches - max(b.right for b in groups[-1]) < full and not free_ends[1]
        if near_left or near_right:
            return None
    return groups


@lru_cache(maxsize=8)
def workshop_for(kit: Kit, rates: Rates) -> Workshop:
    """The workshop of a kit and its rates; the few last used are kept."""
    return Workshop(kit, rates)
