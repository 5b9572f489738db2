"""The demo room with something in every section of its file."""

import base64
from functools import cache

from app.assets import asset
from core import edits
from core.colouring import BandRule, PanelRule, PictureRule, RoomRule, WallRule
from core.edits.colouring import add_rule
from core.edits.crew import note_timing, set_crew, set_person
from core.edits.progress import mark_panels, record_wrong
from core.edits.timberwork import put_reading, set_kerf
from core.files import load_room
from core.pins import JointPin, LegPin, PanelPin
from core.progress import PanelState, WrongPanel
from core.room import MeasuredFrame, Room
from core.setout import sketch
from core.workforce import Person

COLUMNS, LINES = 60, 40


@cache
def rich_room() -> Room:
    """A valid room that uses every section; some of its pins and colours may hold nothing."""
    return _with_progress(_with_colours(_with_wishes(load_room(asset("demo.room.json")))))


def _with_wishes(room: Room) -> Room:
    room = edits.set_frame(room, 1, MeasuredFrame(mode="measured", centres_mm=(20.0, 600.0, 1210.5), rails_mm=(19.0, 950.0)))
    room = edits.add_pins(
        room,
        (
            JointPin(kind="joint", wall=0, x_mm=304.0, z_mm=100.0),
            PanelPin(kind="panel", wall=2, left_mm=400.0, width_pitches=38),
            LegPin(kind="leg", wall=0, end="left", pitches=19, z_mm=100.0),
        ),
    )
    for x_mm, z_mm in ((0.0, 0.0), (1500.0, 1000.0), (3000.0, 1900.0)):
        room = put_reading(room, 0, None, x_mm=x_mm, z_mm=z_mm, depth_mm=x_mm / 1000)
    room = set_kerf(edits.set_frame_height(room, 2150.0), 3.5)
    room = set_person(room, Person(name="Kim", hours_per_day=5.5, starts_on="2027-05-31", duty="build"))
    return set_crew(room, starts_on="2027-05-31", days_off=("2027-06-02",))


def _with_colours(room: Room) -> Room:
    cells = bytes((x * y + shade * 40) % 256 for y in range(LINES) for x in range(COLUMNS) for shade in range(3))
    for rule in (
        RoomRule(kind="room", colour="chalk"),
        WallRule(kind="wall", colour="sand", wall=1),
        BandRule(kind="band", colour="fir", from_mm=0.0, to_mm=300.0, walls=(0, 2)),
        PanelRule(kind="panel", colour="moss", wall=0, bottom_plates=0, left_pitches=19, layers=(1, 2)),
        PictureRule(
            kind="picture",
            name="waves",
            wall=2,
            left_mm=500.0,
            bottom_mm=400.0,
            width_mm=960.0,
            height_mm=640.0,
            way="dithered",
            columns=COLUMNS,
            lines=LINES,
            srgb=base64.b64encode(cells).decode("ascii"),
        ),
    ):
        room = add_rule(room, rule)
    return room


def _with_progress(room: Room) -> Room:
    setout = sketch(room)
    parts = {panel.design: {"brick 2x4": 7, "plate 2x2": 3} for panel in setout.panels}
    marks = [panel.mark for panel in setout.panels]
    room = note_timing(setout, setout.panels[0].design, 12.5, on="2027-05-31")
    wrong = WrongPanel(meant_for=setout.panels[0].design, widths_pitches=(18,), courses=31, note="one pitch short")
    room = record_wrong(room, wrong)
    states: tuple[tuple[int, PanelState], ...] = ((6, "built"), (4, "checked"), (3, "hung"))
    for count, state in states:
        room = mark_panels(sketch(room), marks[:count], state, parts, on="2027-06-01", by="Kim")
    return room
