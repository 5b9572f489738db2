"""The sheets on a printer, and in the preview that shows them first."""

from collections.abc import Sequence

from PySide6.QtPrintSupport import QPrintDialog, QPrinter, QPrintPreviewDialog
from PySide6.QtWidgets import QDialog, QWidget

from app.painter import page_layout, paint_pages
from app.progress import Progress
from core.drawing import Sheet
from core.setout.result import SetOut
from core.sheets import sheets_for


def make_printer(sheets: Sequence[Sheet], name: str) -> QPrinter:
    """A printer set up for the sheets: true to size, no margins of its own, named after the room."""
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    printer.setDocName(name)
    printer.setCreator("Coursewright")
    printer.setFullPage(True)
    printer.setPageLayout(page_layout(sheets[0].paper))
    printer.setFromTo(0, 0)
    return printer


def chosen_sheets(printer: QPrinter, sheets: Sequence[Sheet]) -> Sequence[Sheet]:
    """The pages that the print dialog asked for; all of them where it named none."""
    if printer.printRange() != QPrinter.PrintRange.PageRange or printer.fromPage() < 1:
        return sheets
    return sheets[printer.fromPage() - 1 : max(printer.toPage(), printer.fromPage())]


def print_setout(setout: SetOut, parent: QWidget) -> bool:
    """Ask for a printer and print; False where the person gave it up."""
    sheets = sheets_for(setout)
    printer = make_printer(sheets, setout.room.name)
    dialog = QPrintDialog(printer, parent)
    dialog.setMinMax(1, len(sheets))
    if dialog.exec() != QDialog.DialogCode.Accepted:
        return False
    wanted = chosen_sheets(printer, sheets)
    with Progress(parent, "Printing the sheets …") as progress:
        return paint_pages(
            printer, wanted, lambda number: progress.step(number, len(wanted), f"Sheet {number + 1} of {len(wanted)}")
        )


class Preview(QPrintPreviewDialog):
    """The preview of all sheets, from which they can be printed."""

    def __init__(self, setout: SetOut, parent: QWidget | None = None) -> None:
        self._sheets = sheets_for(setout)
        # Qt does not own a preview's printer; it must live as long as the dialog.
        self._printer = make_printer(self._sheets, setout.room.name)
        super().__init__(self._printer, parent)
        self.setWindowTitle(f"Print preview: {setout.room.name}")
        self.resize(1100, 800)
        self.paintRequested.connect(self._paint)

    def _paint(self, printer: QPrinter) -> None:
        paint_pages(printer, chosen_sheets(printer, self._sheets))
