"""A cheap lower bound of a row's cost, so that hopeless row stacks are never worked out."""

from collections.abc import Hashable
from typing import NamedTuple

import numpy as np

from core.room import Opening
from core.setout.layers import blocked_pitches
from core.setout.mounting import whole_row_courses
from core.setout.paths import FREE_END, WallPaths
from core.setout.problem import Problem
from core.setout.result import Row, WallShell
from core.setout.shell import to_nm
from core.setout.tariff import UNREACHABLE, Ints
from core.setout.workshop import Workshop

Spans = tuple[tuple[int, int], ...]
"""Pitches from and to that openings overlap on one wall."""


class _Reach(NamedTuple):
    """What an opening overlaps: plates from and to, pitches at most; and whether a corner panel can meet it.

    Where exactly it stands (``left`` to ``right``) is kept only on walls with standing timber, where it matters.
    """

    wall: int
    low: int
    high: int
    pitches: int
    near_left: bool
    near_right: bool
    left: int
    right: int


class RowBound:
    """Bounds rows of one room from below, set-up and penalties left out.

    Least build rates for the area that is surely covered; a corner panel at every corner that no opening comes near, its
    legs as short as may be; and on every wall the fewest further panels that cover what is not blocked from bottom to top.
    """

    def __init__(self, problem: Problem, workshop: Workshop) -> None:
        tariff = workshop.tariff
        self._problem = problem
        self._tariff = tariff
        self._ways = workshop.ways
        self._kit = problem.room.kit
        self._least_rate = min(tariff.build_plain, tariff.build_shaped, tariff.build_corner, tariff.build_shaped_corner)
        self._corner_extra = min(tariff.build_corner, tariff.build_shaped_corner) - self._least_rate
        self._reaches = tuple(self._reach(opening) for opening in problem.room.openings)
        self._known: dict[tuple[int, int], int] = {}
        self._bands = [(r.low, r.high, r.pitches) for r in self._reaches]
        self._looks: dict[Hashable, tuple[int, dict[int, tuple[bool, bool]], dict[int, Spans]]] = {}
        self._places = list(zip(problem.backings, problem.shell.starts_nm, (w.pitches for w in problem.shell.walls), strict=True))
        self._backed = [w for w, backing in enumerate(problem.backings) if backing is not None]
        self._pitches = sum(wall.pitches for wall in problem.shell.walls)

    @property
    def key(self) -> Hashable:
        """Rooms with equal keys have equal bounds."""
        return self._problem.key, self._reaches, self._problem.backings, self._problem.shell.starts_nm

    def __call__(self, bottom: int, courses: int) -> int:
        """Units that a row of ``courses`` from ``bottom`` plates up costs at least."""
        step = bottom, courses
        if step not in self._known:
            self._known[step] = self._bound(Row(0, bottom, courses, self._kit.row_plates(courses)))
        return self._known[step]

    def likeness(self, bottom: int, courses: int) -> Hashable:
        """Rows of equal likeness look the same, and so cost the same."""
        if self._backed:
            return bottom, courses
        top = bottom + self._kit.row_plates(courses)
        meets = [(n, r.low - bottom, r.high - bottom) for n, r in enumerate(self._reaches) if r.low < top and bottom < r.high]
        return courses, tuple((n, max(low, 0), min(high, top - bottom)) for n, low, high in meets)

    def _bound(self, row: Row) -> int:
        bottom, top, margin = row.z_plates, row.z_plates + row.height_plates, self._kit.plates_per_course
        free = self._pitches * row.height_plates
        met = covered = 0
        for n, (low, high, pitches) in enumerate(self._bands):
            if low < top and bottom < high:
                met |= 1 << n
                free -= pitches * (min(top, high + margin) - max(bottom, low - margin))
                if low - margin <= bottom and top <= high + margin:
                    covered |= 1 << n
        look = row.courses, met, covered
        if look not in self._looks:
            meets = [r for n, r in enumerate(self._reaches) if met >> n & 1]
            covers = [r for n, r in enumerate(self._reaches) if covered >> n & 1]
            clear = {wall: self._clear_ends(wall, meets) for wall in self._backed}
            spans = {wall: tuple((r.left, r.right) for r in meets if r.wall == wall) for wall in self._backed}
            self._looks[look] = self._handling(row, meets, covers), clear, spans
        handling, clear, spans = self._looks[look]
        backed = sum(self._backed_bound(wall, clear[wall], spans[wall], row) for wall in self._backed)
        return self._least_rate * max(0, free) + handling + backed

    def _handling(self, row: Row, meets: list[_Reach], covers: list[_Reach]) -> int:
        """Corner panels, and what stands between them on walls whose frame is still to be built."""
        walls = [wall for wall in self._problem.shell.walls if wall.wall not in self._backed]
        corners = sum(self._is_clear(wall.wall, meets) for wall in self._problem.shell.walls)
        return self._tariff.handling * corners + sum(self._wall_bound(wall, meets, covers, row) for wall in walls)

    def _is_clear(self, wall: int, meets: list[_Reach]) -> bool:
        """Whether a whole corner panel surely stands at a wall's left end."""
        before = self._problem.before(wall)
        near = any((r.wall == wall and r.near_left) or (r.wall == before and r.near_right) for r in meets)
        return self._problem.shell.walls[wall].left != "free" and not near

    def _clear_ends(self, wall: int, meets: list[_Reach]) -> tuple[bool, bool]:
        following = (wall + 1) % len(self._problem.shell.walls)
        return self._is_clear(wall, meets), self._is_clear(following, meets)

    def _wall_bound(self, wall: WallShell, meets: list[_Reach], covers: list[_Reach], row: Row) -> int:
        """Handling of the flat panels on a wall, and what longer legs would owe in their place."""
        blocked = sum(r.pitches for r in covers if r.wall == wall.wall)
        sides = sum(self._clear_ends(wall.wall, meets))
        full, least = self._kit.full_width, self._kit.least_width_pitches
        doubtful = (wall.left != "free") + (wall.right != "free") - sides
        rest = wall.pitches - blocked - full * doubtful
        extra = self._corner_extra * row.height_plates
        fewest = max(0, -(-(rest - full * sides) // full))
        most = max(0, -(-(rest - least * sides) // full))
        return min(
            self._tariff.handling * count + extra * max(least * sides, rest - full * count) for count in range(fewest, most + 1)
        )

    def _backed_bound(self, wall: int, clear: tuple[bool, bool], spans: Spans, row: Row) -> int:
        """Handling, long legs and blocking on a wall whose timber stands, by the cheapest way along it.

        Where an opening meets the row, only pitch lines with no timber at any of its heights count as bare, and a candidate
        that the opening may touch costs nothing.
        """

        per_pitch = self._corner_extra * row.height_plates
        extra = per_pitch * clear[0], per_pitch * clear[1]

        def make() -> int:
            owed = self._owed(wall, row, whole=not spans)
            return self._ways.get((owed.tobytes(), spans, extra), lambda: self._cheapest_way(owed, spans, extra))

        return self._ways.get((self._places[wall], spans, clear, row.z_plates, row.courses), make)

    def _owed(self, wall: int, row: Row, *, whole: bool) -> Ints:
        """The blocking that holes on each pitch line owe at least."""
        courses = whole_row_courses(self._kit, row.courses)
        if whole:
            points = sum(self._problem.bare(wall, self._problem.course_height_mm(row, course)) for course in courses)
        else:
            points = np.minimum.reduce(self._problem.bare_lines(wall, row, range(row.courses))) * len(courses)
        return np.asarray(points * self._tariff.blocking, dtype=np.int64)

    def _cheapest_way(self, blocking: Ints, spans: Spans, extra: tuple[int, int]) -> int:
        """The least sum along one wall.

        ``blocking`` is what holes on each pitch line owe, ``extra`` what the left and the right leg owe per pitch.
        """
        pitches, least, inset = len(blocking) - 1, self._kit.least_width_pitches, self._kit.mounts.inset_pitches
        widths = np.arange(least, self._kit.full_width + 1)
        starts = np.arange(pitches)[:, None]
        ends = np.minimum(starts + widths, pitches)
        at_left, at_right = blocking[np.minimum(starts + inset, pitches)], blocking[np.maximum(ends - inset, 0)]
        apart = widths - 2 * inset
        costs = self._tariff.handling + at_left * (apart >= 0) + at_right * (apart >= 2)
        holds = widths - inset > self._kit.thickness_pitches
        costs[0] = extra[0] * widths + at_right[0] * holds
        costs = np.where(starts + widths == pitches, extra[1] * widths + at_left * holds, costs)
        for left, right in spans:
            costs[(starts < right) & (ends > left)] = 0
        costs[starts + widths > pitches] = UNREACHABLE
        return int(WallPaths(costs[None], least, FREE_END).ends(0, FREE_END)[0, 0])

    def _reach(self, opening: Opening) -> _Reach:
        kit, shell = self._kit, self._problem.shell
        low = to_nm(opening.sill_mm) // to_nm(kit.plate_mm)
        high = -(-to_nm(opening.head_mm) // to_nm(kit.plate_mm))
        left, right = blocked_pitches(self._problem.room, shell, opening)
        backed = self._problem.backings[opening.wall] is not None
        return _Reach(
            wall=opening.wall,
            low=low,
            high=high,
            pitches=to_nm(opening.width_mm) // to_nm(kit.pitch_mm) + 2,
            near_left=left < kit.full_width,
            near_right=right > shell.walls[opening.wall].pitches - kit.full_width,
            left=left if backed else 0,
            right=right if backed else 0,
        )
