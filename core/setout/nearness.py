"""Staying near a set-out: of each row only the walls that have changed are divided anew, between the legs they had."""

from collections.abc import Mapping
from dataclasses import dataclass

from core.room import Room
from core.setout.division import Division, RowView
from core.setout.problem import Problem
from core.setout.result import Row
from core.setout.tariff import CornerKey, PlainKey, Prices

Place = tuple[int, int]
"""A row's bottom in plates and its courses."""


@dataclass(frozen=True, slots=True)
class Near:
    """A set-out to stay near: its room, how its rows were divided, from the floor up, and the designs it sets up."""

    room: Room
    divisions: Mapping[Place, Division]
    plain: frozenset[PlainKey]
    corner: frozenset[CornerKey]

    @property
    def courses(self) -> tuple[int, ...]:
        """The courses of its rows from the floor up."""
        return tuple(courses for _, courses in self.divisions)

    @property
    def heeds_built(self) -> bool:
        """Whether what the crew has built bore on it."""
        return bool(self.room.progress.panels)

    def division(self, problem: Problem, row: Row) -> Division | None:
        """How the row was divided, if it stood where it stands now and the walls are as long as they were."""
        was = self.divisions.get((row.z_plates, row.courses))
        return was if was is not None and was.view.problem.key == problem.key else None

    def serves(self, room: Room) -> bool:
        """Whether a room is divided by the same rules, so that rows can be kept."""
        mine = self.room
        return (room.joints, room.kit, room.rates) == (mine.joints, mine.kit, mine.rates)


def nearness(room: Room, divisions: tuple[Division, ...]) -> Near:
    """What can be kept of a room's divided rows, given from the floor up."""
    keys = {design.key for division in divisions for design in division.designs}
    return Near(
        room,
        {(division.view.row.z_plates, division.view.row.courses): division for division in divisions},
        frozenset(key for key in keys if isinstance(key, tuple) and len(key) == 2),
        frozenset(key for key in keys if isinstance(key, tuple) and len(key) == 4),
    )


def divided_near(view: RowView, old: Division, lines: tuple[frozenset[int], ...], prices: Prices) -> Division | None:
    """A row divided as it was, but for the walls where something has changed: those anew between the legs they had.

    ``lines`` are the joints, by wall, that new ones should stand in line with. None where the legs themselves are touched, or
    leave no way to fill a wall.
    """
    was = old.view
    joints = list(old.joints)
    for wall in range(len(joints)):
        if was.on_wall(wall).key == view.on_wall(wall).key:
            continue
        following = (wall + 1) % len(joints)
        if any(was.corner_blocks(at) != view.corner_blocks(at) for at in (wall, following)):
            return None
        joints[wall] = view.in_line(wall, (joints[wall][0], joints[wall][-1]), lines[wall], prices)
        if not joints[wall]:
            return None
    return Division(view, tuple(joints))
