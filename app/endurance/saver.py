"""A process that saves one version of a room after another, until it is killed.

``python -m app.endurance.saver FOLDER FIRST``: saves and autosaves alternate, each of a version one higher. Every finished one
is told on standard output as soon as it is done: ``s`` or ``a`` and its number.
"""

import os
import sys
from pathlib import Path

from core.files import load_room, save_room
from core.recovery import write_autosave
from core.room import Room

FILE = "den.room.json"
STATE = "state"


def version(room: Room, number: int) -> Room:
    """The room as its version of that number."""
    return room.model_copy(update={"name": f"version {number}"})


def version_number(room: Room) -> int:
    """Which version a room is; raises ValueError where it is none."""
    return int(room.name.removeprefix("version "))


def save_on(folder: Path, first: int) -> None:
    """Saves and autosaves without end."""
    path, state = folder / FILE, folder / STATE
    room = load_room(path)
    number = first
    while True:
        save_room(version(room, number), path)
        _tell("s", number)
        write_autosave(version(room, number + 1), path, state)
        _tell("a", number + 1)
        number += 2


def _tell(what: str, number: int) -> None:
    # Past all buffers, or a kill would lose what was done.
    os.write(sys.stdout.fileno(), f"{what} {number}\n".encode())


if __name__ == "__main__":
    save_on(Path(sys.argv[1]), int(sys.argv[2]))
