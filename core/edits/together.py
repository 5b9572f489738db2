"""Edits of several openings at once: every one of them changes, or none where one cannot."""

from collections.abc import Callable, Collection
from typing import Literal

from core.edits.revise import revise, tidy_down_mm, tidy_mm
from core.errors import RoomError
from core.language import tr
from core.room import Opening, Room, wall_letter

Level = Literal["sill", "head"]
Change = Callable[[Opening], Opening]
LEAST_MM = 16.0
"""So much of an opening stays below the lining's head, and so wide and high it stays, whatever keys and drags do."""


def shift_openings(room: Room, names: Collection[str], right_mm: float, up_mm: float) -> Room:
    """The room with openings so much further right and up on their walls. Raises RoomError where one does not fit there."""
    return _each(
        room,
        names,
        lambda o: revise(o, left_mm=tidy_mm(o.left_mm + right_mm), sill_mm=tidy_mm(o.sill_mm + up_mm)),
    )


def free_shift_mm(room: Room, names: Collection[str], right_mm: float, up_mm: float) -> tuple[float, float]:
    """As much of a shift as keeps every one of the openings on its wall and within the lining's height."""
    chosen = _known(room, names)
    most_right = min(room.wall_length_mm(o.wall) - o.right_mm for o in chosen)
    most_left = min(o.left_mm for o in chosen)
    most_up = max(0.0, min(room.clad_height_mm - LEAST_MM - o.sill_mm for o in chosen))
    most_down = min(o.sill_mm for o in chosen)
    return (
        max(-most_left, min(right_mm, max(0.0, tidy_down_mm(most_right)))),
        max(-most_down, min(up_mm, most_up)),
    )


def free_stretch_mm(room: Room, names: Collection[str], wider_mm: float, higher_mm: float) -> tuple[float, float]:
    """As much of a stretch as leaves every one of the openings something and keeps it on its wall."""
    chosen = _known(room, names)
    most = max(0.0, tidy_down_mm(min(room.wall_length_mm(o.wall) - o.right_mm for o in chosen)))
    least_wider = min(0.0, max(LEAST_MM - o.width_mm for o in chosen))
    least_higher = min(0.0, max(LEAST_MM - o.height_mm for o in chosen))
    return max(least_wider, min(wider_mm, most)), max(least_higher, higher_mm)


def size_openings(
    room: Room,
    names: Collection[str],
    *,
    left_mm: float | None = None,
    sill_mm: float | None = None,
    width_mm: float | None = None,
    height_mm: float | None = None,
) -> Room:
    """The room with the same left edge, sill, width or height for every one of the openings. Raises RoomError."""
    given = {"left_mm": left_mm, "sill_mm": sill_mm, "width_mm": width_mm, "height_mm": height_mm}
    changes = {field: tidy_mm(value) for field, value in given.items() if value is not None}
    return _each(room, names, lambda o: revise(o, **changes))


def stretch_openings(room: Room, names: Collection[str], wider_mm: float, higher_mm: float) -> Room:
    """The room with every one of the openings so much wider and higher, left edges and sills where they were.

    Raises RoomError where one would vanish or reach past its wall.
    """
    return _each(
        room,
        names,
        lambda o: revise(o, width_mm=tidy_mm(o.width_mm + wider_mm), height_mm=tidy_mm(o.height_mm + higher_mm)),
    )


def align_openings(room: Room, names: Collection[str], level: Level, like: str) -> Room:
    """The room with the sills, or the heads, of openings level with those of one of them. Raises RoomError.

    Openings are moved, not resized, so an opening too high to have its head there is refused.
    """
    (master,) = _known(room, (like,))
    faults = [
        tr(
            "{opening} is {height:g} mm high and cannot have its head at {head:g} mm; at most {head:g} mm would fit",
            opening=opening.id,
            height=opening.height_mm,
            head=master.head_mm,
        )
        for opening in _known(room, names)
        if level == "head" and opening.height_mm > master.head_mm
    ]
    if faults:
        raise RoomError("\n".join(faults))
    if level == "sill":
        return size_openings(room, names, sill_mm=master.sill_mm)
    return _each(room, names, lambda o: revise(o, sill_mm=tidy_mm(master.head_mm - o.height_mm)))


def put_on_wall(room: Room, names: Collection[str], wall: int) -> Room:
    """The room with openings on another wall, as far from its left end as on their own. Raises RoomError."""
    if not 0 <= wall < room.wall_count:
        raise RoomError(tr("wall {wall} does not exist; the room has walls 0 to {last}", wall=wall, last=room.wall_count - 1))
    length = room.wall_length_mm(wall)
    for opening in _known(room, names):
        if opening.right_mm > length:
            raise RoomError(
                tr(
                    "{opening} would end {right:g} mm along wall {wall}, which is {length:g} mm long",
                    opening=opening.id,
                    right=opening.right_mm,
                    wall=wall_letter(wall),
                    length=length,
                )
            )
    return _each(room, names, lambda o: revise(o, wall=wall))


def remove_openings(room: Room, names: Collection[str]) -> Room:
    """The room without these openings. Raises RoomError where one does not exist."""
    gone = {opening.id for opening in _known(room, names)}
    return revise(room, openings=tuple(o for o in room.openings if o.id not in gone))


def _each(room: Room, names: Collection[str], change: Change) -> Room:
    """The room with every one of the openings changed, validated once as a whole; faults are told by the opening's name."""
    changed, faults = {}, []
    for opening in _known(room, names):
        try:
            changed[opening.id] = change(opening)
        except RoomError as error:
            faults += [f"{opening.id}: {line}" for line in str(error).splitlines()]
    if faults:
        raise RoomError("\n".join(faults))
    return revise(room, openings=tuple(changed.get(o.id, o) for o in room.openings))


def _known(room: Room, names: Collection[str]) -> tuple[Opening, ...]:
    wanted = set(names)
    found = tuple(o for o in room.openings if o.id in wanted)
    if missing := wanted - {o.id for o in found}:
        raise RoomError(tr("the room has no opening called {opening}", opening=min(missing)))
    if not found:
        raise RoomError(tr("choose at least one opening"))
    return found
