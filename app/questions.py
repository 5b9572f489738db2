"""What the window asks and tells a person in dialogs; tests put answers in its place."""

from pathlib import Path
from typing import Literal

from PySide6.QtWidgets import QDialog, QFileDialog, QMessageBox, QWidget

from core.language import marked, tr

ROOM_SUFFIX = ".room.json"
ROOM_FILTER = marked("Rooms (*.room.json);;All files (*)")
Unsaved = Literal["save", "discard", "cancel"]


class Questions:
    """Modal dialogs over one window."""

    def __init__(self, parent: QWidget) -> None:
        self._parent = parent

    def room_to_open(self, folder: Path) -> Path | None:
        name, _ = QFileDialog.getOpenFileName(self._parent, tr("Open a room"), str(folder), tr(ROOM_FILTER))
        return Path(name) if name else None

    def room_to_save(self, proposal: Path) -> Path | None:
        """Where to save; asks again before a file that the suffix leads to is replaced."""
        name, _ = QFileDialog.getSaveFileName(self._parent, tr("Save the room"), str(proposal), tr(ROOM_FILTER))
        if not name:
            return None
        path = with_room_suffix(Path(name))
        replaces = path != Path(name) and path.exists()
        if replaces and not self.confirm(tr("{file} exists already. Replace it?", file=path.name), tr("Replace")):
            return None
        return path

    def file_to_export(self, proposal: Path) -> Path | None:
        files = tr("JSON (*.json);;All files (*)")
        name, _ = QFileDialog.getSaveFileName(self._parent, tr("Export the set-out"), str(proposal), files)
        return Path(name) if name else None

    def pack(self, folder: Path, *, can_lay: bool, lays: bool) -> tuple[Path, bool] | None:
        """Where the print pack goes, and whether its panels are laid from the stock on hand, if there is one to lay from."""
        from app.pack_dialog import PackDialog

        dialog = PackDialog(folder, can_lay=can_lay, lays=lays, parent=self._parent)
        accepted = dialog.exec() == QDialog.DialogCode.Accepted
        answer = dialog.folder, dialog.from_stock.isChecked()
        dialog.deleteLater()
        return answer if accepted else None

    def unsaved(self, name: str) -> Unsaved:
        """What to do with changes that are not saved."""
        buttons = QMessageBox.StandardButton
        answer = QMessageBox.question(
            self._parent,
            tr("Unsaved changes"),
            tr("{room} has changes that are not saved.", room=name),
            buttons.Save | buttons.Discard | buttons.Cancel,
            buttons.Save,
        )
        if answer == buttons.Save:
            return "save"
        return "discard" if answer == buttons.Discard else "cancel"

    def confirm(self, text: str, yes: str) -> bool:
        """A question with a named yes and a way out."""
        box = QMessageBox(QMessageBox.Icon.Question, "Coursewright", text, parent=self._parent)
        accept = box.addButton(yes, QMessageBox.ButtonRole.AcceptRole)
        box.addButton(QMessageBox.StandardButton.Cancel)
        box.exec()
        box.deleteLater()
        return box.clickedButton() is accept

    def recover(self, name: str, *, file_is_newer: bool) -> bool:
        """Whether to take up autosaved work; the other choice, which is the proposed one for a newer file, forgets it."""
        text = recovery_text(name, file_is_newer)
        box = QMessageBox(QMessageBox.Icon.Question, tr("Work left behind"), text, parent=self._parent)
        take = tr("Take up the older changes") if file_is_newer else tr("Take up")
        accept = box.addButton(take, QMessageBox.ButtonRole.AcceptRole)
        keep = box.addButton(tr("Keep the file") if file_is_newer else tr("Discard"), QMessageBox.ButtonRole.DestructiveRole)
        box.setDefaultButton(keep if file_is_newer else accept)
        box.exec()
        box.deleteLater()
        return box.clickedButton() is accept

    def tell(self, title: str, text: str) -> None:
        QMessageBox.information(self._parent, title, text)

    def fault(self, title: str, text: str) -> None:
        QMessageBox.warning(self._parent, title, text)


def recovery_text(name: str, file_is_newer: bool) -> str:
    """What to say of work left behind for the room of that name."""
    if file_is_newer:
        return tr(
            "Older changes to {room} were autosaved but never saved, and the file was written after them. "
            "Keep the file and discard them, or take up the older changes?",
            room=name,
        )
    return tr("Changes to {room} were autosaved but never saved. Take them up again, or discard them?", room=name)


def with_room_suffix(path: Path) -> Path:
    """The path with the room file's suffix where it has none of its own."""
    if path.name.endswith(ROOM_SUFFIX) or path.suffix == ".json":
        return path
    return path.with_name(path.name + ROOM_SUFFIX)
