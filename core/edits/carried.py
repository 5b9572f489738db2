"""What stands on walls, carried over to another plan: openings, frames and places of walls parted, joined or shortened."""

import math
from collections.abc import Sequence

from core.edits.frames import AnyFrame, cut_frame, shortened_frame
from core.edits.renumber import NewCorner, NewPlace
from core.edits.revise import revise, tidy_down_mm, tidy_mm
from core.errors import RoomError
from core.language import tr
from core.room import Opening, Point, Room, wall_letter


def with_plan(room: Room, corners: Sequence[Point], openings: tuple[Opening, ...], frames: Sequence[AnyFrame]) -> Room:
    """The room with another plan; says which opening is in the way before the model does so in its own words.

    Frames of walls that become too short for their studs are shortened.
    """
    lengths = [math.dist(*ends) for ends in _walls(corners)]
    openings = tuple(_kept_within(opening, lengths[opening.wall]) for opening in openings)
    for opening in openings:
        length = lengths[opening.wall]
        if opening.right_mm > length + 1e-6:
            raise RoomError(
                tr(
                    "wall {wall} would be {length:g} mm long, too short for {opening}, which ends at {right:g} mm; "
                    "move or remove the opening first",
                    wall=wall_letter(opening.wall),
                    length=length,
                    opening=opening.id,
                    right=opening.right_mm,
                )
            )
    return revise(room, corners_mm=tuple(corners), openings=openings, frames=_fitting(room, corners, frames))


def _fitting(room: Room, corners: Sequence[Point], frames: Sequence[AnyFrame]) -> tuple[AnyFrame, ...]:
    """The frames without studs that a changed wall leaves no room for; walls that stay where they are keep theirs as given."""
    before = {room.wall_ends_mm(wall) for wall in range(room.wall_count)}
    return tuple(
        frame if wall in before else shortened_frame(frame, math.dist(*wall))
        for wall, frame in zip(_walls(corners), frames, strict=False)
    )


def _walls(corners: Sequence[Point]) -> list[tuple[Point, Point]]:
    """The ends of every wall of a plan."""
    return list(zip(corners, [*corners[1:], corners[0]], strict=True))


def _kept_within(opening: Opening, length_mm: float) -> Opening:
    """The opening, moved back where only the rounding of corners leaves it past its wall's end."""
    if 1e-6 < opening.right_mm - length_mm <= min(1e-3, opening.left_mm):
        return revise(opening, left_mm=tidy_down_mm(length_mm - opening.width_mm))
    return opening


def frames_after_cut(room: Room, wall: int, at_mm: float, *between: AnyFrame) -> list[AnyFrame]:
    """The frames once a wall is parted, with those of new walls between its parts; none where the room names none."""
    frames: list[AnyFrame] = list(room.frames)
    if frames:
        left, right = cut_frame(frames[wall], at_mm)
        frames[wall : wall + 1] = [left, *between, right]
    return frames


def split_place(wall: int, at_mm: float, *, added: int) -> NewPlace:
    """Where places lie once a wall is parted at ``at_mm`` and so many walls come after its left part."""

    def new_place(other: int, x_mm: float) -> tuple[int, float]:
        if other == wall and x_mm > at_mm:
            return wall + added, x_mm - at_mm
        return (other + added if other > wall else other), x_mm

    return new_place


def split_corner(wall: int, *, added: int) -> NewCorner:
    """The numbers of corners once so many were added after a wall's left one."""
    return lambda corner: corner + added if corner > wall else corner


def joined_place(corner: int, left: int, shift_mm: float) -> NewPlace:
    """Where places lie once the wall at a corner is joined to the one on its left, ``shift_mm`` further on."""

    def new_place(wall: int, x_mm: float) -> tuple[int, float]:
        if wall == corner:
            return (left if left < corner else left - 1), x_mm + shift_mm
        return (wall - 1 if wall > corner else wall), x_mm

    return new_place


def after_split(opening: Opening, wall: int, length_mm: float, *, added: int) -> Opening:
    """An opening once a wall is parted ``length_mm`` along it. Raises RoomError where the cut goes through the opening."""
    if opening.wall > wall:
        return revise(opening, wall=opening.wall + added)
    if opening.wall < wall or opening.right_mm <= length_mm + 1e-6:
        return opening
    if opening.left_mm < length_mm - 1e-6:
        raise RoomError(
            tr(
                "a corner {length:g} mm along wall {wall} would cut through {opening}",
                length=length_mm,
                wall=wall_letter(wall),
                opening=opening.id,
            )
        )
    return revise(opening, wall=wall + added, left_mm=tidy_mm(max(0.0, opening.left_mm - length_mm)))


def after_join(opening: Opening, corner: int, left: int, shift_mm: float) -> Opening:
    """An opening once the wall at a corner is joined to the one on its left, ``shift_mm`` further on."""
    if opening.wall == corner:
        target = left if left < corner else left - 1
        return revise(opening, wall=target, left_mm=tidy_mm(opening.left_mm + shift_mm))
    return revise(opening, wall=opening.wall - 1) if opening.wall > corner else opening


def along_mm(start: Point, end: Point, point: Point) -> float:
    """Where a point falls on the straight line from one corner to another, from the first."""
    (ax, ay), (cx, cy), (bx, by) = start, end, point
    length = math.hypot(cx - ax, cy - ay)
    return ((bx - ax) * (cx - ax) + (by - ay) * (cy - ay)) / length if length else 0.0
