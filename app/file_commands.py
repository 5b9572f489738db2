"""Commands that read and write files: rooms, the set-out as JSON, the print pack, paper."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QObject, QSettings, Signal
from PySide6.QtWidgets import QDialog, QWidget

from app.autosave import Autosave
from app.document import Document
from app.file_seen import is_same, seen_holding, seen_in
from app.from_stock import StockBonds
from app.new_room import NewRoomDialog
from app.progress import Progress
from app.questions import ROOM_SUFFIX, Questions
from app.recent import remember
from core.errors import CoursewrightError, RoomFileError
from core.export.setout_json import setout_json
from core.files import load_room, replace_file, save_room
from core.language import tr, trn
from core.recovery import Recovery
from core.room import Room
from core.system_words import system_words

LAST_FOLDER = "files/last_folder"


class FileCommands(QObject):
    """Never loses work: asks before changes go, and before a file that someone else changed is replaced."""

    pack_seen = Signal()
    """The print pack was made, or looked at in the preview."""

    def __init__(self, document: Document, autosave: Autosave, questions: Questions, stock: StockBonds, window: QWidget) -> None:
        super().__init__(window)
        self._document, self._autosave, self._questions, self._window = document, autosave, questions, window
        self._stock = stock
        self._seen = seen_holding(document.path, document.room)
        self._claimed: Path | None = None

    def answers(self) -> dict[str, Callable[[], object]]:
        """What answers the actions about files."""
        return {
            "new": self.new,
            "open": self.open,
            "save": self.save,
            "save_as": self.save_as,
            "pack": self.make_pack,
            "preview": self.preview,
            "print": self.print_sheets,
            "export": self.export,
        }

    def new(self) -> None:
        """Begin another room. Its walls stay in the dialog until they are begun with or cancelled there."""
        dialog = NewRoomDialog(self._document.room.display_units, self._window)
        while dialog.exec() == QDialog.DialogCode.Accepted and not self._begins(dialog.room):
            pass
        dialog.deleteLater()

    def open(self) -> None:
        """Ask for a file and open it."""
        if not self._may_give_up():
            return
        path = self._questions.room_to_open(self._folder())
        if path is not None:
            self.open_path(path)

    def open_recent(self, path: Path) -> None:
        """Open a file from the list of those opened last."""
        if self._may_give_up():
            self.open_path(path)

    def may_drop(self, path: Path) -> bool:
        """Whether a missing file is to be taken off that list."""
        return self._questions.confirm(tr("{path} is missing. Take it off the list?", path=path), tr("Take off"))

    def open_path(self, path: Path) -> bool:
        """Open a room file, or the work left behind for it. The old room stays where that fails."""
        found = self._autosave.offer(path)
        if found is None:
            return self._take(path, lambda: self._document.replace(load_room(path), path))
        if self._takes_up(path.name, found):
            return self._recover(found, path)
        taken = self._take(path, lambda: self._document.replace(load_room(path), path))
        if taken:
            self._autosave.forget(found)
        return taken

    def recover_at_start(self) -> None:
        """Offer the work left behind for the room just opened, or in a room that never had a file."""
        path = self._document.path
        self._claim()
        if path is not None:
            remember(path)
        while (found := self._autosave.offer(path)) is not None:
            if self._takes_up(path.name if path else tr("“{room}”", room=found.room.name), found):
                self._recover(found, path)
                return
            if not self._autosave.forget(found):
                return

    def save(self) -> bool:
        """Save to the room's file; asks for one where there is none."""
        path = self._document.path
        return self.save_as() if path is None else self._write(path)

    def save_as(self) -> bool:
        """Ask where to save, and save there."""
        path = self._questions.room_to_save(self._document.path or self._beside(ROOM_SUFFIX))
        return path is not None and self._write(path)

    def may_leave(self) -> bool:
        """Whether the window may close: the room is saved, unchanged, or given up by the person, and then forgotten."""
        may_go = self._may_give_up()
        if may_go:
            self._autosave.discard(self._document.path)
            self._release()
        return may_go

    def export(self) -> None:
        """Write the set-out as JSON."""
        path = self._questions.file_to_export(self._beside(".setout.json"))
        if path is None:
            return
        try:
            replace_file(path, setout_json(self._document.work_out()).encode())
        except OSError as error:
            said = tr("{path} cannot be written: {reason}", path=path, reason=system_words(error))
            self._questions.fault(tr("Not exported"), said)

    def make_pack(self) -> None:
        """Write the print pack into a folder, showing how far it is; from the stock on hand where the person wants it."""
        from app.from_stock.waiting import bonds_from_stock
        from app.pack import write_pack

        can_lay = bool(self._document.room.stock.received)
        choice = self._questions.pack(self._beside("-pack"), can_lay=can_lay, lays=self._stock.found is not None)
        if choice is None:
            return
        folder, is_from_stock = choice
        try:
            stock = bonds_from_stock(self._stock, self._window) if is_from_stock else None
            if is_from_stock and stock is None:
                return
            with Progress(self._window, tr("Making the print pack …")) as progress:
                files = write_pack(self._document.work_out(), folder, progress.step, stock=stock)
                stopped = progress.stopped
        except (CoursewrightError, OSError) as error:
            self._questions.fault(tr("No print pack"), str(error))
            return
        if stopped:
            self._questions.tell(tr("Stopped"), tr("The print pack was stopped; nothing was written."))
        else:
            said = trn("{n} file is in {folder}.", "{n} files are in {folder}.", len(files), folder=folder)
            self._questions.tell(tr("Print pack"), f"{said} {stock.verdict}" if stock else said)
            self.pack_seen.emit()

    def print_sheets(self) -> None:
        """Print the sheets."""
        from app.printing import print_setout

        print_setout(self._document.work_out(), self._window, self._stock.found)

    def preview(self) -> None:
        """Show the sheets as they will print."""
        from app.printing import Preview

        preview = Preview(self._document.work_out(), self._window, stock=self._stock.found)
        preview.exec()
        preview.deleteLater()
        self.pack_seen.emit()

    def _write(self, path: Path) -> bool:
        self._document.cancel()
        before = self._document.path
        is_gone = before is not None and is_same(path, before) and self._seen is not None and not path.exists()
        if not self._may_replace(path):
            return False
        try:
            self._seen = save_room(self._document.room, path)
        except CoursewrightError as error:
            self._questions.fault(tr("Not saved"), str(error))
            return False
        self._autosave.discard(before)
        self._document.mark_saved(path)
        self._autosave.discard(path)
        self._remember(path)
        if is_gone:
            said = tr("{file} was moved or deleted by another program; it is saved there anew.", file=path.name)
            self._questions.tell(tr("Saved anew"), said)
        return True

    def _may_replace(self, path: Path) -> bool:
        """Whether what stands in the file may go: it is what was read or written here, or the person says so."""
        before = self._document.path
        if before is not None and is_same(path, before):
            if seen_in(path) in (None, self._seen):
                return True
            said = tr("{file} was changed by another program. Replace it?", file=path.name)
            return self._questions.confirm(said, tr("Replace"))
        if not self._autosave.is_open_elsewhere(path):
            return True
        return self._questions.confirm(tr("{file} is open in another window. Replace it?", file=path.name), tr("Replace"))

    def _may_give_up(self) -> bool:
        """Whether another room may take this one's place. Its autosave stays until that is done."""
        self._document.cancel()
        if not self._document.is_dirty:
            return True
        answer = self._questions.unsaved(self._document.room.name)
        return self.save() if answer == "save" else answer == "discard"

    def _begins(self, room: Room | None) -> bool:
        """Whether that room took this one's place."""
        return (
            room is not None and self._may_give_up() and self._take(None, lambda: self._document.replace(room, None, dirty=True))
        )

    def _takes_up(self, name: str, found: Recovery) -> bool:
        return self._questions.recover(name, file_is_newer=not found.is_newer)

    def _recover(self, found: Recovery, path: Path | None) -> bool:
        """Take up work left behind; that goes only once this window has autosaved it."""
        return self._take(path, lambda: self._document.replace(found.room, path, dirty=True), found)

    def _take(self, path: Path | None, replace: Callable[[], None], found: Recovery | None = None) -> bool:
        before = self._document.path
        # Looked at before it is read: whoever writes it in between is noticed on saving.
        seen = seen_in(path)
        try:
            replace()
        except CoursewrightError as error:
            is_file = isinstance(error, RoomFileError)
            title = tr("This file cannot be opened") if is_file else tr("This room has no set-out")
            self._questions.fault(title, str(error))
            return False
        if self._autosave.follow(before) and found is not None:
            self._autosave.forget(found)
        self._seen = seen
        if path is not None:
            self._remember(path)
        else:
            self._claim()
        return True

    def _claim(self) -> None:
        """Note which file this window has open, and tell where another one has it open, too."""
        path = self._document.path
        if path == self._claimed:
            return
        self._release()
        self._claimed = path
        if path is not None and self._autosave.claim(path):
            said = tr(
                "{file} is open in another window, too; whichever saves last is asked before it replaces the other's work.",
                file=path.name,
            )
            self._questions.tell(tr("Open in two windows"), said)

    def _release(self) -> None:
        if self._claimed is not None:
            self._autosave.release(self._claimed)
        self._claimed = None

    def _remember(self, path: Path) -> None:
        self._claim()
        QSettings().setValue(LAST_FOLDER, str(path.resolve().parent))
        remember(path)

    def _folder(self) -> Path:
        return Path(str(QSettings().value(LAST_FOLDER, str(Path.home()))))

    def _beside(self, suffix: str) -> Path:
        path = self._document.path
        folder = path.parent if path else self._folder()
        stem = path.name.removesuffix(ROOM_SUFFIX) if path else _file_stem(self._document.room.name)
        return folder / (stem + suffix)


def _file_stem(name: str) -> str:
    """A room's name as a file name."""
    return "-".join("".join(c if c.isalnum() else " " for c in name.lower()).split()) or "room"
