"""The costs of one row's candidates, along a wall and around a corner, each table worked out once and kept.

A candidate that touches no blocked cell costs the same wherever it lies, and one that touches a group of them the same wherever
the group lies; so the table of a wall can be put together from that of an open run and those of its groups. What timber is
missing behind mounting points is then counted where they fall. A wall may be measured as a whole just as well, candidate by
candidate, and is where joints are held or it is no longer than a full panel.
"""

from collections.abc import Hashable
from typing import NamedTuple

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view

from core.kit import Kit
from core.setout.costs import Backing, CornerTable, HoleUse, WallTable, corner_table, hole_uses, wall_table
from core.setout.fillings import within_run
from core.setout.held import NOTHING_HELD, Held
from core.setout.kept import Kept
from core.setout.layers import Block, Layers
from core.setout.mounting import whole_row_courses
from core.setout.strip import strip_of
from core.setout.tariff import UNREACHABLE, Ints, PriceList, Prices, Tariff


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


class Tables:
    """The tables of one kit and one tariff."""

    def __init__(self, kit: Kit, tariff: Tariff, legs: Ints) -> None:
        self._kit = kit
        self._tariff = tariff
        self._legs = legs
        self._kept = Kept(160)
        self._hole_uses = Kept(48)
        """Few: one takes some 100 kB, and serves all places of its group."""

    def price_list(self, prices: Prices) -> PriceList:
        """Prices laid out by size."""
        return self._kept.get(prices, lambda: PriceList(self._tariff, prices))

    def corner(self, at: RowAtCorner) -> CornerTable:
        """Corner costs before prices."""

        def table() -> CornerTable:
            strip = strip_of(at.layers, -at.reach[0], at.reach[1], at.blocks, corner=0)
            return corner_table(strip, self._tariff, self._legs, at.backing.look_up)

        return self._kept.get(at.key, table)

    def wall(self, layers: Layers, pitches: int, blocks: tuple[Block, ...], backing: Backed) -> WallTable:
        """The costs of all flat candidates before prices, each measured where it stands."""
        key = ("table", layers.courses, pitches, blocks, backing.key)
        return self._kept.get(key, lambda: wall_table(strip_of(layers, 0, pitches, blocks), self._tariff, backing.look_up))

    def open_run(self, layers: Layers, prices: Prices) -> Ints:
        """The priced costs of candidates without blocked cells, by width."""
        priced: Ints = self.wall(layers, self._kit.full_width, (), UNBACKED).priced(self.price_list(prices))[0]
        return priced

    def whole_wall(self, on_wall: RowOnWall, prices: Prices) -> Ints:
        """The priced costs of all flat candidates, each measured where it stands; what is held is barred."""
        layers, pitches, _, blocks, backing, held = on_wall
        costs = self.wall(layers, pitches, blocks, backing).priced(self.price_list(prices))
        return held.bar(costs, self._kit.least_width_pitches) if held.anything else costs

    def priced_wall(self, on_wall: RowOnWall, prices: Prices) -> Ints:
        """The same costs, put together from open run and groups where that can be; shape (pitches, widths)."""
        layers, pitches, _, blocks, backing, held = on_wall
        if held.anything or pitches <= self._kit.full_width:
            return self.whole_wall(on_wall, prices)
        table = within_run(self.open_run(layers, prices), self._kit.least_width_pitches, pitches)
        for group in groups_of(blocks, self._kit.full_width):
            zone = Zoned(group, self._kit.full_width)
            rows = self.zone(layers, zone).priced(self.price_list(prices))[zone.starts]
            table[zone.rows] = np.where(table[zone.rows] >= UNREACHABLE, UNREACHABLE, rows)
        if backing.look_up is not None:
            table += self._tariff.blocking * self._missing(on_wall, backing.look_up)
        return table

    def zone(self, layers: Layers, zone: "Zoned") -> WallTable:
        """Candidate costs around a group of blocks, wherever it lies and whatever is behind it."""
        return self.wall(layers, zone.length, zone.blocks, UNBACKED)

    def _missing(self, on_wall: RowOnWall, look_up: Backing) -> Ints:
        """How many mounting points of every flat candidate have no timber behind them, shape (pitches, widths)."""
        layers, pitches, _, blocks, _, _ = on_wall
        full, least = self._kit.full_width, self._kit.least_width_pitches
        counts = self._missing_in_open(layers, pitches, look_up)
        for group in groups_of(blocks, full):
            zone = Zoned(group, full)
            found = np.zeros((zone.length, full - least + 1), dtype=np.int64)
            for use in self._holes(layers, zone):
                found[use.rows] += use.missing(zone.lines_of(look_up(use.course)))
            counts[zone.rows] = found[zone.starts]
        return counts

    def _missing_in_open(self, layers: Layers, pitches: int, look_up: Backing) -> Ints:
        """The same for candidates without blocked cells: two holes a course, or one where there is no room for two."""
        inset, least = self._kit.mounts.inset_pitches, self._kit.least_width_pitches
        widths = np.arange(least, self._kit.full_width + 1)
        bare = np.zeros(pitches + len(widths) + least, dtype=np.int64)
        for course in whole_row_courses(self._kit, layers.courses):
            bare[: pitches + 1] += look_up(course)
        left = bare[inset : inset + pitches, None] * (widths >= 2 * inset)
        right = sliding_window_view(bare[least - inset :], len(widths))[:pitches] * (widths >= 2 * inset + 2)
        return left + right

    def _holes(self, layers: Layers, zone: "Zoned") -> tuple[HoleUse, ...]:
        key = layers.courses, zone.length, zone.blocks
        return self._hole_uses.get(key, lambda: hole_uses(strip_of(layers, 0, zone.length, zone.blocks), self._kit))


class Zoned:
    """A group of blocks with all candidates that touch it: its place on the wall, and itself wherever that is.

    ``rows`` are the wall's pitches from which such candidates begin, ``starts`` the same ones on the zone's own strip.
    """

    __slots__ = ("_begin", "blocks", "length", "rows", "starts")

    def __init__(self, group: tuple[Block, ...], full: int) -> None:
        margin = full - 1
        right = max(block.right for block in group)
        self._begin = begin = group[0].left - margin
        self.blocks = tuple(Block(b.left - begin, b.right - begin, b.low, b.high) for b in group)
        self.length = right - begin + margin
        self.rows = slice(max(0, begin), right)
        self.starts = slice(max(0, -begin), right - begin)

    def lines_of(self, wall_lines: Ints) -> Ints:
        """What a wall's pitch lines say, for those of the zone's strip and one more; 0 for lines past the wall's ends."""
        found = np.zeros(self.length + 2, dtype=np.int64)
        begin, end = max(0, self._begin), min(len(wall_lines), self._begin + self.length + 1)
        found[begin - self._begin : end - self._begin] = wall_lines[begin:end]
        return found


def groups_of(blocks: tuple[Block, ...], full: int) -> list[tuple[Block, ...]]:
    """A row's blocks in groups so far apart that no candidate touches two."""
    groups: list[list[Block]] = []
    reach = 0
    for block in blocks:
        if groups and block.left - reach < full:
            groups[-1].append(block)
        else:
            groups.append([block])
            reach = 0
        reach = max(reach, block.right)
    return [tuple(group) for group in groups]
