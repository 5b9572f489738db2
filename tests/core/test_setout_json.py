"""The set-out's JSON and the schedules: interfaces other programs and people rely on."""

import csv
import dataclasses
import io
import json
from collections import Counter
from itertools import pairwise
from pathlib import Path
from typing import Any

import pytest

from core.bond.result import Bond, Laid, Layer
from core.export.schedule import panels_csv, schedule_text
from core.export.setout_json import setout_document, setout_json, strength_document
from core.files import load_room, parse_room
from core.room import Room
from core.setout.result import Check, CrewMinutes, Design, Face, Mount, Panel, Row, SetOut, Tally, WallShell
from core.sheets.schedule import size_words


@pytest.fixture
def setout(demo_room_path: Path) -> SetOut:
    """Two panels of the demo room, made by hand: a shaped one with a cut-out and a corner."""
    outlet = Face(
        wall=0,
        outline=((57, 0), (95, 0), (95, 95), (57, 95)),
        holes=(((70, 90), (70, 94), (74, 94), (74, 90)),),
        mounts=(Mount(0, 58, 21, "stud"), Mount(0, 94, 21, None)),
    )
    left = Face(3, ((361, 0), (380, 0), (380, 95), (361, 95)), (), (Mount(3, 362, 21, "stud"),))
    right = Face(0, ((0, 0), (19, 0), (19, 95), (0, 95)), (), (Mount(0, 18, 21, "stud"),))
    walls = tuple(WallShell(wall, 3048.0, 380, 4.0, 4.00004, "inside", "inside") for wall in range(4))
    return SetOut(
        room=load_room(demo_room_path),
        rows=(Row(0, 0, 31, 95), Row(1, 95, 15, 47)),
        walls=walls,
        panels=(
            Panel("A-1-01", "C19x19-31", "corner", 0, 24.0, (left, right)),
            Panel("A-1-02", "S01", "shaped", 0, 18.99996, (outlet,)),
        ),
        designs=(Design("C19x19-31", "corner", 1, True), Design("S01", "shaped", 1, False)),
        tally=Tally(2, {"shaped": 1, "corner": 1}, 1),
        minutes=CrewMinutes(build=35.0, handling=8.0, setup=12.0, sliver=0.0, weak=0.0, blocking=6.0, bound=55.0),
        checks=(Check("warning", "mount-no-timber", "panel A-1-02", "one mounting point has no timber behind it"),),
        reveals=(),
        timber=(),
    )


def test_the_document_has_the_keys_other_programs_rely_on(setout: SetOut) -> None:
    document = setout_document(setout)
    assert list(document) == ["room", "rows", "walls", "panels", "designs", "variants", "tally", "minutes", "checks"]
    assert list(document["panels"][0]) == ["mark", "design", "variant", "kind", "row", "minutes", "faces"]
    assert list(document["panels"][0]["faces"][0]) == ["wall", "outline_mm", "holes_mm", "mounts"]
    assert list(document["minutes"]) == ["build", "handling", "setup", "sliver", "weak", "blocking", "total", "bound"]


def test_every_design_says_how_it_is_bonded(setout: SetOut) -> None:
    document = setout_document(setout)
    names = ["design", "kind", "count", "in_kit", "bricks", "courses", "mass_kg", "parts", "strength"]
    assert [list(design) for design in document["designs"]] == [names, names]
    assert list(document["tally"]) == ["panels", "by_kind", "designs_not_in_kit", "bricks"]


def test_a_designs_bricks_are_those_in_its_courses(setout: SetOut) -> None:
    document = setout_document(setout)
    for design in document["designs"]:
        assert Counter(part["type"] for course in design["courses"] for part in course) == design["bricks"]
    assert document["tally"]["bricks"] == sum(sum(design["bricks"].values()) for design in document["designs"])


def test_a_flat_designs_course_runs_from_its_left_end(setout: SetOut) -> None:
    """38 pitches, and one layer per course besides the plate and the cap course."""
    shaped = setout_document(setout)["designs"][1]
    assert len(shaped["courses"]) == 33
    assert shaped["courses"][0][0]["at"] == 0
    assert sum(part["length"] for part in shaped["courses"][0]) == 38
    assert set(shaped["courses"][0][0]) == {"at", "length", "type"}


def test_a_corner_designs_parts_say_on_which_leg_they_lie(setout: SetOut) -> None:
    corner = setout_document(setout)["designs"][0]
    assert {part["leg"] for part in corner["courses"][0]} == {0, 1}


def test_a_designs_mass_is_that_of_its_parts_and_plugs(setout: SetOut) -> None:
    shaped = setout_document(setout)["designs"][1]
    grams = {part.name: part.mass_g for part in setout.room.parts}
    laid = sum(grams[name] * count for name, count in shaped["bricks"].items())
    assert shaped["mass_kg"] == pytest.approx((laid + 2 * grams["plug"]) / 1000)


def test_a_designs_parts_stand_beside_the_fewest_there_could_be(setout: SetOut) -> None:
    """No part is longer than four pitches, so every layer takes at least a quarter of its pitches; two holes take a plug each."""
    shaped = setout_document(setout)["designs"][1]
    pitches = [len({x for one in course for x in range(one["at"], one["at"] + one["length"])}) for course in shaped["courses"]]
    assert shaped["parts"]["laid"] == sum(shaped["bricks"].values()) + 2
    assert sum(-(-length // 4) for length in pitches) + 2 <= shaped["parts"]["fewest"] <= shaped["parts"]["laid"]


def test_a_designs_strength_is_told_by_keys_other_programs_rely_on(setout: SetOut) -> None:
    corner, shaped = (design["strength"] for design in setout_document(setout)["designs"])
    names = ["bodies", "weakest_lap", "weakest_bed", "unsupported", "hanging", "held_by_few"]
    assert list(corner) == list(shaped) == names
    assert list(corner["weakest_lap"]) == ["course", "at", "leg", "knobs", "alike"]
    assert list(shaped["weakest_lap"]) == ["course", "at", "knobs", "alike"]
    assert list(shaped["weakest_bed"]) == ["course", "knobs", "alike"]
    assert list(shaped["unsupported"]) == ["course", "at", "length"]
    assert (corner["unsupported"], corner["hanging"], corner["held_by_few"]) == (None, 0, [])


def test_a_designs_strength_follows_from_its_courses(setout: SetOut) -> None:
    """Counted from the JSON alone: the cut-out of 4 pitches begins 13 pitches from the left, 30 to 31 courses up."""
    shaped = setout_document(setout)["designs"][1]
    covered = [{x for part in course for x in range(part["at"], part["at"] + part["length"])} for course in shaped["courses"]]
    knobs = [2 * len(lower & upper) for lower, upper in pairwise(covered)]
    strength = shaped["strength"]
    assert strength["weakest_bed"] == {
        "course": knobs.index(min(knobs)) + 1,
        "knobs": min(knobs),
        "alike": knobs.count(min(knobs)),
    }
    over = [(n, sorted(upper - lower)) for n, (lower, upper) in enumerate(pairwise(covered), start=1) if upper - lower]
    ((course, bare),) = over
    assert strength["unsupported"] == {"course": course, "at": bare[0], "length": len(bare)}
    assert bare == list(range(70 - 57, 74 - 57))


def test_a_part_that_nothing_holds_is_named() -> None:
    bond = Bond("strip", (8,), (Layer("course", 0, 3, (Laid("brick 2x4", 0, 0, 4), Laid("brick 2x4", 0, 4, 4))),), 2, (), 0)
    strength = strength_document(bond)
    assert (strength["bodies"], strength["weakest_bed"]) == (2, None)
    assert strength["held_by_few"] == [{"course": 0, "at": at, "type": "brick 2x4", "knobs": 0} for at in (0, 4)]


def test_the_room_reads_back(setout: SetOut) -> None:
    assert parse_room(json.dumps(setout_document(setout)["room"]).encode()) == setout.room


def test_rows_and_walls_are_in_millimetres(setout: SetOut) -> None:
    document = setout_document(setout)
    assert document["rows"][1] == {"z_mm": 304.0, "height_mm": 150.4, "courses": 15}
    assert document["walls"][2] == {"wall": 2, "length_mm": 3048.0, "pitches": 380, "start_mm": 4.0, "packing_mm": 4.0}


def test_faces_are_in_wall_local_millimetres(setout: SetOut) -> None:
    """Pitch line 57 is 4.0 + 57 x 8.0 mm from the corner; plate line 95 is 95 x 3.2 mm up; a hole is in mid-course."""
    panel = setout_document(setout)["panels"][1]
    assert panel["minutes"] == 19.0
    assert panel["faces"] == [
        {
            "wall": 0,
            "outline_mm": [[460.0, 0.0], [764.0, 0.0], [764.0, 304.0], [460.0, 304.0]],
            "holes_mm": [[[564.0, 288.0], [564.0, 300.8], [596.0, 300.8], [596.0, 288.0]]],
            "mounts": [
                {"x_mm": 468.0, "z_mm": 33.6, "lands_on": "stud", "remedy": None, "remedy_text": None, "moved_to": None},
                {
                    "x_mm": 756.0,
                    "z_mm": 33.6,
                    "lands_on": None,
                    "remedy": "none",
                    "remedy_text": "no timber in reach: add a stud, or hang it otherwise",
                    "moved_to": None,
                },
            ],
        }
    ]


def test_a_corner_panel_has_two_faces(setout: SetOut) -> None:
    assert [face["wall"] for face in setout_document(setout)["panels"][0]["faces"]] == [3, 0]


def test_the_minutes_add_up(setout: SetOut) -> None:
    minutes: dict[str, Any] = setout_document(setout)["minutes"]
    total, bound = minutes.pop("total"), minutes.pop("bound")
    assert total == sum(minutes.values()) == 61.0
    assert bound == 55.0


def test_no_zero_is_negative(setout: SetOut) -> None:
    walls = tuple(dataclasses.replace(wall, start_mm=-0.00001) for wall in setout.walls)
    assert "-0" not in json.dumps(setout_document(dataclasses.replace(setout, walls=walls))["walls"])


def test_the_text_is_the_document(setout: SetOut) -> None:
    assert json.loads(setout_json(setout)) == setout_document(setout)


def test_the_order_of_kinds_does_not_depend_on_the_solver(setout: SetOut) -> None:
    other = dataclasses.replace(setout, tally=Tally(2, {"corner": 1, "shaped": 1}, 1))
    assert setout_json(other) == setout_json(setout)


def test_the_csv_has_one_line_per_panel(setout: SetOut) -> None:
    corner, shaped = csv.DictReader(io.StringIO(panels_csv(setout)))
    assert (corner["wall"], corner["second_wall"], corner["second_right_mm"]) == ("D", "A", "156.0")
    assert (shaped["left_mm"], shaped["right_mm"], shaped["top_mm"]) == ("460.0", "764.0", "304.0")
    assert (shaped["mounting_points"], shaped["mounting_points_without_timber"]) == ("2", "1")


def test_a_leg_parted_by_an_opening_at_the_corner_is_measured_as_one(setout: SetOut) -> None:
    upper, lower = (
        Face(3, ((left, bottom), (380, bottom), (380, top), (left, top)), (), ())
        for left, bottom, top in ((361, 60, 95), (365, 0, 20))
    )
    corner = dataclasses.replace(setout.panels[0], faces=(upper, lower, setout.panels[0].faces[1]))
    parted = dataclasses.replace(setout, panels=(corner,))
    (line,) = csv.DictReader(io.StringIO(panels_csv(parted)))
    assert (line["wall"], line["left_mm"], line["bottom_mm"], line["second_wall"]) == ("D", "2892.0", "0.0", "A")
    assert size_words(parted, corner) == ("152 + 152 × 304", "19 + 19 × 31")


def test_the_schedule_names_every_mark_and_design(setout: SetOut) -> None:
    text = schedule_text(setout)
    assert "A-1       01     1      C19x19-31  corner" in text
    assert "A-1       02     1      S01        shaped" in text
    assert "2 panels of 2 designs, 1 of them not in the kit" in text
    assert "61 crew minutes (1.0 hours): build 35, handling 8, set-up 12, points without timber 6" in text


def test_the_schedule_follows_the_rooms_units(setout: SetOut) -> None:
    room = Room.model_validate(setout.room.model_copy(update={"display_units": "ft-in"}))
    text = schedule_text(dataclasses.replace(setout, room=room))
    assert "10' 0\"" in text
    assert " mm" not in text
