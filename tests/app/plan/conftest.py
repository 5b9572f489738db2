"""The dialog that a new room comes from, and a pen over its paper."""

from collections.abc import Iterator

import pytest
from pytestqt.qtbot import QtBot

from app.new_room import NewRoomDialog
from tests.app.plan.pen import Pen


@pytest.fixture
def dialog(qtbot: QtBot) -> Iterator[NewRoomDialog]:
    dialog = NewRoomDialog("mm")
    qtbot.addWidget(dialog)
    with qtbot.waitExposed(dialog):
        dialog.show()
    yield dialog
    dialog.close()


@pytest.fixture
def pen(dialog: NewRoomDialog, qtbot: QtBot) -> "Pen":
    dialog.go(1)
    return Pen(dialog, qtbot)
