"""The page about taking panels out, with buttons to print it and to copy it as text."""

from collections.abc import Callable, Sequence

from PySide6.QtGui import QGuiApplication, QTextDocument
from PySide6.QtPrintSupport import QPrintDialog, QPrinter
from PySide6.QtWidgets import QDialog, QDialogButtonBox, QTextBrowser, QVBoxLayout, QWidget

from app.tracking.swap_page import Section, page_html, page_text
from core.language import tr

PrintPage = Callable[[QTextDocument, QWidget], None]
MARGIN_PX = 14


def print_page(page: QTextDocument, parent: QWidget) -> None:
    """Ask for a printer and print the page."""
    printer = QPrinter(QPrinter.PrinterMode.HighResolution)
    dialog = QPrintDialog(printer, parent)
    accepted = dialog.exec() == QDialog.DialogCode.Accepted
    dialog.deleteLater()
    if accepted:
        page.print_(printer)


class SwapDialog(QDialog):
    """Read, print, copy, close."""

    def __init__(self, sections: Sequence[Section], parent: QWidget | None = None, printing: PrintPage = print_page) -> None:
        super().__init__(parent)
        self.setWindowTitle(tr("Take panels out for something else"))
        self.resize(820, 640)
        self.page = QTextBrowser()
        self.page.setHtml(page_html(sections))
        self.page.setAccessibleName(tr("How the panels come out"))
        self.page.document().setDocumentMargin(MARGIN_PX)
        buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Close)
        self.copy = buttons.addButton(tr("&Copy as text"), QDialogButtonBox.ButtonRole.ActionRole)
        self.print_button = buttons.addButton(tr("&Print…"), QDialogButtonBox.ButtonRole.ActionRole)
        self.copy.clicked.connect(lambda: QGuiApplication.clipboard().setText(page_text(sections)))
        self.print_button.clicked.connect(lambda: printing(self.page.document(), self))
        buttons.rejected.connect(self.reject)
        layout = QVBoxLayout(self)
        layout.addWidget(self.page)
        layout.addWidget(buttons)
