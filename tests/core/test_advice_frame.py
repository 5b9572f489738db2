"""Advice before the frame is built: lengths and widths that leave whole panels only."""

import random
from itertools import combinations_with_replacement

import pytest

from core import edits
from core.advice import LengthChange, OpeningChange, advise_wall, wall_text, work_of
from core.advice.frame import is_whole
from core.advice.trial import found_by
from core.advice.whole import left_runs, nearest_of, right_runs, whole_runs
from core.room import RegularFrame, Room
from core.setout import solve
from core.setout.shell import shell_of
from tests.generate import SMALL_KIT, make_room


def room_of(width_mm: float, depth_mm: float = 1525) -> Room:
    return edits.rectangle("Den", width_mm=width_mm, depth_mm=depth_mm, clad_height_mm=610)


@pytest.mark.parametrize("widths", [(19, 38), (8, 13), (7,)])
@pytest.mark.parametrize("ends", [(), ((19, 38),), ((8, 21), (8, 21))])
def test_whole_runs_are_all_sums_of_kit_panels(widths: tuple[int, ...], ends: tuple[tuple[int, ...], ...]) -> None:
    longest = 120
    sums = {0}
    for choices in ends:
        sums = {a + b for a in sums for b in choices}
    found = {
        legs + sum(panels)
        for legs in sums
        for count in range(longest // min(widths) + 1)
        for panels in combinations_with_replacement(widths, count)
    }
    assert whole_runs(widths, ends, longest) == {length for length in found if 0 < length <= longest}


def test_a_run_with_a_sliver_is_advised_shorter_by_the_sliver() -> None:
    """A full 24 in tile at one wall and a 1 1/2 in sliver at the other: ANSI A108.02 section 4.3, worked example in the
    tile foundation's column at fcimag.com/articles/95138. Who has not built the wall yet leaves off the sliver. In half inches.
    """
    tile, sliver = 48, 3
    run = 4 * tile + sliver
    assert nearest_of(whole_runs((tile,), (), 2 * run), run, 2) == [run - sliver, run - sliver + tile]


@pytest.mark.parametrize("width_mm", [1500.0, 1580.0, 1601.5, 1660.0])
def test_a_frame_built_to_an_advised_length_divides_into_whole_panels_and_bears_small_errors(width_mm: float) -> None:
    room = room_of(width_mm)
    told = found_by(advise_wall(solve(room), 1))
    assert told
    for suggestion in told:
        change = suggestion.change
        assert isinstance(change, LengthChange)
        after = change.applied(room)
        assert after.wall_length_mm(1) == pytest.approx(change.length_mm)
        assert is_whole(after, shell_of(after), 1)
        assert change.distance_mm == pytest.approx(abs(change.length_mm - width_mm))
        assert work_of(solve(after)) == suggestion.after
        assert suggestion.after.special_panels <= work_of(solve(room)).special_panels
        for error_mm in (-2.0, 2.0):
            built = edits.set_wall_length(room, 1, change.length_mm + error_mm)
            assert is_whole(built, shell_of(built), 1)


def test_the_nearest_whole_lengths_either_way_are_advised() -> None:
    """Each wall is its two legs and widths, all multiples of 152 mm, with 1 mm of fit and 3 to 5 mm of play."""
    told = found_by(advise_wall(solve(room_of(1600.0)), 1))
    lengths = {suggestion.change.length_mm for suggestion in told if isinstance(suggestion.change, LengthChange)}
    assert lengths == {152 * 10 + 1 + 5, 152 * 11 + 1 + 3}


def test_a_wall_that_divides_already_gets_no_other_length() -> None:
    room = room_of(1525.0)
    assert is_whole(room, shell_of(room), 1)
    assert found_by(advise_wall(solve(room), 1)) == ()
    assert wall_text(room, shell_of(room), 1) == "its length divides into whole panels"


def test_a_frame_that_stands_gets_no_advice() -> None:
    room = edits.set_frame(room_of(1600.0), 1, RegularFrame(mode="regular", spacing_mm=400.0))
    assert found_by(advise_wall(solve(room), 1)) == ()


def test_an_opening_is_advised_widths_with_whole_panels_on_either_side() -> None:
    room = edits.resize_opening(edits.add_opening(room_of(1525.0), "door", 1, 330.0), "door", width_mm=700.0)
    told = found_by(advise_wall(solve(room), 1))
    ways = {suggestion.change.way for suggestion in told}
    assert ways == {"narrower", "wider"}
    for suggestion in told:
        assert isinstance(suggestion.change, OpeningChange)
        after = suggestion.change.applied(room)
        shell, door = shell_of(after), after.opening("door")
        start = shell.walls[1].start_mm
        left, right = (door.left_mm - start) / 8, (door.right_mm - start) / 8
        assert left in left_runs(room.kit, shell.walls[1])
        assert shell.walls[1].pitches - right in right_runs(room.kit, shell.walls[1])
        assert work_of(solve(after)) == suggestion.after


@pytest.mark.parametrize("seed", range(4))
@pytest.mark.slow
def test_what_advice_about_frames_promises_comes_true_in_any_room(seed: int) -> None:
    room = make_room(random.Random(seed).randint, kit=SMALL_KIT, most_pitches=40, most_rows=2, most_openings=3)
    setout = solve(room)
    for wall in range(room.wall_count):
        for suggestion in found_by(advise_wall(setout, wall)):
            after = suggestion.change.applied(room)
            assert work_of(solve(after)) == suggestion.after
            assert suggestion.special_panels_fewer >= 0
            if isinstance(suggestion.change, LengthChange):
                assert is_whole(after, shell_of(after), wall)
