"""The timber behind a wall: members of a standing frame, members of a frame built to suit the panels, and what a screw hits.

Sizes from memory: timber 38 mm thick, a header 89 mm deep.
"""

from bisect import bisect_left
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from functools import cached_property

import numpy as np
from numpy.typing import NDArray

from core.room import FrameToBuild, MeasuredFrame, Opening, Room
from core.setout.result import Timber

Millimetres = NDArray[np.floating]

HEADER_DEPTH_MM = 89.0
FRAMED_KINDS = frozenset({"door", "window", "niche"})
UPRIGHTS = frozenset({"stud", "king stud", "trimmer"})
LEAST_PIECE_MM = 1.0


def standing_timber(room: Room, wall: int) -> tuple[Timber, ...]:
    """Members of a regular or measured frame on one wall; nothing for a frame still to be built."""
    frame = room.frame(wall)
    if isinstance(frame, FrameToBuild):
        return ()
    # It stands on the floor, the panels on the starter ring, where heights begin.
    floor_mm = -room.kit.plate_mm
    if isinstance(frame, MeasuredFrame):
        around: list[Timber] = []
        centres: Sequence[float] = frame.centres_mm
    else:
        around = opening_timber(room, wall, frame.stud_mm, lift_mm=floor_mm)
        centres = regular_centres(frame.first_centre_mm, frame.spacing_mm, room.wall_length_mm(wall), frame.stud_mm)
    rails = [rail for height in frame.rails_mm for rail in _rails(room, wall, height, frame.stud_mm)]
    studs = upright_studs(room, wall, centres, frame.stud_mm, clear_of=around, lift_mm=floor_mm)
    return (*plates(room, wall, frame.stud_mm, lift_mm=floor_mm), *studs, *around, *rails)


def regular_centres(first_mm: float, spacing_mm: float, length_mm: float, stud_mm: float) -> tuple[float, ...]:
    """Stud centres along a plate: one at either end, and one at every spacing from the first centre that clears them.

    Source: the common layout of studs on a plate, US Navy Builder manual NAVEDTRA 14044, fig. 1-40 (first regular centre at
    one spacing from the end, so that panel edges fall on stud centres).
    """
    ends = (stud_mm / 2, length_mm - stud_mm / 2)
    count = int((length_mm - first_mm) // spacing_mm) + 1
    regular = [first_mm + k * spacing_mm for k in range(count)]
    clear = [c for c in regular if c - ends[0] >= stud_mm and ends[1] - c >= stud_mm]
    return tuple(sorted({*ends, *clear}))


def plates(room: Room, wall: int, stud_mm: float, *, lift_mm: float = 0.0) -> tuple[Timber, ...]:
    """The sole plate, left out where a door or window goes down to it, and the top plate.

    ``lift_mm`` is how far the sole plate stands above the starter ring's top.
    """
    length, head = room.wall_length_mm(wall), room.frame_head_mm
    doors = sorted((o.left_mm, o.right_mm) for o in _framed(room, wall) if o.sill_mm < lift_mm + stud_mm)
    sole = [Timber(wall, "sole plate", left, lift_mm, right - left, stud_mm) for left, right in gaps_between(doors, 0.0, length)]
    return (*sole, Timber(wall, "top plate", 0.0, head - stud_mm, length, stud_mm))


def gaps_between(spans: Iterable[tuple[float, float]], begin: float, end: float) -> list[tuple[float, float]]:
    """What is left of ``begin`` to ``end`` between sorted spans, scraps left out."""
    gaps = []
    for left, right in spans:
        if left - begin > LEAST_PIECE_MM:
            gaps.append((begin, left))
        begin = max(begin, right)
    if end - begin > LEAST_PIECE_MM:
        gaps.append((begin, end))
    return gaps


def opening_timber(room: Room, wall: int, stud_mm: float, *, lift_mm: float = 0.0) -> list[Timber]:
    """King studs, trimmers, header and sill around the wall's doors, windows and niches.

    Where openings stand so near to each other that their timber would cross, the opening further left has its own first.
    """
    framed = sorted(_framed(room, wall), key=lambda o: o.left_mm)
    members: list[Timber] = []
    for opening in framed:
        for member in _around(room, opening, stud_mm, lift_mm + stud_mm):
            crosses_opening = any(_crosses(member, o) for o in framed if o is not opening)
            if not crosses_opening and not any(_overlap(member, other) for other in members):
                members.append(member)
    return members


def _crosses(member: Timber, opening: Opening) -> bool:
    hole = Timber(opening.wall, "", opening.left_mm, opening.sill_mm, opening.width_mm, opening.height_mm)
    return _overlap(member, hole)


def _overlap(a: Timber, b: Timber) -> bool:
    """Whether two members share more than a sliver of the wall."""
    across = min(a.left_mm + a.width_mm, b.left_mm + b.width_mm) - max(a.left_mm, b.left_mm)
    up = min(a.bottom_mm + a.height_mm, b.bottom_mm + b.height_mm) - max(a.bottom_mm, b.bottom_mm)
    return across > LEAST_PIECE_MM and up > LEAST_PIECE_MM


def _around(room: Room, opening: Opening, stud: float, foot: float) -> list[Timber]:
    """``foot`` is the height its uprights stand at."""
    wall, length = opening.wall, room.wall_length_mm(opening.wall)
    top = room.frame_head_mm - stud
    left, right, head = opening.left_mm, opening.right_mm, min(opening.head_mm, top)
    outer_left, outer_right = max(0.0, left - stud), min(length, right + stud)
    header_top = min(head + HEADER_DEPTH_MM, top)
    sides = [(left - stud, "trimmer", head), (right, "trimmer", head)]
    sides += [(left - 2 * stud, "king stud", top), (right + stud, "king stud", top)]
    members = [
        Timber(wall, name, at, foot, stud, height - foot)
        for at, name, height in sides
        if at >= 0 and at + stud <= length and height - foot > LEAST_PIECE_MM
    ]
    if header_top - head > LEAST_PIECE_MM:
        members.append(Timber(wall, "header", outer_left, head, outer_right - outer_left, header_top - head))
    if opening.sill_mm > foot + stud:
        members.append(Timber(wall, "sill", left, opening.sill_mm - stud, opening.width_mm, stud))
    return members


def _framed(room: Room, wall: int) -> list[Opening]:
    """The wall's openings that timber goes round; an electrical box stands between studs or on them."""
    return [o for o in room.openings if o.wall == wall and o.kind in FRAMED_KINDS]


def _rails(room: Room, wall: int, centre_mm: float, stud_mm: float) -> list[Timber]:
    """A rail at one height, parted where its middle would run through an opening."""
    holes = sorted((o.left_mm, o.right_mm) for o in _framed(room, wall) if o.sill_mm < centre_mm < o.head_mm)
    low_mm = centre_mm - stud_mm / 2
    spans = gaps_between(holes, 0.0, room.wall_length_mm(wall))
    return [Timber(wall, "rail", left, low_mm, right - left, stud_mm) for left, right in spans]


def upright_studs(
    room: Room,
    wall: int,
    centres: Iterable[float],
    stud_mm: float,
    clear_of: Sequence[Timber] = (),
    *,
    lift_mm: float = 0.0,
) -> list[Timber]:
    """Studs from sole to top plate at given centres, cut where an opening is, left out where another upright stands."""
    uprights = [t for t in clear_of if t.member in UPRIGHTS]
    head_mm = room.frame_head_mm
    studs = []
    for centre in centres:
        left, right = centre - stud_mm / 2, centre + stud_mm / 2
        if any(t.left_mm < right - LEAST_PIECE_MM and left + LEAST_PIECE_MM < t.left_mm + t.width_mm for t in uprights):
            continue
        cuts = sorted(_cut(o, clear_of) for o in _framed(room, wall) if o.left_mm < right and left < o.right_mm)
        studs += [
            Timber(wall, "stud", left, low, stud_mm, high - low)
            for low, high in gaps_between(cuts, lift_mm + stud_mm, head_mm - stud_mm)
        ]
    return studs


def _cut(opening: Opening, around: Sequence[Timber]) -> tuple[float, float]:
    """Heights a stud must leave free for an opening, its sill and its header."""
    low, high = opening.sill_mm, opening.head_mm
    for t in around:
        if t.left_mm <= opening.left_mm and opening.right_mm <= t.left_mm + t.width_mm:
            if t.member == "sill" and t.bottom_mm + t.height_mm == opening.sill_mm:
                low = t.bottom_mm
            if t.member == "header" and t.bottom_mm == opening.head_mm:
                high = t.bottom_mm + t.height_mm
    return low, high


Extent = tuple[str, float, float, float, float]
"""A member and the rectangle in which a screw may stand: left, right, bottom, top in wall-local millimetres."""


@dataclass(frozen=True)
class Backing:
    """Answers what a screw at a given place goes into, with the edge distance it needs."""

    members: tuple[Timber, ...]
    edge_mm: float

    def __hash__(self) -> int:
        return self._hash

    @cached_property
    def _hash(self) -> int:
        return hash((self.members, self.edge_mm))

    def lands_on(self, x_mm: float, z_mm: float) -> str | None:
        """The member behind a point, the first listed; None where the screw would miss or split an edge."""
        return self.behind(np.array([x_mm]), np.array([z_mm]))[0]

    def behind(self, xs_mm: Millimetres, zs_mm: Millimetres) -> tuple[str | None, ...]:
        """The same for many points at once."""
        left, right, bottom, top = self._edges
        hits = (left <= xs_mm) & (xs_mm <= right) & (bottom <= zs_mm) & (zs_mm <= top)
        hits[-1] = True
        return tuple(map(self._names.__getitem__, hits.argmax(axis=0).tolist()))

    def missing(self, xs_mm: Millimetres, z_mm: float) -> NDArray[np.int64]:
        """1 for every place along a height with no timber behind it, shape of ``xs_mm``."""
        bare = np.ones(xs_mm.shape, dtype=np.int64)
        for _, left, right, bottom, top in self._extents:
            if bottom <= z_mm <= top:
                bare[(left <= xs_mm) & (xs_mm <= right)] = 0
        return bare

    def band(self, z_mm: float) -> int:
        """Heights of one band have the same timber behind them, all along the wall."""
        at = bisect_left(self._levels, z_mm)
        return 2 * at + (at < len(self._levels) and self._levels[at] == z_mm)

    @cached_property
    def _levels(self) -> list[float]:
        return sorted({level for _, _, _, bottom, top in self._extents for level in (bottom, top)})

    @cached_property
    def _names(self) -> tuple[str | None, ...]:
        """The members' names, and at the end what a point lands on that misses them all: nothing."""
        return (*(name for name, *_ in self._extents), None)

    @cached_property
    def _edges(self) -> tuple[Millimetres, ...]:
        """Left, right, bottom and top of the members' extents, each of shape (members + 1, 1); the last one is nowhere."""
        sides = np.array([extent[1:] for extent in self._extents] + [(np.inf, -np.inf, np.inf, -np.inf)])
        return tuple(sides.T[:, :, None])

    @cached_property
    def _extents(self) -> tuple[Extent, ...]:
        """The members with the edge distance taken off their long edges."""
        grace = 1e-6
        found = []
        for t in self.members:
            dx, dz = (self.edge_mm, 0.0) if t.member in UPRIGHTS else (0.0, self.edge_mm)
            left, right = t.left_mm + dx - grace, t.left_mm + t.width_mm - dx + grace
            found.append((t.member, left, right, t.bottom_mm + dz - grace, t.bottom_mm + t.height_mm - dz + grace))
        return tuple(found)
