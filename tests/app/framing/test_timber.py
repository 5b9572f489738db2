"""Timber, readings and screws set by keys, and nothing long done at the wrong time."""

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.framing.leaf import FrameLeaf
from app.window import Window
from core import edits
from core.frame import plan_of
from tests.app.elevation_hand import move, press, release
from tests.app.framing.plans import handle, type_list, wait_for_plan
from tests.app.table_hand import fill, type_into


def test_saw_cut_and_stock_are_set_by_keys_and_change_what_is_bought(leaf: FrameLeaf, qtbot: QtBot) -> None:
    leaf.turn(2)
    fill(qtbot, leaf.timber.kerf, "30")
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
    press(window.elevation, handle(window, 830.0))
    move(window.elevation, handle(window, 860.0))
    move(window.elevation, handle(window, 880.0))
    assert leaf.plan is None
    qtbot.wait(200)
    assert leaf.plan is None
    assert not leaf._aside.is_busy
    release(window.elevation, handle(window, 880.0))
    plan = wait_for_plan(qtbot, leaf)
    assert plan.walls[0].backed == plan_of(leaf._document.setout).walls[0].backed
