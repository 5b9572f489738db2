"""Choosing one way for every wall and corner of some rows, so that legs meet and all their designs together cost least.

A lower bound comes from sharing out the set-up of every design over the places that could use it (Lagrange's multipliers): each
place is then charged its share only, and the rows fall apart into shortest paths again. All is reckoned in whole units.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import TYPE_CHECKING, NamedTuple

import numpy as np
from numpy.typing import NDArray

from core.setout.paths import chain_product
from core.setout.tariff import UNREACHABLE, Ints
from core.setout.ways import Bits, Way

if TYPE_CHECKING:
    from core.setout.relaxed import Entries, Relaxed

FORBIDDEN = 1 << 56
"""Units for a design that is forbidden on trial: far more than a room costs, far less than UNREACHABLE."""


class Place(NamedTuple):
    """A wall or a corner of some like rows: how often it stands there, its states left and right, and its ways."""

    times: int
    shape: tuple[int, int]
    ways: Sequence[Way]


class Chained(NamedTuple):
    """The walls and corners of one chain of one group of rows from left to right; the last corner of a closed one closes it."""

    places: Sequence[Place]
    closed: bool


@dataclass(frozen=True)
class Chosen:
    """A choice of ways, by chain and place, and what it costs with its set-ups."""

    units: int
    ways: tuple[tuple[Way, ...], ...]

    @property
    def designs(self) -> Bits:
        found = 0
        for chain in self.ways:
            for way in chain:
                found |= way.designs
        return found


class _Outcome(NamedTuple):
    """The cheapest ways at some charges: units with charges, and the number of the way for each place of each chain."""

    units: int
    picked: list[list[int]]


class Choice:
    """The ways of the rows of one stack, laid out for quick reckoning."""

    def __init__(self, chains: Sequence[Chained], setup: int) -> None:
        self.setup = setup
        self.chains = chains
        self.places = [place for chain in chains for place in chain.places]
        self.ways = [way for place in self.places for way in place.ways]
        self.units = np.array([place.times * way.units for place in self.places for way in place.ways], dtype=np.int64)
        self._lay_out_cells()
        self._lay_out_shares()

    def _lay_out_cells(self) -> None:
        """Ways lie sorted by their legs; ``_cells`` are the legs' places in one long array."""
        size, cells = 0, []
        self._offsets = []
        for place in self.places:
            self._offsets.append(size)
            cells += [size + way.left * place.shape[1] + way.right for way in place.ways]
            size += place.shape[0] * place.shape[1]
        self._size = size
        self._cell_of = np.array(cells, dtype=np.int64)
        self._starts = np.flatnonzero(np.diff(self._cell_of, prepend=-1))
        self._cells = self._cell_of[self._starts]
        self._ends = np.append(self._starts[1:], len(cells))

    def _lay_out_shares(self) -> None:
        """One share for every design and place that could use it; those of one design lie side by side."""
        users: dict[Bits, dict[int, list[int]]] = {}
        number = 0
        for at, place in enumerate(self.places):
            for way in place.ways:
                for bit in bits_in(way.designs):
                    users.setdefault(bit, {}).setdefault(at, []).append(number)
                number += 1
        self.designs = sorted(users)
        self.needs = [(n, ways) for n, bit in enumerate(self.designs) for ways in users[bit].values()]
        self.counts = np.array([len(users[bit]) for bit in self.designs], dtype=np.int64)
        by_way: list[list[int]] = [[] for _ in range(number)]
        for share, (_, numbers) in enumerate(self.needs):
            for n in numbers:
                by_way[n].append(share)
        self._charges = np.full((number, max(map(len, by_way), default=0)), len(self.needs), dtype=np.int64)
        for n, shares in enumerate(by_way):
            self._charges[n, : len(shares)] = shares
        self.design_of = np.array([n for n, _ in self.needs], dtype=np.int64)

    @property
    def is_possible(self) -> bool:
        """Whether every place has a way."""
        return all(place.ways for place in self.places)

    def _charged(self, shares: Ints) -> Ints:
        """The units of every way with its charges."""
        return np.asarray(self.units + np.append(shares, 0)[self._charges].sum(axis=1))

    def _matrices(self, charged: Ints) -> list[list[Ints]]:
        """Costs by legs, for each place of each chain."""
        values = np.full(self._size, UNREACHABLE, dtype=np.int64)
        values[self._cells] = np.minimum.reduceat(charged, self._starts)
        found, at = [], 0
        for chain in self.chains:
            matrices = []
            for place in chain.places:
                begin, (height, width) = self._offsets[at], place.shape
                matrices.append(values[begin : begin + height * width].reshape(place.shape))
                at += 1
            found.append(matrices)
        return found

    def cheapest(self, shares: Ints) -> _Outcome:
        """The cheapest ways at these charges."""
        charged = self._charged(shares)
        total, picked, at = 0, [], 0
        for chain, matrices in zip(self.chains, self._matrices(charged), strict=True):
            units, states = _along(matrices, chain.closed)
            total = min(total + units, FORBIDDEN)
            if total < FORBIDDEN:
                picked.append([self._pick(at + k, state, charged) for k, state in enumerate(states)])
            at += len(matrices)
        return _Outcome(total, picked)

    def _pick(self, place: int, state: tuple[int, int], charged: Ints) -> int:
        cell = self._offsets[place] + state[0] * self.places[place].shape[1] + state[1]
        found = int(np.searchsorted(self._cells, cell))
        begin, end = int(self._starts[found]), int(self._ends[found])
        return begin + int(charged[begin:end].argmin())

    def chosen(self, outcome: _Outcome) -> Chosen:
        """The outcome as a choice, every design paid once."""
        ways = tuple(tuple(self.ways[n] for n in chain) for chain in outcome.picked)
        units = sum(int(self.units[n]) for chain in outcome.picked for n in chain)
        bare = Chosen(units, ways)
        return Chosen(units + self.setup * bare.designs.bit_count(), ways)

    def by_share(self, values: Sequence[int] | Ints) -> Ints:
        """Values of designs for each of their shares."""
        return np.asarray(values, dtype=np.int64)[self.design_of]

    def with_only(self, designs: Bits) -> Chosen | None:
        """The cheapest choice that needs no other designs; set-ups are those it uses."""
        outcome = self.cheapest(self.by_share([0 if bit & designs else FORBIDDEN for bit in self.designs]))
        return self.chosen(outcome) if outcome.units < FORBIDDEN else None

    def least_through(self, shares: Ints) -> Ints:
        """For every way, the least that a choice with it comes to at these charges."""
        charged = self._charged(shares)
        by_chain = self._matrices(charged)
        through = [least_through(matrices, chain.closed) for chain, matrices in zip(self.chains, by_chain, strict=True)]
        cheapest = [int(found[0].min()) for found in through]
        rest = sum(cheapest)
        cells = np.concatenate(
            [
                np.minimum(cell + (rest - least), UNREACHABLE).ravel()
                for found, least in zip(through, cheapest, strict=True)
                for cell in found
            ]
        )
        best = np.minimum.reduceat(charged, self._starts)
        excess = charged - np.repeat(best, self._ends - self._starts)
        return np.asarray(cells[self._cell_of] + excess)

    def kept(self, keep: NDArray[np.bool_]) -> "Choice":
        """The choice with only some of the ways."""
        chains, number = [], 0
        for chain in self.chains:
            places = []
            for place in chain.places:
                stay = [way for n, way in enumerate(place.ways, number) if keep[n]]
                number += len(place.ways)
                places.append(place._replace(ways=stay))
            chains.append(Chained(places, chain.closed))
        return Choice(chains, self.setup)

    def relaxed(self, unit: float) -> "Relaxed":
        """The linear program, in minutes of so many units."""
        # Only here, since HiGHS takes long to import and most rooms do without it.
        from core.setout.relaxed import Relaxed

        ones, meets, number = [], [], 0
        for chain in self.chains:
            columns = []
            for place in chain.places:
                columns.append(range(number, number + len(place.ways)))
                number += len(place.ways)
            ones.append(list(columns[0]))
            for left, right in [*pairwise(columns), *([(columns[-1], columns[0])] if chain.closed else [])]:
                meets += self._meeting(left, right)
        return Relaxed((self.units / unit).tolist(), self.setup / unit, ones, meets, self.needs)

    def _meeting(self, left: range, right: range) -> "list[Entries]":
        """By leg, the ways that arrive with it and those that leave with it."""
        rows: dict[int, Entries] = {}
        for column in left:
            rows.setdefault(self.ways[column].right, {})[column] = 1.0
        for column in right:
            rows.setdefault(self.ways[column].left, {})[column] = -1.0
        return list(rows.values())


def bits_in(designs: Bits) -> list[Bits]:
    """The single designs of a set."""
    found = []
    while designs:
        bit = designs & -designs
        found.append(bit)
        designs ^= bit
    return found


def _along(matrices: list[Ints], closed: bool) -> tuple[int, list[tuple[int, int]]]:
    """The cheapest way along a chain and its states at every place; the last matrix of a closed chain closes it."""
    walls = matrices[:-1] if closed else matrices
    reach = [walls[0]]
    for matrix in walls[1:]:
        reach.append(chain_product(reach[-1], matrix))
    ends = reach[-1] + matrices[-1].T if closed else reach[-1]
    first, last = divmod(int(ends.argmin()), ends.shape[1])
    states, here = [], last
    for k in range(len(walls) - 1, 0, -1):
        before = int((reach[k - 1][first] + walls[k][:, here]).argmin())
        states.append((before, here))
        here = before
    states = [*states, (first, here)][::-1]
    return int(ends[first, last]), [*states, (last, first)] if closed else states


def least_through(matrices: Sequence[Ints], closed: bool) -> list[Ints]:
    """For every place of a chain, the least cost of a way along the chain by the place's own legs."""
    before: list[Ints | None] = [None]
    for matrix in matrices[:-1]:
        before.append(matrix if before[-1] is None else chain_product(before[-1], matrix))
    after: list[Ints | None] = [None]
    for matrix in matrices[:0:-1]:
        after.append(matrix if after[-1] is None else chain_product(matrix, after[-1]))
    found = []
    for matrix, left, right in zip(matrices, before, after[::-1], strict=True):
        if closed:
            rest = left if right is None else right if left is None else chain_product(right, left)
            assert rest is not None
            found.append(np.minimum(matrix + rest.T, UNREACHABLE))
        else:
            to_left = 0 if left is None else left.min(axis=0)[:, None]
            to_right = 0 if right is None else right.min(axis=1)
            found.append(np.minimum(np.minimum(matrix + to_left, UNREACHABLE) + to_right, UNREACHABLE))
    return found
