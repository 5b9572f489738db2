"""What is pinned stays; what cannot be kept is said and left out."""

from pathlib import Path

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.edits import add_pins, pins_for, remove_pins, rows_pin
from core.files import load_room
from core.pins import JointPin, LegPin, PanelPin, Pin, RowsPin
from core.progress import Progress
from core.room import Room
from core.setout import solve
from core.setout.result import SetOut
from tests.generate import TINY_KIT, rooms
from tests.reference.audit import audit

law = settings(max_examples=20, derandomize=True, deadline=None)


@pytest.fixture
def demo(demo_room_path: Path) -> Room:
    return load_room(demo_room_path).model_copy(update={"progress": Progress()})


def pinned(room: Room, *pins: Pin) -> SetOut:
    return solve(room.model_copy(update={"pins": pins}))


def refusals(setout: SetOut) -> list[str]:
    return [check.text for check in setout.checks if check.code == "pin-refused"]


def joints(setout: SetOut, wall: int, row: int) -> set[int]:
    """Pitch lines of all panel edges of a row on one wall."""
    faces = [face for panel in setout.panels if panel.row == row for face in panel.faces if face.wall == wall]
    return {edge for face in faces for edge in (face.left, face.right)}


def test_a_pinned_joint_stands_in_every_row_without_an_opening_there(demo: Room) -> None:
    setout = pinned(demo, JointPin(kind="joint", wall=2, x_mm=604.0))
    assert refusals(setout) == []
    assert all(75 in joints(setout, 2, row.index) for row in setout.rows)


def test_a_joint_pinned_at_a_height_stands_in_that_row_only(demo: Room) -> None:
    setout = pinned(demo, JointPin(kind="joint", wall=2, x_mm=604.0, z_mm=400.0))
    assert [75 in joints(setout, 2, row.index) for row in setout.rows].count(True) == 1


def test_a_pinned_panel_is_there_undivided(demo: Room) -> None:
    setout = pinned(demo, PanelPin(kind="panel", wall=2, left_mm=604.0, width_pitches=30, z_mm=10.0))
    assert any(f.wall == 2 and (f.left, f.right) == (75, 105) for p in setout.panels if p.row == 0 for f in p.faces)


def test_a_pinned_leg_is_kept_in_every_row(demo: Room) -> None:
    setout = pinned(demo, LegPin(kind="leg", wall=2, end="left", pitches=25))
    legs = {p.faces[1].right for p in setout.panels if p.kind == "corner" and p.faces[1].wall == 2}
    assert legs == {25}


def test_pinned_rows_are_the_stack(demo: Room) -> None:
    setout = pinned(demo, RowsPin(kind="rows", courses=(31, 15, 31, 31, 31, 31, 31)))
    assert [row.courses for row in setout.rows] == [31, 15, 31, 31, 31, 31, 31]


@pytest.mark.parametrize(
    ("pins", "words"),
    [
        ([JointPin(kind="joint", wall=0, x_mm=500.0), JointPin(kind="joint", wall=0, x_mm=540.0)], "cannot be kept beside"),
        ([JointPin(kind="joint", wall=0, x_mm=20.0)], "the wall's own ends"),
        ([JointPin(kind="joint", wall=9, x_mm=500.0)], "no such wall"),
        ([JointPin(kind="joint", wall=0, x_mm=9_000.0)], "outside the lining"),
        ([PanelPin(kind="panel", wall=0, left_mm=500.0, width_pitches=60)], "8 to 38 pitches wide"),
        ([LegPin(kind="leg", wall=0, end="left", pitches=3)], "8 to 38 pitches"),
        (
            [LegPin(kind="leg", wall=0, end="left", pitches=20), LegPin(kind="leg", wall=0, end="left", pitches=21)],
            "cannot be kept beside",
        ),
        ([RowsPin(kind="rows", courses=(31, 31))], "608.0 mm"),
    ],
)
def test_what_cannot_be_kept_is_said_and_left_out(demo: Room, pins: list[Pin], words: str) -> None:
    setout = pinned(demo, *pins)
    (text,) = refusals(setout)
    assert words in text
    assert setout.tally.panels > 0


def test_the_optimum_pinned_stays_the_optimum(demo: Room) -> None:
    free = solve(demo)
    pins = [RowsPin(kind="rows", courses=tuple(row.courses for row in free.rows))]
    pins += [
        JointPin(kind="joint", wall=0, x_mm=4.0 + 8.0 * x, z_mm=row.z_plates * 3.2 + 1.0)
        for row in free.rows
        for x in sorted(joints(free, 0, row.index) - {0, 380})
        if x <= 75 or x >= 130
    ]
    assert pinned(demo, *pins).minutes.total == free.minutes.total


@law
@given(rooms(kit=TINY_KIT, most_pitches=40, standing=True), st.integers(0, 400), st.integers(0, 400))
@pytest.mark.slow
def test_a_room_with_pins_passes_the_audit_and_costs_no_less(room: Room, x_mm: int, left_mm: int) -> None:
    pins = (
        JointPin(kind="joint", wall=0, x_mm=float(x_mm)),
        PanelPin(kind="panel", wall=1, left_mm=float(left_mm), width_pitches=5, z_mm=1.0),
    )
    setout = pinned(room, *pins)
    assert audit(setout) == []
    assert setout.minutes.bound >= solve(room).minutes.bound - 1e-6


@pytest.mark.parametrize("place", [0, 3, 40, 100, 200])
def test_a_panel_pinned_as_it_stands_stays(demo: Room, place: int) -> None:
    free = solve(demo)
    panel = free.panels[place]
    held = solve(add_pins(demo, pins_for(free, panel)))
    assert refusals(held) == []
    assert [face.outline for face in panel.faces] in [[face.outline for face in other.faces] for other in held.panels]


def test_rows_pinned_as_they_stand_change_nothing(demo: Room) -> None:
    free = solve(demo)
    assert solve(add_pins(demo, [rows_pin(free)])).panels == free.panels


def test_what_is_unpinned_is_free_again(demo: Room) -> None:
    pins = pins_for(solve(demo), solve(demo).panels[7])
    assert remove_pins(add_pins(demo, pins), pins) == demo
