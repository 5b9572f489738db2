"""The room file's colours and rules, and the edits of them."""

import json
from pathlib import Path

import pytest

from core.colouring import BandRule, Colouring, PanelRule, PictureRule, RoomRule, WallRule
from core.edits import step_wall
from core.edits.colouring import (
    add_colour,
    add_rule,
    change_colour,
    change_rule,
    followed_colouring,
    move_rule,
    remove_colour,
    remove_rule,
    set_rest,
)
from core.edits.revise import build
from core.errors import RoomError, RoomFileError
from core.files import load_room, save_room
from core.room import Room
from tests.core.colour.pictures import coloured, noise, picture

MOSS = RoomRule(kind="room", colour="moss")


@pytest.fixture
def room(demo_room_path: Path) -> Room:
    return load_room(demo_room_path)


def test_a_room_file_without_colours_says_nothing_about_them(room: Room) -> None:
    assert room.colouring.is_plain


def test_colours_survive_saving_and_loading(room: Room, tmp_path: Path) -> None:
    rules = (
        MOSS,
        BandRule(kind="band", colour="sand", from_mm=100, to_mm=300, walls=(1,)),
        noise(20, 10, seed=1, way="dithered"),
    )
    room = coloured(room, *rules, rest="chalk")
    save_room(room, tmp_path / "coloured.room.json")
    assert load_room(tmp_path / "coloured.room.json") == room


def test_the_largest_picture_fits_a_room_file(room: Room, tmp_path: Path) -> None:
    room = coloured(room, noise(400, 250, seed=2))
    save_room(room, tmp_path / "large.room.json")
    assert load_room(tmp_path / "large.room.json") == room


@pytest.mark.parametrize(
    ("change", "words"),
    [
        ({"rules": [{"kind": "room", "colour": "mauve"}]}, "rules.0.colour 'mauve' is not in the list of colours"),
        ({"rest": "mauve"}, "rest 'mauve' is not in the list of colours"),
        ({"rules": [{"kind": "hue", "colour": "moss"}]}, "colouring.rules.0"),
        ({"rules": [{"kind": "band", "colour": "moss", "from_mm": 30, "to_mm": 30}]}, "must end above where it begins"),
        ({"rules": [{"kind": "wall", "colour": "moss", "wall": -1}]}, "colouring.rules.0.wall"),
        ({"rules": [{"kind": "panel", "colour": "moss", "wall": 0, "bottom_plates": 0, "left_pitches": 1e9}]}, "left_pitches"),
        ({"colours": []}, "colouring.colours"),
        ({"colours": [{"name": "a", "code": "A", "srgb": "#000000"}]}, "colouring.colours.0.code"),
        ({"colours": [{"name": "a", "code": "a", "srgb": "red"}]}, "colouring.colours.0.srgb"),
        ({"colours": [{"name": n, "code": "a", "srgb": "#000000"} for n in ("a", "b")]}, "code 'a' is used twice"),
    ],
)
def test_a_bad_file_says_where_and_what(change: dict[str, object], words: str, room: Room, tmp_path: Path) -> None:
    written = json.loads(room.model_dump_json()) | {"colouring": change}
    path = tmp_path / "bad.room.json"
    path.write_text(json.dumps(written))
    with pytest.raises(RoomFileError) as refused:
        load_room(path)
    assert words in str(refused.value)


@pytest.mark.parametrize(
    ("srgb", "columns", "words"),
    [
        ("AAAA", 2, "holds 3 bytes; 2 columns by 1 lines need 6"),
        ("this is no picture", 1, "srgb is not base64"),
        ("AAAA", 401, "columns"),
        ("AAAA" * 100_001, 400, "srgb"),
    ],
)
def test_a_picture_that_is_none_is_refused(srgb: str, columns: int, words: str) -> None:
    place = {"wall": 0, "left_mm": 0.0, "bottom_mm": 0.0, "width_mm": 10.0, "height_mm": 10.0, "name": "broken"}
    with pytest.raises(RoomError) as refused:
        build(PictureRule, kind="picture", columns=columns, lines=1, srgb=srgb, **place)
    assert words in str(refused.value)
    assert len(str(refused.value)) < 400


def test_a_colour_that_is_not_stocked_is_refused_and_nothing_is_lost(room: Room) -> None:
    room = change_colour(add_rule(room, MOSS), "plum", is_stocked=False)
    with pytest.raises(RoomError, match="'plum' is not stocked"):
        add_rule(room, RoomRule(kind="room", colour="plum"))
    with pytest.raises(RoomError, match="'moss' is not stocked"):
        change_colour(room, "moss", is_stocked=False)
    assert room.colouring.rules == (MOSS,)


def test_a_picture_needs_a_stocked_colour(room: Room) -> None:
    room = add_rule(room, picture([["#ffffff"]]))
    for colour in room.colouring.colours[1:]:
        room = change_colour(room, colour.name, is_stocked=False)
    with pytest.raises(RoomError, match="no colour is stocked"):
        change_colour(room, room.colouring.colours[0].name, is_stocked=False)


def test_a_wall_that_is_not_there_is_refused(room: Room) -> None:
    for rule in (
        WallRule(kind="wall", colour="moss", wall=9),
        BandRule(kind="band", colour="moss", from_mm=0, to_mm=9, walls=(9,)),
        PanelRule(kind="panel", colour="moss", wall=9, bottom_plates=0, left_pitches=0),
        picture([["#ffffff"]], wall=9),
    ):
        with pytest.raises(RoomError, match="wall J does not exist; the room has walls A to D"):
            add_rule(room, rule)


def test_rules_can_be_put_in_another_order(room: Room) -> None:
    names = ("moss", "sand", "plum")
    for name in names:
        room = add_rule(room, RoomRule(kind="room", colour=name))
    room = move_rule(room, 0, 2)
    assert [rule.colour for rule in room.colouring.rules if isinstance(rule, RoomRule)] == ["sand", "plum", "moss"]
    assert move_rule(room, 0, -7) == room
    assert remove_rule(room, 1).colouring.rules == (RoomRule(kind="room", colour="sand"), RoomRule(kind="room", colour="moss"))
    assert change_rule(room, 1, colour="fir").colouring.rules[1] == RoomRule(kind="room", colour="fir")
    for number in (-1, 3):
        with pytest.raises(RoomError, match="does not exist; there are 3"):
            remove_rule(room, number)


def test_rules_follow_a_colours_new_name(room: Room) -> None:
    room = change_colour(set_rest(add_rule(room, MOSS), "moss"), "moss", name="lichen")
    assert room.colouring.rules == (RoomRule(kind="room", colour="lichen"),)
    assert room.colouring.rest == "lichen"


def test_a_colour_in_use_stays(room: Room) -> None:
    with pytest.raises(RoomError, match="'moss' is not in the list"):
        remove_colour(add_rule(room, MOSS), "moss")
    assert "moss" not in [colour.name for colour in remove_colour(room, "moss").colouring.colours]
    with pytest.raises(RoomError, match="'mauve' is not in the list of colours; add it first"):
        remove_colour(room, "mauve")


def test_a_new_colour_gets_a_code_of_its_own(room: Room) -> None:
    for name in ("white two", "white three", "ÄÖÜ", "loo", "1234"):
        room = add_colour(room, name, "#ABCDEF")
    codes = [colour.code for colour in room.colouring.colours]
    assert len(set(codes)) == len(codes)
    assert not {"i", "l", "o"} & set(codes)


def test_as_many_colours_as_a_room_may_have_get_codes(room: Room) -> None:
    while len(room.colouring.colours) < 120:
        room = add_colour(room, f"red {len(room.colouring.colours)}", "#990000")
    with pytest.raises(RoomError, match="at most 120"):
        add_colour(room, "one too many", "#990000")


def test_rules_go_with_their_walls(room: Room) -> None:
    """Wall 1 is gone; wall 2 becomes wall 1 and begins 80 mm further right."""
    stays = (MOSS, BandRule(kind="band", colour="moss", from_mm=0, to_mm=9))
    room = coloured(
        room,
        *stays,
        WallRule(kind="wall", colour="moss", wall=1),
        BandRule(kind="band", colour="moss", from_mm=0, to_mm=9, walls=(1,)),
        BandRule(kind="band", colour="moss", from_mm=0, to_mm=9, walls=(1, 2)),
        WallRule(kind="wall", colour="moss", wall=2),
        PanelRule(kind="panel", colour="moss", wall=2, bottom_plates=0, left_pitches=38),
        picture([["#ffffff"]], wall=2, left_mm=100.0),
    )
    found = followed_colouring(room, lambda wall, mm: None if wall == 1 else (min(wall, 1), mm - 80.0 * (wall == 2)))
    assert found.rules == (
        *stays,
        BandRule(kind="band", colour="moss", from_mm=0, to_mm=9, walls=(1,)),
        WallRule(kind="wall", colour="moss", wall=1),
        PanelRule(kind="panel", colour="moss", wall=1, bottom_plates=0, left_pitches=28),
        picture([["#ffffff"]], wall=1, left_mm=20.0),
    )


def test_shipped_colours_are_told_apart_by_name_and_code() -> None:
    assert len({colour.code for colour in Colouring().colours}) == len(Colouring().colours)


def test_a_step_in_a_wall_takes_its_colours_along(room: Room) -> None:
    """Stepping wall A makes three walls of it; what was wall D is wall F then."""
    room = coloured(room, WallRule(kind="wall", colour="moss", wall=3), MOSS)
    stepped = step_wall(room, 0, 1000.0, 300.0)
    assert stepped.wall_count == 6
    assert stepped.colouring.rules == (WallRule(kind="wall", colour="moss", wall=5), MOSS)
