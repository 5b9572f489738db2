"""What is on each picture: the room at a stage of the guide, and what a person has done in the window by then."""

from collections.abc import Callable, Mapping
from functools import cache, partial

from PySide6.QtCore import QPoint, QRect, QSize, Qt
from PySide6.QtGui import QImage

from app.advice import LOOKING
from app.appearance import SchemeChoice
from app.assets import asset
from app.buy.leaf import BuyLeaf
from app.colour.leaf import ColourLeaf
from app.colour.rules_card import WORKING
from app.comparing.dialog import CompareDialog
from app.comparing.versions import Pair, Version
from app.crew.leaf import CrewLeaf
from app.framing.leaf import FrameLeaf
from app.new_room import NewRoomDialog
from app.pictures import den
from app.pictures.eyes import seen_by_all
from app.pictures.studio import Studio, shoot_sheet
from app.tracking.leaf import BuildLeaf
from app.window import Window
from core.drawing import Sheet
from core.edits import move_opening
from core.files import load_room
from core.room import Room
from core.setout import solve
from core.sheets import sheets_for
from core.whole_job import WholeJob

Scene = Callable[[Studio], QImage]

DIALOG = QSize(1180, 800)
BENCH = QSize(1440, 810)
MEASURED_WAY = 2
SOME_COURSES = 4
EYES_PX = 1200


def window(studio: Studio) -> QImage:
    """The demo room, for the front page."""
    shown = studio.open(load_room(asset("demo.room.json")))
    _await_advice(studio, shown)
    return studio.shoot(shown)


def new_room(studio: Studio) -> QImage:
    """The measured list, with what it misses shared out."""
    dialog = NewRoomDialog("mm", studio.open(den.empty()))
    dialog.resize(DIALOG)
    dialog.show()
    dialog.name.setText("Reading den")
    dialog.clad_height.setText("2130")
    dialog.go(MEASURED_WAY)
    dialog.list.paste(den.MEASURED_LIST)
    dialog.list.line.clear()
    dialog.list.miss.choices["last wall"].click()
    image = studio.shoot(dialog)
    dialog.reject()
    dialog.deleteLater()
    return image


def openings(studio: Studio) -> QImage:
    """The door selected, with the advice on it."""
    return _selected(studio, den.as_measured(), "door")


def advised(studio: Studio) -> QImage:
    """The same after the advice."""
    return _selected(studio, den.advised(), "door")


def compare(studio: Studio) -> QImage:
    """The room before the advice and after it."""
    shown = studio.open(den.as_measured())
    now, other = Version("This room now", shown.document.setout), Version("door-moved.room.json", solve(den.advised()))
    dialog = CompareDialog(Pair(now, other, now.setout.room), None, lambda: None, shown)
    dialog.show()
    image = studio.shoot(dialog)
    dialog.reject()
    dialog.deleteLater()
    return image


def standing_wall(studio: Studio) -> QImage:
    """Points without timber on a wall that stands."""
    shown = studio.open(den.with_standing_wall())
    shown.elevation.go_to_wall(den.WALL_C)
    _await_advice(studio, shown)
    return studio.shoot(shown)


def pin(studio: Studio) -> QImage:
    """A pinned panel, close by."""
    mark = "B-2-04"
    shown = studio.open(den.pinned(mark))
    shown.elevation.show_place(f"panel {mark}")
    _await_advice(studio, shown)
    return studio.shoot(shown)


def colour(studio: Studio) -> QImage:
    """Rules and what comes of them, with the walls in their colours."""
    shown = studio.open(den.coloured())
    leaf = shown.leaves.turn_to(shown.colouring)
    assert isinstance(leaf, ColourLeaf)
    shown.colours.show_them(True)
    studio.wait("the count by colour", lambda: leaf.rules.outcome.text() not in ("", WORKING))
    return studio.shoot(shown)


def standing(studio: Studio) -> QImage:
    """The room standing up."""
    shown = studio.open(den.held())
    shown.actions_by_name["standing"].trigger()
    dialog = shown.standing
    assert dialog is not None
    image = studio.shoot(dialog)
    dialog.reject()
    return image


def frame(studio: Studio) -> QImage:
    """What is known of the frame of the standing wall."""
    shown = studio.open(den.with_standing_wall())
    shown.document.set_wall(den.WALL_C)
    leaf = shown.leaves.turn_to(shown.framing)
    assert isinstance(leaf, FrameLeaf)
    studio.wait("the frame", lambda: leaf.plan is not None and leaf._is_weighed and not leaf._aside.is_busy)
    return studio.shoot(shown.leaves)


def bench(studio: Studio) -> QImage:
    """A few courses into the first full panel."""
    shown = studio.open(den.held())
    shown.bench.open(den.next_to_build(shown.document.setout))
    dialog = shown.bench.dialog
    assert dialog is not None
    dialog.showNormal()
    dialog.resize(BENCH)
    for _ in range(SOME_COURSES):
        dialog.turn(1)
    image = studio.shoot(dialog)
    dialog.reject()
    return image


def buy(studio: Studio) -> QImage:
    """Needs and orders."""
    shown = studio.open(den.priced())
    leaf = shown.leaves.turn_to(shown.buying)
    assert isinstance(leaf, BuyLeaf)
    studio.wait("the orders", lambda: leaf.bought is not None and not leaf._aside.is_busy)
    return studio.shoot(shown.leaves)


def crew(studio: Studio) -> QImage:
    """The plan of the crew."""
    shown = studio.open(den.manned())
    leaf = shown.leaves.turn_to(shown.crew)
    assert isinstance(leaf, CrewLeaf)
    studio.wait("the crew's plan", lambda: leaf.outlook is not None)
    return studio.shoot(shown.leaves)


def build(studio: Studio) -> QImage:
    """The morning of the third day."""
    shown = studio.open(den.under_way())
    _turn_to_build(studio, shown)
    return studio.shoot(shown)


def no_place(studio: Studio) -> QImage:
    """Panels that a change leaves without a place."""
    shown = studio.open(den.changed_in_mid_build())
    leaf = _turn_to_build(studio, shown)
    leaf.sides.setCurrentWidget(leaf.loose)
    return studio.shoot(shown)


def swap(studio: Studio) -> QImage:
    """How two panels come out."""
    shown = studio.open(den.under_way())
    shown.building.picks.choose(("B-2-02", "B-2-03"))
    dialog = shown.building.swap_dialog()
    assert dialog is not None
    dialog.show()
    image = studio.shoot(dialog)
    dialog.reject()
    dialog.deleteLater()
    return image


def first_steps(studio: Studio) -> QImage:
    """The window on its first start, two steps done."""
    shown = studio.open(load_room(asset("demo.room.json")))
    shown.begin_guide(unasked=True)
    studio.settle()
    shown.document.select("window")
    shown.document.commit_edit(lambda room: move_opening(room, "window", left_mm=1200.0), "Move the window")
    shown.document.work_out()
    studio.settle()
    assert shown.guide is not None
    shown.guide.show_place()
    image = studio.shoot(shown)
    shown.guide.pointer.hide()
    return image


def dark(studio: Studio) -> QImage:
    """The window in the dark scheme, in large letters."""
    shown = studio.open(den.under_way())
    shown.appearance.choose_scheme("dark")
    shown.appearance.choose_text("large")
    try:
        return studio.shoot(shown)
    finally:
        shown.appearance.choose_text("normal")
        shown.appearance.choose_scheme("system")


def eyes(studio: Studio, scheme: SchemeChoice = "system") -> QImage:
    """Board and elevation of the demo room as other eyes see them."""
    shown = studio.open(load_room(asset("demo.room.json")))
    shown.appearance.choose_scheme(scheme)
    shown.building.picks.choose(("B-3-02",))
    stage = QRect(0, 0, shown.width(), shown.leaves.mapTo(shown, QPoint()).y())
    try:
        return seen_by_all(studio.shoot(shown, stage).scaledToWidth(EYES_PX, Qt.TransformationMode.SmoothTransformation))
    finally:
        shown.appearance.choose_scheme("system")


def sheet(code: str, _studio: Studio) -> QImage:
    """A sheet of the print pack."""
    return shoot_sheet(next(sheet for sheet in _sheets() if sheet.code == code))


@cache
def _sheets() -> tuple[Sheet, ...]:
    setout = solve(den.manned())
    return sheets_for(setout, issued=den.BEGINS, job=WholeJob(setout))


def _selected(studio: Studio, room: Room, name: str) -> QImage:
    shown = studio.open(room)
    shown.document.select(name)
    _await_advice(studio, shown)
    return studio.shoot(shown)


def _await_advice(studio: Studio, shown: Window) -> None:
    """Until both lists say what they found, and not that they are looking."""
    lists = (shown.inspector.opening.advice, shown.inspector.wall.advice)
    studio.wait("advice", lambda: not any(one.isVisible() and one.status.text() == LOOKING for one in lists))


def _turn_to_build(studio: Studio, shown: Window) -> BuildLeaf:
    leaf = shown.leaves.turn_to(shown.build)
    assert isinstance(leaf, BuildLeaf)
    studio.wait("the outlook", lambda: leaf.outlook.words.text())
    return leaf


SCENES: Mapping[str, Scene] = {
    "window": window,
    "new-room": new_room,
    "openings": openings,
    "advised": advised,
    "compare": compare,
    "standing": standing,
    "standing-wall": standing_wall,
    "frame": frame,
    "pin": pin,
    "colour": colour,
    "bench": bench,
    "buy": buy,
    "crew": crew,
    "build": build,
    "no-place": no_place,
    "swap": swap,
    "eyes": eyes,
    "eyes-dark": partial(eyes, scheme="dark"),
    "first-steps": first_steps,
    "dark": dark,
    "sheet-frame": partial(sheet, "frame-D"),
    "sheet-elevation": partial(sheet, "elevation-D"),
    "sheet-panel": partial(sheet, "panel-full"),
}
"""Every picture by its file name."""
