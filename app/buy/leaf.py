"""The buying leaf: the money on the left, beside it needs and orders, or suppliers and prices."""

from pathlib import Path

from PySide6.QtCore import QSettings, QTimer
from PySide6.QtWidgets import QPushButton

from app.aside.aside import Aside
from app.aside.idle import Idle
from app.aside.settled import Settled
from app.buy.asking import Asking
from app.buy.counting import Needs, counting, orders_of_least_cost
from app.buy.money_card import COUNTING, WORKING, MoneyCard
from app.buy.needs_table import NeedsTable
from app.buy.orders_table import OrdersTable
from app.buy.suppliers_page import SuppliersPage
from app.document import Document
from app.from_stock import StockBonds
from app.from_stock.page import StockPage
from app.tables.pages import Pages, beside
from app.tables.titled import Titled
from core.buying import Purchasing, purchasing
from core.export.takeoff_csv import orders_csv
from core.files import replace_file
from core.language import marked, tr
from core.setout.result import SetOut
from core.system_words import system_words

PAGES = (marked("Needs, orders"), marked("Suppliers"), marked("From stock"))
EXPORT = marked("Export the orders…")
STOPPABLE_AFTER_MS = 1500
STOPPED = marked("Stopped. These orders are not worked out for the room as it is.")
LAST_FOLDER = "files/last_folder"


class BuyLeaf(Pages):
    """Counts while the window is idle and has the orders worked out aside, both only while it shows."""

    def __init__(self, document: Document, bonds: StockBonds | None = None) -> None:
        super().__init__()
        self._document = document
        self.from_stock = StockPage(bonds or StockBonds(document, self))
        self._stock = document.room.stock
        self._needs: Needs | None = None
        self.bought: Purchasing | None = None
        """The orders of the room as it is; None until they are worked out."""
        self.asking = Asking(self)
        self.money = MoneyCard(document)
        self.needs, self.orders, self.suppliers = NeedsTable(document), OrdersTable(), SuppliersPage(document)
        self.export_button = QPushButton(tr(EXPORT))
        self.export_button.setEnabled(False)
        self.export_button.clicked.connect(self.export)
        self._place()
        self._idle, self._aside = Idle(self), Aside(self)
        self._patience = QTimer(self)
        self._patience.setSingleShot(True)
        self._patience.setInterval(STOPPABLE_AFTER_MS)
        self._listen(Settled(document, self))

    def export(self) -> None:
        """Write the orders as CSV."""
        if self.bought is None:
            return
        path = self.asking.orders_file(self._proposal())
        if path is None:
            return
        try:
            replace_file(path, orders_csv(self.bought).encode())
        except OSError as error:
            self._say_fault(tr("{file} cannot be written: {reason}", file=path, reason=system_words(error)))
            return
        QSettings().setValue(LAST_FOLDER, str(path.resolve().parent))
        self.export_button.setText(tr("Exported"))
        QTimer.singleShot(3000, self.export_button, lambda: self.export_button.setText(tr(EXPORT)))

    def _place(self) -> None:
        self.needs_card = Titled(tr("What the room needs, in pieces"), self.needs)
        orders = Titled(tr("Orders"), self.orders, (self.export_button,))
        first = beside((self.needs_card, 11), (orders, 9))
        pages = (
            (tr(PAGES[0]), first, self.needs),
            (tr(PAGES[1]), self.suppliers, self.suppliers.suppliers),
            (tr(PAGES[2]), self.from_stock, self.from_stock.ask),
        )
        self.set_out(self.money, pages)

    def _listen(self, settled: Settled) -> None:
        settled.reached.connect(self._begin)
        settled.lost.connect(self._give_up)
        self._idle.finished.connect(self._counted)
        self._aside.told.connect(self._show)
        self._aside.failed.connect(self._failed)
        self._patience.timeout.connect(self._offer_stop)
        self.money.stop.clicked.connect(self._stop_or_go)
        self._document.changed.connect(self._follow)

    def _follow(self, setout: SetOut) -> None:
        # A drag changes everything but the stock, sixty times a second.
        if setout.room.stock is not self._stock:
            self._stock = setout.room.stock
            self.money.refresh()
            self.suppliers.refresh()

    def _begin(self, setout: SetOut) -> None:
        self.money.say_working(tr(COUNTING))
        self._idle.start(counting(setout))

    def _give_up(self) -> None:
        """The room changed, a drag began or the leaf was left: what was begun no longer matters."""
        self._idle.stop()
        self._still()
        self._aside.stop()
        if not self.isVisible():
            self._aside.close()
        self.bought = None
        self.export_button.setEnabled(False)
        self.money.say_working(tr(COUNTING))

    def _counted(self, needs: Needs) -> None:
        self._needs = needs
        self.needs.show_needs(needs, None)
        self.suppliers.know_parts([material.name for material in needs.lines])
        self._say_fault("; ".join(needs.faults))
        self._ask_orders()

    def _ask_orders(self) -> None:
        if self._needs is not None:
            self.money.say_working(tr(WORKING))
            self._patience.start()
            self._aside.ask(orders_of_least_cost, self._needs.setout, self._needs.takeoff)

    def _show(self, bought: Purchasing) -> None:
        """Show orders; where they exceed the budget, ways under it are asked for next."""
        needs = self._needs
        if needs is None:
            return
        is_first = self.bought is None
        self.bought = bought
        is_seeking = is_first and bought.over > 0
        self.money.show_bought(bought, is_seeking=is_seeking)
        self._still()
        if is_seeking:
            self._patience.start()
            self._aside.ask(purchasing, needs.setout, needs.takeoff)
        if is_first:
            self.needs.show_needs(needs, bought)
            self.orders.show_orders(needs.setout.room, bought)
            self.export_button.setEnabled(True)

    def _failed(self, why: str) -> None:
        self._still()
        self.money.say_working(why)

    def _still(self) -> None:
        self._patience.stop()
        self.money.stop.hide()

    def _offer_stop(self) -> None:
        self.money.stop.setText(tr("Stop"))
        self.money.stop.show()

    def _stop_or_go(self) -> None:
        """Give up what takes too long, or begin it after all."""
        if not self._aside.is_busy:
            self.money.stop.hide()
            self._ask_orders()
            return
        self._aside.stop()
        self._patience.stop()
        if self.bought is not None:
            self.money.show_bought(self.bought, is_seeking=False)
            self.money.stop.hide()
        else:
            self.money.say_working(tr(STOPPED))
            self.money.stop.setText(tr("Work it out"))

    def _say_fault(self, text: str) -> None:
        self.needs_card.say(text)

    def _proposal(self) -> Path:
        path = self._document.path
        folder = path.parent if path else Path(str(QSettings().value(LAST_FOLDER, str(Path.home()))))
        return folder / "orders.csv"
