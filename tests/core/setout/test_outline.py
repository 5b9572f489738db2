"""Outlines of unions of boxes, held to shapely: the same parts, the same rings."""

from collections.abc import Iterable
from itertools import pairwise

from hypothesis import given
from hypothesis import strategies as st
from shapely import Polygon, box, get_parts, unary_union

from core.setout.outline import Box, Rings, traced
from tests.core.setout.rooms import law

EDGES = st.lists(st.integers(0, 11), min_size=2, max_size=7, unique=True).map(sorted)
LEVELS = st.lists(st.integers(0, 9), max_size=4, unique=True).map(sorted)


@st.composite
def columns_of_boxes(draw: st.DrawFn) -> list[Box]:
    """Columns side by side, each with up to two boxes that do not touch: what a panel's cells are made of."""
    edges = draw(EDGES)
    boxes: list[Box] = []
    for left, right in pairwise(edges):
        levels = draw(LEVELS)
        boxes += [(left, bottom, right, top) for bottom, top in zip(levels[::2], levels[1::2], strict=False)]
    return boxes


def by_shapely(boxes: Iterable[Box]) -> list[Polygon]:
    return sorted(get_parts(unary_union([box(*one) for one in boxes])), key=lambda polygon: polygon.bounds)


def polygon(rings: Rings) -> Polygon:
    return Polygon(rings[0], rings[1:])


@law
@given(columns_of_boxes())
def test_the_parts_are_those_that_shapely_finds(boxes: list[Box]) -> None:
    found, expected = [polygon(rings) for rings in traced(boxes)], by_shapely(boxes)
    assert [one.bounds for one in found] == [one.bounds for one in expected]
    assert all(one.equals(other) for one, other in zip(found, expected, strict=True))
    assert all(len(one.interiors) == len(other.interiors) for one, other in zip(found, expected, strict=True))


@law
@given(columns_of_boxes())
def test_outlines_run_anticlockwise_and_cut_outs_clockwise_from_the_lowest_left_corner(boxes: list[Box]) -> None:
    for outline, *holes in traced(boxes):
        assert polygon((outline,)).exterior.is_ccw
        assert not any(polygon((hole,)).exterior.is_ccw for hole in holes)
        assert all(ring[0] == min(ring, key=lambda point: (point[1], point[0])) for ring in (outline, *holes))


@law
@given(columns_of_boxes())
def test_no_corner_lies_on_a_straight_edge(boxes: list[Box]) -> None:
    for ring in (ring for rings in traced(boxes) for ring in rings):
        for (x0, z0), (x1, z1), (x2, z2) in zip((ring[-1], *ring[:-1]), ring, (*ring[1:], ring[0]), strict=True):
            assert (x1 - x0) * (z2 - z1) != (z1 - z0) * (x2 - x1)


def test_a_part_may_touch_itself_at_a_corner() -> None:
    """Of a frame whose cut-out reaches its outer edge in one corner, outline and cut-out stay apart."""
    outline, *holes = traced([(0, 0, 2, 6), (2, 0, 4, 2), (2, 4, 4, 6), (4, 2, 6, 6)])[0]
    assert outline == ((0, 0), (4, 0), (4, 2), (6, 2), (6, 6), (0, 6))
    assert holes == [((2, 2), (2, 4), (4, 4), (4, 2))]
