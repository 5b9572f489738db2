"""Joining walls around their corners: the cheapest legs for a whole row, by min-plus products closed on themselves."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from core.setout.kept import Kept
from core.setout.paths import chain_product
from core.setout.tariff import Ints


@dataclass(frozen=True, slots=True)
class Leaf:
    """A cost matrix with a number of its own, so that products of it can be kept."""

    serial: int
    costs: Ints


@dataclass(frozen=True, slots=True)
class ChainLegs:
    """The cheapest row of one chain: its cost and, per wall, the index of its left and right leg."""

    cost: int
    legs: tuple[tuple[int, int], ...]


class ChainClosing:
    """One chain of one row, its walls and corners in order from the left.

    ``walls[k]`` holds wall k's cost by (left leg, right leg); ``corners[k]`` joins wall k + 1 to wall k, by (wall k's right leg,
    wall k + 1's left leg); ``closing`` joins the first wall to the last one of a closed chain in the same way. Products
    of neighbours are kept in a balanced tree: where one wall changes, only those above it are worked out anew.
    """

    def __init__(self, walls: Sequence[Leaf], corners: Sequence[Leaf], closing: Leaf | None, products: Kept) -> None:
        self._leaves = [walls[0]]
        for corner, wall in zip(corners, walls[1:], strict=True):
            self._leaves += [corner, wall]
        self._serials = tuple(leaf.serial for leaf in self._leaves)
        self._closing = closing
        self._products = products

    def _product(self, begin: int, end: int) -> Ints:
        """Cost from the first leg of leaf ``begin`` to the last leg of leaf ``end - 1``."""
        if end - begin == 1:
            return self._leaves[begin].costs
        middle = (begin + end) // 2
        return self._products.get(
            self._serials[begin:end], lambda: chain_product(self._product(begin, middle), self._product(middle, end))
        )

    def _ends(self) -> Ints:
        whole = self._product(0, len(self._leaves))
        return whole if self._closing is None else whole + self._closing.costs.T

    def cost(self) -> int:
        """Cost of the cheapest row."""
        return int(self._ends().min())

    def legs(self) -> ChainLegs:
        """The cheapest row's legs."""
        ends = self._ends()
        first, last = (int(n) for n in np.unravel_index(int(ends.argmin()), ends.shape))
        states = [first, *self._between(0, len(self._leaves), first, last), last]
        walls = (len(self._leaves) + 1) // 2
        return ChainLegs(int(ends[first, last]), tuple((states[2 * k], states[2 * k + 1]) for k in range(walls)))

    def _between(self, begin: int, end: int, first: int, last: int) -> list[int]:
        """The legs chosen between consecutive leaves from ``begin`` to ``end`` for given outer legs."""
        if end - begin == 1:
            return []
        middle = (begin + end) // 2
        at = int((self._product(begin, middle)[first] + self._product(middle, end)[:, last]).argmin())
        return [*self._between(begin, middle, first, at), at, *self._between(middle, end, at, last)]
