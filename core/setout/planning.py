"""The room's rows planned together: the cheapest stack, then every row divided, sharing set-ups where that pays."""

from collections.abc import Iterable
from dataclasses import dataclass, field

from core.setout.rows import cheapest_stack, stacking_of
from core.setout.bodies import Body, DesignKey, ShapeKey
from core.setout.bound import RowBound
from core.setout.division import Division, RowView
from core.setout.problem import Problem
from core.setout.result import Row
from core.setout.tariff import CornerKey, PlainKey, Prices
from core.setout.workshop import Workshop

ROUNDS = 4


@dataclass(frozen=True)
class Plan:
    """The chosen rows and their divisions."""

    rows: tuple[Row, ...]
    divisions: tuple[Division, ...]


def plan(problem: Problem, workshop: Workshop) -> Plan:
    """Choose the row stack and divide every row. The plan is empty where no stack fits the clad height."""
    planner = _Planner(problem, workshop)
    rows = planner.stack()
    return Plan(rows, planner.share(planner.groups(rows)) if rows else ())


@dataclass
class _Group:
    """Rows that are alike in everything, divided alike."""

    views: list[RowView]
    division: Division = field(init=False)

    @property
    def view(self) -> RowView:
        return self.views[0]

    @property
    def cost(self) -> int:
        """Units of all its rows without set-up."""
        return len(self.views) * (sum(body.total for body in self.division.all_bodies) + self.division.blocking)

    def designs(self) -> set[DesignKey]:
        """The designs it uses that are not in the kit."""
        return {body.design for body in self.division.all_bodies if not body.in_kit}


class _Planner:
    def __init__(self, problem: Problem, workshop: Workshop) -> None:
        self._problem = problem
        self._workshop = workshop
        self._row_height = problem.room.kit.row_plates(problem.room.kit.full_courses)
        self._usual_rows = max(1, round(problem.room.clad_height_mm / problem.room.kit.plate_mm / self._row_height))

    def view(self, bottom: int, courses: int) -> RowView:
        kit = self._problem.room.kit
        return RowView(self._problem, self._workshop, Row(0, bottom, courses, kit.row_plates(courses)))

    def _first_prices(self, courses: int) -> Prices:
        """Before the stack is known a full row's set-ups count as shared by all full rows, other rows' as their own."""
        full = courses == self._problem.room.kit.full_courses
        return Prices(self._workshop.tariff, self._usual_rows if full else 1)

    def stack(self) -> tuple[Row, ...]:
        """The cheapest row stack at first prices."""
        bound = RowBound(self._problem, self._workshop.tariff)

        def evaluate(steps: list[tuple[int, int]]) -> list[int]:
            return [self._row_cost(bottom, courses) for bottom, courses in steps]

        return cheapest_stack(stacking_of(self._problem.room.kit, self._problem.room.clad_height_mm), bound, evaluate)

    def _row_cost(self, bottom: int, courses: int) -> int:
        view, prices = self.view(bottom, courses), self._first_prices(courses)
        return self._workshop.plans.get(("row", self._problem.key, view.key, prices.key), lambda: view.close(prices).cost)

    def groups(self, rows: tuple[Row, ...]) -> list[_Group]:
        """Rows gathered by what they look like, each group divided at first prices."""
        found: dict[object, _Group] = {}
        for row in rows:
            view = RowView(self._problem, self._workshop, row)
            if view.key in found:
                found[view.key].views.append(view)
            else:
                found[view.key] = _Group([view])
        for group in found.values():
            group.division = self._divide(group, self._first_prices(group.view.row.courses))
        return list(found.values())

    def _divide(self, group: _Group, prices: Prices) -> Division:
        joints = self._workshop.plans.get(
            ("joints", self._problem.key, group.view.key, prices.key), lambda: group.view.divide(prices).joints
        )
        return Division(group.view, joints)

    def share(self, groups: list[_Group]) -> tuple[Division, ...]:
        """Divide groups again, one at a time, with the designs that other groups use set up already, while that saves."""
        for _ in range(ROUNDS):
            if not any([self._improve(group, groups) for group in groups]):
                break
        divisions = [Division(view, group.division.joints) for group in groups for view in group.views]
        return tuple(sorted(divisions, key=lambda division: division.view.row.index))

    def _improve(self, group: _Group, groups: list[_Group]) -> bool:
        """Divide one group again given the others' designs; keep the outcome if the room gets cheaper by it."""
        others: set[DesignKey] = set().union(*(g.designs() for g in groups if g is not group))
        before, was = group.division, self._marginal(group, others)
        group.division = self._divide(group, self._prices_given(others, len(group.views)))
        if self._marginal(group, others) < was:
            return True
        group.division = before
        return False

    def _marginal(self, group: _Group, others: set[DesignKey]) -> int:
        return group.cost + self._workshop.tariff.setup * len(group.designs() - others)

    def _prices_given(self, open_designs: Iterable[DesignKey], rows: int) -> Prices:
        plain: set[PlainKey] = set()
        corner: set[CornerKey] = set()
        for design in open_designs:
            if isinstance(design, ShapeKey):
                continue
            if len(design) == 2:
                plain.add(design)
            else:
                corner.add(design)
        return Prices(self._workshop.tariff, rows, frozenset(plain), frozenset(corner))
