"""Autosaves: what the window writes while a person works, and what it finds again after a crash."""

from dataclasses import dataclass
from pathlib import Path

from core.errors import RoomFileError, SaveError
from core.files import load_room, replace_file, room_text
from core.room import Room

AUTOSAVE_SUFFIX = ".autosave"
UNTITLED = "untitled.room.json"


@dataclass(frozen=True, slots=True)
class Recovery:
    """Work that was autosaved and differs from the file. ``is_newer`` tells that the file has not been written since."""

    room: Room
    autosave: Path
    is_newer: bool


def autosave_path(path: Path | None, state_folder: Path) -> Path:
    """Where a room autosaves: beside its file, or in the user's state folder while it has none."""
    if path is None:
        return state_folder / (UNTITLED + AUTOSAVE_SUFFIX)
    target = path.resolve()
    return target.with_name(target.name + AUTOSAVE_SUFFIX)


def write_autosave(room: Room, path: Path | None, state_folder: Path) -> Path:
    """Autosaves a room, never touching its own file; returns the autosave. Raises SaveError."""
    autosave = autosave_path(path, state_folder)
    try:
        if path is None:
            state_folder.mkdir(parents=True, exist_ok=True)
        replace_file(autosave, room_text(room).encode())
    except OSError as error:
        raise SaveError(f"{autosave}: cannot autosave ({error.strerror}); save the room under another name") from None
    return autosave


def find_recovery(path: Path | None, state_folder: Path) -> Recovery | None:
    """The autosaved room where it differs from the file, or where the file is missing or damaged; otherwise None."""
    autosave = autosave_path(path, state_folder)
    if not autosave.exists():
        return None
    try:
        room = load_room(autosave)
    except RoomFileError:
        # Nothing to offer; it stays where it is for whoever wants to look into it.
        return None
    if path is None or not path.exists():
        return Recovery(room, autosave, is_newer=True)
    try:
        if load_room(path) == room:
            return None
    except RoomFileError:
        return Recovery(room, autosave, is_newer=True)
    return Recovery(room, autosave, is_newer=autosave.stat().st_mtime_ns >= path.stat().st_mtime_ns)


def discard_autosave(path: Path | None, state_folder: Path) -> None:
    """Removes the autosave once its work is saved or turned down; raises SaveError."""
    autosave = autosave_path(path, state_folder)
    try:
        autosave.unlink(missing_ok=True)
    except OSError as error:
        raise SaveError(f"{autosave}: cannot be removed ({error.strerror})") from None
