"""Tells what is on show that the look has changed, and keeps single widgets in step with it."""

from collections.abc import Callable

from PySide6.QtCore import QObject, Signal
from PySide6.QtWidgets import QWidget


class Look(QObject):
    """There is one, for the whole program."""

    changed = Signal()
    """Another scheme or size of letters is worn."""


look = Look()


class InStep(QObject):
    """Does something to a widget now, and again with every other look. Lives as long as the widget."""

    def __init__(self, widget: QWidget, act: Callable[[], object]) -> None:
        super().__init__(widget)
        self._act = act
        look.changed.connect(self.refresh)
        self.refresh()

    def refresh(self) -> None:
        """Do it once more."""
        self._act()


class Style(InStep):
    """A widget's own style sheet, written anew with every look."""

    def __init__(self, widget: QWidget, write: Callable[[], str]) -> None:
        self._widget, self._write = widget, write
        super().__init__(widget, self._put_on)

    def _put_on(self) -> None:
        sheet = self._write()
        if sheet != self._widget.styleSheet():
            self._widget.setStyleSheet(sheet)
