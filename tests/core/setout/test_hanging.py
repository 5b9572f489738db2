"""What hangs stays: a set-out leaves hung panels in their places and says which must come down."""

from pathlib import Path

import pytest

from core import edits
from core.edits.progress import mark_panels
from core.files import load_room
from core.kit import Kit
from core.room import Room
from core.setout import sketch, solve
from core.setout.bodies import BuiltTo
from core.setout.naming import bears, names_of, plain_key
from core.setout.result import Panel, SetOut
from tests.core.setout.rooms import around_corner, flat
from tests.reference.audit import audit


@pytest.fixture
def demo(demo_room_path: Path) -> Room:
    room = load_room(demo_room_path)
    return room.model_copy(update={"progress": type(room.progress)()})


def place(panel: Panel) -> tuple[object, ...]:
    return (panel.design, *((face.wall, face.outline, face.holes) for face in panel.faces))


def hung(setout: SetOut, marks: list[str]) -> Room:
    return mark_panels(setout, marks, "hung", {})


def must_come_down(setout: SetOut) -> list[str]:
    return [check.text for check in setout.checks if check.code == "hung-comes-down"]


def test_hung_panels_stay_whatever_moves_beside_them(demo: Room) -> None:
    before = solve(demo)
    first_rows = [panel for panel in before.panels if panel.row < 2]
    room = hung(before, [panel.mark for panel in first_rows])
    after = solve(edits.move_opening(room, "window", left_mm=1500.0, sill_mm=1000.0))
    assert {place(panel) for panel in first_rows} <= {place(panel) for panel in after.panels}
    assert must_come_down(after) == []
    assert audit(after) == []


def test_a_sketch_leaves_them_hanging_too(demo: Room) -> None:
    before = solve(demo)
    wall = [panel for panel in before.panels if {face.wall for face in panel.faces} == {2} and panel.row == 3]
    room = hung(before, [panel.mark for panel in wall])
    after = sketch(edits.move_opening(room, "outlet-1", left_mm=900.0))
    assert {place(panel) for panel in wall} <= {place(panel) for panel in after.panels}


def test_panels_that_an_opening_now_cuts_must_come_down(demo: Room) -> None:
    before = solve(demo)
    on_wall_b = [panel.mark for panel in before.panels if {face.wall for face in panel.faces} == {1}]
    after = solve(edits.move_opening(hung(before, on_wall_b), "window", left_mm=400.0))
    (text,) = must_come_down(after)
    assert "must come down" in text
    assert audit(after) == []


def test_the_stack_keeps_the_rows_in_which_something_hangs(demo: Room) -> None:
    before = solve(demo)
    top = before.rows[-1].index
    room = hung(before, [panel.mark for panel in before.panels if panel.row in (0, top)])
    after = solve(edits.move_opening(room, "window", sill_mm=700.0))
    assert (after.rows[0].z_plates, after.rows[0].courses) == (before.rows[0].z_plates, before.rows[0].courses)
    assert after.rows[-1].z_plates == before.rows[-1].z_plates


def test_no_stack_is_tried_that_lies_across_what_hangs(demo: Room) -> None:
    """A niche high up makes another stack cheaper; what hangs in the lowest row stays all the same."""
    before = solve(demo)
    lowest = [panel.mark for panel in before.panels if panel.row == 0 and {face.wall for face in panel.faces} == {2}]
    after = solve(edits.add_opening(hung(before, lowest), "niche", 2, 700.0))
    assert must_come_down(after) == []
    assert after.rows[0].courses == before.rows[0].courses


def test_nothing_hung_changes_nothing(demo: Room) -> None:
    before = solve(demo)
    room = hung(before, [panel.mark for panel in before.panels])
    after = solve(room)
    assert {place(panel) for panel in after.panels} == {place(panel) for panel in before.panels}


@pytest.mark.parametrize("share", [1, 3, 10])
def test_marking_panels_never_changes_the_plan_they_were_built_by(demo: Room, share: int) -> None:
    before = solve(demo)
    marks = [panel.mark for panel in before.panels][::share]
    for state in ("built", "checked", "hung"):
        room = mark_panels(before, marks, state, {})
        assert solve(room).panels == before.panels


@pytest.mark.parametrize("courses", [31, 15, 12])
def test_names_of_closers_and_corners_tell_the_design(courses: int) -> None:
    (closer,) = flat(20, courses=courses)
    (corner,) = around_corner(12, 30, courses=courses)
    for design in (closer.built_to, corner.built_to):
        assert plain_key(named(design)) == design.key
        assert bears(design, named(design))


def named(design: BuiltTo) -> str:
    return names_of([design], Kit()).by_design[design]
