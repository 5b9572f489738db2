"""A card with a table on it: its heading, buttons beside that, and below why what was typed cannot be."""

from collections.abc import Sequence
from typing import Any

from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QLayout, QPushButton, QVBoxLayout

from app.tables.table import Table


class Titled(QFrame):
    """Follows its table's refusals."""

    def __init__(self, title: str, table: Table[Any], buttons: Sequence[QPushButton] = ()) -> None:
        super().__init__()
        self.setObjectName("card")
        self.heading, self.fault = QLabel(title), QLabel()
        self.heading.setObjectName("heading")
        self.fault.setObjectName("fault")
        self.fault.setWordWrap(True)
        self.fault.hide()
        table.cells.refused.connect(self.say)
        top = QHBoxLayout()
        top.addWidget(self.heading, 1)
        for button in buttons:
            top.addWidget(button)
        self._layout = QVBoxLayout(self)
        self._layout.setContentsMargins(10, 8, 10, 8)
        self._layout.setSpacing(4)
        self._layout.addLayout(top)
        self._layout.addWidget(table, 1)
        self._layout.addWidget(self.fault)

    def add(self, below: QLayout) -> None:
        """Put something more below the table."""
        self._layout.addLayout(below)

    def say(self, fault: str) -> None:
        """Show why something cannot be, or nothing."""
        self.fault.setText(fault)
        self.fault.setVisible(bool(fault))
