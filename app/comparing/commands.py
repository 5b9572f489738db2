"""Comparing, as the window offers it: first with the saved version where there are changes, else with a file of choice."""

from functools import partial
from pathlib import Path

from PySide6.QtCore import QSettings, Qt
from PySide6.QtWidgets import QWidget

from app.comparing.dialog import CompareDialog
from app.comparing.versions import Pair, pair_with_file
from app.document import Document
from app.file_commands import LAST_FOLDER
from app.questions import Questions
from core.errors import CoursewrightError, RoomFileError
from core.language import tr


def compare_versions(document: Document, questions: Questions, window: QWidget) -> CompareDialog | None:
    """Open the comparison and return it; None where no file was chosen or it cannot be read, which is then told."""
    choose_file = partial(_with_chosen_file, document, questions, window)
    path = document.path
    choose_saved = partial(_with_file, document, questions, window, path) if path is not None else None
    pair = choose_saved() if choose_saved is not None and document.is_dirty else choose_file()
    if pair is None:
        return None
    dialog = CompareDialog(pair, choose_saved, choose_file, window)
    dialog.setAttribute(Qt.WidgetAttribute.WA_DeleteOnClose)
    dialog.open()
    return dialog


def _with_chosen_file(document: Document, questions: Questions, window: QWidget) -> Pair | None:
    folder = document.path.parent if document.path else Path(str(QSettings().value(LAST_FOLDER, str(Path.home()))))
    path = questions.room_to_open(folder)
    return _with_file(document, questions, window, path) if path is not None else None


def _with_file(document: Document, questions: Questions, window: QWidget, path: Path) -> Pair | None:
    try:
        return pair_with_file(document, path, window)
    except CoursewrightError as error:
        title = tr("This file cannot be compared") if isinstance(error, RoomFileError) else tr("That room has no set-out")
        questions.fault(title, str(error))
        return None
