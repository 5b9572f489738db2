"""The frame leaf of a small den whose first wall has measured studs."""

from collections.abc import Iterator

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.framing.leaf import FrameLeaf
from app.window import Window
from core import edits
from core.room import MeasuredFrame, Room
from tests.app.den import WINDOW, reading_den
from tests.app.framing.plans import CENTRES_MM, wait_for_plan

CONTROL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def room() -> Room:
    """A small den whose first wall has measured studs, so that its set-out and its frame are soon worked out."""
    return edits.set_frame(reading_den(WINDOW), 0, MeasuredFrame(mode="measured", centres_mm=CENTRES_MM))


@pytest.fixture
def fresh_leaf(window: Window, qtbot: QtBot) -> Iterator[FrameLeaf]:
    """The leaf as a key brings it up, before anything is worked out."""
    qtbot.keyClick(window, Qt.Key.Key_8, CONTROL)
    leaf = window.leaves.turn_to(window.framing)
    assert isinstance(leaf, FrameLeaf)
    yield leaf
    leaf._aside.close()


@pytest.fixture
def leaf(fresh_leaf: FrameLeaf, qtbot: QtBot) -> FrameLeaf:
    """The leaf with the frame worked out."""
    wait_for_plan(qtbot, fresh_leaf)
    return fresh_leaf
