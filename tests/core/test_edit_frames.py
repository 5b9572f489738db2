"""Standing frames: through edits of the plan a stud stays where it stands; typed or moved wrongly it is refused with a reason."""

import re
from itertools import pairwise
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core import edits
from core.edits import studs, timberwork
from core.errors import RoomError
from core.files import load_room, save_room
from core.room import FrameToBuild, MeasuredFrame, RegularFrame, Room
from core.setout.timber import standing_timber

CENTRES_MM = (19.0, 450.0, 1050.0, 1650.0, 2250.0, 2850.0, 3450.0, 3981.0)


@pytest.fixture
def hall() -> Room:
    """Wall B, the upper one, is 4000 mm long."""
    return edits.rectangle("Hall", width_mm=4000, depth_mm=3000, clad_height_mm=2400)


@pytest.fixture
def measured(hall: Room) -> Room:
    return edits.set_frame(hall, 1, MeasuredFrame(mode="measured", centres_mm=CENTRES_MM, rails_mm=(1200.0,)))


@pytest.fixture
def regular(hall: Room) -> Room:
    return edits.set_frame(hall, 1, RegularFrame(mode="regular", spacing_mm=600.0, first_centre_mm=300.0))


def centres(room: Room, wall: int) -> tuple[float, ...]:
    frame = room.frame(wall)
    assert isinstance(frame, MeasuredFrame)
    return frame.centres_mm


def test_the_right_part_of_a_stepped_regular_frame_keeps_its_studs_in_place(regular: Room) -> None:
    stepped = edits.step_wall(regular, 1, 1000, 608)
    assert [stepped.frame(wall).mode for wall in range(6)] == [
        "to_build",
        "regular",
        "to_build",
        "regular",
        "to_build",
        "to_build",
    ]
    before = {t.left_mm for t in standing_timber(regular, 1) if t.member == "stud" and t.left_mm > 1019}
    after = {t.left_mm + 1000 for t in standing_timber(stepped, 3) if t.member == "stud" and t.left_mm > 0}
    assert after == before


def test_a_step_parts_measured_studs(measured: Room) -> None:
    stepped = edits.step_wall(measured, 1, 1524, 608)
    assert centres(stepped, 1) == (19, 450, 1050)
    assert centres(stepped, 3) == (126, 726, 1326, 1926, 2457)
    assert stepped.frame(2) == FrameToBuild()


def test_a_stud_the_step_goes_through_is_on_neither_part(measured: Room) -> None:
    stepped = edits.step_wall(measured, 1, 1660, 608)
    assert 1650 not in centres(stepped, 1)
    assert centres(stepped, 3)[0] == 590


@pytest.mark.parametrize("kind", ["measured", "regular"])
@pytest.mark.parametrize("out_mm", [0, 150, -333])
def test_a_bend_taken_out_again_gives_the_frame_as_it_was(kind: str, out_mm: float, request: Any) -> None:
    room: Room = request.getfixturevalue(kind)
    bent = edits.insert_corner(room, 1, (1500, 3000 + out_mm))
    assert bent.frame(2).mode == kind
    assert edits.remove_corner(bent, 2) == room


def test_the_first_corner_joins_the_last_wall_to_the_first(hall: Room) -> None:
    bent = edits.insert_corner(hall, 3, (2000, -100))
    framed = edits.set_frame(bent, 4, MeasuredFrame(mode="measured", centres_mm=(200.0,)))
    turned = Room.model_validate(
        {
            **dict(framed),
            "corners_mm": (*framed.corners_mm[4:], *framed.corners_mm[:4]),
            "frames": framed.frames[4:] + framed.frames[:4],
        }
    )
    joined = edits.remove_corner(turned, 0)
    (centre,) = centres(joined, 3)
    assert centre == pytest.approx(2200, abs=5)


def test_walls_framed_differently_join_into_what_is_known_of_both(hall: Room) -> None:
    bent = edits.insert_corner(hall, 1, (2000, 3000))
    framed = edits.set_frame(bent, 1, RegularFrame(mode="regular", spacing_mm=600.0, first_centre_mm=600.0))
    framed = edits.set_frame(framed, 2, MeasuredFrame(mode="measured", centres_mm=(100.0, 700.0), rails_mm=(1200.0,)))
    joined = edits.remove_corner(framed, 2)
    assert centres(joined, 1) == (19, 600, 1200, 1800, 1981, 2100, 2700)


@pytest.mark.parametrize("shorter_mm", [3990.0, 3600.0, 3460.0])
def test_a_shortened_wall_forgets_the_studs_past_its_end(measured: Room, shorter_mm: float) -> None:
    changed = edits.set_wall_length(measured, 1, shorter_mm)
    assert centres(changed, 1) == tuple(centre for centre in CENTRES_MM if centre <= shorter_mm - 19)


def test_dragging_a_corner_that_shortens_a_wall_is_not_stopped_by_its_studs(measured: Room) -> None:
    assert centres(edits.move_corner(measured, 2, (3000, 3000), square=True), 1) == CENTRES_MM[:-2]


def test_an_end_stud_of_a_slanting_wall_outlives_the_rounding_of_corners(hall: Room) -> None:
    slanting = edits.move_corner(hall, 2, (3700.3, 2500.7))
    end = slanting.wall_length_mm(1) - 19
    framed = edits.set_frame(slanting, 1, MeasuredFrame(mode="measured", centres_mm=(end,)))
    moved = edits.set_wall_length(framed, 0, 3333.3333)
    assert len(centres(moved, 1)) == 1


def test_a_stepped_measured_room_is_valid_as_a_file(measured: Room, tmp_path: Any) -> None:
    stepped = edits.step_wall(measured, 1, 1524, -300)
    save_room(stepped, tmp_path / "hall.room.json")
    assert load_room(tmp_path / "hall.room.json") == stepped


@pytest.mark.parametrize(
    ("changes", "said"),
    [
        ({"spacing_mm": 0.0}, "the spacing is 0 mm; it must be from 50 mm to 5000 mm"),
        ({"spacing_mm": 6000.0}, "the spacing is 6000 mm"),
        ({"first_centre_mm": 4100.0}, "the first centre is 4100 mm; wall B is 4000 mm long"),
    ],
)
def test_regular_studs_that_cannot_be_are_refused_with_what_would_be_right(
    regular: Room, changes: dict[str, float], said: str
) -> None:
    with pytest.raises(RoomError) as refused:
        studs.set_regular(regular, 1, **changes)
    assert said in str(refused.value)


@pytest.mark.parametrize(
    ("listed", "said"),
    [
        ((19.0, 838.0, 430.0), "430 mm comes after 838 mm"),
        ((19.0, 430.0, 450.0), "studs at 430 mm and 450 mm would overlap; they are 38 mm wide"),
        ((19.0, 4200.0), "a stud at 4200 mm stands outside wall B; centres lie from 19 mm to 3981 mm"),
        ((5.0, 430.0), "a stud at 5 mm stands outside wall B"),
    ],
)
def test_a_list_of_centres_is_refused_for_what_is_wrong_with_it(measured: Room, listed: tuple[float, ...], said: str) -> None:
    with pytest.raises(RoomError) as refused:
        studs.set_centres(measured, 1, listed)
    assert said in str(refused.value)


def test_an_end_stud_that_stood_half_outside_already_may_stay_in_the_list(hall: Room) -> None:
    room = edits.set_frame(hall, 1, MeasuredFrame(mode="measured", centres_mm=(5.0, 450.0)))
    assert centres(studs.set_centres(room, 1, (5.0, 460.0)), 1) == (5, 460)


@given(at_mm=st.integers(-200, 4200))
def test_a_stud_put_up_and_taken_away_again_gives_the_frame_as_it_was(at_mm: int) -> None:
    hall = edits.rectangle("Hall", width_mm=4000, depth_mm=3000, clad_height_mm=2400)
    before = edits.set_frame(hall, 1, MeasuredFrame(mode="measured", centres_mm=CENTRES_MM))
    is_clear = 19 <= at_mm <= 3981 and all(abs(at_mm - centre) >= 38 for centre in CENTRES_MM)
    try:
        added = studs.add_stud(before, 1, float(at_mm))
    except RoomError:
        assert not is_clear
        return
    assert is_clear
    assert studs.remove_stud(added, 1, centres(added, 1).index(at_mm)) == before


@given(number=st.integers(0, len(CENTRES_MM) - 1), at_mm=st.integers(-200, 4200))
def test_a_moved_stud_leaves_all_others_where_they_are_and_in_their_order(number: int, at_mm: int) -> None:
    hall = edits.rectangle("Hall", width_mm=4000, depth_mm=3000, clad_height_mm=2400)
    before = edits.set_frame(hall, 1, MeasuredFrame(mode="measured", centres_mm=CENTRES_MM))
    try:
        after = centres(studs.move_stud(before, 1, number, float(at_mm)), 1)
    except RoomError:
        assert any(abs(at_mm - c) < 38 for c in CENTRES_MM[:number] + CENTRES_MM[number + 1 :]) or not (
            max([19, *(c for c in CENTRES_MM[:number])]) <= at_mm <= min([3981, *CENTRES_MM[number + 1 :]])
        )
        return
    assert after == (*CENTRES_MM[:number], at_mm, *CENTRES_MM[number + 1 :])


def test_studs_fit_in_one_after_another_until_no_gap_takes_one(measured: Room) -> None:
    room, most = measured, 200
    for _ in range(most):
        try:
            room = studs.add_stud(room, 1, studs.free_centre_mm(room, 1))
        except RoomError:
            break
    after = centres(room, 1)
    assert len(CENTRES_MM) + 40 < len(after) < most
    assert all(b - a < 2 * 38 + 1 for a, b in pairwise(after))


def test_the_room_of_a_frame_given_otherwise_has_no_stud_to_move(regular: Room) -> None:
    with pytest.raises(RoomError, match="not measured one by one"):
        studs.move_stud(regular, 1, 0, 100.0)


def test_wider_studs_that_would_overlap_are_refused(measured: Room) -> None:
    close = studs.add_stud(measured, 1, 490.0)
    with pytest.raises(RoomError, match="studs at 450 mm and 490 mm would overlap; they are 45 mm wide"):
        studs.set_stud_width(close, 1, 45.0)


def test_readings_come_and_go_and_the_last_one_leaves_the_face_unmeasured(hall: Room) -> None:
    first = timberwork.put_reading(hall, 1, None, x_mm=0, z_mm=0, depth_mm=-2)
    second = timberwork.put_reading(first, 1, None, x_mm=4000, z_mm=0, depth_mm=3.5)
    assert [reading.depth_mm for reading in timberwork.readings_of(second, 1)] == [-2, 3.5]
    assert timberwork.remove_reading(timberwork.remove_reading(second, 1, 1), 1, 0) == hall
    with pytest.raises(RoomError, match="was read already"):
        timberwork.put_reading(second, 1, 1, x_mm=0, z_mm=0, depth_mm=1)
    with pytest.raises(RoomError, match="lies off wall B, which is 4000 mm long"):
        timberwork.put_reading(second, 1, None, x_mm=4001, z_mm=0, depth_mm=1)


def test_timber_is_set_within_bounds(hall: Room) -> None:
    assert timberwork.set_kerf(hall, 2.5).timberwork.kerf_mm == 2.5
    assert timberwork.set_stock(hall, (2400.0, 3000.0)).timberwork.stock_mm == (2400, 3000)
    assert timberwork.set_stock(timberwork.set_stock(hall, (2400.0,)), ()) == hall
    for edit, said in (
        (lambda: timberwork.set_kerf(hall, 30.0), "the saw cut is 30 mm; it must be from 0 mm to 20 mm"),
        (lambda: timberwork.set_stock(hall, (2400.0, 2400.0)), "listed twice"),
        (lambda: timberwork.set_stock(hall, (24.0,)), "a board of 24 mm is not sold"),
        (lambda: timberwork.set_timber_size(hall, "9x9"), "timber '9x9' is not listed"),
        (lambda: timberwork.set_screw(hall, "nail"), "screw 'nail' is not among screws"),
    ):
        with pytest.raises(RoomError, match=re.escape(said)):
            edit()
