"""A stretch of one row unrolled: segments of equal blocking, and the pieces that any candidate on it falls into.

Which pieces a candidate leaves depends only on the segments it touches; their sizes are linear in its two ends. That
is what lets costs be worked out for whole arrays of candidates at once.
"""

from collections.abc import Iterable
from dataclasses import dataclass, field
from functools import cached_property
from itertools import pairwise

from core.setout.layers import Block, Layers


@dataclass(frozen=True, slots=True)
class Segment:
    """Pitches left to right over which the free layer intervals are the same."""

    left: int
    right: int
    free: tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class Node:
    """One free layer interval (low to high) of one segment, by its index."""

    segment: int
    low: int
    high: int


@dataclass(frozen=True)
class Piece:
    """A connected piece of a candidate: its nodes, in order of segment and layer."""

    nodes: tuple[Node, ...]

    @cached_property
    def first(self) -> int:
        return self.nodes[0].segment

    @cached_property
    def last(self) -> int:
        return self.nodes[-1].segment

    @cached_property
    def low(self) -> int:
        return min(node.low for node in self.nodes)

    @cached_property
    def high(self) -> int:
        return max(node.high for node in self.nodes)

    @cached_property
    def is_rectangle(self) -> bool:
        return len(self.nodes) == self.last - self.first + 1 and all(
            (node.low, node.high) == (self.low, self.high) for node in self.nodes
        )

    @cached_property
    def runs(self) -> frozenset[tuple[int, int]]:
        """All maximal horizontal runs as (first, last) segment."""
        edges = sorted({edge for node in self.nodes for edge in (node.low, node.high)})
        found = set()
        for layer in edges[:-1]:
            here = sorted(node.segment for node in self.nodes if node.low <= layer < node.high)
            begin = 0
            for k in range(1, len(here) + 1):
                if k == len(here) or here[k] != here[k - 1] + 1:
                    found.add((here[begin], here[k - 1]))
                    begin = k
        return frozenset(found)


@dataclass(frozen=True)
class Strip:
    """Consecutive pitches of one row, on one wall or around one corner (``corner`` is then the corner's pitch line)."""

    layers: Layers
    segments: tuple[Segment, ...]
    blocks: tuple[Block, ...]
    corner: int | None = None
    _pieces: dict[tuple[int, int], tuple[Piece, ...]] = field(default_factory=dict, repr=False)

    @property
    def left(self) -> int:
        return self.segments[0].left

    @property
    def right(self) -> int:
        return self.segments[-1].right

    def segment_at(self, pitch: int) -> int:
        """Index of the segment that holds a pitch."""
        return next(k for k, segment in enumerate(self.segments) if segment.left <= pitch < segment.right)

    def pieces(self, first: int, last: int) -> tuple[Piece, ...]:
        """The pieces of any candidate that begins in segment ``first`` and ends in segment ``last``."""
        key = first, last
        if key not in self._pieces:
            self._pieces[key] = _connected(
                [Node(k, low, high) for k in range(first, last + 1) for low, high in self.segments[k].free]
            )
        return self._pieces[key]

    def is_around_corner(self, piece: Piece) -> bool:
        """Whether the piece has cells on both walls."""
        if self.corner is None:
            return False
        return self.segments[piece.first].left < self.corner < self.segments[piece.last].right


def strip_of(layers: Layers, left: int, right: int, blocks: Iterable[Block], corner: int | None = None) -> Strip:
    """Cut the pitches ``left`` to ``right`` into segments; blocks are clipped to them."""
    inside = tuple(
        Block(max(b.left, left), min(b.right, right), b.low, b.high) for b in blocks if b.left < right and b.right > left
    )
    edges = {left, right} | {edge for b in inside for edge in (b.left, b.right)}
    if corner is not None:
        edges.add(corner)
    ordered = sorted(edges)
    segments = tuple(
        Segment(x0, x1, _free_intervals(layers.count, [b for b in inside if b.left <= x0 and x1 <= b.right]))
        for x0, x1 in pairwise(ordered)
    )
    return Strip(layers, segments, inside, corner)


def _free_intervals(count: int, blocks: list[Block]) -> tuple[tuple[int, int], ...]:
    free = []
    at = 0
    for block in sorted(blocks, key=lambda b: b.low):
        if block.low > at:
            free.append((at, block.low))
        at = max(at, block.high)
    if at < count:
        free.append((at, count))
    return tuple(free)


def _connected(nodes: list[Node]) -> tuple[Piece, ...]:
    """Group nodes that touch, segment by segment from the left; pieces come in order of their lowest first node."""
    group: dict[Node, list[Node]] = {}
    for node in nodes:
        members = [node]
        for other in nodes:
            touches = other.segment == node.segment - 1 and other.low < node.high and node.low < other.high
            if touches and group[other] is not members:
                members = group[other] + members
                for member in members:
                    group[member] = members
        group[node] = members
    distinct = {id(members): members for members in group.values()}
    pieces = [Piece(tuple(sorted(members, key=lambda n: (n.segment, n.low)))) for members in distinct.values()]
    return tuple(sorted(pieces, key=lambda piece: (piece.nodes[0].segment, piece.nodes[0].low)))
