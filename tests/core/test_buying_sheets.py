"""Buying and crew on paper: everything fits its frame, can be read, and adds up."""

import re
from functools import cache

import pytest

from core.buying import purchasing
from core.crew import crew_plan
from core.drawing import Sheet, Text, item_box
from core.edits import move_opening
from core.edits.buying import set_purchase, set_supplier
from core.edits.crew import set_crew
from core.edits.progress import mark_panels, record_wrong
from core.progress import WrongPanel
from core.purchase import Offer, Supplier
from core.room import Room
from core.setout import solve
from core.setout.result import SetOut
from core.sheets.buying_crew import day_words
from core.sheets.buying_kits import again
from core.sheets.buying_pages import buying_sheets
from core.sheets.draft import finish
from core.sheets.flow import heading_and_words as kit_head
from core.takeoff import take_off
from tests.core.crew.small import small_room
from tests.core.takeoff.guessed import guessed_parts

NAMES = ("small", "feet", "priced", "nobody", "nobody hangs", "all hung", "half way", "crowded")


@cache
def setout_of(name: str) -> SetOut:
    return solve(_room(name))


def _room(name: str) -> Room:
    room = small_room()
    if name == "crowded":
        step = (
            (0, 0),
            (0, 700),
            (600, 700),
            (600, 1400),
            (1300, 1400),
            (1300, 700),
            (1900, 700),
            (1900, 0),
            (1300, 0),
            (1300, -600),
        )
        corners = tuple((float(x), float(y)) for x, y in (*step, (600, -600), (600, 0)))
        return Room(name="crowded", corners_mm=corners, clad_height_mm=2540.0, kit=room.kit, crew=room.crew)
    if name == "feet":
        return room.model_copy(update={"display_units": "ft-in"})
    if name == "nobody":
        return set_crew(room, people=())
    if name == "nobody hangs":
        return set_crew(room, people=(room.crew.people[0].model_copy(update={"duty": "build"}),))
    if name == "all hung":
        setout = solve(room)
        return mark_panels(setout, [panel.mark for panel in setout.panels], "hung", guessed_parts(setout))
    if name == "half way":
        return _half_way(room)
    if name == "priced":
        long = "A supplier with a name that goes on and on and on, sixty signs"
        offers = tuple(Offer(part=part.name, pack=7, price=12345.678, most_packs=40) for part in room.parts)
        return set_purchase(set_supplier(room, Supplier(name=long[:60], offers=offers)), budget=1.0, currency="MMMMMMMM")
    return room


def _half_way(room: Room) -> Room:
    """The first row hung, some of the second built; then the window moves, and two panels have come out wrong."""
    setout = solve(room)
    rows = [[panel.mark for panel in setout.panels if panel.row == row] for row in (0, 1)]
    parts = guessed_parts(setout)
    setout = solve(mark_panels(setout, rows[0], "built", parts, on="2027-05-31"))
    setout = solve(mark_panels(setout, rows[0], "hung", parts, on="2027-06-01"))
    room = mark_panels(setout, rows[1][::2], "checked", parts, on="2027-06-02")
    room = record_wrong(room, WrongPanel(meant_for="full", widths_pitches=(16,), courses=14))
    room = record_wrong(room, WrongPanel(meant_for="full", widths_pitches=(3, 5), courses=2, note="odd"))
    return move_opening(room, "window", left_mm=130.0)


@cache
def sheets_of(name: str) -> tuple[Sheet, ...]:
    setout = setout_of(name)
    parts = guessed_parts(setout)
    takeoff = take_off(setout, parts)
    drafts = buying_sheets(setout, takeoff, purchasing(setout, takeoff), crew_plan(setout))
    return finish(setout.room, drafts, None)


def words(sheet: Sheet) -> list[str]:
    return [item.text for item in sheet.items if isinstance(item, Text)]


@pytest.mark.parametrize("name", NAMES)
def test_nothing_leaves_its_frame(name: str) -> None:
    for sheet in sheets_of(name):
        for item in sheet.items:
            assert sheet.paper.frame.holds(item_box(item), 0.5), (sheet.code, item)


@pytest.mark.parametrize("name", NAMES)
def test_no_words_lie_on_words(name: str) -> None:
    for sheet in sheets_of(name):
        texts = sorted((item_box(item) for item in sheet.items if isinstance(item, Text)), key=lambda box: box.top)
        for number, box in enumerate(texts):
            for other in texts[number + 1 : number + 40]:
                assert not box.overlaps(other, 0.3), sheet.code


@pytest.mark.parametrize("name", NAMES)
def test_every_sheet_has_a_code_of_its_own(name: str) -> None:
    codes = [sheet.code for sheet in sheets_of(name)]
    assert len(set(codes)) == len(codes)
    assert codes[0].startswith("take-off")


def test_the_list_shows_what_the_room_takes() -> None:
    setout = setout_of("small")
    takeoff = take_off(setout, guessed_parts(setout))
    shown = words(sheets_of("small")[0])
    for item, count in takeoff.room.items():
        at = shown.index(item.name)
        assert shown[at + 1].replace("\u00a0", "") == f"{count}"


def test_kits_name_every_panel_once() -> None:
    setout = setout_of("small")
    text = " ".join(word for sheet in sheets_of("small") if sheet.code.startswith("kitting") for word in words(sheet))
    assert sorted(re.findall(r"[A-D]-\d-\d\d", text)) == sorted(panel.mark for panel in setout.panels)


def test_no_cost_is_shown_where_nobody_gave_a_price() -> None:
    shown = " ".join(words(sheets_of("small")[0]))
    assert "no price given" in shown
    assert "cost, shipping included" not in shown


def test_an_overdrawn_budget_comes_with_ways_under_it() -> None:
    shown = [word for sheet in sheets_of("priced") for word in words(sheet)]
    assert "over the budget" in shown
    assert any(word.startswith("saves ") for word in shown)
    assert any(word.startswith("cannot be sent: ") for word in shown)


@pytest.mark.parametrize(
    ("name", "says"),
    [("nobody", "No people are named"), ("nobody hangs", "cannot be finished"), ("all hung", "nothing is left to plan")],
)
def test_a_crew_that_cannot_be_planned_says_why(name: str, says: str) -> None:
    crew = next(sheet for sheet in sheets_of(name) if sheet.code.startswith("crew"))
    assert says in " ".join(words(crew))


def test_a_report_half_way_names_what_has_no_place_and_what_came_out_wrong() -> None:
    shown = [word for sheet in sheets_of("half way") if sheet.code.startswith("progress") for word in words(sheet)]
    assert "Panels without a place" in shown
    assert "Panels built wrong" in shown
    assert "nothing still to build: take it apart" in shown
    assert any(word.startswith("Pace so far: ") for word in shown)
    assert not any(sheet.code.startswith("progress") for sheet in sheets_of("small"))


def test_dates_are_words_that_nobody_can_turn_round() -> None:
    assert day_words("2027-05-31") == "Mon 31 May"
    assert day_words(None) == ""


def test_what_a_kit_is_for_is_never_cut_short() -> None:
    what = "2 × full, 1 × corner 8+11 x 31, 1 × outside corner 8+11 x 31, 1 × half-width, 1 × closer 31 x 31"
    said = " ".join(item.text for line in kit_head("Kit 13", what, 175.0) for item in line.items if isinstance(item, Text))
    assert said == f"Kit 13 {what}."
    assert [item.text for item in again("Kit 13, more rounds", what, 175.0).items if isinstance(item, Text)] == [
        "Kit 13, more rounds"
    ]
    assert [item.text for item in again("Kit 13, more rounds", "4 × full", 175.0).items if isinstance(item, Text)] == [
        "Kit 13, more rounds: 4 × full"
    ]
