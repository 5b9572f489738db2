"""Openings copied, cut and pasted as text, and one wall's openings repeated on others."""

from collections.abc import Callable

from PySide6.QtGui import QGuiApplication
from PySide6.QtWidgets import QWidget

from app.copy_wall_dialog import CopyWallDialog
from app.document import Document, Edit
from app.elevation.together import openings_words
from core.edits.copying import paste_openings
from core.edits.together import remove_openings
from core.errors import RoomError
from core.language import tr
from core.openings_text import openings_text, read_openings
from core.room import Room, wall_letter

Say = Callable[[str], object]


class OpeningsClipboard:
    """The chosen openings go through the desktop's clipboard, so that they reach another window's room too."""

    def __init__(self, document: Document, say: Say, window: QWidget) -> None:
        self._document, self._say, self._window = document, say, window

    def answers(self) -> dict[str, Callable[[], object]]:
        """What answers the actions about copies."""
        return {"cut": self.cut, "copy": self.copy, "paste": self.paste, "copy_wall": self.copy_wall}

    def copy(self) -> bool:
        """Put the chosen openings on the clipboard; False where none is chosen."""
        openings = self._document.chosen.openings
        if openings:
            QGuiApplication.clipboard().setText(openings_text(openings))
            self._say(tr("Copied {openings}", openings=openings_words([opening.id for opening in openings])))
        else:
            self._say(tr("Choose at least one opening to copy"))
        return bool(openings)

    def cut(self) -> None:
        """Copy the chosen openings and remove them."""
        names = [opening.id for opening in self._document.chosen.openings]
        if self.copy():
            text = tr("Cut {openings}", openings=openings_words(names))
            self._document.commit_edit(lambda room: remove_openings(room, names), text)

    def paste(self, left_mm: float | None = None) -> None:
        """Put what is on the clipboard up on the current wall, from ``left_mm`` on where it is given, and choose it."""
        text, wall = QGuiApplication.clipboard().text(), self._document.wall
        count = len(self._document.room.openings)

        def edit(room: Room) -> Room:
            return paste_openings(room, read_openings(text), wall, left_mm)

        if self._document.commit_edit(edit, tr("Paste on wall {wall}", wall=wall_letter(wall))):
            names = [opening.id for opening in self._document.room.openings[count:]]
            self._document.chosen.choose(names)
            self._say(tr("Pasted {openings}", openings=", ".join(names)))

    def copy_wall(self) -> None:
        """Ask to which walls the current wall's openings are copied."""
        self._document.cancel()
        dialog = CopyWallDialog(self._document.room, self._document.wall, self._commit, self._window)
        dialog.exec()
        dialog.deleteLater()

    def _commit(self, edit: Edit, text: str) -> None:
        if not self._document.commit_edit(edit, text):
            raise RoomError(self._document.refusal)
