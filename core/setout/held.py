"""What is held in one row of one wall: joints that are pinned, panels that must not be divided, lines that joints keep off."""

from collections.abc import Iterable
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from core.setout.paths import WallPaths
from core.setout.tariff import UNREACHABLE, Ints

SHUN = 1 << 46
"""Units for a joint on a shunned line: far more than dividing a row otherwise could cost, far less than UNREACHABLE."""


class Held(NamedTuple):
    """Pitch lines with a joint on them, spans without a joint inside, and the legs at either end where they are given.

    ``shunned`` are lines on which a joint stands only where it cannot be helped; each then counts ``SHUN`` units.
    """

    joints: tuple[int, ...] = ()
    spans: tuple[tuple[int, int], ...] = ()
    left_leg: int | None = None
    right_leg: int | None = None
    shunned: tuple[int, ...] = ()

    @property
    def anything(self) -> bool:
        return self != NOTHING_HELD

    def bar(self, costs: Ints, least: int) -> Ints:
        """Candidate costs, shape (pitches, widths), UNREACHABLE where a held joint or span forbids one, dearer where it ends on
        a shunned line."""
        starts = np.arange(costs.shape[0])[:, None]
        ends = starts + least + np.arange(costs.shape[1])
        if self.shunned:
            costs = costs + SHUN * np.isin(ends, self.shunned)
        barred = np.zeros(costs.shape, dtype=bool)
        for joint in self._all_joints:
            barred |= (starts < joint) & (ends > joint)
        for left, right in self.spans:
            barred |= ((starts > left) & (starts < right)) | ((ends > left) & (ends < right))
        return np.where(barred, UNREACHABLE, costs)

    def owes_left(self, legs: Ints) -> Ints:
        """What left legs that end on a shunned line owe, shape of ``legs``."""
        return np.asarray(SHUN * np.isin(legs, self.shunned), dtype=np.int64)

    def bars_left(self, legs: Ints) -> NDArray[np.bool_]:
        """Which left legs are forbidden, shape of ``legs``."""
        barred = self._bars_ends(legs)
        for joint in self._all_joints:
            barred |= legs > joint
        return barred if self.left_leg is None else barred | (legs != self.left_leg)

    def bars_right(self, legs: Ints, pitches: int) -> NDArray[np.bool_]:
        """Which right legs are forbidden on a wall of so many pitches, shape of ``legs``."""
        barred = self._bars_ends(pitches - legs)
        for joint in self._all_joints:
            barred |= pitches - legs < joint
        return barred if self.right_leg is None else barred | (legs != self.right_leg)

    def _bars_ends(self, lines: Ints) -> NDArray[np.bool_]:
        barred = np.zeros(lines.shape, dtype=bool)
        for left, right in self.spans:
            barred |= (lines > left) & (lines < right)
        return barred

    @property
    def _all_joints(self) -> tuple[int, ...]:
        return (*self.joints, *(end for span in self.spans for end in span))


NOTHING_HELD = Held()


def held_together(parts: Iterable[Held]) -> Held:
    """Everything that several wishes hold. Where two give a leg, the last one counts."""
    joints: set[int] = set()
    spans: set[tuple[int, int]] = set()
    left_leg = right_leg = None
    for part in parts:
        joints.update(part.joints)
        spans.update(part.spans)
        left_leg = left_leg if part.left_leg is None else part.left_leg
        right_leg = right_leg if part.right_leg is None else part.right_leg
    return Held(tuple(sorted(joints)), tuple(sorted(spans)), left_leg, right_leg)


def fits(held: Held, pitches: int, least: int, full: int, left_legs: Ints, right_legs: Ints) -> bool:
    """Whether any division of a wall of so many pitches keeps what is held."""
    costs = np.zeros((pitches, full - least + 1), dtype=np.int64)
    costs[np.arange(pitches)[:, None] + least + np.arange(full - least + 1) > pitches] = UNREACHABLE
    starts, ends = left_legs[~held.bars_left(left_legs)], right_legs[~held.bars_right(right_legs, pitches)]
    if not len(starts) or not len(ends):
        return False
    found = WallPaths(held.bar(costs, least)[None], least, starts).ends(0, ends)
    return bool((found < UNREACHABLE).any())
