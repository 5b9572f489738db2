"""Autosaves: what the window writes while a person works, and what is found again after a crash.

Every process has autosaves of its own, told apart by its mark in their names, so that windows on the same room never take or
remove each other's work. What a process that no longer lives left behind is offered to the next one. They stand beside the
room's file; where that folder takes nothing, because it is read-only, full or gone, they stand in the user's state folder.
"""

import contextlib
import hashlib
import os
import re
from collections.abc import Iterator
from dataclasses import dataclass
from pathlib import Path

from core.errors import RoomFileError, SaveError
from core.files import load_room, replace_file, room_text
from core.language import tr
from core.room import Room
from core.system_words import system_words

AUTOSAVE_SUFFIX = ".autosave"
UNTITLED = "untitled.room.json"
MOST_NAME_SIGNS = 40
"""Of a file's name in that of an autosave elsewhere: file systems take names of up to 255 bytes, and a sign has up to 4."""

_MARK = re.compile(r"\.([0-9]+-[0-9]+)\.autosave")


@dataclass(frozen=True, slots=True)
class Recovery:
    """Work that was left behind and differs from the file. ``is_newer`` tells that the file has not been written since."""

    room: Room
    autosave: Path
    is_newer: bool


def autosave_path(path: Path | None, state_folder: Path) -> Path:
    """Where this process autosaves a room: beside its file, or in the user's state folder while it has none."""
    return _own_autosaves(path, state_folder)[0]


def write_autosave(room: Room, path: Path | None, state_folder: Path) -> Path:
    """Autosaves a room, never touching its own file; returns the autosave. Raises SaveError where no folder takes it."""
    data = room_text(room).encode()
    faults = []
    places = _own_autosaves(path, state_folder)
    for autosave in places:
        try:
            if autosave.parent == state_folder:
                state_folder.mkdir(parents=True, exist_ok=True)
            replace_file(autosave, data)
        except OSError as error:
            faults.append(tr("{autosave}: cannot autosave ({why})", autosave=autosave, why=system_words(error)))
            continue
        for older in places:
            if older != autosave:
                # What stays is only older work, which is offered after this.
                with contextlib.suppress(OSError):
                    older.unlink(missing_ok=True)
        return autosave
    raise SaveError(tr("{faults}; save the room under another name", faults="; ".join(faults)))


def find_recovery(path: Path | None, state_folder: Path) -> Recovery | None:
    """The latest work left behind that differs from the file, or whose file is missing or damaged; otherwise None.

    Autosaves of living processes are theirs. Damaged ones are not offered; they stay for whoever wants to look into them.
    """
    saved, saved_ns = _saved(path)
    for written_ns, autosave in sorted(_left_behind(path, state_folder), reverse=True):
        try:
            room = load_room(autosave)
        except RoomFileError:
            continue
        if room != saved:
            return Recovery(room, autosave, is_newer=saved is None or written_ns >= saved_ns)
    return None


def discard_autosave(path: Path | None, state_folder: Path) -> None:
    """Removes this process's autosaves once their work is saved or given up; raises SaveError."""
    # The best place last: it is the one that may be read-only, full or gone.
    for autosave in reversed(_own_autosaves(path, state_folder)):
        _remove(autosave)


def discard_recovery(found: Recovery) -> None:
    """Removes work left behind once it is taken up or turned down; raises SaveError."""
    _remove(found.autosave)


def _remove(autosave: Path) -> None:
    try:
        autosave.unlink(missing_ok=True)
    except OSError as error:
        # A read-only folder refuses even where there is nothing to remove.
        if autosave.exists():
            raise SaveError(tr("{autosave}: cannot be removed ({why})", autosave=autosave, why=system_words(error))) from None


def _own_autosaves(path: Path | None, state_folder: Path) -> tuple[Path, ...]:
    mark = process_mark(os.getpid())
    return tuple(folder / f"{name}.{mark}{AUTOSAVE_SUFFIX}" for folder, name in _places(path, state_folder))


def _places(path: Path | None, state_folder: Path) -> tuple[tuple[Path, str], ...]:
    """Folders of a room's autosaves, best first, and how their names begin there."""
    if path is None:
        return ((state_folder, UNTITLED),)
    target = real_path(path)
    return (target.parent, target.name), (state_folder, f"{target.name[:MOST_NAME_SIGNS]}.{path_key(target)}")


def real_path(path: Path) -> Path:
    """Where links lead; the path as it stands where they go in a circle or it is no path at all."""
    try:
        return path.resolve()
    except (OSError, RuntimeError, ValueError):
        return path.absolute()


def path_key(path: Path) -> str:
    """A short name for a file's place, as good as its whole path."""
    return hashlib.sha256(os.fsencode(real_path(path))).hexdigest()[:16]


def _saved(path: Path | None) -> tuple[Room | None, int]:
    """The room in the file and when it was written; None where there is no sound file."""
    try:
        return (load_room(path), path.stat().st_mtime_ns) if path is not None else (None, 0)
    except (RoomFileError, OSError):
        return None, 0


def _left_behind(path: Path | None, state_folder: Path) -> Iterator[tuple[int, Path]]:
    """When each autosave of a process that no longer lives was written, and where it is."""
    for folder, name in _places(path, state_folder):
        # The folder may be gone or closed to us, and another window may take a file up between two steps.
        with contextlib.suppress(OSError):
            for autosave in folder.iterdir():
                mark = _MARK.fullmatch(autosave.name.removeprefix(name)) if autosave.name.startswith(name) else None
                if mark is not None and not is_mark_of_living(mark[1]):
                    with contextlib.suppress(OSError):
                        yield autosave.stat().st_mtime_ns, autosave


def is_mark_of_living(mark: str) -> bool:
    """Whether the process with that mark still lives."""
    return process_mark(int(mark.partition("-")[0])) == mark


def process_mark(process: int) -> str:
    """A living process's number and when it began, which no later process shares; "" where it does not live.

    The beginning is in clock ticks since the machine started (Linux, proc_pid_stat(5), field 22; field 3 tells whether the
    process has ended and only waits to be noticed); 0 where none is told.
    """
    try:
        fields = Path(f"/proc/{process}/stat").read_text(errors="replace").rpartition(")")[2].split()
        has_ended = fields[0] in "ZX"
        return "" if has_ended else f"{process}-{fields[19]}"
    except OSError:
        return f"{process}-0" if not Path("/proc/self/stat").exists() and _lives(process) else ""


def _lives(process: int) -> bool:
    """Whether there is such a process, asked where there is no list of them to read."""
    try:
        os.kill(process, 0)
    except (ProcessLookupError, OverflowError):
        return False
    except PermissionError:
        return True
    return process > 0
