"""The frame in the window, by real events: studs dragged and typed, what misses, figures with their sources, and nothing long at
the wrong time."""

import math
from collections.abc import Iterator

import pytest
from PySide6.QtCore import QEvent, QPointF, Qt
from PySide6.QtGui import QMouseEvent
from PySide6.QtTest import QTest
from PySide6.QtWidgets import QApplication, QComboBox, QLineEdit
from pytestqt.qtbot import QtBot

from app.document import Document
from app.framing.facts import FactCard
from app.framing.leaf import FrameLeaf
from app.framing.list_field import ListField
from app.framing.lists import read_lengths, read_signed_mm, write_lengths
from app.inspector.fields import TextField
from app.tables.table import Table
from app.window import Window
from core import edits
from core.bond import bonds_for
from core.bond.mass import masses_kg
from core.errors import LengthError
from core.frame import FramePlan, plan_of
from core.frame.drift_words import wall_drift
from core.room import MeasuredFrame, Opening, RegularFrame, Room

CONTROL, SHIFT, NONE = Qt.KeyboardModifier.ControlModifier, Qt.KeyboardModifier.ShiftModifier, Qt.KeyboardModifier.NoModifier
LEFT = Qt.MouseButton.LeftButton
CENTRES_MM = (19.0, 420.0, 830.0, 1230.0, 1581.0)
LONGEST_MS = 30_000


@pytest.fixture
def room() -> Room:
    """A small den whose first wall has measured studs, so that its set-out and its frame are soon worked out."""
    corners = ((0.0, 0.0), (0.0, 1600.0), (1600.0, 1600.0), (1600.0, 0.0))
    window = Opening(id="window", kind="window", wall=1, left_mm=500, sill_mm=304, width_mm=608, height_mm=304)
    made = Room(name="Reading den", corners_mm=corners, clad_height_mm=910.0, openings=(window,))
    return edits.set_frame(made, 0, MeasuredFrame(mode="measured", centres_mm=CENTRES_MM))


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


def type_line(qtbot: QtBot, field: TextField, text: str) -> None:
    field.line.setFocus()
    field.line.selectAll()
    qtbot.keyClicks(field.line, text)
    qtbot.keyClick(field.line, Qt.Key.Key_Return)


def type_into(qtbot: QtBot, table: Table, row: int, column: int, text: str) -> None:
    """Go to a cell, begin with Enter, type, and end with Enter."""
    table.setFocus()
    table.setCurrentIndex(table.cells.index(row, column))
    qtbot.keyClick(table, Qt.Key.Key_Return)
    editor = QApplication.focusWidget()
    assert isinstance(editor, QLineEdit)
    editor.selectAll()
    qtbot.keyClicks(editor, text)
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: table.state() != Table.State.EditingState)


def handle(window: Window, centre_mm: float, wall: int = 0) -> QPointF:
    """A pixel on the handle of a stud, below the floor."""
    return window.elevation.wall_to_screen(wall, centre_mm, 0.0) + QPointF(0, 9)


def mouse(window: Window, kind: QEvent.Type, pos: QPointF) -> None:
    moves = kind == QEvent.Type.MouseMove
    held = Qt.MouseButton.NoButton if kind == QEvent.Type.MouseButtonRelease else LEFT
    view = window.elevation
    button = Qt.MouseButton.NoButton if moves else LEFT
    QApplication.sendEvent(view, QMouseEvent(kind, pos, view.mapToGlobal(pos), button, held, NONE))


def drag(window: Window, start: QPointF, *through: QPointF) -> None:
    mouse(window, QEvent.Type.MouseButtonPress, start)
    for pos in through:
        mouse(window, QEvent.Type.MouseMove, pos)
    mouse(window, QEvent.Type.MouseButtonRelease, through[-1])


# Lists of lengths


@pytest.mark.parametrize(
    ("typed", "read"),
    [
        ("19; 430; 838", (19, 430, 838)),
        ("19 430 838.5", (19, 430, 838.5)),
        ("19\n430\n838", (19, 430, 838)),
        ("19, 430, 838,", (19, 430, 838)),
        ("3/4\"; 1' 5\"; 2' 9 1/2 in", (19.05, 431.8, 850.9)),
        ("", ()),
        ("  \n ; ", ()),
    ],
)
def test_a_list_is_read_as_people_write_it_off_a_tape(typed: str, read: tuple[float, ...]) -> None:
    """An inch is 25.4 mm exactly (NIST SP 811, appendix B.6)."""
    assert read_lengths(typed) == pytest.approx(read)


@pytest.mark.parametrize("typed", ["19; much; 838", "1 200; 1 800", "-5; 20", "1,200; 1,800"])
def test_what_is_no_list_of_lengths_says_which_of_them_is_wrong(typed: str) -> None:
    with pytest.raises(LengthError, match=r"number [12] in the list"):
        read_lengths(typed)


def test_lengths_that_were_not_touched_keep_what_feet_and_inches_cannot_show() -> None:
    known = (19.3, 430.2, 838.1)
    shown = write_lengths(known, "ft-in")
    assert read_lengths(shown, known, "ft-in") == known
    assert read_lengths(shown.replace("1' 4 15/16\"", "1' 5\""), known, "ft-in") == (19.3, 431.8, 838.1)


def test_only_a_depth_may_be_negative() -> None:
    assert read_signed_mm("-3.5") == -3.5
    assert read_signed_mm("−1/8 in") == pytest.approx(-3.175)
    with pytest.raises(LengthError):
        read_signed_mm("--3")


# How the frame is given


def test_a_list_of_centres_is_typed_in_feet_and_inches_and_is_one_step_to_undo(fresh_leaf: FrameLeaf, qtbot: QtBot) -> None:
    document = fresh_leaf._document
    before = document.room
    type_list(qtbot, fresh_leaf.given.centres, '3/4"\n1\' 5"\n2\' 9"\n5\' 2"')
    assert centres(document) == pytest.approx((19.05, 431.8, 838.2, 1574.8))
    assert document.undo_stack.count() == 1
    qtbot.keyClick(fresh_leaf.given.centres.text, Qt.Key.Key_Z, CONTROL)
    assert document.room is before
    assert fresh_leaf.given.centres.text.toPlainText() == "19; 420; 830; 1230; 1581"


@pytest.mark.parametrize(
    ("typed", "said"),
    [
        ("19; 830; 420", "420 mm comes after 830 mm; list the studs' centres in rising order"),
        ("19; 420; 440", "studs at 420 mm and 440 mm would overlap"),
        ("19; 420; 1700", "a stud at 1700 mm stands outside wall A; centres lie from 19 mm to 1581 mm"),
        ("19; 42O", "number 2 in the list, '42O'"),
    ],
)
def test_a_wrong_list_stays_as_typed_with_the_reason_beside_it(
    fresh_leaf: FrameLeaf, qtbot: QtBot, typed: str, said: str
) -> None:
    document, field = fresh_leaf._document, fresh_leaf.given.centres
    before = document.room
    type_list(qtbot, field, typed)
    assert document.room is before
    assert field.text.toPlainText() == typed
    assert said in field.fault.text()
    assert field.fault.isVisible()
    document.preview_edit(lambda room: edits.set_name(room, "Another den"))
    document.cancel()
    assert field.text.toPlainText() == typed
    qtbot.keyClick(field.text, Qt.Key.Key_Escape)
    assert field.text.toPlainText() == "19; 420; 830; 1230; 1581"
    assert not field.fault.isVisible()


def test_a_spacing_of_nothing_is_refused_and_a_good_one_taken_up_by_keys_alone(fresh_leaf: FrameLeaf, qtbot: QtBot) -> None:
    document, mode = fresh_leaf._document, fresh_leaf.given.mode.box
    assert isinstance(mode, QComboBox)
    mode.setFocus()
    qtbot.keyClick(mode, Qt.Key.Key_Up)
    assert document.room.frame(0).mode == "regular"
    before = document.room
    type_line(qtbot, fresh_leaf.given.spacing, "0")
    assert document.room is before
    assert fresh_leaf.given.spacing.line.text() == "0"
    assert fresh_leaf.given.spacing.fault.text() == "the spacing is 0 mm; it must be from 50 mm to 5000 mm"
    type_line(qtbot, fresh_leaf.given.spacing, "1'")
    frame = document.room.frame(0)
    assert isinstance(frame, RegularFrame)
    assert frame.spacing_mm == pytest.approx(304.8)
    assert not fresh_leaf.given.spacing.fault.isVisible()


def test_studs_a_foot_apart_drift_from_panels_as_arithmetic_says(leaf: FrameLeaf, qtbot: QtBot) -> None:
    """A foot is 304.8 mm exactly (NIST SP 811); panels of 38 pitches of 8 mm are 304.0 mm. Screws 8 mm from the joint, studs
    38 mm wide, 8 mm from the edge: 11 mm of reach less 8 mm are used up by the fourth panel's 3.2 mm."""
    room = leaf._document.room
    kit = room.kit
    reach = 38.0 / 2 - kit.mounts.edge_mm - kit.mounts.inset_pitches * kit.pitch_mm
    fails_at = math.floor(reach / 0.8) + 1
    made = edits.set_frame(room, 0, RegularFrame(mode="regular", spacing_mm=304.8, first_centre_mm=152.4))
    leaf._document.commit(made, "Frame")
    plan = wait_for_plan(qtbot, leaf)
    drift = plan.walls[0].drift
    assert drift is not None
    words, how = drift.words, drift.how
    assert leaf.given.drift.text() == words
    assert "0.8\u00a0mm are lost with every panel" in words
    assert f"panel {fails_at} is the first" in words
    assert leaf.given.drift.toolTip() == how
    assert "|304.8 - 304|" in how


def test_studs_two_panels_apart_do_not_drift_but_leave_every_other_joint_bare(leaf: FrameLeaf) -> None:
    made = edits.set_frame(leaf._document.room, 0, RegularFrame(mode="regular", spacing_mm=608.0))
    drift = wall_drift(made, 0)
    assert drift is not None
    assert drift.words == "Only every second joint of 304\u00a0mm panels can meet a stud."


# What the leaf says


def test_every_row_says_how_it_was_found_to_the_mouse_and_to_a_screen_reader(leaf: FrameLeaf) -> None:
    silent = set(leaf.cards)
    for wall in (0, 1):
        leaf._document.set_wall(wall)
        for card in leaf.cards:
            for number in range(card.table.cells.rowCount()):
                silent.discard(card)
                index = card.table.cells.index(number, 0)
                how = index.data(Qt.ItemDataRole.ToolTipRole)
                assert how
                assert index.data(Qt.ItemDataRole.AccessibleDescriptionRole) == how
    assert not silent


def test_rows_of_misses_and_blocking_are_those_of_the_core(leaf: FrameLeaf) -> None:
    frame = plan_of(leaf._document.work_out()).walls[0]
    assert sorted(row.cells[0] for row in leaf.misses.table.cells.rows) == sorted(m.point.mark for m in frame.backed.misses)
    assert leaf.blocks.table.cells.rowCount() == len(frame.backed.blocks) + len(frame.backed.doubling)
    without = sum(1 for p in leaf._document.setout.panels for f in p.faces for m in f.mounts if m.wall == 0 and not m.lands_on)
    assert leaf.misses.table.cells.rowCount() >= without > 0


def test_every_figure_of_the_screw_stands_with_its_formula_and_source(leaf: FrameLeaf) -> None:
    assert leaf.plan is not None
    screws = leaf.plan.walls[0].screws
    assert screws is not None
    assert screws.chosen is not None
    shown = {row.cells[0]: row.how for row in leaf.figures.table.cells.rows}
    for figure in screws.chosen.figures:
        assert figure.formula in shown[figure.name]
        assert figure.source in shown[figure.name]
    others = {row.cells[0]: row.cells[1] for row in leaf.others.table.cells.rows}
    assert len(others) == len(leaf._document.room.timberwork.screws)
    for verdict in screws.verdicts:
        assert all(failure in others[verdict.screw.name] for failure in verdict.failures)


def test_arrows_tell_how_each_row_was_found_and_enter_goes_to_its_panel(leaf: FrameLeaf, qtbot: QtBot) -> None:
    table = leaf.misses.table
    table.setFocus()
    qtbot.keyClick(table, Qt.Key.Key_Down)
    row = table.row_at_hand()
    assert row is not None
    page = leaf.stack.currentWidget()
    assert page.how.text() == f"{row.cells[0]}: {row.how}"
    qtbot.keyClick(table, Qt.Key.Key_Return)
    assert leaf._document.selection == row.cells[0]


def test_boards_bought_and_how_sure_that_is_are_those_of_the_core(leaf: FrameLeaf) -> None:
    plan = plan_of(leaf._document.work_out()).cuts.plan
    shown = {row.cells[0].strip(): row.cells[1] for row in leaf.bought.table.cells.rows}
    assert shown["2x4 boards"] == str(plan.boards)
    assert shown["bought in all"] == f"{plan.bought_mm:g} mm"
    assert shown["how sure"] == "the least"
    assert plan.is_proven
    assert sum(int(row.cells[0]) for row in leaf.boards.table.cells.rows) == plan.boards


def test_a_frame_to_build_lists_its_marks_off_a_tape_and_a_standing_one_none(leaf: FrameLeaf) -> None:
    assert not leaf.marks.isVisible()
    leaf._document.set_wall(1)
    assert leaf.marks.isVisible()
    assert leaf.plan is not None
    marks = leaf.plan.walls[1].marks
    assert [row.cells[1] for row in leaf.marks.table.cells.rows] == [f"{round(mark.left_mm, 1):g}" for mark in marks]
    assert len(marks) > 3


def test_other_walls_turn_the_tables_and_cost_no_new_plan(leaf: FrameLeaf, window: Window, qtbot: QtBot) -> None:
    before = leaf.plan
    window.elevation.setFocus()
    qtbot.keyClick(window.elevation, Qt.Key.Key_PageDown)
    assert leaf._document.wall == 1
    assert leaf.plan is before
    assert leaf.misses.heading.text().startswith("Wall B:")
    assert leaf.given.mode.box.currentData() == "to_build"


def test_panels_are_weighed_by_their_parts_once_they_are_bonded(leaf: FrameLeaf, qtbot: QtBot) -> None:
    qtbot.waitUntil(lambda: leaf.plan is not None and not leaf.plan.loads.is_estimated, timeout=LONGEST_MS)
    setout = leaf._document.setout
    masses = masses_kg(bonds_for(setout), setout.room.parts)
    total = sum(masses[panel.design] for panel in setout.panels)
    shown = {row.cells[0].strip(): row.cells[1] for row in leaf.loads.table.cells.rows}
    assert shown["lining, all walls"] == f"{total:.0f} kg"
    heaviest = max(masses[panel.design] for panel in setout.panels)
    assert shown["panels to a box, at most"] == str(int(setout.room.stock.heaviest_box_kg // heaviest))


def test_openings_defer_to_those_who_decide(leaf: FrameLeaf) -> None:
    said = " ".join(row.how for row in leaf.openings.table.cells.rows)
    assert "the local authority decides" in said
    assert "Ask a licensed electrician" in said
    assert "complies" not in said


# Timber and readings


def test_saw_cut_and_stock_are_set_by_keys_and_change_what_is_bought(leaf: FrameLeaf, qtbot: QtBot) -> None:
    leaf.turn(2)
    type_line(qtbot, leaf.timber.kerf, "30")
    assert leaf.timber.kerf.line.text() == "30"
    assert leaf.timber.kerf.fault.text() == "the saw cut is 30 mm; it must be from 0 mm to 20 mm"
    type_list(qtbot, leaf.timber.stock, "2500 5000")
    assert leaf._document.room.timberwork.stock_mm == (2500, 5000)
    plan = wait_for_plan(qtbot, leaf)
    assert {cut.stock_mm for cut in plan.cuts.plan.cuts} <= {2500.0, 5000.0}
    type_list(qtbot, leaf.timber.stock, " ")
    assert leaf._document.room.timberwork.stock_mm is None


def test_a_reading_is_typed_cell_by_cell_or_at_once_and_packs_the_wall_out(leaf: FrameLeaf, qtbot: QtBot) -> None:
    leaf.turn(1)
    table, document = leaf.readings, leaf._document
    for column, text in enumerate(("0", "0", "-2")):
        type_into(qtbot, table, 0, column, text)
    type_into(qtbot, table, 1, 0, "1600; 0; 4")
    (face,) = document.room.timberwork.faces
    assert [(r.x_mm, r.z_mm, r.depth_mm) for r in face.readings] == [(0, 0, -2), (1600, 0, 4)]
    assert document.undo_stack.count() == 2
    plan = wait_for_plan(qtbot, leaf)
    packing = document.setout.walls[0].packing_mm
    for point, thickness in zip(plan.walls[0].points, plan.walls[0].packers.thickness_mm, strict=True):
        assert thickness == pytest.approx(6 * point.x_mm / 1600 + packing, abs=0.006)
    table.setFocus()
    table.setCurrentIndex(table.cells.index(0, 0))
    qtbot.keyClick(table, Qt.Key.Key_Delete)
    assert len(document.room.timberwork.faces[0].readings) == 1


@pytest.mark.parametrize(("column", "typed"), [(0, "1700"), (2, "900"), (1, "high"), (0, "0; 0; deep")])
def test_a_reading_that_cannot_be_stays_in_its_cell_with_the_reason(
    fresh_leaf: FrameLeaf, qtbot: QtBot, column: int, typed: str
) -> None:
    fresh_leaf.turn(1)
    table, document = fresh_leaf.readings, fresh_leaf._document
    type_into(qtbot, table, 0, 0, "0; 100; 3")
    before = document.room
    row = 1 if ";" in typed else 0
    type_into(qtbot, table, row, column, typed)
    assert document.room is before
    assert table.cells.index(row, column).data() == typed
    assert fresh_leaf.faces.fault.isVisible()


def test_the_screw_to_drive_is_chosen_and_its_verdict_shown(leaf: FrameLeaf, qtbot: QtBot) -> None:
    leaf.turn(3)
    box = leaf.screw.box
    box.setFocus()
    qtbot.keyClick(box, Qt.Key.Key_End)
    name = leaf._document.room.timberwork.screws[-1].name
    assert leaf._document.room.timberwork.screw == name
    wait_for_plan(qtbot, leaf)
    assert any(name in row.cells[2] and "does not do" in row.cells[2] for row in leaf.checks.table.cells.rows)


# When the work is done


def test_nothing_is_worked_out_while_the_leaf_does_not_show(leaf: FrameLeaf, window: Window, qtbot: QtBot) -> None:
    window.leaves.setCurrentIndex(0)
    assert leaf.plan is None
    assert not leaf._aside.is_busy
    leaf._document.commit_edit(lambda room: edits.set_clad_height(room, 800.0), "Lower")
    leaf._document.work_out()
    qtbot.wait(200)
    assert leaf.plan is None
    assert not leaf._aside.is_busy
    assert not leaf._idle.is_running


def test_a_drag_gives_up_the_plan_and_its_end_brings_another(leaf: FrameLeaf, window: Window, qtbot: QtBot) -> None:
    mouse(window, QEvent.Type.MouseButtonPress, handle(window, 830.0))
    mouse(window, QEvent.Type.MouseMove, handle(window, 860.0))
    mouse(window, QEvent.Type.MouseMove, handle(window, 880.0))
    assert leaf.plan is None
    qtbot.wait(200)
    assert leaf.plan is None
    assert not leaf._aside.is_busy
    mouse(window, QEvent.Type.MouseButtonRelease, handle(window, 880.0))
    plan = wait_for_plan(qtbot, leaf)
    assert plan.walls[0].backed == plan_of(leaf._document.setout).walls[0].backed


# Studs on the elevation


def test_a_stud_is_dragged_to_a_whole_millimetre_and_undo_brings_the_room_back(window: Window, document: Document) -> None:
    before = document.room
    drag(window, handle(window, 830.0), handle(window, 845.0), handle(window, 871.3), handle(window, 900.7))
    moved = centres(document)[2]
    assert moved == round(moved)
    assert moved == pytest.approx(900.7, abs=1 / window.elevation.camera.scale)
    assert centres(document)[:2] + centres(document)[3:] == CENTRES_MM[:2] + CENTRES_MM[3:]
    assert document.undo_stack.count() == 1
    document.undo_stack.undo()
    assert document.room == before


def test_a_stud_dragged_into_its_neighbour_is_refused_in_sight_and_stays_where_it_last_could(
    window: Window, document: Document
) -> None:
    view = window.elevation
    mouse(window, QEvent.Type.MouseButtonPress, handle(window, 830.0))
    mouse(window, QEvent.Type.MouseMove, handle(window, 1000.0))
    mouse(window, QEvent.Type.MouseMove, handle(window, 1225.0))
    gesture = view._hand.gesture
    assert gesture is not None
    assert gesture.refused is not None
    assert gesture.refused.left_mm == pytest.approx(1225.0 - 19.0, abs=2 / view.camera.scale)
    assert "would overlap the one at 1230 mm" in document.refusal
    assert view._notice == document.refusal
    mouse(window, QEvent.Type.MouseButtonRelease, handle(window, 1225.0))
    assert centres(document)[2] == pytest.approx(1000.0, abs=2 / view.camera.scale)


def test_at_the_walls_end_a_stud_stops(window: Window, document: Document) -> None:
    drag(window, handle(window, 1581.0), handle(window, 1570.0), handle(window, 1590.0))
    assert centres(document)[-1] == 1581.0
    drag(window, handle(window, 19.0), handle(window, 40.0), handle(window, -60.0))
    assert centres(document)[0] == 19.0


def test_escape_amid_a_drag_puts_the_stud_back(window: Window, document: Document, qtbot: QtBot) -> None:
    before = document.room
    mouse(window, QEvent.Type.MouseButtonPress, handle(window, 830.0))
    mouse(window, QEvent.Type.MouseMove, handle(window, 900.0))
    assert document.room != before
    qtbot.keyClick(window.elevation, Qt.Key.Key_Escape)
    mouse(window, QEvent.Type.MouseButtonRelease, handle(window, 900.0))
    assert document.room == before
    assert document.undo_stack.count() == 0


def test_a_double_click_between_two_studs_puts_one_up(window: Window, document: Document) -> None:
    pos = handle(window, 1030.0)
    for kind in (QEvent.Type.MouseButtonPress, QEvent.Type.MouseButtonRelease, QEvent.Type.MouseButtonDblClick):
        mouse(window, kind, pos)
    mouse(window, QEvent.Type.MouseButtonRelease, pos)
    assert len(centres(document)) == len(CENTRES_MM) + 1
    assert centres(document)[3] == pytest.approx(1030.0, abs=1 / window.elevation.camera.scale)
    assert window.elevation._studs.selected == 3
    assert document.undo_stack.count() == 1


def test_keys_choose_move_add_and_remove_studs(window: Window, document: Document, qtbot: QtBot) -> None:
    view = window.elevation
    view.setFocus()
    for _ in range(2):
        qtbot.keyClick(view, Qt.Key.Key_U)
    assert view._studs.selected == 1
    assert "stud 2 of wall A is selected, its middle 420 mm from the left end" in view.accessibleDescription()
    qtbot.keyClick(view, Qt.Key.Key_Right)
    qtbot.keyClick(view, Qt.Key.Key_Left, SHIFT)
    assert centres(document)[1] == 411.0
    assert document.undo_stack.count() == 2
    qtbot.keyClick(view, Qt.Key.Key_Insert)
    assert centres(document)[:4] == (19.0, 411.0, 620.0, 830.0)
    assert view._studs.selected == 2
    qtbot.keyClick(view, Qt.Key.Key_Delete)
    assert centres(document)[:3] == (19.0, 411.0, 830.0)
    for _ in range(4):
        document.undo_stack.undo()
    assert centres(document) == CENTRES_MM
    qtbot.keyClick(view, Qt.Key.Key_Escape)
    assert view._studs.selected is None


def test_where_no_stud_fits_in_one_more_is_refused_in_sight(window: Window, document: Document, qtbot: QtBot) -> None:
    full = tuple(float(x) for x in range(19, 1600, 40))
    document.commit(edits.set_frame(document.room, 0, MeasuredFrame(mode="measured", centres_mm=full)), "Measure")
    before, view = document.room, window.elevation
    view.setFocus()
    qtbot.keyClick(view, Qt.Key.Key_Insert)
    assert document.room is before
    assert view._notice == document.refusal == "no stud of 38 mm fits in there"


def test_a_held_arrow_is_one_step_to_undo(window: Window, document: Document, qtbot: QtBot) -> None:
    view = window.elevation
    view.setFocus()
    qtbot.keyClick(view, Qt.Key.Key_U, SHIFT)
    assert view._studs.selected == len(CENTRES_MM) - 1
    for _ in range(5):
        QTest.keyPress(view, Qt.Key.Key_Left)
    assert document.gesture_base is not None
    QTest.keyRelease(view, Qt.Key.Key_Left)
    assert document.gesture_base is None
    assert centres(document)[-1] == 1576.0
    assert document.undo_stack.count() == 1


def test_a_stud_and_an_opening_or_panel_are_not_chosen_together(window: Window, document: Document, qtbot: QtBot) -> None:
    view = window.elevation
    view.setFocus()
    qtbot.keyClick(view, Qt.Key.Key_U)
    document.select("window")
    assert view._studs.selected is None
    document.set_wall(0)
    qtbot.keyClick(view, Qt.Key.Key_U)
    assert view._studs.selected == 0
    assert document.selection is None
    document.set_wall(1)
    assert view._studs.selected is None


def test_a_wall_without_measured_studs_has_no_handles_and_its_keys_do_nothing(
    window: Window, document: Document, qtbot: QtBot
) -> None:
    document.set_wall(1)
    before, view = document.room, window.elevation
    view.setFocus()
    for key in (Qt.Key.Key_U, Qt.Key.Key_Insert):
        qtbot.keyClick(view, key)
    assert view._studs.view is None
    assert not view._studs.covers(handle(window, 500.0, wall=1))
    assert document.room is before


def test_handles_stay_in_sight_where_the_floor_is_not(window: Window) -> None:
    view = window.elevation
    view.go_to_wall(0)
    for _ in range(8):
        view.zoom_in()
    strip = view._studs.view
    assert strip is not None
    assert view.rect().contains(strip.strip_px.toAlignedRect().adjusted(0, 0, -1, 0))


def test_a_card_names_its_table_for_a_screen_reader(qtbot: QtBot) -> None:
    card = FactCard("Loads", ("Load", "Value."))
    qtbot.addWidget(card)
    card.show_facts((), "Wall B: loads")
    assert card.table.accessibleName() == card.heading.text() == "Wall B: loads"
