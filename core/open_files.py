"""Which room files are open in a window, so that whoever opens one a second time is told.

Every process leaves a note of its own in the user's state folder. A note bars nobody: saving compares what stands in the file
with what was read, whoever wrote it. The note of a process that no longer lives counts for nothing and is cleared away.
"""

import contextlib
import os
from collections.abc import Iterator
from pathlib import Path

from core.errors import SaveError
from core.files import replace_file
from core.language import tr
from core.recovery import is_mark_of_living, path_key, process_mark, real_path
from core.system_words import system_words

NOTES_FOLDER = "open"
_SUFFIX = ".open"


def note_open(path: Path, state_folder: Path) -> None:
    """Notes that this process has the file open; raises SaveError."""
    note = _own_note(path, state_folder)
    try:
        note.parent.mkdir(parents=True, exist_ok=True)
        replace_file(note, os.fsencode(real_path(path)) + b"\n")
    except OSError as error:
        raise SaveError(
            tr(
                "{note}: cannot be written ({why}), so another window on {file} will not be told of this one",
                note=note,
                why=system_words(error),
                file=path.name,
            )
        ) from None


def forget_open(path: Path, state_folder: Path) -> None:
    """Takes this process's note away; raises SaveError."""
    note = _own_note(path, state_folder)
    try:
        note.unlink(missing_ok=True)
    except OSError as error:
        raise SaveError(tr("{note}: cannot be removed ({why})", note=note, why=system_words(error))) from None


def is_open_elsewhere(path: Path, state_folder: Path) -> bool:
    """Whether another living process has the file open."""
    own = process_mark(os.getpid())
    return any(mark != own for mark in _living_marks(path, state_folder))


def _own_note(path: Path, state_folder: Path) -> Path:
    return state_folder / NOTES_FOLDER / f"{path_key(path)}.{process_mark(os.getpid())}{_SUFFIX}"


def _living_marks(path: Path, state_folder: Path) -> Iterator[str]:
    for note in (state_folder / NOTES_FOLDER).glob(f"{path_key(path)}.*{_SUFFIX}"):
        mark = note.name.removesuffix(_SUFFIX).partition(".")[2]
        with contextlib.suppress(ValueError):
            if is_mark_of_living(mark):
                yield mark
                continue
        # Another window may clear it away at the same moment, or the folder may not be ours.
        with contextlib.suppress(OSError):
            note.unlink()
