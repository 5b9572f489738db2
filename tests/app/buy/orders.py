"""What tests of the buying leaf share: waiting for orders, files in place of dialogs, and the core's own answer."""

from pathlib import Path

from pytestqt.qtbot import QtBot

from app.buy.asking import Asking
from app.buy.leaf import BuyLeaf
from app.document import Document
from core.bond import bonds_for
from core.buying import Purchasing, purchasing
from core.frame import as_hung
from core.takeoff import parts_of, take_off

LONGEST_MS = 30_000


class FileAnswers(Asking):
    """Files in place of dialogs."""

    def __init__(self, path: Path | None) -> None:
        self.path = path

    def price_list(self, _supplier: str, _folder: Path) -> Path | None:
        return self.path

    def orders_file(self, _proposal: Path) -> Path | None:
        return self.path


def wait_for_orders(qtbot: QtBot, leaf: BuyLeaf) -> None:
    """Until the orders of the room as it is are there, ways under the budget included."""

    def are_there() -> bool:
        bought = leaf.bought
        return bought is not None and not leaf._aside.is_busy and leaf._needs.setout.room == leaf._document.room

    qtbot.waitUntil(are_there, timeout=LONGEST_MS)


def bought_by_core(document: Document) -> Purchasing:
    setout = as_hung(document.work_out()).setout
    return purchasing(setout, take_off(setout, parts_of(bonds_for(setout))))
