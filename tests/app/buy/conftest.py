"""The buying leaf of a small den, in its window or alone."""

from collections.abc import Iterator

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.buy.leaf import BuyLeaf
from app.document import Document
from app.window import Window
from core.room import Room
from tests.app.buy.orders import wait_for_orders
from tests.app.den import WINDOW, reading_den

CONTROL = Qt.KeyboardModifier.ControlModifier


@pytest.fixture
def room() -> Room:
    """A small den, so that its set-out is soon worked out."""
    return reading_den(WINDOW)


@pytest.fixture
def leaf(window: Window, qtbot: QtBot) -> Iterator[BuyLeaf]:
    """The leaf as a key brings it up, with its orders worked out."""
    qtbot.keyClick(window, Qt.Key.Key_5, CONTROL)
    leaf = window.leaves.turn_to(window.buying)
    assert isinstance(leaf, BuyLeaf)
    wait_for_orders(qtbot, leaf)
    yield leaf
    leaf._aside.close()


@pytest.fixture
def bare(document: Document, qtbot: QtBot) -> Iterator[BuyLeaf]:
    """The leaf without a window and without waiting, for what needs no orders."""
    leaf = BuyLeaf(document)
    qtbot.addWidget(leaf)
    leaf.resize(1400, 300)
    with qtbot.waitExposed(leaf):
        leaf.show()
    yield leaf
    leaf._aside.close()
