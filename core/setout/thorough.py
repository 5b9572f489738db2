"""The plan in full: promising stacks searched for the set-ups that pay, and in small rooms the least proven."""

from collections import Counter
from collections.abc import Generator
from dataclasses import replace

from core.setout.balance import balanced
from core.setout.holding import bars_stack
from core.setout.plan import Plan
from core.setout.planning import Planner
from core.setout.problem import Problem
from core.setout.result import Row
from core.setout.rows import stacked
from core.setout.workshop import Workshop

STACKS_SEARCHED = 3
"""How many stacks, of those that the quick plan finds cheapest, are searched for set-ups that pay, in small rooms."""

LITTLE_WORK = 100
"""A search that took no more than this is worth another one from the next stack."""

MOST_CANDIDATES = 12_000
"""Candidates of one row, counted for every leg they can follow; in a room with more the least is not sought to be proven."""

MOST_MOVED = 12
"""How many stacks with one row moved are tried."""


def thorough_plan(problem: Problem, workshop: Workshop) -> Generator[None, None, Plan]:
    """A plan that costs no more than the quick one, and mostly less, with its bound; pauses now and then."""
    planner = Planner(problem, workshop)
    quick = [planner.sketch(planner.stack(planner.spread))]
    yield
    for rows in planner.stacks():
        quick.append(planner.plan(rows))
        yield
    best = min(quick, key=lambda plan: plan.units)
    if not best.rows or problem.room.joints == "staggered":
        return replace(best, at_least=planner.at_least)
    for rows in moved_rows(best.rows, problem):
        quick.append(planner.sketch(rows))
        yield
    promising = sorted({plan.rows: plan for plan in quick}.values(), key=lambda plan: plan.units)[:STACKS_SEARCHED]
    for start in promising:
        searched = yield from planner.searched(start)
        best = min(best, searched, key=lambda plan: plan.units)
        if planner.work > LITTLE_WORK:
            break
    return balanced((yield from proven(best, planner, problem, workshop)))


def proven(best: Plan, planner: Planner, problem: Problem, workshop: Workshop) -> Generator[None, None, Plan]:
    """The plan, or a cheaper one, with the best bound there is."""
    at_least = planner.at_least
    # Some designs were paid for already where panels are built; then the minutes shown are not what is minimised.
    if not workshop.tariff.setup or problem.paid[2] or not is_small(problem):
        return replace(best, at_least=at_least)
    # Brings much along, which most rooms have no use for.
    from core.setout.proof import Proof, worth_finding

    found = yield from Proof(problem, workshop.tariff, planner.possible_rows()).run(best.units)
    if found.joints is not None:
        best = min(best, taller_rows_first(planner.divided(found.joints), planner, problem), key=lambda plan: plan.units)
    is_closed = found.least >= worth_finding(best.units, workshop.tariff)
    return replace(best, at_least=best.units if is_closed else max(at_least, found.least))


def is_small(problem: Problem) -> bool:
    """Whether proving the least is worth the try."""
    kit = problem.room.kit
    widths = kit.full_width - kit.least_width_pitches + 1
    return sum(wall.pitches for wall in problem.shell.walls) * widths * len(problem.legs) <= MOST_CANDIDATES


def taller_rows_first(plan: Plan, planner: Planner, problem: Problem) -> Plan:
    """The same rows with taller ones lower down, if every row finds all it depends on at its new height."""
    if any(pin.kind == "rows" for pin in problem.room.pins):
        return plan
    courses = tuple(row.courses for row in plan.rows)
    stacks = {tuple(row.courses for row in rows) for rows in moved_rows(plan.rows, problem)} | {
        tuple(sorted(courses, reverse=True))
    }
    joints = {division.view.key: division.joints for division in plan.divisions}
    for taller_first in sorted((stack for stack in stacks if stack > courses), reverse=True):
        steps = [(row.z_plates, row.courses) for row in stacked(problem.room.kit, taller_first)]
        keys = [planner.view_at(step).key for step in steps]
        if Counter(keys) == Counter(division.view.key for division in plan.divisions):
            return planner.divided({step: joints[key] for step, key in zip(steps, keys, strict=True)})
    return plan


def moved_rows(rows: tuple[Row, ...], problem: Problem) -> list[tuple[Row, ...]]:
    """The stacks that one row of another height than the most, moved elsewhere, makes of a stack."""
    courses = [row.courses for row in rows]
    usual = max(set(courses), key=lambda c: (courses.count(c), c))
    stacks: dict[tuple[int, ...], None] = {}
    for at, odd in enumerate(courses):
        if odd != usual:
            rest = courses[:at] + courses[at + 1 :]
            stacks |= {(*rest[:to], odd, *rest[to:]): None for to in range(len(courses))}
    stacks.pop(tuple(courses), None)
    if any(pin.kind == "rows" for pin in problem.room.pins):
        return []
    moved = [stacked(problem.room.kit, stack) for stack in list(stacks)[:MOST_MOVED]]
    return [rows for rows in moved if not any(bars_stack(problem, row.z_plates, row.courses) for row in rows)]
