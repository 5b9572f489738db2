"""The reading den of the user guide, stage by stage: every stage is the one before it and the edits the guide asks for."""

import json
from datetime import date, timedelta

from app.assets import asset
from core.bond.bonds import bond_for
from core.colouring import BandRule, WallRule
from core.crew.standing import standing
from core.edits.buying import set_purchase
from core.edits.colouring import add_rule, set_rest
from core.edits.crew import set_crew
from core.edits.openings import move_opening
from core.edits.pins import add_pins, pins_for
from core.edits.progress import mark_panels
from core.edits.revise import build
from core.edits.settings import set_frame
from core.files import parse_room
from core.progress import PanelState
from core.room import RegularFrame, Room
from core.setout import solve
from core.setout.result import SetOut
from core.workforce import Person

MEASURED_LIST = "2440 R 3048 R 2440 R 3046 R"
"""As the tape had it: the last wall misses the first corner by 2 mm."""
WALL_C = 2
DOOR_WALL = 3
BEGINS = date(2027, 6, 7)
TODAY = BEGINS + timedelta(days=2)
BUDGET = 3_000.0

_EMPTY = {
    "format": "coursewright-room",
    "version": 1,
    "name": "Reading den",
    "corners_mm": [[0, 0], [0, 2440], [3048, 2440], [3048, 0]],
    "clad_height_mm": 2130,
}
_OPENINGS = (
    {"id": "door", "kind": "door", "wall": 3, "left_mm": 1100, "sill_mm": 0, "width_mm": 912, "height_mm": 1980},
    {"id": "window", "kind": "window", "wall": 1, "left_mm": 1068, "sill_mm": 912, "width_mm": 912, "height_mm": 912},
    {"id": "outlet", "kind": "outlet", "wall": 0, "left_mm": 700, "sill_mm": 300, "width_mm": 60, "height_mm": 100},
)


def empty() -> Room:
    """Four walls."""
    return parse_room(json.dumps(_EMPTY).encode())


def as_measured() -> Room:
    """The openings where they were first thought of."""
    return parse_room(json.dumps({**_EMPTY, "openings": _OPENINGS}).encode())


def advised() -> Room:
    """Door and outlet moved as the advice says."""
    return move_opening(move_opening(as_measured(), "door", left_mm=1068), "outlet", sill_mm=304)


def held() -> Room:
    """The outlet aside from the joint whose stud it kept away: every screw has a remedy."""
    return move_opening(advised(), "outlet", left_mm=672)


def with_standing_wall() -> Room:
    """What if wall C stood already, with studs at 400 mm?"""
    return set_frame(held(), WALL_C, build(RegularFrame, mode="regular", spacing_mm=400.0, first_centre_mm=19.0))


def pinned(mark: str) -> Room:
    """One panel pinned where it stands."""
    setout = solve(held())
    panel = next(panel for panel in setout.panels if panel.mark == mark)
    return add_pins(setout.room, pins_for(setout, panel))


def coloured() -> Room:
    """Sand, wall D in moss, and over both a dark band along the floor."""
    room = set_rest(held(), "sand")
    room = add_rule(room, build(WallRule, kind="wall", colour="moss", wall=DOOR_WALL))
    return add_rule(room, build(BandRule, kind="band", colour="umber", from_mm=0, to_mm=304))


def priced() -> Room:
    """With the invented suppliers of the demo room, and a budget; nothing has come yet."""
    demo = parse_room(asset("demo.room.json").read_bytes()).stock
    return set_purchase(held(), suppliers=demo.suppliers, currency=demo.currency, budget=BUDGET)


def manned() -> Room:
    """With three people, one of whom only builds."""
    people = (
        build(Person, name="Hazel", hours_per_day=4),
        build(Person, name="Rowan", hours_per_day=6, duty="build"),
        build(Person, name="Bryony", hours_per_day=5),
    )
    return set_crew(priced(), people=people, starts_on=BEGINS.isoformat(), learning_rate=0.9)


def under_way() -> Room:
    """On the morning of the third day: two rows hang all round, the third hangs on walls A and B, a fourth is begun."""
    setout = solve(manned())
    rows = [[panel.mark for panel in setout.panels if panel.row == row] for row in range(4)]
    a_and_b = [mark for mark in rows[2] if mark[0] in "AB"]
    days: tuple[tuple[list[str], PanelState, int, str], ...] = (
        (rows[0], "hung", 0, "Bryony"),
        (rows[1], "hung", 1, "Hazel"),
        (a_and_b, "hung", 1, "Hazel"),
        ([mark for mark in rows[2] if mark not in a_and_b], "checked", 1, "Rowan"),
        (rows[3][:12], "built", 1, "Rowan"),
    )
    for marks, state, day, who in days:
        setout = _marked(setout, marks, state, BEGINS + timedelta(days=day), who)
    return setout.room


def changed_in_mid_build() -> Room:
    """The outlet moved to the right, to where panels hang."""
    return move_opening(under_way(), "outlet", left_mm=1000)


def next_to_build(setout: SetOut) -> str:
    """The mark of the first full panel still to build."""
    states = standing(setout).by_mark
    return next(panel.mark for panel in setout.panels if panel.kind == "full" and states[panel.mark] == "to build")


def _marked(setout: SetOut, marks: list[str], state: PanelState, day: date, who: str) -> SetOut:
    designs = {panel.design for panel in setout.panels if panel.mark in marks}
    parts = {design: bond_for(setout, design).parts for design in designs}
    return solve(mark_panels(setout, marks, state, parts, on=day.isoformat(), by=who))
