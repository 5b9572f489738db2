"""Where a piece's mounting points fall, by the kit's hole pattern, for one candidate or a whole array of them."""

from collections.abc import Callable

import numpy as np
from numpy.typing import NDArray

from core.kit import Kit
from core.setout.extent import Ints, PieceExtent
from core.setout.strip import Piece, Strip

LEAST_POINTS = 2

Holes = tuple[int, Ints, Ints, NDArray[np.bool_], NDArray[np.bool_]]
"""A course, the pitch lines of its left and its right hole, and whether there is one."""


def mount_courses(kit: Kit, strip: Strip, piece: Piece) -> tuple[int, ...]:
    """The brick courses of the row a piece is screwed through, lowest first; none if it has no brick course."""
    low, high = piece.low, min(piece.high, strip.layers.courses)
    return tuple(low + course for course in whole_row_courses(kit, high - low))


def whole_row_courses(kit: Kit, courses: int) -> tuple[int, ...]:
    """The courses, counted from 0, that a panel of so many courses is screwed through."""
    if courses <= 0:
        return ()
    if courses < 2 * kit.mounts.course:
        return ((courses - 1) // 2,)
    return kit.mounts.course - 1, courses - kit.mounts.course


class MountLines:
    """The pitch lines of one strip that can take a hole, looked up by piece and course.

    ``backing`` gives, for a course, 1 for every pitch line from the strip's left end that has no timber behind it; None
    stands for timber everywhere.
    """

    def __init__(self, strip: Strip, kit: Kit, backing: Callable[[int], Ints] | None) -> None:
        self._strip = strip
        self._kit = kit
        self._backing = backing
        self._tables: dict[tuple[Piece, int, bool], tuple[Ints, Ints]] = {}

    def missing(self, extent: PieceExtent) -> Ints:
        """How many of the piece's mounting points have no timber behind them."""
        if self._backing is None:
            return np.zeros((), dtype=np.int64)
        total = np.zeros((), dtype=np.int64)
        for course, left, right, has_left, has_right in self.points(extent):
            bare = self._backing(course)
            origin = self._strip.left
            total = total + has_left * bare[left - origin] + has_right * bare[right - origin]
        return total

    def points(self, extent: PieceExtent) -> list[Holes]:
        """Per course: its layer, the left and right hole's pitch line, and whether each exists."""
        return self.points_and_clearance(extent)[0]

    def points_and_clearance(self, extent: PieceExtent) -> tuple[list[Holes], NDArray[np.bool_]]:
        """The same, and whether there are enough of them without waiving the clearance to blocked cells."""
        kept = self._placed(extent, clear=True)
        count = sum(has_left.astype(np.int64) + has_right for *_, has_left, has_right in kept)
        enough = np.asarray(count) >= LEAST_POINTS
        if enough.all():
            return kept, enough
        waived = self._placed(extent, clear=False)
        points = [
            (
                course,
                np.where(enough, left, free_left),
                np.where(enough, right, free_right),
                np.where(enough, has_left, free_has_left),
                np.where(enough, has_right, free_has_right),
            )
            for (course, left, right, has_left, has_right), (_, free_left, free_right, free_has_left, free_has_right) in zip(
                kept, waived, strict=True
            )
        ]
        return points, enough

    def _placed(self, extent: PieceExtent, *, clear: bool) -> list[Holes]:
        inset = self._kit.mounts.inset_pitches
        origin = self._strip.left
        found = []
        for course in mount_courses(self._kit, self._strip, extent.piece):
            following, preceding = self._usable(extent.piece, course, clear)
            least, most = extent.left + inset, extent.right - inset
            left = following.take(least - origin, mode="clip")
            right = preceding.take(most - origin, mode="clip")
            has_left = (left <= most) & (left >= least)
            has_right = has_left & (right - left >= 2)
            found.append((course, np.where(has_left, left, origin), np.where(has_right, right, origin), has_left, has_right))
        return found

    def _usable(self, piece: Piece, course: int, clear: bool) -> tuple[Ints, Ints]:
        """For each pitch line of the strip: the next usable line at or after it, and the last one at or before it.

        Lines that do not exist are given as far outside the strip.
        """
        key = piece, course, clear
        if key not in self._tables:
            self._tables[key] = _neighbours(self._good_lines(piece, course, clear), self._strip.left)
        return self._tables[key]

    def _good_lines(self, piece: Piece, course: int, clear: bool) -> NDArray[np.bool_]:
        strip = self._strip
        cells = np.zeros(strip.right - strip.left, dtype=bool)
        for node in piece.nodes:
            if node.low <= course < node.high:
                segment = strip.segments[node.segment]
                cells[segment.left - strip.left : segment.right - strip.left] = True
        if clear:
            for left, right in self._near_cut_outs(piece, course):
                cells[max(0, left - strip.left) : max(0, right - strip.left)] = False
        good = np.zeros(len(cells) + 1, dtype=bool)
        good[1:-1] = cells[:-1] & cells[1:]
        if strip.corner is not None:
            thickness = self._kit.thickness_pitches
            good[max(0, strip.corner - strip.left - thickness) : strip.corner - strip.left + thickness + 1] = False
        return good

    def _near_cut_outs(self, piece: Piece, course: int) -> list[tuple[int, int]]:
        """Pitches that are too near to a cut-out: to cells that the piece leaves out of its own bounding rectangle."""
        reach = self._kit.mounts.clear_pitches
        found = []
        for k in range(piece.first, piece.last + 1):
            segment = self._strip.segments[k]
            own = [(node.low, node.high) for node in piece.nodes if node.segment == k]
            layers = range(max(piece.low, course - reach), min(piece.high, course + reach + 1))
            if any(not any(low <= layer < high for low, high in own) for layer in layers):
                found.append((segment.left - reach, segment.right + reach))
        return found


def _neighbours(good: NDArray[np.bool_], origin: int) -> tuple[Ints, Ints]:
    far = len(good) + abs(origin) + 1_000
    lines = np.arange(len(good), dtype=np.int64) + origin
    following = np.minimum.accumulate(np.where(good, lines, far)[::-1])[::-1]
    preceding = np.maximum.accumulate(np.where(good, lines, -far))
    return following, preceding
