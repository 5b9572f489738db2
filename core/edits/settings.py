"""Edits of what belongs to the whole room: name, units, clad height, frames, kit and rates."""

from typing import Any

from core.edits.revise import revise, tidy_mm
from core.errors import RoomError
from core.kit import Kit, Rates
from core.language import tr
from core.room import Frame, FrameToBuild, Joints, Room, Units


def set_name(room: Room, name: str) -> Room:
    """The room under another name. Raises RoomError where the name is empty or over 120 characters."""
    return revise(room, name=name.strip())


def set_units(room: Room, units: Units) -> Room:
    """The room with lengths shown in other units; nothing it measures changes."""
    return revise(room, display_units=units)


def set_joints(room: Room, joints: Joints) -> Room:
    """The room with the joints of neighbouring rows in line or staggered."""
    return revise(room, joints=joints)


def set_clad_height(room: Room, clad_height_mm: float) -> Room:
    """The room lined to another height. Raises RoomError where an opening would start above it."""
    return revise(room, clad_height_mm=tidy_mm(clad_height_mm))


def set_frame_height(room: Room, height_mm: float) -> Room:
    """The room with its frames' top plates up to another height. Raises RoomError where the lining would stand over them."""
    if height_mm < room.clad_height_mm:
        raise RoomError(
            tr(
                "the frame would end at {height:g} mm; it must reach up to the lining's {lining:g} mm",
                height=height_mm,
                lining=room.clad_height_mm,
            )
        )
    return revise(room, frame_height_mm=tidy_mm(height_mm) if height_mm > room.clad_height_mm else None)


def set_frame(room: Room, wall: int, frame: Frame) -> Room:
    """The room with another frame behind one wall; walls not yet described keep a frame still to be built."""
    if not 0 <= wall < room.wall_count:
        raise RoomError(tr("wall {wall} does not exist; the room has walls 0 to {last}", wall=wall, last=room.wall_count - 1))
    frames = list(room.frames) or [FrameToBuild() for _ in range(room.wall_count)]
    frames[wall] = frame
    return revise(room, frames=tuple(frames))


def set_kit(room: Room, **values: Any) -> Room:
    """The room with some of its kit's values changed. Raises RoomError where the kit would contradict itself."""
    kit: Kit = revise(room.kit, **values)
    return revise(room, kit=kit)


def set_rates(room: Room, **values: Any) -> Room:
    """The room with some of its crew rates changed. Raises RoomError where one is out of bounds."""
    rates: Rates = revise(room.rates, **values)
    return revise(room, rates=rates)
