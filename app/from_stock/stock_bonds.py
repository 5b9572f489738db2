"""The bonds laid from the stock, as long as they hold: what the buying leaf asks for, and bench, marking and pack go by."""

from collections.abc import Iterable
from typing import TYPE_CHECKING

from PySide6.QtCore import QObject, Signal

from app.aside.aside import Aside
from app.document import Document
from core.frame import as_hung
from core.setout.result import SetOut

if TYPE_CHECKING:
    # Brings solvers along, which a window that nobody lays from the stock in can do without.
    from core.laying import FromStock
    from core.takeoff import Count


class StockBonds(QObject):
    """Has them worked out in a process of its own. They are dropped once the panels are others than they were laid for."""

    changed = Signal()
    """Something else is to be shown: bonds came, fell, are being worked out, or could not be."""

    def __init__(self, document: Document, parent: QObject) -> None:
        super().__init__(parent)
        self._document = document
        self._found: FromStock | None = None
        self._aside = Aside(self)
        self._aside.told.connect(self._keep)
        self._aside.failed.connect(self._fail)
        self.fault = ""
        """Why there are none, where somebody asked for them."""
        document.changed.connect(self._follow)

    @property
    def is_busy(self) -> bool:
        return self._aside.is_busy

    @property
    def found(self) -> "FromStock | None":
        """The bonds, where some were worked out for the panels there are."""
        return self._found

    @property
    def is_stale(self) -> bool:
        """Whether what came, was lost or was counted has changed since."""
        return self._found is not None and self._found.setout.room.stock.received != self._document.room.stock.received

    def work_out(self) -> None:
        """Have everything still to build laid from the stock as it is."""
        if self._document.gesture_base is not None:
            return
        from core.laying import bond_from_stock

        self.fault = ""
        self._aside.ask(bond_from_stock, self._document.work_out())
        self.changed.emit()

    def stop(self) -> None:
        """Give up working it out; what was found before stays."""
        self._aside.stop()
        self.changed.emit()

    def drop(self) -> None:
        """Go back to every panel's design."""
        self._aside.close()
        self._found, self.fault = None, ""
        self.changed.emit()

    def own_parts(self, marks: Iterable[str]) -> "dict[str, Count]":
        """What those of the panels are laid of that are not laid as their design."""
        from core.laying import parts_of_moved

        found, wanted = self._found, list(marks)
        swapped = {mark: found.parts(mark) for mark in wanted if mark in found.swapped} if found else {}
        return {**parts_of_moved(self._document.setout, wanted), **swapped}

    def _keep(self, found: "FromStock") -> None:
        self._found = found if _is_for(found, self._document.setout) else None
        self.changed.emit()

    def _fail(self, why: str) -> None:
        self._found, self.fault = None, why
        self.changed.emit()

    def _follow(self, setout: SetOut) -> None:
        # A drag changes the room sixty times a second; what comes of it is looked at once it is over.
        document = self._document
        if (self._found is None and not self.is_busy) or document.gesture_base is not None or not document.is_full:
            return
        if self._found is not None and not _is_for(self._found, setout):
            self.drop()
        elif self.is_busy or self._found is not None:
            self.changed.emit()


def _is_for(found: "FromStock", setout: SetOut) -> bool:
    """Whether those are the panels that were laid, with the same holes."""
    before, now = found.hung, as_hung(setout).setout
    return [(p.mark, p.design) for p in before.panels] == [(p.mark, p.design) for p in now.panels]
