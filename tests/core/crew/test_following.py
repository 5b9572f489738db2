"""Rates from the stopwatch, the forecast, kitting lists, changes in mid-build and panels swapped for something else."""

from collections import Counter
from itertools import pairwise
from pathlib import Path

import pytest

from core.crew.change import compare
from core.crew.forecast import burn_down, forecast, pace_so_far, planned_burn, planned_minutes
from core.crew.kitting import kit_lists
from core.crew.plan import crew_plan
from core.crew.swap import swap
from core.crew.work import hanging_order, jobs
from core.edits import move_opening
from core.edits.crew import drop_timing, note_timing, remove_person, set_crew, set_person
from core.edits.progress import mark_panels
from core.errors import RoomError
from core.files import load_room
from core.room import Room
from core.setout import solve
from core.setout.result import Panel, SetOut
from core.takeoff import take_off
from core.workforce import Person, Workforce
from tests.core.crew.small import small_room
from tests.core.takeoff.guessed import guessed_parts


def demo(path: Path) -> SetOut:
    return solve(load_room(path))


def test_a_timed_full_panel_sets_the_full_panels_rate(demo_room_path: Path) -> None:
    room = note_timing(demo(demo_room_path), "full", 39.0, panels=3)
    assert room.rates.build_full_panel == pytest.approx(13.0)
    again = note_timing(solve(room), "half-height", 6.5)
    assert again.rates.build_full_panel == pytest.approx(45.5 / (3 + 47 / 95), abs=1e-3)


def test_a_timed_corner_sets_the_corner_factor_only(demo_room_path: Path) -> None:
    setout = demo(demo_room_path)
    corner = next(panel for panel in setout.panels if panel.kind == "corner")
    pitches = sum(face.right - face.left for face in corner.faces)
    full_panels = pitches * (corner.faces[0].top - corner.faces[0].bottom) / (38 * 95)
    room = note_timing(setout, corner.design, 25.0)
    assert room.rates.corner_factor == pytest.approx(25.0 / (10.0 * full_panels), abs=1e-3)
    assert room.rates.build_full_panel == 10.0


def test_handling_and_set_up_are_timed_as_they_are(demo_room_path: Path) -> None:
    room = note_timing(demo(demo_room_path), "full", 30.0, work="handling", panels=10)
    room = note_timing(solve(room), "half-width", 17.0, work="setup")
    assert (room.rates.handling, room.rates.setup) == (3.0, 17.0)
    assert drop_timing(room, 0).rates.setup == 17.0


def test_a_practised_hand_timed_at_its_second_panel_gives_the_first_panels_rate(demo_room_path: Path) -> None:
    """At 80 % the second panel takes 0.8 of the first: 8 minutes for it make 10 for the first."""
    room = set_crew(load_room(demo_room_path), learning_rate=0.8)
    room = note_timing(solve(room), "full", 8.0, panels_before=1)
    assert room.rates.build_full_panel == pytest.approx(10.0)


def test_a_design_that_is_not_planned_cannot_be_timed(demo_room_path: Path) -> None:
    with pytest.raises(RoomError, match="not planned"):
        note_timing(demo(demo_room_path), "closer 9 x 9", 5.0)


def test_people_come_and_go_by_name() -> None:
    room = set_person(small_room(Workforce()), Person(name="one"))
    room = set_person(room, Person(name="one", hours_per_day=4.0))
    assert [person.hours_per_day for person in room.crew.people] == [4.0]
    assert remove_person(room, "one").crew.people == ()
    with pytest.raises(RoomError, match="nobody"):
        remove_person(room, "two")


def test_kitting_lists_hold_every_part_of_every_panel_once() -> None:
    setout = solve(small_room())
    parts = guessed_parts(setout)
    lists = kit_lists(setout, take_off(setout, parts).laid)
    crew = setout.room.crew
    assert [panel for one in lists for panel in one.panels] == hanging_order(setout)
    assert all(len(one.panels) <= crew.kits_per_bench and 1 <= one.bench <= crew.benches for one in lists)
    total: Counter[str] = Counter()
    for one in lists:
        total.update({item.name: number for item, number in one.parts.items()})
    assert total == sum((parts[panel.design] for panel in setout.panels), Counter())


def test_what_is_left_falls_day_by_day() -> None:
    setout = solve(small_room())
    parts = guessed_parts(setout)
    order = [panel.mark for panel in hanging_order(setout)]
    for day, done in (("2027-05-31", order[:4]), ("2027-06-01", order[4:9])):
        setout = solve(mark_panels(setout, done, "built", parts, on=day))
    setout = solve(mark_panels(setout, order[:3], "hung", parts, on="2027-06-01"))
    count = len(order)
    assert [(p.on, p.to_build, p.to_hang) for p in burn_down(setout)] == [
        ("2027-05-31", count - 4, count),
        ("2027-06-01", count - 9, count - 3),
    ]
    planned = planned_burn(setout, crew_plan(setout, from_scratch=True))
    assert (planned[0], planned[-1]) == ((count, count), (0, 0))


def test_half_the_pace_doubles_what_is_left() -> None:
    """One person of 6 h a day; after two days work of 6 h is done, so the pace is one half and the rest takes twice as long."""
    crew = Workforce(people=(Person(name="one"),), starts_on="2027-05-31")
    setout = solve(small_room(crew))
    order = hanging_order(setout)
    handling = setout.room.rates.handling
    done, minutes = [], 0.0
    for panel in order:
        if minutes + panel.minutes > 50:
            break
        done.append(panel.mark)
        minutes += panel.minutes
    setout = solve(mark_panels(setout, done, "hung", guessed_parts(setout), on="2027-05-31"))
    assert handling < minutes <= 50
    assert pace_so_far(setout, "2027-06-02") == pytest.approx(max(0.1, minutes / 720))
    assert pace_so_far(setout, "2027-05-31") == 1.0
    found = forecast(setout, "2027-06-02")
    at_rates = crew_plan(setout, starts_on="2027-06-02")
    assert found.left.minutes == pytest.approx(at_rates.minutes / found.pace)
    assert found.days_late is not None
    assert found.days_late > 0


def test_a_forecast_without_records_is_the_plan() -> None:
    found = forecast(solve(small_room()), "2027-05-31")
    assert (found.pace, found.days_late) == (1.0, 0)
    assert found.left.finish == found.planned.finish


def test_a_change_parts_the_panels_into_kept_dropped_and_new() -> None:
    before = solve(small_room())
    parts = guessed_parts(before)
    before = solve(mark_panels(before, [panel.mark for panel in before.panels if panel.row == 0], "hung", parts))
    after = solve(move_opening(before.room, "window", left_mm=180.0))
    found = compare(before, after, parts, guessed_parts(after))
    gone = len(found.comes_down) + len(found.set_aside) + len(found.drops)
    assert len(found.keeps) + gone == len(before.panels)
    assert len(found.keeps) + len(found.builds) == len(after.panels)
    assert found.comes_down
    assert found.shifted_walls == ()
    lines = take_off(after, guessed_parts(after)).panels
    assert set(found.short) <= set(lines) | set(take_off(after, guessed_parts(after)).room)


def test_no_change_changes_nothing() -> None:
    setout = solve(small_room())
    found = compare(setout, setout, guessed_parts(setout), guessed_parts(setout))
    assert len(found.keeps) == len(setout.panels)
    assert (found.comes_down, found.set_aside, found.builds, found.drops, dict(found.more)) == ((), (), (), (), {})


def plain() -> SetOut:
    """Ten feet square, four full rows, nothing in the way: on every wall a corner panel and nine full ones."""
    corners = ((0.0, 0.0), (0.0, 3048.0), (3048.0, 3048.0), (3048.0, 0.0))
    return solve(Room(name="plain", corners_mm=corners, clad_height_mm=1216.0))


def test_a_swap_of_two_panels_side_by_side_opens_one_space() -> None:
    """Two full panels: 608 by 304 mm less 0.5 mm at each edge; the panels above stay on their screws."""
    setout = plain()
    third = [panel for panel in setout.panels if panel.row == 2 and panel.faces[0].wall == 2]
    pair = next([a, b] for a, b in pairwise(third) if a.kind == b.kind == "full")
    found = swap(setout, [panel.mark for panel in pair])
    assert [(one.width_mm, one.height_mm, one.depth_mm, one.is_rectangle) for one in found.inserts] == [
        (607.0, 303.0, 16.0, True)
    ]
    assert len(found.screws) == 8
    assert {timber.member for timber in found.inserts[0].timber} >= {"stud"}
    assert [step.mark for step in found.steps] == [panel.mark for panel in pair]
    for panel, step in zip(pair, found.steps, strict=True):
        assert set(step.under) == {other.mark for other in setout.panels if stands_on(other, panel)}
        assert set(step.on) == {other.mark for other in setout.panels if stands_on(panel, other)}
        assert step.under
        assert step.on


def stands_on(upper: Panel, lower: Panel) -> bool:
    """Whether they share a stretch of a wall, one row apart."""
    shared = [
        (one, two)
        for one in upper.faces
        for two in lower.faces
        if one.wall == two.wall and set(range(one.left, one.right)) & set(range(two.left, two.right))
    ]
    return upper.row == lower.row + 1 and bool(shared)


def test_panels_come_out_from_the_top_down() -> None:
    found = swap(plain(), ["C-2-02", "C-3-02"])
    assert [(step.mark, step.under) for step in found.steps] == [("C-3-02", ("C-4-02",)), ("C-2-02", ())]
    assert found.inserts[0].height_mm == 607.0


def test_a_corner_panel_opens_a_space_on_both_walls() -> None:
    found = swap(plain(), ["B-3-01"])
    assert {one.wall for one in found.inserts} == {0, 1}
    assert any("corner panel" in note for note in found.notes)


def test_a_swap_of_nothing_is_refused() -> None:
    with pytest.raises(RoomError, match="at least one"):
        swap(plain(), [])
    with pytest.raises(RoomError, match="Z-1-01 does not exist"):
        swap(plain(), ["Z-1-01"])


def test_the_minutes_left_fall_by_what_was_done_and_end_with_nothing_in_the_plan() -> None:
    setout = solve(small_room())
    marks = [panel.mark for panel in hanging_order(setout)]
    room = mark_panels(setout, marks[:4], "built", guessed_parts(setout), on="2027-05-31")
    room = mark_panels(solve(room), marks[:2], "hung", guessed_parts(setout), on="2027-06-01")
    whole = crew_plan(setout, from_scratch=True)
    first, second = burn_down(solve(room))
    work = {job.mark: job for job in jobs(setout, from_scratch=True)}
    assert first.minutes == pytest.approx(whole.minutes - sum(work[mark].build for mark in marks[:4]))
    assert second.minutes == pytest.approx(first.minutes - sum(work[mark].hang for mark in marks[:2]))
    planned = planned_minutes(setout, whole)
    assert planned[0] == pytest.approx(whole.minutes)
    assert planned[-1] == pytest.approx(0, abs=1e-6)
    assert all(earlier >= later for earlier, later in pairwise(planned))
