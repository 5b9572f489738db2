"""Copies of openings: unique names, distances kept, and nothing put up where one of them does not fit."""

import json
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core import edits
from core.edits.copying import copy_wall, free_name, paste_openings
from core.edits.together import size_openings
from core.errors import RoomError
from core.files import load_room, room_text
from core.openings_text import openings_text, read_openings
from core.room import Opening, Room
from tests.generate import TINY_KIT, rooms


@pytest.fixture
def room(demo_room_path: Path) -> Room:
    """The demo room with an outlet beside its window."""
    return edits.add_opening(load_room(demo_room_path), "outlet", 1, 200.0)


@pytest.fixture
def narrow() -> Room:
    return edits.rectangle("Closet", width_mm=900.0, depth_mm=2000.0, clad_height_mm=1980.0)


def on(room: Room, wall: int) -> list[Opening]:
    return [o for o in room.openings if o.wall == wall]


def test_openings_come_back_from_the_clipboards_text_as_they_were(room: Room) -> None:
    assert read_openings(openings_text(room.openings)) == room.openings


def test_the_clipboards_text_is_what_the_room_file_holds(room: Room) -> None:
    assert json.loads(openings_text(room.openings))["openings"] == json.loads(room_text(room))["openings"]
    assert read_openings(room_text(room)) == room.openings


@pytest.mark.parametrize(
    ("text", "words"),
    [
        ("a shopping list", "holds no openings; copy openings first"),
        ("[]", "holds no openings"),
        ('{"walls": 3}', "holds no openings"),
        ('{"openings": [{"id": "x"}]}', r"openings\.0"),
        ('[{"id":"x","kind":"hatch","wall":0,"left_mm":0,"sill_mm":0,"width_mm":1,"height_mm":1}]', r"openings\.0\.kind"),
        ('[{"id":"x","kind":"door","wall":0,"left_mm":0,"sill_mm":0,"width_mm":-1,"height_mm":1}]', r"openings\.0\.width_mm"),
        ("[" * 5000, "holds no openings"),
        ("x" * 3_000_000, "too long"),
    ],
)
def test_text_that_holds_no_openings_is_refused_with_what_would_do(text: str, words: str) -> None:
    with pytest.raises(RoomError, match=words):
        read_openings(text)


def test_text_that_names_an_opening_twice_is_refused(room: Room) -> None:
    with pytest.raises(RoomError, match="names window twice"):
        read_openings(openings_text([room.opening("window")] * 2))


def test_pasted_on_another_wall_openings_stand_where_they_stood_on_theirs(room: Room) -> None:
    pasted = paste_openings(room, on(room, 1), 2)
    assert [(o.id, o.left_mm, o.sill_mm) for o in on(pasted, 2)] == [
        ("window-1", room.opening("window").left_mm, 912.0),
        ("outlet-3", 200.0, 300.0),
    ]


def test_pasted_on_their_own_wall_they_go_to_the_nearest_place_free_for_all_of_them(room: Room) -> None:
    (outlet,) = [o for o in on(room, 1) if o.kind == "outlet"]
    pasted = paste_openings(room, [outlet], 1)
    assert abs(pasted.openings[-1].left_mm - outlet.left_mm) == outlet.width_mm


def test_pasted_openings_keep_their_distances_wherever_they_go(room: Room) -> None:
    small = size_openings(room, ("window",), width_mm=304.0)
    pair = on(small, 1)
    one, other = paste_openings(small, pair, 0, 700.0).openings[-2:]
    assert other.left_mm - one.left_mm == pair[1].left_mm - pair[0].left_mm
    assert min(one.left_mm, other.left_mm) == 700.0


def test_openings_of_several_walls_go_as_many_walls_further_on(room: Room) -> None:
    cut = room.model_copy(update={"openings": ()})
    pasted = paste_openings(cut, [room.opening("outlet-1"), room.opening("window")], 2)
    assert [(o.id, o.wall) for o in pasted.openings] == [("outlet-1", 2), ("window", 3)]


def test_what_is_too_wide_for_the_wall_is_refused_by_name_with_what_would_fit(room: Room, narrow: Room) -> None:
    with pytest.raises(RoomError, match=r"window is 912 mm wide and wall B 900 mm long; at most 900 mm would fit"):
        paste_openings(narrow, on(room, 1), 1)


def test_a_wall_that_is_full_is_refused_by_what_fills_it(narrow: Room) -> None:
    wide = edits.add_opening(narrow, "window", 1, 0.0)
    with pytest.raises(RoomError, match=r"no place 304 mm wide left for niche beside window"):
        paste_openings(wide, [Opening(id="niche", kind="niche", wall=0, left_mm=0, sill_mm=912, width_mm=304, height_mm=304)], 1)


def test_a_wall_copied_to_another_has_the_same_openings_there(room: Room) -> None:
    copied = copy_wall(room, 1, [2])
    assert [(o.kind, o.left_mm, o.sill_mm) for o in on(copied, 2)] == [(o.kind, o.left_mm, o.sill_mm) for o in on(room, 1)]
    assert on(copied, 1) == on(room, 1)


def test_a_mirrored_copy_stands_as_far_from_the_right_end(room: Room) -> None:
    copied = copy_wall(room, 1, [2], mirrored=True)
    ends = [room.wall_length_mm(2) - o.right_mm for o in on(copied, 2)]
    assert ends == pytest.approx([o.left_mm for o in on(room, 1)])


def test_a_copy_onto_a_shorter_wall_names_every_opening_that_does_not_fit(room: Room) -> None:
    longer = edits.set_wall_length(room, 0, 4000.0)
    far = edits.move_opening(longer, "outlet-1", left_mm=3500.0)
    with pytest.raises(RoomError, match=r"outlet-1 would run .* on wall B, which is 3048 mm long; .* 0 mm to 2988 mm would fit"):
        copy_wall(far, 0, [2, 1])


def test_a_copy_over_an_opening_says_where_it_would_fit(room: Room) -> None:
    with pytest.raises(RoomError, match=r"window would overlap door on wall D; a left edge at [\d.]+ mm would fit"):
        copy_wall(room, 1, [3])


def test_a_wall_without_openings_has_none_to_copy(room: Room) -> None:
    with pytest.raises(RoomError, match="wall C has no openings"):
        copy_wall(room, 2, [1])


@pytest.mark.parametrize(
    ("name", "taken", "free"),
    [
        ("window", set(), "window"),
        ("window", {"window"}, "window-1"),
        ("outlet-1", {"outlet-1", "outlet-2"}, "outlet-3"),
        ("x" * 40, {"x" * 40}, "x" * 38 + "-1"),
    ],
)
def test_a_taken_name_gets_the_first_free_number(name: str, taken: set[str], free: str) -> None:
    assert free_name(name, taken) == free


@given(rooms(kit=TINY_KIT), st.integers(0, 3))
def test_a_paste_adds_every_opening_under_a_name_of_its_own_or_changes_nothing(room: Room, wall: int) -> None:
    if not room.openings:
        return
    try:
        pasted = paste_openings(room, room.openings, wall % room.wall_count)
    except RoomError as refusal:
        assert any(o.id in str(refusal) for o in room.openings)  # noqa: PT017
    else:
        assert len({o.id for o in pasted.openings}) == 2 * len(room.openings)
        assert pasted.openings[: len(room.openings)] == room.openings


def test_pasted_openings_follow_the_order_in_which_they_were_copied(room: Room) -> None:
    """Not that of their walls: a list of openings reads as somebody made it."""
    copied = sorted(room.openings, key=lambda opening: -opening.wall)
    assert [o.wall for o in copied] != sorted(o.wall for o in copied)
    bare = room.model_copy(update={"openings": ()})
    pasted = paste_openings(bare, copied, copied[0].wall)
    assert [opening.id for opening in pasted.openings] == [opening.id for opening in copied]
