"""The leaves below the stage: one for each part of the job, made when it is first turned to."""

from collections.abc import Callable

from PySide6.QtWidgets import QTabWidget, QVBoxLayout, QWidget

MakeLeaf = Callable[[], QWidget]


class Leaves(QTabWidget):
    """Tabs of which each is filled on its first showing, so that opening a window pays for one leaf only."""

    def __init__(self) -> None:
        super().__init__()
        self.setObjectName("leaves")
        self.setDocumentMode(True)
        self.setTabPosition(QTabWidget.TabPosition.South)
        self._makers: dict[int, MakeLeaf] = {}
        self.currentChanged.connect(self._fill)

    def add(self, title: str, make: MakeLeaf) -> int:
        """Add a leaf under a title; returns its place."""
        page = QWidget()
        inside = QVBoxLayout(page)
        inside.setContentsMargins(0, 0, 0, 0)
        place = self.count()
        self._makers[place] = make
        self.addTab(page, title)
        if place == self.currentIndex():
            self._fill(place)
        return place

    def turn_to(self, place: int) -> QWidget | None:
        """Show a leaf and return what is on it."""
        self.setCurrentIndex(place)
        layout = self.currentWidget().layout()
        item = layout.itemAt(0) if layout else None
        return item.widget() if item else None

    def _fill(self, place: int) -> None:
        make = self._makers.pop(place, None)
        page = self.widget(place)
        layout = page.layout() if page else None
        if make is not None and layout is not None:
            layout.addWidget(make())
