"""The outline of a panel that is a union of upright boxes, traced along their edges on the grid.

A general library for shapes does the same, but this is asked for every new panel of a drag. All corners are whole numbers, all
edges level or upright.
"""

from collections.abc import Iterable, Iterator, Sequence
from itertools import pairwise

from core.setout.result import Ring

Rings = tuple[Ring, ...]
"""An outline and its cut-outs."""

Box = tuple[int, int, int, int]
"""Left, bottom, right and top. Boxes side by side may touch; those above one another do not."""

Point = tuple[int, int]


def traced(boxes: Sequence[Box]) -> tuple[Rings, ...]:
    """Outline and cut-outs of each connected part of a union of boxes, from left to right and from below.

    Outlines run anticlockwise, cut-outs clockwise, each from its lowest left corner and without straight points.
    """
    if len(boxes) == 1:
        left, bottom, right, top = boxes[0]
        return ((((left, bottom), (right, bottom), (right, top), (left, top)),),)
    outlines: list[Ring] = []
    holes: list[Ring] = []
    for ring in _loops(_edges(boxes)):
        (outlines if _runs_anticlockwise(ring) else holes).append(ring)
    outlines.sort(key=_bounds)
    return tuple((outline, *sorted(hole for hole in holes if _holder(outlines, hole) is outline)) for outline in outlines)


def _edges(boxes: Sequence[Box]) -> Iterator[tuple[Point, Point]]:
    """The edges of the union, the union on their left."""
    for left, bottom, right, top in boxes:
        yield (left, bottom), (right, bottom)
        yield (right, top), (left, top)
    for x in {x for left, _, right, _ in boxes for x in (left, right)}:
        ending = [(bottom, top) for _, bottom, right, top in boxes if right == x]
        beginning = [(bottom, top) for left, bottom, _, top in boxes if left == x]
        for low, high in pairwise(sorted({z for span in (*ending, *beginning) for z in span})):
            on_left, on_right = _covers(ending, low), _covers(beginning, low)
            if on_left and not on_right:
                yield (x, low), (x, high)
            elif on_right and not on_left:
                yield (x, high), (x, low)


def _covers(spans: Iterable[tuple[int, int]], z: int) -> bool:
    return any(low <= z < high for low, high in spans)


def _loops(edges: Iterable[tuple[Point, Point]]) -> Iterator[Ring]:
    """Closed rings made of all edges. Where boxes meet at a corner only, a ring turns left: it stays with its box.

    A ring that comes back to a corner is two that touch there.
    """
    following: dict[Point, list[Point]] = {}
    for begin, end in edges:
        following.setdefault(begin, []).append(end)
    while following:
        path = [min(following, key=_height)]
        while path:
            corner = _next(path, following)
            if corner in path:
                at = path.index(corner)
                yield _tidied(path[at:])
                del path[at + 1 :]
                if corner not in following:
                    path.pop()
            else:
                path.append(corner)


def _next(path: list[Point], following: dict[Point, list[Point]]) -> Point:
    """Take an edge that leads on from the end of a path."""
    x, z = path[-1]
    ends = following[x, z]
    if len(ends) == 1:
        del following[x, z]
        return ends[0]
    before = path[-2] if len(path) > 1 else (x, z)
    dx, dz = x - before[0], z - before[1]
    return ends.pop(max(range(len(ends)), key=lambda k: dx * (ends[k][1] - z) - dz * (ends[k][0] - x)))


def _height(point: Point) -> Point:
    return point[1], point[0]


def _tidied(points: list[Point]) -> Ring:
    """A ring from its lowest left corner, without the points where it goes straight on."""
    kept = [p for k, p in enumerate(points) if not _is_straight(points[k - 1], p, points[(k + 1) % len(points)])]
    begin = kept.index(min(kept, key=_height))
    return tuple(kept[begin:] + kept[:begin])


def _is_straight(a: Point, b: Point, c: Point) -> bool:
    return (a[0] == b[0] == c[0]) or (a[1] == b[1] == c[1])


def _runs_anticlockwise(ring: Ring) -> bool:
    """From its lowest left corner an anticlockwise ring goes along the bottom."""
    return ring[1][1] == ring[0][1]


def _bounds(ring: Ring) -> tuple[int, int, int, int]:
    xs, zs = zip(*ring, strict=True)
    return min(xs), min(zs), max(xs), max(zs)


def _holder(outlines: list[Ring], hole: Ring) -> Ring:
    """The outline that a cut-out lies in."""
    return next((outline for outline in outlines[:-1] if _holds(outline, hole[0])), outlines[-1])


def _holds(outline: Ring, corner: Point) -> bool:
    """Whether the cell up and to the right of a corner lies within an outline."""
    x, z = corner
    walls = (a[0] for a, b in pairwise((*outline, outline[0])) if a[0] == b[0] and min(a[1], b[1]) <= z < max(a[1], b[1]))
    return sum(wall > x for wall in walls) % 2 == 1
