"""Ways to fill a run of pitches with pieces of given lengths, left to right."""

from collections.abc import Iterator
from functools import lru_cache
from itertools import accumulate

NEVER = 10**9
"""More pieces than any run takes: stands for a run that cannot be filled."""

Tiling = tuple[int, ...]
"""Lengths from the left."""


@lru_cache(maxsize=1024)
def fewest_pieces(longest: int, lengths: tuple[int, ...]) -> tuple[int, ...]:
    """The least number of pieces that fill each run of 0 to ``longest`` pitches; NEVER where none do."""
    table = [0]
    for run in range(1, longest + 1):
        table.append(min((table[run - piece] + 1 for piece in lengths if piece <= run), default=NEVER))
    return tuple(min(count, NEVER) for count in table)


def count_tilings(run: int, lengths: tuple[int, ...]) -> int:
    """How many tilings of a run there are."""
    table = [1]
    for length in range(1, run + 1):
        table.append(sum(table[length - piece] for piece in lengths if piece <= length))
    return table[run]


def all_tilings(run: int, lengths: tuple[int, ...]) -> Iterator[Tiling]:
    """Every tiling of a run, those that begin with longer pieces first."""
    if run == 0:
        yield ()
    for piece in sorted(lengths, reverse=True):
        if piece <= run and fewest_pieces(run, lengths)[run - piece] < NEVER:
            for rest in all_tilings(run - piece, lengths):
                yield piece, *rest


@lru_cache(maxsize=256)
def short_tilings(run: int, lengths: tuple[int, ...], few: int, small: int) -> tuple[Tiling, ...]:
    """Every tiling of a run if there are no more than ``small``, else ``few`` of those with few pieces and few short ones.

    Those come first whose pieces are fewest, then those whose short pieces lie nearest to the ends. Empty if the run cannot be
    filled.
    """
    fewest = fewest_pieces(run, lengths)[run]
    if fewest == NEVER:
        return ()
    if count_tilings(run, lengths) <= small:
        return tuple(sorted(all_tilings(run, lengths), key=_plainness))
    found: list[Tiling] = []
    for count in (fewest, fewest + 1):
        of_count = sorted(_of_count(run, lengths, count), key=_plainness)
        found += of_count[: few - len(found)]
    return tuple(found)


def joints_of(tiling: Tiling) -> tuple[int, ...]:
    """The joints inside a tiling, from its left end."""
    return tuple(accumulate(tiling))[:-1]


def _plainness(tiling: Tiling) -> tuple[int, int, int, Tiling]:
    longest = max(tiling, default=0)
    depths = [min(n, len(tiling) - 1 - n) for n, piece in enumerate(tiling) if piece != longest]
    return len(tiling), sum(depths), len(depths), tiling


LEAST_SHORT = 2


def _of_count(run: int, lengths: tuple[int, ...], count: int) -> Iterator[Tiling]:
    """Tilings of so many pieces of which no more are short than must be, or two."""
    longest = max(lengths)
    least = next((n for n in range(count + 1) if _fits(run - (count - n) * longest, n, lengths)), None)
    if least is not None:
        yield from _with_short(run, lengths, count, max(least, LEAST_SHORT))


def _fits(run: int, count: int, lengths: tuple[int, ...]) -> bool:
    """Whether so many pieces shorter than the longest fill a run."""
    reach = {0}
    for _ in range(count):
        reach = {length + piece for length in reach for piece in lengths[:-1] if length + piece <= run}
    return run in reach


def _with_short(run: int, lengths: tuple[int, ...], count: int, short: int) -> Iterator[Tiling]:
    if count == 0:
        if run == 0:
            yield ()
        return
    longest = lengths[-1]
    if run > count * longest or run < min(short, count) * lengths[0] + max(0, count - short) * longest:
        return
    if short == 0:
        if run == count * longest:
            yield (longest,) * count
        return
    for piece in reversed(lengths):
        if piece <= run:
            for rest in _with_short(run - piece, lengths, count - 1, short - (piece != longest)):
                yield piece, *rest
