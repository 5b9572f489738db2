"""The sheets on a printer, and in the preview that shows them first.

A print job has one paper: Qt refuses to change it between pages, and so do most machines. Sheets on different papers are
therefore separate jobs.
"""

from collections.abc import Callable, Sequence
from datetime import date

from PySide6.QtGui import QPainter
from PySide6.QtPrintSupport import QPrintDialog, QPrinter, QPrintPreviewDialog, QPrintPreviewWidget
from PySide6.QtWidgets import QComboBox, QDialog, QToolBar, QWidget

from app.painter import page_layout, paint_sheet
from app.progress import Progress
from core.drawing import Paper, Sheet
from core.language import tr, trn
from core.laying import FromStock
from core.setout.result import SetOut
from core.sheets import sheets_for
from core.whole_job import WholeJob

MM_PER_INCH = 25.4
Job = tuple[Paper, tuple[Sheet, ...]]


def jobs_for(sheets: Sequence[Sheet]) -> tuple[Job, ...]:
    """The sheets by the paper they need, in the order in which the papers first come up."""
    papers = list(dict.fromkeys(sheet.paper for sheet in sheets))
    return tuple((paper, tuple(sheet for sheet in sheets if sheet.paper == paper)) for paper in papers)


def job_words(job: Job) -> str:
    """``A3, 5 sheets``."""
    paper, sheets = job
    return trn("{paper}, {n} sheet", "{paper}, {n} sheets", len(sheets), paper=paper.name)


def make_printer(paper: Paper, name: str) -> QPrinter:
    """A printer set up for one paper: true to size, no margins of its own, named after the room."""
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setDocName(name)
    printer.setCreator("Coursewright")
    printer.setFullPage(True)
    printer.setPageLayout(page_layout(paper))
    return printer


def chosen_sheets(printer: QPrinter, sheets: Sequence[Sheet]) -> Sequence[Sheet]:
    """The pages that the print dialog asked for; all of them where it named none."""
    if printer.printRange() != QPrinter.PrintRange.PageRange or printer.fromPage() < 1:
        return sheets
    return sheets[printer.fromPage() - 1 : max(printer.toPage(), printer.fromPage())]


def print_sheets(printer: QPrinter, sheets: Sequence[Sheet], go_on: Callable[[int], bool] = lambda _number: True) -> bool:
    """Paint the sheets as pages of one job, one millimetre to a millimetre; False if stopped or the printer refused."""
    painter = QPainter()
    for number, sheet in enumerate(sheets):
        ready = painter.begin(printer) if number == 0 else go_on(number) and printer.newPage()
        if not ready:
            printer.abort()
            painter.end()
            return False
        painter.resetTransform()
        painter.scale(printer.logicalDpiX() / MM_PER_INCH, printer.logicalDpiY() / MM_PER_INCH)
        paint_sheet(painter, sheet)
    return painter.end()


def print_setout(setout: SetOut, parent: QWidget, stock: FromStock | None = None) -> None:
    """Ask for a printer and print, once for each paper; stops at the first that the person gives up.

    With ``stock`` the panels still to build are laid from it.
    """
    for job in jobs_for(sheets_for(setout, issued=date.today(), job=WholeJob(setout, stock))):
        if not _print_job(job, setout.room.name, parent):
            return


def _print_job(job: Job, name: str, parent: QWidget) -> bool:
    paper, sheets = job
    printer = make_printer(paper, f"{name}, {paper.name}")
    dialog = QPrintDialog(printer, parent)
    dialog.setWindowTitle(tr("Print on {papers}", papers=job_words(job)))
    dialog.setMinMax(1, len(sheets))
    accepted = dialog.exec() == QDialog.DialogCode.Accepted
    dialog.deleteLater()
    if not accepted:
        return False
    wanted = chosen_sheets(printer, sheets)
    with Progress(parent, tr("Printing the sheets …")) as progress:

        def begin(number: int) -> bool:
            return progress.step(number, len(wanted), tr("Sheet {number} of {count}", number=number + 1, count=len(wanted)))

        return print_sheets(printer, wanted, begin)


class Preview(QPrintPreviewDialog):
    """The sheets as they will print, one paper at a time, from where they can be printed."""

    def __init__(
        self,
        setout: SetOut,
        parent: QWidget | None = None,
        sheets: Sequence[Sheet] | None = None,
        *,
        stock: FromStock | None = None,
    ) -> None:
        """Previews those sheets, or where None are given the whole pack, its panels laid from the ``stock`` if there is one."""
        if sheets is None:
            sheets = sheets_for(setout, issued=date.today(), job=WholeJob(setout, stock))
        self._jobs = jobs_for(sheets)
        self._job = self._jobs[0]
        # Qt does not own a preview's printer; it must live as long as the dialog.
        self._printer = make_printer(self._job[0], setout.room.name)
        super().__init__(self._printer, parent)
        self.setWindowTitle(tr("Print preview: {room}", room=setout.room.name))
        self.resize(1100, 800)
        self.papers = QComboBox()
        self.papers.setAccessibleName(tr("Paper"))
        self.papers.addItems([job_words(job) for job in self._jobs])
        self.papers.currentIndexChanged.connect(self._turn_to)
        bar = self.findChild(QToolBar)
        if isinstance(bar, QToolBar):
            bar.insertWidget(bar.actions()[0], self.papers)
        self.paintRequested.connect(self._paint)

    def _turn_to(self, place: int) -> None:
        self._job = self._jobs[place]
        self._printer.setPageLayout(page_layout(self._job[0]))
        view = self.findChild(QPrintPreviewWidget)
        if isinstance(view, QPrintPreviewWidget):
            view.updatePreview()

    def _paint(self, printer: QPrinter) -> None:
        print_sheets(printer, chosen_sheets(printer, self._job[1]))
