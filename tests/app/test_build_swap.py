"""Taking panels out for something else: a page that says what is needed, to print or copy."""

from dataclasses import replace
from pathlib import Path

import pytest
from pypdf import PdfReader
from PySide6.QtCore import Qt
from PySide6.QtGui import QGuiApplication, QTextDocument
from PySide6.QtPrintSupport import QPrinter
from PySide6.QtTest import QTest

from app.tracking.swap_dialog import SwapDialog
from app.tracking.swap_page import page_html, page_text, swap_sections
from app.window import Window
from core.crew.swap import swap
from core.files import load_room
from core.setout import solve
from core.setout.result import SetOut


@pytest.fixture(scope="module")
def setout() -> SetOut:
    return solve(load_room(Path("assets/demo.room.json")))


def plain(html: str) -> str:
    page = QTextDocument()
    page.setHtml(html)
    return page.toPlainText()


def test_the_page_names_every_screw_step_caution_and_the_inserts_size(setout: SetOut) -> None:
    marks = [panel.mark for panel in setout.panels if panel.design == "full" and panel.faces[0].wall == 0][:2]
    found = swap(setout, marks)
    text = page_text(swap_sections(setout, found))
    for step in found.steps:
        assert step.mark in text
    for note in found.notes:
        assert note in text
    insert = found.inserts[0]
    assert f"{insert.width_mm:g} mm wide, {insert.height_mm:g} mm high, {insert.depth_mm:g} mm deep" in text
    screws = [line for line in text.splitlines() if line.startswith(marks[0])]
    assert len(screws) == sum(screw.mark == marks[0] for screw in found.screws) > 0


def test_a_room_named_in_markup_stays_text(setout: SetOut) -> None:
    odd = replace(setout, room=setout.room.model_copy(update={"name": "<img src=x> & shed"}))
    sections = swap_sections(odd, swap(odd, [odd.panels[0].mark]))
    assert "<img src=x> & shed" in plain(page_html(sections))
    assert "<img src=x> & shed" in page_text(sections)


def test_the_page_is_copied_as_text_and_printed(setout: SetOut, tmp_path: Path) -> None:
    mark = setout.panels[3].mark
    printed = tmp_path / "swap.pdf"

    def to_file(page: QTextDocument, _parent: object) -> None:
        printer = QPrinter(QPrinter.PrinterMode.HighResolution)
        printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
        printer.setOutputFileName(str(printed))
        page.print_(printer)

    dialog = SwapDialog(swap_sections(setout, swap(setout, [mark])), printing=to_file)
    dialog.show()
    QTest.mouseClick(dialog.copy, Qt.MouseButton.LeftButton)
    QTest.mouseClick(dialog.print_button, Qt.MouseButton.LeftButton)
    assert f"taking out {mark}" in QGuiApplication.clipboard().text()
    assert mark in PdfReader(printed).pages[0].extract_text()
    dialog.deleteLater()


def test_the_dialog_is_about_the_chosen_panels(window: Window) -> None:
    window.document.work_out()
    assert window.building.swap_dialog() is None
    assert "Choose the panels" in window.statusBar().currentMessage()
    window.building.picks.choose(["A-2-05", "A-3-05"])
    dialog = window.building.swap_dialog()
    assert dialog is not None
    assert "taking out A-3-05, A-2-05" in dialog.page.toPlainText()
    dialog.deleteLater()
