"""Edits of timber and hardware: sizes, stock lengths, saw cut, the screw, readings of a frame's face."""

from collections.abc import Sequence

from core.edits.revise import build, revise, tidy_mm
from core.edits.studs import within
from core.errors import RoomError
from core.language import tr
from core.room import Room, wall_letter
from core.timberwork import FaceReadings, Reading, Timberwork

SHORTEST_STOCK_MM, LONGEST_STOCK_MM = 200.0, 20_000.0


def set_timber_size(room: Room, name: str) -> Room:
    """The room with its frames cut from another size of timber. Raises RoomError where the room lists none of that name."""
    if name not in {size.name for size in room.timberwork.sizes}:
        raise RoomError(
            tr(
                "timber {name!r} is not listed; the sizes are {sizes}",
                name=name,
                sizes=", ".join(s.name for s in room.timberwork.sizes),
            )
        )
    return _with(room, frame_size=name)


def set_stock(room: Room, lengths_mm: Sequence[float]) -> Room:
    """The room with boards bought in these lengths; none given means those common in the room's units. Raises RoomError."""
    for length in lengths_mm:
        if not SHORTEST_STOCK_MM <= length <= LONGEST_STOCK_MM:
            raise RoomError(
                tr(
                    "a board of {length:g} mm is not sold; lengths are from {least:g} mm to {most:g} mm",
                    length=length,
                    least=SHORTEST_STOCK_MM,
                    most=LONGEST_STOCK_MM,
                )
            )
    if len(set(lengths_mm)) < len(lengths_mm):
        raise RoomError(tr("a stock length is listed twice; list each once"))
    return _with(room, stock_mm=tuple(map(tidy_mm, lengths_mm)) or None)


def set_kerf(room: Room, kerf_mm: float) -> Room:
    """The room with another width of saw cut. Raises RoomError where it is out of bounds."""
    return _with(room, kerf_mm=within(Timberwork, "kerf_mm", kerf_mm, tr("the saw cut")))


def set_least_offcut(room: Room, least_mm: float) -> Room:
    """The room with offcuts worth keeping from another length on. Raises RoomError where it is out of bounds."""
    return _with(room, least_offcut_mm=within(Timberwork, "least_offcut_mm", least_mm, tr("the shortest offcut to keep")))


def set_screw(room: Room, name: str | None) -> Room:
    """The room with a screw decided on, or the choice left to the check. Raises RoomError for one that is not listed."""
    return _with(room, screw=name)


def readings_of(room: Room, wall: int) -> tuple[Reading, ...]:
    """What was read of a wall's face; nothing where it was not."""
    return next((face.readings for face in room.timberwork.faces if face.wall == wall), ())


def put_reading(room: Room, wall: int, number: int | None, *, x_mm: float, z_mm: float, depth_mm: float) -> Room:
    """The room with one reading of a wall's face changed, or one more where ``number`` is None.

    Raises RoomError where it lies off the wall or where that place was read already.
    """
    length = room.wall_length_mm(wall)
    if not 0 <= x_mm <= length + 1e-3:
        raise RoomError(
            tr(
                "a reading at {along:g} mm lies off wall {wall}, which is {length:g} mm long",
                along=x_mm,
                wall=wall_letter(wall),
                length=length,
            )
        )
    within(Reading, "z_mm", z_mm, tr("the height"))
    within(Reading, "depth_mm", depth_mm, tr("the depth"))
    readings = list(readings_of(room, wall))
    made = build(Reading, x_mm=tidy_mm(x_mm), z_mm=tidy_mm(z_mm), depth_mm=tidy_mm(depth_mm))
    for other, reading in enumerate(readings):
        if other != number and (reading.x_mm, reading.z_mm) == (made.x_mm, made.z_mm):
            raise RoomError(
                tr(
                    "the place {along:g} mm along, {up:g} mm up was read already; change that reading",
                    along=made.x_mm,
                    up=made.z_mm,
                )
            )
    if number is None:
        readings.append(made)
    else:
        _check_known(readings, number)
        readings[number] = made
    return _with_readings(room, wall, readings)


def remove_reading(room: Room, wall: int, number: int) -> Room:
    """The room without one reading; without the last the face counts as not measured. Raises RoomError."""
    readings = list(readings_of(room, wall))
    _check_known(readings, number)
    del readings[number]
    return _with_readings(room, wall, readings)


def _check_known(readings: Sequence[Reading], number: int) -> None:
    if not 0 <= number < len(readings):
        raise RoomError(tr("there is no reading {number}; the wall has {count}", number=number + 1, count=len(readings)))


def _with_readings(room: Room, wall: int, readings: Sequence[Reading]) -> Room:
    others = [face for face in room.timberwork.faces if face.wall != wall]
    if readings:
        others.append(build(FaceReadings, wall=wall, readings=tuple(readings)))
    return _with(room, faces=tuple(sorted(others, key=lambda face: face.wall)))


def _with(room: Room, **values: object) -> Room:
    return revise(room, timberwork=revise(room.timberwork, **values))
