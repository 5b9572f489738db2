"""How a leaf of tables is laid out: a card that stays on the left, and beside it one of a few pages."""

from collections.abc import Sequence

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QButtonGroup, QFrame, QHBoxLayout, QScrollArea, QStackedWidget, QToolButton, QVBoxLayout, QWidget

from app import theme
from app.theme.look import InStep
from core.language import tr

SIDE_PX = 340
Page = tuple[str, QWidget, QWidget]
"""The words on its switch, the page, and what on it gets the focus."""


class Pages(QScrollArea):
    """Scrolls as a whole where the window is too small for it, and its card by itself where that says much."""

    def set_out(self, side: QWidget, pages: Sequence[Page]) -> None:
        """Place the card and the pages; the first page shows."""
        self.stack = QStackedWidget()
        self.switches: list[QToolButton] = []
        self._focus = [focus for _words, _page, focus in pages]
        switches, group = QHBoxLayout(), QButtonGroup(self)
        switches.setSpacing(4)
        for number, (words, page, _focus) in enumerate(pages):
            button = QToolButton()
            button.setText(words)
            button.setCheckable(True)
            # Words go to the edge rather than be cut short where there are many pages.
            button.setStyleSheet("padding-left: 3px; padding-right: 3px")
            button.setSizePolicy(button.sizePolicy().Policy.Expanding, button.sizePolicy().Policy.Fixed)
            button.clicked.connect(lambda _checked=False, number=number: self.turn(number))
            group.addButton(button)
            switches.addWidget(button)
            self.switches.append(button)
            self.stack.addWidget(page)
        self._arrange(switches, side)
        self.turn(0)

    def turn(self, page: int) -> None:
        """Show a page by its number."""
        self.switches[page].setChecked(True)
        self.stack.setCurrentIndex(page)
        self.setFocusProxy(self._focus[page])

    def _arrange(self, switches: QHBoxLayout, side: QWidget) -> None:
        card = QFrame()
        card.setObjectName("card")
        scrolled = QScrollArea()
        scrolled.setWidget(side)
        scrolled.setAccessibleName(tr("What is set and what comes of it"))
        scrolled.setWidgetResizable(True)
        scrolled.setFrameShape(QFrame.Shape.NoFrame)
        scrolled.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        for part in (side, scrolled.viewport()):
            part.setAutoFillBackground(False)
        within = QVBoxLayout(card)
        within.setContentsMargins(2, 2, 2, 2)
        within.addWidget(scrolled)
        column = QWidget()
        InStep(column, lambda: column.setFixedWidth(theme.px(SIDE_PX)))
        left = QVBoxLayout(column)
        left.setContentsMargins(0, 0, 0, 0)
        left.setSpacing(6)
        left.addLayout(switches)
        left.addWidget(card, 1)
        inside = QWidget()
        inside.setObjectName("bench")
        layout = QHBoxLayout(inside)
        layout.setContentsMargins(8, 8, 8, 4)
        layout.setSpacing(8)
        layout.addWidget(column)
        layout.addWidget(self.stack, 1)
        self.setWidget(inside)
        self.setWidgetResizable(True)
        self.setFrameShape(QFrame.Shape.NoFrame)


def beside(*parts: tuple[QWidget, int]) -> QWidget:
    """A page of parts side by side, each with its share of the width."""
    page = QWidget()
    row = QHBoxLayout(page)
    row.setContentsMargins(0, 0, 0, 0)
    row.setSpacing(8)
    for part, share in parts:
        row.addWidget(part, share)
    return page
