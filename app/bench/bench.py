"""Opening the bench view for a panel, and what it remembers from one opening to the next."""

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QWidget

from app.bench.dialog import BenchDialog, BenchMemory
from app.bench.job import BenchJob
from app.document import Document
from app.from_stock import StockBonds
from app.questions import Questions
from core.bond import StockError
from core.language import tr
from core.setout.result import Panel


class Bench:
    """The bench of one window; one panel at a time lies on it."""

    def __init__(self, document: Document, questions: Questions, stock: StockBonds, window: QWidget) -> None:
        self._document, self._questions, self._stock, self._window = document, questions, stock, window
        self._memory = BenchMemory()
        self.dialog: BenchDialog | None = None

    def open_selected(self) -> None:
        """Show the selected panel, or the first one of the current wall."""
        panel = self._document.selected_panel
        self.open(panel.mark if panel else "")

    def open(self, mark: str) -> None:
        """Show a panel by its mark; where there is none, the first one of the current wall."""
        self._document.work_out()
        panel = self._panel(mark)
        if panel is None:
            self._questions.tell(tr("Nothing for the bench"), tr("This room has no panel to build."))
            return
        try:
            job = BenchJob.of(self._document.setout, panel.design, panel.mark, self._stock.found)
        except StockError as error:
            self._questions.fault(tr("This panel cannot be built"), str(error))
            return
        if self.dialog is not None:
            self.dialog.close()
        self.dialog = BenchDialog(self._document, job, self._stock, self._memory, self._window)
        self.dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
        self.dialog.finished.connect(self._forget)
        self.dialog.open()

    def _panel(self, mark: str) -> Panel | None:
        panels = self._document.setout.panels
        here = (panel for panel in panels if self._document.wall in {face.wall for face in panel.faces})
        return next((panel for panel in panels if panel.mark == mark), None) or next(here, None) or next(iter(panels), None)

    def _forget(self, _result: int) -> None:
        self.dialog = None
