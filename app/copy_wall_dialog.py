"""The dialog that repeats a wall's openings on other walls."""

from collections.abc import Callable

from PySide6.QtCore import Qt
from PySide6.QtWidgets import QCheckBox, QDialog, QDialogButtonBox, QLabel, QVBoxLayout, QWidget

from app.document import Edit
from core.edits.copying import copy_wall
from core.errors import CoursewrightError
from core.language import tr
from core.room import Room, wall_letter
from core.units import format_length

Commit = Callable[[Edit, str], None]
"""Makes the edit; raises RoomError where it was refused."""


class CopyWallDialog(QDialog):
    """A box to tick for every other wall. What does not fit is said here, and nothing is copied until all of it fits."""

    def __init__(self, room: Room, wall: int, commit: Commit, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._wall, self._commit = wall, commit
        self.setWindowTitle(tr("Copy the openings of wall {wall}", wall=wall_letter(wall)))
        self.walls = {other: QCheckBox(_wall_words(room, other)) for other in range(room.wall_count) if other != wall}
        self.mirrored = QCheckBox(tr("&Mirrored: as far from the right end as here from the left"))
        self.fault = QLabel()
        self.fault.setObjectName("fault")
        self.fault.setWordWrap(True)
        self.fault.setTextFormat(Qt.TextFormat.PlainText)
        self.buttons = QDialogButtonBox(QDialogButtonBox.StandardButton.Ok | QDialogButtonBox.StandardButton.Cancel)
        self.buttons.button(QDialogButtonBox.StandardButton.Ok).setText(tr("Copy"))
        self.buttons.accepted.connect(self.accept)
        self.buttons.rejected.connect(self.reject)
        self._place([opening.id for opening in room.openings if opening.wall == wall])
        for box in self.walls.values():
            box.toggled.connect(self._refresh)
        self._refresh()

    def _place(self, names: list[str]) -> None:
        layout = QVBoxLayout(self)
        listed = QLabel(", ".join(names) if names else tr("This wall has no openings."))
        listed.setWordWrap(True)
        layout.addWidget(listed)
        layout.addWidget(QLabel(tr("Copy them to")))
        for widget in (*self.walls.values(), self.mirrored, self.fault):
            layout.addWidget(widget)
        layout.addStretch(1)
        layout.addWidget(self.buttons)
        self._has_any = bool(names)

    @property
    def chosen(self) -> list[int]:
        """The walls ticked."""
        return [wall for wall, box in self.walls.items() if box.isChecked()]

    def accept(self) -> None:
        """Copy and close, or say what does not fit and stay open."""
        source, targets, mirrored = self._wall, self.chosen, self.mirrored.isChecked()
        letters = ", ".join(wall_letter(wall) for wall in targets)
        text = tr("Copy wall {wall} to {others}", wall=wall_letter(source), others=letters)
        try:
            self._commit(lambda room: copy_wall(room, source, targets, mirrored=mirrored), text)
        except CoursewrightError as error:
            self.fault.setText(str(error))
            self.resize(self.width(), max(self.height(), self.heightForWidth(self.width())))
            return
        super().accept()

    def _refresh(self, _on: bool = False) -> None:
        self.fault.clear()
        self.buttons.button(QDialogButtonBox.StandardButton.Ok).setEnabled(self._has_any and bool(self.chosen))


def _wall_words(room: Room, wall: int) -> str:
    length = format_length(room.wall_length_mm(wall), room.display_units)
    return tr("Wall &{wall}, {length}", wall=wall_letter(wall), length=length)
