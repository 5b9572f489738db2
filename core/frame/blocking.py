"""Blocking: short timbers between two uprights where mounting points would find nothing, as few as will hold them all."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass

from core.frame.doubling import DOUBLE
from core.frame.points import Point
from core.room import Opening
from core.setout.result import Timber
from core.setout.timber import UPRIGHTS

LEAST_BLOCK_MM = 60.0
"""Anything shorter splits when it is fixed. Common practice, no published source."""
BLOCK_UPRIGHTS = UPRIGHTS | {DOUBLE}


@dataclass(frozen=True, slots=True)
class Bay:
    """The free rectangle around a point: between two uprights, and between what timber is below and above."""

    left: float
    right: float
    bottom: float
    top: float


@dataclass(frozen=True, slots=True)
class Block:
    """One piece of blocking on edge, fixed to the uprights at both its ends, and the points it holds."""

    wall: int
    left_mm: float
    bottom_mm: float
    length_mm: float
    height_mm: float
    points: tuple[Point, ...]

    @property
    def middle_mm(self) -> float:
        """Height of its middle above the floor."""
        return self.bottom_mm + self.height_mm / 2

    @property
    def timber(self) -> Timber:
        """As a member of the frame."""
        return Timber(self.wall, "blocking", self.left_mm, self.bottom_mm, self.length_mm, self.height_mm)


def bay_at(members: Sequence[Timber], x_mm: float, z_mm: float, openings: Sequence[Opening] = ()) -> Bay | None:
    """The bay a point lies in; None where it lies on timber, or where no upright stands on one side of it.

    Nor is there one where an opening lies between the uprights at its height: a timber must not go through it.
    """
    if any(_covers(m, x_mm, z_mm) for m in members):
        return None
    uprights = [m for m in members if m.member in BLOCK_UPRIGHTS and m.bottom_mm <= z_mm <= m.bottom_mm + m.height_mm]
    left = max((m.left_mm + m.width_mm for m in uprights if m.left_mm + m.width_mm <= x_mm), default=None)
    right = min((m.left_mm for m in uprights if m.left_mm >= x_mm), default=None)
    if left is None or right is None:
        return None
    # Uprights that end below the point or begin above it bound the bay as level timber does.
    across = [m for m in members if m.left_mm < right - 1e-6 and left + 1e-6 < m.left_mm + m.width_mm]
    bottom = max((m.bottom_mm + m.height_mm for m in across if m.bottom_mm + m.height_mm <= z_mm), default=0.0)
    top = min((m.bottom_mm for m in across if m.bottom_mm >= z_mm), default=float("inf"))
    within = [opening for opening in openings if opening.left_mm < right - 1e-6 and left + 1e-6 < opening.right_mm]
    if any(opening.sill_mm < z_mm < opening.head_mm for opening in within):
        return None
    bottom = max((bottom, *(opening.head_mm for opening in within if opening.head_mm <= z_mm)))
    top = min((top, *(opening.sill_mm for opening in within if opening.sill_mm >= z_mm)))
    return Bay(left, right, bottom, top)


def _covers(member: Timber, x_mm: float, z_mm: float) -> bool:
    return (
        member.left_mm < x_mm < member.left_mm + member.width_mm and member.bottom_mm < z_mm < member.bottom_mm + member.height_mm
    )


def blocks_for(
    points: Sequence[Point],
    members: Sequence[Timber],
    height_mm: float,
    edge_mm: float,
    openings: Sequence[Opening] = (),
) -> tuple[tuple[Block, ...], tuple[Point, ...]]:
    """Blocking for one wall's points, clear of its openings, and the points that none can hold.

    ``height_mm`` is how high a piece of blocking stands; it holds a screw that keeps ``edge_mm`` from both its edges.
    """
    bays: defaultdict[Bay, list[Point]] = defaultdict(list)
    stray: list[Point] = []
    for point in points:
        bay = bay_at(members, point.x_mm, point.z_mm, openings)
        if bay is None or bay.right - bay.left < LEAST_BLOCK_MM or not _bottoms(point, bay, height_mm, edge_mm):
            stray.append(point)
        else:
            bays[bay].append(point)
    blocks: list[Block] = []
    for bay in sorted(bays, key=lambda b: (b.left, b.bottom)):
        made, crowded = _stack(bay, bays[bay], height_mm, edge_mm)
        blocks += made
        stray += crowded
    return tuple(blocks), tuple(stray)


def _bottoms(point: Point, bay: Bay, height: float, edge: float) -> tuple[float, float] | None:
    """The lowest and highest place of a piece's lower edge that holds the point; None where the bay leaves no room.

    From the piece's ends the point keeps twice its edge distance.
    """
    if min(point.x_mm - bay.left, bay.right - point.x_mm) < 2 * edge - 1e-6:
        return None
    low, high = max(bay.bottom, point.z_mm - (height - edge)), min(bay.top - height, point.z_mm - edge)
    return (low, high) if low <= high + 1e-6 else None


def _stack(bay: Bay, points: Sequence[Point], height: float, edge: float) -> tuple[list[Block], list[Point]]:
    """Pieces in one bay from the bottom up, each holding as many of the next points as it can."""
    groups: list[tuple[float, float, list[Point]]] = []
    for point in sorted(points, key=lambda p: (p.z_mm, p.x_mm)):
        span = _bottoms(point, bay, height, edge)
        assert span is not None
        if groups and max(groups[-1][0], span[0]) <= min(groups[-1][1], span[1]) + 1e-6:
            low, high, held = groups[-1]
            groups[-1] = max(low, span[0]), min(high, span[1]), [*held, point]
        else:
            groups.append((*span, [point]))
    blocks: list[Block] = []
    crowded: list[Point] = []
    floor = bay.bottom
    for low, high, held in groups:
        low = max(low, floor)
        if low > high + 1e-6:
            crowded += held
            continue
        middle = (held[0].z_mm + held[-1].z_mm) / 2 - height / 2
        bottom = round(min(max(middle, low), high), 4)
        blocks.append(Block(held[0].wall, bay.left, bottom, round(bay.right - bay.left, 4), height, tuple(held)))
        floor = bottom + height
    return blocks, crowded
