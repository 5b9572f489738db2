"""Tracking the build, as the window sees it: one leaf, the answers to its actions, and a word after edits that undo work."""

from collections.abc import Callable, Mapping
from functools import partial

from PySide6.QtCore import QObject
from PySide6.QtGui import QAction
from PySide6.QtWidgets import QWidget

from app.document import Document
from app.from_stock import StockBonds
from app.tracking.marking import Marking, Said
from app.tracking.picks import Picks
from app.tracking.swap_dialog import SwapDialog
from app.tracking.swap_page import swap_sections
from app.tracking.watch import ChangeWatch
from core.crew.swap import swap
from core.edits.progress import Way
from core.language import tr
from core.progress import STATES

Say = Callable[[str], object]


class Building(QObject):
    """Holds what is chosen and how it is marked; makes the leaf when it is first turned to."""

    def __init__(self, document: Document, say: Say, stock: StockBonds, parent: QWidget) -> None:
        super().__init__(parent)
        self._document, self._say, self._window = document, say, parent
        self.picks = Picks(document, self)
        self.marking = Marking(document, self, own_parts=stock.own_parts)
        self.watch = ChangeWatch(document, self)
        self.watch.said.connect(say)
        self.marking.said.connect(self._on_said)

    def answers(self) -> dict[str, Callable[[], object]]:
        """What answers the actions of tracking the build."""
        return {
            "step_forward": partial(self._step, "forward"),
            "step_back": partial(self._step, "back"),
            **{f"mark_{state.replace(' ', '_')}": partial(self._put, number) for number, state in enumerate(STATES)},
            "swap": self.show_swap,
        }

    def make_leaf(self, actions: Mapping[str, QAction]) -> QWidget:
        """The leaf, whose buttons are the window's actions."""
        from app.tracking.leaf import BuildLeaf

        return BuildLeaf(self._document, self.marking, self.picks, actions)

    def _step(self, way: Way) -> None:
        self.marking.step(self.picks.marks, way)

    def _put(self, number: int) -> None:
        self.marking.put(self.picks.marks, STATES[number])

    def _on_said(self, said: Said) -> None:
        """The status line says it wherever the mark was made; refusals come through the document."""
        if not said.is_refusal:
            self._say(said.text)

    def show_swap(self) -> None:
        """How the chosen panels come out for something else."""
        if (dialog := self.swap_dialog()) is not None:
            dialog.exec()
            dialog.deleteLater()

    def swap_dialog(self) -> SwapDialog | None:
        """The dialog about the chosen panels; None, and a word in the status line, where none is chosen."""
        setout = self._document.work_out()
        if not self.picks.marks:
            self._say(tr("Choose the panels to take out first"))
            return None
        return SwapDialog(swap_sections(setout, swap(setout, self.picks.marks)), self._window)
