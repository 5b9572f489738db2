"""All ways to divide one wall of one row that the best room could use, each with the designs that it must have set up.

A shortest path knows the price of every panel; here a design is paid once, however often it is used, so ways are kept apart
by their sets of designs. One way makes another idle if it would cost no more even after buying what only it needs.
"""

from collections.abc import Callable, Generator, Hashable
from dataclasses import dataclass
from itertools import groupby
from typing import NamedTuple

import numpy as np

from core.setout.rowview import RowView
from core.setout.sharing import FREE
from core.setout.strip import Piece, Strip, strip_of
from core.setout.tariff import UNREACHABLE, Ints, Tariff, make_up

Bits = int
"""A set of designs, one bit for each."""


class Designs:
    """The designs outside the kit that were met so far, by number."""

    def __init__(self) -> None:
        self._bits: dict[Hashable, Bits] = {}

    def bit(self, key: Hashable) -> Bits:
        """The bit of a design."""
        return self._bits.setdefault(key, 1 << len(self._bits))


class Way(NamedTuple):
    """One way between a left and a right leg, by index: its units without set-ups, its designs, and its joints."""

    left: int
    right: int
    units: int
    designs: Bits
    joints: tuple[int, ...]


@dataclass(frozen=True)
class Stretch:
    """One row on one wall, ready to be divided.

    ``costs`` are the candidates' units without set-up, shape (pitches, widths); ``most`` is what a way between a pair of legs
    may come to at most, its designs bought for itself, shape (left legs, right legs).
    """

    strip: Strip
    tariff: Tariff
    costs: Ints
    left_legs: Ints
    right_legs: Ints
    most: Ints

    @classmethod
    def of(cls, view: RowView, wall: int, most: Ints) -> "Stretch":
        """A wall of a row, with what is held there."""
        costs = view.workshop.tables.whole_wall(view.on_wall(wall), FREE)
        strip = strip_of(view.layers, 0, len(costs), view.blocks[wall])
        legs = view.problem.left_legs(wall), view.problem.right_legs(wall)
        return cls(strip, view.workshop.tariff, costs, *legs, most)

    @property
    def pitches(self) -> int:
        return len(self.costs)

    def from_right(self) -> Ints:
        """The least units from every pitch line to every right leg, shape (pitches + 1, right legs)."""
        least = self.tariff.kit.least_width_pitches
        found = np.full((self.pitches + 1, len(self.right_legs)), UNREACHABLE, dtype=np.int64)
        ends = self.pitches - self.right_legs
        found[ends[ends >= 0], np.flatnonzero(ends >= 0)] = 0
        for at in range(self.pitches - least, -1, -1):
            reach = found[at + least : at + least + self.costs.shape[1]]
            onward = (reach + self.costs[at, : len(reach), None]).min(axis=0)
            found[at] = np.minimum(found[at], onward)
        return found


def designs_of(strip: Strip, tariff: Tariff, begin: int, end: int, designs: Designs, corner: str = "") -> Bits:
    """The designs outside the kit that a candidate's pieces are built to; ``corner`` is the kind of the corner inside it."""
    first, last = strip.segment_at(begin), strip.segment_at(end - 1)
    found = 0
    for piece in strip.pieces(first, last):
        key = _design(strip, tariff, piece, (begin, end), corner)
        if key is not None:
            found |= designs.bit(key)
    return found


def _design(strip: Strip, tariff: Tariff, piece: Piece, ends: tuple[int, int], kind: str) -> Hashable:
    """What two pieces of one design have in common; None for a piece of the kit."""
    made = make_up(strip.layers, piece.low, piece.high)
    columns = _columns(strip, piece, ends)
    begin = max(ends[0], strip.segments[piece.first].left)
    end = min(ends[1], strip.segments[piece.last].right)
    turns = strip.corner is not None and begin < strip.corner < end
    kit = tariff.kit
    if turns:
        assert strip.corner is not None
        legs = strip.corner - begin, end - strip.corner
        in_kit = piece.is_rectangle and tariff.has_all_layers(made) and set(legs) <= set(kit.legs_pitches)
        return None if in_kit else (kind, legs[0], made, columns)
    if piece.is_rectangle and tariff.has_all_layers(made) and end - begin in kit.widths_pitches:
        return None
    return made, min(columns, columns[::-1])


Column = tuple[int, tuple[tuple[int, int], ...]]
"""So many pitches over which a piece has the same layers, counted from its lowest."""


def _columns(strip: Strip, piece: Piece, ends: tuple[int, int]) -> tuple[Column, ...]:
    """A piece's outline from left to right; columns that look the same are one."""
    found: list[Column] = []
    for at, nodes in groupby(piece.nodes, key=lambda node: node.segment):
        segment = strip.segments[at]
        width = min(ends[1], segment.right) - max(ends[0], segment.left)
        layers = tuple((node.low - piece.low, node.high - piece.low) for node in nodes)
        if found and found[-1][1] == layers:
            width += found.pop()[0]
        found.append((width, layers))
    return tuple(found)


class _Label(NamedTuple):
    """A way from the left leg to a pitch line."""

    units: int
    designs: Bits
    begin: int
    before: "_Label | None"


def ways_along(stretch: Stretch, designs: Designs, counted: Callable[[int], bool]) -> Generator[None, None, list[Way]]:
    """The ways along a wall that none makes idle and that come to less than ``most``; pauses now and then.

    ``counted`` is told how many labels are looked at, and says whether to go on; if not, nothing is found.
    """
    used = _Used(stretch, designs)
    rest = stretch.from_right()
    found: list[Way] = []
    for i, leg in enumerate(stretch.left_legs):
        # What is left for the way up to a pitch line, whichever right leg it goes to.
        allowed = (stretch.most[i] - np.minimum(rest, UNREACHABLE)).max(axis=1)
        if leg > stretch.pitches or allowed[leg] <= 0:
            continue
        lines = _Lines(stretch, used, [int(most) for most in allowed])
        lines.labels[int(leg)] = [_Label(0, 0, int(leg), None)]
        for at in range(int(leg), stretch.pitches):
            if not lines.labels[at]:
                continue
            if not counted(len(lines.labels[at])):
                return []
            yield
            lines.go_on(at)
        for j, right in enumerate(stretch.right_legs):
            end = stretch.pitches - int(right)
            if end >= leg:
                found += [
                    Way(i, j, label.units, label.designs, _joints(label, end))
                    for label in lines.labels[end]
                    if label.units + stretch.tariff.setup * label.designs.bit_count() < stretch.most[i, j]
                ]
    return found


class _Used:
    """The designs of a wall's candidates, looked up once."""

    def __init__(self, stretch: Stretch, designs: Designs) -> None:
        self._stretch, self._designs = stretch, designs
        self._known: dict[tuple[int, int], Bits] = {}

    def __call__(self, begin: int, end: int) -> Bits:
        place = begin, end
        if place not in self._known:
            self._known[place] = designs_of(self._stretch.strip, self._stretch.tariff, begin, end, self._designs)
        return self._known[place]


class _Lines:
    """The labels on every pitch line of one wall from one left leg."""

    def __init__(self, stretch: Stretch, used: _Used, allowed: list[int]) -> None:
        self._setup = stretch.tariff.setup
        self._least = stretch.tariff.kit.least_width_pitches
        self._costs = stretch.costs
        self._used = used
        self._allowed = allowed
        self.labels: list[list[_Label]] = [[] for _ in range(stretch.pitches + 1)]

    def go_on(self, at: int) -> None:
        """Go on from every label on a pitch line by every candidate that begins there."""
        labels = self.labels[at]
        if not labels:
            return
        cheapest = min(label.units for label in labels)
        for k, cost in enumerate(self._costs[at].tolist()):
            end = at + self._least + k
            if end >= len(self.labels):
                break
            if cheapest + cost >= self._allowed[end]:
                continue
            more = self._used(at, end)
            for label in labels:
                units, designs = label.units + cost, label.designs | more
                if units + self._setup * designs.bit_count() < self._allowed[end]:
                    self._keep(end, _Label(units, designs, at, label))

    def _keep(self, end: int, label: _Label) -> None:
        """Keep a label unless another makes it idle, and only those others that it does not."""
        here, setup = self.labels[end], self._setup
        if any(other.units + setup * (other.designs & ~label.designs).bit_count() <= label.units for other in here):
            return
        here[:] = [other for other in here if label.units + setup * (label.designs & ~other.designs).bit_count() > other.units]
        here.append(label)


def _joints(label: _Label, end: int) -> tuple[int, ...]:
    joints = [end]
    here: _Label | None = label
    while here is not None:
        joints.append(here.begin)
        here = here.before
    # The first label begins at its leg, as the second one does.
    return tuple(dict.fromkeys(joints[::-1]))


def corner_ways(view: RowView, wall: int, designs: Designs, most: Ints) -> list[Way]:
    """The corner panels at a wall's left end that come to less than ``most``, by (leg left of it, leg right of it)."""
    place = view.at_corner(wall)
    tariff, legs = view.workshop.tariff, view.workshop.legs
    strip = strip_of(place.layers, -place.reach[0], place.reach[1], place.blocks, corner=0)
    costs = view.workshop.tables.corner(place).cost
    found = []
    for i, j in zip(*np.nonzero(costs < most), strict=True):
        used = designs_of(strip, tariff, -int(legs[i]), int(legs[j]), designs, place.kind)
        units = int(costs[i, j])
        if units + tariff.setup * used.bit_count() < most[i, j]:
            found.append(Way(int(i), int(j), units, used, ()))
    return found
