"""One row divided: the legs at its corners, the joints on its walls, and the candidates between them."""

from collections.abc import Iterator
from dataclasses import dataclass, field
from functools import cached_property

from core.setout.bodies import Body, Candidate, near_blocks
from core.setout.chain import ChainLegs, close_chain
from core.setout.fillings import Filling
from core.setout.layers import Block, Layers
from core.setout.problem import Problem
from core.setout.result import Row
from core.setout.tariff import Ints, Prices
from core.setout.workshop import UNBACKED, Backed, Workshop


@dataclass(frozen=True, slots=True)
class Placed:
    """A candidate in its place. ``begin`` is its left end on ``wall``; for a corner candidate that is the wall right of
    the corner, and ``begin`` is negative there."""

    wall: int
    begin: int
    candidate: Candidate


@dataclass(frozen=True)
class RowView:
    """A row of the room with everything its division depends on, looked up once."""

    problem: Problem
    workshop: Workshop
    row: Row
    blocks: tuple[tuple[Block, ...], ...] = field(init=False)
    backed: tuple[Backed, ...] = field(init=False)

    def __post_init__(self) -> None:
        walls = range(self.problem.room.wall_count)
        object.__setattr__(self, "blocks", tuple(self.problem.blocks(w, self.row) for w in walls))
        object.__setattr__(self, "backed", tuple(self._backed(w) for w in walls))

    def _backed(self, wall: int) -> Backed:
        look_up = self.problem.wall_backing(wall, self.row)
        if look_up is None:
            return UNBACKED
        return Backed((self.problem.backing_key(wall), self.row.z_plates), look_up)

    @property
    def layers(self) -> Layers:
        return self.problem.layers(self.row)

    @cached_property
    def key(self) -> tuple[object, ...]:
        """Rows with equal keys have the same cheapest divisions."""
        return (self.row.courses, self.blocks, tuple(b.key for b in self.backed))

    def filling(self, wall: int, prices: Prices) -> Filling:
        shell = self.problem.shell.walls[wall]
        free_ends = shell.left == "free", shell.right == "free"
        return self.workshop.filling(self.layers, shell.pitches, free_ends, self.blocks[wall], prices, self.backed[wall])

    def corner(self, wall: int, prices: Prices) -> Ints:
        """Corner costs at a wall's left end."""
        before, reach = self.problem.before(wall), self.problem.corner_reach(wall)
        kind = self.problem.shell.walls[wall].left
        look_up = self.problem.corner_backing(wall, self.row)
        backing = UNBACKED
        if look_up is not None:
            backing = Backed((wall, reach, self.backed[before].key, self.backed[wall].key), look_up)
        return self.workshop.corner(self.layers, kind, reach, self.corner_blocks(wall), prices, backing)

    def corner_blocks(self, wall: int) -> tuple[Block, ...]:
        """Blocked cells around a wall's left corner, counted from the corner line, as far as legs reach."""
        before = self.problem.before(wall)
        reach_left, reach_right = self.problem.corner_reach(wall)
        end = self.problem.pitches(before)
        left = [Block(max(b.left - end, -reach_left), b.right - end, b.low, b.high) for b in self.blocks[before]]
        right = [Block(b.left, min(b.right, reach_right), b.low, b.high) for b in self.blocks[wall]]
        return tuple(b for b in (*left, *right) if b.left < b.right)

    def close(self, prices: Prices) -> "RowLegs":
        """The cheapest legs of all chains of the row."""
        return RowLegs(
            tuple(
                close_chain(
                    [self.filling(w, prices).ends for w in chain.walls],
                    [self.corner(w, prices) if self._is_wrapped(w) else self.workshop.legs for w in chain.walls],
                    closed=chain.closed,
                )
                for chain in self.problem.chains
            )
        )

    def divide(self, prices: Prices) -> "Division":
        """One cheapest division of the row."""
        legs = self.close(prices)
        joints: dict[int, list[int]] = {}
        for chain, found in zip(self.problem.chains, legs.chains, strict=True):
            for wall, (left, right) in zip(chain.walls, found.legs, strict=True):
                joints[wall] = self.filling(wall, prices).joints(left, right)
        return Division(self, tuple(tuple(joints[w]) for w in range(len(joints))))

    def _is_wrapped(self, wall: int) -> bool:
        return self.problem.shell.walls[wall].left != "free"


@dataclass(frozen=True, slots=True)
class RowLegs:
    """The legs of a row, chain by chain."""

    chains: tuple[ChainLegs, ...]

    @property
    def cost(self) -> int:
        return sum(chain.cost for chain in self.chains)


@dataclass(frozen=True)
class Division:
    """A row's joints, per wall, the ends of its corner legs included."""

    view: RowView
    joints: tuple[tuple[int, ...], ...]

    def placed(self, wall: int) -> Iterator[Placed]:
        """The candidates of one wall from the left, beginning with the corner at its left end."""
        view, problem = self.view, self.view.problem
        kit, layers = problem.room.kit, view.layers
        here = self.joints[wall]
        kind = problem.shell.walls[wall].left
        if kind != "free":
            before = problem.before(wall)
            leg = problem.pitches(before) - self.joints[before][-1]
            width = leg + here[0]
            near = near_blocks(kit, view.corner_blocks(wall), -leg, width)
            yield Placed(wall, -leg, Candidate(layers, width, near, (kind, leg)))
        for begin, end in zip(here, here[1:], strict=False):
            near = near_blocks(kit, view.blocks[wall], begin, end - begin)
            yield Placed(wall, begin, Candidate(layers, end - begin, near, None))

    def bodies(self, wall: int) -> Iterator[tuple[Placed, Body]]:
        """The panels of one wall's candidates."""
        for placed in self.placed(wall):
            for body in self.view.workshop.bodies(placed.candidate):
                yield placed, body

    @cached_property
    def all_bodies(self) -> tuple[Body, ...]:
        """All panels of the row."""
        return tuple(body for wall in range(len(self.joints)) for _, body in self.bodies(wall))

    def mount_places(self, placed: Placed, body: Body) -> Iterator[tuple[int, int, int]]:
        """A panel's mounting points as (wall, pitch line on that wall, course of the row)."""
        problem = self.view.problem
        for mount in body.mounts:
            x = placed.begin + mount.x
            if x < 0:
                before = problem.before(placed.wall)
                yield before, problem.pitches(before) + x, mount.course
            else:
                yield placed.wall, x, mount.course

    @cached_property
    def blocking(self) -> int:
        """Units for all mounting points of the row with no timber behind them."""
        if all(backed.look_up is None for backed in self.view.backed):
            return 0
        missing = 0
        for wall in range(len(self.joints)):
            for placed, body in self.bodies(wall):
                for at, x, course in self.mount_places(placed, body):
                    look_up = self.view.backed[at].look_up
                    missing += 0 if look_up is None else int(look_up(course)[x])
        return missing * self.view.workshop.tariff.blocking
