"""The strip over the elevation: which wall is worked on, what can be added to it, and how much of it is in view."""

from collections.abc import Mapping
from types import MappingProxyType

from PySide6.QtCore import QSize, Qt
from PySide6.QtGui import QAction, QResizeEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QToolButton, QWidget

from app import theme
from app.actions import key_words
from app.document import Document
from app.theme.look import InStep
from core.language import marked, tr
from core.room import wall_letter
from core.units import format_length

ADDING: Mapping[str, str] = MappingProxyType(
    {
        "add_door": marked("Add a door to this wall"),
        "add_window": marked("Add a window to this wall"),
        "add_outlet": marked("Add an outlet to this wall"),
        "add_switch": marked("Add a switch to this wall"),
        "add_niche": marked("Add a niche to this wall"),
    }
)
"""What can be added, by the name of its action, and what its button is called."""


class Strip(QFrame):
    """Buttons for what is done all the time, each with its key on it."""

    def __init__(
        self, document: Document, actions: Mapping[str, QAction], undoing: tuple[QAction, QAction], parent: QWidget | None = None
    ) -> None:
        super().__init__(parent)
        self.setObjectName("strip")
        self._document = document
        self.wall = QLabel()
        self.wall.setObjectName("heading")
        InStep(self.wall, lambda: self.wall.setMinimumWidth(theme.px(140)))
        self.wall.setAlignment(Qt.AlignmentFlag.AlignCenter)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(10, 5, 10, 5)
        layout.setSpacing(6)
        layout.addWidget(_button(actions["previous_wall"], "‹", tr("Previous wall")))
        layout.addWidget(self.wall)
        layout.addWidget(_button(actions["next_wall"], "›", tr("Next wall")))
        layout.addSpacing(16)
        layout.addWidget(QLabel(tr("Add")))
        for name, called in ADDING.items():
            action = actions[name]
            words = action.text().replace("&", "")
            layout.addWidget(_button(action, f"{words}  {key_words(action.shortcut())}", tr(called)))
        layout.addStretch(1)
        undo, redo = (_button(action, words, words) for action, words in zip(undoing, (tr("Undo"), tr("Redo")), strict=True))
        further, nearer = _button(actions["zoom_out"], "−", tr("Zoom out")), _button(actions["zoom_in"], "+", tr("Zoom in"))
        whole = _button(actions["zoom_fit"], tr("Whole room"), tr("Show the whole room"))
        for part in (undo, redo, further, whole, nearer):
            layout.addWidget(part)
        self._spared = ((undo, redo), (further, nearer), (whole,))
        document.wall_changed.connect(self.refresh)
        document.changed.connect(self.refresh)
        self.refresh()

    def minimumSizeHint(self) -> QSize:
        """Without what can be spared."""
        spared = sum(button.sizeHint().width() + 6 for group in self._spared for button in group if not button.isHidden())
        return super().minimumSizeHint() - QSize(spared, 0)

    def resizeEvent(self, event: QResizeEvent) -> None:
        """Spare the buttons at the end, which have a place in the menus, too, where there is no room for all."""
        room = event.size().width() - self.minimumSizeHint().width()
        for group in reversed(self._spared):
            room -= sum(button.sizeHint().width() + 6 for button in group)
            for button in group:
                button.setVisible(room >= 0)
        super().resizeEvent(event)

    def refresh(self, _what: object = None) -> None:
        """Name the current wall."""
        room, wall = self._document.room, self._document.wall
        length = format_length(room.wall_length_mm(wall), room.display_units)
        text = tr("Wall {wall}   {length}", wall=wall_letter(wall), length=length)
        if text != self.wall.text():
            self.wall.setText(text)


def _button(action: QAction, words: str, name: str) -> QToolButton:
    """A button with words of its own for an action, off when the action is."""
    button = QToolButton()
    button.setText(words)
    button.setAccessibleName(name)
    keys = key_words(action.shortcut())
    button.setToolTip(f"{name} ({keys})" if keys else name)
    button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
    button.setEnabled(action.isEnabled())
    button.clicked.connect(action.trigger)
    action.enabledChanged.connect(button.setEnabled)
    return button
