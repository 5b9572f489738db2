"""Dividing the rows of a stack together: which legs they share, and whose set-ups."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from types import MappingProxyType

from core.setout.bodies import BuiltTo, ShapeKey
from core.setout.chain import ChainClosing, Leaf
from core.setout.division import Division
from core.setout.problem import Problem
from core.setout.rowview import RowView
from core.setout.shell import Chain
from core.setout.tariff import Prices
from core.setout.workshop import Workshop

FREE = Prices(1 << 62, 1 << 62)
"""Set-up left out."""


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

    def divided(self, like: Division) -> tuple[Division, ...]:
        """Its rows, each divided like one of them."""
        return (like,) if len(self.views) == 1 else tuple(Division(view, like.joints) for view in self.views)

    def marginal(self, division: Division, others: frozenset[BuiltTo], setup: int) -> int:
        """Units that a division of its rows adds to a room in which the designs ``others`` are set up already."""
        return len(self.views) * division.units + setup * len(division.designs - others)


class Sharing:
    """The division of groups of rows at given prices."""

    def __init__(
        self,
        problem: Problem,
        workshop: Workshop,
        groups: list[Group],
        prices_of: Callable[[int], Prices],
        setup: int,
        kept: Mapping[int, Division] = MappingProxyType({}),
    ) -> None:
        """``prices_of`` gives the prices for rows of so many courses; outcomes are compared with a set-up at ``setup`` units.

        ``kept`` are groups, by their place, that stay divided as they are.
        """
        self._problem = problem
        self._workshop = workshop
        self._groups = groups
        self._prices_of = prices_of
        self._setup = setup
        self._kept = kept
        self._open = [n for n in range(len(groups)) if n not in kept]

    def best(self, *others: Prices) -> list[Division]:
        """The cheapest division found for every group.

        Rows of one height are divided with the same corner legs throughout, and each row also by itself, at the prices for its
        height and at ``others``. Beginning with common legs, and with the last of the others, each group of rows then takes
        whichever division adds least to the room.
        """
        if not self._open:
            return [self._kept[n] for n in range(len(self._groups))]
        own = {n: self._alone(n, self._prices(self._groups[n])) for n in self._open}
        common = self._with_common_legs(own)
        alone = [own, *({n: self._alone(n, prices) for n in self._open} for prices in others)]
        choices = {n: (common[n], *(found[n] for found in alone)) for n in self._open}
        outcomes = [self._settled(start, choices) for start in (common, alone[-1])]
        return min(outcomes, key=lambda divisions: total(self._groups, divisions, self._setup))

    def _alone(self, n: int, prices: Prices) -> Division:
        """One group's rows divided for themselves."""
        view = self._groups[n].view
        key = ("joints", self._problem.key, view.key, prices)
        return Division(view, self._workshop.rows.get(key, lambda: view.divide(prices)))

    def _prices(self, group: Group) -> Prices:
        return self._prices_of(group.courses)

    def _with_common_legs(self, alone: Mapping[int, Division]) -> dict[int, Division]:
        """All open groups divided, with one choice of legs for all rows of a height; a group of a height of its own as alone."""
        found = dict(alone)
        for courses in dict.fromkeys(self._groups[n].courses for n in self._open):
            alike = [n for n in self._open if self._groups[n].courses == courses]
            if len(alike) == 1:
                continue
            groups = [self._groups[n] for n in alike]
            prices = self._prices(groups[0])
            legs = self._common_legs(groups, prices)
            found |= {n: Division(self._groups[n].view, self._groups[n].view.joints_for(legs, prices)) for n in alike}
        return found

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

    def _settled(self, start: Mapping[int, Division], choices: Mapping[int, tuple[Division, ...]]) -> list[Division]:
        """Let one open group after another take the choice that adds least, until none would change."""
        divisions = [self._kept[n] if n in self._kept else start[n] for n in range(len(self._groups))]
        changed = True
        while changed:
            changed = False
            for n in self._open:
                group = self._groups[n]
                others = designs_of(d for k, d in enumerate(divisions) if k != n)
                here = group.marginal(divisions[n], others, self._setup)
                best = min(choices[n], key=lambda division: group.marginal(division, others, self._setup))
                if group.marginal(best, others, self._setup) < here:
                    divisions[n] = best
                    changed = True
        return divisions

    def in_line(self, divisions: list[Division]) -> list[Division]:
        """Bring the joints of each wall in line from row to row where that costs nothing.

        Where a set-up costs nothing, only joints that keep the same designs are moved, so that a room planned without set-up
        owes no fewer of them. The rows with most blocked on the wall come first, since they have least choice; the others
        follow them.
        """
        divisions = list(divisions)
        for wall in range(self._problem.room.wall_count):
            wanted: set[int] = set()
            for n in sorted(range(len(divisions)), key=lambda n: (-self._groups[n].view.blocked_pitches(wall), n)):
                joints = divisions[n].joints[wall]
                if n not in self._kept and wanted and not wanted.issuperset(joints):
                    divisions[n] = self._followed(divisions, n, wall, frozenset(wanted))
                wanted.update(divisions[n].joints[wall])
        return divisions

    def _followed(self, divisions: list[Division], n: int, wall: int, wanted: frozenset[int]) -> Division:
        """One group's division with its joints on a wall moved to wanted lines, unless that costs anything."""
        group, division = self._groups[n], divisions[n]
        others = designs_of(d for k, d in enumerate(divisions) if k != n)
        courses = group.courses
        usable = others | division.designs
        plain = frozenset(d.key for d in usable if not isinstance(d.key, ShapeKey) and len(d.key) == 2 and d.key[1][0] <= courses)
        joints = division.joints[wall]
        prices = Prices(len(group.views), 1, plain | self._problem.paid[0])
        moved = group.view.in_line(wall, (joints[0], joints[-1]), wanted, prices)
        if len(set(moved) - wanted) >= len(set(joints) - wanted):
            return division
        followed = Division(group.view, (*division.joints[:wall], moved, *division.joints[wall + 1 :]))
        if not self._setup:
            return followed if (followed.units, followed.designs) == (division.units, division.designs) else division
        costs_more = group.marginal(followed, others, self._setup) > group.marginal(division, others, self._setup)
        return division if costs_more else followed


def total(groups: list[Group], divisions: list[Division], setup: int) -> int:
    """Units of all groups' rows, each design outside the kit set up once."""
    units = sum(len(group.views) * division.units for group, division in zip(groups, divisions, strict=True))
    return units + setup * len(designs_of(divisions))


def designs_of(divisions: Iterable[Division]) -> frozenset[BuiltTo]:
    return frozenset[BuiltTo]().union(*(division.designs for division in divisions))
