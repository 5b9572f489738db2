"""Rails of standing frames: typed on regular studs as on measured ones, and carried through edits of the plan."""

import re
from typing import Any

import pytest

from core import edits
from core.compare import differences
from core.edits.frames import rails_of
from core.edits.studs import set_rails, set_stud_width
from core.errors import RoomError
from core.files import load_room, save_room
from core.room import MeasuredFrame, RegularFrame, Room
from core.setout import sketch
from core.sheets.frames import frame_words


@pytest.fixture
def hall() -> Room:
    """Wall B, the upper one, is 4000 mm long."""
    return edits.rectangle("Hall", width_mm=4000, depth_mm=3000, clad_height_mm=2400)


@pytest.fixture
def measured(hall: Room) -> Room:
    return edits.set_frame(hall, 1, MeasuredFrame(mode="measured", centres_mm=(19.0, 1050.0, 3981.0)))


@pytest.fixture
def regular(hall: Room) -> Room:
    return edits.set_frame(hall, 1, RegularFrame(mode="regular", spacing_mm=600.0, first_centre_mm=300.0))


def railed(room: Room, wall: int, *rails_mm: float) -> Room:
    frame = RegularFrame(mode="regular", spacing_mm=600.0, first_centre_mm=600.0)
    return set_rails(edits.set_frame(room, wall, frame), wall, rails_mm)


def rails(room: Room, wall: int) -> tuple[float, ...]:
    return rails_of(room.frame(wall))


def test_both_parts_of_a_parted_regular_frame_have_its_rails(hall: Room) -> None:
    stepped = edits.step_wall(railed(hall, 1, 600.0, 1200.0), 1, 1000, 608)
    assert (rails(stepped, 1), rails(stepped, 2), rails(stepped, 3)) == ((600, 1200), (), (600, 1200))


def test_regular_frames_that_join_keep_the_rails_both_have(hall: Room) -> None:
    bent = edits.insert_corner(railed(hall, 1, 600.0, 1200.0), 1, (1500, 3000))
    joined = edits.remove_corner(set_rails(bent, 2, (1200.0, 1800.0)), 2)
    assert joined.frame(1).mode == "regular"
    assert rails(joined, 1) == (1200,)


def test_rails_of_a_regular_and_a_measured_frame_meet_in_the_joined_one(hall: Room) -> None:
    bent = railed(edits.insert_corner(hall, 1, (2000, 3000)), 1, 600.0, 1200.0)
    framed = edits.set_frame(bent, 2, MeasuredFrame(mode="measured", centres_mm=(100.0, 700.0), rails_mm=(1200.0,)))
    assert rails(edits.remove_corner(framed, 2), 1) == (1200,)


@pytest.mark.parametrize("kind", ["measured", "regular"])
@pytest.mark.parametrize(
    ("rails_mm", "said"),
    [
        ((900.0, 600.0), "600 mm comes after 900 mm; list the rails' centres in rising order from the floor"),
        ((900.0, 930.0), "rails at 900 mm and 930 mm would overlap; they are 38 mm wide"),
        ((900.0, 2390.0), "a rail at 2390 mm lies outside the frame of wall B; centres lie from 15.8 mm to 2381 mm"),
        ((5.0,), "a rail at 5 mm lies outside the frame of wall B; centres lie from 15.8 mm to 2381 mm"),
    ],
)
def test_rails_that_cannot_be_are_refused_on_any_standing_frame(
    kind: str, rails_mm: tuple[float, ...], said: str, request: Any
) -> None:
    room: Room = request.getfixturevalue(kind)
    with pytest.raises(RoomError, match=f"^{re.escape(said)}$"):
        set_rails(room, 1, rails_mm)


def test_a_frame_still_to_build_has_no_rails_to_set(hall: Room) -> None:
    with pytest.raises(RoomError, match="the frame of wall B is given in another way"):
        set_rails(hall, 1, (900.0,))


def test_rails_too_near_for_wider_timber_are_refused(regular: Room) -> None:
    with pytest.raises(RoomError, match="rails at 600 mm and 650 mm would overlap; they are 89 mm wide"):
        set_stud_width(set_rails(regular, 1, (600.0, 650.0)), 1, 89.0)


def test_a_lining_lowered_under_a_rail_is_refused_until_its_frame_is_said_to_be_higher(regular: Room) -> None:
    room = set_rails(regular, 1, (2000.0,))
    with pytest.raises(RoomError, match="the frame of wall B ends at 1500 mm, so no rail lies there"):
        edits.set_clad_height(room, 1500.0)
    assert rails(edits.set_clad_height(edits.set_frame_height(room, 2450.0), 1500.0), 1) == (2000,)


def test_rails_measured_above_the_lining_load_as_they_did(hall: Room, tmp_path: Any) -> None:
    high = MeasuredFrame(mode="measured", centres_mm=(19.0,), rails_mm=(2500.0,))
    save_room(edits.set_frame(hall, 1, high), tmp_path / "hall.room.json")
    assert rails(load_room(tmp_path / "hall.room.json"), 1) == (2500,)


def test_sheets_count_the_rails_of_regular_studs_and_a_comparison_names_them(regular: Room) -> None:
    room = set_rails(regular, 1, (600.0, 1200.0))
    assert frame_words(sketch(room), 1) == "standing: 38 mm studs every 600 mm, the first centred at 300 mm; 2 rails"
    (told,) = differences(regular, room)
    assert told.before == "studs every 600 mm from 300 mm, 38 mm timber"
    assert told.after == "studs every 600 mm from 300 mm, rails at 600, 1200, 38 mm timber"
