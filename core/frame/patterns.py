"""What can be cut from one board: pricing by dynamic programming, and listing all patterns that may matter."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray


@dataclass(frozen=True, slots=True)
class Pattern:
    """How many of each piece are cut from one board of that stock length, in whole tenths of a millimetre."""

    stock: int
    counts: tuple[int, ...]


class Pricing:
    """Pieces and boards with the kerf already added to both; finds the pattern worth most at given prices of pieces."""

    def __init__(self, widths: Sequence[int], demand: Sequence[int], rooms: Sequence[int]) -> None:
        self.widths = tuple(widths)
        self.demand = tuple(demand)
        self.rooms = tuple(rooms)
        self._lots = [
            (i, many, many * width) for i, width in enumerate(widths) for many in _lots(min(demand[i], max(rooms) // width))
        ]

    def simple_patterns(self, stock: Sequence[int]) -> Iterator[Pattern]:
        """Patterns that make every demand reachable: each piece alone, and boards filled longest piece first."""
        for room, length in zip(self.rooms, stock, strict=True):
            for i, width in enumerate(self.widths):
                if width <= room:
                    yield Pattern(length, self._only(i, min(self.demand[i], room // width)))
            yield from self._filled(room, length)

    def _only(self, index: int, many: int) -> tuple[int, ...]:
        return tuple(many if i == index else 0 for i in range(len(self.widths)))

    def _filled(self, room: int, length: int) -> Iterator[Pattern]:
        """Board after board of one length, each filled with the longest pieces still wanted."""
        left = [many if width <= room else 0 for width, many in zip(self.widths, self.demand, strict=True)]
        while any(left):
            rest, counts = room, []
            for i, width in enumerate(self.widths):
                counts.append(min(left[i], rest // width))
                rest -= counts[-1] * width
            boards = min(left[i] // many for i, many in enumerate(counts) if many)
            left = [have - boards * many for have, many in zip(left, counts, strict=True)]
            yield Pattern(length, tuple(counts))

    def best_patterns(self, stock: Sequence[int], prices: Sequence[float]) -> list[tuple[Pattern, float]]:
        """For every stock length the pattern worth most, and its worth."""
        most = max(self.rooms)
        worth = np.zeros(most + 1)
        # Nearly all time goes into these tables of tens of thousands of lengths, so that none is made twice.
        spare = np.empty((2, most + 1))
        taken: list[NDArray[np.bool_]] = []
        for i, many, width in self._lots:
            raised = np.zeros(most + 1, dtype=bool)
            if prices[i] > 0:
                offered, enough = spare[:, : most + 1 - width]
                np.add(worth[: most + 1 - width], prices[i] * many, out=offered)
                np.add(worth[width:], 1e-12, out=enough)
                np.greater(offered, enough, out=raised[width:])
                np.copyto(worth[width:], offered, where=raised[width:])
            taken.append(raised)
        return [
            (Pattern(length, self._traced(taken, room)), float(worth[room]))
            for room, length in zip(self.rooms, stock, strict=True)
        ]

    def _traced(self, taken: Sequence[NDArray[np.bool_]], room: int) -> tuple[int, ...]:
        counts = [0] * len(self.widths)
        for (i, many, width), raised in zip(reversed(self._lots), reversed(taken), strict=True):
            if raised[room]:
                counts[i] += many
                room -= width
        return tuple(counts)


def filled_boards(pricing: Pricing, stock: Sequence[int], favour_long: float) -> dict[Pattern, int]:
    """Boards filled one after the other as full as they can be: the stock length with the smallest share left over first.

    ``favour_long`` over 1 prefers long pieces to several short ones of the same length in all. Every piece must fit some board.
    """
    longest = max(pricing.widths)
    worth = [(width / longest) ** favour_long for width in pricing.widths]
    left = list(pricing.demand)
    boards: dict[Pattern, int] = {}
    while any(left):
        rest = Pricing(pricing.widths, left, pricing.rooms)
        pattern = _fullest(rest, stock, worth)
        times = min(left[i] // many for i, many in enumerate(pattern.counts) if many)
        boards[pattern] = boards.get(pattern, 0) + times
        left = [have - times * many for have, many in zip(left, pattern.counts, strict=True)]
    return boards


def _fullest(pricing: Pricing, stock: Sequence[int], worth: Sequence[float]) -> Pattern:
    wanted = sum(width * many for width, many in zip(pricing.widths, pricing.demand, strict=True))
    for room, length in zip(pricing.rooms, stock, strict=True):
        if wanted <= room:
            return Pattern(length, pricing.demand)

    def waste(pattern: Pattern) -> float:
        return 1 - sum(width * many for width, many in zip(pricing.widths, pattern.counts, strict=True)) / pattern.stock

    found = [pattern for pattern, _ in pricing.best_patterns(stock, worth) if any(pattern.counts)]
    return min(found, key=lambda pattern: (waste(pattern), -pattern.stock))


def _lots(most: int) -> Iterator[int]:
    """Numbers whose subsets add up to everything from 0 to ``most``: 1, 2, 4 ... and a rest."""
    lot = 1
    while most > 0:
        yield min(lot, most)
        most -= lot
        lot *= 2


def all_within(
    pricing: Pricing, stock: Sequence[int], prices: Sequence[float], most_reduced_cost: float, most: int
) -> list[Pattern] | None:
    """All patterns whose board costs at most that much more than its pieces are worth; None where there are over ``most``.

    A pattern outside this list cannot be in a plan that costs less than the bound plus that much.
    """
    order = sorted(range(len(prices)), key=lambda i: -prices[i] / pricing.widths[i])
    found: list[Pattern] = []
    steps = 0
    for room, length in zip(pricing.rooms, stock, strict=True):
        least_worth = length - most_reduced_cost - 1e-6 * length
        todo: list[tuple[int, int, float, tuple[int, ...]]] = [(0, room, 0.0, ())]
        while todo:
            steps += 1
            if len(found) > most or steps > 50 * most:
                return None
            depth, rest, worth, counts = todo.pop()
            if depth == len(order):
                if worth >= least_worth and any(counts):
                    by_piece = dict(zip(order, counts, strict=True))
                    found.append(Pattern(length, tuple(by_piece[i] for i in range(len(order)))))
                continue
            i = order[depth]
            width, price = pricing.widths[i], prices[i]
            if worth + rest * price / width < least_worth:
                continue
            todo += [
                (depth + 1, rest - many * width, worth + many * price, (*counts, many))
                for many in range(min(pricing.demand[i], rest // width) + 1)
            ]
    return found
