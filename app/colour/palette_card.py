"""The colours there are: which are stocked, which is in hand, and what everything else is laid in."""

from PySide6.QtCore import QEvent, QSize, Qt, Signal
from PySide6.QtGui import QKeyEvent
from PySide6.QtWidgets import QFrame, QHBoxLayout, QLabel, QLineEdit, QListWidget, QListWidgetItem, QPushButton, QVBoxLayout

from app import theme
from app.colour.rule_words import colour_words
from app.colour.swatch import SWATCH_PX, swatch
from app.document import Document, Edit
from app.inspector.fields import ChoiceField
from app.theme.look import InStep
from core.colouring import Colouring
from core.edits.colouring import add_colour, change_colour, remove_colour, set_rest
from core.language import marked, tr, trc

LEAST_LIST_PX = 70
ANY = marked("any colour")


class _Colours(QListWidget):
    """A list in which typing finds a colour: letters typed here are no commands that change the room."""

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent) and _is_letter(event):
            event.accept()
            return True
        return super().event(event)


def _is_letter(event: QKeyEvent) -> bool:
    modifiers = event.modifiers() & ~Qt.KeyboardModifier.ShiftModifier
    return not modifiers and event.text().isalpha()


class PaletteCard(QFrame):
    """Ticked colours are stocked. The current one is what rules are laid in."""

    picked = Signal(str)
    """The name of the colour in hand."""

    def __init__(self, document: Document) -> None:
        super().__init__()
        self.setObjectName("card")
        self._document = document
        self._known: Colouring | None = None
        self.colours = _Colours()
        self.colours.setAccessibleName(tr("Colours; ticked ones are stocked"))
        self.colours.setIconSize(QSize(SWATCH_PX, SWATCH_PX))
        self.colours.setMinimumHeight(LEAST_LIST_PX)
        self.colours.currentItemChanged.connect(self._pick)
        self.colours.itemChanged.connect(self._tick)
        self.rest = ChoiceField(tr("The rest"), lambda: document.room.colouring.rest or ANY, self._set_rest)
        self.name, self.srgb = QLineEdit(), QLineEdit("#")
        self.add, self.remove = QPushButton(trc("a colour", "Add")), QPushButton(tr("Remove"))
        self.fault = QLabel()
        self._arrange()
        self.refresh()
        self.colours.setCurrentRow(0)

    def _arrange(self) -> None:
        heading = QLabel(tr("Colours: ticked are stocked"))
        heading.setObjectName("heading")
        self.name.setPlaceholderText(tr("new colour's name"))
        self.name.setAccessibleName(tr("New colour's name"))
        self.srgb.setAccessibleName(tr("New colour as # and six digits"))
        self.srgb.setMaxLength(7)
        InStep(self.srgb, lambda: self.srgb.setMaximumWidth(theme.px(84)))
        self.fault.setObjectName("fault")
        self.fault.setWordWrap(True)
        self.fault.hide()
        self.add.clicked.connect(self._add)
        self.srgb.returnPressed.connect(self._add)
        self.remove.clicked.connect(self._remove)
        below = QHBoxLayout()
        for part in (self.name, self.srgb, self.add, self.remove):
            below.addWidget(part)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(10, 8, 10, 8)
        layout.setSpacing(4)
        for above in (heading, self.colours, self.rest):
            layout.addWidget(above)
        layout.addLayout(below)
        layout.addWidget(self.fault)

    @property
    def colour(self) -> str | None:
        """The colour in hand."""
        item = self.colours.currentItem()
        return str(item.data(Qt.ItemDataRole.UserRole)) if item else None

    def refresh(self) -> None:
        """Show what the room says."""
        colouring = self._document.room.colouring
        if self._known is None or self._known.colours != colouring.colours:
            self._fill(colouring)
        self._known = colouring
        self.rest.offer([(ANY, tr(ANY)), *((one.name, colour_words(colouring, one.name)) for one in colouring.stocked)])
        self.rest.refresh()

    def _fill(self, colouring: Colouring) -> None:
        """New items; nobody listens to their ticks meanwhile, for they only say what the room says."""
        before = self.colour
        self.colours.itemChanged.disconnect(self._tick)
        self.colours.clear()
        for colour in colouring.colours:
            item = QListWidgetItem(swatch(colour), colour_words(colouring, colour.name))
            item.setData(Qt.ItemDataRole.UserRole, colour.name)
            item.setFlags(item.flags() | Qt.ItemFlag.ItemIsUserCheckable)
            item.setCheckState(Qt.CheckState.Checked if colour.is_stocked else Qt.CheckState.Unchecked)
            self.colours.addItem(item)
            if colour.name == before:
                self.colours.setCurrentItem(item)
        self.colours.itemChanged.connect(self._tick)

    def _pick(self, item: QListWidgetItem | None) -> None:
        if item is not None:
            self.picked.emit(str(item.data(Qt.ItemDataRole.UserRole)))

    def _tick(self, item: QListWidgetItem) -> None:
        name, is_stocked = str(item.data(Qt.ItemDataRole.UserRole)), item.checkState() == Qt.CheckState.Checked
        text = tr("Stock {colour}", colour=tr(name)) if is_stocked else tr("Do without {colour}", colour=tr(name))
        if not self._commit(lambda room: change_colour(room, name, is_stocked=is_stocked), text):
            self._known = None
            self.refresh()

    def _set_rest(self, value: str) -> str:
        done = self._document.commit_edit(lambda room: set_rest(room, None if value == ANY else value), tr("Colour the rest"))
        return "" if done else self._document.refusal

    def _add(self) -> None:
        name, srgb = self.name.text(), self.srgb.text().strip()
        if self._commit(lambda room: add_colour(room, name, srgb), tr("Add colour {colour}", colour=name.strip())):
            self.name.clear()
            self.srgb.setText("#")
            self.colours.setCurrentRow(self.colours.count() - 1)

    def _remove(self) -> None:
        if (name := self.colour) is not None:
            self._commit(lambda room: remove_colour(room, name), tr("Remove colour {colour}", colour=tr(name)))

    def _commit(self, edit: Edit, text: str) -> bool:
        done = self._document.commit_edit(edit, text)
        self.fault.setText("" if done else self._document.refusal)
        self.fault.setVisible(not done)
        return done
