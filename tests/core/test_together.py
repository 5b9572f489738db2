"""Edits of several openings at once: all or none, and refusals that name each opening."""

from pathlib import Path

import pytest

from core import edits
from core.edits.together import (
    align_openings,
    free_shift_mm,
    put_on_wall,
    remove_openings,
    shift_openings,
    size_openings,
    stretch_openings,
)
from core.errors import RoomError
from core.files import load_room
from core.room import Room


@pytest.fixture
def room(demo_room_path: Path) -> Room:
    """The demo room with a second outlet, on the window's wall."""
    return edits.add_opening(load_room(demo_room_path), "outlet", 1, 200.0)


def test_a_shift_moves_all_by_as_much_and_nothing_else(room: Room) -> None:
    shifted = shift_openings(room, ("window", "outlet-1"), 16.0, -9.6)
    for name in ("window", "outlet-1"):
        before, after = room.opening(name), shifted.opening(name)
        assert (after.left_mm, after.sill_mm) == pytest.approx((before.left_mm + 16.0, before.sill_mm - 9.6))
        assert (after.wall, after.width_mm, after.height_mm) == (before.wall, before.width_mm, before.height_mm)
    assert shifted.opening("door") is room.opening("door")


def test_openings_that_move_together_do_not_meet_each_other_on_the_way(room: Room) -> None:
    beside = edits.move_opening(room, "outlet-2", left_mm=room.opening("window").left_mm - 60.0, sill_mm=1000.0)
    shifted = shift_openings(beside, ("window", "outlet-2"), -40.0, 0.0)
    assert shifted.opening("window").left_mm == beside.opening("window").left_mm - 40.0


def test_where_one_cannot_go_all_stay_and_the_refusal_names_it(room: Room) -> None:
    with pytest.raises(RoomError, match=r"window.*past the end of wall B"):
        shift_openings(room, ("window", "outlet-1"), 1500.0, 0.0)


@pytest.mark.parametrize(("right_mm", "up_mm"), [(1e5, 1e5), (-1e5, -1e5), (8.0, 9.6)])
def test_a_shift_kept_free_is_never_refused_at_a_walls_end(room: Room, right_mm: float, up_mm: float) -> None:
    names = ("window", "outlet-1", "outlet-2")
    kept = free_shift_mm(room, names, right_mm, up_mm)
    assert abs(kept[0]) <= abs(right_mm)
    assert abs(kept[1]) <= abs(up_mm)
    assert shift_openings(room, names, *kept).wall_count == 4


def test_sizes_typed_for_many_hold_for_each(room: Room) -> None:
    sized = size_openings(room, ("outlet-1", "outlet-2"), sill_mm=450.0, width_mm=80.0)
    assert {(o.sill_mm, o.width_mm) for o in sized.openings if o.kind == "outlet"} == {(450.0, 80.0)}
    assert {o.height_mm for o in sized.openings if o.kind == "outlet"} == {100.0}


def test_a_size_that_no_opening_can_have_is_refused_for_each_by_name(room: Room) -> None:
    with pytest.raises(RoomError) as refused:
        size_openings(room, ("outlet-1", "outlet-2"), width_mm=-1.0)
    assert [line.split(":")[0] for line in str(refused.value).splitlines()] == ["outlet-1", "outlet-2"]


def test_stretched_openings_keep_their_left_edges_and_sills(room: Room) -> None:
    wider = stretch_openings(room, ("window", "outlet-1"), 8.0, 9.6)
    for name in ("window", "outlet-1"):
        before, after = room.opening(name), wider.opening(name)
        assert (after.left_mm, after.sill_mm) == (before.left_mm, before.sill_mm)
        assert (after.width_mm, after.height_mm) == pytest.approx((before.width_mm + 8.0, before.height_mm + 9.6))


def test_levelled_sills_and_heads_are_those_of_the_one_they_are_levelled_with(room: Room) -> None:
    level = align_openings(room, ("outlet-1", "outlet-2", "window"), "sill", "window")
    assert {level.opening(name).sill_mm for name in ("outlet-1", "outlet-2")} == {room.opening("window").sill_mm}
    level = align_openings(room, ("outlet-1", "window"), "head", "window")
    assert level.opening("outlet-1").head_mm == pytest.approx(room.opening("window").head_mm)
    assert level.opening("outlet-1").height_mm == 100.0


def test_an_opening_higher_than_the_head_wanted_is_refused_with_what_would_fit(room: Room) -> None:
    with pytest.raises(RoomError, match=r"window is 608 mm high .* at most 400 mm would fit"):
        align_openings(room, ("outlet-1", "window"), "head", "outlet-1")


def test_openings_put_on_another_wall_keep_their_distance_from_its_left_end(room: Room) -> None:
    there = put_on_wall(room, ("window", "outlet-2"), 2)
    assert {o.id for o in there.openings if o.wall == 2} == {"window", "outlet-2"}
    assert there.opening("window").left_mm == room.opening("window").left_mm


def test_all_or_none_are_removed(room: Room) -> None:
    assert [o.id for o in remove_openings(room, ("window", "outlet-1")).openings] == ["door", "outlet-2"]
    with pytest.raises(RoomError, match="cellar hatch"):
        remove_openings(room, ("window", "cellar hatch"))
