"""Which lengths divide into whole panels of the kit: plain arithmetic on pitches."""

from collections.abc import Iterable
from functools import lru_cache

from core.kit import Kit
from core.setout.result import CornerKind, WallShell


@lru_cache(maxsize=64)
def whole_runs(widths: tuple[int, ...], ends: tuple[tuple[int, ...], ...], longest: int) -> frozenset[int]:
    """The lengths up to ``longest`` pitches that are one of each of ``ends`` and any number of ``widths`` together."""
    reached = {0}
    for choices in ends:
        reached = {length + one for length in reached for one in choices}
    for length in range(longest + 1):
        if length not in reached and any(length - width in reached for width in widths):
            reached.add(length)
    return frozenset(length for length in reached if 0 < length <= longest)


def wall_runs(kit: Kit, wall: WallShell, longest: int) -> frozenset[int]:
    """The pitches a wall with such ends may have to divide into kit panels, a kit leg around every square corner."""
    return whole_runs(kit.widths_pitches, (*_legs(kit, wall.left), *_legs(kit, wall.right)), longest)


def left_runs(kit: Kit, wall: WallShell) -> frozenset[int]:
    """The pitches from a wall's left end at which a stretch of whole panels may end."""
    return whole_runs(kit.widths_pitches, _legs(kit, wall.left), wall.pitches)


def right_runs(kit: Kit, wall: WallShell) -> frozenset[int]:
    """The same from the wall's right end."""
    return whole_runs(kit.widths_pitches, _legs(kit, wall.right), wall.pitches)


def nearest_of(runs: Iterable[int], pitches: int, count: int) -> list[int]:
    """The ``count`` runs nearest to a length, nearest first, the shorter of two equally near."""
    return sorted(runs, key=lambda run: (abs(run - pitches), run))[:count]


def _legs(kit: Kit, end: CornerKind) -> tuple[tuple[int, ...], ...]:
    return () if end == "free" else (kit.legs_pitches,)
