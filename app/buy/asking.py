"""What the buying leaf asks in dialogs of files; tests put answers in its place."""

from pathlib import Path

from PySide6.QtWidgets import QFileDialog, QWidget

from core.language import marked, tr

LISTS = marked("Price lists (*.csv *.txt *.tsv);;All files (*)")
TABLES = marked("CSV (*.csv);;All files (*)")


class Asking:
    """Dialogs over the leaf."""

    def __init__(self, parent: QWidget) -> None:
        self._parent = parent

    def price_list(self, supplier: str, folder: Path) -> Path | None:
        """The price list to import for a supplier."""
        title = tr("Price list of {supplier}", supplier=supplier) if supplier else tr("Price list of a supplier")
        name, _ = QFileDialog.getOpenFileName(self._parent, title, str(folder), tr(LISTS))
        return Path(name) if name else None

    def orders_file(self, proposal: Path) -> Path | None:
        """Where to write the orders."""
        name, _ = QFileDialog.getSaveFileName(self._parent, tr("Export the orders"), str(proposal), tr(TABLES))
        return Path(name) if name else None
