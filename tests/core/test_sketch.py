"""Outlines from sketches and ready shapes, and rooms drawn anew round what they have."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core import edits
from core.edits.recess import add_recess
from core.edits.redraw import redraw
from core.edits.shapes import ALCOVE, BAY, L_SHAPE, RECTANGLE, SHAPES, U_SHAPE, Shape, shape_corners
from core.edits.sketch import Sketch, clockwise, floor_mm2
from core.errors import RoomError
from core.pins import JointPin, LegPin, RowsPin
from core.progress import PanelRecord, Progress, Step
from core.room import FrameToBuild, MeasuredFrame, Point, RegularFrame, Room
from core.setout import solve

SQUARE: tuple[Point, ...] = ((0, 0), (0, 3000), (3000, 3000), (3000, 0))


def sketched(*points: Point) -> Sketch:
    sketch = Sketch()
    for point in points:
        sketch = sketch.with_corner(point)
    return sketch


@pytest.fixture
def den() -> Room:
    """A reading den: door on D, window on B, outlet on A, standing studs on C."""
    room = edits.rectangle("Reading den", width_mm=4000, depth_mm=3000, clad_height_mm=2000)
    for kind, wall, left in (("door", 3, 1000), ("window", 1, 500), ("outlet", 0, 600)):
        room = edits.add_opening(room, kind, wall, left)
    return edits.set_frame(room, 2, RegularFrame(mode="regular", spacing_mm=600.0, first_centre_mm=300.0))


def test_a_sketch_closes_into_a_room_whichever_way_it_goes_round() -> None:
    assert sketched(*SQUARE).closed().corners_mm() == SQUARE
    backwards = sketched(*SQUARE[::-1]).closed().corners_mm()
    assert set(backwards) == set(SQUARE)
    assert backwards[0] == SQUARE[-1]
    assert Room(name="Den", corners_mm=backwards, clad_height_mm=2000).wall_count == 4


@pytest.mark.parametrize(
    ("point", "said"),
    [
        ((-500, 1000), "wall D would cross or touch wall A"),
        ((0, 1500), "wall D would cross or touch wall A"),
        ((3000, 2000), "wall D would run back over wall C"),
        ((3005, 1000), "wall D would be 5 mm long"),
        ((300_000, 1000), "wall D would be"),
    ],
)
def test_a_wall_that_will_not_do_is_refused_at_once(point: Point, said: str) -> None:
    with pytest.raises(RoomError, match=said):
        sketched((0, 0), (0, 3000), (3000, 3000), (3000, 1000)).with_corner(point)


def test_closing_is_refused_where_the_last_wall_would_cross() -> None:
    with pytest.raises(RoomError, match="wall D would cross or touch wall B"):
        sketched((0, 0), (3000, 0), (3000, 3000), (6000, 1000)).closed()


def test_two_corners_make_no_room() -> None:
    with pytest.raises(RoomError, match="fix at least three"):
        sketched((0, 0), (0, 3000)).closed()


def test_taking_back_opens_a_closed_sketch_and_then_takes_corners() -> None:
    closed = sketched(*SQUARE).closed()
    opened = closed.without_last()
    assert opened.points_mm == SQUARE
    assert not opened.is_closed
    assert opened.without_last().points_mm == SQUARE[:-1]
    with pytest.raises(RoomError, match="closed"):
        closed.with_corner((1, 1))


def test_a_corner_on_a_straight_line_is_none() -> None:
    assert clockwise([(0, 0), (0, 1000), (0, 3000), (3000, 3000), (3000, 0)]) == SQUARE


@given(st.lists(st.tuples(st.integers(-9, 9), st.integers(-9, 9)), min_size=1, max_size=14))
def test_whatever_a_sketch_accepts_is_a_room(moves: list[tuple[int, int]]) -> None:
    sketch = Sketch()
    for x, y in moves:
        try:
            sketch = sketch.with_corner((x * 500.0, y * 500.0))
        except RoomError:
            continue
    try:
        closed = sketch.closed()
    except RoomError:
        return
    room = Room(name="Sketch", corners_mm=closed.corners_mm(), clad_height_mm=2000)
    assert floor_mm2(room.corners_mm) == pytest.approx(floor_mm2(closed.points_mm))


@pytest.mark.parametrize("shape", SHAPES, ids=lambda shape: shape.name)
def test_every_ready_shape_is_a_room_that_can_be_lined(shape: Shape) -> None:
    corners = shape_corners(shape, shape.usual())
    assert len(solve(Room(name=shape.name, corners_mm=corners, clad_height_mm=1980)).panels) > 0


def test_a_bay_has_walls_at_45_degrees_and_the_sizes_typed() -> None:
    room = Room(name="Bay", corners_mm=shape_corners(BAY, BAY.usual()), clad_height_mm=1980)
    assert room.wall_length_mm(2) == pytest.approx(600 * math.sqrt(2), abs=1e-3)
    assert room.wall_length_mm(3) == 2700 - 2 * 600


@pytest.mark.parametrize("shape", SHAPES, ids=lambda shape: shape.name)
def test_a_size_lies_where_its_dimension_is_drawn(shape: Shape) -> None:
    sizes = {name: mm + 10 * number for number, (name, mm) in enumerate(shape.usual().items())}
    for size in shape.sizes:
        assert math.dist(*size.ends(sizes)) == pytest.approx(sizes[size.name])


@pytest.mark.parametrize(
    ("shape", "sizes", "said"),
    [
        (RECTANGLE, {"width": 0}, "width: 0 mm is no size"),
        (L_SHAPE, {"corner depth": 9000}, "corner depth: 9000 mm must be less than depth"),
        (U_SHAPE, {"left arm": 3000, "right arm": 3000}, r"left arm \+ right arm"),
        (ALCOVE, {"alcove from left": 4000}, "must be less than width"),
        (BAY, {"bay depth": 1400}, "bay depth"),
    ],
)
def test_sizes_that_make_no_such_shape_are_refused_by_name(shape: Shape, sizes: dict[str, float], said: str) -> None:
    with pytest.raises(RoomError, match=said):
        shape_corners(shape, {**shape.usual(), **sizes})


def test_the_same_walls_drawn_from_another_corner_the_other_way_give_the_very_room(den: Room) -> None:
    again = redraw(den, clockwise([(4000, 3000), (0, 3000), (0, 0), (4000, 0)]))
    assert again.room == den
    assert again.dropped == ()


def test_openings_and_studs_keep_their_walls_in_a_room_of_another_shape(den: Room) -> None:
    new = redraw(den, shape_corners(L_SHAPE, L_SHAPE.usual()))
    assert new.dropped == ()
    assert {o.id for o in new.room.openings} == {o.id for o in den.openings}
    assert [o.left_mm for o in new.room.openings] == [o.left_mm for o in den.openings]
    assert isinstance(new.room.frame(new.room.opening("door").wall - 1), RegularFrame)


def test_what_finds_no_place_is_named(den: Room) -> None:
    small = redraw(den, ((0, 0), (0, 3000), (1200, 3000), (1200, 0)))
    assert len(small.dropped) == 2
    assert small.dropped[0].startswith("door (ends at 1912 mm; wall D is 1200 mm long)")
    assert small.dropped[1].startswith("window")
    assert [o.id for o in small.room.openings] == ["outlet-1"]


def test_lost_frames_and_pins_are_named_too(den: Room) -> None:
    den = edits.set_frame(den, 0, MeasuredFrame(mode="measured", centres_mm=(500.0, 2900.0)))
    den = edits.add_pins(den, [JointPin(kind="joint", wall=0, x_mm=2800.0), RowsPin(kind="rows", courses=(31, 31))])
    new = redraw(den, ((0, 0), (0, 2000), (4000, 2000), (4000, 0)))
    assert "measured studs past the end of wall A" in new.dropped
    assert "1 pinned joints or panels" in new.dropped
    assert [pin.kind for pin in new.room.pins] == ["rows"]


@given(st.lists(st.tuples(st.integers(0, 8), st.integers(0, 8)), min_size=3, max_size=8, unique=True))
def test_every_opening_is_kept_or_named_whatever_is_drawn(places: list[tuple[int, int]]) -> None:
    room = edits.rectangle("Reading den", width_mm=4000, depth_mm=3000, clad_height_mm=2000)
    for kind, wall in (("door", 3), ("window", 1), ("outlet", 0), ("niche", 2)):
        room = edits.add_opening(room, kind, wall, 700)
    try:
        corners = clockwise([(x * 700.0, y * 700.0) for x, y in places])
    except RoomError:
        return
    new = redraw(room, corners)
    kept = {o.id for o in new.room.openings}
    for opening in room.openings:
        assert (opening.id in kept) != any(what.startswith(opening.id) for what in new.dropped)


def test_a_chimney_breast_comes_into_the_room_and_an_alcove_goes_out(den: Room) -> None:
    breast = add_recess(den, 1, left_mm=2000, width_mm=1200, depth_mm=-400)
    alcove = add_recess(den, 1, left_mm=2000, width_mm=1200, depth_mm=400)
    floor = 4000 * 3000
    assert floor_mm2(breast.corners_mm) == floor - 1200 * 400
    assert floor_mm2(alcove.corners_mm) == floor + 1200 * 400
    assert [round(breast.wall_length_mm(wall)) for wall in range(1, 6)] == [2000, 400, 1200, 400, 800]
    assert (breast.opening("window").wall, breast.opening("door").wall) == (1, 7)
    assert breast.frame(6) == den.frame(2)
    assert breast.frame(3) == FrameToBuild()


@pytest.mark.parametrize(
    ("sizes", "said"),
    [
        ((500.0, 600.0, 400.0), "side would cut through window"),
        ((100.0, 1000.0, 400.0), "position: 100 mm from the left corner leaves too little of wall B"),
        ((2000.0, 1900.0, 400.0), "leave 100 mm of wall B"),
        ((2000.0, 10.0, 400.0), "width: 10 mm is too narrow"),
        ((2000.0, 900.0, 4.0), "depth: 4 mm is too little"),
        ((2000.0, 900.0, -3000.0), "cross or touch"),
    ],
)
def test_a_recess_that_does_not_fit_says_which_size_is_wrong(den: Room, sizes: tuple[float, float, float], said: str) -> None:
    with pytest.raises(RoomError, match=said):
        add_recess(den, 1, left_mm=sizes[0], width_mm=sizes[1], depth_mm=sizes[2])


def test_an_opening_within_a_recess_goes_with_it(den: Room) -> None:
    alcove = add_recess(den, 1, left_mm=400, width_mm=2000, depth_mm=300)
    window = alcove.opening("window")
    assert (window.wall, window.left_mm) == (3, den.opening("window").left_mm - 400)


def test_pins_and_records_follow_their_walls_through_a_recess(den: Room) -> None:
    record = PanelRecord(wall=2, bottom_plates=0, left_pitches=40, design="full", steps=(Step(state="hung"),))
    den = den.model_copy(
        update={
            "pins": (
                JointPin(kind="joint", wall=1, x_mm=3500.0),
                JointPin(kind="joint", wall=2, x_mm=900.0),
                LegPin(kind="leg", wall=1, end="right", pitches=19),
                LegPin(kind="leg", wall=1, end="left", pitches=38),
            ),
            "progress": Progress(panels=(record,)),
        }
    )
    new = add_recess(den, 1, left_mm=2000, width_mm=1200, depth_mm=-400)
    assert new.pins == (
        JointPin(kind="joint", wall=5, x_mm=300.0),
        JointPin(kind="joint", wall=6, x_mm=900.0),
        LegPin(kind="leg", wall=5, end="right", pitches=19),
        LegPin(kind="leg", wall=1, end="left", pitches=38),
    )
    assert new.progress.panels == (record.model_copy(update={"wall": 6}),)


def test_no_record_of_the_crew_is_lost_or_given_to_another_wall(den: Room) -> None:
    records = tuple(
        PanelRecord(wall=wall, bottom_plates=0, left_pitches=40, design="full", steps=(Step(state="hung"),)) for wall in range(4)
    )
    den = den.model_copy(update={"progress": Progress(panels=records)})
    new = redraw(den, ((0, 0), (2000, 3000), (4000, 0)))
    assert len(new.room.progress.panels) == 4
    homed = [record for record in new.room.progress.panels if record.wall < 3]
    gone = [record for record in new.room.progress.panels if record.wall >= 500]
    assert len(homed) + len(gone) == 4
    assert f"the places of {len(gone)} panels that are already made" in new.dropped
    assert len(redraw(new.room, SQUARE).room.progress.panels) == 4


def test_a_removed_corner_takes_its_leg_pins_and_nothing_else(den: Room) -> None:
    bent = edits.insert_corner(den, 2, (4200, 1500))
    pins = (LegPin(kind="leg", wall=3, end="left", pitches=19), JointPin(kind="joint", wall=4, x_mm=100.0))
    straight = edits.remove_corner(bent.model_copy(update={"pins": pins}), 3)
    assert straight.pins == (JointPin(kind="joint", wall=3, x_mm=100.0),)
