"""The page of suppliers: their terms, the chosen one's prices, and price lists from files."""

from collections.abc import Sequence
from pathlib import Path

from PySide6.QtCore import QModelIndex, QSettings
from PySide6.QtWidgets import QHBoxLayout, QLabel, QListWidget, QPushButton, QVBoxLayout, QWidget

from app.buy.asking import Asking
from app.buy.offers_table import OffersTable
from app.buy.suppliers_table import SuppliersTable
from app.document import Document
from app.tables.reading import committed
from app.tables.titled import Titled
from core.buying import OfferList, decoded, read_offers
from core.edits.buying import set_offers
from core.errors import CoursewrightError
from core.language import tr, trn
from core.system_words import system_words
from core.takeoff import SCREW

LAST_FOLDER = "files/price_list_folder"
LARGEST_MB = 20
LONGEST_NAME = 60


class SuppliersPage(QWidget):
    """Suppliers on the left, the prices of the one chosen there on the right."""

    def __init__(self, document: Document) -> None:
        super().__init__()
        self._document = document
        self.asking = Asking(self)
        self.suppliers, self.offers = SuppliersTable(document), OffersTable(document)
        self.left_out = QListWidget()
        self.left_out.setAccessibleName(tr("Lines left out of the price list"))
        self.left_out.setMaximumHeight(96)
        self.left_out.hide()
        self.report = QLabel()
        self.report.setWordWrap(True)
        self.report.setAccessibleName(tr("What was imported"))
        self.report.hide()
        self.import_button, self.remove_button = QPushButton(tr("Import a price list…")), QPushButton(tr("Remove"))
        self.import_button.clicked.connect(self.import_list)
        self.remove_button.clicked.connect(self._remove)
        self.suppliers.selectionModel().currentRowChanged.connect(self._turn)
        self._place()
        self.know_parts(())
        self.refresh()

    def refresh(self) -> None:
        """Show suppliers and prices as they are now."""
        self.suppliers.refresh()
        if self.suppliers.chosen is None and self._document.room.stock.suppliers and self.offers.supplier is None:
            self.suppliers.setCurrentIndex(self.suppliers.cells.index(0, 0))
        self._follow()

    def know_parts(self, further: Sequence[str]) -> None:
        """Offer these names, besides those of the parts list, where a part is typed."""
        names = [*(part.name for part in self._document.room.parts), SCREW, *further]
        self.offers.known_parts = tuple(dict.fromkeys(names))

    def import_list(self) -> None:
        """Ask for a price list and take its prices for the chosen supplier, or for a new one named after the file."""
        chosen = self.suppliers.chosen
        path = self.asking.price_list(chosen.name if chosen else "", Path(str(QSettings().value(LAST_FOLDER, str(Path.home())))))
        if path is None:
            return
        QSettings().setValue(LAST_FOLDER, str(path.parent))
        supplier = chosen.name if chosen else path.stem[:LONGEST_NAME]
        try:
            found = read_offers(_text_of(path), self._document.room.parts)
        except CoursewrightError as error:
            self._tell(f"{path.name}: {error}", None)
            return
        text = tr("Import prices of {supplier}", supplier=supplier)
        fault = committed(self._document, lambda room: set_offers(room, supplier, found.offers), text) if found.offers else ""
        self.suppliers.choose(supplier)
        self._tell(fault or _report(supplier, found), found)

    def _place(self) -> None:
        left = Titled(tr("Suppliers"), self.suppliers, (self.import_button, self.remove_button))
        self.prices = Titled(tr("Prices"), self.offers)
        under = QVBoxLayout()
        under.addWidget(self.report)
        under.addWidget(self.left_out)
        self.prices.add(under)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(8)
        layout.addWidget(left, 5)
        layout.addWidget(self.prices, 7)

    def _turn(self, _now: QModelIndex, _before: QModelIndex) -> None:
        self._tell("", None)
        self._follow()

    def _follow(self) -> None:
        chosen = self.suppliers.chosen
        self.offers.supplier = chosen.name if chosen else None
        self.offers.refresh()
        self.remove_button.setEnabled(chosen is not None)
        name = chosen.name if chosen else ""
        prices = tr("Prices of {supplier}", supplier=name)
        self.prices.heading.setText(prices if name else tr("Choose a supplier, or type a name to add one"))
        self.offers.setAccessibleName(prices if name else tr("Prices"))
        self.import_button.setToolTip(
            tr("Replaces the prices of {supplier}", supplier=name) if name else tr("Adds a supplier named after the file")
        )

    def _remove(self) -> None:
        self.suppliers.remove(self.suppliers.currentIndex().row())

    def _tell(self, text: str, found: OfferList | None) -> None:
        self.report.setText(text)
        self.report.setVisible(bool(text))
        self.left_out.clear()
        self.left_out.addItems([str(fault) for fault in found.faults] if found else [])
        self.left_out.setVisible(self.left_out.count() > 0)


def _report(supplier: str, found: OfferList) -> str:
    taken, left = len(found.offers), len(found.faults)
    said = tr("Nothing was taken")
    if taken:
        said = trn("{n} price taken for {supplier}", "{n} prices taken for {supplier}", taken, supplier=supplier)
    return tr("{taken}; left out:", taken=said) if left else f"{said}."


def _text_of(path: Path) -> str:
    """The text of a price list. Raises CoursewrightError where it cannot be read or is no list."""
    try:
        if path.stat().st_size > LARGEST_MB * 1_000_000:
            raise CoursewrightError(tr("is larger than {most} MB, so it is no price list", most=LARGEST_MB))
        return decoded(path.read_bytes())
    except OSError as error:
        raise CoursewrightError(tr("cannot be read: {reason}", reason=system_words(error))) from None
