"""Symmetry where it costs nothing."""

from itertools import pairwise

import pytest

import core.setout.thorough
from core.pins import JointPin
from core.room import Room
from core.setout import solve
from core.setout.balance import balanced
from core.setout.layers import Block
from core.setout.plan import Plan
from core.setout.sharing import designs_of
from core.setout.shell import shell_of
from tests.generate import SMALL_KIT, seeded_room
from tests.reference.audit import audit


def before_and_after(room: Room, monkeypatch: pytest.MonkeyPatch) -> tuple[Plan, Plan]:
    """A room's plan without the last step and with it."""
    seen: list[Plan] = []

    def watched(plan: Plan) -> Plan:
        seen.extend((plan, balanced(plan)))
        return seen[-1]

    monkeypatch.setattr(core.setout.thorough, "balanced", watched)
    solve(room)
    return seen[0], seen[1]


def lines(plan: Plan, wall: int) -> set[int]:
    return {x for division in plan.divisions for x in division.joints[wall]}


@pytest.mark.parametrize("seed", range(24))
def test_symmetry_costs_nothing_and_takes_no_joint_out_of_line(seed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    room = seeded_room(seed, kit=SMALL_KIT, most_pitches=60, most_rows=3, standing=seed % 3 == 0)
    before, after = before_and_after(room, monkeypatch)
    assert after.units <= before.units
    assert len(designs_of(after.divisions)) <= len(designs_of(before.divisions))
    assert all(len(lines(after, wall)) <= len(lines(before, wall)) for wall in range(room.wall_count))
    assert audit(solve(room)) == []


def test_some_of_these_rooms_become_more_symmetrical(monkeypatch: pytest.MonkeyPatch) -> None:
    """Else the law above would hold of a step that does nothing."""
    changed = 0
    for seed in range(24):
        room = seeded_room(seed, kit=SMALL_KIT, most_pitches=60, most_rows=3, standing=seed % 3 == 0)
        before, after = before_and_after(room, monkeypatch)
        changed += any(was.joints != now.joints for was, now in zip(before.divisions, after.divisions, strict=True))
    assert changed


def test_walls_with_pins_stay_as_they_are(monkeypatch: pytest.MonkeyPatch) -> None:
    changed = 0
    for seed in range(24):
        room = seeded_room(seed, kit=SMALL_KIT, most_pitches=60, most_rows=3, standing=seed % 3 == 0)
        free, moved = before_and_after(room, monkeypatch)
        walls = [w for w in range(room.wall_count) if free.divisions and lines(free, w) != lines(moved, w)]
        if not walls:
            continue
        wall, at = walls[0], sorted(lines(free, walls[0]) - lines(moved, walls[0]))[0]
        x_mm = shell_of(room).walls[wall].start_mm + at * room.kit.pitch_mm
        pinned = room.model_copy(update={"pins": (JointPin(kind="joint", wall=wall, x_mm=x_mm),)})
        before, after = before_and_after(pinned, monkeypatch)
        assert all(was.joints[wall] == now.joints[wall] for was, now in zip(before.divisions, after.divisions, strict=True))
        changed += 1
    assert changed


def test_a_room_without_rows_has_nothing_to_balance() -> None:
    empty = Plan((), (), 0, 0)
    assert balanced(empty) is empty


def test_between_a_corner_and_an_opening_narrow_panels_turn_to_the_corner(monkeypatch: pytest.MonkeyPatch) -> None:
    """Of every run that the last step changed, on walls with one opening in the row."""
    turned = 0
    for seed in range(24):
        room = seeded_room(seed, kit=SMALL_KIT, most_pitches=60, most_rows=3, standing=seed % 3 == 0)
        before, after = before_and_after(room, monkeypatch)
        for was, now in zip(before.divisions, after.divisions, strict=True):
            for wall, blocks in enumerate(now.view.blocks):
                if len(blocks) != 1 or was.joints[wall] == now.joints[wall]:
                    continue
                for is_left in (True, False):
                    old, new = (_widths(one.joints[wall], blocks[0], is_left=is_left) for one in (was, now))
                    if old != new:
                        assert sorted(old) == sorted(new)
                        assert new == sorted(new, reverse=not is_left)
                        turned += 1
    assert turned


def _widths(joints: tuple[int, ...], block: Block, *, is_left: bool) -> list[int]:
    """The panels between one end of the wall and its opening, from the left."""
    here = [x for x in joints if (x <= block.left if is_left else x >= block.right)]
    return [b - a for a, b in pairwise(here)]


@pytest.mark.parametrize("seed", range(24))
def test_no_further_design_is_set_up_even_where_that_takes_no_time(seed: int, monkeypatch: pytest.MonkeyPatch) -> None:
    room = seeded_room(seed, kit=SMALL_KIT, most_pitches=60, most_rows=3, standing=seed % 3 == 0)
    free = room.model_copy(update={"rates": room.rates.model_copy(update={"setup": 0.0})})
    before, after = before_and_after(free, monkeypatch)
    assert len(designs_of(after.divisions)) <= len(designs_of(before.divisions))
