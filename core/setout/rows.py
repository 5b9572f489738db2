"""Row stacks: which heights rows may have, and the cheapest way to stack them under the clad height, exactly."""

import math
from collections.abc import Callable, Hashable, Iterable, Sequence
from dataclasses import dataclass
from functools import lru_cache

from core.kit import Kit
from core.setout.result import Row
from core.setout.shell import to_nm

RowCost = Callable[[int, int], int]
"""Cost of a row by its bottom in plates and its courses."""

State = tuple[int, bool]
"""A height reached, in plates, and whether the closing row is used up."""


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


def cheapest_stack(
    stacking: Stacking,
    bound: RowCost,
    evaluate: Callable[[list[tuple[int, int]]], list[int]],
    likeness: Callable[[int, int], Hashable] = lambda bottom, courses: (bottom, courses),
    expected: Iterable[tuple[int, int]] = (),
) -> tuple[Row, ...]:
    """The stack with the least sum of row costs; among equals the one with fewer rows, then taller rows lower down.

    ``bound`` never exceeds a row's cost and is cheap; ``evaluate`` costs rows exactly, several at a time; rows of equal
    ``likeness`` cost the same. The cheapest stack under what is known so far is sought and its unknown rows are evaluated,
    until a cheapest stack is known altogether. ``expected`` rows are evaluated to begin with, since a similar search looked at
    them; that saves time and changes nothing else. Returns an empty stack where none fits.
    """
    graph = stack_graph(stacking)
    costs = [bound(bottom, courses) for bottom, courses in graph.steps]
    alike: dict[Hashable, list[int]] = {}
    for step, place in enumerate(graph.steps):
        alike.setdefault(likeness(*place), []).append(step)
    wanted = [place for place in expected if place in graph.numbers]
    while True:
        path = graph.cheapest(costs) if not wanted else []
        keys = [likeness(*place) for place in (wanted or (graph.steps[step] for step in path))]
        unknown = {key: alike[key][0] for key in keys if key in alike}
        if not unknown and not wanted:
            break
        wanted = []
        for key, cost in zip(unknown, evaluate([graph.steps[step] for step in unknown.values()]), strict=True):
            for step in alike.pop(key):
                costs[step] = cost
    return stacked(stacking.kit, [graph.steps[step][1] for step in path])


def stacked(kit: Kit, courses: Iterable[int]) -> tuple[Row, ...]:
    """Rows of so many courses one on another from the floor up."""
    rows: list[Row] = []
    for number, count in enumerate(courses):
        bottom = rows[-1].z_plates + rows[-1].height_plates if rows else 0
        rows.append(Row(number, bottom, count, kit.row_plates(count)))
    return tuple(rows)


def stacks_up(stacking: Stacking, courses: Sequence[int]) -> bool:
    """Whether rows of these courses make a stack as set-out may plan it: of the right height, with at most one closing row."""
    kit = stacking.kit
    height = sum(kit.row_plates(count) for count in courses)
    closing = [count for count in courses if count not in (kit.full_courses, kit.half_courses)]
    allowed = all(kit.least_closing_courses <= count < kit.full_courses for count in closing)
    return stacking.least_plates <= height <= stacking.most_plates and len(closing) <= 1 and allowed


@dataclass(frozen=True)
class StackGraph:
    """Every row that can be part of a stack that fits.

    ``steps`` lists them as (bottom in plates, courses), ``numbers`` has their places in it. ``onward`` lists, for every state
    from the highest down, whether the stack may end there and which (step, number of the state above) lead on; the floor
    comes last.
    """

    steps: tuple[tuple[int, int], ...]
    numbers: dict[tuple[int, int], int]
    onward: tuple[tuple[bool, tuple[tuple[int, int], ...]], ...]

    def cheapest(self, costs: list[int]) -> list[int]:
        """The steps of the cheapest stack, from the floor up."""
        best: list[tuple[int | float, int, int]] = []
        for may_end, leads in self.onward:
            here: tuple[int | float, int, int] = (0, 0, -1) if may_end else (math.inf, 0, -1)
            for n, (step, above) in enumerate(leads):
                cost, rows, _ = best[above]
                if (cost + costs[step], rows + 1) < here[:2]:
                    here = (cost + costs[step], rows + 1, n)
            best.append(here)
        path: list[int] = []
        state = len(best) - 1
        while state >= 0 and best[state][2] >= 0:
            step, state = self.onward[state][1][best[state][2]]
            path.append(step)
        return path


@lru_cache(maxsize=32)
def stack_graph(stacking: Stacking) -> StackGraph:
    """The rows of all stacks that fit; none where no stack does."""
    kit = stacking.kit
    standard = (kit.full_courses, kit.half_courses)
    closing = [c for c in range(kit.full_courses - 1, kit.least_closing_courses - 1, -1) if c != kit.half_courses]
    plain = _sums(1, standard, stacking)
    reachable = {False: plain, True: _closed_sums(plain, closing, standard, stacking)}
    numbers: dict[State, int] = {}
    steps: dict[tuple[int, int], int] = {}
    onward: list[tuple[bool, tuple[tuple[int, int], ...]]] = []
    for bottom in range(stacking.most_plates, -1, -1):
        for used in (True, False):
            if not reachable[used] >> bottom & 1:
                continue
            leads = []
            for courses in (*standard, *(() if used else closing)):
                above = (bottom + kit.row_plates(courses), used or courses not in standard)
                if above in numbers:
                    leads.append((steps.setdefault((bottom, courses), len(steps)), numbers[above]))
            if leads or bottom >= stacking.least_plates:
                numbers[bottom, used] = len(onward)
                onward.append((bottom >= stacking.least_plates, tuple(leads)))
    return StackGraph(tuple(steps), steps, tuple(onward) if (0, False) in numbers else ())


def lone_stack(rows: Sequence[Row]) -> StackGraph:
    """The rows of one stack, which no other stack can be made of."""
    steps = tuple((row.z_plates, row.courses) for row in rows)
    onward: list[tuple[bool, tuple[tuple[int, int], ...]]] = [(True, ())]
    for above, step in enumerate(range(len(steps) - 1, -1, -1)):
        onward.append((False, ((step, above),)))
    return StackGraph(steps, {step: n for n, step in enumerate(steps)}, tuple(onward))


def _sums(begin: int, courses: tuple[int, ...], stacking: Stacking) -> int:
    """The set of heights reached by stacking standard rows on those in the set ``begin``; bit n stands for n plates."""
    within = (1 << (stacking.most_plates + 1)) - 1
    sums = begin
    while True:
        more = sums
        for c in courses:
            more |= sums << stacking.kit.row_plates(c) & within
        if more == sums:
            return sums
        sums = more


def _closed_sums(plain: int, closing: list[int], standard: tuple[int, ...], stacking: Stacking) -> int:
    """The set of heights of stacks that hold a closing row."""
    within = (1 << (stacking.most_plates + 1)) - 1
    closed = 0
    for c in closing:
        closed |= plain << stacking.kit.row_plates(c) & within
    return _sums(closed, standard, stacking)
