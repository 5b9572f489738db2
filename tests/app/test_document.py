"""The document: previews leave no trace, commits can be undone to the identical room, refusals change nothing."""

from collections.abc import Callable

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st
from pytestqt.qtbot import QtBot

from app.assets import asset
from app.document import Document
from core import edits
from core.errors import RoomError
from core.files import load_room
from core.room import Room
from core.setout import solve
from core.setout.result import SetOut

Edit = Callable[[Room], Room]


def door_at(left_mm: float) -> Edit:
    return lambda room: edits.move_opening(room, "door", left_mm=left_mm)


def test_a_preview_is_shown_but_not_recorded(document: Document, qtbot: QtBot) -> None:
    before = document.setout
    with qtbot.waitSignal(document.changed) as emitted:
        assert document.preview_edit(door_at(1000))
    assert emitted.args == [document.setout]
    assert document.room.opening("door").left_mm == 1000
    assert document.gesture_base is before
    assert document.undo_stack.count() == 0
    assert not document.is_dirty


def test_a_gesture_commits_one_step_from_its_beginning(document: Document) -> None:
    before = document.room
    for left_mm in (1050, 1010, 990):
        document.preview_edit(door_at(left_mm))
    document.finish("Move door")
    assert document.gesture_base is None
    assert document.undo_stack.count() == 1
    assert document.undo_stack.undoText() == "Move door"
    document.undo_stack.undo()
    assert document.room is before


def test_a_gesture_back_to_where_it_began_records_nothing(document: Document) -> None:
    before = document.room
    document.preview_edit(door_at(1000))
    document.preview_edit(door_at(before.opening("door").left_mm))
    document.finish("Move door")
    assert document.undo_stack.count() == 0
    assert document.room is before


def test_cancelling_a_gesture_shows_its_beginning_again(document: Document) -> None:
    before = document.setout
    document.preview_edit(door_at(1000))
    document.cancel()
    assert document.setout is before
    assert document.gesture_base is None


def test_a_refused_preview_leaves_the_gesture_where_it_was(document: Document, qtbot: QtBot) -> None:
    document.preview_edit(door_at(1000))
    shown = document.setout
    with qtbot.waitSignal(document.refused) as emitted:
        assert not document.preview_edit(door_at(9000))
    assert "past the end of wall D" in emitted.args[0]
    assert document.setout is shown


def test_a_room_the_solver_refuses_changes_nothing(document: Document, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch) -> None:
    def refuse(_room: Room, **_near: SetOut | None) -> SetOut:
        raise RoomError("no panel fits wall D")

    monkeypatch.setattr("app.document.sketch", refuse)
    before = document.setout
    with qtbot.waitSignal(document.refused), qtbot.assertNotEmitted(document.changed):
        assert not document.preview_edit(door_at(1000))
        assert not document.commit_edit(door_at(1000), "Move door")
    assert document.refusal == "no panel fits wall D"
    assert document.gesture_base is None
    assert document.setout is before
    assert document.undo_stack.count() == 0


def test_undo_shows_the_set_out_it_recorded_without_solving(document: Document) -> None:
    before = document.work_out()
    document.commit_edit(door_at(1000), "Move door")
    after = document.work_out()
    document.undo_stack.undo()
    assert document.setout is before
    document.undo_stack.redo()
    assert document.setout is after


def test_a_pause_is_used_to_work_the_set_out_out_in_full(document: Document, qtbot: QtBot) -> None:
    document.commit_edit(door_at(1000), "Move door")
    assert not document.is_full
    qtbot.waitUntil(lambda: document.is_full)
    assert document.setout == solve(document.room)


def test_a_gesture_is_never_interrupted_by_working_out(document: Document, qtbot: QtBot) -> None:
    document.preview_edit(door_at(1000))
    qtbot.wait(200)
    assert not document.is_full
    document.cancel()
    qtbot.waitUntil(lambda: document.is_full)


def test_what_is_compared_is_either_sketched_or_worked_out_on_both_sides(document: Document) -> None:
    full = document.work_out()
    document.commit_edit(door_at(1000), "Move door")
    assert document.previous is not full
    assert document.previous is not None
    assert document.previous.room == full.room
    document.work_out()
    assert document.previous is full


def test_steps_of_one_nudge_undo_together(document: Document) -> None:
    before = document.room
    document.commit_edit(door_at(1000), "Nudge", "nudge door")
    document.commit_edit(door_at(1001), "Nudge", "nudge door")
    document.commit_edit(door_at(990), "Move door")
    assert document.undo_stack.count() == 2
    document.undo_stack.undo()
    document.undo_stack.undo()
    assert document.room is before


def test_dirty_follows_the_way_from_the_saved_state(document: Document, qtbot: QtBot) -> None:
    with qtbot.waitSignal(document.dirty_changed) as emitted:
        document.commit_edit(door_at(1000), "Move door")
    assert emitted.args == [True]
    document.undo_stack.undo()
    assert not document.is_dirty


def test_selecting_an_opening_makes_its_wall_current(document: Document) -> None:
    document.select("window")
    assert document.wall == 1
    assert document.selected_opening is document.room.opening("window")
    assert document.selected_panel is None


def test_the_selection_goes_with_what_was_selected(document: Document, qtbot: QtBot) -> None:
    document.select("window")
    with qtbot.waitSignal(document.selection_changed) as emitted:
        document.commit_edit(lambda room: edits.remove_opening(room, "window"), "Delete")
    assert emitted.args == [None]


def test_another_room_begins_with_an_empty_history(document: Document) -> None:
    document.commit_edit(door_at(1000), "Move door")
    document.replace(edits.rectangle("Den", width_mm=3000, depth_mm=2500, clad_height_mm=1980), None)
    assert document.undo_stack.count() == 0
    assert not document.is_dirty
    assert document.room.name == "Den"


def change() -> st.SearchStrategy[Edit]:
    """One edit of the demo room, sensible or not."""
    lengths = st.integers(0, 3200).map(float)
    names = st.sampled_from(["door", "window", "outlet-1"])
    moves = st.tuples(names, lengths).map(lambda a: lambda r: edits.move_opening(r, a[0], left_mm=a[1]))
    walls = st.tuples(names, st.integers(0, 5)).map(lambda a: lambda r: edits.move_opening(r, a[0], wall=a[1]))
    sizes = st.tuples(names, lengths).map(lambda a: lambda r: edits.resize_opening(r, a[0], width_mm=a[1]))
    longer = st.tuples(st.integers(0, 3), st.integers(1200, 3600)).map(lambda a: lambda r: edits.set_wall_length(r, a[0], a[1]))
    gone = names.map(lambda name: lambda r: edits.remove_opening(r, name))
    return st.one_of(moves, walls, sizes, longer, gone)


@pytest.mark.usefixtures("qapp")
@settings(max_examples=15)
@given(plan=st.lists(st.tuples(change(), st.booleans()), max_size=6))
def test_undoing_everything_returns_the_identical_room(plan: list[tuple[Edit, bool]]) -> None:
    document = Document(load_room(asset("demo.room.json")))
    begun: SetOut = document.work_out()
    for edit, dragged in plan:
        if dragged:
            document.preview_edit(edit)
            document.finish("Drag")
        else:
            document.commit_edit(edit, "Edit")
    ended = document.room
    steps = document.undo_stack.count()
    for _ in range(steps):
        document.undo_stack.undo()
    assert document.room is begun.room
    assert document.work_out() == begun
    for _ in range(steps):
        document.undo_stack.redo()
    assert document.room == ended


def test_what_no_panel_depends_on_is_changed_without_solving_anew(document: Document) -> None:
    full = document.work_out()
    document.commit_edit(lambda room: edits.set_name(room, "Fern house"), "Rename")
    assert document.is_full
    assert document.setout.panels is full.panels
    assert document.setout == solve(document.room)
