"""Edits of the plan: corners and wall lengths.

Openings and measured studs stay where they are on their wall, measured from its left corner. Where a wall becomes too short for
an opening the edit is refused, as the opening is to be moved first; studs past its end are forgotten, as they cannot stand there.
Pins, records of progress and readings follow their walls.
"""

import math

from core.edits.carried import (
    after_join,
    after_split,
    along_mm,
    frames_after_cut,
    joined_place,
    split_corner,
    split_place,
    with_plan,
)
from core.edits.frames import AnyFrame, FramedLength, join_frames
from core.edits.renumber import followed
from core.edits.revise import build, revise, tidy_mm
from core.errors import RoomError
from core.language import tr
from core.room import FrameToBuild, Point, Room, Units, wall_letter

SHORTEST_WALL_MM = 300.0
"""Below this no two corner legs meet on a wall with anything between them."""
_PARALLEL = 0.02
"""Sine of the angle below which a wall runs on in its neighbour's line."""


def rectangle(name: str, *, width_mm: float, depth_mm: float, clad_height_mm: float, units: Units = "mm") -> Room:
    """A new four-walled room; wall A is the left one, ``depth_mm`` long. Raises RoomError on absurd sizes."""
    width_mm, depth_mm = tidy_mm(width_mm), tidy_mm(depth_mm)
    corners = ((0.0, 0.0), (0.0, depth_mm), (width_mm, depth_mm), (width_mm, 0.0))
    return build(Room, name=name.strip(), display_units=units, corners_mm=corners, clad_height_mm=tidy_mm(clad_height_mm))


def move_corner(room: Room, corner: int, point: Point, *, square: bool = False) -> Room:
    """The room with one corner elsewhere; ``square`` slides the two neighbours along so that square walls stay square.

    Raises RoomError where walls would cross or an opening no longer fits its wall.
    """
    _known_corner(room, corner)
    corners = list(room.corners_mm)
    if square:
        _slide_neighbours(corners, corner, point)
    corners[corner] = _tidy(point)
    return _with_corners(room, corners)


def insert_corner(room: Room, wall: int, point: Point) -> Room:
    """The room with a wall bent at a new corner. Openings go to whichever part holds them whole.

    Raises RoomError where the new corner would cut through an opening.
    """
    _known_corner(room, wall)
    # Measured along the wall as it was, so that taking the corner out again puts everything back.
    at_mm = min(max(0.0, along_mm(*room.wall_ends_mm(wall), _tidy(point))), room.wall_length_mm(wall))
    openings = tuple(after_split(opening, wall, at_mm, added=1) for opening in room.openings)
    corners = [*room.corners_mm[: wall + 1], _tidy(point), *room.corners_mm[wall + 1 :]]
    frames = frames_after_cut(room, wall, at_mm)
    room = revise(room, **followed(room, split_place(wall, at_mm, added=1), split_corner(wall, added=1)))
    return with_plan(room, corners, openings, frames)


def step_wall(room: Room, wall: int, at_mm: float, depth_mm: float) -> Room:
    """The room with a wall stepped ``depth_mm`` into the room from ``at_mm`` on to its right end; negative steps outwards.

    Openings go to whichever part holds them whole. Raises RoomError where the step would cut one or the walls would cross.
    """
    _known_corner(room, wall)
    length = room.wall_length_mm(wall)
    if not 0 < at_mm < length:
        raise RoomError(
            tr(
                "a step {at:g} mm along wall {wall} is off it; it is {length:g} mm long",
                at=at_mm,
                wall=wall_letter(wall),
                length=length,
            )
        )
    (x0, y0), (x1, y1) = room.wall_ends_mm(wall)
    along = ((x1 - x0) / length, (y1 - y0) / length)
    inwards = (along[1] * depth_mm, -along[0] * depth_mm)
    foot = _tidy((x0 + along[0] * at_mm, y0 + along[1] * at_mm))
    corners = list(room.corners_mm)
    corners[(wall + 1) % room.wall_count] = _tidy((x1 + inwards[0], y1 + inwards[1]))
    corners[wall + 1 : wall + 1] = [foot, _tidy((foot[0] + inwards[0], foot[1] + inwards[1]))]
    openings = tuple(after_split(opening, wall, at_mm, added=2) for opening in room.openings)
    frames = frames_after_cut(room, wall, at_mm, FrameToBuild())
    room = revise(room, **followed(room, split_place(wall, at_mm, added=2), split_corner(wall, added=2)))
    return with_plan(room, corners, openings, frames)


def remove_corner(room: Room, corner: int) -> Room:
    """The room with the two walls at a corner made one. Raises RoomError where they hold openings that no longer fit."""
    _known_corner(room, corner)
    if room.wall_count == 3:
        raise RoomError(tr("a room needs at least three corners; this one cannot be removed"))
    left = (corner - 1) % room.wall_count
    start, bend = room.wall_ends_mm(left)
    shift = max(0.0, along_mm(start, room.wall_ends_mm(corner)[1], bend))
    openings = tuple(after_join(opening, corner, left, shift) for opening in room.openings)
    corners = [p for i, p in enumerate(room.corners_mm) if i != corner]
    frames: list[AnyFrame] = list(room.frames)
    if frames:
        one, other = (FramedLength(frames[wall], room.wall_length_mm(wall)) for wall in (left, corner))
        frames[left] = join_frames(one, other, shift)
        del frames[corner]
    room = revise(room, **followed(room, joined_place(corner, left, shift), lambda c: None if c == corner else c - (c > corner)))
    return with_plan(room, corners, openings, frames)


def set_wall_length(room: Room, wall: int, length_mm: float) -> Room:
    """The room with one wall longer or shorter; the far side of the room moves along, so square rooms stay square.

    Raises RoomError where the rest of the room cannot follow or an opening no longer fits.
    """
    _known_corner(room, wall)
    if length_mm < SHORTEST_WALL_MM:
        raise RoomError(
            tr(
                "wall {wall} cannot be {length:g} mm long; it must be at least {least:g} mm",
                wall=wall_letter(wall),
                length=length_mm,
                least=SHORTEST_WALL_MM,
            )
        )
    (x0, y0), (x1, y1) = room.wall_ends_mm(wall)
    old = room.wall_length_mm(wall)
    step = ((x1 - x0) / old * (length_mm - old), (y1 - y0) / old * (length_mm - old))
    corners = list(room.corners_mm)
    for corner in _followers(room, wall):
        x, y = corners[corner]
        corners[corner] = _tidy((x + step[0], y + step[1]))
    return _with_corners(room, corners)


def move_wall(room: Room, wall: int, out_mm: float) -> Room:
    """The room with a wall moved ``out_mm`` out of the room, parallel to itself; its neighbours grow or shrink along themselves.

    Raises RoomError where walls would cross or an opening no longer fits its wall.
    """
    _known_corner(room, wall)
    count, right = room.wall_count, (wall + 1) % room.wall_count
    start, end = room.wall_ends_mm(wall)
    length = room.wall_length_mm(wall)
    along = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    out = (-along[1] * out_mm, along[0] * out_mm)
    corners = list(room.corners_mm)
    corners[wall] = _slid(start, room.corners_mm[(wall - 1) % count], along, out)
    corners[right] = _slid(end, room.corners_mm[(wall + 2) % count], along, out)
    return _with_corners(room, corners)


def _slid(corner: Point, neighbour: Point, along: Point, out: Point) -> Point:
    """A corner moved by ``out`` along the line to its neighbour, or straight out where that line runs with the wall."""
    step = (corner[0] - neighbour[0], corner[1] - neighbour[1])
    across = along[0] * step[1] - along[1] * step[0]
    if abs(across) < _PARALLEL * math.hypot(*step):
        return _tidy((corner[0] + out[0], corner[1] + out[1]))
    part = (along[0] * out[1] - along[1] * out[0]) / across
    return _tidy((corner[0] + step[0] * part, corner[1] + step[1] * part))


def set_diagonal(room: Room, corner: int, diagonal_mm: float) -> Room:
    """The four-walled room leaning so that the diagonal from a corner is as taped; walls keep their lengths, wall A its place.

    Raises RoomError where the room has other than four walls or its walls cannot have such a diagonal.
    """
    _known_corner(room, corner)
    if room.wall_count != 4:
        raise RoomError(
            tr("the room has {count} walls; only the corners of four walls follow from one diagonal", count=room.wall_count)
        )
    b, c, d = (room.wall_length_mm(wall) for wall in (1, 2, 3))
    first, second = room.corners_mm[:2]
    if corner % 2 == 0:
        third = _apex(first, second, diagonal_mm, b)
        fourth = _apex(first, third, d, c)
    else:
        fourth = _apex(first, second, d, diagonal_mm)
        third = _apex(fourth, second, c, b)
    return _with_corners(room, [first, second, _tidy(third), _tidy(fourth)])


def _apex(start: Point, end: Point, from_start_mm: float, from_end_mm: float) -> Point:
    """The point on the room's side of a line, to the right of its way, so far from either end."""
    base = math.dist(start, end)
    along = (from_start_mm**2 - from_end_mm**2 + base**2) / (2 * base)
    square = from_start_mm**2 - along**2
    if not square > 0:
        raise RoomError(
            tr(
                "lengths of {base:.0f} mm, {from_start:.0f} mm and {from_end:.0f} mm make no triangle; measure again",
                base=base,
                from_start=from_start_mm,
                from_end=from_end_mm,
            )
        )
    ux, uy, off = (end[0] - start[0]) / base, (end[1] - start[1]) / base, math.sqrt(square)
    return start[0] + ux * along + uy * off, start[1] + uy * along - ux * off


def _followers(room: Room, wall: int) -> list[int]:
    """Corners that move with a wall's right end: on from there, up to the first wall that can take up the length."""
    (x0, y0), (x1, y1) = room.wall_ends_mm(wall)
    moving = []
    for i in range(1, room.wall_count):
        corner = (wall + i) % room.wall_count
        moving.append(corner)
        (ax, ay), (bx, by) = room.wall_ends_mm(corner)
        along = (x1 - x0) * (bx - ax) + (y1 - y0) * (by - ay)
        if along < -0.5 * room.wall_length_mm(wall) * room.wall_length_mm(corner):
            return moving
    return [(wall + 1) % room.wall_count]


def _slide_neighbours(corners: list[Point], corner: int, point: Point) -> None:
    """Move the neighbours sideways with a corner, along walls that run with the axes of the plan."""
    x, y = corners[corner]
    for other in ((corner - 1) % len(corners), (corner + 1) % len(corners)):
        ox, oy = corners[other]
        if abs(ox - x) < 1e-6:
            corners[other] = _tidy((point[0], oy))
        elif abs(oy - y) < 1e-6:
            corners[other] = _tidy((ox, point[1]))


def _with_corners(room: Room, corners: list[Point]) -> Room:
    return with_plan(room, corners, room.openings, room.frames)


def _known_corner(room: Room, corner: int) -> None:
    if not 0 <= corner < room.wall_count:
        raise RoomError(
            tr("corner {corner} does not exist; the room has corners 0 to {last}", corner=corner, last=room.wall_count - 1)
        )


def _tidy(point: Point) -> Point:
    return tidy_mm(point[0]), tidy_mm(point[1])
