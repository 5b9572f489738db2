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
from core.setout.variants import leg_pairs, partial_makes, whole, with_one_corner_more, with_one_width_more
from core.setout.workshop import MOST_SUMMED, Workshop

Work = Generator[None, None, list[Division]]
"""Work that pauses now and then, so that a window stays awake, and returns the divisions it found."""

Makes = dict[MakeUp, list[Group]]
"""Make-ups of flat panels, each with the groups of rows that have them."""

MOST_ADDED = 8
"""Designs added one after another for one height of rows."""

PATIENCE = 1
"""How many designs in a row may be added before they pay."""

MOST_WORK = 300
"""Fillings of rows on walls estimated in all; large rooms are searched less deeply, so that they stay quick."""


ALL_LEGS_TAKE = 4
"""How many times longer an estimate with all legs takes than one with a few."""

FEW_LEGS = 8
"""So many legs are all regarded."""


def is_cornered(group: Group) -> bool:
    """Whether an opening stands so near to a corner that legs may end inside it, and be of any length."""
    return any(group.view.corner_blocks(wall) for wall in range(len(group.view.blocks)))


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

    def _beside_openings(self) -> Makes:
        """The make-ups of flat panels above and below openings, and the groups that have them."""
        found: Makes = {}
        for group in self.groups:
            for made in sorted(partial_makes(group.view)):
                found.setdefault(made, []).append(group)
        return found

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
        yield from self._add(SetUp(), {self.made: self.groups, **self._beside_openings()}, self.kinds)
        improving = True
        while improving and self.room.work <= MOST_WORK:
            improving = False
            for given_up, fewer in self._own().each_without_one():
                if (yield from self._try(fewer, given_up)):
                    improving = True
                    break

    def _add(self, chosen: SetUp, makes: Makes, kinds: list[tuple[str, ...]]) -> Generator[None, None, None]:
        """Add one design after another: flat ones of these make-ups, and corner panels around these kinds of corner."""
        idle = 0
        round_takes = sum(self._takes(group) for groups in (*makes.values(), *([self.groups] * len(kinds))) for group in groups)
        for _ in range(MOST_ADDED):
            if self.room.work + round_takes > MOST_WORK:
                break
            following = yield from self._best_addition(chosen, makes, kinds)
            if following == chosen:
                break
            chosen, before = following, self.best
            yield from self._try(chosen)
            idle = 0 if self.best < before else idle + 1
            if idle > PATIENCE:
                break

    def _takes(self, group: Group) -> int:
        """The work of one estimate: one filling on each wall, several times that where all legs are regarded."""
        return len(group.view.blocks) * (ALL_LEGS_TAKE if is_cornered(group) else 1)

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

    def _best_addition(self, chosen: SetUp, makes: Makes, kinds: list[tuple[str, ...]]) -> Generator[None, None, SetUp]:
        """The choice with the design more that saves these rows most, if less than its set-up; the same if there is none."""
        legs = self._legs(chosen)
        best, following = -int(UNREACHABLE), chosen
        for made, groups in makes.items():
            widths = self._widths(chosen, made)
            costs = yield from self._summed(
                groups,
                lambda group, made=made, widths=widths: with_one_width_more(  # type: ignore[misc]
                    group.view, self._prices(group, chosen), made, widths, self.shop.legs if is_cornered(group) else legs
                ),
                1 + len(widths),
            )
            if len(widths) and (saved := int(costs[0]) - int(costs[1:].min()) - self._setup) > best:
                best = saved
                following = chosen.with_plain((widths[int(costs[1:].argmin())], made))
        for around in kinds:
            pairs = self._pairs_beside(chosen, around)
            costs = yield from self._summed(
                self.groups,
                lambda group, around=around, pairs=pairs: with_one_corner_more(  # type: ignore[misc]
                    group.view, self._prices(group, chosen), pairs, around, legs
                ),
                1 + len(pairs),
            )
            owed = len(around) * self._setup
            if len(pairs) and (saved := int(costs[0]) - int(costs[1:].min()) - owed) > best:
                best = saved
                left, right = (int(leg) for leg in pairs[int(costs[1:].argmin())])
                following = chosen
                for kind in around:
                    following = following.with_corner((kind, left, right, self.made))
        return following

    def _pairs_beside(self, chosen: SetUp, kinds: tuple[str, ...]) -> Ints:
        """The pairs of legs that could be set up besides around corners of these kinds."""
        known = {(left, right) for kind, left, right, _ in chosen.corner if kind in kinds}
        fresh = [(int(left), int(right)) not in known for left, right in self.pairs]
        return np.asarray(self.pairs[np.array(fresh, dtype=bool)])

    def _summed(self, groups: list[Group], estimate: Callable[[Group], Ints], variants: int) -> Generator[None, None, Ints]:
        """An estimate by variant summed over all rows of some groups."""
        far = MOST_SUMMED // sum(len(group.views) for group in groups)
        costs = np.zeros(variants, dtype=np.int64)
        for group in groups:
            costs += len(group.views) * np.minimum(estimate(group), far)
            self.room.work += self._takes(group)
            yield
        return costs

    def _legs(self, chosen: SetUp) -> Ints:
        """The legs regarded: those of the kit and of corner panels that are set up; all where there are few."""
        if len(self.shop.legs) <= FEW_LEGS:
            return self.shop.legs
        legs = {*self.shop.kit.legs_pitches, *(leg for _, left, right, _ in chosen.corner for leg in (left, right))}
        return np.array(sorted(legs), dtype=np.int64)

    def _widths(self, chosen: SetUp, made: MakeUp) -> tuple[int, ...]:
        """The widths of a make-up that could be set up besides."""
        kit = self.shop.kit
        known = {width for width, other in chosen.plain if other == made}
        if self.shop.tariff.has_all_layers(made):
            known |= set(kit.widths_pitches)
        return tuple(width for width in range(kit.least_width_pitches, kit.full_width + 1) if width not in known)
