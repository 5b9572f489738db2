"""Reads damaged room files: each is a room, or refused in one line."""

import random
import subprocess
import sys
import tempfile
import traceback
from collections import Counter
from pathlib import Path
from typing import Any

from app.endurance.mutations import mutated
from app.endurance.outcome import Outcome
from app.endurance.rich_room import rich_room
from core.errors import CoursewrightError
from core.files import parse_room, room_document, room_text
from core.room import Room

LONGEST_LINE = 500
LONGEST_S = 120
MOST_BYTES = 4_000_000_000
SHOWN_FAULTS = 10
LIMITED = (
    "import resource, sys; most = int(sys.argv[1]); resource.setrlimit(resource.RLIMIT_AS, (most, most));"
    "from app.cli import main; sys.exit(main(sys.argv[2:]))"
)
"""The command line as a program that gets no more memory than it is told."""


def try_damaged_files(files: int, seed: int) -> Outcome:
    """Read so many damaged files."""
    pick, faults, valid = random.Random(seed), list[str](), 0
    kinds: Counter[str] = Counter()
    for number in range(files):
        data = mutated(_document(pick), pick)
        kinds.update(_section(data))
        try:
            room = parse_room(data)
            valid += 1
            fault = None if parse_room(room_text(room).encode()) == room else "does not read back equal"
        except CoursewrightError as error:
            fault = _fault_of_message(str(error))
        except Exception:
            fault = traceback.format_exc(limit=-1).replace("\n", " | ")
        if fault is not None:
            faults.append(f"file {number}: {fault}")
    besides = (
        f"{valid} were still rooms, {files - valid} refused in one line; {len(kinds)} of {len(Room.model_fields)} sections met"
    )
    return Outcome("damaged room files read", files, tuple(faults[:SHOWN_FAULTS]), besides)


def _document(pick: random.Random) -> dict[str, Any]:
    """A sound room as the program writes it, or with every default spelled out, kit and parts included."""
    room = rich_room()
    return room_document(room) if pick.random() < 0.5 else room.model_dump(mode="json")


def _section(data: bytes) -> list[str]:
    return [name for name in Room.model_fields if f'"{name}":'.encode() in data]


def _fault_of_message(message: str) -> str | None:
    if not message.isprintable():
        return f"the message is not one printable line: {message!r}"
    if len(message) > LONGEST_LINE:
        return f"the message has {len(message)} signs: {message[:80]} ..."
    return None


def try_setout_of_damaged(files: int, seed: int) -> Outcome:
    """Run ``coursewright setout`` on so many files, half of them still rooms, each in a process of its own."""
    pick, faults = random.Random(seed), list[str]()
    statuses: Counter[int] = Counter()
    with tempfile.TemporaryDirectory() as folder:
        path = Path(folder) / "damaged.room.json"
        for number in range(files):
            data = _still_valid(pick) if number % 2 else mutated(_document(pick), pick)
            path.write_bytes(data)
            try:
                run = _run("setout", str(path))
            except subprocess.TimeoutExpired:
                faults.append(f"file {number}: no end after {LONGEST_S} s; {_differences(data)}")
                continue
            statuses[run.returncode] += 1
            lines = run.stderr.strip().splitlines()
            if run.returncode not in (0, 2) or len(lines) != (run.returncode == 2):
                faults.append(f"file {number}: status {run.returncode}, said {' | '.join(lines)[-300:]!r}; {_differences(data)}")
    besides = f"status 0: {statuses[0]}, status 2 with one line: {statuses[2]}"
    return Outcome("coursewright setout on damaged files", files, tuple(faults[:SHOWN_FAULTS]), besides)


def _still_valid(pick: random.Random) -> bytes:
    """A damaged file that is a room all the same, and not the room it was."""
    while True:
        data = mutated(_document(pick), pick)
        try:
            if parse_room(data) != rich_room():
                return data
        except CoursewrightError:
            continue


def _differences(data: bytes) -> str:
    """Where a damaged file that is a room differs from the sound one."""
    try:
        room = parse_room(data)
    except CoursewrightError as error:
        return str(error)
    sound = rich_room()
    changed = {name for name in Room.model_fields if getattr(room, name) != getattr(sound, name)}
    return "; ".join(f"{name}: {getattr(room, name)!r:.200}" for name in sorted(changed))


def _run(*arguments: str) -> subprocess.CompletedProcess[str]:
    return subprocess.run(
        [sys.executable, "-W", "ignore", "-c", LIMITED, str(MOST_BYTES), *arguments],
        capture_output=True,
        text=True,
        timeout=LONGEST_S,
        check=False,
    )
