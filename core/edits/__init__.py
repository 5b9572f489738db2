"""Edits: every way a person changes a room. Each takes a room, returns a new one, and refuses with RoomError."""

from core.edits.openings import (
    DEFAULT_SIZES,
    OpeningSize,
    add_opening,
    clamp_left_mm,
    free_left_mm,
    move_opening,
    remove_opening,
    rename_opening,
    resize_opening,
)
from core.edits.pins import add_pins, pins_for, remove_pins, rows_pin
from core.edits.plan import insert_corner, move_corner, rectangle, remove_corner, set_wall_length, step_wall
from core.edits.settings import set_clad_height, set_frame, set_frame_height, set_joints, set_kit, set_name, set_rates, set_units

__all__ = [
    "DEFAULT_SIZES",
    "OpeningSize",
    "add_opening",
    "add_pins",
    "clamp_left_mm",
    "free_left_mm",
    "insert_corner",
    "move_corner",
    "move_opening",
    "pins_for",
    "rectangle",
    "remove_corner",
    "remove_opening",
    "remove_pins",
    "rename_opening",
    "resize_opening",
    "rows_pin",
    "set_clad_height",
    "set_frame",
    "set_frame_height",
    "set_joints",
    "set_kit",
    "set_name",
    "set_rates",
    "set_units",
    "set_wall_length",
    "step_wall",
]
