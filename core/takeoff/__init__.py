"""Counting materials from the set-out."""

from core.takeoff.material import GROUPS, SCREW, Count, Group, Material, group_of, in_order, packer, shown_name, times
from core.takeoff.ring import Ring, RingPlate, starter_ring
from core.takeoff.takeoff import DesignParts, TakeOff, parts_of, take_off, with_timber

__all__ = [
    "GROUPS",
    "SCREW",
    "Count",
    "DesignParts",
    "Group",
    "Material",
    "Ring",
    "RingPlate",
    "TakeOff",
    "group_of",
    "in_order",
    "packer",
    "parts_of",
    "shown_name",
    "starter_ring",
    "take_off",
    "times",
    "with_timber",
]
