"""The buying leaf: what is typed becomes an edit, orders are those of least cost, and nothing long is done at the wrong time."""

from collections.abc import Iterator
from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLineEdit
from pytestqt.qtbot import QtBot

from app.aside.aside import BROKE_OFF, Aside
from app.buy.asking import Asking
from app.buy.leaf import BuyLeaf
from app.buy.money_card import MoneyCard
from app.buy.orders_table import UNSUPPLIED
from app.document import Document
from app.tables.reading import TypedError, amount, decimal, whole
from app.tables.table import Table
from app.window import Window
from core import edits
from core.bond import bonds_for
from core.buying import Purchasing, purchasing
from core.edits.buying import set_offers, set_purchase
from core.export.takeoff_csv import orders_csv
from core.purchase import Offer, PriceBreak
from core.room import Opening, Room
from core.takeoff import Material, parts_of, take_off

CONTROL = Qt.KeyboardModifier.ControlModifier
BRICK = Material("brick 2x4")
LONGEST_MS = 30_000
PRICED = (Offer(part="brick 2x4", pack=600, price=20.0), Offer(part="plug", pack=100, price=3.5))


class FileAnswers(Asking):
    """Files in place of dialogs."""

    def __init__(self, path: Path | None) -> None:
        self.path = path

    def price_list(self, _supplier: str, _folder: Path) -> Path | None:
        return self.path

    def orders_file(self, _proposal: Path) -> Path | None:
        return self.path


@pytest.fixture
def room() -> Room:
    """A small den, so that its set-out is soon worked out."""
    corners = ((0.0, 0.0), (0.0, 1600.0), (1600.0, 1600.0), (1600.0, 0.0))
    window = Opening(id="window", kind="window", wall=1, left_mm=500, sill_mm=304, width_mm=608, height_mm=304)
    return Room(name="Reading den", corners_mm=corners, clad_height_mm=910.0, openings=(window,))


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


def wait_for_orders(qtbot: QtBot, leaf: BuyLeaf) -> None:
    """Until the orders of the room as it is are there, ways under the budget included."""

    def are_there() -> bool:
        bought = leaf.bought
        return bought is not None and not leaf._aside.is_busy and leaf._needs.setout.room == leaf._document.room

    qtbot.waitUntil(are_there, timeout=LONGEST_MS)


def type_into(qtbot: QtBot, table: Table, row: int, column: str, text: str) -> None:
    """Go to a cell, begin with Enter, type, and end with Enter."""
    number = [one.title for one in table.cells.columns].index(column)
    table.setFocus()
    table.setCurrentIndex(table.cells.index(row, number))
    qtbot.keyClick(table, Qt.Key.Key_Return)
    editor = QApplication.focusWidget()
    assert isinstance(editor, QLineEdit)
    editor.selectAll()
    qtbot.keyClicks(editor, text)
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: table.state() != Table.State.EditingState)


def row_of(table: Table, text: str) -> int:
    return next(row for row in range(table.cells.rowCount()) if table.cells.index(row, 0).data() == text)


def shown(table: Table, row: int, column: str) -> str:
    number = [one.title for one in table.cells.columns].index(column)
    return str(table.cells.index(row, number).data()).replace("\u00a0", "")


def bought_by_core(document: Document) -> Purchasing:
    setout = document.work_out()
    return purchasing(setout, take_off(setout, parts_of(bonds_for(setout))))


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


def test_suppliers_are_added_renamed_and_removed_by_keys_and_undo_brings_them_back(leaf: BuyLeaf, qtbot: QtBot) -> None:
    qtbot.mouseClick(leaf.switches[1], Qt.MouseButton.LeftButton)
    table = leaf.suppliers.suppliers
    type_into(qtbot, table, 0, "Supplier", "Harbour Bricks")
    type_into(qtbot, table, 0, "Free from", "400")
    type_into(qtbot, table, 0, "Supplier", "Harbour Bricks and Tiles")
    supplier = leaf._document.room.stock.suppliers[0]
    assert (supplier.name, supplier.free_shipping_from) == ("Harbour Bricks and Tiles", 400.0)
    type_into(qtbot, table, 1, "Supplier", "Harbour Bricks and Tiles")
    assert len(leaf._document.room.stock.suppliers) == 1
    table.setCurrentIndex(table.cells.index(0, 0))
    qtbot.keyClick(table, Qt.Key.Key_Delete)
    assert leaf._document.room.stock.suppliers == ()
    qtbot.keyClick(table, Qt.Key.Key_Z, CONTROL)
    assert leaf._document.room.stock.suppliers == (supplier,)


def test_prices_are_typed_offer_by_offer(bare: BuyLeaf, qtbot: QtBot) -> None:
    leaf = bare
    leaf._document.commit_edit(lambda room: set_offers(room, "Harbour Bricks", ()), "Supplier")
    leaf.turn(1)
    table = leaf.suppliers.offers
    type_into(qtbot, table, 0, "Part", "brick 2x4")
    type_into(qtbot, table, 0, "In a pack", "600")
    type_into(qtbot, table, 0, "A pack costs", "21,50")
    type_into(qtbot, table, 0, "Cheaper from", "10: 20; 50: 19.25")
    type_into(qtbot, table, 1, "Part", "brick 2x44")
    breaks = (PriceBreak(from_packs=10, price=20.0), PriceBreak(from_packs=50, price=19.25))
    assert leaf._document.room.stock.suppliers[0].offers == (Offer(part="brick 2x4", pack=600, price=21.5, breaks=breaks),)
    assert "did you mean 'brick 2x4'?" in leaf.suppliers.prices.fault.text()
    type_into(qtbot, table, 0, "Cheaper from", "50: 19; 10: 20")
    assert "rising" in leaf.suppliers.prices.fault.text()
    table.setCurrentIndex(table.cells.index(0, 1))
    qtbot.keyClick(table, Qt.Key.Key_Delete)
    assert leaf._document.room.stock.suppliers[0].offers == ()


def test_a_price_list_keeps_its_good_lines_and_names_the_bad_ones_by_row_and_column(
    bare: BuyLeaf, qtbot: QtBot, tmp_path: Path
) -> None:
    leaf = bare
    path = tmp_path / "Quay Street.csv"
    path.write_bytes(b"part;pack;price\nbrick 2x4;600;19,90\nbrick 2x5;600;9\nplug;100;cheap\nplug;200;5.50\n")
    leaf.suppliers.asking = FileAnswers(path)
    leaf.turn(1)
    qtbot.mouseClick(leaf.suppliers.import_button, Qt.MouseButton.LeftButton)
    (supplier,) = leaf._document.room.stock.suppliers
    assert supplier.name == "Quay Street"
    assert [(offer.part, offer.pack, offer.price) for offer in supplier.offers] == [("brick 2x4", 600, 19.9), ("plug", 200, 5.5)]
    listed = [leaf.suppliers.left_out.item(row).text() for row in range(leaf.suppliers.left_out.count())]
    assert [text.partition(":")[0] for text in listed] == ["row 3, column part", "row 4, column price"]
    assert leaf.suppliers.left_out.isVisible()
    assert leaf._document.undo_stack.count() == 1


@pytest.mark.parametrize("content", [b"", b"\x00\xff\x00", b"name,price\nbrick,3\n", b"part,pack,price\n"])
def test_a_file_that_is_no_price_list_changes_nothing_and_says_so(
    bare: BuyLeaf, qtbot: QtBot, tmp_path: Path, content: bytes
) -> None:
    leaf = bare
    path = tmp_path / "list.csv"
    path.write_bytes(content)
    leaf.suppliers.asking = FileAnswers(path)
    leaf.turn(1)
    qtbot.mouseClick(leaf.suppliers.import_button, Qt.MouseButton.LeftButton)
    assert leaf._document.undo_stack.count() == 0
    assert leaf.suppliers.report.text()


def test_a_missing_price_list_is_told(bare: BuyLeaf, tmp_path: Path) -> None:
    leaf = bare
    leaf.suppliers.asking = FileAnswers(tmp_path / "gone.csv")
    leaf.suppliers.import_list()
    assert "cannot be read" in leaf.suppliers.report.text()


def test_orders_and_cost_are_those_the_core_proves_and_the_file_holds_them(leaf: BuyLeaf, qtbot: QtBot, tmp_path: Path) -> None:
    leaf._document.commit_edit(lambda room: set_offers(room, "Harbour Bricks", PRICED), "Prices")
    wait_for_orders(qtbot, leaf)
    expected = bought_by_core(leaf._document)
    assert leaf.bought == expected
    assert leaf.money.cost.text() == f"at least {expected.buying.total:.2f}"
    assert leaf.money.proof.text().startswith("the least cost, proven; no price given for")
    assert [row.what for row in leaf.orders.cells.rows if row.is_head] == ["Harbour Bricks", UNSUPPLIED]
    leaf.asking = FileAnswers(tmp_path / "orders.csv")
    qtbot.mouseClick(leaf.export_button, Qt.MouseButton.LeftButton)
    assert (tmp_path / "orders.csv").read_bytes().decode() == orders_csv(expected)


def test_a_file_that_cannot_be_written_is_told(leaf: BuyLeaf, tmp_path: Path) -> None:
    leaf.asking = FileAnswers(tmp_path / "no" / "folder" / "orders.csv")
    leaf.export()
    assert "cannot be written" in leaf.needs_card.fault.text()


def test_a_budget_that_is_exceeded_comes_with_ways_under_it(leaf: BuyLeaf, qtbot: QtBot) -> None:
    room = set_purchase(set_offers(leaf._document.room, "Harbour Bricks", PRICED), budget=30.0)
    leaf._document.commit(room, "Prices and budget")
    wait_for_orders(qtbot, leaf)
    expected = bought_by_core(leaf._document)
    assert expected.over > 0
    assert expected.ways
    said = leaf.money.budget_words.text()
    assert said.startswith(f"{expected.over:.2f} over the budget.")
    assert all(way.text in said for way in expected.ways)


def test_a_result_that_is_not_proven_is_called_that(document: Document, qtbot: QtBot) -> None:
    document.commit_edit(lambda room: set_offers(room, "Harbour Bricks", PRICED), "Prices")
    card = MoneyCard(document)
    qtbot.addWidget(card)
    bought = bought_by_core(document)
    card.show_bought(replace(bought, buying=replace(bought.buying, proof="best found")), is_seeking=False)
    assert "not proven" in card.proof.text()


def test_nothing_is_worked_out_during_a_drag_and_it_begins_anew_after(leaf: BuyLeaf, qtbot: QtBot) -> None:
    document = leaf._document
    document.preview_edit(lambda room: edits.move_opening(room, "window", left_mm=420))
    assert leaf.bought is None
    qtbot.wait(400)
    assert not leaf._idle.is_running
    assert not leaf._aside.is_busy
    assert "working out" in leaf.money.proof.text()
    document.finish("Move the window")
    wait_for_orders(qtbot, leaf)
    assert leaf.bought == bought_by_core(document)


def test_nothing_is_worked_out_once_the_leaf_is_left_and_its_process_ends(leaf: BuyLeaf, window: Window, qtbot: QtBot) -> None:
    window.leaves.turn_to(0)
    assert leaf._aside._process is None
    leaf._document.commit_edit(lambda room: set_purchase(room, spare_percent=9.0), "Spares")
    qtbot.wait(400)
    assert leaf.bought is None
    assert not leaf._aside.is_busy
    window.leaves.turn_to(window.buying)
    wait_for_orders(qtbot, leaf)
    assert leaf.bought == bought_by_core(leaf._document)


def test_another_stock_is_reckoned_without_waiting_for_another_set_out(leaf: BuyLeaf, qtbot: QtBot) -> None:
    asked = []
    leaf._idle.finished.connect(lambda needs: asked.append((needs.setout.room, leaf._document.is_full)))
    leaf._document.commit_edit(lambda room: set_purchase(room, spare_percent=9.0), "Spares")
    qtbot.waitUntil(lambda: bool(asked), timeout=LONGEST_MS)
    assert asked[0] == (leaf._document.room, True)


def test_a_search_can_be_stopped_and_begun_again(leaf: BuyLeaf, qtbot: QtBot) -> None:
    leaf._ask_orders()
    leaf.bought = None
    leaf._offer_stop()
    qtbot.mouseClick(leaf.money.stop, Qt.MouseButton.LeftButton)
    assert not leaf._aside.is_busy
    assert "not worked out" in leaf.money.proof.text()
    qtbot.mouseClick(leaf.money.stop, Qt.MouseButton.LeftButton)
    wait_for_orders(qtbot, leaf)


def test_a_process_that_breaks_off_is_told_and_the_next_question_is_answered(leaf: BuyLeaf, qtbot: QtBot) -> None:
    leaf._ask_orders()
    process = leaf._aside._process
    assert process is not None
    process.kill()
    qtbot.waitUntil(lambda: leaf.money.proof.text() == BROKE_OFF, timeout=LONGEST_MS)
    leaf.bought = None
    leaf._ask_orders()
    wait_for_orders(qtbot, leaf)


def test_what_lies_in_the_folder_the_program_runs_in_is_never_taken_for_its_own(
    document: Document, qtbot: QtBot, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for name in ("app", "core", "pickle"):
        (tmp_path / f"{name}.py").write_text("raise SystemExit(1)")
    monkeypatch.chdir(tmp_path)
    aside = Aside(document)
    with qtbot.waitSignal(aside.told, timeout=LONGEST_MS) as told:
        aside.ask(whole, "12 000")
    assert told.args == [12000]
    aside.close()


def test_why_something_cannot_be_worked_out_is_told_and_the_process_stays(document: Document, qtbot: QtBot) -> None:
    aside = Aside(document)
    with qtbot.waitSignal(aside.failed, timeout=LONGEST_MS) as failed:
        aside.ask(whole, "many")
    assert failed.args == [str(TypedError("found 'many', should be a whole number like 600"))]
    process = aside._process
    with qtbot.waitSignal(aside.told, timeout=LONGEST_MS):
        aside.ask(whole, "3")
    assert aside._process is process
    aside.close()


def test_where_no_process_may_start_it_is_done_here(
    document: Document, qtbot: QtBot, monkeypatch: pytest.MonkeyPatch, tmp_path: Path
) -> None:
    monkeypatch.setattr("sys.executable", str(tmp_path / "no-python"))
    aside = Aside(document)
    with qtbot.waitSignal(aside.told, timeout=LONGEST_MS) as told:
        aside.ask(whole, "7")
    assert told.args == [7]


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
