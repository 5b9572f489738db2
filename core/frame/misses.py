"""Mounting points that the frame alone does not hold: by how much, and what would help."""

from collections.abc import Iterator, Mapping, Sequence, Set
from dataclasses import dataclass, replace
from typing import Literal

from core.frame.blocking import Block, blocks_for
from core.frame.doubling import doubled, is_closed
from core.frame.points import Gap, Point, is_held_by, nearest_gap
from core.room import Opening
from core.setout.metric import face_box_mm
from core.setout.result import SetOut, Timber

Remedy = Literal["pilot hole", "doubling", "blocking", "move", "none"]
MOST_PITCHES, MOST_COURSES = 6, 3
"""How far a hole is moved at most before the panel is better hung another way."""


@dataclass(frozen=True, slots=True)
class Miss:
    """A point without timber: its gap to the nearest that would hold it, and what to do about it."""

    point: Point
    gap: Gap | None
    remedy: Remedy
    words: str


@dataclass(frozen=True, slots=True)
class Backed:
    """What is cut for one wall's misses: upright pieces against studs, blocking between uprights, and every miss in words."""

    doubling: tuple[Timber, ...]
    blocks: tuple[Block, ...]
    misses: tuple[Miss, ...]


def back(setout: SetOut, points: Sequence[Point], members: Sequence[Timber], thickness_mm: float) -> Backed:
    """Backs the points of one wall that its members do not hold; what is cut has the members' thickness."""
    edge = setout.room.kit.mounts.edge_mm
    bare = [point for point in points if not point.is_held]
    closed = {point for point in bare if is_closed(point, members, edge)}
    pieces, serves = doubled([p for p in bare if p not in closed], members, thickness_mm, edge)
    stood = (*members, *pieces)
    open_points = [p for p in bare if p not in closed and p not in serves]
    openings = _openings(setout, points)
    blocks, stray = blocks_for(open_points, stood, thickness_mm, edge, openings)
    moved = {point: _moved(setout, point, stood, blocks, openings) for point in stray}
    targets = [move.to for move in moved.values() if move and move.needs_block]
    if targets:
        blocks, _ = blocks_for([*(p for p in open_points if p not in moved), *targets], stood, thickness_mm, edge, openings)
    numbers = {point: number for number, block in enumerate(blocks, start=1) for point in block.points}
    found = []
    for point in bare:
        remedy, words = _remedy(point, closed, serves, numbers) or _move_remedy(moved.get(point), numbers)
        found.append(Miss(point, nearest_gap(members, point.x_mm, point.z_mm, edge), remedy, words))
    return Backed(pieces, blocks, tuple(found))


def _remedy(
    point: Point, closed: Set[Point], serves: Mapping[Point, Timber], numbers: Mapping[Point, int]
) -> tuple[Remedy, str] | None:
    """What the frame can do for a point without changing its panel."""
    if point in closed:
        return "pilot hole", "drill a pilot hole: the timber beside closes the edge"
    if point in serves:
        return "doubling", f"fix a doubling piece at {serves[point].left_mm:.0f} mm, drill a pilot hole"
    if point in numbers:
        return "blocking", f"blocking b{numbers[point]}"
    return None


@dataclass(frozen=True, slots=True)
class _Move:
    """Another place for a hole on its panel, how far that is in words, and whether blocking must be cut for it."""

    to: Point
    words: str
    needs_block: bool


def _move_remedy(move: _Move | None, numbers: Mapping[Point, int]) -> tuple[Remedy, str]:
    if move is None or (move.needs_block and move.to not in numbers):
        return "none", "no timber in reach: add a stud, or hang it otherwise"
    block = f" onto b{numbers[move.to]}" if move.needs_block else ""
    return "move", f"move it {move.words}{block}: own design"


def _openings(setout: SetOut, points: Sequence[Point]) -> list[Opening]:
    """The openings of the wall the points are on."""
    return [opening for opening in setout.room.openings if points and opening.wall == points[0].wall]


def _moved(
    setout: SetOut, point: Point, members: Sequence[Timber], blocks: Sequence[Block], openings: Sequence[Opening]
) -> _Move | None:
    """The nearest place for the hole on the same panel that timber holds, or that blocking could."""
    edge = setout.room.kit.mounts.edge_mm
    whole = (*members, *(block.timber for block in blocks))
    for to, words in _places(setout, point):
        if _is_on_panel(setout, to):
            if is_held_by(whole, to.x_mm, to.z_mm, edge):
                return _Move(to, words, needs_block=False)
            if blocks_for([to], members, setout.room.frame(point.wall).stud_mm, edge, openings)[0]:
                return _Move(to, words, needs_block=True)
    return None


def _places(setout: SetOut, point: Point) -> Iterator[tuple[Point, str]]:
    """Places on the pitch lines of the hole's course and on the courses above and below, nearest first along each."""
    kit = setout.room.kit
    for pitches in range(1, MOST_PITCHES + 1):
        for way, word in ((1, "right"), (-1, "left")):
            x = round(point.x_mm + way * pitches * kit.pitch_mm, 4)
            yield replace(point, x_mm=x), f"{_counted(pitches, 'pitch', 'pitches')} to the {word}"
    for courses in range(1, MOST_COURSES + 1):
        for way, word in ((1, "up"), (-1, "down")):
            z = round(point.z_mm + way * courses * kit.plates_per_course * kit.plate_mm, 4)
            yield replace(point, z_mm=z), f"{_counted(courses, 'course', 'courses')} {word}"


def _is_on_panel(setout: SetOut, point: Point) -> bool:
    """Whether a pin-hole brick at a place would lie within its panel's outer edges."""
    pitch = setout.room.kit.pitch_mm
    for panel in setout.panels:
        if panel.mark == point.mark:
            boxes = (face_box_mm(setout, face) for face in panel.faces if face.wall == point.wall)
            return any(
                a + pitch - 1e-6 <= point.x_mm <= b - pitch + 1e-6 and low < point.z_mm < high for a, low, b, high in boxes
            )
    return False


def _counted(count: int, one: str, many: str) -> str:
    return f"{count} {one if count == 1 else many}"
