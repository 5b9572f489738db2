"""Several chosen things in the inspector and in the elevation's menu: shared fields, and each entry acts on all of them."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLineEdit, QMenu, QStyle, QStyleOptionComboBox
from pytestqt.qtbot import QtBot

from app.document import Document
from app.window import Window
from core import edits
from core.crew.standing import standing
from core.edits.colouring import own_colour
from core.edits.together import shift_openings
from core.room import Room


@pytest.fixture
def room(room: Room) -> Room:
    """The demo room with a second outlet, beside its window."""
    return edits.add_opening(room, "outlet", 1, 300.0)


def type_into(qtbot: QtBot, line: QLineEdit, text: str) -> None:
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, text)
    qtbot.keyClick(line, Qt.Key.Key_Return)


def some_marks(document: Document, count: int = 3) -> tuple[str, ...]:
    flat = [panel.mark for panel in document.work_out().panels if panel.kind == "full"]
    return tuple(flat[:count])


def test_one_thing_has_its_card_and_several_have_theirs(window: Window, document: Document) -> None:
    document.select("window")
    assert (window.inspector.opening.isHidden(), window.inspector.several.isHidden()) == (False, True)
    document.chosen.choose(("window", "outlet-1", *some_marks(document, 2)))
    assert (window.inspector.opening.isHidden(), window.inspector.several.isHidden()) == (True, False)
    assert window.inspector.several.heading.text() == "2 openings and 2 panels selected"


def test_a_shared_size_shows_and_one_that_differs_is_empty(window: Window, document: Document) -> None:
    document.chosen.choose(("outlet-1", "outlet-2"))
    card = window.inspector.several
    assert card.sill.line.text() == "300 mm"
    assert card.left.line.text() == ""
    assert card.left.line.placeholderText() == "different"


def test_a_size_typed_holds_for_all_chosen_in_one_step(window: Window, document: Document, qtbot: QtBot) -> None:
    before = document.room
    document.chosen.choose(("outlet-1", "outlet-2"))
    type_into(qtbot, window.inspector.several.sill.line, "450")
    assert {document.room.opening(name).sill_mm for name in ("outlet-1", "outlet-2")} == {450.0}
    assert document.undo_stack.count() == 1
    document.undo_stack.undo()
    assert document.room == before


def test_a_refused_size_is_said_beside_the_field_and_changes_none(window: Window, document: Document, qtbot: QtBot) -> None:
    before = document.room
    document.chosen.choose(("outlet-1", "window"))
    type_into(qtbot, window.inspector.several.left.line, "2900")
    assert "window" in window.inspector.several.left.fault.text()
    assert document.room is before


def test_sills_are_levelled_with_the_latest_chosen(window: Window, document: Document) -> None:
    document.chosen.choose(("outlet-1", "outlet-2", "window"))
    card = window.inspector.several
    assert card.align_sills.text() == "Sills level with window"
    card.align_sills.click()
    assert {opening.sill_mm for opening in document.chosen.openings} == {912.0}
    assert document.undo_stack.count() == 1


def test_progress_colour_and_pins_are_set_for_all_chosen_panels(window: Window, document: Document) -> None:
    marks = some_marks(document)
    document.chosen.choose(marks)
    card = window.inspector.several
    for field, value in (
        (card.state, "built"),
        (card.colour, document.room.colouring.colours[0].name),
        (card.pin, "pinned"),
    ):
        place = field.box.findData(value)
        field.box.setCurrentIndex(place)
        field.box.activated.emit(place)
        assert field.fault.text() == ""
    by_mark = standing(document.setout).by_mark
    assert {by_mark[mark] for mark in marks} == {"built"}
    assert {own_colour(document.room, p) for p in document.chosen.panels} == {document.room.colouring.colours[0].name}
    assert len(document.room.pins) == len(marks)
    assert document.undo_stack.count() == 3
    assert document.chosen.marks == marks


def menu_over(window: Window, wall: int, x_mm: float, z_mm: float) -> QMenu:
    return window.elevation_menu.menu_at(window.elevation.wall_to_screen(wall, x_mm, z_mm))


def entry(menu: QMenu, words: str) -> None:
    next(action for action in menu.actions() if action.text().replace("&", "") == words).trigger()


def over(window: Window, name: str) -> QMenu:
    opening = window.document.room.opening(name)
    return menu_over(window, opening.wall, opening.left_mm + opening.width_mm / 2, opening.sill_mm + opening.height_mm / 2)


def test_over_one_of_several_the_menu_is_about_all(window: Window, document: Document) -> None:
    document.chosen.choose(("outlet-1", "outlet-2", "window"))
    menu = over(window, "window")
    assert menu.accessibleName() == "What is chosen"
    entry(menu, "Sills level with window")
    assert {opening.sill_mm for opening in document.chosen.openings} == {912.0}
    entry(over(window, "window"), "Delete the chosen openings")
    assert [opening.id for opening in document.room.openings] == ["door"]


def test_over_anything_else_the_menu_is_about_that_alone(window: Window, document: Document) -> None:
    document.chosen.choose(("outlet-1", "outlet-2"))
    entry(over(window, "window"), "Delete window")
    assert {opening.id for opening in document.room.openings} == {"door", "outlet-1", "outlet-2"}


def test_the_menu_marks_and_pins_all_chosen_panels(window: Window, document: Document) -> None:
    marks = some_marks(document)
    document.chosen.choose(marks)
    face = document.chosen.panels[0].faces[0]
    at = (face.wall, face.left * 8.0 + 60.0, face.bottom * 3.2 + 20.0)
    entry(menu_over(window, *at), "Pin the chosen panels, or let them go")
    assert len(document.room.pins) == len(marks)
    entry(menu_over(window, *at), "Hung")
    by_mark = standing(document.setout).by_mark
    assert {by_mark[mark] for mark in marks} == {"hung"}


def test_openings_are_pasted_from_where_the_menu_was_opened(window: Window, document: Document) -> None:
    document.select("outlet-1")
    window.actions_by_name["copy"].trigger()
    entry(menu_over(window, 2, 1500.0, 900.0), "Paste openings here")
    assert (document.room.openings[-1].wall, document.room.openings[-1].left_mm) == (2, pytest.approx(1500.0, abs=4.0))


def test_a_drag_refreshes_the_sizes_and_leaves_the_panels_facts_till_it_ends(window: Window, document: Document) -> None:
    document.chosen.choose(("outlet-1", "outlet-2", *some_marks(document)))
    card = window.inspector.several
    facts = card.readout.text()
    document.preview_edit(lambda room: shift_openings(room, ("outlet-1", "outlet-2"), 0.0, 48.0))
    assert card.sill.line.text() == "348 mm"
    assert card.readout.text() == facts
    document.finish("Lift")
    assert card.sill.line.text() == "348 mm"


def test_every_choice_of_chosen_panels_is_read_whole(window: Window, document: Document) -> None:
    window.resize(1280, 800)
    document.chosen.choose(some_marks(document))
    QApplication.processEvents()
    card = window.inspector.several
    for box in (card.state.box, card.pin.box):
        option = QStyleOptionComboBox()
        box.initStyleOption(option)
        style, control, part = box.style(), QStyle.ComplexControl.CC_ComboBox, QStyle.SubControl.SC_ComboBoxEditField
        room_px = style.subControlRect(control, option, part, box).width()
        for place in range(box.count()):
            assert box.fontMetrics().horizontalAdvance(box.itemText(place)) <= room_px, box.itemText(place)
