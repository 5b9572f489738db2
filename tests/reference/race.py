"""``python -m tests.reference.race``: how long the solver takes against the integer program, over the rooms both close.

Processor seconds of this one process; both begin with nothing kept of the room. No test: time is measured, never asserted.
"""

import sys
import time

from core.setout import solve
from core.setout.workshop import workshop_for
from tests.core.test_whole_optimum import CLOSING, REFERENCE_SECONDS, small_room
from tests.reference.whole import WholeModel

ROOMS = CLOSING[::4]


def main() -> None:
    """Both times, their ratio, and in how many of the rooms the totals are equal."""
    ours = theirs = 0.0
    equal = 0
    for seed in ROOMS:
        workshop_for.cache_clear()
        began = time.process_time()
        setout = solve(small_room(seed))
        ours += time.process_time() - began
        began = time.process_time()
        proven = WholeModel.of(setout).solve(REFERENCE_SECONDS)
        theirs += time.process_time() - began
        equal += abs(setout.minutes.total - float(proven.found)) < 1e-6
    told = f"{len(ROOMS)} rooms, equal in {equal}: solver {ours:.1f} s, integer program {theirs:.1f} s, {theirs / ours:.1f} to 1"
    sys.stdout.write(f"{told}\n")


if __name__ == "__main__":
    main()
