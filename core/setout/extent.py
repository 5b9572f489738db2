"""The measures of a piece, for one candidate or for whole arrays of candidates that leave it."""

from dataclasses import dataclass

import numpy as np
from numpy.typing import NDArray

from core.setout.strip import Piece, Strip

Ints = NDArray[np.int64]

LEAST_RUN_PITCHES = 4
LEAST_COURSES = 3


@dataclass(frozen=True)
class PieceExtent:
    """A piece together with the ends of the candidates (single numbers or arrays) that leave it."""

    strip: Strip
    piece: Piece
    span: tuple[int, int]
    starts: Ints
    ends: Ints

    def left_of(self, segment: int) -> Ints:
        """Where the piece's cells in a segment begin."""
        return self.starts if segment == self.span[0] else np.asarray(self.strip.segments[segment].left)

    def right_of(self, segment: int) -> Ints:
        """Where the piece's cells in a segment end."""
        return self.ends if segment == self.span[1] else np.asarray(self.strip.segments[segment].right)

    @property
    def left(self) -> Ints:
        return self.left_of(self.piece.first)

    @property
    def right(self) -> Ints:
        return self.right_of(self.piece.last)

    @property
    def width(self) -> Ints:
        return self.right - self.left

    @property
    def area(self) -> Ints:
        """Area on the frame side in pitch-plates."""
        total = np.asarray(0)
        for node in self.piece.nodes:
            height = self.strip.layers.height(node.low, node.high)
            total = total + height * (self.right_of(node.segment) - self.left_of(node.segment))
        return total

    @property
    def least_run(self) -> Ints:
        """The piece's narrowest horizontal run in pitches."""
        least: Ints | None = None
        for first, last in self.piece.runs:
            run = self.right_of(last) - self.left_of(first)
            least = run if least is None else np.minimum(least, run)
        assert least is not None
        return least

    @property
    def is_corner(self) -> bool:
        return self.strip.is_around_corner(self.piece)

    @property
    def courses(self) -> int:
        """Brick courses between the piece's lowest and highest layer."""
        return self.strip.layers.courses_between(self.piece.low, self.piece.high)

    @property
    def is_weak(self) -> NDArray[np.bool_]:
        """Too narrow somewhere, or too few courses, to hold together."""
        weak: NDArray[np.bool_] = (self.least_run < LEAST_RUN_PITCHES) | (self.courses < LEAST_COURSES)
        return weak

    def is_sliver(self, half_width: int) -> NDArray[np.bool_]:
        """A flat piece narrower than a half-width panel."""
        sliver: NDArray[np.bool_] = (self.width < half_width) & (not self.is_corner)
        return sliver
