"""Is the shell where docs/set-out.md puts it? Packings, corners and the grid's phase, for plans with square corners."""

import math
from collections.abc import Iterator

import numpy as np

from core.room import Room
from core.setout.result import SetOut, WallShell

NEAR_MM = 1e-3
"""Room for the solver's rounding; far below anything a crew can measure."""


def is_rectilinear(room: Room) -> bool:
    """True where every wall runs along x or y exactly."""
    ends = (room.wall_ends_mm(wall) for wall in range(room.wall_count))
    return all(x0 == x1 or y0 == y1 for (x0, y0), (x1, y1) in ends)


def audit_shell(setout: SetOut) -> Iterator[str]:
    """Everything wrong with the shell; phase and corners only of rectilinear plans."""
    yield from _packings(setout)
    if is_rectilinear(setout.room):
        yield from _corners(setout)
        yield from _phases(setout)


def _packings(setout: SetOut) -> Iterator[str]:
    kit = setout.room.kit
    least, most = kit.fit_mm / 2, kit.fit_mm / 2 + kit.pitch_mm
    for place, wall in enumerate(setout.walls):
        if wall.wall != place:
            yield f"wall {place} is listed as {wall.wall}"
        if abs(wall.length_mm - setout.room.wall_length_mm(place)) > NEAR_MM:
            yield f"wall {place}: length_mm {wall.length_mm} is not the frame's {setout.room.wall_length_mm(place)}"
        if not least - NEAR_MM <= wall.packing_mm < most + NEAR_MM:
            yield f"wall {place}: packing {wall.packing_mm} mm lies outside [{least}, {most})"
        if wall.left == "free" and wall.start_mm < -NEAR_MM:
            yield f"wall {place}: starts {wall.start_mm} mm outside its free end"


def turn(room: Room, corner: int) -> str:
    """Inside or outside, by the direction the plan turns at that corner (clockwise from above)."""
    (x0, y0), (x1, y1) = room.wall_ends_mm((corner - 1) % room.wall_count)
    (_, _), (x2, y2) = room.wall_ends_mm(corner)
    cross = (x1 - x0) * (y2 - y1) - (y1 - y0) * (x2 - x1)
    return "inside" if cross < 0 else "outside"


def end_gap_mm(kind: str, packing_mm: float) -> float:
    """From the frame's corner to the shell's end, along a wall, given the packing of the wall round the corner."""
    return packing_mm if kind == "inside" else -packing_mm


def _corners(setout: SetOut) -> Iterator[str]:
    room, walls = setout.room, setout.walls
    for place, wall in enumerate(walls):
        before, after = walls[place - 1], walls[(place + 1) % len(walls)]
        if (wall.left, wall.right) != (turn(room, place), turn(room, (place + 1) % len(walls))):
            yield f"wall {place}: ends {wall.left}, {wall.right} are not what the plan turns"
        start = end_gap_mm(turn(room, place), before.packing_mm)
        end = end_gap_mm(turn(room, (place + 1) % len(walls)), after.packing_mm)
        if abs(wall.start_mm - start) > NEAR_MM:
            yield f"wall {place}: start_mm {wall.start_mm}, by the wall to its left {start}"
        if abs(start + wall.pitches * room.kit.pitch_mm + end - wall.length_mm) > NEAR_MM:
            yield f"wall {place}: {start} + {wall.pitches} pitches + {end} do not make {wall.length_mm} mm"


def facing(room: Room, wall: int) -> tuple[int, int, float]:
    """Plan axis a wall stands across (0 for x), the sign of the way into the room, its place on that axis in mm."""
    (x0, y0), (x1, y1) = room.wall_ends_mm(wall)
    return (0, 1 if y1 > y0 else -1, x0) if x0 == x1 else (1, -1 if x1 > x0 else 1, y0)


def packing_at(room: Room, wall: int, phase_mm: float) -> float:
    """The least allowed packing that brings the wall onto the grid of that phase."""
    _, sign, place = facing(room, wall)
    least = room.kit.fit_mm / 2
    lines = (phase_mm - (place + sign * least)) * sign / room.kit.pitch_mm
    return least + (lines - math.floor(lines + 1e-9)) * room.kit.pitch_mm


def _phases(setout: SetOut) -> Iterator[str]:
    room, pitch = setout.room, setout.room.kit.pitch_mm
    for axis in (0, 1):
        walls = [w for w in setout.walls if facing(room, w.wall)[0] == axis]
        lines = [_line_mm(room, wall) for wall in walls]
        for wall, line in zip(walls, lines, strict=True):
            pitches = (line - lines[0]) / pitch
            if abs(pitches - round(pitches)) * pitch > NEAR_MM:
                yield f"wall {wall.wall}: its line is off the grid of wall {walls[0].wall}"
        worst = max(wall.packing_mm for wall in walls)
        tried = np.arange(0, pitch, 0.01).tolist()
        best = min(max(packing_at(room, wall.wall, phase) for wall in walls) for phase in tried)
        if worst > best + NEAR_MM:
            yield f"axis {axis}: largest packing {worst} mm, a phase with {best:.3f} mm exists"


def _line_mm(room: Room, wall: WallShell) -> float:
    _, sign, place = facing(room, wall.wall)
    return place + sign * wall.packing_mm
