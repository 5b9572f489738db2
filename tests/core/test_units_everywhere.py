"""A room shown in feet and inches: no check and no advice says a length in millimetres, but of what is made in millimetres."""

import re
from collections.abc import Iterator
from functools import cache

import pytest

from app.cli import main
from core import edits
from core.advice import change_text
from core.advice.changes import Box, LengthChange, OpeningChange
from core.edits.timberwork import set_screw, set_stock
from core.frame import plan_of
from core.pins import RowsPin
from core.room import MeasuredFrame, Opening, RegularFrame, Room
from core.setout import solve
from core.setout.result import Check
from core.timberwork import Timberwork
from core.units import METRIC, in_units
from tests.core.setout.rooms import demo, opening, plan, rectangle
from tests.generate import SMALL_KIT, seeded_room

BARE = re.compile(r"\d mm\b|_mm\b")
MADE_METRIC = {"row-growth", "screw-unfit"}
"""Checks that name sizes too small for sixteenths, or a screw."""


def rooms() -> Iterator[Room]:
    """Rooms that together raise every check whose words name a length, and generated ones."""
    yield demo()
    yield rectangle(2000, 2000, height_mm=30.0)
    wide = RegularFrame(mode="regular", spacing_mm=5000.0)
    door = opening("door", 0, 700, 0, 608, 912)
    outlet = opening("outlet", 2, 10, 300, 60, 130)
    made = rectangle(2000, 2000, height_mm=912.0, openings=[door, outlet])
    made = edits.set_frame(made, 1, wide)
    made = edits.set_frame(made, 3, MeasuredFrame(mode="measured", centres_mm=(19.0, 1981.0), stud_mm=30.0))
    yield edits.set_frame_height(set_stock(set_screw(made, "3.5 mm countersunk chipboard screw"), [900.0]), 1000.0)
    yield made.model_copy(update={"timberwork": Timberwork(panel_tolerance_mm=0.5, frame_size="1x4")})
    yield made.model_copy(update={"pins": (RowsPin(kind="rows", courses=(31, 31, 31, 31)),)})
    slanted = plan((0, 0), (0, 2000), (1000, 3000), (3000, 3000), (3000, 0), openings=[opening("window", 1, 0, 100, 400, 150)])
    yield slanted
    yield rectangle(
        2000, 2000, openings=[Opening(id="low", kind="window", wall=0, left_mm=0, sill_mm=50, width_mm=300, height_mm=90)]
    )
    yield from (seeded_room(seed, kit=SMALL_KIT, standing=True) for seed in range(3))


@cache
def checks() -> tuple[Check, ...]:
    found: list[Check] = []
    for room in rooms():
        setout = solve(edits.set_units(room, "ft-in"))
        found += [*setout.checks, *plan_of(setout).checks]
    return tuple(found)


def test_no_check_says_a_length_in_millimetres() -> None:
    said = {in_units(check.text, "ft-in") for check in checks()}
    assert {text for text in said if BARE.search(text)} == set()
    assert {check.code for check in checks() if METRIC in check.text} <= MADE_METRIC


def test_these_rooms_raise_every_check_that_names_a_length() -> None:
    """The law above holds of something: each of these has figures in millimetres before it is read into the room's units."""
    named = {check.code for check in checks() if BARE.search(check.text)}
    assert named >= {
        *("head-gap", "no-row-stack", "pin-refused", "opening-past-lining", "opening-behind-lining"),
        *("timber-too-long", "timber-size-differs", "opening-meets-top-plate", "sole-strip", "heights-from-ring"),
        *("plate-too-small", "escape-size", "outlet-far"),
    }


def test_the_check_command_reads_its_findings_into_the_rooms_units(capsys: pytest.CaptureFixture[str], tmp_path: object) -> None:
    from pathlib import Path

    from core.files import save_room

    path = Path(str(tmp_path)) / "den.room.json"
    room = rectangle(2000, 2000, height_mm=310.0)
    for units, said in (("mm", "6.0 mm stay open"), ("ft-in", '1/4" stay open')):
        save_room(room.model_copy(update={"display_units": units}), path)
        main(["check", str(path)])
        assert said in capsys.readouterr().out


def test_a_move_too_small_for_sixteenths_is_not_called_none() -> None:
    move = OpeningChange(opening="door", way="right", distance_mm=0.3, box=Box(1000.3, 0.0, 912.0, 1980.0))
    assert change_text(move, "ft-in") == 'under 1/16" right'
    assert change_text(move, "mm") == "0.3 mm right"


def test_advice_is_in_the_rooms_units() -> None:
    assert (
        change_text(LengthChange(wall=0, length_mm=3048.0, distance_mm=25.4, way="shorter"), "ft-in")
        == '10\' 0" long, 1" shorter'
    )
