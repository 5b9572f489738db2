"""Laying panels from the stock in the window: one button, an answer, and nothing that makes the window wait."""

from collections.abc import Iterator
from pathlib import Path

import pytest
from PySide6.QtCore import Qt
from pytestqt.qtbot import QtBot

from app.buy.leaf import BuyLeaf
from app.document import Document
from app.from_stock import StockBonds
from app.from_stock.page import AGAIN, ASK, STALE, WORKING, StockPage
from app.pack_dialog import PackDialog
from app.window import Window
from core.edits.buying import count_boxes
from core.edits.openings import move_opening
from core.edits.progress import mark_panels
from core.laying import bond_from_stock
from core.room import Opening, Room
from core.setout import solve
from core.takeoff import Material
from tests.app.answers import Answers
from tests.core.laying.stocked import square, takes, with_boxes
from tests.core.laying.test_from_stock import AMPLE

LONGEST_MS = 60_000


@pytest.fixture
def room() -> Room:
    """A small room whose boxes hold fewer 2x4 bricks than its designs take."""
    outlet = Opening(id="outlet", kind="outlet", wall=0, left_mm=700, sill_mm=100, width_mm=60, height_mm=100)
    setout = solve(square().model_copy(update={"openings": (outlet,)}))
    return with_boxes(setout, AMPLE | {"brick 2x4": takes(setout)["brick 2x4"] - 400}).room


@pytest.fixture
def bonds(document: Document) -> Iterator[StockBonds]:
    bonds = StockBonds(document, document)
    yield bonds
    bonds.drop()


def laid(qtbot: QtBot, bonds: StockBonds) -> StockBonds:
    bonds.work_out()
    qtbot.waitUntil(lambda: not bonds.is_busy, timeout=LONGEST_MS)
    return bonds


def test_the_answer_is_the_one_worked_out_here(bonds: StockBonds, document: Document, qtbot: QtBot) -> None:
    found = laid(qtbot, bonds).found
    assert found is not None
    here = bond_from_stock(document.work_out())
    assert (found.bonds, found.lines, found.shortage) == (here.bonds, here.lines, here.shortage)
    assert found.swapped


def test_the_page_shows_what_fits_what_is_swapped_and_what_is_left(bonds: StockBonds, qtbot: QtBot) -> None:
    page = StockPage(bonds)
    qtbot.addWidget(page)
    assert page.ask.text() == ASK
    page.ask.click()
    assert page.verdict.text() == WORKING
    assert page.ask.text() == "Stop"
    qtbot.waitUntil(lambda: not bonds.is_busy, timeout=LONGEST_MS)
    found = bonds.found
    assert found is not None
    assert page.verdict.text() == found.verdict
    assert page.ask.text() == AGAIN
    assert [row.name for row in page.swaps.cells.rows] == [group.name for group in found.groups if not group.is_usual]
    assert tuple(page.parts.cells.rows) == found.lines


def test_stopping_leaves_nothing_running_and_nothing_found(bonds: StockBonds, qtbot: QtBot) -> None:
    page = StockPage(bonds)
    qtbot.addWidget(page)
    page.ask.click()
    page.ask.click()
    assert not bonds.is_busy
    assert bonds.found is None
    assert page.ask.text() == ASK


def test_what_runs_out_is_said_where_the_stock_does_not_do(bonds: StockBonds, document: Document, qtbot: QtBot) -> None:
    document.commit_edit(lambda room: count_boxes(room, Material("plug"), 10), "Stock take")
    page = StockPage(laid(qtbot, bonds))
    qtbot.addWidget(page)
    assert page.verdict.text().startswith("plug runs out at panel ")


def test_a_stock_without_any_usable_size_is_said_plainly(bonds: StockBonds, document: Document, qtbot: QtBot) -> None:
    for length in (1, 2, 3, 4):
        document.commit_edit(lambda room, length=length: count_boxes(room, Material(f"brick 2x{length}"), 0), "Stock take")
    page = StockPage(laid(qtbot, bonds))
    qtbot.addWidget(page)
    assert bonds.found is None
    assert "of no brick there is one left on hand" in page.verdict.text()


def test_another_count_makes_it_stale_and_other_panels_drop_it(bonds: StockBonds, document: Document, qtbot: QtBot) -> None:
    page = StockPage(laid(qtbot, bonds))
    qtbot.addWidget(page)
    document.commit_edit(lambda room: count_boxes(room, Material("plug"), 800), "Stock take")
    assert bonds.is_stale
    assert STALE in page.note.text()
    document.commit_edit(lambda room: move_opening(room, "outlet", left_mm=400.0), "Move")
    document.work_out()
    assert bonds.found is None


def test_panels_built_meanwhile_do_not_drop_it(bonds: StockBonds, document: Document, qtbot: QtBot) -> None:
    found = laid(qtbot, bonds).found
    assert found is not None
    setout, marks = document.work_out(), found.to_build[:2]
    document.commit_edit(lambda _room: mark_panels(setout, marks, "built", {}, own=bonds.own_parts(marks)), "Built")
    document.work_out()
    assert bonds.found is found
    assert not bonds.is_stale


def test_marking_notes_the_parts_of_panels_laid_otherwise(window: Window) -> None:
    found = bond_from_stock(window.document.work_out())
    window.from_stock._keep(found)
    mark = next(iter(found.swapped))
    assert window.building.marking.put((mark,), "built")
    (record,) = [record for record in window.document.room.progress.panels if record.parts]
    assert {line.part: line.count for line in record.parts} == {item.name: n for item, n in found.parts(mark).items()}


def test_the_leaf_has_the_page_behind_a_switch_and_the_keyboard_reaches_it(window: Window, qtbot: QtBot) -> None:
    qtbot.keyClick(window, Qt.Key.Key_5, Qt.KeyboardModifier.ControlModifier)
    leaf = window.leaves.turn_to(window.buying)
    assert isinstance(leaf, BuyLeaf)
    leaf.switches[2].click()
    assert leaf.stack.currentWidget() is leaf.from_stock
    assert leaf.focusProxy() is leaf.from_stock.ask
    leaf._aside.close()


def test_the_pack_is_laid_from_the_stock_where_the_person_wants_it(window: Window, answers: Answers, tmp_path: Path) -> None:
    answers.path, answers.from_stock = tmp_path / "pack", True
    window.files.make_pack()
    assert answers.asked == ["pack, can lay"]
    assert "The stock does for all" in answers.said[-1]
    found = window.from_stock.found
    assert found is not None
    kits = (tmp_path / "pack" / "kitting.csv").read_text()
    assert sum(found.bonds[mark].parts["brick 2x3"] for mark in found.to_build) == sum(
        int(line.rsplit(",", 1)[1]) for line in kits.splitlines() if ",brick 2x3," in line
    )
    answers.from_stock = False
    window.files.make_pack()
    assert answers.asked[-1] == "pack, can lay, lays"
    assert "The stock does" not in answers.said[-1]


def test_a_pack_from_a_stock_without_any_usable_size_is_not_begun(window: Window, answers: Answers, tmp_path: Path) -> None:
    window.document.commit_edit(lambda room: count_boxes(room, Material("plug"), 0), "Stock take")
    answers.path, answers.from_stock = tmp_path / "pack", True
    window.files.make_pack()
    assert "of no plug there is one left" in answers.said[-1]
    assert not (tmp_path / "pack").exists()


def test_the_pack_dialog_offers_the_stock_only_where_there_is_one(qtbot: QtBot, tmp_path: Path) -> None:
    for can_lay, lays in ((True, True), (True, False), (False, True)):
        dialog = PackDialog(tmp_path, can_lay=can_lay, lays=lays)
        qtbot.addWidget(dialog)
        assert dialog.from_stock.isEnabled() == can_lay
        assert dialog.from_stock.isChecked() == (can_lay and lays)
        assert dialog.folder == tmp_path
        dialog.line.clear()
        assert not dialog.make.isEnabled()
