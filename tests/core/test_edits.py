"""Edits: each gives a valid new room or says why not, and leaves the old one alone."""

import math
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core import edits
from core.edits.plan import move_wall, set_diagonal
from core.errors import RoomError
from core.files import load_room
from core.room import FrameToBuild, OpeningKind, RegularFrame, Room

KINDS: tuple[OpeningKind, ...] = ("door", "window", "outlet", "switch", "niche")


@pytest.fixture
def room(demo_room_path: Path) -> Room:
    return load_room(demo_room_path)


@pytest.fixture
def hall() -> Room:
    return edits.rectangle("Hall", width_mm=6000, depth_mm=4000, clad_height_mm=2400)


def test_a_rectangle_has_its_walls_clockwise_and_as_long_as_asked(hall: Room) -> None:
    assert [hall.wall_length_mm(wall) for wall in range(4)] == [4000, 6000, 4000, 6000]


@pytest.mark.parametrize("size", [0.0, -5.0, math.inf, math.nan, 2e6])
def test_a_rectangle_of_absurd_size_is_refused(size: float) -> None:
    with pytest.raises(RoomError):
        edits.rectangle("Hall", width_mm=size, depth_mm=4000, clad_height_mm=2400)


def test_moving_an_opening_changes_nothing_else(room: Room) -> None:
    moved = edits.move_opening(room, "window", wall=2, left_mm=200, sill_mm=800)
    window = moved.opening("window")
    assert (window.wall, window.left_mm, window.sill_mm) == (2, 200, 800)
    assert (window.width_mm, window.height_mm) == (912, 608)
    assert moved.opening("door") is room.opening("door")
    assert room.opening("window").wall == 1


def test_an_opening_past_its_walls_end_is_refused_by_name(room: Room) -> None:
    with pytest.raises(RoomError, match=r"window.*past the end of wall B"):
        edits.move_opening(room, "window", left_mm=2500)


def test_openings_may_not_overlap(room: Room) -> None:
    with pytest.raises(RoomError, match="overlap on wall D"):
        edits.move_opening(room, "window", wall=3, left_mm=1100)


@pytest.mark.parametrize("sizes", [{"width_mm": 0.0}, {"height_mm": -1.0}, {"left_mm": -8.0}, {"sill_mm": math.nan}])
def test_an_impossible_size_is_refused(room: Room, sizes: dict[str, float]) -> None:
    with pytest.raises(RoomError):
        edits.resize_opening(room, "window", **sizes)


@pytest.mark.parametrize("kind", KINDS)
def test_a_new_opening_has_its_kinds_size_and_a_name_of_its_own(hall: Room, kind: OpeningKind) -> None:
    one = edits.add_opening(hall, kind, 1, 0.0)
    two = edits.add_opening(one, kind, 1, 3000.0)
    size = edits.DEFAULT_SIZES[kind]
    assert (two.openings[1].width_mm, two.openings[1].height_mm, two.openings[1].sill_mm) == (
        size.width_mm,
        size.height_mm,
        size.sill_mm,
    )
    assert two.openings[0].id != two.openings[1].id


def test_a_new_opening_is_kept_within_its_wall(hall: Room) -> None:
    assert edits.add_opening(hall, "door", 0, 99_999).openings[0].right_mm == 4000
    assert edits.add_opening(hall, "door", 0, -50).openings[0].left_mm == 0


def test_the_free_place_nearest_the_middle_overlaps_nothing(hall: Room) -> None:
    crowded = hall
    for _ in range(3):
        crowded = edits.add_opening(crowded, "door", 0, edits.free_left_mm(crowded, "door", 0))
    assert sorted(o.left_mm for o in crowded.openings) == [632, 1544, 2456]
    with pytest.raises(RoomError, match="no place left for a door"):
        edits.free_left_mm(crowded, "door", 0)
    nook = edits.rectangle("Nook", width_mm=900, depth_mm=900, clad_height_mm=2100)
    with pytest.raises(RoomError, match="no place left for an outlet"):
        edits.free_left_mm(edits.add_opening(nook, "door", 0, 0), "outlet", 0)


def test_removing_and_renaming_keep_the_rest_in_order(room: Room) -> None:
    assert [o.id for o in edits.remove_opening(room, "window").openings] == ["door", "outlet-1"]
    assert [o.id for o in edits.rename_opening(room, "window", "north light").openings] == ["door", "north light", "outlet-1"]


@pytest.mark.parametrize("name", ["", " front", "door", "x" * 41, "a\nb"])
def test_a_name_that_is_taken_or_malformed_is_refused(room: Room, name: str) -> None:
    with pytest.raises(RoomError):
        edits.rename_opening(room, "window", name)


def test_an_unknown_opening_is_named_in_the_refusal(room: Room) -> None:
    with pytest.raises(RoomError, match="no opening called attic"):
        edits.remove_opening(room, "attic")


def test_lengthening_a_wall_keeps_every_corner_square(room: Room) -> None:
    longer = edits.set_wall_length(room, 1, 3600)
    assert [longer.wall_length_mm(wall) for wall in range(4)] == [3048, 3600, 3048, 3600]


def test_shortening_a_wall_below_its_opening_names_the_opening(room: Room) -> None:
    with pytest.raises(RoomError, match=r"too short for door.*move or remove"):
        edits.set_wall_length(room, 1, 1990)


def test_a_step_makes_an_l_shaped_room_with_square_corners(hall: Room) -> None:
    stepped = edits.step_wall(hall, 1, 2000, 608)
    assert stepped.wall_count == 6
    for wall in range(6):
        (x0, y0), (x1, y1) = stepped.wall_ends_mm(wall)
        assert x0 == x1 or y0 == y1
    assert [stepped.wall_length_mm(wall) for wall in range(6)] == [4000, 2000, 608, 4000, 3392, 6000]


def test_a_step_carries_openings_to_the_part_that_holds_them(hall: Room) -> None:
    with_both = edits.add_opening(edits.add_opening(hall, "door", 1, 0), "window", 1, 4000)
    stepped = edits.step_wall(with_both, 1, 2000, 608)
    assert (stepped.opening("door").wall, stepped.opening("door").left_mm) == (1, 0)
    assert (stepped.opening("window").wall, stepped.opening("window").left_mm) == (3, 2000)


def test_a_corner_may_not_cut_an_opening(hall: Room) -> None:
    with_door = edits.add_opening(hall, "door", 1, 1500)
    with pytest.raises(RoomError, match="cut through door"):
        edits.insert_corner(with_door, 1, (2000, 4000))


def test_removing_an_inserted_corner_restores_the_room(room: Room) -> None:
    bent = edits.insert_corner(room, 1, (2500, 3048))
    assert bent.opening("door").wall == 4
    assert edits.remove_corner(bent, 2) == room


def test_a_triangle_keeps_its_corners() -> None:
    triangle = Room(name="Nook", corners_mm=((0, 0), (0, 3000), (3000, 0)), clad_height_mm=1980)
    with pytest.raises(RoomError, match="at least three corners"):
        edits.remove_corner(triangle, 0)


def test_moving_a_corner_square_takes_its_neighbours_along(hall: Room) -> None:
    moved = edits.move_corner(hall, 2, (6500, 4200), square=True)
    assert [moved.wall_length_mm(wall) for wall in range(4)] == [4200, 6500, 4200, 6500]


def test_walls_may_not_cross(hall: Room) -> None:
    with pytest.raises(RoomError, match="cross"):
        edits.move_corner(hall, 2, (-500, 2000))


def test_a_frame_for_one_wall_leaves_the_others_to_build(hall: Room) -> None:
    frame = RegularFrame(mode="regular", spacing_mm=600.0)
    framed = edits.set_frame(hall, 2, frame)
    assert framed.frames == (FrameToBuild(), FrameToBuild(), frame, FrameToBuild())


def test_a_kit_that_contradicts_itself_is_refused(hall: Room) -> None:
    with pytest.raises(RoomError, match="half_courses"):
        edits.set_kit(hall, half_courses=31)
    assert edits.set_kit(hall, fit_mm=2.0).kit.fit_mm == 2.0
    assert edits.set_rates(hall, handling=5.0).rates.handling == 5.0


def test_an_edit_that_changes_nothing_gives_the_very_room(room: Room) -> None:
    assert edits.set_name(room, room.name) is room
    assert edits.move_opening(room, "door", left_mm=1100) is room


@given(wall=st.integers(0, 3), length_mm=st.integers(300, 20_000), at_mm=st.integers(0, 20_000))
def test_every_room_an_edit_gives_is_valid_as_a_file_is(wall: int, length_mm: int, at_mm: int) -> None:
    hall = edits.rectangle("Hall", width_mm=6000, depth_mm=4000, clad_height_mm=2400)
    changed = edits.add_opening(edits.set_wall_length(hall, wall, length_mm), "window", wall, at_mm)
    assert Room.model_validate_json(changed.model_dump_json()) == changed


def test_removing_a_bend_keeps_openings_where_they_stood_along_it(hall: Room) -> None:
    with_door = edits.add_opening(hall, "door", 1, 4000)
    bent = edits.insert_corner(with_door, 1, (3000, 4150))
    assert bent.opening("door").wall == 2
    straight = edits.remove_corner(bent, 2)
    assert straight.corners_mm == hall.corners_mm
    assert straight == with_door


@given(x_mm=st.integers(3000, 90_000), y_mm=st.integers(3000, 90_000), thousandths=st.integers(0, 999))
def test_an_opening_can_be_pushed_to_the_very_end_of_a_slanting_wall(x_mm: int, y_mm: int, thousandths: int) -> None:
    corners = ((0.0, 0.0), (x_mm / 10 + thousandths / 1000, y_mm / 10), (9500.0, 0.0))
    room = edits.add_opening(Room(name="Nook", corners_mm=corners, clad_height_mm=1980), "outlet", 0, 99_999)
    outlet = room.openings[0]
    pushed = edits.move_opening(room, outlet.id, left_mm=edits.clamp_left_mm(room, 0, 99_999, outlet.width_mm))
    assert pushed.openings[0].right_mm == pytest.approx(room.wall_length_mm(0), abs=2e-4)


@given(x_mm=st.integers(1000, 6000), y_mm=st.integers(1000, 6000))
def test_an_opening_wider_than_a_slanting_wall_is_cut_to_it(x_mm: int, y_mm: int) -> None:
    corners = ((0.0, 0.0), (x_mm / 10, y_mm / 10), (9500.0, 0.0))
    room = edits.add_opening(Room(name="Nook", corners_mm=corners, clad_height_mm=2400), "door", 0, 0.0)
    assert room.openings[0].right_mm == pytest.approx(min(912.0, room.wall_length_mm(0)), abs=2e-4)


@given(x_mm=st.integers(3000, 90_000), y_mm=st.integers(3000, 90_000))
def test_a_slanting_wall_bends_whatever_stands_at_its_very_end(x_mm: int, y_mm: int) -> None:
    corners = ((0.0, 0.0), (x_mm / 10, y_mm / 10), (9500.0, 0.0))
    room = edits.add_opening(Room(name="Nook", corners_mm=corners, clad_height_mm=1980), "outlet", 0, 99_999)
    bent = edits.insert_corner(room, 0, (x_mm / 30, y_mm / 30))
    assert bent.openings[0].right_mm == pytest.approx(bent.wall_length_mm(1), abs=1e-3)


def test_a_wall_moves_parallel_and_its_neighbours_grow_along_themselves(hall: Room) -> None:
    moved = move_wall(hall, 1, 250)
    assert moved.corners_mm == ((0, 0), (0, 4250), (6000, 4250), (6000, 0))
    assert move_wall(moved, 1, -250) == hall


def test_a_wall_between_slanting_ones_keeps_their_directions() -> None:
    corners = ((0, 0), (1000, 3000), (4000, 3000), (5000, 0))
    moved = move_wall(Room(name="Den", corners_mm=corners, clad_height_mm=2000), 1, 300)
    assert moved.corners_mm == ((0, 0), (1100, 3300), (3900, 3300), (5000, 0))


def test_a_wall_may_not_be_pushed_through_the_one_across(hall: Room) -> None:
    with pytest.raises(RoomError):
        move_wall(hall, 1, -4000)


def test_a_wall_pushed_in_stops_at_an_opening_and_names_it(room: Room) -> None:
    with pytest.raises(RoomError, match="too short for door"):
        move_wall(room, 0, -1500)


@given(wall=st.integers(0, 3), out_mm=st.integers(-3000, 3000))
def test_moving_a_wall_changes_no_direction(wall: int, out_mm: int) -> None:
    hall = edits.rectangle("Hall", width_mm=6000, depth_mm=4000, clad_height_mm=2400)
    moved = move_wall(hall, wall, out_mm)
    for before, after in zip(range(4), range(4), strict=True):
        (x0, y0), (x1, y1) = hall.wall_ends_mm(before)
        (u0, v0), (u1, v1) = moved.wall_ends_mm(after)
        assert (x1 - x0) * (v1 - v0) == pytest.approx((y1 - y0) * (u1 - u0))


def test_only_four_walls_follow_from_one_diagonal(hall: Room) -> None:
    with pytest.raises(RoomError, match="6 walls"):
        set_diagonal(edits.step_wall(hall, 1, 3000, 608), 0, 5000)
