"""Measures work without a window: ``python -m app.benchmarks.work WHAT ROOM`` prints processor seconds and what was made.

A process of its own starts with nothing kept. What the work begins from (a set-out for bonds, bonds for a take-off) does not
count.
"""

import sys
import time
from collections.abc import Callable, Mapping
from types import MappingProxyType

from app.benchmarks.gestures import room_to_measure
from core.room import Room
from core.setout import sketch, solve
from core.whole_job import WholeJob

Timed = tuple[float, str]
"""Processor seconds, and what was made in words."""


def _set_out(room: Room) -> Timed:
    began = time.process_time()
    setout = solve(room)
    return time.process_time() - began, f"{setout.tally.panels} panels, within {100 * setout.minutes.excess:.1f} % of the bound"


def _bonds(room: Room) -> Timed:
    job = WholeJob(sketch(room))
    began = time.process_time()
    bonds = job.bonds
    return time.process_time() - began, f"{len(bonds)} designs"


def _take_off(room: Room) -> Timed:
    job = WholeJob(sketch(room))
    begins_from = job.parts, job.frame, job.finishes
    began = time.process_time()
    takeoff = job.takeoff
    return time.process_time() - began, f"{len(takeoff.room)} materials, {len(begins_from[0])} designs"


WORK: Mapping[str, Callable[[Room], Timed]] = MappingProxyType({"set-out": _set_out, "bonds": _bonds, "take-off": _take_off})


def main() -> int:
    """One figure in this process."""
    what, room = sys.argv[1:]
    seconds, made = WORK[what](room_to_measure(room))
    print(seconds, made)
    return 0


if __name__ == "__main__":
    sys.exit(main())
