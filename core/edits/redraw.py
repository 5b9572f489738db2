"""Walls drawn anew round what a room already has: what still fits is kept, and what does not is named, never lost silently."""

import math
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from core.edits.frames import AnyFrame, shortened_frame
from core.edits.renumber import followed
from core.edits.revise import revise
from core.language import tr
from core.room import FrameToBuild, MeasuredFrame, Opening, Point, Room, wall_letter

_SAME_WAY = math.cos(math.radians(40))
"""Walls that run within so much of each other's way can be the same wall."""


@dataclass(frozen=True, slots=True)
class Redrawn:
    """The room within its new walls, and in words what found no place on them."""

    room: Room
    dropped: tuple[str, ...]


def redraw(room: Room, corners_mm: Sequence[Point]) -> Redrawn:
    """The room with other walls, clockwise.

    Every old wall goes on in the new one that runs its way and lies nearest in the room's outline; the first old wall that does
    gives its letter to it. Openings and standing frames keep their distance from their wall's left corner. Openings that would
    reach past their wall's end or have no wall are dropped, as are studs and pins with no wall, and all are named. Raises
    RoomError where the corners make no room.
    """
    plain = revise(room, corners_mm=tuple(corners_mm), openings=(), frames=(), pins=())
    heirs = _heirs(room, plain)
    plain, heirs = _lettered(plain, heirs)
    openings, dropped = _openings(room, plain, heirs)
    frames, lost = _frames(room, plain, heirs)
    follows = followed(room, lambda wall, x_mm: _place(plain, heirs, wall, x_mm), lambda corner: _corner(room, heirs, corner))
    gone = len(room.pins) - len(follows["pins"])
    pins = (tr("{pins} pinned joints or panels", pins=gone),) if gone else ()
    homeless = _homeless(room, heirs)
    if len(follows["timberwork"].faces) < len(room.timberwork.faces):
        lost.append(tr("readings of frames whose walls are gone"))
    return Redrawn(revise(plain, openings=openings, frames=frames, **follows), (*dropped, *lost, *pins, *homeless))


def _heirs(old: Room, new: Room) -> dict[int, int]:
    """For each old wall the new one that it goes on in; walls that go on in none are left out. No new wall has two."""
    costs = sorted(
        (cost, was, now)
        for was in range(old.wall_count)
        for now in range(new.wall_count)
        if (cost := _unlike(old, was, new, now)) is not None
    )
    heirs: dict[int, int] = {}
    for _, was, now in costs:
        if was not in heirs and now not in heirs.values():
            heirs[was] = now
    return heirs


def _unlike(old: Room, was: int, new: Room, now: int) -> float | None:
    """How unlike two walls are: how far apart they lie in their rooms' outlines, and how much their ways and lengths differ."""
    (ux, uy), (vx, vy) = _way(old, was), _way(new, now)
    same_way = ux * vx + uy * vy
    if same_way < _SAME_WAY:
        return None
    lengths = old.wall_length_mm(was), new.wall_length_mm(now)
    apart = math.dist(_middle(old, was), _middle(new, now))
    return round(apart + (1 - same_way) + 0.25 * abs(math.log(lengths[0] / lengths[1])), 9)


def _way(room: Room, wall: int) -> Point:
    (x0, y0), (x1, y1) = room.wall_ends_mm(wall)
    length = room.wall_length_mm(wall)
    return (x1 - x0) / length, (y1 - y0) / length


def _middle(room: Room, wall: int) -> Point:
    """Where a wall's middle lies in the room's outline, 0 to 1 either way."""
    xs, ys = [x for x, _ in room.corners_mm], [y for _, y in room.corners_mm]
    (x0, y0), (x1, y1) = room.wall_ends_mm(wall)
    return ((x0 + x1) / 2 - min(xs)) / (max(xs) - min(xs)), ((y0 + y1) / 2 - min(ys)) / (max(ys) - min(ys))


def _lettered(room: Room, heirs: Mapping[int, int]) -> tuple[Room, dict[int, int]]:
    """The room listed from the heir of its first old wall on, so that letters change as little as they can."""
    if not heirs:
        return room, {}
    first = min(heirs)
    turn = (heirs[first] - first) % room.wall_count if first < room.wall_count else 0
    corners = (*room.corners_mm[turn:], *room.corners_mm[:turn])
    return revise(room, corners_mm=corners), {was: (now - turn) % room.wall_count for was, now in heirs.items()}


def _openings(room: Room, new: Room, heirs: Mapping[int, int]) -> tuple[tuple[Opening, ...], list[str]]:
    kept: list[Opening] = []
    dropped: list[str] = []
    for opening in room.openings:
        wall = heirs.get(opening.wall)
        if wall is None:
            dropped.append(tr("{opening} (no wall like {wall} any more)", opening=opening.id, wall=wall_letter(opening.wall)))
        elif opening.right_mm > (length := new.wall_length_mm(wall)) + 1e-6:
            dropped.append(
                tr(
                    "{opening} (ends at {right:g} mm; wall {wall} is {length:g} mm long)",
                    opening=opening.id,
                    right=opening.right_mm,
                    wall=wall_letter(wall),
                    length=length,
                )
            )
        else:
            kept.append(revise(opening, wall=wall))
    return tuple(kept), dropped


def _frames(room: Room, new: Room, heirs: Mapping[int, int]) -> tuple[tuple[AnyFrame, ...], list[str]]:
    """Standing frames go with their walls; says which have none, and which lose studs past the end of theirs."""
    frames: list[AnyFrame] = [FrameToBuild() for _ in range(new.wall_count)]
    lost: list[str] = []
    for was, frame in enumerate(room.frames):
        wall = heirs.get(was)
        if wall is None:
            if not isinstance(frame, FrameToBuild):
                lost.append(tr("the standing frame of old wall {wall}", wall=wall_letter(was)))
            continue
        frames[wall] = shortened_frame(frame, new.wall_length_mm(wall))
        if isinstance(frame, MeasuredFrame) and frames[wall] != frame:
            lost.append(tr("measured studs past the end of wall {wall}", wall=wall_letter(wall)))
    return (tuple(frames) if room.frames else ()), lost


def _homeless(room: Room, heirs: Mapping[int, int]) -> list[str]:
    """Says how many panels that the crew has made lose their wall; their records stay, as panels without a place."""
    made = sum(record.is_made and record.wall < room.wall_count and record.wall not in heirs for record in room.progress.panels)
    return [tr("the places of {panels} panels that are already made", panels=made)] if made else []


def _place(new: Room, heirs: Mapping[int, int], wall: int, x_mm: float) -> tuple[int, float] | None:
    heir = heirs.get(wall)
    return None if heir is None or x_mm > new.wall_length_mm(heir) else (heir, x_mm)


def _corner(room: Room, heirs: Mapping[int, int], corner: int) -> int | None:
    """A corner goes on where both walls that meet there do, side by side."""
    before, here = heirs.get((corner - 1) % room.wall_count), heirs.get(corner)
    if before is None or here is None:
        return None
    return here if here in (before + 1, 0) else None
