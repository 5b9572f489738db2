"""Orders of least cost, and when they are worked out: never at the wrong time, and in a process of their own."""

from dataclasses import replace
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.aside.aside import BROKE_OFF, Aside
from app.buy.leaf import BuyLeaf
from app.buy.money_card import MoneyCard
from app.buy.orders_table import UNSUPPLIED
from app.document import Document
from app.tables.reading import TypedError, whole
from app.window import Window
from core import edits
from core.edits.buying import set_offers, set_purchase
from core.export.takeoff_csv import orders_csv
from core.purchase import Offer
from tests.app.buy.orders import FileAnswers, bought_by_core, wait_for_orders

LONGEST_MS = 30_000
PRICED = (Offer(part="brick 2x4", pack=600, price=20.0), Offer(part="plug", pack=100, price=3.5))


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


def test_nothing_of_the_card_lies_under_its_scroll_bar(window: Window, leaf: BuyLeaf, qtbot: QtBot) -> None:
    window.resize(1280, 800)
    area = leaf.money.parentWidget()
    assert area is not None
    qtbot.waitUntil(lambda: leaf.money.width() <= area.width())
    leaf.money.stop.show()
    qtbot.wait(50)
    assert leaf.money.minimumSizeHint().width() <= area.width()
