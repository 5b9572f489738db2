"""Fields of the inspector: a caption, what the room says, and a fault shown beside what was typed wrongly."""

from collections.abc import Callable, Sequence

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QColor, QKeyEvent, QKeySequence, QPainter, QPaintEvent
from PySide6.QtWidgets import QComboBox, QGridLayout, QLabel, QLineEdit, QWidget

from app import theme
from app.opaque import Opaque
from app.theme.look import InStep

Read = Callable[[], str]
CommitText = Callable[[str], str]
"""Makes the edit; returns why it could not be made, or nothing."""

CAPTION_PX = 86


class _Line(QLineEdit):
    """A line of text that leaves undo and redo to the document while nothing is being typed.

    It paints a card's ground below its round corners: for their sake the whole window would be painted there at every change.
    """

    def __init__(self) -> None:
        super().__init__()
        Opaque(self)

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(event.rect(), QColor(theme.shown.card))
        painter.end()
        super().paintEvent(event)

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent) and not self.isModified():
            undo, redo = QKeySequence.StandardKey.Undo, QKeySequence.StandardKey.Redo
            if event.matches(undo) or event.matches(redo):
                event.ignore()
                return False
        return super().event(event)


class _Row(QWidget):
    """A caption with its control, and room for a fault below."""

    def __init__(self, caption: str, control: QWidget) -> None:
        super().__init__()
        self.fault = QLabel()
        self.fault.setObjectName("fault")
        self.fault.setWordWrap(True)
        self.fault.hide()
        label = QLabel(caption)
        InStep(label, lambda: label.setFixedWidth(theme.px(CAPTION_PX)))
        label.setBuddy(control)
        control.setAccessibleName(caption)
        grid = QGridLayout(self)
        grid.setContentsMargins(0, 0, 0, 0)
        grid.setVerticalSpacing(0)
        grid.addWidget(label, 0, 0)
        grid.addWidget(control, 0, 1)
        grid.addWidget(self.fault, 1, 0, 1, 2)
        grid.setColumnStretch(1, 1)

    def show_fault(self, text: str) -> None:
        """Show why what was typed is wrong, or clear it."""
        if text != self.fault.text():
            self.fault.setText(text)
            self.fault.setVisible(bool(text))


class TextField(_Row):
    """One line of text. Enter or leaving the field makes the edit; Escape gives it up."""

    def __init__(self, caption: str, read: Read, commit: CommitText) -> None:
        self.line = _Line()
        super().__init__(caption, self.line)
        self._read, self._commit = read, commit
        self._is_wrong = False
        self.line.editingFinished.connect(self._finish)

    def refresh(self, *, force: bool = False) -> None:
        """Show what the room says; what someone is typing stays unless forced."""
        if self.line.isModified() and not force:
            return
        text = self._read()
        if force or text != self.line.text():
            self.line.setText(text)
            self.line.setCursorPosition(0)
        self._mark("")

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape and self.line.isModified():
            self.refresh(force=True)
        else:
            super().keyPressEvent(event)

    def _finish(self) -> None:
        if not self.line.isModified():
            return
        fault = self._commit(self.line.text())
        if fault:
            self._mark(fault)
        else:
            self.refresh(force=True)

    def _mark(self, fault: str) -> None:
        if bool(fault) != self._is_wrong:
            self._is_wrong = bool(fault)
            self.line.setProperty("wrong", self._is_wrong)
            self.line.style().unpolish(self.line)
            self.line.style().polish(self.line)
        self.show_fault(fault)


class ChoiceField(_Row):
    """One of a few choices, each a value and the words for it."""

    def __init__(self, caption: str, read: Read, commit: CommitText, choices: Sequence[tuple[str, str]] = ()) -> None:
        self.box = QComboBox()
        super().__init__(caption, self.box)
        self._read, self._commit = read, commit
        self._choices: list[tuple[str, str]] = []
        self.offer(choices)
        self.box.activated.connect(self._choose)

    def offer(self, choices: Sequence[tuple[str, str]]) -> None:
        """Offer other choices."""
        if list(choices) != self._choices:
            self._choices = list(choices)
            self.box.clear()
            for value, words in choices:
                self.box.addItem(words, value)

    def refresh(self, *, force: bool = False) -> None:
        """Show what the room says."""
        place = self.box.findData(self._read())
        if force or place != self.box.currentIndex():
            self.box.setCurrentIndex(place)
            self.show_fault("")

    def _choose(self, place: int) -> None:
        fault = self._commit(str(self.box.itemData(place)))
        self.refresh(force=True)
        self.show_fault(fault)
