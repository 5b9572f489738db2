"""Shortest paths along one wall in many trials side by side, in each of which some candidates cost less than they do."""

from typing import NamedTuple

import numpy as np
from numpy.lib.stride_tricks import sliding_window_view

from core.setout.paths import costs_by_end
from core.setout.tariff import UNREACHABLE, Ints


class Cheaper(NamedTuple):
    """What candidates save in ``number`` trials: pitch at their left end, width in pitches, trial from 1 on, and units; arrays of
    one length.

    A candidate may be named more than once for one trial, and then saves all that is said.
    """

    number: int
    begins: Ints
    widths: Ints
    trials: Ints
    units: Ints


class TrialPaths:
    """All cheapest fillings of one row of a wall, as things are (trial 0) and in every trial.

    ``table`` and ``starts`` are as for ``WallPaths``. Nearly all candidates cost the same in every trial, so these
    are looked at once for all of them, and those that are cheaper somewhere once more, for that trial alone.
    """

    def __init__(self, table: Ints, least: int, starts: Ints, cheaper: Cheaper) -> None:
        pitches, widths = table.shape
        self._least, self._pitches, self._pad = least, pitches, least + widths - 1
        # Pitch lines come first, so that every step runs over memory in order.
        self._reach = np.full((self._pad + pitches + 1 + least, 1 + cheaper.number, len(starts)), UNREACHABLE, dtype=np.int64)
        inside = starts <= pitches
        self._reach[self._pad + starts[inside], :, np.flatnonzero(inside)] = 0
        self._run(costs_by_end(table[None], least)[..., None], _Again(self._reach, self._pad, table, least, cheaper))

    def _run(self, by_end: Ints, again: "_Again") -> None:
        least, pad, reach = self._least, self._pad, self._reach
        windows = sliding_window_view(reach, by_end.shape[1], axis=0).transpose(3, 0, 1, 2)
        by_end = by_end.swapaxes(0, 1)
        trial = np.empty(windows[:, :least].shape, dtype=np.int64)
        best = np.empty(reach[:least].shape, dtype=np.int64)
        for step, at in enumerate(range(0, self._pitches + 1, least)):
            here = reach[pad + at : pad + at + least]
            np.add(windows[:, at : at + least], by_end[:, at : at + least], out=trial)
            np.minimum.reduce(trial, axis=0, out=best)
            np.minimum(here, best, out=here)
            again.look(step)

    def ends(self, legs: Ints) -> Ints:
        """Cheapest fillings to every right leg, shape (1 + trials, starts, legs); UNREACHABLE where there is none."""
        at = self._pitches - legs
        found = self._reach[self._pad + np.maximum(at, 0)].transpose(1, 2, 0)
        return np.where(at >= 0, np.minimum(found, UNREACHABLE), UNREACHABLE)


class _Again:
    """The candidates that are cheaper in some trial, in the order of their right ends, trial by trial."""

    def __init__(self, reach: Ints, pad: int, table: Ints, least: int, cheaper: Cheaper) -> None:
        trials, widths = reach.shape[1], table.shape[1]
        self._lines = reach.reshape(-1, reach.shape[2])
        key = ((cheaper.begins + cheaper.widths) * trials + cheaper.trials) * widths + cheaper.widths - least
        order = np.argsort(key, kind="stable")
        firsts = _firsts(key[order])
        order, units = order[firsts], _sums(cheaper.units[order], firsts)
        begins, sizes, in_trial = cheaper.begins[order], cheaper.widths[order], cheaper.trials[order]
        self._costs = (table[begins, sizes - least] - units)[:, None]
        self._from = (pad + begins) * trials + in_trial
        to = (pad + begins + sizes) * trials + in_trial
        self._groups = _firsts(to)
        self._to = to[self._groups]
        steps = np.arange(0, len(table) + 1 + least, least)
        ends = begins + sizes
        self._bounds = np.searchsorted(ends, steps).tolist()
        self._group_bounds = np.searchsorted(ends[self._groups], steps).tolist()

    def look(self, step: int) -> None:
        """Look at those that end within a step."""
        begin, past = self._bounds[step : step + 2]
        if begin == past:
            return
        first, end = self._group_bounds[step : step + 2]
        found = self._lines.take(self._from[begin:past], axis=0) + self._costs[begin:past]
        if end - first < past - begin:
            found = np.minimum.reduceat(found, self._groups[first:end] - begin, axis=0)
        to = self._to[first:end]
        self._lines[to] = np.minimum(self._lines.take(to, axis=0), found)


def _firsts(ordered: Ints) -> Ints:
    """Where each of the values in order first stands."""
    is_first = np.ones(len(ordered), dtype=bool)
    np.not_equal(ordered[1:], ordered[:-1], out=is_first[1:])
    return np.flatnonzero(is_first)


def _sums(values: Ints, firsts: Ints) -> Ints:
    """The sums of values from each of ``firsts`` to the next."""
    return np.add.reduceat(values, firsts) if len(firsts) < len(values) else values
