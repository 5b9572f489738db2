"""Copies of openings: pasted on a wall of this room or another, or a wall's openings repeated on further walls, mirrored or not.

All are put up, or none. What does not fit is refused by name, with what would fit.
"""

import re
from collections.abc import Iterable, Sequence
from itertools import groupby
from typing import Annotated

from pydantic import Field

from core.edits.revise import revise, tidy_mm
from core.errors import RoomError
from core.language import tr
from core.room import TOUCH_MM, Opening, Room, wall_letter
from core.settings import Settings

LONGEST_NAME = 40
MOST_COPIED = 500


class CopiedOpenings(Settings):
    """Openings on their way from a wall to another, as a room file writes them."""

    openings: Annotated[tuple[Opening, ...], Field(min_length=1, max_length=MOST_COPIED)]


def paste_openings(room: Room, copied: Sequence[Opening], wall: int, left_mm: float | None = None) -> Room:
    """The room with copies on a wall, last in the list; those from further walls go as many walls further on.

    They keep their distances from each other. They stand where the originals did, or from ``left_mm`` on, or else at the
    nearest place along the wall that is free for all of them. Raises RoomError where a wall has no such place.
    """
    if not copied:
        raise RoomError(tr("there are no openings to paste; copy some first"))
    first = copied[0].wall
    made: list[Opening] = []
    faults: list[str] = []
    for source, group in groupby(sorted(copied, key=lambda o: o.wall), key=lambda o: o.wall):
        target = (wall + source - first) % room.wall_count
        moved = [opening.model_copy(update={"wall": target}) for opening in group]
        wish = 0.0 if left_mm is None else left_mm - min(o.left_mm for o in moved)
        standing = [o for o in (*room.openings, *made) if o.wall == target]
        shift = _nearest_shift(room, moved, standing, wish)
        if shift is None:
            faults += _no_place(room, moved, standing)
        else:
            made += [o.model_copy(update={"left_mm": max(0.0, tidy_mm(o.left_mm + shift))}) for o in moved]
    if faults:
        raise RoomError("\n".join(faults))
    return _with_copies(room, _in_order(copied, made))


def copy_wall(room: Room, source: int, targets: Iterable[int], *, mirrored: bool = False) -> Room:
    """The room with a wall's openings repeated on others, as far from their left end, or mirrored as far from their right end.

    Raises RoomError that names every opening that does not fit there, and what would.
    """
    originals = [o for o in room.openings if o.wall == source]
    if not 0 <= source < room.wall_count or not originals:
        raise RoomError(tr("wall {source} has no openings to copy; choose a wall that has", source=wall_letter(source)))
    made: list[Opening] = []
    faults: list[str] = []
    for target in dict.fromkeys(targets):
        if target == source or not 0 <= target < room.wall_count:
            raise RoomError(
                tr(
                    "wall {source} cannot be copied to wall {target}; choose another wall",
                    source=wall_letter(source),
                    target=wall_letter(target),
                )
            )
        length = room.wall_length_mm(target)
        standing = [o for o in room.openings if o.wall == target]
        for opening in originals:
            left_mm = tidy_mm(length - opening.right_mm) if mirrored else opening.left_mm
            copy = opening.model_copy(update={"wall": target, "left_mm": left_mm})
            fault = misfit(room, copy, standing)
            faults += [fault] if fault else []
            made.append(copy)
    if faults:
        raise RoomError("\n".join(faults))
    return _with_copies(room, made)


def misfit(room: Room, opening: Opening, standing: Sequence[Opening]) -> str:
    """Why an opening cannot stand where it is wanted among others, and what would fit; empty where it can."""
    length, letter = room.wall_length_mm(opening.wall), wall_letter(opening.wall)
    if opening.width_mm > length + TOUCH_MM:
        return tr(
            "{opening} is {width:g} mm wide and wall {wall} {length:g} mm long; at most {length:g} mm would fit",
            opening=opening.id,
            width=opening.width_mm,
            wall=letter,
            length=length,
        )
    if opening.sill_mm >= room.clad_height_mm:
        return tr(
            "{opening} has its sill at {sill:g} mm and the lining ends at {lining:g} mm; a sill below that would fit",
            opening=opening.id,
            sill=opening.sill_mm,
            lining=room.clad_height_mm,
        )
    if opening.left_mm < -TOUCH_MM or opening.right_mm > length + TOUCH_MM:
        most = tidy_mm(length - opening.width_mm)
        return tr(
            "{opening} would run from {left:g} mm to {right:g} mm on wall {wall}, which is {length:g} mm "
            "long; a left edge from 0 mm to {most:g} mm would fit",
            opening=opening.id,
            left=opening.left_mm,
            right=opening.right_mm,
            wall=letter,
            length=length,
            most=most,
        )
    in_way = next((other for other in standing if _overlap(opening, other)), None)
    if in_way is None:
        return ""
    shift = _nearest_shift(room, [opening], standing, 0.0)
    if shift is None:
        return tr(
            "{opening} would overlap {other} on wall {wall}; nothing as wide fits",
            opening=opening.id,
            other=in_way.id,
            wall=letter,
        )
    return tr(
        "{opening} would overlap {other} on wall {wall}; a left edge at {left:g} mm would fit",
        opening=opening.id,
        other=in_way.id,
        wall=letter,
        left=tidy_mm(opening.left_mm + shift),
    )


def _nearest_shift(room: Room, moved: Sequence[Opening], standing: Sequence[Opening], wish_mm: float) -> float | None:
    """The shift nearest a wished one at which all stand on their wall and overlap nothing."""
    length = room.wall_length_mm(moved[0].wall)
    low, high = -min(o.left_mm for o in moved), length - max(o.right_mm for o in moved)
    if high < low - TOUCH_MM or any(o.sill_mm >= room.clad_height_mm for o in moved):
        return None
    meets = [(one, other) for one in moved for other in standing if _share_heights(one, other)]
    shifts = [wish_mm, low, high, *(b.right_mm - a.left_mm for a, b in meets), *(b.left_mm - a.right_mm for a, b in meets)]
    kept = (min(max(shift, low), max(high, low)) for shift in shifts)
    free = [
        s for s in kept if all(a.right_mm + s <= b.left_mm + TOUCH_MM or a.left_mm + s >= b.right_mm - TOUCH_MM for a, b in meets)
    ]
    return min(free, key=lambda s: (abs(s - wish_mm), s), default=None)


def _no_place(room: Room, moved: Sequence[Opening], standing: Sequence[Opening]) -> list[str]:
    """Why openings have no place on their wall: each that alone does not fit, or else that they do not fit side by side."""
    faults = [misfit(room, opening.model_copy(update={"left_mm": 0.0}), ()) for opening in moved]
    if told := [fault for fault in faults if fault]:
        return told
    wall, names = moved[0].wall, ", ".join(o.id for o in moved)
    span = max(o.right_mm for o in moved) - min(o.left_mm for o in moved)
    length = room.wall_length_mm(wall)
    if span > length:
        return [
            tr(
                "{names} span {span:g} mm and wall {wall} is {length:g} mm long; copy fewer at a time",
                names=names,
                span=span,
                wall=wall_letter(wall),
                length=length,
            )
        ]
    held = ", ".join(o.id for o in standing)
    return [
        tr(
            "wall {wall} has no place {span:g} mm wide left for {names} beside {held}; choose another wall",
            wall=wall_letter(wall),
            span=span,
            names=names,
            held=held,
        )
    ]


def _with_copies(room: Room, made: Iterable[Opening]) -> Room:
    taken = {o.id for o in room.openings}
    copies = []
    for opening in made:
        name = free_name(opening.id, taken)
        taken.add(name)
        copies.append(revise(opening, id=name))
    return revise(room, openings=(*room.openings, *copies))


def free_name(name: str, taken: Iterable[str]) -> str:
    """The name, or where it is taken its first numbered form that is free: ``window`` gives ``window-1``."""
    names = set(taken)
    if name not in names:
        return name
    stem = re.sub(r"-\d+$", "", name)
    number = 1
    while (numbered := f"{stem[: LONGEST_NAME - len(str(number)) - 1]}-{number}") in names:
        number += 1
    return numbered


def _in_order(copied: Sequence[Opening], made: Sequence[Opening]) -> list[Opening]:
    """The copies in the order of their originals."""
    places = {opening.id: place for place, opening in enumerate(copied)}
    return sorted(made, key=lambda o: places[o.id])


def _overlap(one: Opening, other: Opening) -> bool:
    return _share_heights(one, other) and (max(one.left_mm, other.left_mm) + TOUCH_MM < min(one.right_mm, other.right_mm))


def _share_heights(one: Opening, other: Opening) -> bool:
    return max(one.sill_mm, other.sill_mm) + TOUCH_MM < min(one.head_mm, other.head_mm)
