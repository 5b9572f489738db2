"""Staying near a set-out: of each row only the walls that have changed are divided anew, between the legs they had."""

from collections.abc import Mapping
from dataclasses import dataclass

import numpy as np

from core.room import Room
from core.setout.bodies import blocks_within
from core.setout.division import Division
from core.setout.problem import Problem
from core.setout.result import Divided, Row
from core.setout.rowview import RowView
from core.setout.tariff import UNREACHABLE, CornerKey, PlainKey, Prices

Place = tuple[int, int]
"""A row's bottom in plates and its courses."""


@dataclass(frozen=True, slots=True)
class Near(Divided):
    """A set-out to stay near: its room, how its rows were divided, from the floor up, and the designs it sets up."""

    room: Room
    divisions: Mapping[Place, Division]
    plain: frozenset[PlainKey]
    corner: frozenset[CornerKey]

    def __reduce__(self) -> tuple[type[None], tuple[()]]:
        """Nothing goes along to another process: what rows were divided by is no part of what a set-out says."""
        return type(None), ()

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

    A leg gives way to whichever is cheapest now where its corner's panel is cut otherwise, or where nothing fits beside it.
    ``lines`` are the joints, by wall, that new ones should stand in line with. None where there is no way to fill a wall.
    """
    joints = list(old.joints)
    changed = [wall for wall in range(len(joints)) if _has_changed(old.view, view, wall)]
    for wall in changed:
        joints[wall] = _between_old_legs(old.view, view, joints, wall, lines[wall], prices) or _with_other_legs(
            old.view, view, joints, wall, lines[wall], prices
        )
        if not joints[wall]:
            return None
    same = {n: old.walls[n] for n in range(len(joints)) if n not in changed and view.problem.before(n) not in changed}
    return Division(view, tuple(joints), same)


def _has_changed(old: RowView, view: RowView, wall: int) -> bool:
    """Whether a wall of a row is to be divided anew.

    Where only timber has moved because it goes round an opening, the joints of rows that the opening does not touch stay: they
    fit as before, and a person who moves a window does not expect the rows above it to follow.
    """
    was, now = old.on_wall(wall), view.on_wall(wall)
    if was.key == now.key:
        return False
    same_frame = old.problem.room.frame(wall) == view.problem.room.frame(wall)
    return not same_frame or was._replace(backing=now.backing).key != now.key


def _between_old_legs(
    old: RowView, view: RowView, joints: list[tuple[int, ...]], wall: int, lines: frozenset[int], prices: Prices
) -> tuple[int, ...]:
    """The joints of one wall between the legs it had; none where its corners' panels are cut otherwise now, or nothing fits."""
    for corner in (wall, view.problem.after(wall)):
        before = view.problem.before(corner)
        leg = view.problem.pitches(before) - joints[before][-1]
        width = leg + joints[corner][0]
        if blocks_within(old.corner_blocks(corner), -leg, width) != blocks_within(view.corner_blocks(corner), -leg, width):
            return ()
    return view.in_line(wall, (joints[wall][0], joints[wall][-1]), lines, prices)


def _with_other_legs(
    old: RowView, view: RowView, joints: list[tuple[int, ...]], wall: int, lines: frozenset[int], prices: Prices
) -> tuple[int, ...]:
    """The joints of one wall with its cheapest legs at the ends where anything has changed, the legs beyond its corners as they
    are; none where nothing fits."""
    problem, workshop = view.problem, view.workshop
    before, after = problem.before(wall), problem.after(wall)
    open_ends = tuple(old.corner_blocks(corner) != view.corner_blocks(corner) for corner in (wall, after))
    beyond = problem.pitches(before) - joints[before][-1], joints[after][0]
    ends = joints[wall][0], joints[wall][-1]
    corners = view.at_corner(wall).key, view.at_corner(after).key
    key = "other legs", view.on_wall(wall).key, corners, beyond, ends, open_ends, lines, prices

    def find() -> tuple[int, ...]:
        legs = problem.left_legs(wall), problem.right_legs(wall)
        starts = legs[0] if open_ends[0] else np.array(ends[:1])
        rights = legs[1] if open_ends[1] else np.array([problem.pitches(wall) - ends[1]])
        paths = view.paths_in_line(wall, starts, lines, prices)
        costs = paths.ends(0, rights)
        if open_ends[0] and len(starts) > 1:
            costs = costs + view.corner(wall, prices).costs[beyond[0] - starts[0]][:, None]
        if open_ends[1] and len(rights) > 1:
            costs = costs + view.corner(after, prices).costs[:, beyond[1] - rights[0]]
        start, right = np.unravel_index(int(costs.argmin()), costs.shape)
        is_filled = costs[start, right] < UNREACHABLE
        return tuple(paths.joints(0, int(start), int(rights[right]))) if is_filled else ()

    return workshop.walls.get(key, find)
