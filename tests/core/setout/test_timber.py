"""Timber behind the walls: where a screw lands, and how openings are framed."""

from collections import Counter
from itertools import pairwise

import numpy as np
import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.room import MeasuredFrame, Opening, RegularFrame, Room
from core.setout.result import Timber
from core.setout.timber import Backing, opening_timber, plates, regular_centres, standing_timber, upright_studs
from tests.core.setout.rooms import law, opening, rectangle

STUD = 38.0
DOOR = opening("door", 0, 1000, 0, 900, 1700)
WINDOW = opening("window", 0, 1000, 900, 900, 600)


def room(*openings: Opening) -> Room:
    """Wall A is 3 m long and 2 m high."""
    return rectangle(3000, 3000, 2000, openings)


def named(members: list[Timber], name: str) -> list[tuple[float, float, float, float]]:
    """Left, bottom, right and top of the members with that name."""
    return [(t.left_mm, t.bottom_mm, t.left_mm + t.width_mm, t.bottom_mm + t.height_mm) for t in members if t.member == name]


def stud_backing() -> Backing:
    """One stud from 100 to 138 mm, 8 mm edge distance."""
    return Backing((Timber(0, "stud", 100.0, 38.0, STUD, 1900.0),), 8.0)


@pytest.mark.parametrize(("x_mm", "found"), [(107.9, None), (108.0, "stud"), (130.0, "stud"), (130.1, None)])
def test_a_screw_lands_in_a_stud_from_one_edge_distance_to_the_other(x_mm: float, found: str | None) -> None:
    assert stud_backing().lands_on(x_mm, 1000.0) == found


@pytest.mark.parametrize(("z_mm", "found"), [(7.9, None), (8.0, "sole plate"), (30.0, "sole plate"), (30.1, None)])
def test_a_screw_lands_in_a_plate_from_one_edge_distance_to_the_other(z_mm: float, found: str | None) -> None:
    backing = Backing((Timber(0, "sole plate", 0.0, 0.0, 3000.0, STUD),), 8.0)
    assert backing.lands_on(1500.0, z_mm) == found


def test_a_screw_above_the_end_of_a_stud_misses_it() -> None:
    assert stud_backing().lands_on(119.0, 1938.1) is None


def test_the_sole_plate_runs_from_end_to_end_without_a_door() -> None:
    assert named(list(plates(room(WINDOW), 0, STUD)), "sole plate") == [(0, 0, 3000, 38)]


def test_the_sole_plate_is_left_out_at_a_door() -> None:
    assert named(list(plates(room(DOOR), 0, STUD)), "sole plate") == [(0, 0, 1000, 38), (1900, 0, 3000, 38)]


def test_the_top_plate_goes_on_over_a_door() -> None:
    assert named(list(plates(room(DOOR), 0, STUD)), "top plate") == [(0, 1962, 3000, 2000)]


def test_a_window_has_a_header_a_sill_and_a_trimmer_and_a_king_stud_on_either_side() -> None:
    members = Counter(t.member for t in opening_timber(room(WINDOW), 0, STUD))
    assert members == {"header": 1, "sill": 1, "trimmer": 2, "king stud": 2}


def test_a_door_has_no_sill() -> None:
    assert "sill" not in {t.member for t in opening_timber(room(DOOR), 0, STUD)}


def test_the_header_lies_on_the_trimmers_over_the_head_of_the_opening() -> None:
    """89 mm deep, from memory."""
    assert named(opening_timber(room(WINDOW), 0, STUD), "header") == [(962, 1500, 1938, 1589)]


def test_trimmers_stand_at_the_sides_of_the_opening_up_to_its_head() -> None:
    assert named(opening_timber(room(WINDOW), 0, STUD), "trimmer") == [(962, 38, 1000, 1500), (1900, 38, 1938, 1500)]


def test_king_studs_stand_outside_the_trimmers_up_to_the_top_plate() -> None:
    assert named(opening_timber(room(WINDOW), 0, STUD), "king stud") == [(924, 38, 962, 1962), (1938, 38, 1976, 1962)]


def test_the_sill_lies_between_the_trimmers_just_under_the_opening() -> None:
    assert named(opening_timber(room(WINDOW), 0, STUD), "sill") == [(1000, 862, 1900, 900)]


def test_an_outlet_is_not_framed() -> None:
    assert opening_timber(room(opening("outlet", 0, 1000, 300, 60, 100)), 0, STUD) == []


def test_timber_of_another_wall_s_opening_is_not_on_this_one() -> None:
    assert opening_timber(room(opening("window", 1, 1000, 900, 900, 600)), 0, STUD) == []


def test_a_stud_at_a_framed_window_is_cut_under_its_sill_and_over_its_header() -> None:
    around = opening_timber(room(WINDOW), 0, STUD)
    studs = upright_studs(room(WINDOW), 0, [1450.0], STUD, clear_of=around)
    assert named(studs, "stud") == [(1431, 38, 1469, 862), (1431, 1589, 1469, 1962)]


def test_neither_stud_nor_sole_plate_is_cut_for_an_electrical_box() -> None:
    with_outlet = room(opening("outlet", 0, 1440, 20, 60, 100))
    assert named(upright_studs(with_outlet, 0, [1450.0], STUD), "stud") == [(1431, 38, 1469, 1962)]
    assert len(named(list(plates(with_outlet, 0, STUD)), "sole plate")) == 1


def test_a_stud_is_left_out_where_a_trimmer_stands() -> None:
    around = opening_timber(room(WINDOW), 0, STUD)
    assert upright_studs(room(WINDOW), 0, [990.0], STUD, clear_of=around) == []


@law
@given(st.integers(50, 900), st.integers(19, 900), st.integers(500, 6000))
def test_studs_of_a_regular_frame_never_overlap(spacing_mm: int, first_mm: int, length_mm: int) -> None:
    centres = regular_centres(float(first_mm), float(spacing_mm), float(length_mm), STUD)
    assert all(after - before >= STUD for before, after in pairwise(centres))


def test_a_regular_frame_has_a_stud_at_either_end_and_one_at_every_spacing() -> None:
    assert regular_centres(400.0, 400.0, 1300.0, STUD) == (19.0, 400.0, 800.0, 1200.0, 1281.0)


def test_a_frame_still_to_be_built_has_no_standing_timber() -> None:
    assert standing_timber(room(), 0) == ()


def _measured() -> Room:
    frame = MeasuredFrame(mode="measured", centres_mm=(19.0, 500.0, 2981.0), rails_mm=(1000.0,))
    return rectangle(3000, 3000, 2000, frames=[frame] * 4)


def test_a_measured_frame_has_its_studs_where_they_were_measured() -> None:
    assert [left for left, *_ in named(list(standing_timber(_measured(), 0)), "stud")] == [0.0, 481.0, 2962.0]


def test_a_screw_between_measured_studs_lands_on_a_rail_at_its_height() -> None:
    assert Backing(standing_timber(_measured(), 0), 8.0).lands_on(1500.0, 1000.0) == "rail"


def test_a_screw_between_measured_studs_misses_over_the_rail() -> None:
    assert Backing(standing_timber(_measured(), 0), 8.0).lands_on(1500.0, 1012.0) is None


def _railed(*rails_mm: float, openings: tuple[Opening, ...] = ()) -> Room:
    frame = RegularFrame(mode="regular", spacing_mm=600.0, first_centre_mm=600.0, rails_mm=rails_mm)
    return rectangle(3000, 3000, 2000, openings, [frame] * 4)


def test_a_rail_of_a_regular_frame_runs_from_end_to_end_and_its_studs_stay() -> None:
    bare, railed = (list(standing_timber(made, 0)) for made in (_railed(), _railed(1000.0)))
    assert named(railed, "rail") == [(0.0, 981.0, 3000.0, 1019.0)]
    assert [t for t in railed if t.member != "rail"] == bare


def test_a_screw_between_regular_studs_lands_on_a_rail_at_its_height_only() -> None:
    backing = Backing(standing_timber(_railed(1000.0), 0), 8.0)
    assert [backing.lands_on(1500.0, z_mm) for z_mm in (988.0, 1000.0, 1012.0)] == [None, "rail", None]


def test_a_rail_is_parted_by_the_window_it_would_run_through_and_goes_on_under_it() -> None:
    railed = list(standing_timber(_railed(400.0, 1200.0, openings=(WINDOW,)), 0))
    assert [(left, right) for left, _, right, _ in named(railed, "rail")] == [(0, 3000), (0, 1000), (1900, 3000)]


@law
@given(st.floats(0, 3000), st.sampled_from([20.0, 33.6, 500.0, 1000.0, 1590.0, 1985.0]))
def test_a_whole_line_of_screws_is_judged_like_each_of_them(x_mm: float, z_mm: float) -> None:
    framed = rectangle(3000, 3000, 2000, [WINDOW], [RegularFrame(mode="regular", spacing_mm=406.4)] * 4)
    backing = Backing(standing_timber(framed, 0), 8.0)
    assert backing.missing(np.array([x_mm]), z_mm)[0] == (backing.lands_on(x_mm, z_mm) is None)


def test_timber_of_openings_close_together_stands_neither_in_them_nor_in_each_other() -> None:
    """Two windows 40 mm apart leave room for one trimmer between them, which serves the left one."""
    left = opening("window", 0, 800, 900, 600, 600)
    windows = (left, left.model_copy(update={"id": "right", "left_mm": 1440.0}))
    members = opening_timber(room(*windows), 0, STUD)
    for window in windows:
        for t in members:
            across = min(t.left_mm + t.width_mm, window.right_mm) - max(t.left_mm, window.left_mm)
            up = min(t.bottom_mm + t.height_mm, window.head_mm) - max(t.bottom_mm, window.sill_mm)
            assert across <= 1 or up <= 1, f"{t} stands in {window.id}"
    between = [t for t in members if t.member == "trimmer" and 1400 <= t.left_mm < 1440]
    assert [t.left_mm for t in between] == [1400.0]
