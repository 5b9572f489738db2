"""Progress: recorded by place and design, kept through every change of plan."""

import json

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from core.crew.standing import place_of, standing
from core.crew.wrong import uses_of
from core.edits import move_opening, remove_opening, step_wall
from core.edits.progress import drop_wrong, mark_orphan, mark_panels, move_panel, record_wrong, step_panels, use_wrong
from core.errors import RoomError, RoomFileError
from core.files import parse_room, room_text
from core.progress import STATES, WrongPanel
from core.setout import solve
from core.setout.result import SetOut
from tests.core.crew.small import small_room
from tests.core.takeoff.guessed import guessed_parts
from tests.generate import SMALL_KIT, rooms


def marked(setout: SetOut, marks: list[str], state: str) -> SetOut:
    return solve(mark_panels(setout, marks, state, guessed_parts(setout)))  # type: ignore[arg-type]


def shaped_marks(setout: SetOut) -> list[str]:
    return [panel.mark for panel in setout.panels if panel.kind == "shaped"]


@settings(max_examples=12)
@given(room=rooms(kit=SMALL_KIT))
@pytest.mark.slow
def test_no_two_panels_share_a_place_and_design(room: object) -> None:
    panels = solve(room).panels  # type: ignore[arg-type]
    assert len({place_of(panel) for panel in panels}) == len(panels)


def test_states_come_back_from_the_file() -> None:
    setout = marked(solve(small_room()), ["A-1-01", "A-1-02"], "built")
    setout = solve(mark_panels(setout, ["A-1-02"], "hung", guessed_parts(setout), on="2027-06-01", by="one"))
    again = solve(parse_room(room_text(setout.room).encode()))
    assert again.room == setout.room
    states = standing(again).by_mark
    assert (states["A-1-01"], states["A-1-02"], states["A-1-03"]) == ("built", "hung", "to build")


def test_a_panel_without_a_place_is_listed_and_not_lost() -> None:
    setout = solve(small_room())
    marks = shaped_marks(setout)
    assert marks
    built = marked(setout, marks, "built")
    moved = solve(remove_opening(built.room, "window"))
    orphans = standing(moved).orphans
    assert len(orphans) == len(marks)
    assert {orphan.record.state for orphan in orphans} == {"built"}
    back = solve(setout.room.model_copy(update={"progress": moved.room.progress}))
    assert standing(back).orphans == ()
    assert [standing(back).by_mark[mark] for mark in marks] == ["built"] * len(marks)


def test_an_orphan_that_fits_elsewhere_is_given_one_place_of_its_design() -> None:
    setout = marked(solve(small_room()), [p.mark for p in solve(small_room()).panels if p.design == "full"][:3], "built")
    window = {
        "id": "window-2",
        "kind": "window",
        "wall": 0,
        "left_mm": 130.0,
        "sill_mm": 0.0,
        "width_mm": 160.0,
        "height_mm": 50.0,
    }
    openings = [opening.model_dump() for opening in setout.room.openings] + [window]
    room = parse_room(json.dumps({**json.loads(room_text(setout.room)), "openings": openings}).encode())
    after = solve(room)
    lost = [orphan for orphan in standing(after).orphans if orphan.fits]
    assert lost
    suggestions = [orphan.suggestion for orphan in lost if orphan.suggestion]
    assert len(set(suggestions)) == len(suggestions)
    orphan = lost[0]
    assert orphan.suggestion is not None
    moved = solve(move_panel(after, orphan.record.place, orphan.suggestion))
    assert standing(moved).by_mark[orphan.suggestion] == "built"
    assert len(standing(moved).orphans) == len(standing(after).orphans) - 1


def test_a_hung_orphan_can_be_taken_down_and_apart() -> None:
    setout = solve(small_room())
    mark = shaped_marks(setout)[0]
    after = solve(remove_opening(marked(setout, [mark], "hung").room, "window"))
    place = standing(after).orphans[0].record.place
    down = solve(mark_orphan(after, place, "taken out"))
    assert standing(down).orphans[0].record.state == "taken out"
    assert standing(solve(mark_orphan(down, place, "to build"))).orphans == ()


def test_refusals_say_what_can_be_done() -> None:
    setout = solve(small_room())
    parts = guessed_parts(setout)
    with pytest.raises(RoomError, match="A-9-99 does not exist"):
        mark_panels(setout, ["A-9-99"], "built", parts)
    with pytest.raises(RoomError, match="is to build, so it cannot be taken out"):
        mark_panels(setout, ["A-1-01"], "taken out", parts)
    with pytest.raises(RoomError, match="should be a date like"):
        mark_panels(setout, ["A-1-01"], "built", parts, on="2027-6-1")
    built = marked(setout, ["A-1-01"], "built")
    with pytest.raises(RoomError, match="is of design"):
        move_panel(built, standing_place(built, "A-1-01"), "B-1-02")


def standing_place(setout: SetOut, mark: str) -> tuple[int, int, int, str]:
    return next(place_of(panel) for panel in setout.panels if panel.mark == mark)


def test_a_place_recorded_twice_is_refused_when_the_file_is_read() -> None:
    record = {"wall": 0, "bottom_plates": 0, "left_pitches": 0, "design": "full", "steps": [{"state": "built"}]}
    document = json.loads(room_text(small_room())) | {"progress": {"panels": [record, record]}}
    with pytest.raises(RoomFileError, match=r"panels\.1: this place and design is recorded twice"):
        parse_room(json.dumps(document).encode())


@settings(max_examples=8)
@given(seed=st.lists(st.tuples(st.integers(0, 5), st.integers(20, 400)), max_size=8))
@pytest.mark.slow
def test_moving_a_window_about_never_loses_a_record(seed: list[tuple[int, int]]) -> None:
    setout = solve(small_room())
    for number, left in seed:
        try:
            setout = marked(setout, [panel.mark for panel in setout.panels[number::7]], STATES[number % 4])
        except RoomError:
            continue
        before = setout.room.progress
        setout = solve(move_opening(setout.room, "window", left_mm=float(left)))
        assert setout.room.progress == before
        now = standing(setout)
        made = sum(record.is_made for record in before.panels)
        assert sum(state != "to build" for state in now.by_mark.values()) + len(now.orphans) == made


def test_a_panel_built_too_high_serves_where_a_lower_one_of_its_width_hangs() -> None:
    setout = solve(small_room())
    wrong = WrongPanel(meant_for="half-height", widths_pitches=(16,), courses=SMALL_KIT.full_courses)
    uses = uses_of(setout, wrong)
    assert (uses[0].design, uses[0].courses_off) == ("full", 0)
    off = {use.design: use.courses_off for use in uses}
    assert off["half-height"] == SMALL_KIT.full_courses - SMALL_KIT.half_courses
    assert uses_of(setout, wrong.model_copy(update={"widths_pitches": (15, 3)})) == ()


def test_a_wrong_panel_used_elsewhere_is_built_there_and_gone_from_the_list() -> None:
    setout = solve(record_wrong(small_room(), WrongPanel(meant_for="half-width", widths_pitches=(16,), courses=14)))
    mark = uses_of(setout, setout.room.progress.wrong[0])[0].marks[0]
    after = solve(use_wrong(setout, 0, mark, guessed_parts(setout)))
    assert standing(after).by_mark[mark] == "checked"
    assert after.room.progress.wrong == ()
    with pytest.raises(RoomError, match="does not exist"):
        drop_wrong(after.room, 0)


def test_a_record_says_which_row_a_panel_stands_in_and_what_it_takes_up_of_each_wall() -> None:
    setout = solve(small_room())
    corner = next(panel for panel in setout.panels if panel.kind == "corner" and panel.row == 1)
    record = marked(setout, [corner.mark], "hung").room.progress.panels[0]
    assert (record.row_bottom_plates, record.row_courses) == (setout.rows[1].z_plates, setout.rows[1].courses)
    assert [(s.wall, s.left_pitches, s.right_pitches) for s in record.spans] == [(f.wall, f.left, f.right) for f in corner.faces]


def test_a_record_from_before_rows_were_kept_gets_them_with_its_next_step() -> None:
    setout = marked(solve(small_room()), ["A-1-02"], "built")
    record = setout.room.progress.panels[0]
    bare = record.model_copy(update={"row_bottom_plates": None, "row_courses": None, "spans": ()})
    old = solve(setout.room.model_copy(update={"progress": setout.room.progress.model_copy(update={"panels": (bare,)})}))
    hung = marked(old, ["A-1-02"], "hung").room.progress.panels[0]
    assert hung.spans == record.spans
    assert hung.row_courses == record.row_courses


def test_a_span_that_ends_where_it_begins_is_refused() -> None:
    span = {"wall": 0, "left_pitches": 4, "right_pitches": 4}
    record = {"wall": 0, "bottom_plates": 0, "left_pitches": 0, "design": "full", "steps": [{"state": "hung"}], "spans": [span]}
    document = json.loads(room_text(small_room())) | {"progress": {"panels": [record]}}
    with pytest.raises(RoomFileError, match="should end right of where it begins"):
        parse_room(json.dumps(document).encode())


def test_spans_follow_their_walls_when_a_step_gives_them_other_numbers() -> None:
    setout = solve(small_room())
    marks = [panel.mark for panel in setout.panels if panel.faces[0].wall > 0]
    before = marked(setout, marks, "built").room.progress.panels
    after = step_wall(marked(setout, marks, "built").room, 0, 500.0, 80.0)
    flat = [(was, now) for was, now in zip(before, after.progress.panels, strict=True) if len(was.spans) == 1]
    assert flat
    for was, now in flat:
        assert now.spans[0].wall == now.wall == was.wall + 2
        assert now.spans[0].left_pitches == was.spans[0].left_pitches


def test_panels_step_forward_each_from_its_own_state_and_those_that_hang_stay() -> None:
    setout = marked(solve(small_room()), ["A-1-01"], "hung")
    setout = marked(setout, ["A-1-02"], "built")
    marks = ["A-1-01", "A-1-02", "A-1-03"]
    states = standing(solve(step_panels(setout, marks, "forward", guessed_parts(setout)))).by_mark
    assert [states[mark] for mark in marks] == ["hung", "checked", "built"]


def test_a_step_back_undoes_a_step_forward() -> None:
    setout = solve(small_room())
    for state in ("built", "checked", "hung"):
        setout = solve(step_panels(setout, ["A-1-02"], "forward", guessed_parts(setout)))
        assert standing(setout).by_mark["A-1-02"] == state
    for state in ("checked", "built", "to build"):
        setout = solve(step_panels(setout, ["A-1-02"], "back", guessed_parts(setout)))
        assert standing(setout).by_mark["A-1-02"] == state


def test_a_step_nobody_can_make_is_refused_in_words() -> None:
    setout = marked(solve(small_room()), ["A-1-01"], "hung")
    with pytest.raises(RoomError, match="A-1-01 is hung already"):
        step_panels(setout, ["A-1-01"], "forward", {})
    with pytest.raises(RoomError, match="still to build"):
        step_panels(setout, ["A-1-02"], "back", {})
    with pytest.raises(RoomError, match="choose at least one panel"):
        step_panels(setout, [], "back", {})
    with pytest.raises(RoomError, match="Z-1-01 does not exist"):
        step_panels(setout, ["Z-1-01"], "back", {})
