"""Advice about openings: what it promises comes true, further ones save more, and nothing leaves its wall."""

import random
from functools import cache
from itertools import pairwise

import pytest

from core import edits
from core.advice import OpeningChange, Suggestion, Work, advise_opening, caution_text, change_text, saving_text, work_of
from core.advice.candidates import changes_of
from core.advice.changes import Box
from core.advice.grid import PitchLines, roundest_nm, shifts_nm
from core.advice.suggestion import MOST_TOLD, WORTH_MINUTES, nearest_that_save
from core.advice.trial import found_by
from core.room import Opening, Room
from core.setout import solve
from core.setout.shell import shell_of, to_nm
from tests.generate import SMALL_KIT, make_room

SEEDS = (1, 2, 4, 6, 9, 10)
MOST_TRIED = 114


def small_room(seed: int) -> Room:
    recipe = {"most_pitches": 40, "most_rows": 2, "most_openings": 3, "standing": seed % 3 == 0}
    return make_room(random.Random(seed).randint, kit=SMALL_KIT, **recipe)


def den(**window: float) -> Room:
    """A square room of two rows, each wall ten half-width panels long; the window's place is whole panels from the corner."""
    room = edits.rectangle("Den", width_mm=1525, depth_mm=1525, clad_height_mm=610)
    box = {"left_mm": 306.5, "sill_mm": 304.0, "width_mm": 608.0, "height_mm": 304.0} | window
    opening = Opening(id="window", kind="window", wall=0, **box)
    return Room(**{**dict(room), "openings": (opening,)})


@cache
def advice(room: Room) -> list[tuple[Opening, tuple[Suggestion, ...]]]:
    setout = solve(room)
    return [(opening, found_by(advise_opening(setout, opening.id))) for opening in room.openings]


@pytest.mark.parametrize("seed", SEEDS)
@pytest.mark.slow
def test_what_advice_promises_is_what_solving_the_changed_room_gives(seed: int) -> None:
    room = small_room(seed)
    before = work_of(solve(room))
    for _, told in advice(room):
        for suggestion in told:
            assert suggestion.before == before
            assert suggestion.after == work_of(solve(suggestion.change.applied(room)))


@pytest.mark.parametrize("seed", SEEDS)
def test_each_further_suggestion_saves_more(seed: int) -> None:
    for _, told in advice(small_room(seed)):
        assert len(told) <= MOST_TOLD
        for nearer, further in pairwise(told):
            assert nearer.distance_mm <= further.distance_mm
            assert further.minutes_saved > nearer.minutes_saved - 1e-6
            more = further.minutes_saved - nearer.minutes_saved >= WORTH_MINUTES
            assert more or further.special_panels_fewer > nearer.special_panels_fewer


@pytest.mark.parametrize("seed", SEEDS)
def test_a_suggestion_keeps_the_opening_on_its_wall_clear_of_others_and_as_far_away_as_it_says(seed: int) -> None:
    room = small_room(seed)
    for opening, told in advice(room):
        for suggestion in told:
            new = suggestion.change.applied(room).opening(opening.id)
            assert 0 <= new.left_mm <= new.right_mm <= room.wall_length_mm(opening.wall)
            for other in room.openings:
                if other.id != opening.id and other.wall == opening.wall:
                    across = min(new.right_mm, other.right_mm) - max(new.left_mm, other.left_mm)
                    up = min(new.head_mm, other.head_mm) - max(new.sill_mm, other.sill_mm)
                    assert min(across, up) <= 1e-6
            edges = (new.left_mm - opening.left_mm, new.right_mm - opening.right_mm)
            level = (new.sill_mm - opening.sill_mm, new.head_mm - opening.head_mm)
            assert suggestion.distance_mm == pytest.approx(max(abs(step) for step in (*edges, *level)), abs=1e-3)


def test_advice_is_the_same_a_second_time() -> None:
    assert advice.__wrapped__(small_room(9)) == advice(small_room(9))


def test_a_search_is_bounded_and_pauses_between_its_steps() -> None:
    room = den(left_mm=311.5)
    changes = changes_of(room, shell_of(room), solve(room).rows, room.openings[0])
    assert 0 < len(changes) <= MOST_TRIED
    assert [c.distance_mm for c in changes] == sorted(c.distance_mm for c in changes)
    pauses = sum(1 for _ in advise_opening(solve(room), "window"))
    assert pauses > len(changes) / 2


@pytest.mark.parametrize(("off_mm", "way"), [(3.0, "left"), (-3.0, "right")])
def test_an_opening_just_off_whole_panels_is_advised_back(off_mm: float, way: str) -> None:
    room = den(left_mm=306.5 + off_mm)
    nearest = found_by(advise_opening(solve(room), "window"))[0]
    assert isinstance(nearest.change, OpeningChange)
    assert (nearest.change.way, nearest.distance_mm) == (way, 3.0)
    assert nearest.special_panels_fewer > 0
    assert nearest.minutes_saved > 0


def test_no_advice_where_everything_is_of_the_kit() -> None:
    room = den()
    assert work_of(solve(room)).special_panels == 0
    assert found_by(advise_opening(solve(room), "window")) == ()


def test_boxes_keep_their_size_and_doors_stay_on_the_floor() -> None:
    room = edits.add_opening(edits.add_opening(den(), "door", 1, 300.0), "outlet", 2, 300.0)
    rows = solve(room).rows
    outlet = changes_of(room, shell_of(room), rows, room.opening("outlet-1"))
    assert {change.way for change in outlet} <= {"left", "right", "up", "down"}
    door = changes_of(room, shell_of(room), rows, room.opening("door"))
    assert {change.box.sill_mm for change in door} == {0.0}


@pytest.mark.parametrize("width_mm", [608.0, 605.0, 60.0, 601.7])
@pytest.mark.parametrize("left_mm", [306.5, 307.0, 311.2, 313.9])
def test_the_least_shift_is_the_first_that_blocks_other_pitches_and_no_more_than_must_be(left_mm: float, width_mm: float) -> None:
    """Against trying every tenth of a millimetre."""
    room = den(left_mm=left_mm, width_mm=width_mm)
    lines = PitchLines.of(room, shell_of(room), 0)

    def blocked(shift_tenths: int) -> tuple[int, int]:
        left = to_nm(left_mm) + shift_tenths * 100_000
        return lines.blocked(left, left + to_nm(width_mm))

    needed = -(-to_nm(width_mm) // lines.pitch_nm)
    left, right = shifts_nm(lines, room.openings[0], "mm", 5)
    for sense, shifts in ((-1, left), (1, right)):
        tried = ((tenths, blocked(sense * tenths)) for tenths in range(1, 200))
        first = next(tenths for tenths, (lo, hi) in tried if hi - lo == needed and (lo, hi) != blocked(0))
        here = blocked(round(sense * shifts[0] / 100_000))
        assert here == blocked(sense * first)
        assert first * 100_000 <= shifts[0] < first * 100_000 + 1_000_000


def test_a_shift_is_as_round_as_the_play_allows() -> None:
    assert roundest_nm(11_300_000, 14_000_000, "mm") == 12_000_000
    assert roundest_nm(11_300_000, 11_700_000, "mm") == 11_500_000
    assert roundest_nm(11_300_000, 11_300_000, "mm") == 11_300_000
    assert roundest_nm(11_300_000, 14_000_000, "ft-in") == 12_700_000
    assert roundest_nm(11_300_050, 11_300_050, "mm") is None


def promise(distance_mm: float, minutes: float, special: int, way: str = "left") -> Suggestion:
    change = OpeningChange("window", way, distance_mm, Box(0, 0, 100, 100))  # type: ignore[arg-type]
    return Suggestion(change, Work(100, 20, 10, 9, 1000.0), Work(100, special, 6, 8, 1000.0 - minutes))


def test_of_many_changes_only_those_worth_their_distance_are_told() -> None:
    near, worse, little, more, panels = (
        promise(4, 10, 18),
        promise(6, 9, 18),
        promise(8, 12, 18),
        promise(20, 30, 18),
        promise(30, 30, 15),
    )
    costly = promise(1, -20, 0)
    assert nearest_that_save([panels, more, little, worse, near, costly]) == (near, more, panels)


def test_less_wall_to_line_is_no_saving() -> None:
    bigger = promise(40, 30, 20, "head up")
    same_designs = Suggestion(bigger.change, bigger.before, Work(96, 20, 10, 9, 970.0))
    assert nearest_that_save([same_designs]) == ()


def test_advice_in_words() -> None:
    suggestion = promise(12, 31, 16)
    assert change_text(suggestion.change, "mm") == "12 mm left"
    assert saving_text(suggestion) == "4 shaped panels fewer, 31 min saved; 8 special designs left"


def test_moving_up_or_resizing_comes_with_its_caution() -> None:
    room = den()
    assert caution_text(room, [promise(12, 31, 16).change]) == ""
    assert "local code decides" in caution_text(room, [promise(12, 31, 16, "head up").change])
    standing = edits.set_frame(room, 0, {"mode": "regular", "spacing_mm": 400.0})  # type: ignore[arg-type]
    assert "frame stands" in caution_text(standing, [promise(12, 31, 16).change])
