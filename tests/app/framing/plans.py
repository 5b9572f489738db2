"""What tests of the frame leaf share: waiting for the plan, the studs as the room has them, and lists typed."""

from PySide6.QtCore import QPointF, Qt
from pytestqt.qtbot import QtBot

from app.document import Document
from app.framing.leaf import FrameLeaf
from app.framing.list_field import ListField
from app.window import Window
from core.frame import FramePlan
from core.room import MeasuredFrame
from tests.app.elevation_hand import move, press, release

CONTROL = Qt.KeyboardModifier.ControlModifier
CENTRES_MM = (19.0, 420.0, 830.0, 1230.0, 1581.0)
"""The measured studs of the den's first wall."""
LONGEST_MS = 30_000


def wait_for_plan(qtbot: QtBot, leaf: FrameLeaf) -> FramePlan:
    """Until the plan of the room as it is is there; a change takes the old one away at once."""
    qtbot.waitUntil(lambda: leaf.plan is not None, timeout=LONGEST_MS)
    assert leaf.plan is not None
    return leaf.plan


def centres(document: Document, wall: int = 0) -> tuple[float, ...]:
    frame = document.room.frame(wall)
    assert isinstance(frame, MeasuredFrame)
    return frame.centres_mm


def type_list(qtbot: QtBot, field: ListField, text: str) -> None:
    field.text.setFocus()
    field.text.selectAll()
    for number, line in enumerate(text.split("\n")):
        if number:
            qtbot.keyClick(field.text, Qt.Key.Key_Return)
        qtbot.keyClicks(field.text, line)
    qtbot.keyClick(field.text, Qt.Key.Key_Return, CONTROL)


def handle(window: Window, centre_mm: float, wall: int = 0) -> QPointF:
    """A pixel on the handle of a stud, below the floor."""
    return window.elevation.wall_to_screen(wall, centre_mm, 0.0) + QPointF(0, 9)


def drag(window: Window, start: QPointF, *through: QPointF) -> None:
    """Press, go through places, and let go at the last of them."""
    press(window.elevation, start)
    for pos in through:
        move(window.elevation, pos)
    release(window.elevation, through[-1])
