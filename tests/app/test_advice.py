"""Advice in the inspector: found while idle, given up when it no longer matters, applied as one step to undo."""

from collections.abc import Iterator

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLineEdit
from pytestqt.qtbot import QtBot

from app.advice import LOOKING, AdviceList
from app.document import Document
from app.inspector import Inspector
from app.tracking.marking import Marking
from core import edits
from core.advice import work_of
from core.room import Opening, RegularFrame, Room

PATIENCE_MS = 60_000


@pytest.fixture
def room() -> Room:
    """Two rows, each wall ten half-width panels long, and a window 3 mm off whole panels."""
    den = edits.rectangle("Den", width_mm=1525, depth_mm=1525, clad_height_mm=610)
    window = Opening(id="window", kind="window", wall=0, left_mm=309.5, sill_mm=304.0, width_mm=608.0, height_mm=304.0)
    return Room(**{**dict(den), "openings": (window,)})


@pytest.fixture
def inspector(document: Document, qtbot: QtBot) -> Iterator[Inspector]:
    inspector = Inspector(document, Marking(document, document))
    qtbot.addWidget(inspector)
    with qtbot.waitExposed(inspector):
        inspector.show()
    yield inspector
    inspector.hide()


@pytest.fixture
def found(inspector: Inspector, document: Document, qtbot: QtBot) -> AdviceList:
    """The advice about the window, all of it there."""
    document.select("window")
    advice = inspector.opening.advice
    qtbot.waitUntil(lambda: advice.search.is_running, timeout=PATIENCE_MS)
    qtbot.waitUntil(lambda: not advice.search.is_running, timeout=PATIENCE_MS)
    return advice


def test_advice_says_that_it_is_looking_and_then_what_it_found(inspector: Inspector, document: Document, qtbot: QtBot) -> None:
    advice = inspector.opening.advice
    assert advice.isHidden()
    document.select("window")
    assert advice.isVisible()
    assert advice.status.text() == LOOKING
    qtbot.waitUntil(lambda: bool(advice.shown), timeout=PATIENCE_MS)
    row = advice.rows[0]
    assert row.what.text() == "3 mm left"
    assert "fewer" in row.saving.text()
    assert row.button.accessibleName() == "Apply: 3 mm left"
    assert row.button.accessibleDescription() == row.saving.text()


@pytest.mark.parametrize("key", [Qt.Key.Key_Return, Qt.Key.Key_Space])
def test_applying_by_key_is_one_step_to_undo_and_gives_what_was_promised(
    found: AdviceList, document: Document, qtbot: QtBot, key: Qt.Key
) -> None:
    before, suggestion = document.room, found.shown[0]
    found.rows[0].button.setFocus()
    qtbot.keyClick(found.rows[0].button, key)
    assert document.room == suggestion.change.applied(before)
    assert work_of(document.work_out()) == suggestion.after
    assert document.undo_stack.count() == 1
    assert document.undo_stack.undoText() == "Move window 3 mm left"
    document.undo_stack.undo()
    assert document.room == before
    assert found.shown[0] == suggestion


def test_applying_never_leads_the_keyboard_into_a_field(found: AdviceList, inspector: Inspector, qtbot: QtBot) -> None:
    found.rows[0].button.setFocus()
    qtbot.keyClick(found.rows[0].button, Qt.Key.Key_Space)
    assert found.rows[0].isHidden()
    assert not isinstance(inspector.focusWidget(), QLineEdit)


def test_the_search_is_given_up_when_the_selection_or_the_room_changes(
    inspector: Inspector, document: Document, qtbot: QtBot
) -> None:
    advice = inspector.opening.advice
    document.select("window")
    qtbot.waitUntil(lambda: advice.search.is_running, timeout=PATIENCE_MS)
    document.commit_edit(lambda room: edits.move_opening(room, "window", left_mm=500.0), "Move")
    assert not advice.search.is_running
    assert advice.shown == ()
    qtbot.waitUntil(lambda: advice.search.is_running, timeout=PATIENCE_MS)
    document.select(None)
    assert not advice.search.is_running


def test_nothing_is_looked_for_during_a_drag(inspector: Inspector, document: Document, found: AdviceList) -> None:
    document.preview_edit(lambda room: edits.move_opening(room, "window", left_mm=500.0))
    assert found.shown == ()
    assert found.status.text() == ""
    assert not found.search.is_running
    document.cancel()
    assert found.shown
    assert inspector.opening.advice is found


def test_tab_goes_from_the_last_field_on_to_the_suggestions(inspector: Inspector, found: AdviceList, qtbot: QtBot) -> None:
    inspector.opening.height_field.line.setFocus()
    qtbot.keyClick(inspector.opening.height_field.line, Qt.Key.Key_Tab)
    assert QApplication.focusWidget() is found.rows[0].button


def test_the_wall_gets_advice_only_until_its_frame_stands(inspector: Inspector, document: Document, qtbot: QtBot) -> None:
    advice = inspector.wall.advice
    assert advice.isVisible()
    qtbot.waitUntil(lambda: bool(advice.shown), timeout=PATIENCE_MS)
    assert "wide, from" in advice.rows[0].what.text()
    document.commit_edit(lambda room: edits.set_frame(room, 0, RegularFrame(mode="regular", spacing_mm=400.0)), "Frame")
    assert advice.isHidden()
