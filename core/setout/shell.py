"""The brick shell inside the frame: one 8 mm grid for walls that meet squarely, and the packing that is left.

All positions are whole nanometres here, so that questions about the grid have exact answers.
"""

import math
from dataclasses import dataclass
from itertools import pairwise

from core.errors import RoomError
from core.language import marked, tr
from core.room import Point, Room, wall_letter
from core.setout.kept import Kept
from core.setout.result import CornerKind, WallShell

NM_PER_MM = 1_000_000
SQUARE_WITHIN_DEGREES = 0.5

Vector = tuple[float, float]


def to_nm(mm: float) -> int:
    """Millimetres to whole nanometres."""
    return round(mm * NM_PER_MM)


@dataclass(frozen=True, slots=True)
class Corner:
    """A plan corner at a wall's left end: its kind, inside angle and, where it counts as square, how far it is off."""

    kind: CornerKind
    inside_degrees: float
    off_square_degrees: float


@dataclass(frozen=True, slots=True)
class Chain:
    """Walls joined by square corners, left to right; ``closed`` when the last one meets the first squarely, too."""

    walls: tuple[int, ...]
    closed: bool


@dataclass(frozen=True, slots=True)
class Shell:
    """The shell of a room: one entry per wall and per corner (corner i is wall i's left end)."""

    walls: tuple[WallShell, ...]
    corners: tuple[Corner, ...]
    chains: tuple[Chain, ...]
    starts_nm: tuple[int, ...]


def corners_of(room: Room) -> tuple[Corner, ...]:
    """Classify every plan corner; angles within half a degree of square count as square."""
    found = []
    for i in range(room.wall_count):
        before, after = _direction(room, i - 1), _direction(room, i)
        right_turn = math.degrees(math.atan2(_cross(after, before), _dot(after, before)))
        off_square = abs(abs(right_turn) - 90.0)
        square = off_square <= SQUARE_WITHIN_DEGREES
        kind: CornerKind = "free" if not square else "inside" if right_turn > 0 else "outside"
        found.append(Corner(kind, 180.0 - right_turn, off_square if square else 0.0))
    return tuple(found)


def chains_of(corners: tuple[Corner, ...]) -> tuple[Chain, ...]:
    """Group the walls into chains; a room without a free corner is one closed chain."""
    count = len(corners)
    breaks = [i for i in range(count) if corners[i].kind == "free"]
    if not breaks:
        return (Chain(tuple(range(count)), closed=True),)
    ends = [*breaks[1:], breaks[0] + count]
    return tuple(
        Chain(tuple(i % count for i in range(begin, end)), closed=False) for begin, end in zip(breaks, ends, strict=True)
    )


def shell_of(room: Room) -> Shell:
    """Fit the shell into the frame.

    Raises RoomError where a wall is too short for the panels that must stand on it.
    """
    return SHELLS.get((room.corners_mm, room.kit), lambda: _fitted(room))


def _fitted(room: Room) -> Shell:
    corners = corners_of(room)
    chains = chains_of(corners)
    lines: dict[int, _Line] = {}
    for chain in chains:
        lines |= _chain_lines(room, chain, corners)
    spans = {i: _span(room, i, lines, corners) for i in range(room.wall_count)}
    walls = tuple(_wall_shell(room, i, lines[i], spans[i], corners) for i in range(room.wall_count))
    for wall in walls:
        _require_room_for_panels(room, wall)
    return Shell(walls, corners, chains, tuple(spans[i][0] for i in range(room.wall_count)))


SHELLS = Kept(16)
"""What moves on the walls leaves the shell as it is."""


@dataclass(frozen=True, slots=True)
class _Line:
    """A wall's shell line: nominal direction, inward normal, its offset along that normal and its packing."""

    along: Vector
    inward: Vector
    offset_nm: int
    packing_nm: int


def _direction(room: Room, wall: int) -> Vector:
    wall %= room.wall_count
    (x0, y0), (x1, y1) = room.wall_ends_mm(wall)
    length = room.wall_length_mm(wall)
    return (x1 - x0) / length, (y1 - y0) / length


def _cross(a: Vector, b: Vector) -> float:
    return a[0] * b[1] - a[1] * b[0]


def _dot(a: Vector, b: Vector) -> float:
    return a[0] * b[0] + a[1] * b[1]


def _right_of(direction: Vector) -> Vector:
    return direction[1], -direction[0]


def _chain_lines(room: Room, chain: Chain, corners: tuple[Corner, ...]) -> dict[int, _Line]:
    """Place the shell lines of one chain: nominal directions from its longest wall, one grid phase per direction."""
    along = _nominal_directions(room, chain, corners)
    pitch, fit = to_nm(room.kit.pitch_mm), to_nm(room.kit.fit_mm)
    lines: dict[int, _Line] = {}
    for parity in (0, 1):
        members = chain.walls[parity::2]
        if not members:
            continue
        axis = _right_of(along[members[0]])
        bounds = {i: _bound_nm(room, i, _right_of(along[i]), axis, fit) for i in members}
        phase = _best_phase(list(bounds.values()), pitch)
        for i, (sense, bound) in bounds.items():
            slack = (sense * (phase - bound)) % pitch
            lines[i] = _Line(along[i], _right_of(along[i]), sense * bound + slack, slack + fit // 2)
    return lines


def _nominal_directions(room: Room, chain: Chain, corners: tuple[Corner, ...]) -> dict[int, Vector]:
    longest = max(chain.walls, key=lambda i: (round(room.wall_length_mm(i), 3), -i))
    start = chain.walls.index(longest)
    along = {longest: _direction(room, longest)}
    for before, here in pairwise(chain.walls[start:]):
        turn = 1 if corners[here].kind == "inside" else -1
        dx, dy = along[before]
        along[here] = (turn * dy, -turn * dx)
    for after, here in pairwise(reversed(chain.walls[: start + 1])):
        turn = 1 if corners[after].kind == "inside" else -1
        dx, dy = along[after]
        along[here] = (-turn * dy, turn * dx)
    return along


def _bound_nm(room: Room, wall: int, inward: Vector, axis: Vector, fit: int) -> tuple[int, int]:
    """How far along ``axis`` the wall's shell line may lie: (+1, least position) or (-1, greatest position)."""
    sense = 1 if _dot(inward, axis) > 0 else -1
    reach = [sense * to_nm(_dot(point, axis)) for point in room.wall_ends_mm(wall)]
    return sense, sense * (max(reach) + fit // 2)


def _best_phase(bounds: list[tuple[int, int]], pitch: int) -> int:
    """The grid phase with the smallest largest slack; ties go to the smallest sum, then to the smallest phase.

    Slack is a saw-tooth of the phase, rising for one sense and falling for the other, so that the minimum lies at a
    jump or where a rising and a falling tooth cross.
    """
    rising = [bound for sense, bound in bounds if sense > 0]
    falling = [bound for sense, bound in bounds if sense < 0]
    candidates = {bound % pitch for _, bound in bounds}
    for a in rising:
        for b in falling:
            middle = (a + b) // 2
            candidates |= {middle % pitch, (middle + pitch // 2) % pitch}

    def largest_then_sum(phase: int) -> tuple[int, int, int]:
        slacks = [(sense * (phase - bound)) % pitch for sense, bound in bounds]
        return max(slacks), sum(slacks), phase

    return min(candidates, key=largest_then_sum)


def _span(room: Room, wall: int, lines: dict[int, _Line], corners: tuple[Corner, ...]) -> tuple[int, int]:
    """The shell's left end in nanometres from the wall's left frame corner, and its length in pitches."""
    line, pitch = lines[wall], to_nm(room.kit.pitch_mm)
    before, following = (wall - 1) % room.wall_count, (wall + 1) % room.wall_count
    begin, end = (to_nm(_dot(point, line.along)) for point in room.wall_ends_mm(wall))
    thickness = to_nm(room.kit.thickness_pitches * room.kit.pitch_mm)
    if corners[wall].kind == "free":
        left = begin + _stop_short_nm(thickness, line, lines[before], corners[wall])
    else:
        left = _corner_position_nm(line, lines[before])
    if corners[following].kind == "free":
        right = end - _stop_short_nm(thickness, line, lines[following], corners[following])
    else:
        right = _corner_position_nm(line, lines[following])
    pitches = max(0, right - left) // pitch
    spare = right - left - pitches * pitch
    if corners[wall].kind == "free":
        left += spare // 2 if corners[following].kind == "free" else spare
    return left - begin, int(pitches)


def _corner_position_nm(line: _Line, other: _Line) -> int:
    """Where two shell lines that meet squarely do so, along ``line``."""
    return round(_dot(other.inward, line.along)) * other.offset_nm


def _stop_short_nm(thickness_nm: int, line: _Line, other: _Line, corner: Corner) -> int:
    """How far from the frame's corner linings that meet at another angle than square stop: where their room sides touch.

    Both are taken to stand as far from the frame as the one with more packing; around an outside corner they touch nowhere.
    """
    half = math.radians(corner.inside_degrees / 2)
    depth = thickness_nm + max(line.packing_nm, other.packing_nm)
    return math.ceil(depth / math.tan(half)) if half < math.pi / 2 - 1e-9 else 0


def _wall_shell(room: Room, wall: int, line: _Line, span: tuple[int, int], corners: tuple[Corner, ...]) -> WallShell:
    return WallShell(
        wall=wall,
        length_mm=room.wall_length_mm(wall),
        pitches=span[1],
        start_mm=span[0] / NM_PER_MM,
        packing_mm=line.packing_nm / NM_PER_MM,
        left=corners[wall].kind,
        right=corners[(wall + 1) % room.wall_count].kind,
    )


_TWO_LEGS = marked(
    "corners_mm: wall {wall} is {length:g} mm long, which leaves {pitches} pitches of shell; two corner legs "
    "of {least} pitches need at least {needed} ({needed_mm:g} mm of shell)"
)
_ONE_PANEL = marked(
    "corners_mm: wall {wall} is {length:g} mm long, which leaves {pitches} pitches of shell; one panel "
    "of {least} pitches need at least {needed} ({needed_mm:g} mm of shell)"
)


def _require_room_for_panels(room: Room, wall: WallShell) -> None:
    least = room.kit.least_width_pitches
    wrapped = [end != "free" for end in (wall.left, wall.right)]
    needed = least * max(1, sum(wrapped))
    if wall.pitches < needed:
        raise RoomError(
            tr(
                _TWO_LEGS if all(wrapped) else _ONE_PANEL,
                wall=wall_letter(wall.wall),
                length=wall.length_mm,
                pitches=wall.pitches,
                least=least,
                needed=needed,
                needed_mm=needed * room.kit.pitch_mm,
            )
        )


def shell_corners_mm(room: Room, shell: Shell) -> tuple[tuple[Point, Point], ...]:
    """Plan coordinates of each wall's shell line, left end and right end, in millimetres (for drawing)."""
    ends = []
    for wall in shell.walls:
        (x0, y0), _ = room.wall_ends_mm(wall.wall)
        dx, dy = _direction(room, wall.wall)
        nx, ny = _right_of((dx, dy))
        points = []
        for pitches in (0, wall.pitches):
            run = wall.start_mm + pitches * room.kit.pitch_mm
            points.append((x0 + run * dx + wall.packing_mm * nx, y0 + run * dy + wall.packing_mm * ny))
        ends.append((points[0], points[1]))
    return tuple(ends)
