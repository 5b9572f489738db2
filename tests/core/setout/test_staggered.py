"""Staggered joints: rows that lie on each other keep theirs apart."""

from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given, settings

from core.files import load_room
from core.progress import Progress
from core.room import Room
from core.setout import sketch, solve
from core.setout.result import SetOut
from tests.generate import TINY_KIT, rooms
from tests.reference.audit import audit


@pytest.fixture
def demo(demo_room_path: Path) -> Room:
    return load_room(demo_room_path).model_copy(update={"progress": Progress()})


def staggered(room: Room) -> SetOut:
    return solve(room.model_copy(update={"joints": "staggered"}))


def seen_joints(setout: SetOut, wall: int, row: int) -> set[int]:
    """Pitch lines where two panels of a row meet on a wall with no opening between them."""
    faces = [f for p in setout.panels if p.row == row for f in p.faces if f.wall == wall]
    return {f.left for f in faces} & {f.right for f in faces}


def test_the_joints_of_the_demo_room_keep_a_quarter_panel_apart(demo: Room) -> None:
    setout = staggered(demo)
    for below, above in pairwise(setout.rows):
        for wall in range(4):
            lower, upper = (seen_joints(setout, wall, row.index) for row in (below, above))
            assert min(abs(a - b) for a in lower for b in upper) >= 10


def test_in_line_is_the_default_and_puts_joints_over_joints(demo: Room) -> None:
    setout = sketch(demo)
    assert seen_joints(setout, 2, 0) == seen_joints(setout, 2, 1)


def test_staggering_never_costs_less_than_the_bound(demo: Room) -> None:
    setout = staggered(demo)
    assert setout.minutes.total >= setout.minutes.bound == solve(demo).minutes.bound


@settings(max_examples=15, derandomize=True, deadline=None)
@given(rooms(kit=TINY_KIT, most_pitches=40))
def test_a_staggered_room_passes_the_audit(room: Room) -> None:
    assert audit(staggered(room)) == []
