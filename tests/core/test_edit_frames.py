"""Standing frames through edits of the plan: a stud stays where it stands, or is forgotten where it cannot."""

from typing import Any

import pytest

from core import edits
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
