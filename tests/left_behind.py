"""Autosaves as a process that no longer lives leaves them behind."""

from pathlib import Path

from core.recovery import autosave_path, write_autosave
from core.room import Room

ENDED = "0-1"
"""The mark of no process: numbers begin at 1."""


def leave_behind(room: Room, path: Path | None, state_folder: Path, mark: str = ENDED) -> Path:
    """The room autosaved under another process's mark; returns the autosave."""
    written = write_autosave(room, path, state_folder)
    own = autosave_path(path, state_folder)
    stem = own.name.removesuffix(".autosave").rpartition(".")[0]
    return written.rename(own.with_name(f"{stem}.{mark}.autosave"))
