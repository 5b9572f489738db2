"""The room's rows planned together: the cheapest stack, then every row divided, sharing set-ups where that pays."""

from collections.abc import Callable, Generator, Hashable, Mapping
from dataclasses import replace
from functools import cached_property

import numpy as np

from core.setout.bound import RowBound
from core.setout.division import Division
from core.setout.holding import bars_stack
from core.setout.nearness import Near, divided_near
from core.setout.plan import Plan
from core.setout.problem import Problem
from core.setout.proof import Rows, Step
from core.setout.result import Row
from core.setout.rows import Stacking, cheapest_stack, lone_stack, stack_graph, stacked, stacking_of, stacks_up
from core.setout.rowview import Joints, RowView
from core.setout.setups import SetUpSearch
from core.setout.sharing import FREE, Group, Sharing, total
from core.setout.tariff import UNREACHABLE, Prices
from core.setout.workshop import Workshop

UNNUMBERED = -1

SET_UPS_OF_A_CLOSING_ROW = 2
"""A closing row needs designs of its own: at least a corner and a flat panel."""

MOST_EXPECTED = 30
"""Rows that a search may hand on to the next one; with more, only those it chose."""


PricesOf = Callable[[int], Prices]
"""The prices for rows of so many courses."""


def ignoring_set_up(_courses: int) -> Prices:
    """No prices at all."""
    return FREE


def plan(problem: Problem, workshop: Workshop, near: Near | None = None) -> Plan:
    """Choose the row stack and divide every row, quickly. The plan is empty where no stack fits the clad height.

    One list of prices serves all: a set-up is spread over the rows that could share it. Near another set-out its rows are kept
    if they still fit, those that nothing has changed for stay divided as they are, and the designs it sets up are thought to
    be set up already.
    """
    planner = Planner(problem, workshop, near)
    return planner.sketch(planner.kept_stack() or planner.stack(planner.spread))


class Planner:
    """Plans one room with the kept work of its workshop."""

    def __init__(self, problem: Problem, workshop: Workshop, near: Near | None = None) -> None:
        workshop.make_room_for(problem.room.wall_count)
        self._problem = problem
        self._workshop = workshop
        self._setup = workshop.tariff.setup
        self._near = near
        self._views: dict[tuple[int, int], RowView] = {}
        self.work = 0
        """What searching took so far, in fillings of rows on walls."""

    def stacks(self) -> list[tuple[Row, ...]]:
        """The stacks worth dividing: the cheapest without set-ups, and the cheapest if closing rows owe two set-ups."""
        stacks = [self._cheapest_stack]
        kit = self._problem.room.kit
        if any(row.courses not in (kit.full_courses, kit.half_courses) for row in stacks[0]):
            stacks.append(self.stack(ignoring_set_up, SET_UPS_OF_A_CLOSING_ROW * self._setup))
        return list(dict.fromkeys(stacks))

    @cached_property
    def _cheapest_stack(self) -> tuple[Row, ...]:
        return self.stack(ignoring_set_up)

    @property
    def at_least(self) -> int:
        """Units that any plan costs at least: those of the cheapest stack without set-ups, which only ever add."""
        return sum(self._row_cost((row.z_plates, row.courses), FREE) for row in self._cheapest_stack)

    def kept_stack(self) -> tuple[Row, ...]:
        """The rows of the set-out to stay near, where they still fit; else none."""
        kit = self._problem.room.kit
        stacking = stacking_of(kit, self._problem.room.clad_height_mm)
        if self._near is None or not stacks_up(stacking, self._near.courses) or self._pinned_rows(stacking):
            return ()
        rows = stacked(kit, self._near.courses)
        return () if any(bars_stack(self._problem, row.z_plates, row.courses) for row in rows) else rows

    def spread(self, courses: int) -> Prices:
        """Prices that spread a set-up over as many rows of a height as the room may have."""
        kit = self._problem.room.kit
        most = stacking_of(kit, self._problem.room.clad_height_mm).most_plates // kit.row_plates(kit.full_courses)
        rows = max(1, most) if courses == kit.full_courses else 1
        plain, corner, _ = self._problem.paid
        if self._near is not None:
            plain, corner = plain | self._near.plain, corner | self._near.corner
        return Prices(rows, rows, plain, corner)

    def stack(self, prices_of: PricesOf, closing_surcharge: int = 0) -> tuple[Row, ...]:
        """The cheapest row stack, each row solved alone at the prices for its height; closing rows pay a surcharge."""
        kit = self._problem.room.kit
        stacking = stacking_of(kit, self._problem.room.clad_height_mm)
        pinned = self._pinned_rows(stacking)
        if pinned:
            return pinned
        looked_at: list[tuple[int, int]] = []
        bound = self._bound()

        def surcharge(courses: int) -> int:
            return 0 if courses in (kit.full_courses, kit.half_courses) else closing_surcharge

        def evaluate(steps: list[tuple[int, int]]) -> list[int]:
            looked_at.extend(steps)
            return [
                int(UNREACHABLE) if self._is_barred(step) else self._row_cost(step, prices_of(step[1])) + surcharge(step[1])
                for step in steps
            ]

        def at_least(bottom: int, courses: int) -> int:
            return int(UNREACHABLE) if self._is_barred((bottom, courses)) else bound(bottom, courses) + surcharge(courses)

        def likeness(bottom: int, courses: int) -> Hashable:
            return (bottom, courses) if self._is_held else bound.likeness(bottom, courses)

        search = stacking, prices_of(kit.full_courses), closing_surcharge
        expected = self._workshop.looked_at.get(search, [])
        stack = cheapest_stack(stacking, at_least, evaluate, likeness, expected)
        worth_a_look = looked_at if len(looked_at) <= MOST_EXPECTED else [(row.z_plates, row.courses) for row in stack]
        self._workshop.looked_at[search] = worth_a_look
        return stack

    @cached_property
    def _is_held(self) -> bool:
        return bool(self._problem.room.pins or self._problem.room.progress.panels)

    def _is_barred(self, step: Step) -> bool:
        """Whether a row would lie across panels that hang."""
        return self._is_held and bars_stack(self._problem, *step)

    def possible_rows(self) -> Rows:
        """The rows that stacks of the room may hold, and what they cost without set-ups."""
        stacking = stacking_of(self._problem.room.kit, self._problem.room.clad_height_mm)
        pinned = self._pinned_rows(stacking)
        bound = self._bound()
        return Rows(
            graph=stack_graph(stacking) if not pinned else lone_stack(pinned),
            least=lambda step: int(UNREACHABLE) if self._is_barred(step) else bound(*step),
            cost=lambda step: int(UNREACHABLE) if self._is_barred(step) else self._row_cost(step, FREE),
            view=self.view_at,
        )

    def _pinned_rows(self, stacking: Stacking) -> tuple[Row, ...]:
        """The stack a person pinned, if it fits; else none."""
        for pin in self._problem.room.pins:
            if pin.kind == "rows" and stacks_up(stacking, pin.courses):
                return stacked(stacking.kit, pin.courses)
        return ()

    def _bound(self) -> RowBound:
        bound = RowBound(self._problem, self._workshop)
        return self._workshop.bounds.get(bound.key, lambda: bound)

    def _row_cost(self, step: Step, prices: Prices) -> int:
        view = self.view_at(step)
        return self._workshop.rows.get(("cost", self._problem.key, view.key, prices), lambda: view.cost(prices))

    def view_at(self, step: Step) -> RowView:
        """The row of so many courses at a height, looked up."""
        bottom, courses = step
        return self._view(Row(UNNUMBERED, bottom, courses, self._problem.room.kit.row_plates(courses)))

    def _view(self, row: Row) -> RowView:
        """The row looked up, without its number: one view serves every stack in which the row stands at that height."""
        place = row.z_plates, row.courses
        if place not in self._views:
            self._views[place] = RowView(self._problem, self._workshop, replace(row, index=UNNUMBERED))
        return self._views[place]

    def sketch(self, rows: tuple[Row, ...]) -> Plan:
        """Divide all rows of a stack at the prices the stack was chosen by."""
        if self._problem.room.joints == "staggered":
            return self._staggered(rows)
        groups, kept = (self._groups(rows), {}) if self._near is None else self._near_groups(rows, self._near)
        sharing = Sharing(self._problem, self._workshop, groups, self.spread, self._setup, kept)
        return self._in_line(rows, groups, sharing.best(), sharing)

    def _near_groups(self, rows: tuple[Row, ...], near: Near) -> tuple[list[Group], dict[int, Division]]:
        """Every row for itself, and by its number the division of each that stays near."""
        views = [self._view(row) for row in rows]
        old = [near.division(self._problem, row) for row in rows]
        kept = {n: was for n, was in enumerate(old) if was is not None and was.view.key == views[n].key}
        walls = range(self._problem.room.wall_count)
        lines = tuple(frozenset(x for division in kept.values() for x in division.joints[wall]) for wall in walls)
        for n, was in enumerate(old):
            if n not in kept and was is not None:
                found = divided_near(views[n], was, lines, self.spread(rows[n].courses))
                kept |= {n: found} if found else {}
        return [Group((view,)) for view in views], kept

    def plan(self, rows: tuple[Row, ...]) -> Plan:
        """Divide all rows of a stack, with set-ups regarded and without, and keep the cheaper outcome."""
        groups = self._groups(rows)
        if not groups:
            return Plan(rows, (), self._setup, 0)
        if self._problem.room.joints == "staggered":
            return self._staggered(rows)
        sharing = Sharing(self._problem, self._workshop, groups, self._shared_in(groups), self._setup)
        ignoring = Sharing(self._problem, self._workshop, groups, ignoring_set_up, 0)
        outcomes = sharing.best(FREE), ignoring.best()
        return self._in_line(rows, groups, min(outcomes, key=lambda ds: total(groups, ds, self._setup)), sharing)

    def _shared_in(self, groups: list[Group]) -> PricesOf:
        """Prices that spread a set-up over the rows of a height that these groups have."""

        def prices(courses: int) -> Prices:
            rows = sum(len(group.views) for group in groups if group.courses == courses)
            return Prices(rows, rows, *self._problem.paid[:2])

        return prices

    def _in_line(self, rows: tuple[Row, ...], groups: list[Group], divisions: list[Division], sharing: Sharing) -> Plan:
        """The plan with joints brought in line where that costs nothing."""
        best = sharing.in_line(divisions)
        placed = [division for group, like in zip(groups, best, strict=True) for division in group.divided(like)]
        placed.sort(key=lambda division: division.view.row.z_plates)
        return Plan(rows, tuple(placed), self._setup, 0)

    def searched(self, start: Plan) -> Generator[None, None, Plan]:
        """The plan after a search for the designs whose set-up pays; pauses now and then."""
        groups = self._groups(start.rows)
        placed = {division.view.row.z_plates: division.joints for division in start.divisions}
        search = SetUpSearch(self._problem, self._workshop, groups)
        found = yield from search.improved(_divided_at(groups, placed))
        self.work += search.work
        return min(start, self._finished(start.rows, groups, found), key=lambda plan: plan.units)

    def divided(self, joints: Mapping[Step, Joints]) -> Plan:
        """The plan with these rows and joints, put in line where that costs nothing."""
        rows = stacked(self._problem.room.kit, [courses for _, courses in sorted(joints)])
        groups = self._groups(rows)
        return self._finished(rows, groups, _divided_at(groups, {bottom: found for (bottom, _), found in joints.items()}))

    def _finished(self, rows: tuple[Row, ...], groups: list[Group], divisions: list[Division]) -> Plan:
        sharing = Sharing(self._problem, self._workshop, groups, self._shared_in(groups), self._setup)
        return self._in_line(rows, groups, divisions, sharing)

    def _staggered(self, rows: tuple[Row, ...]) -> Plan:
        """The rows from the floor up, the joints of each at least a quarter panel from those of the row below.

        Where that cannot be, as few as may be stand nearer. Every row is the cheapest above the one below it.
        """
        divisions: list[Division] = []
        for row in rows:
            shunned = self._near_joints(divisions[-1], row) if divisions else ()
            view = RowView(self._problem, self._workshop, row, shunned)
            divisions.append(self._divided(view, self.spread(row.courses)))
        return Plan(rows, tuple(divisions), self._setup, 0)

    def _divided(self, view: RowView, prices: Prices) -> Division:
        key = "joints", self._problem.key, view.key, prices
        return Division(view, self._workshop.rows.get(key, lambda: view.divide(prices)))

    def _near_joints(self, below: Division, row: Row) -> tuple[tuple[int, ...], ...]:
        """By wall, the lines of a row nearer than a quarter panel to a joint of the row below it."""
        here = self._view(row)
        quarter = -(-self._problem.room.kit.full_width // 4)
        found = []
        for wall, joints in enumerate(below.joints):
            lines = np.arange(self._problem.pitches(wall) + 1)
            seen = np.array([x for x in joints if below.view.seams(wall)[x]], dtype=np.int64)
            near = (np.abs(lines[:, None] - seen) < quarter).any(axis=1) & here.seams(wall)
            found.append(tuple(int(x) for x in lines[near]))
        return tuple(found)

    def _groups(self, rows: tuple[Row, ...]) -> list[Group]:
        alike: dict[object, list[RowView]] = {}
        for row in rows:
            view = self._view(row)
            alike.setdefault(view.key, []).append(view)
        return [Group(tuple(views)) for views in alike.values()]


def _divided_at(groups: list[Group], placed: Mapping[int, Joints]) -> list[Division]:
    """Groups of rows with the joints given for their bottoms."""
    return [Division(group.view, placed[group.view.row.z_plates]) for group in groups]
