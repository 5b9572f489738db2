"""Alcoves and chimney breasts: four more corners on one wall, square to it."""

from core.edits.carried import split_corner, with_plan
from core.edits.frames import AnyFrame, cut_frame
from core.edits.plan import SHORTEST_WALL_MM
from core.edits.renumber import followed
from core.edits.revise import revise, tidy_mm
from core.errors import RoomError
from core.language import tr
from core.room import FrameToBuild, Opening, Point, Room, wall_letter

LEAST_DEPTH_MM = 50.0


def add_recess(room: Room, wall: int, *, left_mm: float, width_mm: float, depth_mm: float) -> Room:
    """The room with part of a wall set back ``depth_mm`` out of the room, an alcove, or into it where negative: a chimney breast.

    Openings and measured studs go with the part that holds them whole; the new sides are frames still to build. Raises RoomError
    where an opening would be cut, the walls left or right would be shorter than 300 mm, or walls would cross.
    """
    length = room.wall_length_mm(wall)
    _check(room, wall, left_mm, width_mm, depth_mm)
    right_mm = left_mm + width_mm
    (x0, y0), (x1, y1) = room.wall_ends_mm(wall)
    along = ((x1 - x0) / length, (y1 - y0) / length)

    def at(along_mm: float, out_mm: float) -> Point:
        return (
            tidy_mm(x0 + along[0] * along_mm - along[1] * out_mm),
            tidy_mm(y0 + along[1] * along_mm + along[0] * out_mm),
        )

    new = (at(left_mm, 0), at(left_mm, depth_mm), at(right_mm, depth_mm), at(right_mm, 0))
    corners = (*room.corners_mm[: wall + 1], *new, *room.corners_mm[wall + 1 :])
    openings = tuple(_moved(opening, wall, left_mm, right_mm) for opening in room.openings)

    def new_place(other: int, x_mm: float) -> tuple[int, float]:
        if other != wall or x_mm <= left_mm:
            return (other + 4 if other > wall else other), x_mm
        return (wall + 2, x_mm - left_mm) if x_mm <= right_mm else (wall + 4, x_mm - right_mm)

    frames = _frames(room, wall, left_mm, width_mm)
    room = revise(room, **followed(room, new_place, split_corner(wall, added=4)))
    return with_plan(room, corners, openings, frames)


def _check(room: Room, wall: int, left_mm: float, width_mm: float, depth_mm: float) -> None:
    letter, length = wall_letter(wall), room.wall_length_mm(wall)
    if width_mm < SHORTEST_WALL_MM:
        raise RoomError(
            tr("width: {width:g} mm is too narrow; it must be at least {least:g} mm", width=width_mm, least=SHORTEST_WALL_MM)
        )
    if abs(depth_mm) < LEAST_DEPTH_MM:
        raise RoomError(
            tr("depth: {depth:g} mm is too little; it must be at least {least:g} mm", depth=abs(depth_mm), least=LEAST_DEPTH_MM)
        )
    if left_mm < SHORTEST_WALL_MM:
        raise RoomError(
            tr(
                "position: {left:g} mm from the left corner leaves too little of wall {wall}; leave at least "
                "{least:g} mm, or step the wall instead",
                left=left_mm,
                wall=letter,
                least=SHORTEST_WALL_MM,
            )
        )
    if (rest := length - left_mm - width_mm) < SHORTEST_WALL_MM:
        raise RoomError(
            tr(
                "width: {left:g} mm + {width:g} mm leave {rest:g} mm of wall {wall}, which is {length:g} mm "
                "long; leave at least {least:g} mm, or step the wall instead",
                left=left_mm,
                width=width_mm,
                rest=rest,
                wall=letter,
                length=length,
                least=SHORTEST_WALL_MM,
            )
        )


def _moved(opening: Opening, wall: int, left_mm: float, right_mm: float) -> Opening:
    if opening.wall != wall:
        return revise(opening, wall=opening.wall + 4) if opening.wall > wall else opening
    if opening.right_mm <= left_mm:
        return opening
    if opening.left_mm >= right_mm:
        return revise(opening, wall=wall + 4, left_mm=tidy_mm(opening.left_mm - right_mm))
    if opening.left_mm >= left_mm and opening.right_mm <= right_mm:
        return revise(opening, wall=wall + 2, left_mm=tidy_mm(opening.left_mm - left_mm))
    raise RoomError(
        tr(
            "its side would cut through {opening}, which stands {left:g} mm to {right:g} mm along wall "
            "{wall}; move the opening first",
            opening=opening.id,
            left=opening.left_mm,
            right=opening.right_mm,
            wall=wall_letter(wall),
        )
    )


def _frames(room: Room, wall: int, left_mm: float, width_mm: float) -> list[AnyFrame]:
    frames: list[AnyFrame] = list(room.frames)
    if frames:
        left, rest = cut_frame(frames[wall], left_mm)
        middle, right = cut_frame(rest, width_mm)
        frames[wall : wall + 1] = [left, FrameToBuild(), middle, FrameToBuild(), right]
    return frames
