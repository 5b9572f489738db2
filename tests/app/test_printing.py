"""Printing: what reaches paper or the preview is every sheet asked for, at its own size."""

from pathlib import Path

import pytest
from pypdf import PdfReader
from PySide6.QtPrintSupport import QPrinter, QPrintPreviewWidget
from pytestqt.qtbot import QtBot

from app.document import Document
from app.painter import paint_pages
from app.printing import Preview, chosen_sheets, make_printer
from app.progress import Progress
from app.window import Window
from core.sheets import sheets_for
from tests.app.answers import Answers


@pytest.mark.usefixtures("qapp")
def test_a_print_job_has_every_sheet_at_its_papers_size(document: Document, tmp_path: Path) -> None:
    sheets = sheets_for(document.setout)
    printer = make_printer(sheets, "Den")
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(tmp_path / "job.pdf"))
    assert paint_pages(printer, sheets[:3])
    pages = PdfReader(tmp_path / "job.pdf").pages
    assert len(pages) == 3
    width_mm = float(pages[0].mediabox.width) / 72 * 25.4
    assert width_mm == pytest.approx(sheets[0].paper.width_mm, abs=0.36)


@pytest.mark.usefixtures("qapp")
def test_a_page_range_prints_those_sheets_only(document: Document) -> None:
    sheets = sheets_for(document.setout)
    printer = make_printer(sheets, "Den")
    assert chosen_sheets(printer, sheets) == sheets
    printer.setPrintRange(QPrinter.PrintRange.PageRange)
    printer.setFromTo(2, 3)
    assert chosen_sheets(printer, sheets) == sheets[1:3]


def test_the_preview_shows_every_sheet(window: Window, qtbot: QtBot) -> None:
    dialog = Preview(window.document.setout, window)
    qtbot.addWidget(dialog)
    dialog.show()
    preview = dialog.findChild(QPrintPreviewWidget)
    assert isinstance(preview, QPrintPreviewWidget)
    preview.updatePreview()
    assert preview.pageCount() == len(sheets_for(window.document.setout))


def test_the_print_pack_is_written_and_told(window: Window, answers: Answers, tmp_path: Path) -> None:
    answers.path = tmp_path / "pack"
    window.files.make_pack()
    assert any(file.suffix == ".pdf" for file in answers.path.iterdir())
    assert "files are in" in answers.said[0]


def test_a_pack_that_is_stopped_leaves_no_file(
    window: Window, answers: Answers, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(Progress, "stopped", property(lambda _self: True))
    monkeypatch.setattr(Progress, "step", lambda _self, done, _total, _what: done < 2)
    answers.path = tmp_path / "pack"
    window.files.make_pack()
    assert not answers.path.exists() or not list(answers.path.iterdir())
    assert "nothing was written" in answers.said[0]
