"""Row stacks: which heights rows may have, and the cheapest way to stack them under the clad height, exactly."""

import math
from collections.abc import Callable
from dataclasses import dataclass
from functools import lru_cache

from core.kit import Kit
from core.setout.result import Row
from core.setout.shell import to_nm

NO_STACK = math.inf

State = tuple[int, bool]


@dataclass(frozen=True, slots=True)
class Stacking:
    """All stacks that fit a clad height: from ``least_plates`` to ``most_plates`` high."""

    kit: Kit
    least_plates: int
    most_plates: int


def stacking_of(kit: Kit, clad_height_mm: float) -> Stacking:
    """The total heights that leave no more than the head gap open."""
    plate, clad = to_nm(kit.plate_mm), to_nm(clad_height_mm)
    most = clad // plate
    least = -((to_nm(kit.head_gap_mm) - clad) // plate)
    return Stacking(kit, max(1, int(least)), int(most))


RowCost = Callable[[int, int], int]
"""Cost of a row by its bottom in plates and its courses."""


def cheapest_stack(stacking: Stacking, bound: RowCost, evaluate: Callable[[list[tuple[int, int]]], list[int]]) -> tuple[Row, ...]:
    """The stack with the least sum of row costs; among equals the one with fewer rows, then full rows lowest.

    ``bound`` never exceeds a row's cost and is cheap; ``evaluate`` costs rows exactly, several at a time. The shortest path
    under what is known so far is sought, its unknown rows are evaluated, until a path is known altogether. Returns an
    empty stack where none fits.
    """
    known: dict[tuple[int, int], int] = {}

    def cost(bottom: int, courses: int) -> int:
        return known[bottom, courses] if (bottom, courses) in known else bound(bottom, courses)

    while True:
        path = _shortest(stacking, cost)
        unknown = [step for step in path if step not in known]
        if not unknown:
            return _rows(stacking.kit, path)
        known |= dict(zip(unknown, evaluate(unknown), strict=True))


@lru_cache(maxsize=32)
def feasible_rows(stacking: Stacking) -> dict[State, list[tuple[int, State]]]:
    """The graph of stacks: from a state to (courses, the state above), only steps that can be completed.

    A state is (bottom in plates, closing row used); states come highest first.
    """
    kit = stacking.kit
    standard = (kit.full_courses, kit.half_courses)
    closing = [c for c in range(kit.least_closing_courses, kit.full_courses) if c != kit.half_courses]
    plain = _sums(0, standard, stacking)
    reachable = {False: plain, True: _closed_sums(plain, closing, standard, stacking)}
    graph: dict[State, list[tuple[int, State]]] = {}
    for bottom in range(stacking.most_plates, -1, -1):
        for used in (True, False):
            if not reachable[used] >> bottom & 1:
                continue
            onward = [(c, (bottom + kit.row_plates(c), used)) for c in standard]
            if not used:
                onward += [(c, (bottom + kit.row_plates(c), True)) for c in closing]
            good = [(c, above) for c, above in onward if above in graph]
            if good or bottom >= stacking.least_plates:
                graph[bottom, used] = good
    return graph


def _sums(begin: int, courses: tuple[int, ...], stacking: Stacking) -> int:
    """Heights reachable by adding standard rows to those in the bit set ``begin`` (0 stands for the floor alone)."""
    sums = begin or 1
    within = (1 << (stacking.most_plates + 1)) - 1
    while True:
        more = sums
        for c in courses:
            more |= sums << stacking.kit.row_plates(c) & within
        if more == sums:
            return sums
        sums = more


def _closed_sums(plain: int, closing: list[int], standard: tuple[int, ...], stacking: Stacking) -> int:
    within = (1 << (stacking.most_plates + 1)) - 1
    closed = 0
    for c in closing:
        closed |= plain << stacking.kit.row_plates(c) & within
    return _sums(closed, standard, stacking) if closed else 0


def _shortest(stacking: Stacking, cost: RowCost) -> list[tuple[int, int]]:
    graph = feasible_rows(stacking)
    start = (0, False)
    if start not in graph:
        return []
    best: dict[State, tuple[float, int, int]] = {}
    for state in graph:
        bottom, _ = state
        done = (0.0, 0, -1) if bottom >= stacking.least_plates else (NO_STACK, 0, -1)
        options = [done]
        for courses, above in graph[state]:
            if above in best:
                onward = best[above]
                options.append((cost(bottom, courses) + onward[0], onward[1] + 1, courses))
        best[state] = min(options, key=lambda option: (option[0], option[1], -option[2]))
    path = []
    state = start
    while best[state][2] >= 0:
        bottom, courses = state[0], best[state][2]
        path.append((bottom, courses))
        state = next(above for c, above in graph[state] if c == courses)
    return path


def _rows(kit: Kit, path: list[tuple[int, int]]) -> tuple[Row, ...]:
    return tuple(Row(n, bottom, courses, kit.row_plates(courses)) for n, (bottom, courses) in enumerate(path))
