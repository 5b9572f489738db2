"""What is needed and what it costs: typed counts and terms become edits, and figures are the core's."""

import json

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLineEdit
from pytestqt.qtbot import QtBot

from app.buy.leaf import BuyLeaf
from app.buy.orders_table import UNSUPPLIED
from app.tables.reading import TypedError, amount, decimal, whole
from app.window import Window
from core.files import parse_room, room_document
from core.room import Room
from tests.app.buy.orders import bought_by_core, wait_for_orders
from tests.app.table_hand import row_of, shown, type_into

CONTROL = Qt.KeyboardModifier.ControlModifier
LONGEST_MS = 30_000


def test_the_table_says_of_every_part_what_the_core_reckons(leaf: BuyLeaf) -> None:
    lines = bought_by_core(leaf._document).lines
    found = {shown(leaf.needs, row, "Part"): row for row in range(leaf.needs.cells.rowCount())}
    assert set(found) == {material.name for material in lines}
    for material, line in lines.items():
        row = found[material.name]
        assert [shown(leaf.needs, row, name) for name in ("Needed", "Spare", "On hand", "To buy")] == [
            str(number) for number in (line.needed, line.spare, line.on_hand, line.to_buy)
        ]


def test_without_prices_nothing_costs_anything_and_everything_says_so(leaf: BuyLeaf) -> None:
    assert leaf.money.cost.text() == "no price given"
    assert leaf.orders.cells.rows[0].what == UNSUPPLIED
    assert {row.price for row in leaf.orders.cells.rows[1:]} == {"no price given"}
    assert {row.cost for row in leaf.orders.cells.rows} == {""}


def test_a_stock_take_typed_into_on_hand_is_one_step_that_undo_takes_back(leaf: BuyLeaf, qtbot: QtBot) -> None:
    before = leaf._document.room
    type_into(qtbot, leaf.needs, row_of(leaf.needs, "brick 2x4"), "On hand", "1 200")
    assert [(line.part, line.count) for line in leaf._document.room.stock.received] == [("brick 2x4", 1200)]
    assert leaf._document.undo_stack.count() == 1
    wait_for_orders(qtbot, leaf)
    assert shown(leaf.needs, row_of(leaf.needs, "brick 2x4"), "On hand") == "1200"
    qtbot.keyClick(leaf.needs, Qt.Key.Key_Z, CONTROL)
    assert leaf._document.room is before


def test_deliveries_add_up(leaf: BuyLeaf, qtbot: QtBot) -> None:
    row = row_of(leaf.needs, "brick 2x4")
    for typed in ("600", "150"):
        type_into(qtbot, leaf.needs, row, "Delivery", typed)
        wait_for_orders(qtbot, leaf)
    assert leaf.needs.cells.rows[row].line.on_hand == 750
    assert shown(leaf.needs, row, "Delivery") == ""


@pytest.mark.parametrize("typed", ["many", "-5", "1.5", "9" * 40])
def test_what_is_no_count_stays_in_its_cell_with_the_reason_and_changes_nothing(bare: BuyLeaf, qtbot: QtBot, typed: str) -> None:
    leaf = bare
    qtbot.waitUntil(lambda: leaf._needs is not None, timeout=LONGEST_MS)
    before, row = leaf._document.room, row_of(leaf.needs, "brick 2x4")
    type_into(qtbot, leaf.needs, row, "On hand", typed)
    assert leaf._document.room is before
    assert shown(leaf.needs, row, "On hand") == typed
    assert leaf.needs_card.fault.text().startswith("On hand: found")


def test_a_figure_begins_an_edit_in_a_table_and_does_nothing_else_in_the_window(
    leaf: BuyLeaf, window: Window, qtbot: QtBot
) -> None:
    leaf.needs.setFocus()
    leaf.needs.setCurrentIndex(leaf.needs.cells.index(0, 3))
    window.elevation.zoom_in()
    camera = window.elevation.camera
    for key in (Qt.Key.Key_0, Qt.Key.Key_D):
        qtbot.keyClick(leaf.needs, key)
        editor = QApplication.focusWidget()
        assert isinstance(editor, QLineEdit)
        qtbot.keyClick(editor, Qt.Key.Key_Escape)
    assert window.elevation.camera == camera
    assert len(window.document.room.openings) == 1


def test_tab_leaves_a_table(leaf: BuyLeaf, qtbot: QtBot) -> None:
    leaf.needs.setFocus()
    qtbot.keyClick(leaf.needs, Qt.Key.Key_Tab)
    assert not leaf.needs.hasFocus()
    assert not leaf.needs.isAncestorOf(QApplication.focusWidget())


def test_spares_budget_and_currency_are_set_as_they_are_written(bare: BuyLeaf, qtbot: QtBot) -> None:
    leaf = bare
    for field, typed in ((leaf.money.currency, "EUR"), (leaf.money.budget, "EUR 1 250,50"), (leaf.money.spare, "5 %")):
        field.line.setFocus()
        field.line.selectAll()
        qtbot.keyClicks(field.line, typed)
        qtbot.keyClick(field.line, Qt.Key.Key_Return)
    stock = leaf._document.room.stock
    assert (stock.currency, stock.budget, stock.spare_percent) == ("EUR", 1250.5, 5.0)
    leaf.money.budget.line.selectAll()
    qtbot.keyClick(leaf.money.budget.line, Qt.Key.Key_Delete)
    qtbot.keyClick(leaf.money.budget.line, Qt.Key.Key_Return)
    assert leaf._document.room.stock.budget is None
    assert leaf._document.undo_stack.count() == 4


def test_parts_that_cannot_fill_a_design_are_named_and_the_rest_is_counted(leaf: BuyLeaf, qtbot: QtBot) -> None:
    def without_short_bricks(room: Room) -> Room:
        short = {"brick 2x1", "brick 2x2", "brick 2x3"}
        parts = tuple(part.model_copy(update={"is_stocked": part.is_stocked and part.name not in short}) for part in room.parts)
        return room.model_copy(update={"parts": parts})

    leaf._document.commit_edit(without_short_bricks, "Stock fewer sizes")
    wait_for_orders(qtbot, leaf)
    assert "design" in leaf.needs_card.fault.text()
    assert row_of(leaf.needs, "panel screw") >= 0


def test_every_table_and_field_says_what_it_is_to_a_screen_reader(bare: BuyLeaf, qtbot: QtBot) -> None:
    leaf = bare
    tables = [leaf.needs, leaf.orders, leaf.suppliers.suppliers, leaf.suppliers.offers]
    assert all(table.accessibleName() for table in tables)
    qtbot.waitUntil(lambda: leaf.needs.cells.rowCount() > 0, timeout=LONGEST_MS)
    cell = leaf.needs.cells.index(0, 1)
    assert str(cell.data(Qt.ItemDataRole.AccessibleTextRole)).startswith("Needed: ")
    assert all(field.line.accessibleName() for field in leaf.money.fields)


@pytest.mark.parametrize("typed", ["", "x", "1.2.3", "1e5", "٣", "--1", "1" * 30])
def test_what_is_no_number_is_refused(typed: str) -> None:
    with pytest.raises(TypedError):
        decimal(typed)


def test_numbers_are_read_as_people_write_them() -> None:
    assert whole("12\u00a0000") == 12000
    assert decimal("12,5") == 12.5
    assert amount("EUR 3 000.20", "EUR") == 3000.2


def test_the_heaviest_box_is_typed_saved_and_undone(bare: BuyLeaf, qtbot: QtBot) -> None:
    field, document = bare.money.heaviest, bare._document
    assert field.line.text() == "15 kg"
    field.line.setFocus()
    field.line.selectAll()
    qtbot.keyClicks(field.line, "12.5 kg")
    qtbot.keyClick(field.line, Qt.Key.Key_Return)
    assert parse_room(json.dumps(room_document(document.room)).encode()).stock.heaviest_box_kg == 12.5
    document.undo_stack.undo()
    assert document.room.stock.heaviest_box_kg == 15.0
    assert field.line.text() == "15 kg"
    field.line.selectAll()
    qtbot.keyClicks(field.line, "0")
    qtbot.keyClick(field.line, Qt.Key.Key_Return)
    assert document.room.stock.heaviest_box_kg == 15.0
    assert field.fault.text()
