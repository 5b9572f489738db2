"""Joining walls around their corners: the cheapest legs for a whole row, by a min-plus product closed on itself."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from core.setout.paths import chain_product
from core.setout.tariff import Ints


@dataclass(frozen=True, slots=True)
class ChainLegs:
    """The cheapest row of one chain: its cost and, per wall, the index of its left and right leg."""

    cost: int
    legs: tuple[tuple[int, int], ...]


def close_chain(walls: Sequence[Ints], corners: Sequence[Ints], *, closed: bool) -> ChainLegs:
    """Choose all legs of a chain.

    ``walls[k]`` is wall k's cost by (left leg, right leg). ``corners[k]`` joins wall k to the one before it, by (that
    wall's right leg, wall k's left leg); of an open chain ``corners[0]`` is not looked at.
    """
    prefixes = [walls[0]]
    for wall, corner in zip(walls[1:], corners[1:], strict=True):
        prefixes.append(chain_product(prefixes[-1], corner))
        prefixes.append(chain_product(prefixes[-1], wall))
    ends = prefixes[-1] + corners[0].T if closed else prefixes[-1]
    first, at = (int(n) for n in np.unravel_index(int(ends.argmin()), ends.shape))
    cost = int(ends[first, at])
    legs: list[tuple[int, int]] = []
    for k in range(len(walls) - 1, 0, -1):
        right = at
        left = int((prefixes[2 * k - 1][first] + walls[k][:, right]).argmin())
        at = int((prefixes[2 * k - 2][first] + corners[k][:, left]).argmin())
        legs.append((left, right))
    legs.append((first, at))
    return ChainLegs(cost, tuple(reversed(legs)))
