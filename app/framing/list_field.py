"""A field for a list of lengths: several lines, the fault below it, and what was typed wrongly stays."""

from collections.abc import Callable

from PySide6.QtCore import QEvent, Qt
from PySide6.QtGui import QFocusEvent, QKeyEvent, QKeySequence
from PySide6.QtWidgets import QLabel, QPlainTextEdit, QVBoxLayout, QWidget

from app import theme
from app.theme.look import InStep, Style

ACCEPT = (Qt.Key.Key_Return, Qt.Key.Key_Enter)
LINE_PX, EDGES_PX = 20, 12


class _Lines(QPlainTextEdit):
    """Text whose typing ends by leaving it or with Control and Enter; undo is the document's while nothing is being typed."""

    def __init__(self, finish: Callable[[], None], give_up: Callable[[], None]) -> None:
        super().__init__()
        self._finish, self._give_up = finish, give_up
        self.setTabChangesFocus(True)

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent) and not self.document().isModified():
            keys = QKeySequence.StandardKey
            if event.matches(keys.Undo) or event.matches(keys.Redo):
                event.ignore()
                return False
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() in ACCEPT and event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self._finish()
        elif event.key() == Qt.Key.Key_Escape and self.document().isModified():
            self._give_up()
        else:
            super().keyPressEvent(event)

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        if event.reason() != Qt.FocusReason.PopupFocusReason:
            self._finish()


class ListField(QWidget):
    """A caption above the text. ``commit`` makes the edit and returns why it could not be made, or nothing."""

    def __init__(self, caption: str, read: Callable[[], str], commit: Callable[[str], str], *, lines: int, hint: str) -> None:
        super().__init__()
        self._read, self._commit = read, commit
        self.text = _Lines(self._finish, lambda: self.refresh(force=True))
        self.text.setAccessibleName(caption)
        self.text.setAccessibleDescription(hint)
        self.text.setToolTip(hint)
        self.text.setPlaceholderText(hint)
        InStep(self.text, lambda: self.text.setFixedHeight(lines * theme.px(LINE_PX) + EDGES_PX))
        Style(self.text, _sheet)
        if lines == 1:
            self.text.setVerticalScrollBarPolicy(Qt.ScrollBarPolicy.ScrollBarAlwaysOff)
        label = QLabel(caption)
        label.setBuddy(self.text)
        self.fault = QLabel()
        self.fault.setObjectName("fault")
        self.fault.setWordWrap(True)
        self.fault.hide()
        layout = QVBoxLayout(self)
        layout.setContentsMargins(0, 0, 0, 0)
        layout.setSpacing(2)
        for part in (label, self.text, self.fault):
            layout.addWidget(part)

    def refresh(self, *, force: bool = False) -> None:
        """Show what the room says; what someone is typing stays unless forced."""
        if self.text.document().isModified() and not force:
            return
        said = self._read()
        if force or said != self.text.toPlainText():
            self.text.setPlainText(said)
        self._mark("")

    def _finish(self) -> None:
        if not self.text.document().isModified():
            return
        fault = self._commit(self.text.toPlainText())
        if fault:
            self._mark(fault)
        else:
            self.refresh(force=True)

    def _mark(self, fault: str) -> None:
        if bool(fault) != bool(self.text.property("wrong")):
            self.text.setProperty("wrong", bool(fault))
            self.text.style().unpolish(self.text)
            self.text.style().polish(self.text)
        self.fault.setText(fault)
        self.fault.setVisible(bool(fault))


def _sheet() -> str:
    shown = theme.shown
    return f"""
        QPlainTextEdit {{ background: {shown.field}; border: 1px solid {shown.field_edge}; border-radius: 2px; padding: 1px 2px;
            selection-background-color: {shown.accent}; selection-color: {shown.on_accent}; }}
        QPlainTextEdit:focus {{ border: 2px solid {shown.accent}; padding: 0 1px; }}
        QPlainTextEdit[wrong="true"] {{ border: 2px solid {shown.level_inks["error"]}; padding: 0 1px; }}
    """
