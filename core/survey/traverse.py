"""Measured walls walked round the room as a closed traverse: by how much they miss their start, and the miss shared out."""

import math
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, replace
from itertools import pairwise
from types import MappingProxyType
from typing import Literal

from core.errors import RoomError
from core.language import marked, tr, trn
from core.room import Point, Units, wall_letter
from core.survey.legs import Leg
from core.units import format_length

Rule = Literal["compass", "transit", "last wall"]

RULES: Mapping[Rule, str] = MappingProxyType(
    {
        "compass": marked("over all walls (compass rule)"),
        "transit": marked("keep right angles (transit rule)"),
        "last wall": marked("the last wall takes it all"),
    }
)
"""The ways to share out what walls miss, and what to call them."""

MOST_MISSED = 0.05
"""Of the way round; what misses more was not measured badly but written wrongly. From memory."""
MOST_ANGLE_MISSED_DEG = 10.0
_SAME_WAY_DEG = 3.0
_NOTHING_MM = 0.005


@dataclass(frozen=True, slots=True)
class Closure:
    """What is missing between the end of the last wall and the first corner: the end lies so far right of it and above it."""

    right_mm: float
    up_mm: float
    way_round_mm: float

    @property
    def missed_mm(self) -> float:
        return math.hypot(self.right_mm, self.up_mm)

    @property
    def closes(self) -> bool:
        return self.missed_mm <= _NOTHING_MM

    @property
    def one_in(self) -> float:
        """The way round over the miss: the larger the better; infinite where the walls close."""
        return self.way_round_mm / self.missed_mm if not self.closes else math.inf


@dataclass(frozen=True, slots=True)
class Traverse:
    """The corners walked, the first again at the end as far as it was met, and the angle that the turns together miss."""

    points_mm: tuple[Point, ...]
    angle_missed_deg: float

    @property
    def closure(self) -> Closure:
        return closure_of(self.points_mm)


def traverse(legs: Sequence[Leg]) -> Traverse:
    """The walls walked from the origin, the first one up the plan.

    Where every turn is given they must add up to one turn round. What little they miss is shared out equally first, as in any
    traverse with measured angles. Raises RoomError for fewer than three walls and for turns that go no way round.
    """
    if len(legs) < 3:
        raise RoomError(trn("found {n} wall; a room has at least three", "found {n} walls; a room has at least three", len(legs)))
    missed_deg = _angle_missed_deg(legs)
    if missed_deg:
        legs = [replace(leg, turn_deg=(leg.turn_deg or 0.0) - missed_deg / len(legs)) for leg in legs]
    x, y, heading = 0.0, 0.0, 90.0
    points: list[Point] = [(x, y)]
    for leg in legs:
        step_x, step_y = _step(heading)
        x, y = x + leg.length_mm * step_x, y + leg.length_mm * step_y
        points.append((x, y))
        heading -= leg.turn_deg or 0.0
    return Traverse(tuple(points), missed_deg)


def _step(heading_deg: float) -> Point:
    """The unit step at an angle from the plan's right; exact where it runs with the plan."""
    quarter = heading_deg / 90
    if quarter == round(quarter):
        return ((1.0, 0.0), (0.0, 1.0), (-1.0, 0.0), (0.0, -1.0))[round(quarter) % 4]
    return math.cos(math.radians(heading_deg)), math.sin(math.radians(heading_deg))


def _angle_missed_deg(legs: Sequence[Leg]) -> float:
    """By how many degrees the turns together differ from one turn round; 0 where the last one is left open."""
    if legs[-1].turn_deg is None:
        return 0.0
    total = math.fsum(leg.turn_deg or 0.0 for leg in legs)
    missed = total - math.copysign(360.0, total)
    if abs(missed) > MOST_ANGLE_MISSED_DEG:
        raise RoomError(
            tr(
                "the turns at walls A to {last} add up to {total:g}°, once round is 360°; a turn is missing, too "
                "many, or goes the other way",
                last=wall_letter(len(legs) - 1),
                total=abs(total),
            )
        )
    return missed if abs(missed) > 1e-9 else 0.0


def closure_of(points_mm: Sequence[Point]) -> Closure:
    """What is missing between the last point and the first."""
    (x0, y0), (x1, y1) = points_mm[0], points_mm[-1]
    return Closure(x1 - x0, y1 - y0, math.fsum(math.dist(a, b) for a, b in pairwise(points_mm)))


def share_out(points_mm: Sequence[Point], rule: Rule) -> tuple[Point, ...]:
    """The corners once the miss between the last point and the first is shared out; one corner fewer than points.

    The compass rule, or Bowditch rule, moves every corner by the miss times the way walked to it over the way round (NPTEL
    Surveying, module 9, lecture 29, Bowditch analytical method). The transit rule takes the way to the right and the way up
    each for itself, so that walls along the plan stay along it. Raises RoomError where so much is missed that a wall or a
    turn must be wrong, and names the walls to look at.
    """
    closure = closure_of(points_mm)
    if closure.missed_mm > MOST_MISSED * closure.way_round_mm:
        raise RoomError(_blunder(points_mm, closure))
    if rule == "last wall":
        return tuple(points_mm[:-1])
    walls = list(pairwise(points_mm))
    if rule == "compass":
        parts = across = _parts(walls, lambda a, b: math.dist(a, b))
    else:
        across = _parts(walls, lambda a, b: abs(b[0] - a[0]))
        parts = _parts(walls, lambda a, b: abs(b[1] - a[1]))
    return tuple(
        (x - closure.right_mm * right, y - closure.up_mm * up)
        for (x, y), right, up in zip(points_mm[:-1], across, parts, strict=False)
    )


def _parts(walls: Sequence[tuple[Point, Point]], measure: Callable[[Point, Point], float]) -> list[float]:
    """For each corner the part of the whole that was walked before it."""
    sizes = [measure(a, b) for a, b in walls]
    whole = math.fsum(sizes) or 1.0
    return [math.fsum(sizes[:number]) / whole for number in range(len(sizes) + 1)]


_SUSPECTS = marked(
    "the walls miss the first corner by {missed:.0f} mm, too much for an error of measuring (at most "
    "1 in {most:.0f} of the way round); look again at wall {walls}"
)
_NO_SUSPECTS = marked(
    "the walls miss the first corner by {missed:.0f} mm, too much for an error of measuring (at most "
    "1 in {most:.0f} of the way round); look for a wall or a turn left out"
)


def _blunder(points_mm: Sequence[Point], closure: Closure) -> str:
    """Says what misses, and which walls, if wrong in length alone, would account for it: those that run along the miss."""
    along = math.atan2(closure.up_mm, closure.right_mm)
    suspects = []
    for number, ((x0, y0), (x1, y1)) in enumerate(pairwise(points_mm)):
        off = math.degrees(math.atan2(y1 - y0, x1 - x0) - along) % 180
        if min(off, 180 - off) <= _SAME_WAY_DEG:
            suspects.append(wall_letter(number))
    return tr(
        _SUSPECTS if 0 < len(suspects) <= 4 else _NO_SUSPECTS,
        missed=closure.missed_mm,
        most=1 / MOST_MISSED,
        walls=tr(" or ").join(suspects),
    )


_WAYS = (marked("{distance} right"), marked("{distance} left"), marked("{distance} up"), marked("{distance} down"))


def way_in_words(closure: Closure, units: Units) -> str:
    """Where the last wall ends, seen from the first corner on the plan: ``3 mm right, 4 mm up``."""
    words = [
        tr(more if mm > 0 else less, distance=format_length(abs(mm), units, 2))
        for mm, more, less in ((closure.right_mm, _WAYS[0], _WAYS[1]), (closure.up_mm, _WAYS[2], _WAYS[3]))
        if abs(mm) > _NOTHING_MM
    ]
    return ", ".join(words) or tr("nowhere")
