"""A sketch near a set-out: sound wherever an opening goes, unchanged where nothing has changed, and no cheaper than the bound."""

from hypothesis import given, settings
from hypothesis import strategies as st

from core import edits
from core.errors import RoomError
from core.files import parse_room, room_text
from core.kit import Rates
from core.room import Room
from core.setout import sketch, solve
from core.setout.result import SetOut
from tests.generate import SMALL_KIT, TINY_KIT, rooms
from tests.reference.audit import audit

law = settings(max_examples=15, derandomize=True, deadline=None)
ROOMS = rooms(kit=TINY_KIT, most_pitches=40, most_rows=2) | rooms(kit=SMALL_KIT, most_pitches=50, most_rows=2, standing=True)
SHARE = st.floats(0.0, 1.0)
DEN = Room(name="den", corners_mm=((0.0, 0.0), (0.0, 2440.0), (3048.0, 2440.0), (3048.0, 0.0)), clad_height_mm=1980.0)


def moved(room: Room, which: float, along: float, up: float, wall: float) -> Room:
    """One opening somewhere else, maybe on another wall; the room as it is where that does not go."""
    if not room.openings:
        return room
    opening = room.openings[int(which * (len(room.openings) - 1))]
    there = int(wall * (room.wall_count - 1)) if wall > 0.5 else opening.wall
    left_mm = along * max(0.0, room.wall_length_mm(there) - opening.width_mm)
    try:
        return edits.move_opening(room, opening.id, wall=there, left_mm=left_mm, sill_mm=up * opening.sill_mm)
    except RoomError:
        return room


def joints(setout: SetOut, wall: int, row: int) -> set[int]:
    """Where the faces of one row of one wall begin and end."""
    faces = [face for panel in setout.panels if panel.row == row for face in panel.faces if face.wall == wall]
    return {x for face in faces for x in (face.left, face.right)}


@law
@given(ROOMS, SHARE, SHARE, SHARE, SHARE)
def test_a_sketch_near_a_set_out_is_sound_wherever_an_opening_goes(
    room: Room, which: float, along: float, up: float, wall: float
) -> None:
    there = moved(room, which, along, up, wall)
    assert audit(sketch(there, near=solve(room))) == []


@law
@given(ROOMS, SHARE, SHARE, SHARE, SHARE)
def test_no_sketch_near_a_set_out_is_cheaper_than_the_bound(
    room: Room, which: float, along: float, up: float, wall: float
) -> None:
    there = moved(room, which, along, up, wall)
    assert sketch(there, near=solve(room)).minutes.total >= solve(there).minutes.bound - 1e-6


@law
@given(ROOMS)
def test_a_sketch_of_the_same_room_is_the_set_out_itself(room: Room) -> None:
    near = solve(room)
    again = sketch(parse_room(room_text(room).encode()), near=near)
    assert (again.panels, again.designs, again.rows) == (near.panels, near.designs, near.rows)


def test_walls_without_the_dragged_opening_stand_still() -> None:
    room = edits.add_opening(DEN, "window", 1, 900.0)
    near = solve(room)
    for step in range(1, 12):
        there = sketch(edits.move_opening(room, "window", left_mm=900.0 + 31.0 * step), near=near)
        for wall in (0, 2, 3):
            assert all(joints(there, wall, row.index) == joints(near, wall, row.index) for row in near.rows)


def test_other_rates_are_sketched_from_the_beginning() -> None:
    near = solve(DEN)
    dearer = near.room.model_copy(update={"rates": Rates(setup=0.0)})
    assert sketch(dearer, near=near) == sketch(dearer)


def test_after_a_change_of_kit_rates_or_joints_nothing_is_kept() -> None:
    """What was divided by other rules is no place to stay near."""
    near = solve(DEN).divided
    assert near is not None
    assert near.serves(DEN.model_copy(update={"name": "another"}))
    for change in ({"kit": SMALL_KIT}, {"rates": Rates(handling=5.0)}, {"joints": "staggered"}):
        assert not near.serves(DEN.model_copy(update=change))
