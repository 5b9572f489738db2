"""Kills a process that saves at random moments; whatever it said was done must be there, and every file whole."""

import random
import subprocess
import sys
import tempfile
import time
from dataclasses import dataclass, field
from pathlib import Path

from app.endurance.outcome import Outcome
from app.endurance.rich_room import rich_room
from app.endurance.saver import FILE, STATE, version, version_number
from core.errors import CoursewrightError
from core.files import BACKUP_SUFFIX, load_room, save_room
from core.recovery import discard_recovery, find_recovery

LONGEST_WAIT_S = 0.06
"""Some dozen saves; kills fall anywhere among them."""


class LostError(Exception):
    """A version that was saved is not there."""


@dataclass(slots=True)
class _Tale:
    """What a killed process had said it did last: the versions in the file and in the autosave."""

    saved: int
    autosaved: int | None = None


@dataclass(slots=True)
class _Count:
    faults: list[str] = field(default_factory=list)
    saves: int = 0
    in_between: int = 0
    """Kills that fell after a step was done and before it could be told, or that left a part file."""


def try_kills(kills: int, seed: int) -> Outcome:
    """Kill the saving process so often, and look at all its files after each."""
    pick, count = random.Random(seed), _Count()
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        save_room(version(rich_room(), 0), folder / FILE)
        save_room(version(rich_room(), 1), folder / FILE)
        last = 1
        for kill in range(kills):
            try:
                tale, done = _saved_until_killed(folder, last, pick.uniform(0, LONGEST_WAIT_S))
                count.saves += done
                last = _look(folder, tale, count)
            except (CoursewrightError, ValueError, LostError) as error:
                count.faults.append(f"kill {kill}: {error}")
                break
            _clear_parts(folder, count)
    return Outcome(
        "kill -9 while saving and autosaving",
        kills,
        tuple(count.faults),
        f"{count.saves:,} saves and autosaves; {count.in_between} kills fell amid one",
    )


def _saved_until_killed(folder: Path, last: int, wait_s: float) -> tuple[_Tale, int]:
    """Run the saver until so long after its first save; what it told."""
    command = [sys.executable, "-m", "app.endurance.saver", str(folder), str(last + 1)]
    saver = subprocess.Popen(command, stdout=subprocess.PIPE)
    told = [saver.stdout.readline()] if saver.stdout else []
    time.sleep(wait_s)
    saver.kill()
    rest, _ = saver.communicate()
    told += rest.splitlines()
    tale = _Tale(last)
    for line in told:
        what, number = line.split()
        if what == b"s":
            tale.saved = int(number)
        else:
            tale.autosaved = int(number)
    return tale, len(told)


def _look(folder: Path, tale: _Tale, count: _Count) -> int:
    """Raises where something is lost or not whole; the highest version there is."""
    path = folder / FILE
    saved = version_number(load_room(path))
    backup = version_number(load_room(path.with_name(FILE + BACKUP_SUFFIX)))
    # A save may be done and not told yet; versions in the file go up by two.
    _must(saved in (tale.saved, tale.saved + 2), f"the file holds version {saved}, told was {tale.saved}")
    _must(backup <= saved, f"the backup holds version {backup}, newer than the file's {saved}")
    newest = saved
    found = find_recovery(path, folder / STATE)
    if tale.autosaved is not None:
        kept = version_number(found.room) if found else None
        _must(kept in (tale.autosaved, tale.autosaved + 2), f"the autosave holds version {kept}, told was {tale.autosaved}")
        count.in_between += kept != tale.autosaved
    count.in_between += saved != tale.saved
    while (found := find_recovery(path, folder / STATE)) is not None:
        newest = max(newest, version_number(found.room))
        discard_recovery(found)
    return newest


def _must(claim: bool, otherwise: str) -> None:
    if not claim:
        raise LostError(otherwise)


def _clear_parts(folder: Path, count: _Count) -> None:
    """A half-written file of a killed save has a name of its own; the program takes it away after an hour, this at once."""
    parts = [entry for entry in folder.iterdir() if entry.name.endswith(".part")]
    count.in_between += bool(parts)
    for part in parts:
        part.unlink()
