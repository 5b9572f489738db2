"""The inspector: typed lengths become edits, wrong ones are said beside the field and change nothing."""

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QLineEdit
from pytestqt.qtbot import QtBot

from app.document import Document
from app.inspector import Inspector
from app.inspector.wall import split_lengths
from app.tracking.marking import Marking
from core import edits
from core.edits.frames import rails_of
from core.room import MeasuredFrame, RegularFrame


@pytest.fixture
def inspector(document: Document, qtbot: QtBot) -> Inspector:
    inspector = Inspector(document, Marking(document, document))
    qtbot.addWidget(inspector)
    inspector.show()
    document.select("window")
    return inspector


def type_into(qtbot: QtBot, line: QLineEdit, text: str) -> None:
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, text)
    qtbot.keyClick(line, Qt.Key.Key_Return)


@pytest.mark.parametrize(("text", "mm"), [("1000", 1000.0), ("1.2 m", 1200.0), ("3' 6 1/2\"", 1079.5), ("40 in", 1016.0)])
def test_a_length_in_any_units_moves_the_opening(
    inspector: Inspector, document: Document, qtbot: QtBot, text: str, mm: float
) -> None:
    type_into(qtbot, inspector.opening.left.line, text)
    assert document.room.opening("window").left_mm == pytest.approx(mm)
    assert document.undo_stack.count() == 1


def test_what_is_no_length_is_said_beside_the_field(inspector: Inspector, document: Document, qtbot: QtBot) -> None:
    before = document.room
    type_into(qtbot, inspector.opening.width_field.line, "wide")
    assert "not a length" in inspector.opening.width_field.fault.text()
    assert inspector.opening.width_field.fault.isVisible()
    assert inspector.opening.width_field.line.text() == "wide"
    assert document.room is before


def test_a_size_that_does_not_fit_is_said_beside_the_field(inspector: Inspector, document: Document, qtbot: QtBot) -> None:
    before = document.room
    type_into(qtbot, inspector.opening.width_field.line, "5000")
    assert "past the end of wall B" in inspector.opening.width_field.fault.text()
    assert document.room is before


def test_escape_gives_up_what_is_typed(inspector: Inspector, document: Document, qtbot: QtBot) -> None:
    line = inspector.opening.sill.line
    line.setFocus()
    qtbot.keyClicks(line, "7")
    qtbot.keyClick(line, Qt.Key.Key_Escape)
    assert line.text() == "912 mm"
    assert document.undo_stack.count() == 0


def test_what_was_typed_for_one_opening_never_goes_to_another(inspector: Inspector, document: Document, qtbot: QtBot) -> None:
    line = inspector.opening.left.line
    line.setFocus()
    line.selectAll()
    qtbot.keyClicks(line, "1234")
    document.select("door")
    qtbot.keyClick(line, Qt.Key.Key_Return)
    assert document.room.opening("door").left_mm == 1100
    assert line.text() == "1100 mm"


def test_sizes_follow_a_drag(inspector: Inspector, document: Document) -> None:
    document.preview_edit(lambda room: edits.move_opening(room, "window", left_mm=1234.5))
    assert inspector.opening.left.line.text() == "1234.5 mm"


def test_choosing_another_wall_moves_the_opening_there(inspector: Inspector, document: Document, qtbot: QtBot) -> None:
    inspector.opening.wall.box.setFocus()
    qtbot.keyClick(inspector.opening.wall.box, Qt.Key.Key_C)
    assert document.room.opening("window").wall == 2
    assert document.wall == 2


def test_renaming_keeps_the_opening_selected(inspector: Inspector, document: Document, qtbot: QtBot) -> None:
    type_into(qtbot, inspector.opening.name.line, "north light")
    assert document.selection == "north light"
    assert document.room.opening("north light").kind == "window"


def test_a_wall_is_set_to_length_and_its_frame_described(inspector: Inspector, document: Document, qtbot: QtBot) -> None:
    regular = RegularFrame(mode="regular", spacing_mm=406.4, first_centre_mm=19.05)
    document.commit_edit(lambda room: edits.set_frame(room, 1, regular), "Frame")
    type_into(qtbot, inspector.wall.length_line.line, "12'")
    assert document.room.wall_length_mm(1) == pytest.approx(3657.6)
    qtbot.keyClick(inspector.wall.mode.box, Qt.Key.Key_Down)
    frame = document.room.frame(1)
    assert isinstance(frame, MeasuredFrame)
    assert frame.centres_mm[:2] == (19.05, 425.45)
    type_into(qtbot, inspector.wall.centres.line, "19; 430; 2' 9\"")
    frame = document.room.frame(1)
    assert isinstance(frame, MeasuredFrame)
    assert frame.centres_mm == (19, 430, pytest.approx(838.2))


def test_rails_of_a_regular_frame_are_typed_and_kept_when_its_kind_changes(
    inspector: Inspector, document: Document, qtbot: QtBot
) -> None:
    document.commit_edit(lambda room: edits.set_frame(room, 1, RegularFrame(mode="regular", spacing_mm=406.4)), "Frame")
    assert inspector.wall.rails.isVisible()
    type_into(qtbot, inspector.wall.rails.line, "600; 4'")
    assert rails_of(document.room.frame(1)) == (600, pytest.approx(1219.2))
    assert document.undo_stack.undoText() == "Set rail centres"
    type_into(qtbot, inspector.wall.rails.line, "600; 2500")
    assert inspector.wall.rails.fault.text().startswith("a rail at 2500 mm lies outside the frame of wall B; ")
    for key, mode in ((Qt.Key.Key_Down, "measured"), (Qt.Key.Key_Up, "regular")):
        qtbot.keyClick(inspector.wall.mode.box, key)
        assert document.room.frame(1).mode == mode
        assert rails_of(document.room.frame(1)) == (600, pytest.approx(1219.2))


def test_a_rooms_name_and_units_are_set(inspector: Inspector, document: Document, qtbot: QtBot) -> None:
    type_into(qtbot, inspector.room.name.line, "Reading den")
    qtbot.keyClick(inspector.room.units.box, Qt.Key.Key_Down)
    assert document.room.name == "Reading den"
    assert document.room.display_units == "ft-in"
    assert inspector.wall.length_line.line.text() == "10' 0\""


def test_leaving_an_untouched_field_in_feet_changes_nothing(inspector: Inspector, document: Document, qtbot: QtBot) -> None:
    document.commit_edit(lambda room: edits.set_units(room, "ft-in"), "Units")
    line = inspector.opening.width_field.line
    line.setFocus()
    qtbot.keyClick(line, Qt.Key.Key_Return)
    assert document.room.opening("window").width_mm == 912


def test_a_panel_is_described_for_the_bench(inspector: Inspector, document: Document) -> None:
    panel = next(p for p in document.setout.panels if p.kind == "full")
    document.select(panel.mark)
    assert inspector.opening.heading.text() == f"Panel {panel.mark}"
    assert "304 mm × 304 mm" in inspector.opening.readout.text()
    assert not inspector.opening.left.isVisible()


@pytest.mark.parametrize(
    ("typed", "parts"), [("", []), ("19; 430", ["19", "430"]), ("19, 430, 838", ["19", "430", "838"]), ("1,5; 2", ["1,5", "2"])]
)
def test_lists_of_lengths_part_at_semicolons_or_commas_with_a_space(typed: str, parts: list[str]) -> None:
    assert split_lengths(typed) == parts
