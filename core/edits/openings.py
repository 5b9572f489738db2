"""Edits of doors, windows and everything else that a wall is open for."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType
from typing import Any

from core.edits.revise import build, revise, tidy_down_mm, tidy_mm
from core.errors import RoomError
from core.language import marked, tr
from core.room import Opening, OpeningKind, Room, wall_letter


@dataclass(frozen=True, slots=True)
class OpeningSize:
    """What a new opening measures until someone types its real size."""

    width_mm: float
    height_mm: float
    sill_mm: float


DEFAULT_SIZES: Mapping[OpeningKind, OpeningSize] = MappingProxyType(
    {
        "door": OpeningSize(912.0, 1980.0, 0.0),
        "window": OpeningSize(912.0, 608.0, 912.0),
        "outlet": OpeningSize(60.0, 100.0, 300.0),
        "switch": OpeningSize(60.0, 100.0, 1100.0),
        "niche": OpeningSize(304.0, 304.0, 912.0),
    }
)
"""Common practice, no published source."""
_NO_PLACE: Mapping[OpeningKind, str] = {
    "door": marked("wall {wall} has no place left for a door {width:g} mm wide; choose another wall"),
    "window": marked("wall {wall} has no place left for a window {width:g} mm wide; choose another wall"),
    "outlet": marked("wall {wall} has no place left for an outlet {width:g} mm wide; choose another wall"),
    "switch": marked("wall {wall} has no place left for a switch {width:g} mm wide; choose another wall"),
    "niche": marked("wall {wall} has no place left for a niche {width:g} mm wide; choose another wall"),
}


def clamp_left_mm(room: Room, wall: int, left_mm: float, width_mm: float) -> float:
    """The nearest left edge at which an opening of that width stays on the wall."""
    _known_wall(room, wall)
    return tidy_down_mm(max(0.0, min(left_mm, room.wall_length_mm(wall) - width_mm)))


def move_opening(
    room: Room, name: str, *, wall: int | None = None, left_mm: float | None = None, sill_mm: float | None = None
) -> Room:
    """The room with the opening elsewhere, on the same wall or another. Raises RoomError where it does not fit."""
    if wall is not None:
        _known_wall(room, wall)
    return _changed(room, name, wall=wall, left_mm=left_mm, sill_mm=sill_mm)


def resize_opening(
    room: Room,
    name: str,
    *,
    left_mm: float | None = None,
    sill_mm: float | None = None,
    width_mm: float | None = None,
    height_mm: float | None = None,
) -> Room:
    """The room with some of the opening's edges elsewhere. Raises RoomError where it does not fit."""
    return _changed(room, name, left_mm=left_mm, sill_mm=sill_mm, width_mm=width_mm, height_mm=height_mm)


def add_opening(room: Room, kind: OpeningKind, wall: int, left_mm: float) -> Room:
    """The room with one more opening of the kind's default size, last in the list, kept within the wall.

    Raises RoomError where the wall has no place for it.
    """
    size = DEFAULT_SIZES[kind]
    _known_wall(room, wall)
    width_mm = tidy_down_mm(min(size.width_mm, room.wall_length_mm(wall)))
    opening = build(
        Opening,
        id=_free_name(room, kind),
        kind=kind,
        wall=wall,
        left_mm=clamp_left_mm(room, wall, left_mm, width_mm),
        sill_mm=size.sill_mm,
        width_mm=width_mm,
        height_mm=size.height_mm,
    )
    return revise(room, openings=(*room.openings, opening))


def free_left_mm(room: Room, kind: OpeningKind, wall: int) -> float:
    """The left edge nearest the wall's middle at which a new opening of that kind overlaps no other.

    Raises RoomError where the wall has no such place.
    """
    _known_wall(room, wall)
    size, length = DEFAULT_SIZES[kind], room.wall_length_mm(wall)
    width = min(size.width_mm, length)
    others = [
        o for o in room.openings if o.wall == wall and o.sill_mm < size.sill_mm + size.height_mm and o.head_mm > size.sill_mm
    ]
    middle = (length - width) / 2
    places = [middle, *(o.left_mm - width for o in others), *(o.right_mm for o in others)]
    free = [
        left
        for left in places
        if 0 <= left <= length - width and all(left >= o.right_mm or left + width <= o.left_mm for o in others)
    ]
    if not free:
        raise RoomError(tr(_NO_PLACE[kind], wall=wall_letter(wall), width=width))
    return tidy_mm(min(free, key=lambda left: abs(left - middle)))


def remove_opening(room: Room, name: str) -> Room:
    """The room without that opening. Raises RoomError where there is none."""
    opening = _known_opening(room, name)
    return revise(room, openings=tuple(o for o in room.openings if o is not opening))


def rename_opening(room: Room, name: str, new_name: str) -> Room:
    """The room with the opening under another id. Raises RoomError where the id is taken or malformed."""
    if new_name != name and any(o.id == new_name for o in room.openings):
        raise RoomError(tr("there is already an opening called {opening}; give every opening its own name", opening=new_name))
    opening = _known_opening(room, name)
    try:
        return _replaced(room, opening, revise(opening, id=new_name))
    except RoomError:
        raise RoomError(
            tr(
                "{name!r} cannot name an opening; use up to 40 letters, digits, spaces, dots or dashes, with "
                "a letter or digit first",
                name=new_name,
            )
        ) from None


def _changed(room: Room, name: str, **changes: float | None) -> Room:
    opening = _known_opening(room, name)
    given: dict[str, Any] = {
        field: value if field == "wall" else tidy_mm(value) for field, value in changes.items() if value is not None
    }
    return _replaced(room, opening, revise(opening, **given))


def _replaced(room: Room, old: Opening, new: Opening) -> Room:
    return revise(room, openings=tuple(new if o is old else o for o in room.openings))


def _known_opening(room: Room, name: str) -> Opening:
    try:
        return room.opening(name)
    except KeyError:
        raise RoomError(tr("the room has no opening called {opening}", opening=name)) from None


def _known_wall(room: Room, wall: int) -> None:
    if not 0 <= wall < room.wall_count:
        last = wall_letter(room.wall_count - 1)
        raise RoomError(
            tr(
                "wall {wall} does not exist; the room has walls A to {last} (0 to {number})",
                wall=wall,
                last=last,
                number=room.wall_count - 1,
            )
        )


def _free_name(room: Room, kind: OpeningKind) -> str:
    taken = {o.id for o in room.openings}
    if kind not in taken and kind in ("door", "window"):
        return kind
    number = 1
    while f"{kind}-{number}" in taken:
        number += 1
    return f"{kind}-{number}"
