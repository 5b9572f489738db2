"""The guide itself: a band over the elevation with the course of steps, what to do next, and a way out."""

from collections.abc import Mapping

from PySide6.QtCore import QEvent, QObject, QRect, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QButtonGroup, QFrame, QHBoxLayout, QLabel, QSizePolicy, QToolButton, QVBoxLayout, QWidget

from app.first_steps import remembered
from app.first_steps.brick import Brick
from app.first_steps.pointer import Pointer
from app.first_steps.steps import ALL_LAID, STEPS, Name
from app.first_steps.watching import Watched, Watching
from core.language import tr


class Parts(Watched):
    """What the guide needs of the window."""

    def place_of(self, name: Name) -> tuple[QWidget, QRect]:
        """The part of the window that a step is about, and where on it."""
        raise NotImplementedError


class Guide(QFrame):
    """Never in the way: it has a place of its own, asks for nothing, and lays its bricks as the person works."""

    left = Signal()

    def __init__(self, parts: Parts, window: QWidget) -> None:
        super().__init__()
        self.setObjectName("strip")
        self.setAccessibleName(tr("First steps"))
        self._parts = parts
        self.pointer = Pointer(window)
        window.installEventFilter(self)
        self.text = QLabel()
        self.text.setWordWrap(True)
        self.text.setSizePolicy(QSizePolicy.Policy.Ignored, QSizePolicy.Policy.Preferred)
        self.leave = QToolButton()
        self.leave.setText(tr("Leave  Esc"))
        self.leave.setAccessibleName(tr("Leave the first steps"))
        self.leave.setToolTip(tr("Close this; “First steps” in the menu “Help” opens it again"))
        self.leave.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        self.leave.clicked.connect(self._leave)
        self._group = QButtonGroup(self)
        self.bricks: Mapping[Name, Brick] = {step.name: Brick(step, at, len(STEPS)) for at, step in enumerate(STEPS, start=1)}
        self._place()
        self._watching = Watching(parts, self)
        self._watching.done.connect(self._lay)
        parts.document.changed.connect(self.pointer.hide)
        self._group.buttonClicked.connect(self._choose)
        done = remembered.done_before()
        for name, brick in self.bricks.items():
            brick.lay(name in done)
        self._go_on()

    def _place(self) -> None:
        course, line = QHBoxLayout(), QHBoxLayout()
        course.setSpacing(0)
        for number, brick in enumerate(self.bricks.values()):
            self._group.addButton(brick, number)
            course.addWidget(brick, 1)
        line.addWidget(self.text, 1)
        line.addWidget(self.leave)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(10, 4, 10, 4)
        layout.setSpacing(4)
        layout.addLayout(course)
        layout.addLayout(line)

    @property
    def is_finished(self) -> bool:
        return all(brick.is_laid for brick in self.bricks.values())

    def take_focus(self) -> None:
        """Let the keyboard go on from the brick at hand."""
        (self._group.checkedButton() or self.leave).setFocus(Qt.FocusReason.ShortcutFocusReason)

    def show_place(self) -> None:
        """Point at what the step at hand is about."""
        brick = self._group.checkedButton()
        if isinstance(brick, Brick):
            self.pointer.point_at(*self._parts.place_of(brick.step.name))

    def _lay(self, name: Name) -> None:
        brick = self.bricks[name]
        if brick.is_laid:
            return
        brick.lay(True)
        remembered.keep_done(name for name, brick in self.bricks.items() if brick.is_laid)
        if brick.isChecked():
            self._go_on()

    def _go_on(self) -> None:
        """Turn to the first step that is not done."""
        due = next((brick for brick in self.bricks.values() if not brick.is_laid), None)
        if due is None:
            self.text.setText(tr(ALL_LAID))
            self.leave.setText(tr("Done  Esc"))
            self.pointer.hide()
        else:
            due.setChecked(True)
            self._choose(due)

    def _choose(self, brick: Brick) -> None:
        self.text.setText(tr(brick.step.text))
        self.show_place()

    def _leave(self) -> None:
        remembered.leave()
        self.pointer.hide()
        self.pointer.deleteLater()
        self.left.emit()

    def eventFilter(self, _window: QObject, event: QEvent) -> bool:
        """Escape leaves from everywhere in the window where nothing else takes it."""
        is_escape = isinstance(event, QKeyEvent) and event.type() == QEvent.Type.KeyPress and event.key() == Qt.Key.Key_Escape
        if is_escape:
            self._leave()
        return is_escape

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if event.key() == Qt.Key.Key_Escape:
            self._leave()
        else:
            super().keyPressEvent(event)
