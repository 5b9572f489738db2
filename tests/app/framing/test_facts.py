"""What the frame leaf says: what misses, figures with their sources, all of it by keys and to a screen reader."""

from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.framing.facts import FactCard
from app.framing.leaf import FrameLeaf
from app.window import Window
from core.bond import bonds_for
from core.bond.mass import masses_kg
from core.frame import plan_of

LONGEST_MS = 30_000


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


def test_a_card_names_its_table_for_a_screen_reader(qtbot: QtBot) -> None:
    card = FactCard("Loads", ("Load", "Value."))
    qtbot.addWidget(card)
    card.show_facts((), "Wall B: loads")
    assert card.table.accessibleName() == card.heading.text() == "Wall B: loads"
