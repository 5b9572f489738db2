"""Waiting for bonds from the stock behind a bar that can be stopped: what a pack must have before it is made."""

from typing import TYPE_CHECKING

from PySide6.QtCore import QEventLoop, QTimer
from PySide6.QtWidgets import QWidget

from app.from_stock.stock_bonds import StockBonds
from app.progress import Progress
from core.errors import CoursewrightError
from core.language import marked, tr

if TYPE_CHECKING:
    from core.laying import FromStock

LAYING = marked("Laying the panels from the stock on hand …")
LOOK_MS = 100


def bonds_from_stock(bonds: StockBonds, parent: QWidget) -> "FromStock | None":
    """The bonds that are known, worked out now where none are or the boxes have changed; None where the person stopped it.

    Raises CoursewrightError where there is nothing to lay from. The window goes on living meanwhile.
    """
    if bonds.found is not None and not bonds.is_stale:
        return bonds.found
    bonds.work_out()
    stopped = False
    said = tr(LAYING)
    with Progress(parent, said) as progress:
        while bonds.is_busy:
            _a_moment(bonds)
            if bonds.is_busy and not progress.step(0, 0, said):
                bonds.stop()
                stopped = True
    if bonds.fault:
        raise CoursewrightError(bonds.fault)
    return None if stopped else bonds.found


def _a_moment(bonds: StockBonds) -> None:
    """Let everything else happen until something is told, or for the blink of an eye."""
    loop = QEventLoop()
    timer = QTimer()
    timer.setSingleShot(True)
    timer.timeout.connect(loop.quit)
    bonds.changed.connect(loop.quit)
    timer.start(LOOK_MS)
    loop.exec()
    bonds.changed.disconnect(loop.quit)
