"""Shortest paths along one wall: the cheapest way to fill it between every pair of end legs, exactly."""

import numpy as np

from core.setout.tariff import UNREACHABLE, Ints


def legs_of(least: int, full: int) -> Ints:
    """All corner legs that set-out may plan, in pitches."""
    return np.arange(least, full + 1, dtype=np.int64)


FREE_END = np.zeros(1, dtype=np.int64)
"""The only leg at a free end: none."""


MANY = 500
"""From so many fillings at once on it pays to take one width after another."""


class WallPaths:
    """All cheapest fillings of the rows of one wall.

    ``tables`` holds the priced candidate costs of each row, shape (rows, pitches, widths), widths from ``least`` up; ``starts``
    the left legs to begin from. Since no candidate is narrower than ``least``, that many pitch lines are reached in one step.
    """

    def __init__(self, tables: Ints, least: int, starts: Ints) -> None:
        rows, pitches, widths = tables.shape
        self._least = least
        self._full = least + widths - 1
        self._pitches = pitches
        self._by_end = _costs_by_end(tables, least)
        pad = self._full
        # Pitch lines come first, so that a step of many fillings at once runs over memory in order.
        by_line = np.full((pad + pitches + 1 + least, rows, len(starts)), UNREACHABLE, dtype=np.int64)
        self._reach = np.moveaxis(by_line, 0, 2)
        self._pad = pad
        self._starts = starts
        inside = starts <= pitches
        self._reach[:, np.flatnonzero(inside), pad + starts[inside]] = 0
        if rows * len(starts) < MANY:
            self._run()
        else:
            self._run_many(by_line)

    def _run(self) -> None:
        """All widths of a step in one go: quickest for few fillings."""
        least, full, pad = self._least, self._full, self._pad
        reach = self._reach
        windows = np.lib.stride_tricks.sliding_window_view(reach, full - least + 1, axis=2)
        windows = np.moveaxis(windows, 3, 0)
        for at in range(0, self._pitches + 1, least):
            before = windows[:, :, :, at : at + least]
            best = (before + self._by_end[:, :, None, at : at + least]).min(axis=0)
            here = reach[:, :, pad + at : pad + at + least]
            np.minimum(here, best, out=here)

    def _run_many(self, by_line: Ints) -> None:
        """Width after width: quickest for many fillings, which then stay near the processor."""
        least, pad = self._least, self._pad
        by_end = np.ascontiguousarray(np.moveaxis(self._by_end, 2, 1))[..., None]
        trial = np.empty((least, *by_line.shape[1:]), dtype=np.int64)
        for at in range(0, self._pitches + 1, least):
            here = by_line[pad + at : pad + at + least]
            for k in range(len(by_end)):
                np.add(by_line[at + k : at + k + least], by_end[k, at : at + least], out=trial)
                np.minimum(here, trial, out=here)

    def ends(self, row: int, legs: Ints) -> Ints:
        """Cheapest filling from every start to every right leg, shape (starts, legs); UNREACHABLE where there is none."""
        at = self._pitches - legs
        found = self._reach[row][:, self._pad + np.maximum(at, 0)]
        return np.where(at >= 0, np.minimum(found, UNREACHABLE), UNREACHABLE)

    def joints(self, row: int, start: int, right_leg: int) -> list[int]:
        """The pitch lines of one cheapest filling, from the start's leg to the right leg, both included.

        ``start`` is the index of the left leg. Among equals the widest last candidate is taken.
        """
        reach, by_end = self._reach[row, start], self._by_end[:, row]
        at = self._pitches - right_leg
        joints = [at]
        while at != self._starts[start]:
            window = reach[self._pad + at - self._full : self._pad + at - self._least + 1] + by_end[:, at]
            at += int(window.argmin()) - self._full
            joints.append(at)
        return joints[::-1]


def _costs_by_end(tables: Ints, least: int) -> Ints:
    """Candidate costs by width (widest first), row and right end, padded by one step.

    Shape (widths, rows, pitches + 1 + least).
    """
    rows, pitches, widths = tables.shape
    by_end = np.full((widths, rows, pitches + 1 + least), UNREACHABLE, dtype=np.int64)
    for k in range(widths):
        width = least + k
        if width <= pitches:
            by_end[widths - 1 - k, :, width : pitches + 1] = tables[:, : pitches + 1 - width, k]
    return by_end


def chain_product(left: Ints, right: Ints) -> Ints:
    """Min-plus product of two cost matrices, shapes (..., a, b) and (..., b, c)."""
    total: Ints = (left[..., :, :, None] + right[..., None, :, :]).min(axis=-2)
    return np.minimum(total, UNREACHABLE)
