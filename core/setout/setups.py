"""Which designs to set up: a search that adds the design that pays most, and gives up those that do not pay.

A design outside the kit costs its set-up once, however often it is used. With a choice of designs set up, every row is
divided exactly: those designs are free, any other is charged its whole set-up in every group of like rows. The search begins
with none and adds, one after another, the width or the pair of corner legs with which all rows of a height come to least; then
designs are given up one at a time where the rows do better without. Costs only ever fall, and nothing depends on chance or time.
"""

from collections.abc import Callable, Generator, Iterable
from dataclasses import dataclass, field
from functools import cached_property
from typing import NamedTuple

import numpy as np

from core.setout.bodies import BuiltTo, DesignKey, ShapeKey
from core.setout.division import Division
from core.setout.problem import Problem
from core.setout.sharing import Group, total
from core.setout.tariff import UNREACHABLE, CornerKey, Ints, MakeUp, PlainKey, Prices
from core.setout.variants import leg_pairs, whole, with_one_corner_more, with_one_width_more
from core.setout.workshop import MOST_SUMMED, Workshop

Work = Generator[None, None, list[Division]]
"""Work that pauses now and then, so that a window stays awake, and returns the divisions it found."""

MOST_ADDED = 8
"""Designs added one after another for one height of rows."""

PATIENCE = 1
"""How many designs in a row may be added before they pay."""

MOST_WORK = 600
"""Fillings of rows on walls estimated in all; large rooms are searched less deeply, so that they stay quick."""


class SetUp(NamedTuple):
    """Designs outside the kit that are set up."""

    plain: frozenset[PlainKey] = frozenset()
    corner: frozenset[CornerKey] = frozenset()

    def with_plain(self, key: PlainKey) -> "SetUp":
        return self._replace(plain=self.plain | {key})

    def with_corner(self, key: CornerKey) -> "SetUp":
        return self._replace(corner=self.corner | {key})

    def each_without_one(self) -> "list[tuple[DesignKey, SetUp]]":
        """Every design in a fixed order, and the others without it."""
        plain: list[tuple[DesignKey, SetUp]] = [(key, self._replace(plain=self.plain - {key})) for key in sorted(self.plain)]
        return plain + [(key, self._replace(corner=self.corner - {key})) for key in sorted(self.corner)]


def set_up_of(divisions: Iterable[Division]) -> SetUp:
    """The plain designs that divisions use and the kit has not."""
    designs = frozenset[BuiltTo]().union(*(division.designs for division in divisions))
    keys = [design.key for design in designs if not isinstance(design.key, ShapeKey)]
    return SetUp(frozenset(key for key in keys if len(key) == 2), frozenset(key for key in keys if len(key) == 4))


@dataclass
class SetUpSearch:
    """Searches for the groups of rows of one room."""

    problem: Problem
    workshop: Workshop
    groups: list[Group]
    work: int = 0

    def improved(self, divisions: list[Division]) -> Work:
        """Divisions that cost no more than the given ones; pauses after each estimate or division."""
        found = list(divisions)
        for courses in dict.fromkeys(group.courses for group in self.groups):
            height = _Height(self, [n for n, group in enumerate(self.groups) if group.courses == courses], found)
            yield from height.search()
        return found


@dataclass
class _Height:
    """The search among rows of one height; ``divisions`` are those of all groups and are improved in place."""

    room: SetUpSearch
    members: list[int]
    divisions: list[Division]
    best: int = field(init=False)

    def __post_init__(self) -> None:
        self.best = self._total(self.divisions)

    @property
    def shop(self) -> Workshop:
        return self.room.workshop

    @property
    def _setup(self) -> int:
        return self.shop.tariff.setup

    @cached_property
    def groups(self) -> list[Group]:
        return [self.room.groups[n] for n in self.members]

    @cached_property
    def made(self) -> MakeUp:
        return whole(self.groups[0].courses)

    @cached_property
    def pairs(self) -> Ints:
        return leg_pairs(self.shop, self.made)

    @cached_property
    def kinds(self) -> list[tuple[str, ...]]:
        """The kinds of corner of the room, one by one and all together."""
        kinds = sorted({wall.left for wall in self.room.problem.shell.walls} - {"free"})
        return [*((kind,) for kind in kinds), *([tuple(kinds)] if len(kinds) > 1 else [])]

    def search(self) -> Generator[None, None, None]:
        """Add designs while that pays, then give up those that do not."""
        if not self._setup:
            return
        yield from self._try(self._own())
        chosen, idle = SetUp(), 0
        for _ in range(MOST_ADDED):
            if self.room.work > MOST_WORK:
                break
            following = yield from self._best_addition(chosen)
            if following == chosen:
                break
            chosen = following
            before = self.best
            yield from self._try(chosen)
            idle = 0 if self.best < before else idle + 1
            if idle > PATIENCE:
                break
        improving = True
        while improving and self.room.work <= MOST_WORK:
            improving = False
            for given_up, fewer in self._own().each_without_one():
                if (yield from self._try(fewer, given_up)):
                    improving = True
                    break

    def _own(self) -> SetUp:
        return set_up_of(self.divisions[n] for n in self.members)

    def _prices(self, group: Group, chosen: SetUp) -> Prices:
        plain, corner, _ = self.room.problem.paid
        return Prices(len(group.views), len(group.views), chosen.plain | plain, chosen.corner | corner)

    def _try(self, chosen: SetUp, given_up: DesignKey | None = None) -> Generator[None, None, bool]:
        """Divide the rows with these designs set up; keep the outcome if the room comes to less.

        Where one design was given up, only rows that use it are divided anew.
        """
        trial = list(self.divisions)
        for n, group in zip(self.members, self.groups, strict=True):
            if given_up is not None and all(design.key != given_up for design in trial[n].designs):
                continue
            prices = self._prices(group, chosen)
            key = "joints", self.room.problem.key, group.view.key, prices
            trial[n] = Division(group.view, self.shop.rows.get(key, lambda g=group, p=prices: g.view.divide(p)))  # type: ignore[misc]
            self.room.work += len(group.view.blocks)
            yield
        cost = self._total(trial)
        if cost >= self.best:
            return False
        self.best = cost
        for n in self.members:
            self.divisions[n] = trial[n]
        return True

    def _total(self, divisions: list[Division]) -> int:
        return total(self.room.groups, divisions, self._setup)

    def _best_addition(self, chosen: SetUp) -> Generator[None, None, SetUp]:
        """The choice with the one design more that makes these rows cheapest; the same choice where none does."""
        legs, widths = self._legs(chosen), self._widths(chosen)
        costs = yield from self._summed(
            lambda group: with_one_width_more(group.view, self._prices(group, chosen), widths, legs), 1 + len(widths)
        )
        best, following = int(UNREACHABLE), chosen
        if len(widths) and int(costs[1:].min()) + self._setup < best:
            best = int(costs[1:].min()) + self._setup
            following = chosen.with_plain((widths[int(costs[1:].argmin())], self.made))
        for kinds in self.kinds:
            pairs = self._pairs_beside(chosen, kinds)
            costs = yield from self._summed(
                lambda group, kinds=kinds, pairs=pairs: with_one_corner_more(  # type: ignore[misc]
                    group.view, self._prices(group, chosen), pairs, kinds, legs
                ),
                1 + len(pairs),
            )
            owed = len(kinds) * self._setup
            if len(pairs) and int(costs[1:].min()) + owed < best:
                best = int(costs[1:].min()) + owed
                left, right = (int(leg) for leg in pairs[int(costs[1:].argmin())])
                following = chosen
                for kind in kinds:
                    following = following.with_corner((kind, left, right, self.made))
        return following

    def _pairs_beside(self, chosen: SetUp, kinds: tuple[str, ...]) -> Ints:
        """The pairs of legs that could be set up besides around corners of these kinds."""
        known = {(left, right) for kind, left, right, _ in chosen.corner if kind in kinds}
        fresh = [(int(left), int(right)) not in known for left, right in self.pairs]
        return np.asarray(self.pairs[np.array(fresh, dtype=bool)])

    def _summed(self, estimate: Callable[[Group], Ints], variants: int) -> Generator[None, None, Ints]:
        """An estimate by variant summed over all rows of the height."""
        far = MOST_SUMMED // sum(len(group.views) for group in self.groups)
        costs = np.zeros(variants, dtype=np.int64)
        for group in self.groups:
            costs += len(group.views) * np.minimum(estimate(group), far)
            self.room.work += len(group.view.blocks)
            yield
        return costs

    def _legs(self, chosen: SetUp) -> Ints:
        """The legs regarded: those of the kit and of corner panels that are set up."""
        legs = {*self.shop.kit.legs_pitches, *(leg for _, left, right, _ in chosen.corner for leg in (left, right))}
        return np.array(sorted(legs), dtype=np.int64)

    def _widths(self, chosen: SetUp) -> tuple[int, ...]:
        """The widths that could be set up besides."""
        kit = self.shop.kit
        known = {width for width, made in chosen.plain if made == self.made}
        if self.shop.tariff.has_all_layers(self.made):
            known |= set(kit.widths_pitches)
        return tuple(width for width in range(kit.least_width_pitches, kit.full_width + 1) if width not in known)
