"""How a wall's frame is given: studs at one spacing or one by one as read off a tape, and rails at their heights.

Every refusal says what was found and what would be right, in millimetres from the wall's left end.
"""

from collections.abc import Sequence
from itertools import pairwise
from typing import Any

from pydantic import BaseModel

from core.edits.frames import rails_of
from core.edits.revise import build, tidy_mm
from core.edits.settings import set_frame
from core.errors import RoomError
from core.language import marked, tr
from core.room import MeasuredFrame, RegularFrame, Room, wall_letter

_SLACK_MM = 1e-3
"""A slanting wall's length is off by so little."""


def within(kind: type[BaseModel], field: str, value_mm: float, words: str) -> float:
    """The length, where it lies between the limits of a model's field. Raises RoomError that begins with ``words``."""
    limits = kind.model_fields[field].metadata
    low = max(float(limit.ge) for limit in limits if hasattr(limit, "ge"))
    high = min(float(limit.le) for limit in limits if hasattr(limit, "le"))
    if not low <= value_mm <= high:
        raise RoomError(
            tr(
                "{words} is {value:g} mm; it must be from {low:g} mm to {high:g} mm",
                words=words,
                value=value_mm,
                low=low,
                high=high,
            )
        )
    return value_mm


def set_regular(room: Room, wall: int, **changes: float) -> Room:
    """The room with the spacing or first centre of a wall's regular studs changed. Raises RoomError."""
    words = {"spacing_mm": tr("the spacing"), "first_centre_mm": tr("the first centre")}
    for field, value in changes.items():
        within(RegularFrame, field, value, words[field])
    first, length = changes.get("first_centre_mm", 0.0), room.wall_length_mm(wall)
    if first > length + _SLACK_MM:
        raise RoomError(
            tr(
                "the first centre is {first:g} mm; wall {wall} is {length:g} mm long, so it stands past it",
                first=first,
                wall=wall_letter(wall),
                length=length,
            )
        )
    return _revised(room, wall, RegularFrame, changes)


def set_stud_width(room: Room, wall: int, stud_mm: float) -> Room:
    """The room with the studs of a wall thicker or thinner. Raises RoomError where measured ones, or rails, would overlap."""
    frame = room.frame(wall)
    within(type(frame), "stud_mm", stud_mm, tr("the stud width"))
    if isinstance(frame, MeasuredFrame):
        _check_rising("stud", frame.centres_mm, stud_mm)
    _check_rising("rail", rails_of(frame), stud_mm)
    return set_frame(room, wall, build(type(frame), **{**dict(frame), "stud_mm": stud_mm}))


def set_centres(room: Room, wall: int, centres_mm: Sequence[float]) -> Room:
    """The room with a wall's measured studs at other centres. Raises RoomError where they overlap or stand outside the wall."""
    frame = _measured(room, wall)
    _check_rising("stud", centres_mm, frame.stud_mm)
    for centre in centres_mm:
        if centre not in frame.centres_mm:
            _check_on_wall(room, wall, centre, frame.stud_mm)
    return _revised(room, wall, MeasuredFrame, {"centres_mm": tuple(map(tidy_mm, centres_mm))})


def set_rails(room: Room, wall: int, rails_mm: Sequence[float]) -> Room:
    """The room with the rails of a wall's standing frame at other heights above the floor.

    Raises RoomError where two overlap or one lies outside the frame.
    """
    frame = room.frame(wall)
    _check_rising("rail", rails_mm, frame.stud_mm)
    for centre in rails_mm:
        if centre not in rails_of(frame):
            _check_in_height(room, wall, centre, frame.stud_mm)
    kind = RegularFrame if isinstance(frame, RegularFrame) else MeasuredFrame
    return _revised(room, wall, kind, {"rails_mm": tuple(map(tidy_mm, rails_mm))})


def move_stud(room: Room, wall: int, number: int, centre_mm: float) -> Room:
    """The room with one measured stud elsewhere between its neighbours. Raises RoomError where it would overlap or leave."""
    frame = _measured(room, wall)
    _check_known(room, wall, number)
    others = frame.centres_mm[:number] + frame.centres_mm[number + 1 :]
    _check_on_wall(room, wall, centre_mm, frame.stud_mm)
    before, after = frame.centres_mm[:number], frame.centres_mm[number + 1 :]
    if (before and centre_mm < before[-1]) or (after and centre_mm > after[0]):
        raise RoomError(tr("a stud cannot pass the next one; move that one first"))
    _check_clear(others, centre_mm, frame.stud_mm)
    return _revised(room, wall, MeasuredFrame, {"centres_mm": (*before, tidy_mm(centre_mm), *after)})


def add_stud(room: Room, wall: int, centre_mm: float) -> Room:
    """The room with one more measured stud. Raises RoomError where it would overlap another or stand outside the wall."""
    frame = _measured(room, wall)
    _check_on_wall(room, wall, centre_mm, frame.stud_mm)
    _check_clear(frame.centres_mm, centre_mm, frame.stud_mm)
    return _revised(room, wall, MeasuredFrame, {"centres_mm": tuple(sorted((*frame.centres_mm, tidy_mm(centre_mm))))})


def remove_stud(room: Room, wall: int, number: int) -> Room:
    """The room without one measured stud. Raises RoomError where there is none of that number."""
    centres = _measured(room, wall).centres_mm
    _check_known(room, wall, number)
    return _revised(room, wall, MeasuredFrame, {"centres_mm": centres[:number] + centres[number + 1 :]})


def free_centre_mm(room: Room, wall: int, after: int | None = None) -> float:
    """The middle of the gap to the right of a stud, or of the widest gap, in whole millimetres.

    Raises RoomError where no stud fits in.
    """
    frame, length = _measured(room, wall), room.wall_length_mm(wall)
    half = frame.stud_mm / 2
    ends = [-half, *frame.centres_mm, length + half]
    gaps = list(pairwise(ends))
    if after is not None and 0 <= after < len(frame.centres_mm):
        gaps = [gaps[after + 1]]
    left, right = max(gaps, key=lambda gap: gap[1] - gap[0])
    if right - left < 2 * frame.stud_mm + 1:
        raise RoomError(tr("no stud of {stud:g} mm fits in there", stud=frame.stud_mm))
    return float(round((left + right) / 2))


def _measured(room: Room, wall: int) -> MeasuredFrame:
    frame = room.frame(wall)
    if not isinstance(frame, MeasuredFrame):
        raise RoomError(tr("the studs of wall {wall} are not measured one by one; say so first", wall=wall_letter(wall)))
    return frame


def _revised(room: Room, wall: int, kind: type[RegularFrame] | type[MeasuredFrame], changes: Any) -> Room:
    frame = room.frame(wall)
    if not isinstance(frame, kind):
        raise RoomError(tr("the frame of wall {wall} is given in another way; change that first", wall=wall_letter(wall)))
    return set_frame(room, wall, build(kind, **{**dict(frame), **changes}))


def _check_known(room: Room, wall: int, number: int) -> None:
    if not 0 <= number < len(_measured(room, wall).centres_mm):
        raise RoomError(tr("wall {wall} has no stud {number}", wall=wall_letter(wall), number=number + 1))


def _check_on_wall(room: Room, wall: int, centre_mm: float, stud_mm: float) -> None:
    low, high = stud_mm / 2, room.wall_length_mm(wall) - stud_mm / 2
    if not low - _SLACK_MM <= centre_mm <= high + _SLACK_MM:
        raise RoomError(
            tr(
                "a stud at {centre:g} mm stands outside wall {wall}; centres lie from {low:g} mm to {high:g} mm",
                centre=centre_mm,
                wall=wall_letter(wall),
                low=low,
                high=tidy_mm(high),
            )
        )


def _check_in_height(room: Room, wall: int, centre_mm: float, stud_mm: float) -> None:
    low, high = stud_mm / 2 - room.kit.plate_mm, room.frame_head_mm - stud_mm / 2
    if not low - _SLACK_MM <= centre_mm <= high + _SLACK_MM:
        raise RoomError(
            tr(
                "a rail at {centre:g} mm lies outside the frame of wall {wall}; centres lie from {low:g} mm to {high:g} mm",
                centre=centre_mm,
                wall=wall_letter(wall),
                low=tidy_mm(low),
                high=tidy_mm(high),
            )
        )


def _check_clear(centres_mm: Sequence[float], centre_mm: float, stud_mm: float) -> None:
    for other in centres_mm:
        if abs(other - centre_mm) < stud_mm - _SLACK_MM:
            raise RoomError(
                tr(
                    "a stud at {centre:g} mm would overlap the one at {other:g} mm; centres are {stud:g} mm apart or more",
                    centre=centre_mm,
                    other=other,
                    stud=stud_mm,
                )
            )


_FALLS = {
    "stud": marked("{after:g} mm comes after {before:g} mm; list the studs' centres in rising order from the wall's left end"),
    "rail": marked("{after:g} mm comes after {before:g} mm; list the rails' centres in rising order from the floor"),
}
_OVERLAPS = {
    "stud": marked("studs at {before:g} mm and {after:g} mm would overlap; they are {width:g} mm wide"),
    "rail": marked("rails at {before:g} mm and {after:g} mm would overlap; they are {width:g} mm wide"),
}


def _check_rising(what: str, centres_mm: Sequence[float], stud_mm: float) -> None:
    for before, after in pairwise(centres_mm):
        if after < before:
            raise RoomError(tr(_FALLS[what], after=after, before=before))
        if after - before < stud_mm - _SLACK_MM:
            raise RoomError(tr(_OVERLAPS[what], before=before, after=after, width=stud_mm))
