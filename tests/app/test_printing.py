"""Printing: what reaches paper or the preview is every sheet asked for, at its own size."""

from pathlib import Path
from typing import Any

import pytest
from pypdf import PdfReader
from PySide6.QtGui import QColor, QImage, QPainter, QPicture
from PySide6.QtPrintSupport import QPrinter, QPrintPreviewWidget
from PySide6.QtWidgets import QToolBar, QToolButton
from pytestqt.qtbot import QtBot

from app.document import Document
from app.painter import paint_sheet
from app.printing import Preview, chosen_sheets, jobs_for, make_printer, print_sheets
from app.progress import Progress
from app.window import Window
from core.sheets import sheets_for
from tests.app.answers import Answers


@pytest.mark.usefixtures("qapp")
def test_every_sheet_is_in_one_job_on_its_own_paper(document: Document) -> None:
    sheets = sheets_for(document.setout)
    jobs = jobs_for(sheets)
    assert all(sheet.paper == paper for paper, group in jobs for sheet in group)
    assert sorted(sheet.code for _, group in jobs for sheet in group) == sorted(sheet.code for sheet in sheets)
    assert len({paper for paper, _ in jobs}) == len(jobs)


@pytest.mark.usefixtures("qapp")
def test_a_job_prints_every_sheet_at_its_papers_size(document: Document, tmp_path: Path, qtlog: Any) -> None:
    for paper, sheets in jobs_for(sheets_for(document.setout)):
        printer = make_printer(paper, "Den")
        printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
        printer.setOutputFileName(str(tmp_path / "job.pdf"))
        assert print_sheets(printer, sheets)
        pages = PdfReader(tmp_path / "job.pdf").pages
        assert len(pages) == len(sheets)
        for page in pages:
            assert float(page.mediabox.width) / 72 * 25.4 == pytest.approx(paper.width_mm, abs=0.36)
    assert [record.message for record in qtlog.records] == []


@pytest.mark.usefixtures("qapp")
def test_a_job_that_is_stopped_says_so(document: Document, tmp_path: Path) -> None:
    paper, sheets = max(jobs_for(sheets_for(document.setout)), key=lambda job: len(job[1]))
    printer = make_printer(paper, "Den")
    printer.setOutputFormat(QPrinter.OutputFormat.PdfFormat)
    printer.setOutputFileName(str(tmp_path / "job.pdf"))
    assert not print_sheets(printer, sheets, lambda number: number < 2)


@pytest.mark.usefixtures("qapp")
def test_a_page_range_prints_those_sheets_only(document: Document) -> None:
    sheets = sheets_for(document.setout)
    printer = make_printer(sheets[0].paper, "Den")
    assert chosen_sheets(printer, sheets) == sheets
    printer.setPrintRange(QPrinter.PrintRange.PageRange)
    printer.setFromTo(2, 3)
    assert chosen_sheets(printer, sheets) == sheets[1:3]


@pytest.mark.slow
def test_the_preview_shows_every_sheet_of_the_chosen_paper(window: Window, qtbot: QtBot) -> None:
    jobs = jobs_for(sheets_for(window.document.setout))
    dialog = Preview(window.document.setout, window)
    qtbot.addWidget(dialog)
    dialog.show()
    preview = dialog.findChild(QPrintPreviewWidget)
    assert isinstance(preview, QPrintPreviewWidget)
    preview.updatePreview()
    assert preview.pageCount() == len(jobs[0][1])
    dialog.papers.setCurrentIndex(1)
    assert preview.pageCount() == len(jobs[1][1])


@pytest.mark.slow
def test_every_button_of_the_preview_is_in_sight(window: Window, qtbot: QtBot) -> None:
    dialog = Preview(window.document.setout, window)
    qtbot.addWidget(dialog)
    with qtbot.waitExposed(dialog):
        dialog.show()
    bar = dialog.findChild(QToolBar)
    assert isinstance(bar, QToolBar)
    qtbot.waitUntil(lambda: bar.width() > bar.sizeHint().width())
    buttons = [bar.widgetForAction(action) for action in bar.actions()]
    assert all(button.isVisible() for button in buttons if isinstance(button, QToolButton))


@pytest.mark.slow
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


@pytest.mark.usefixtures("qapp")
def test_a_recorded_page_is_black_whatever_ink_it_is_played_back_in(document: Document) -> None:
    """The preview records pages and plays them back with the window's ink, which is pale in the dark scheme."""
    sheet = sheets_for(document.setout)[0]
    picture = QPicture()
    painter = QPainter(picture)
    paint_sheet(painter, sheet)
    painter.end()
    paper = QImage(1200, 1700, QImage.Format.Format_RGB32)
    paper.fill(QColor("#808080"))
    player = QPainter(paper)
    player.setPen(QColor("#ffffff"))
    player.scale(5, 5)
    picture.play(player)
    player.end()
    lightest = max(paper.pixelColor(x, y).lightness() for x in range(0, 1200, 3) for y in range(0, 1700, 3))
    assert lightest <= QColor("#808080").lightness()
