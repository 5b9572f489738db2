"""A cheap lower bound of a row's cost, so that hopeless row stacks are never worked out."""

from functools import lru_cache

from collections.abc import Hashable

from core.room import Opening
from core.setout.problem import Problem
from core.setout.tariff import Tariff
from core.setout.shell import to_nm


class RowBound:
    """Bounds rows of one room from below: least rates for the area surely covered, handling for the panels surely needed."""

    def __init__(self, problem: Problem, tariff: Tariff) -> None:
        self._problem = problem
        self._tariff = tariff
        self._kit = problem.room.kit
        self._rate = min(tariff.build_plain, tariff.build_shaped, tariff.build_corner, tariff.build_shaped_corner)
        self._pitches = sum(wall.pitches for wall in problem.shell.walls)
        self._spans = tuple(self._span(opening) for opening in problem.room.openings)
        self._known: dict[tuple[int, int], int] = {}

    @property
    def key(self) -> Hashable:
        """Rooms with equal keys have equal bounds."""
        return self._problem.key, self._spans

    def __call__(self, bottom: int, courses: int) -> int:
        step = bottom, courses
        if step not in self._known:
            self._known[step] = self._bound(bottom, courses)
        return self._known[step]

    def _bound(self, bottom: int, courses: int) -> int:
        height = self._kit.row_plates(courses)
        top = bottom + height
        free = self._pitches * height
        for low, high, width, _ in self._spans:
            free -= width * max(0, min(top, high) - max(bottom, low))
        return self._rate * max(0, free) + self._handling(bottom, top)

    def _handling(self, bottom: int, top: int) -> int:
        """Every pitch column with a free cell needs a panel; a panel covers at most the full width, twice that at a corner."""
        count = 0
        full = self._kit.full_width
        for wall in self._problem.shell.walls:
            blocked = sum(w for low, high, w, at in self._spans if at == wall.wall and low <= bottom and top <= high)
            wrapped = (wall.left != "free") + (wall.right != "free")
            count += max(0, -(-(wall.pitches - blocked - wrapped * full) // full))
        return count * self._tariff.handling

    def _span(self, opening: Opening) -> tuple[int, int, int, int]:
        """What an opening can block at most: plates from and to, pitches, and its wall."""
        kit = self._kit
        low = to_nm(opening.sill_mm) // to_nm(kit.plate_mm) - kit.plates_per_course
        high = -(-to_nm(opening.head_mm) // to_nm(kit.plate_mm)) + kit.plates_per_course
        width = to_nm(opening.width_mm) // to_nm(kit.pitch_mm) + 2
        return low, high, width, opening.wall
