"""Shortest paths along one wall: the cheapest way to fill it between every pair of end legs, exactly."""

import numpy as np
from numpy.lib.stride_tricks import as_strided, sliding_window_view

from core.setout.tariff import UNREACHABLE, Ints


def legs_of(least: int, full: int) -> Ints:
    """All corner legs that set-out may plan, in pitches."""
    return np.arange(least, full + 1, dtype=np.int64)


FREE_END = np.zeros(1, dtype=np.int64)
"""The only leg at a free end: none."""


class WallPaths:
    """All cheapest fillings of the rows of one wall.

    ``tables`` holds the priced candidate costs of each row, shape (rows, pitches, widths), widths from ``least`` up; ``starts``
    the left legs to begin from. Since no candidate is narrower than ``least``, that many pitch lines are reached in one step.
    Paths along tables much ``like`` these save the way to where both begin to differ.
    """

    def __init__(self, tables: Ints, least: int, starts: Ints, like: "WallPaths | None" = None) -> None:
        rows, pitches, widths = tables.shape
        self._least = least
        self._full = least + widths - 1
        self._pitches = pitches
        self._by_end = costs_by_end(tables, least)
        pad = self._full
        # Pitch lines come first, so that every step runs over memory in order.
        self._reach = np.full((pad + pitches + 1 + least, rows, len(starts)), UNREACHABLE, dtype=np.int64)
        self._pad = pad
        self._starts = starts
        inside = starts <= pitches
        self._reach[pad + starts[inside], :, np.flatnonzero(inside)] = 0
        self._run(0 if like is None else self._taken_over(like))

    def _taken_over(self, like: "WallPaths") -> int:
        """Takes over what others reach before the first pitch line at which a candidate ends that costs otherwise; the line from
        which there is more to do.
        """
        if (
            self._by_end.shape != like._by_end.shape
            or self._least != like._least
            or not np.array_equal(self._starts, like._starts)
        ):
            return 0
        differs = (self._by_end != like._by_end).any(axis=(1, 2))
        first = int(differs.argmax()) if differs.any() else len(differs)
        begin = first // self._least * self._least
        self._reach[: self._pad + begin] = like._reach[: self._pad + begin]
        return begin

    def _run(self, begin: int) -> None:
        """All widths of a step in one go."""
        least, pad, reach = self._least, self._pad, self._reach
        widths = self._full - least + 1
        # Widths come first, so that each step compares long stretches of memory.
        windows = sliding_window_view(reach, widths, axis=0).transpose(3, 0, 1, 2)
        by_end = self._by_end.swapaxes(0, 1)[..., None]
        trial = np.empty(windows[:, :least].shape, dtype=np.int64)
        best = np.empty(reach[:least].shape, dtype=np.int64)
        for at in range(begin, self._pitches + 1, least):
            here = reach[pad + at : pad + at + least]
            np.add(windows[:, at : at + least], by_end[:, at : at + least], out=trial)
            np.minimum.reduce(trial, axis=0, out=best)
            np.minimum(here, best, out=here)

    def ends(self, row: int, legs: Ints) -> Ints:
        """Cheapest filling from every start to every right leg, shape (starts, legs); UNREACHABLE where there is none."""
        at = self._pitches - legs
        found = self._reach[self._pad + np.maximum(at, 0), row].T
        return np.where(at >= 0, np.minimum(found, UNREACHABLE), UNREACHABLE)

    def joints(self, row: int, start: int, right_leg: int) -> list[int]:
        """The pitch lines of one cheapest filling, from the start's leg to the right leg, both included.

        ``start`` is the index of the left leg. Among equals the widest last candidate is taken.
        """
        reach, by_end = self._reach[:, row, start], self._by_end[:, :, row]
        at = self._pitches - right_leg
        joints = [at]
        while at != self._starts[start]:
            window = reach[self._pad + at - self._full : self._pad + at - self._least + 1] + by_end[at]
            at += int(window.argmin()) - self._full
            joints.append(at)
        return joints[::-1]


def costs_by_end(tables: Ints, least: int) -> Ints:
    """Candidate costs by right end, width (widest first) and row, padded by one step.

    Shape (pitches + 1 + least, widths, rows).
    """
    rows, pitches, widths = tables.shape
    # Candidates past the wall's end, which cost UNREACHABLE, may end as far from it as they are wide.
    by_end = np.full((pitches + 1 + least + widths, widths, rows), UNREACHABLE, dtype=np.int64)
    line, width, row = by_end.strides
    by_start = as_strided(by_end[least:, widths - 1 :], (pitches, widths, rows), (line, line - width, row))
    by_start[:] = np.moveaxis(tables, 0, -1)
    return by_end[: pitches + 1 + least]


def chain_product(left: Ints, right: Ints) -> Ints:
    """Min-plus product of two cost matrices, shapes (..., a, b) and (..., b, c)."""
    total: Ints = (left[..., :, :, None] + right[..., None, :, :]).min(axis=-2)
    return np.minimum(total, UNREACHABLE)
