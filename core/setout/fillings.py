"""Ways to fill one row of one wall between its corner legs. Three kinds share one interface; all are exact.

An open run costs the same wherever it lies, so one table by length serves every wall. A blocked zone with open runs on both
sides is solved once, wherever it lies. Only a wall with standing timber or held joints, or blocked next to a corner, is solved
whole.
"""

from collections.abc import Callable, Sequence
from dataclasses import dataclass, field
from functools import cached_property, lru_cache
from typing import Protocol

import numpy as np
from numpy.typing import NDArray

from core.setout.held import Held
from core.setout.paths import WallPaths, chain_product
from core.setout.tariff import UNREACHABLE, Ints


class Filling(Protocol):
    """The cheapest fillings of one row of one wall for every pair of legs."""

    @property
    def ends(self) -> Ints:
        """Cost by left and right leg; UNREACHABLE where the legs do not fit."""
        ...

    def joints(self, left: int, right: int) -> list[int]:
        """Pitch lines of one cheapest filling for leg indices ``left`` and ``right``, both leg ends included."""
        ...


class OpenRuns:
    """The cheapest division of an open run, by its length in pitches up to ``longest``."""

    def __init__(self, by_width: Ints, least: int, longest: int) -> None:
        start = np.zeros(1, dtype=np.int64)
        paths = WallPaths(within_run(by_width, least, longest)[None], least, start)
        self._cost = paths.ends(0, np.arange(longest, -1, -1, dtype=np.int64))[0]
        self._by_width = by_width
        self._least = least

    def cost(self, lengths: Ints) -> Ints:
        """Cost of runs; UNREACHABLE for negative lengths and ones too short for any panel. Shape of ``lengths``."""
        return np.where(lengths >= 0, self._cost[np.maximum(lengths, 0)], UNREACHABLE)

    def joints(self, begin: int, end: int) -> list[int]:
        """Pitch lines that divide the run from ``begin`` to ``end``, both included; the widest panels to the right."""
        joints = [end]
        while end > begin:
            widths = np.arange(min(end - begin, self._least + len(self._by_width) - 1), self._least - 1, -1)
            totals = self._cost[end - begin - widths] + self._by_width[widths - self._least]
            end -= int(widths[totals.argmin()])
            joints.append(end)
        return joints[::-1]


def within_run(by_width: Ints, least: int, longest: int) -> Ints:
    """Candidate costs of an open run by start and width, UNREACHABLE past its end: shape (longest, widths)."""
    return np.where(_ends_within(longest, least, len(by_width)), by_width, UNREACHABLE)


@lru_cache(maxsize=64)
def _ends_within(longest: int, least: int, widths: int) -> NDArray[np.bool_]:
    """Which candidates of a run end within it, by start and width; not to be written to."""
    ends = np.arange(longest)[:, None] + least + np.arange(widths)
    within: NDArray[np.bool_] = ends <= longest
    return within


@dataclass(frozen=True)
class OpenFilling:
    """A row of a wall without blocked cells and without timber to mind."""

    runs: OpenRuns
    pitches: int
    left_legs: Ints
    right_legs: Ints

    @cached_property
    def ends(self) -> Ints:
        return self.runs.cost(self.pitches - self.left_legs[:, None] - self.right_legs)

    def joints(self, left: int, right: int) -> list[int]:
        return self.runs.joints(int(self.left_legs[left]), self.pitches - int(self.right_legs[right]))


@dataclass(frozen=True)
class Zone:
    """A blocked stretch solved with ``margin`` pitches on either side, so that its pattern serves wherever it lies.

    Its own pitch 0 is ``margin`` left of the first blocked cell; ``extent`` is the blocked stretch's width. Entries are the
    last joint at or before the stretch, exits the first at or after it. Only the costs by entry and exit are kept; a way
    between them is found when it is asked for.
    """

    priced: Callable[[], Ints]
    least: int
    margin: int
    extent: int
    _ways: dict[tuple[int, int], list[int]] = field(default_factory=dict, repr=False)

    @cached_property
    def costs(self) -> Ints:
        """Cost by entry (0 to margin) and exit (0 to margin past the stretch)."""
        entries = np.arange(self.margin + 1, dtype=np.int64)
        return WallPaths(self.priced()[None], self.least, entries).ends(0, entries[::-1])

    def joints(self, entry: int, exit_: int) -> list[int]:
        """The joints from an entry to an exit, both included, counted from the zone's own pitch 0."""
        if (entry, exit_) not in self._ways:
            paths = WallPaths(self.priced()[None], self.least, np.array([entry]))
            self._ways[entry, exit_] = paths.joints(0, 0, self.margin - exit_)
        return self._ways[entry, exit_]


@dataclass(frozen=True)
class ZonedFilling:
    """A row with blocked zones, each at its first blocked pitch, and open runs between them."""

    runs: OpenRuns
    zones: Sequence[tuple[int, Zone]]
    pitches: int
    left_legs: Ints
    right_legs: Ints

    def _entries(self, n: int) -> Ints:
        at, zone = self.zones[n]
        return np.arange(at - zone.margin, at + 1, dtype=np.int64)

    def _exits(self, n: int) -> Ints:
        at, zone = self.zones[n]
        return np.arange(at + zone.extent, at + zone.extent + zone.margin + 1, dtype=np.int64)

    def _stages(self, lefts: Ints, rights: Ints) -> list[Ints]:
        """Cost matrices from the left joints through runs and zones in turn to the right joints."""
        stages = []
        before = lefts
        for n, (_, zone) in enumerate(self.zones):
            stages += [self.runs.cost(self._entries(n) - before[:, None]), zone.costs]
            before = self._exits(n)
        return [*stages, self.runs.cost(rights - before[:, None])]

    @cached_property
    def ends(self) -> Ints:
        stages = self._stages(self.left_legs, self.pitches - self.right_legs)
        total = stages[0]
        for stage in stages[1:]:
            total = chain_product(total, stage)
        return total

    def joints(self, left: int, right: int) -> list[int]:
        lefts = self.left_legs[left : left + 1]
        rights = self.pitches - self.right_legs[right : right + 1]
        choices = _cheapest_through(self._stages(lefts, rights))
        joints = [int(lefts[0])]
        for n, (at, zone) in enumerate(self.zones):
            entry, exit_ = choices[2 * n], choices[2 * n + 1]
            shift = at - zone.margin
            joints += self.runs.joints(joints[-1], shift + entry)[1:]
            joints += [shift + x for x in zone.joints(entry, exit_)[1:]]
        return joints + self.runs.joints(joints[-1], int(rights[0]))[1:]


def _cheapest_through(stages: list[Ints]) -> list[int]:
    """The indices between consecutive stages of one cheapest way through, from a single start to a single end."""
    reach = [stages[0][0]]
    for stage in stages[1:-1]:
        reach.append(np.minimum((reach[-1][:, None] + stage).min(axis=0), UNREACHABLE))
    at = int((reach[-1] + stages[-1][:, 0]).argmin())
    choices = [at]
    for n in range(len(reach) - 1, 0, -1):
        at = int((reach[n - 1] + stages[n][:, at]).argmin())
        choices.append(at)
    return choices[::-1]


@dataclass(frozen=True)
class WholeFilling:
    """A row of a wall solved pitch by pitch; ``paths`` gives the shortest paths from every left leg, anew if need be."""

    paths: Callable[[], WallPaths]
    pitches: int
    left_legs: Ints
    right_legs: Ints
    held: Held

    @cached_property
    def ends(self) -> Ints:
        ends = self.paths().ends(0, self.right_legs)
        if self.held.anything:
            barred = self.held.bars_left(self.left_legs)[:, None] | self.held.bars_right(self.right_legs, self.pitches)
            ends = np.where(barred, UNREACHABLE, ends + self.held.owes_left(self.left_legs)[:, None])
        return ends

    def joints(self, left: int, right: int) -> list[int]:
        return self.paths().joints(0, left, int(self.right_legs[right]))
