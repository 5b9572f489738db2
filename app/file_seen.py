"""Whether a file is still as it was when it was last read or written here."""

from pathlib import Path

from core.errors import RoomFileError
from core.files import file_digest, load_room
from core.recovery import real_path
from core.room import Room

NEVER_SEEN = "never seen"


def seen_in(path: Path | None) -> str | None:
    """What tells whether a file still holds what was last read or written."""
    return file_digest(path) if path is not None else None


def seen_holding(path: Path | None, room: Room) -> str | None:
    """What ``seen_in`` tells, of a file read some time ago; what no file holds where it no longer holds that room."""
    seen = seen_in(path)
    try:
        is_as_read = path is None or load_room(path) == room
    except RoomFileError:
        is_as_read = False
    return seen if is_as_read else NEVER_SEEN


def is_same(path: Path, other: Path) -> bool:
    """Whether two ways of writing a path lead to the same file."""
    return real_path(path) == real_path(other)
