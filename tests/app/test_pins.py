"""Pinning from the window: one key, one step to undo, and a diamond where something is held."""

from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.document import Document
from app.elevation.pin_marks import pinned_places
from app.elevation.tips import panel_tip
from app.window import Window
from core import edits
from core.pins import LegPin, PanelPin, RowsPin


def press(window: Window, qtbot: QtBot, key: Qt.Key, held: Qt.KeyboardModifier = Qt.KeyboardModifier.NoModifier) -> None:
    window.elevation.setFocus()
    qtbot.keyClick(window.elevation, key, held)


def test_a_key_pins_the_selected_panel_and_lets_it_go(window: Window, qtbot: QtBot) -> None:
    document = window.document
    mark = next(p.mark for p in document.setout.panels if p.kind == "full")
    document.select(mark)
    press(window, qtbot, Qt.Key.Key_P)
    (pin,) = document.room.pins
    assert isinstance(pin, PanelPin)
    assert pin.width_pitches == 38
    document.select(mark)
    press(window, qtbot, Qt.Key.Key_P)
    assert document.room.pins == ()
    assert document.undo_stack.count() == 2


def test_a_corner_panel_pins_both_legs(window: Window, qtbot: QtBot) -> None:
    document = window.document
    document.select(next(p.mark for p in document.setout.panels if p.kind == "corner"))
    press(window, qtbot, Qt.Key.Key_P)
    assert [type(pin) for pin in document.room.pins] == [LegPin, LegPin]


def test_the_rows_are_pinned_as_they_stand(window: Window, qtbot: QtBot) -> None:
    document = window.document
    stack = tuple(row.courses for row in document.setout.rows)
    press(window, qtbot, Qt.Key.Key_P, Qt.KeyboardModifier.ShiftModifier)
    assert document.room.pins == (RowsPin(kind="rows", courses=stack),)


def test_every_pin_is_marked_in_the_rows_it_speaks_of(window: Window, qtbot: QtBot) -> None:
    document: Document = window.document
    assert list(pinned_places(document.setout)) == []
    panel = next(p for p in document.setout.panels if p.kind == "full")
    document.select(panel.mark)
    press(window, qtbot, Qt.Key.Key_P)
    (place,) = pinned_places(document.setout)
    assert place.wall == panel.faces[0].wall


def test_the_card_says_once_that_a_panel_is_pinned_and_so_does_its_tip(window: Window) -> None:
    document = window.document
    panel = next(panel for panel in document.setout.panels if panel.kind == "full")
    document.commit_edit(lambda room: edits.add_pins(room, edits.pins_for(document.setout, panel)), "Pin")
    document.select(panel.mark)
    assert window.inspector.opening.readout.text().lower().count("pinned here") == 1
    held = next(one for one in document.setout.panels if one.mark == panel.mark)
    assert panel_tip(document.setout, held).count("pinned here") == 1
