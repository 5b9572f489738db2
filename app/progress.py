"""Progress of long work: a bar over the window, with a way to stop."""

from types import TracebackType
from typing import Self

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QProgressDialog, QWidget

from core.language import tr


class Progress:
    """A context in which steps are reported; leaving it takes the bar away."""

    def __init__(self, parent: QWidget, title: str) -> None:
        self._dialog = QProgressDialog(title, tr("Stop"), 0, 1, parent)
        self._dialog.setWindowTitle("Coursewright")
        self._dialog.setWindowModality(Qt.WindowModality.WindowModal)
        self._dialog.setMinimumDuration(300)
        self._dialog.setMinimumWidth(420)
        self._dialog.setAutoClose(False)
        self._dialog.setAutoReset(False)

    def __enter__(self) -> Self:
        self._dialog.setValue(0)
        return self

    def __exit__(self, kind: type[BaseException] | None, error: BaseException | None, trace: TracebackType | None) -> None:
        self._dialog.close()
        self._dialog.deleteLater()

    def step(self, done: int, total: int, what: str) -> bool:
        """Show how far it is; False where the person wants it stopped. Handles what they clicked meanwhile."""
        self._dialog.setMaximum(max(1, total))
        self._dialog.setLabelText(what)
        self._dialog.setValue(done)
        return not self._dialog.wasCanceled()

    @property
    def stopped(self) -> bool:
        return self._dialog.wasCanceled()
