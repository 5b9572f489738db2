"""Mounting points that the frame alone does not hold: by how much, and what would help."""

from collections.abc import Mapping, Sequence, Set
from dataclasses import dataclass
from typing import Literal

from core.frame.blocking import Block, blocks_for
from core.frame.doubling import doubled, is_closed
from core.frame.points import Gap, Point
from core.language import tr
from core.setout.result import SetOut, Timber
from core.units import format_length

Remedy = Literal["pilot hole", "doubling", "blocking", "move", "none"]


@dataclass(frozen=True, slots=True)
class Move:
    """Another place for a point, how far that is in words, and whether timber must be cut in for it even so."""

    to: Point
    words: str
    needs_block: bool


@dataclass(frozen=True, slots=True)
class Miss:
    """A point without timber: its gap to the nearest that would hold it, what to do about it, and where it goes if it moves."""

    point: Point
    gap: Gap | None
    remedy: Remedy
    words: str
    to: Point | None = None


@dataclass(frozen=True, slots=True)
class Backed:
    """What is cut for one wall's misses: upright pieces against studs, blocking between uprights, and every miss in words."""

    doubling: tuple[Timber, ...]
    blocks: tuple[Block, ...]
    misses: tuple[Miss, ...]


def back(
    setout: SetOut,
    points: Sequence[Point],
    members: Sequence[Timber],
    gaps: Mapping[Point, Gap | None],
    moves: Mapping[Point, Move],
) -> Backed:
    """Backs the points of one wall that its members do not hold; what is cut has the members' thickness.

    ``gaps`` says how far each of them is from timber. ``moves`` are decided already; the others are held where they are, if they
    can be.
    """
    edge = setout.room.kit.mounts.edge_mm
    bare = [point for point in points if point in gaps]
    staying = [point for point in bare if point not in moves]
    closed = {point for point in staying if is_closed(point, members, edge)}
    thickness = setout.room.frame(points[0].wall).stud_mm if points else 0.0
    pieces, serves = doubled([p for p in staying if p not in closed], members, thickness, edge)
    open_points = [p for p in staying if p not in closed and p not in serves]
    open_points += [move.to for move in moves.values() if move.needs_block]
    openings = [opening for opening in setout.room.openings if points and opening.wall == points[0].wall]
    blocks, _ = blocks_for(open_points, (*members, *pieces), thickness, edge, openings)
    numbers = {point: number for number, block in enumerate(blocks, start=1) for point in block.points}
    found = []
    for point in bare:
        move = moves.get(point)
        remedy, words = _move_remedy(move, numbers) if move else _remedy(point, closed, serves, numbers)
        found.append(Miss(point, gaps[point], remedy, words, move.to if move and remedy == "move" else None))
    return Backed(pieces, blocks, tuple(found))


def _remedy(point: Point, closed: Set[Point], serves: Mapping[Point, Timber], numbers: Mapping[Point, int]) -> tuple[Remedy, str]:
    """What the frame can do for a point without changing its panel."""
    if point in closed:
        return "pilot hole", tr("drill a pilot hole: the timber beside closes the edge")
    if point in serves:
        left = format_length(serves[point].left_mm, with_unit=False)
        return "doubling", tr("fix a doubling piece at {left} mm, drill a pilot hole", left=left)
    if point in numbers:
        return "blocking", tr("blocking b{number}", number=numbers[point])
    return "none", tr("no timber in reach: add a stud, or hang it otherwise")


def _move_remedy(move: Move, numbers: Mapping[Point, int]) -> tuple[Remedy, str]:
    if not move.needs_block:
        return "move", tr("move it {how_far}: own design", how_far=move.words)
    if move.to not in numbers:
        return "none", tr("no timber in reach: add a stud, or hang it otherwise")
    return "move", tr("move it {how_far} onto b{number}: own design", how_far=move.words, number=numbers[move.to])
