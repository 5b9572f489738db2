"""Legs of a whole row around its corners, compared with trying every one."""

import random
from collections.abc import Iterator
from dataclasses import dataclass
from itertools import product

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.setout.chain import ChainClosing, Leaf
from core.setout.kept import Kept
from tests.core.setout.rooms import law

CHAINS = st.tuples(st.integers(0, 10_000), st.integers(1, 4), st.integers(1, 3))


@dataclass(frozen=True)
class Chain:
    """Random costs of walls and corners; ``closing`` is None for an open chain, whose outer ends have one leg."""

    walls: list[Leaf]
    corners: list[Leaf]
    closing: Leaf | None

    def closed_on_itself(self, products: Kept | None = None) -> ChainClosing:
        return ChainClosing(self.walls, self.corners, self.closing, products or Kept(100))

    def cost(self, legs: tuple[tuple[int, int], ...]) -> int:
        """What a choice of legs costs, added up wall by wall and corner by corner."""
        total = sum(int(wall.costs[pair]) for wall, pair in zip(self.walls, legs, strict=True))
        for corner, (_, right), (left, _) in zip(self.corners, legs, legs[1:], strict=False):
            total += int(corner.costs[right, left])
        if self.closing is not None:
            total += int(self.closing.costs[legs[-1][1], legs[0][0]])
        return total

    def every_choice(self) -> Iterator[tuple[tuple[int, int], ...]]:
        each = [list(product(range(wall.costs.shape[0]), range(wall.costs.shape[1]))) for wall in self.walls]
        return product(*each)


def chain(seed: int, walls: int, legs: int, *, closed: bool) -> Chain:
    rng = random.Random(seed)
    serials = iter(range(1000))

    def leaf(rows: int, columns: int) -> Leaf:
        return Leaf(next(serials), np.array([[rng.randint(0, 30) for _ in range(columns)] for _ in range(rows)]))

    def ends(wall: int) -> tuple[int, int]:
        return (1 if wall == 0 and not closed else legs), (1 if wall == walls - 1 and not closed else legs)

    return Chain(
        [leaf(*ends(wall)) for wall in range(walls)],
        [leaf(legs, legs) for _ in range(walls - 1)],
        leaf(legs, legs) if closed else None,
    )


@pytest.mark.parametrize("closed", [True, False])
@law
@given(CHAINS)
def test_no_other_choice_of_legs_is_cheaper(closed: bool, size: tuple[int, int, int]) -> None:
    sample = chain(*size, closed=closed)
    assert sample.closed_on_itself().cost() == min(sample.cost(legs) for legs in sample.every_choice())


@pytest.mark.parametrize("closed", [True, False])
@law
@given(CHAINS)
def test_the_legs_chosen_cost_what_the_chain_says(closed: bool, size: tuple[int, int, int]) -> None:
    sample = chain(*size, closed=closed)
    found = sample.closed_on_itself().legs()
    assert sample.cost(found.legs) == found.cost == sample.closed_on_itself().cost()


@law
@given(CHAINS, st.integers(0, 3))
def test_a_changed_wall_is_not_mistaken_for_what_was_kept(size: tuple[int, int, int], which: int) -> None:
    """The same memory of products serves the chain before and after one wall changes."""
    before, products = chain(*size, closed=True), Kept(100)
    before.closed_on_itself(products).cost()
    wall = which % len(before.walls)
    walls = list(before.walls)
    walls[wall] = Leaf(5_000, walls[wall].costs[::-1, ::-1] + 1)
    after = Chain(walls, before.corners, before.closing)
    assert after.closed_on_itself(products).cost() == after.closed_on_itself().cost()
