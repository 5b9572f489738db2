"""Symmetry where it costs nothing: narrow panels at both ends of a run alike, or turned towards the corners beside an opening.

Tile setters call two equal cuts at the ends of a row a balanced layout. It comes last: the plan costs no more by it, and no joint
leaves the line of the rows above and below.
"""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace
from itertools import accumulate, pairwise

from core.setout.division import Division
from core.setout.plan import Plan
from core.setout.sharing import designs_of

Widths = tuple[int, ...]


@dataclass(frozen=True, slots=True, order=True)
class Run:
    """A stretch of one wall without an opening, between two joints; which of its ends are the wall's."""

    begin: int
    end: int
    from_corner: bool
    to_corner: bool

    def widths(self, joints: Sequence[int]) -> Widths | None:
        """The panels of a row in the stretch; None where no joint stands at one of its ends."""
        if self.begin not in joints or self.end not in joints:
            return None
        return tuple(b - a for a, b in pairwise(joints) if self.begin <= a < self.end)


def balanced(plan: Plan) -> Plan:
    """The plan with as many runs symmetrical as may be, at no more cost and with the joints as much in line."""
    walls = range(len(plan.divisions[0].joints)) if plan.divisions else range(0)
    for wall in walls:
        for run in sorted({run for division in plan.divisions for run in _runs(division, wall)}):
            plan = _balanced_in(plan, wall, run)
    return plan


def _balanced_in(plan: Plan, wall: int, run: Run) -> Plan:
    """The rows that are alike in a run, those of most rows first, each set moved together."""
    alike: dict[Widths, list[int]] = {}
    for n, division in enumerate(plan.divisions):
        widths = run.widths(division.joints[wall])
        if widths and not division.view.held[wall].anything:
            alike.setdefault(widths, []).append(n)
    full = plan.divisions[0].view.problem.room.kit.full_width
    for widths, rows in sorted(alike.items(), key=lambda item: (-len(item[1]), item[0])):
        for wanted in _symmetrical(widths, run, full):
            moved = _moved(plan, rows, wall, run, wanted) if wanted != widths else plan
            if _costs_nothing(moved, plan) and _lines(moved, wall) <= _lines(plan, wall):
                plan = moved
                break
    return plan


def _costs_nothing(moved: Plan, plan: Plan) -> bool:
    """Whether a plan costs no more than another, nor owes more set-ups, whatever these cost."""
    return moved.units <= plan.units and len(designs_of(moved.divisions)) <= len(designs_of(plan.divisions))


def _runs(division: Division, wall: int) -> Iterator[Run]:
    """The stretches of a row between the wall's ends and the openings on it."""
    joints = division.joints[wall]
    begin, from_corner = joints[0], True
    for block in division.view.blocks[wall]:
        before = [x for x in joints if x <= block.left]
        after = [x for x in joints if x >= block.right]
        if before and before[-1] > begin:
            yield Run(begin, before[-1], from_corner, False)
        begin, from_corner = (after[0] if after else joints[-1]), False
    if joints[-1] > begin:
        yield Run(begin, joints[-1], from_corner, True)


def _symmetrical(widths: Widths, run: Run, full: int) -> Iterator[Widths]:
    """Symmetrical ways to fill a run, the best first."""
    if run.from_corner != run.to_corner:
        yield tuple(sorted(widths, reverse=run.to_corner))
        return
    count, rest = divmod(sum(widths), full)
    if rest and count and (full + rest) % 2 == 0:
        cut = (full + rest) // 2
        yield (cut, *[full] * (count - 1), cut)
    odd = [width for width, times in Counter(widths).items() if times % 2]
    if len(odd) <= 1:
        half = sorted(Counter({width: times // 2 for width, times in Counter(widths).items()}).elements())
        yield (*half, *odd, *reversed(half))


def _moved(plan: Plan, rows: Sequence[int], wall: int, run: Run, widths: Widths) -> Plan:
    divisions = list(plan.divisions)
    for n in rows:
        was = divisions[n]
        joints = was.joints[wall]
        inside = accumulate(widths, initial=run.begin)
        here = (*(x for x in joints if x < run.begin), *inside, *(x for x in joints if x > run.end))
        same = {other: panels for other, panels in enumerate(was.walls) if other != wall}
        divisions[n] = Division(was.view, (*was.joints[:wall], here, *was.joints[wall + 1 :]), same)
    return replace(plan, divisions=tuple(divisions))


def _lines(plan: Plan, wall: int) -> int:
    """On how many lines of a wall joints stand."""
    return len({x for division in plan.divisions for x in division.joints[wall]})
