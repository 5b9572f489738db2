"""Plans in words, for those who do not see them."""

import math
from collections.abc import Sequence
from itertools import pairwise

from core.language import tr, trn
from core.room import Point, Room, Units, wall_letter
from core.units import format_length


def plan_words(room: Room, wall: int, corner: int | None) -> str:
    """What is current on the plan, and the walls round it."""
    walls = ", ".join(
        f"{wall_letter(one)} {format_length(room.wall_length_mm(one), room.display_units)}" for one in range(room.wall_count)
    )
    if corner is not None:
        return tr(
            "The corner of walls {before} and {after} is chosen; arrow keys move it. Walls: {walls}",
            before=wall_letter((corner - 1) % room.wall_count),
            after=wall_letter(corner),
            walls=walls,
        )
    return tr(
        "Wall {wall} is current; arrow keys move it, Home and End choose a corner. Walls: {walls}",
        wall=wall_letter(wall),
        walls=walls,
    )


def outline_words(points: Sequence[Point], units: Units, *, closed: bool) -> str:
    """An outline by the lengths of its walls."""
    if len(points) < 2:
        return tr("nothing drawn yet")
    ends = pairwise((*points, points[0]) if closed else points)
    lengths = [format_length(math.dist(one, other), units) for one, other in ends]
    said = ", ".join(lengths)
    if closed:
        return trn("{n} wall, closed: {lengths}", "{n} walls, closed: {lengths}", len(lengths), lengths=said)
    return trn("{n} wall, open: {lengths}", "{n} walls, open: {lengths}", len(lengths), lengths=said)
