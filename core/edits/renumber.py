"""What else speaks of walls by number follows when a change of plan gives them other numbers.

Pins and colours are wishes and readings describe a frame's face: they go where their wall no longer is. What the crew has done is
a fact: no record is ever dropped, and one whose wall is gone gets a number no wall can have, so that it shows as a panel without
a place.
"""

from collections.abc import Callable
from typing import Any

from core.edits.colouring import followed_colouring
from core.edits.revise import revise, tidy_mm
from core.pins import LegPin, Pin, RowsPin
from core.progress import PanelRecord, Span
from core.room import Room
from core.timberwork import FaceReadings

Place = tuple[int, float]
NewPlace = Callable[[int, float], Place | None]
"""Where a place, a wall and the millimetres from its left corner, lies afterwards; None where it is gone."""
GONE = 500
"""Walls from this number on are gone; a room has at most 200."""

NewCorner = Callable[[int], int | None]
"""The number a corner has afterwards; None where it is gone."""


def followed(room: Room, new_place: NewPlace, new_corner: NewCorner) -> dict[str, Any]:
    """The fields of the room that name walls, with the numbers and places they have afterwards."""
    pins = tuple(new for pin in room.pins if (new := _pin(room, pin, new_place, new_corner)) is not None)
    return {
        "pins": pins,
        "colouring": followed_colouring(room, new_place),
        "progress": revise(room.progress, panels=_records(room, new_place)),
        "timberwork": revise(room.timberwork, faces=_faces(room, new_place)),
    }


def _pin(room: Room, pin: Pin, new_place: NewPlace, new_corner: NewCorner) -> Pin | None:
    if isinstance(pin, RowsPin):
        return pin
    if pin.wall >= room.wall_count:
        return None
    if isinstance(pin, LegPin):
        return _leg(room, pin, new_place, new_corner)
    field = "left_mm" if pin.kind == "panel" else "x_mm"
    there = new_place(pin.wall, getattr(pin, field))
    return None if there is None else revise(pin, **{"wall": there[0], field: tidy_mm(there[1])})


def _leg(room: Room, pin: LegPin, new_place: NewPlace, new_corner: NewCorner) -> LegPin | None:
    """A leg goes with its corner, on the wall that lies on the same side of it."""
    is_left = pin.end == "left"
    corner = new_corner(pin.wall if is_left else (pin.wall + 1) % room.wall_count)
    there = new_place(pin.wall, 0.0 if is_left else room.wall_length_mm(pin.wall))
    return None if corner is None or there is None else revise(pin, wall=there[0])


def _records(room: Room, new_place: NewPlace) -> tuple[PanelRecord, ...]:
    """Every record with the wall it is on now; those that would share a place with another lie on further walls that are gone."""
    records: dict[tuple[int, int, int, str], PanelRecord] = {}
    for record in room.progress.panels:
        moved = _record(room, record, new_place)
        while moved.place in records:
            moved = revise(moved, wall=max(moved.wall + 1, GONE), spans=())
        records[moved.place] = moved
    return tuple(records.values())


def _record(room: Room, record: PanelRecord, new_place: NewPlace) -> PanelRecord:
    pitch_mm = room.kit.pitch_mm
    there = new_place(record.wall, record.left_pitches * pitch_mm) if record.wall < room.wall_count else None
    if there is None:
        return record if record.wall >= GONE else revise(record, wall=record.wall + GONE, spans=())
    left = _left_pitches(there, record.left_pitches, pitch_mm)
    return revise(record, wall=there[0], left_pitches=left, spans=_spans(room, record.spans, new_place))


def _left_pitches(there: Place, before: int, pitch_mm: float) -> int:
    return max(0, before + round(there[1] / pitch_mm - before))


def _spans(room: Room, spans: tuple[Span, ...], new_place: NewPlace) -> tuple[Span, ...]:
    """The spans as long as before where they lie now; none at all where one of them is gone."""
    moved = []
    for span in spans:
        there = new_place(span.wall, span.left_pitches * room.kit.pitch_mm) if span.wall < room.wall_count else None
        if there is None:
            return ()
        left = _left_pitches(there, span.left_pitches, room.kit.pitch_mm)
        right = left + span.right_pitches - span.left_pitches
        moved.append(revise(span, wall=there[0], left_pitches=left, right_pitches=right))
    return tuple(moved)


def _faces(room: Room, new_place: NewPlace) -> tuple[FaceReadings, ...]:
    """Readings by the wall they were taken on; of two planes that fall on one wall the first stays."""
    found: dict[int, tuple[int, FaceReadings]] = {}
    for number, face in enumerate(room.timberwork.faces):
        places = [new_place(face.wall, reading.x_mm) if face.wall < room.wall_count else None for reading in face.readings]
        for wall in sorted({there[0] for there in places if there is not None}):
            moved = [
                revise(reading, x_mm=tidy_mm(there[1]))
                for reading, there in zip(face.readings, places, strict=True)
                if there is not None and there[0] == wall
            ]
            found.setdefault(wall, (number, revise(face, wall=wall, readings=tuple(moved))))
    return tuple(face for _, face in sorted(found.values(), key=lambda entry: (entry[0], entry[1].wall)))
