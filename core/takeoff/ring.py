"""The starter ring: one layer of floor plates along the shell line, on which the first row stands.

It runs wherever a panel of the first row reaches the floor, so door thresholds stay free. At a square corner the wall on the
left runs through and the wall on its right butts against it, so that the ring locks square before the first panel hangs.
"""

from collections import Counter, defaultdict
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from core.parts import Part, stocked
from core.setout.result import Face, SetOut
from core.takeoff.material import Count, Material

Span = tuple[int, int]

_GAP, _PIECE, _IN_LINE = 10**9, 10**4, 1
"""What a layout avoids, worst first: pitches no plate covers, more plates, joints under joints between panels."""


@dataclass(frozen=True, slots=True)
class RingPlate:
    """One plate of the ring: its left end and length in pitches along the wall's shell line."""

    wall: int
    part: str
    at: int
    length: int


@dataclass(frozen=True, slots=True)
class Ring:
    """The whole ring; ``missing_pitches`` is what the stocked lengths cannot cover."""

    plates: tuple[RingPlate, ...]
    missing_pitches: int

    def by_wall(self) -> dict[int, Count]:
        """How many of each plate lie on each wall that has any."""
        found: defaultdict[int, Count] = defaultdict(Counter)
        for plate in self.plates:
            found[plate.wall][Material(plate.part)] += 1
        return dict(found)


def starter_ring(setout: SetOut) -> Ring:
    """The ring under a set-out's first row: fewest plates, floor plates where there is the choice, remainders from plates."""
    lengths = _lengths(setout.room.parts)
    joints = _joints(setout)
    plates: list[RingPlate] = []
    missing = 0
    for wall, spans in _turned(setout, _standing(setout)).items():
        for left, right in spans:
            inner = tuple(sorted(x - left for x in joints[wall] if left < x < right))
            sizes, gap = _tiled(right - left, inner, tuple(sorted(lengths)))
            missing += gap
            at = left
            for size in sizes:
                if size in lengths:
                    plates.append(RingPlate(wall, lengths[size], at, size))
                at += abs(size)
    return Ring(tuple(plates), missing)


def _lengths(parts: Iterable[Part]) -> dict[int, str]:
    """Which part is laid for each length: the floor plate where there is one, else the plate."""
    known = list(parts)
    found = {part.length_pitches: part.name for part in stocked(known, "plate")}
    return found | {part.length_pitches: part.name for part in stocked(known, "floor plate")}


def _floor_edges(face: Face) -> list[Span]:
    """Where a face stands on the floor: its outline's edges at height zero."""
    ring = [*face.outline, face.outline[0]]
    return [(min(a[0], b[0]), max(a[0], b[0])) for a, b in pairwise(ring) if a[1] == b[1] == 0]


def _joints(setout: SetOut) -> Mapping[int, set[int]]:
    found: defaultdict[int, set[int]] = defaultdict(set)
    for panel in setout.panels:
        for face in panel.faces:
            for left, right in _floor_edges(face):
                found[face.wall] |= {left, right}
    return found


def _standing(setout: SetOut) -> dict[int, list[Span]]:
    """The stretches of every wall on which panels stand, joined where they touch."""
    edges: defaultdict[int, list[Span]] = defaultdict(list)
    for panel in setout.panels:
        if panel.row == 0:
            for face in panel.faces:
                edges[face.wall] += _floor_edges(face)
    return {wall: _joined(edges[wall]) for wall in sorted(edges)}


def _joined(spans: list[Span]) -> list[Span]:
    found: list[Span] = []
    for left, right in sorted(spans):
        if found and found[-1][1] >= left:
            found[-1] = (found[-1][0], max(right, found[-1][1]))
        else:
            found.append((left, right))
    return found


def _turned(setout: SetOut, standing: dict[int, list[Span]]) -> dict[int, list[Span]]:
    """The stretches with every square corner's own square given to the wall on its left, and to nobody twice."""
    thick = setout.room.kit.thickness_pitches
    turned = {wall: list(spans) for wall, spans in standing.items()}
    for shell in setout.walls:
        after = (shell.wall + 1) % len(setout.walls)
        left, right = turned.get(shell.wall, []), turned.get(after, [])
        if shell.right == "free" or not left or not right or left[-1][1] != shell.pitches or right[0][0] != 0:
            continue
        if shell.right == "inside":
            right[0] = (min(thick, right[0][1]), right[0][1])
        else:
            left[-1] = (left[-1][0], left[-1][1] + thick)
    return {wall: [span for span in spans if span[1] > span[0]] for wall, spans in turned.items()}


@lru_cache(maxsize=2048)
def _tiled(length: int, joints: tuple[int, ...], sizes: tuple[int, ...]) -> tuple[tuple[int, ...], int]:
    """Sizes from left to right that fill a length, and how many pitches stay bare; those show as -1."""
    above = frozenset(joints)
    costs = [0] * (length + 1)
    firsts = [0] * (length + 1)
    for rest in range(1, length + 1):
        at = length - rest
        best, first = costs[rest - 1] + _GAP, -1
        for size in sizes:
            if size <= rest:
                cost = costs[rest - size] + _PIECE + (_IN_LINE if at + size in above else 0)
                if cost <= best:
                    best, first = cost, size
        costs[rest], firsts[rest] = best, first
    found: list[int] = []
    rest = length
    while rest:
        found.append(firsts[rest])
        rest -= abs(firsts[rest])
    return tuple(found), found.count(-1)
