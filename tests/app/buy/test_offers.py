"""Suppliers and what they ask: typed one by one, or taken from a price list."""

from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from PySide6.QtWidgets import QApplication, QLineEdit
from pytestqt.qtbot import QtBot

from app.buy.leaf import BuyLeaf
from core.edits.buying import set_offers
from core.purchase import Offer, PriceBreak
from tests.app.buy.orders import FileAnswers
from tests.app.table_hand import type_into

CONTROL = Qt.KeyboardModifier.ControlModifier


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


def test_what_is_typed_right_after_a_click_into_a_cell_is_not_lost(leaf: BuyLeaf, qtbot: QtBot) -> None:
    """Within the time in which a second click would make it a double one."""
    leaf.turn(1)
    table = leaf.suppliers.suppliers
    table.setFocus()
    place = table.visualRect(table.cells.index(0, 0)).center()
    qtbot.mouseClick(table.viewport(), Qt.MouseButton.LeftButton, pos=place)
    qtbot.mouseClick(table.viewport(), Qt.MouseButton.LeftButton, pos=place)
    qtbot.keyClick(table, Qt.Key.Key_H)
    editor = QApplication.focusWidget()
    assert isinstance(editor, QLineEdit)
    qtbot.keyClicks(editor, "arbour Bricks")
    qtbot.keyClick(editor, Qt.Key.Key_Return)
    qtbot.waitUntil(lambda: table.state() != table.State.EditingState)
    assert [one.name for one in leaf._document.room.stock.suppliers] == ["harbour Bricks"]


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
