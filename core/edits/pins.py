"""Edits of what a person wants to stay: panels, corner legs and the row stack as set-out found them."""

from collections.abc import Iterable

from core.edits.revise import revise
from core.pins import LegPin, PanelPin, Pin, RowsPin
from core.room import Room
from core.setout.metric import x_mm, z_mm
from core.setout.result import Panel, SetOut


def pins_for(setout: SetOut, panel: Panel) -> tuple[Pin, ...]:
    """What keeps a panel where it is: its width for a flat one, both legs for a corner panel."""
    row = setout.rows[panel.row]
    middle_mm = round(z_mm(setout.room.kit, row.z_plates + row.height_plates / 2), 4)
    walls = {face.wall: face for face in panel.faces}
    if len(walls) == 1:
        (face,) = walls.values()
        left = min(face.left for face in panel.faces)
        width = max(face.right for face in panel.faces) - left
        return (
            PanelPin(kind="panel", wall=face.wall, left_mm=x_mm(setout, face.wall, left), width_pitches=width, z_mm=middle_mm),
        )
    before, here = panel.faces[0].wall, panel.faces[-1].wall
    left_leg = setout.walls[before].pitches - min(f.left for f in panel.faces if f.wall == before)
    right_leg = max(f.right for f in panel.faces if f.wall == here)
    return (
        LegPin(kind="leg", wall=before, end="right", pitches=left_leg, z_mm=middle_mm),
        LegPin(kind="leg", wall=here, end="left", pitches=right_leg, z_mm=middle_mm),
    )


def rows_pin(setout: SetOut) -> RowsPin:
    """What keeps the row stack as it is."""
    return RowsPin(kind="rows", courses=tuple(row.courses for row in setout.rows))


def add_pins(room: Room, pins: Iterable[Pin]) -> Room:
    """The room with more pinned; what is pinned already stays once. A pinned row stack takes the place of another."""
    added = tuple(pins)
    kept = tuple(p for p in room.pins if p.kind != "rows" or all(new.kind != "rows" for new in added))
    return revise(room, pins=tuple(dict.fromkeys((*kept, *added))))


def remove_pins(room: Room, pins: Iterable[Pin]) -> Room:
    """The room without these pins."""
    gone = set(pins)
    return revise(room, pins=tuple(pin for pin in room.pins if pin not in gone))
