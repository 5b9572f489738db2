"""One row divided: the joints on its walls, the candidates between them, and the panels these leave."""

from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from itertools import pairwise
from typing import NamedTuple

from core.setout.bodies import Body, BuiltTo, Candidate, blocks_within
from core.setout.naming import bears
from core.setout.rowview import Joints, RowView
from core.setout.tables import Backed


@dataclass(frozen=True, slots=True)
class Placed:
    """A candidate in its place. ``begin`` is its left end on ``wall``; for a corner candidate that is the wall right of
    the corner, and ``begin`` is negative there."""

    wall: int
    begin: int
    candidate: Candidate


class Terms(NamedTuple):
    """The terms of the objective that panels bring with them, in units."""

    build: int
    handling: int
    sliver: int
    weak: int


@dataclass(frozen=True)
class WallPanels:
    """The candidates of one wall of a divided row with their panels, from the corner at its left end on.

    ``serial`` tells it from all others. ``units`` is what its panels cost without set-up and blocking, ``built`` how many there
    are of each design, ``designs`` are those outside the kit.
    """

    serial: int
    placed: tuple[tuple[Placed, Body], ...]
    units: int
    built: Counter[BuiltTo]
    designs: frozenset[BuiltTo]

    @cached_property
    def terms(self) -> Terms:
        """What the panels take, term by term."""
        bodies = [body for _, body in self.placed]
        return Terms(*(sum(getattr(body, term) for body in bodies) for term in Terms._fields))


@dataclass(frozen=True)
class Division:
    """A row's joints, per wall, the ends of its corner legs included."""

    view: RowView
    joints: Joints
    known: Mapping[int, WallPanels] = field(default_factory=dict, compare=False, repr=False)
    """The panels of walls, as far as they are known."""

    @cached_property
    def walls(self) -> tuple[WallPanels, ...]:
        """The panels of every wall."""
        return tuple(self.known.get(wall) or self._wall_panels(wall) for wall in range(len(self.joints)))

    @cached_property
    def built(self) -> Counter[BuiltTo]:
        """How many panels of the row are built to each design."""
        found: Counter[BuiltTo] = Counter()
        for wall in self.walls:
            found.update(wall.built)
        return found

    @cached_property
    def terms(self) -> Terms:
        """What the panels of the row take, term by term."""
        return Terms(*map(sum, zip(*(wall.terms for wall in self.walls), strict=True)))

    def _wall_panels(self, wall: int) -> WallPanels:
        view = self.view
        before = view.problem.before(wall)
        leg = view.problem.pitches(before) - self.joints[before][-1]
        place = wall, before, view.problem.surroundings(wall), view.row.courses
        key = (place, view.blocks[wall], view.corner_blocks(wall), self.joints[wall], leg)
        return view.workshop.walls.get(key, lambda: self._make_wall_panels(wall))

    def _make_wall_panels(self, wall: int) -> WallPanels:
        bodies = tuple((placed, body) for placed in self.placed(wall) for body in self.view.workshop.bodies(placed.candidate))
        return WallPanels(
            self.view.workshop.next_serial(),
            bodies,
            sum(body.total for _, body in bodies),
            Counter(body.built_to for _, body in bodies),
            frozenset(body.built_to for _, body in bodies if not body.built_to.in_kit),
        )

    @cached_property
    def units(self) -> int:
        """Units of the whole row without set-up."""
        return sum(wall.units for wall in self.walls) + self.blocking

    @cached_property
    def designs(self) -> frozenset[BuiltTo]:
        """The designs of the row that are not in the kit and still to be set up."""
        found = frozenset[BuiltTo]().union(*(wall.designs for wall in self.walls))
        names = self.view.problem.paid[2]
        return frozenset(design for design in found if not any(bears(design, name) for name in names)) if names else found

    def placed(self, wall: int) -> Iterator[Placed]:
        """The candidates of one wall from the left, beginning with the corner at its left end."""
        view, problem = self.view, self.view.problem
        layers = view.layers
        here = self.joints[wall]
        kind = problem.shell.walls[wall].left
        if kind != "free":
            before = problem.before(wall)
            leg = problem.pitches(before) - self.joints[before][-1]
            width = leg + here[0]
            near = blocks_within(view.corner_blocks(wall), -leg, width)
            yield Placed(wall, -leg, Candidate(layers, width, near, (kind, leg)))
        for begin, end in pairwise(here):
            near = blocks_within(view.blocks[wall], begin, end - begin)
            yield Placed(wall, begin, Candidate(layers, end - begin, near, None))

    @cached_property
    def blocking(self) -> int:
        """Units for all mounting points of the row with no timber behind them."""
        backed = self.view.backed
        if all(one.look_up is None for one in backed):
            return 0
        return self.view.workshop.tariff.blocking * sum(self._bare_mounts(wall) for wall in range(len(backed)))

    def _bare_mounts(self, wall: int) -> int:
        """Mounting points of one wall's candidates, its left corner's included, with no timber behind them."""
        left, right = self.view.backed[self.view.problem.before(wall)], self.view.backed[wall]
        if left.look_up is None and right.look_up is None:
            return 0
        key = "bare mounts", self.walls[wall].serial, left.key, right.key
        return self.view.workshop.walls.get(key, lambda: self._count_bare(wall, left, right))

    def _count_bare(self, wall: int, left: Backed, right: Backed) -> int:
        end = self.view.problem.pitches(self.view.problem.before(wall))
        count = 0
        for placed, body in self.walls[wall].placed:
            for mount in body.mounts:
                x = placed.begin + mount.x
                backed = left if x < 0 else right
                if backed.look_up is not None:
                    count += int(backed.look_up(mount.course)[end + x if x < 0 else x])
        return count
