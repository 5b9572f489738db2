"""The room's rows planned together: the cheapest stack, then every row divided, sharing set-ups where that pays."""

from collections.abc import Sequence
from dataclasses import dataclass

from core.setout.bodies import BuiltTo, ShapeKey
from core.setout.bound import RowBound
from core.setout.chain import ChainClosing, Leaf
from core.setout.division import Division, RowView
from core.setout.problem import Problem
from core.setout.result import Row
from core.setout.rows import cheapest_stack, stacking_of
from core.setout.shell import Chain
from core.setout.tariff import Prices
from core.setout.workshop import Workshop

FREE = Prices(1 << 62, 1 << 62)
"""Set-up left out."""

SPREADS = (1, 2)
"""How strongly a flat design's set-up is held to be shared: by all rows of its height, or by half of them."""


@dataclass(frozen=True)
class Plan:
    """The chosen rows and their divisions."""

    rows: tuple[Row, ...]
    divisions: tuple[Division, ...]


def plan(problem: Problem, workshop: Workshop) -> Plan:
    """Choose the row stack and divide every row. The plan is empty where no stack fits the clad height."""
    planner = Planner(problem, workshop)
    stacks = dict.fromkeys((planner.stack(sharing=True), planner.stack(sharing=False)))
    plans = [Plan(rows, planner.divide(rows)) for rows in stacks]
    return min(plans, key=planner.total)


@dataclass(frozen=True)
class Group:
    """Rows that are alike in everything and so are divided alike."""

    views: tuple[RowView, ...]

    @property
    def view(self) -> RowView:
        return self.views[0]

    @property
    def courses(self) -> int:
        return self.view.row.courses

    def marginal(self, division: Division, others: frozenset[BuiltTo], setup: int) -> int:
        """Units that a division of its rows adds to a room in which the designs ``others`` are set up already."""
        return len(self.views) * division.units + setup * len(division.designs - others)


class Planner:
    """Plans one room with the kept work of its workshop."""

    def __init__(self, problem: Problem, workshop: Workshop) -> None:
        self._problem = problem
        self._workshop = workshop
        self._setup = workshop.tariff.setup
        self._views: dict[tuple[int, int], RowView] = {}

    def stack(self, *, sharing: bool) -> tuple[Row, ...]:
        """The cheapest row stack, each row solved alone; set-ups charged as if all full rows shared them, or not at all."""
        kit = self._problem.room.kit
        stacking = stacking_of(kit, self._problem.room.clad_height_mm)
        full_rows = max(1, stacking.most_plates // kit.row_plates(kit.full_courses))

        def evaluate(steps: list[tuple[int, int]]) -> list[int]:
            return [self._row_cost(step, full_rows if step[1] == kit.full_courses else 1, sharing) for step in steps]

        bound = self._bound()
        return cheapest_stack(stacking, bound, evaluate, bound.likeness)

    def _bound(self) -> RowBound:
        bound = RowBound(self._problem, self._workshop.tariff)
        return self._workshop.bounds.get(bound.key, lambda: bound)

    def _row_cost(self, step: tuple[int, int], rows: int, sharing: bool) -> int:
        bottom, courses = step
        view = self._view(Row(0, bottom, courses, self._problem.room.kit.row_plates(courses)))
        prices = Prices(rows, rows) if sharing else FREE
        return self._workshop.rows.get(("cost", self._problem.key, view.key, prices), lambda: view.cost(prices))

    def _view(self, row: Row) -> RowView:
        place = row.z_plates, row.courses
        if place not in self._views:
            self._views[place] = RowView(self._problem, self._workshop, row)
        return self._views[place]

    def total(self, plan: Plan) -> int:
        """Units of a plan, set-ups included."""
        designs = frozenset[BuiltTo]().union(*(division.designs for division in plan.divisions))
        return sum(division.units for division in plan.divisions) + self._setup * len(designs)

    def divide(self, rows: tuple[Row, ...]) -> tuple[Division, ...]:
        """Divide all rows of a stack.

        Rows of one height are divided with the same corner legs throughout, and each row also by itself. Beginning with
        common legs, each group of rows then takes whichever division adds least to the room. Last, joints are brought in line.
        """
        groups = self._groups(rows)
        if not groups:
            return ()
        common = [self._with_common_legs(groups, spread) for spread in SPREADS]
        alone = [self._alone(group, self._prices(_rows_as_high(group, groups), 1)) for group in groups]
        free = [self._alone(group, FREE) for group in groups]
        choices = list(zip(*common, alone, free, strict=True))
        outcomes = [self._settled(groups, start, choices) for start in (*common, free)]
        best = self._in_line(groups, min(outcomes, key=lambda divisions: self._total(groups, divisions)))
        placed = [Division(view, division.joints) for group, division in zip(groups, best, strict=True) for view in group.views]
        return tuple(sorted(placed, key=lambda division: division.view.row.z_plates))

    def _groups(self, rows: tuple[Row, ...]) -> list[Group]:
        alike: dict[object, list[RowView]] = {}
        for row in rows:
            view = self._view(row)
            alike.setdefault(view.key, []).append(view)
        return [Group(tuple(views)) for views in alike.values()]

    def _alone(self, group: Group, prices: Prices) -> Division:
        """The group's rows divided for themselves."""
        key = ("joints", self._problem.key, group.view.key, prices)
        return Division(group.view, self._workshop.rows.get(key, lambda: group.view.divide(prices)))

    @staticmethod
    def _prices(rows: int, spread: int) -> Prices:
        return Prices(max(1, rows // spread), rows * spread)

    def _with_common_legs(self, groups: list[Group], spread: int) -> list[Division]:
        """All groups divided, with one choice of legs for all rows of a height."""
        found: dict[int, Division] = {}
        for courses in dict.fromkeys(group.courses for group in groups):
            members = [(n, group) for n, group in enumerate(groups) if group.courses == courses]
            alike = [group for _, group in members]
            prices = self._prices(_rows_as_high(alike[0], groups), spread)
            legs = self._common_legs(alike, prices)
            for n, group in members:
                found[n] = Division(group.view, group.view.joints_for(legs, prices))
        return [found[n] for n in range(len(groups))]

    def _common_legs(self, groups: list[Group], prices: Prices) -> dict[int, tuple[int, int]]:
        """The legs that serve all these rows best, by wall: indices of the left and the right leg."""
        legs: dict[int, tuple[int, int]] = {}
        for chain in self._problem.chains:
            closing = self._summed_closing(chain, groups, prices)
            legs |= dict(zip(chain.walls, closing.legs().legs, strict=True))
        return legs

    def _summed_closing(self, chain: Chain, groups: list[Group], prices: Prices) -> ChainClosing:
        def summed(leaves: Sequence[Leaf]) -> Leaf:
            return self._workshop.summed(leaves, [len(group.views) for group in groups])

        corners = [
            summed([group.view.corner(w, prices) for group in groups]) for w in (chain.walls if chain.closed else chain.walls[1:])
        ]
        return ChainClosing(
            [summed([group.view.filling(w, prices).leaf for group in groups]) for w in chain.walls],
            corners[1:] if chain.closed else corners,
            corners[0] if chain.closed else None,
            self._workshop.products,
        )

    def _settled(self, groups: list[Group], start: list[Division], choices: list[tuple[Division, ...]]) -> list[Division]:
        """Let one group after another take the choice that adds least, until none would change."""
        divisions = list(start)
        changed = True
        while changed:
            changed = False
            for n, group in enumerate(groups):
                others = frozenset[BuiltTo]().union(*(d.designs for k, d in enumerate(divisions) if k != n))
                here = group.marginal(divisions[n], others, self._setup)
                best = min(choices[n], key=lambda division: group.marginal(division, others, self._setup))
                if group.marginal(best, others, self._setup) < here:
                    divisions[n] = best
                    changed = True
        return divisions

    def _in_line(self, groups: list[Group], divisions: list[Division]) -> list[Division]:
        """Bring the joints of each wall in line from row to row where that costs nothing.

        The rows with most blocked on the wall come first, since they have least choice; the others follow them.
        """
        divisions = list(divisions)
        for wall in range(self._problem.room.wall_count):
            wanted: set[int] = set()
            for n in sorted(range(len(groups)), key=lambda n: (-groups[n].view.blocked_pitches(wall), n)):
                joints = divisions[n].joints[wall]
                if wanted and not wanted.issuperset(joints):
                    divisions[n] = self._followed(groups, divisions, n, wall, frozenset(wanted))
                wanted.update(divisions[n].joints[wall])
        return divisions

    def _followed(self, groups: list[Group], divisions: list[Division], n: int, wall: int, wanted: frozenset[int]) -> Division:
        """One group's division with its joints on a wall moved to wanted lines, unless that costs anything."""
        group, division = groups[n], divisions[n]
        others = frozenset[BuiltTo]().union(*(d.designs for k, d in enumerate(divisions) if k != n))
        courses = group.courses
        usable = others | division.designs
        plain = frozenset(d.key for d in usable if not isinstance(d.key, ShapeKey) and len(d.key) == 2 and d.key[1][0] <= courses)
        joints = division.joints[wall]
        prices = Prices(len(group.views), 1, plain)
        moved = group.view.in_line(wall, (joints[0], joints[-1]), wanted, prices)
        if len(set(moved) - wanted) >= len(set(joints) - wanted):
            return division
        followed = Division(group.view, (*division.joints[:wall], moved, *division.joints[wall + 1 :]))
        costs_more = group.marginal(followed, others, self._setup) > group.marginal(division, others, self._setup)
        return division if costs_more else followed

    def _total(self, groups: list[Group], divisions: list[Division]) -> int:
        designs = frozenset[BuiltTo]().union(*(division.designs for division in divisions))
        units = sum(len(group.views) * d.units for group, d in zip(groups, divisions, strict=True))
        return units + self._setup * len(designs)


def _rows_as_high(group: Group, groups: list[Group]) -> int:
    return sum(len(other.views) for other in groups if other.courses == group.courses)
