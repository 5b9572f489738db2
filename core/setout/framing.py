"""A frame still to be built, designed so that every panel joint finds a stud."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property
from math import ceil

import numpy as np

from core.room import Room
from core.setout.result import Timber
from core.setout.timber import Backing, Millimetres, opening_timber, plates, upright_studs

BLOCKING = "blocking"
MOST_LIFT_MM = 12.0
"""A strip under the sole plate may be this thick; where more were needed the points there get blocking instead."""


@dataclass(frozen=True)
class FrameDesign:
    """A wall's timber and what is done where none of it lies behind a mounting point: ``otherwise``, None for nothing."""

    members: tuple[Timber, ...]
    edge_mm: float
    otherwise: str | None

    @cached_property
    def _backing(self) -> Backing:
        return Backing(self.members, self.edge_mm)

    def lands_on(self, x_mm: float, z_mm: float) -> str | None:
        """The member behind a point."""
        return self.behind(np.array([x_mm]), np.array([z_mm]))[0]

    def behind(self, xs_mm: Millimetres, zs_mm: Millimetres) -> tuple[str | None, ...]:
        """The members behind many points at once."""
        found = self._backing.behind(xs_mm, zs_mm)
        return tuple(member or self.otherwise for member in found) if None in found else found


def design_frame(room: Room, wall: int, joints_by_row: Sequence[Sequence[float]]) -> FrameDesign:
    """A stud centred on every panel joint and leg end that leaves room for it, joints of most rows first.

    Joints nearer to a stud than its width get blocking cut in at the mounting points instead. ``joints_by_row`` are
    wall-local millimetres.
    """
    stud = room.frame(wall).stud_mm
    length = room.wall_length_mm(wall)
    lift = sole_lift_mm(room, stud)
    around = opening_timber(room, wall, stud, lift_mm=lift)
    centres = [stud / 2, length - stud / 2]
    ranked = Counter(joint for joints in joints_by_row for joint in joints)
    for joint, _ in sorted(ranked.items(), key=lambda item: (-item[1], item[0])):
        if all(abs(joint - centre) >= stud for centre in centres):
            centres.append(joint)
    studs = upright_studs(room, wall, sorted(centres), stud, clear_of=around, lift_mm=lift)
    members = (*plates(room, wall, stud, lift_mm=lift), *studs, *around)
    return FrameDesign(members, room.kit.mounts.edge_mm, BLOCKING)


def sole_lift_mm(room: Room, stud_mm: float) -> float:
    """How far the sole plate of a frame to build is packed off the floor so that the lowest screws of the kit land in it.

    Whole half millimetres; 0 where they land anyway, where they stand above the plate, or where more than MOST_LIFT_MM would
    be needed.
    """
    kit = room.kit
    lowest = (kit.mounts.course - 0.5) * kit.plates_per_course * kit.plate_mm
    needed = ceil((lowest + kit.mounts.edge_mm - stud_mm) * 2 - 1e-6) / 2
    return needed if 0 < needed <= MOST_LIFT_MM and lowest - kit.mounts.edge_mm >= needed else 0.0
