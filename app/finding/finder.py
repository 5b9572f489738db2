"""A small field over the elevation: type a mark, a design or an opening's name, and go there."""

from collections.abc import Callable

from PySide6.QtCore import QEvent, QObject, QSize, Qt
from PySide6.QtGui import QKeyEvent, QMouseEvent, QWheelEvent
from PySide6.QtWidgets import QFrame, QLabel, QLineEdit, QListWidget, QListWidgetItem, QVBoxLayout, QWidget

from app import theme
from app.document import Document
from app.finding.matching import Match, matches
from app.theme.look import Style
from core.language import marked, tr
from core.setout.result import SetOut

WIDTH_PX, ROW_PX, MOST_ROWS = 400, 24, 8
MOST_LISTED = 200
"""Whoever finds more types on."""
INSET_PX = 10
TYPED = marked("Type a mark, a design or an opening")
GOING, LEAVING = marked("Enter goes there, once more to the next"), marked("Escape closes")


class Finder(QFrame):
    """Lies over a view, hidden until it is asked for. Nothing is changed by finding, only what is selected."""

    def __init__(self, document: Document, over: QWidget, show_place: Callable[[str], object]) -> None:
        super().__init__(over)
        self._document, self._over, self._show_place = document, over, show_place
        self._found: tuple[Match, ...] = ()
        self._count = 0
        self._gone_to: str | None = None
        self.setObjectName("card")
        self.setAutoFillBackground(True)
        self.field = QLineEdit()
        self.field.setPlaceholderText(tr(TYPED))
        self.field.setAccessibleName(tr("Find a panel, a design or an opening"))
        self.list = QListWidget()
        self.list.setAccessibleName(tr("Found"))
        self.list.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self.list.setUniformItemSizes(True)
        self.list.setHorizontalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        Style(
            self.list,
            lambda: (
                f"QListWidget::item:selected {{ background: {theme.shown.accent}; color: {theme.shown.on_accent}; }}"
                f"QListWidget::item:hover:!selected {{ background: {theme.shown.accent_wash}; }}"
            ),
        )
        self.words = QLabel()
        self.words.setObjectName("quiet")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(8, 8, 8, 6)
        layout.setSpacing(4)
        for part in (self.field, self.list, self.words):
            layout.addWidget(part)
        self.field.textChanged.connect(self._look)
        self.list.itemClicked.connect(self._on_clicked)
        self.field.installEventFilter(self)
        over.installEventFilter(self)
        document.changed.connect(self._follow)
        self.hide()

    def open(self) -> None:
        """Show the field with what was typed last, ready to be typed over."""
        self._gone_to = None
        self._look()
        self.show()
        self.raise_()
        self.field.setFocus()
        self.field.selectAll()

    def close_field(self) -> None:
        """Hide, and give the keys back to the view."""
        # First the keys, then out of sight: hiding what holds them would pass them on as Tab does, and that selects.
        self._over.setFocus()
        self.hide()

    @property
    def found(self) -> tuple[Match, ...]:
        """What the text means, the likeliest first."""
        return self._found

    def go(self) -> None:
        """Select and show what is marked in the list; once there, the next one."""
        if not self._found:
            return
        at = max(self.list.currentRow(), 0)
        if self._found[at].where == self._gone_to:
            at = (at + 1) % self.list.count()
            self.list.setCurrentRow(at)
        self._go_to(self._found[at])

    def _go_to(self, match: Match) -> None:
        self._gone_to = match.where
        if match.where.startswith("wall "):
            self._document.select(None)
        self._show_place(match.where)
        self._say()

    def step(self, by: int) -> None:
        """Mark another line of the list."""
        if self.list.count():
            self.list.setCurrentRow(max(0, min(self.list.count() - 1, self.list.currentRow() + by)))
            self._say()

    def _look(self, _text: str = "") -> None:
        found = matches(self._document.setout, self.field.text())
        self._found, self._count = found[:MOST_LISTED], len(found)
        self.list.clear()
        for match in self._found:
            item = QListWidgetItem(f"{match.name}   {match.about}")
            item.setSizeHint(QSize(0, theme.px(ROW_PX)))
            self.list.addItem(item)
        self.list.setCurrentRow(0)
        self._gone_to = None
        self._say()
        self._place()

    def _follow(self, _setout: SetOut) -> None:
        """The list speaks of the room as it is; what is marked in it stays marked where it is still found."""
        if not self.isVisible() or self._document.gesture_base is not None:
            return
        row, gone_to = self.list.currentRow(), self._gone_to
        kept = self._found[row].where if 0 <= row < len(self._found) else None
        self._look()
        for number, match in enumerate(self._found):
            if match.where == kept:
                self.list.setCurrentRow(number)
                self._gone_to = gone_to

    def _say(self) -> None:
        if not self.field.text().strip():
            text = tr(LEAVING)
        elif not self._found:
            text = " · ".join((tr("Nothing here is called that"), tr(LEAVING)))
        else:
            place = tr("{number} of {count}", number=self.list.currentRow() + 1, count=self._count)
            text = " · ".join((place, tr(GOING), tr(LEAVING)))
        self.words.setText(text)
        row = self.list.currentRow()
        chosen = f"{self._found[row].name}, {self._found[row].about}. " if 0 <= row < len(self._found) else ""
        self.field.setAccessibleDescription(chosen + text)

    def _place(self) -> None:
        """At the view's upper right, as high as the list needs."""
        rows = min(self.list.count(), MOST_ROWS)
        self.list.setVisible(rows > 0)
        self.list.setFixedHeight(rows * theme.px(ROW_PX) + 4)
        wide = max(160, min(theme.px(WIDTH_PX), self._over.width() - 2 * INSET_PX))
        self.resize(wide, self.sizeHint().height())
        self.move(self._over.width() - wide - INSET_PX, INSET_PX)

    def _on_clicked(self, item: QListWidgetItem) -> None:
        self._go_to(self._found[self.list.row(item)])
        self.field.setFocus()

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is self._over and event.type() == QEvent.Type.Resize and self.isVisible():
            self._place()
        if watched is self.field and isinstance(event, QKeyEvent):
            if event.type() == QEvent.Type.ShortcutOverride and event.key() in _KEYS:
                event.accept()
                return True
            return event.type() == QEvent.Type.KeyPress and self._press(event)
        return False

    def _press(self, event: QKeyEvent) -> bool:
        """Keys that go through the list; the rest is for typing, and none reaches the view below."""
        key = Qt.Key(event.key())
        if key in _STEPS:
            self.step(_STEPS[key])
        elif key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            self.go()
        elif key == Qt.Key.Key_Escape:
            self.close_field()
        else:
            return False
        return True

    def keyPressEvent(self, event: QKeyEvent) -> None:
        event.accept()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        event.accept()

    def wheelEvent(self, event: QWheelEvent) -> None:
        event.accept()


_STEPS = {
    Qt.Key.Key_Up: -1,
    Qt.Key.Key_Down: 1,
    Qt.Key.Key_PageUp: -MOST_ROWS,
    Qt.Key.Key_PageDown: MOST_ROWS,
}
_KEYS = {*_STEPS, Qt.Key.Key_Return, Qt.Key.Key_Enter, Qt.Key.Key_Escape}
