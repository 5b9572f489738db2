"""A layout that sets its parts in lines, as words are: what does not fit on one goes on to the next."""

from PySide6.QtCore import QEvent, QPoint, QRect, QSize, Qt
from PySide6.QtGui import QResizeEvent
from PySide6.QtWidgets import QLayout, QLayoutItem, QWidget


class Flow(QLayout):
    """From the left, in the order they were added; as high as its lines are at the width it gets."""

    def __init__(self, spacing_px: int = 4) -> None:
        super().__init__()
        self._items: list[QLayoutItem] = []
        self.setSpacing(spacing_px)
        self.setContentsMargins(0, 0, 0, 0)

    def addItem(self, item: QLayoutItem) -> None:
        self._items.append(item)

    def add(self, *widgets: QWidget) -> None:
        """Add widgets at the end."""
        for widget in widgets:
            self.addWidget(widget)

    def count(self) -> int:
        return len(self._items)

    def itemAt(self, index: int) -> QLayoutItem | None:
        return self._items[index] if 0 <= index < len(self._items) else None

    def takeAt(self, index: int) -> QLayoutItem | None:
        return self._items.pop(index) if 0 <= index < len(self._items) else None

    def expandingDirections(self) -> Qt.Orientation:
        return Qt.Orientation(0)

    def hasHeightForWidth(self) -> bool:
        return True

    def heightForWidth(self, width: int) -> int:
        return self._set(QRect(0, 0, width, 0), move=False)

    def setGeometry(self, rect: QRect) -> None:
        super().setGeometry(rect)
        self._set(rect, move=True)

    def sizeHint(self) -> QSize:
        """All on one line."""
        hints = [item.sizeHint() for item in self._items]
        wide = sum(hint.width() for hint in hints) + max(0, len(hints) - 1) * self.spacing()
        return QSize(wide, max((hint.height() for hint in hints), default=0))

    def minimumSize(self) -> QSize:
        """As wide as its widest part."""
        size = QSize()
        for item in self._items:
            size = size.expandedTo(item.minimumSize())
        return size

    def _set(self, rect: QRect, *, move: bool) -> int:
        """Place the parts in lines; returns how high these are together."""
        x, y, high = rect.left(), rect.top(), 0
        for item in self._items:
            hint = item.sizeHint()
            if x > rect.left() and x + hint.width() > rect.left() + rect.width():
                x, y, high = rect.left(), y + high + self.spacing(), 0
            if move:
                item.setGeometry(QRect(QPoint(x, y), QSize(min(hint.width(), rect.width()), hint.height())))
            x += hint.width() + self.spacing()
            high = max(high, hint.height())
        return y + high - rect.top()


class FlowRow(QWidget):
    """A row of widgets as high as its lines are: also where what holds it does not ask how high it is at a width."""

    def __init__(self, *widgets: QWidget) -> None:
        super().__init__()
        self._flow = Flow()
        self._flow.add(*widgets)
        self.setLayout(self._flow)

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self._fit()

    def event(self, event: QEvent) -> bool:
        """Its parts grew or shrank: so do its lines."""
        answered = super().event(event)
        if event.type() == QEvent.Type.LayoutRequest:
            self._fit()
        return answered

    def _fit(self) -> None:
        high = self._flow.heightForWidth(self.width())
        if high != self.minimumHeight():
            self.setFixedHeight(high)
