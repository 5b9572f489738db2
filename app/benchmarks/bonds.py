"""``python -m app.benchmarks.bonds``: how long all designs of the demo room and of the hall take to bond, with nothing kept."""

import subprocess
import sys
import time
from collections.abc import Callable, Mapping

from app.assets import asset
from app.benchmarks.hall import hall
from app.benchmarks.report import Row, machine, table_text
from core.bond import bonds_for
from core.files import load_room
from core.room import Room
from core.setout import solve

RUNS = 5
BUDGETS_S = {"demo": 0.5, "hall": 5.0}
ROOMS: Mapping[str, Callable[[], Room]] = {"demo": lambda: load_room(asset("demo.room.json")), "hall": hall}


def main() -> int:
    """Print the table; with a room's name, one measurement in this process."""
    if len(sys.argv) > 1:
        print(*_measured(sys.argv[1]))
        return 0
    rows = []
    for name, budget in BUDGETS_S.items():
        figures = [_in_a_new_process(name) for _ in range(RUNS)]
        took = sorted(seconds for seconds, _ in figures)
        besides = f"{figures[0][1]} designs; {took[0]:.2f} to {took[-1]:.2f} s in {RUNS} processes"
        rows.append(Row(f"{name}: bond every design, processor time", "s", took[RUNS // 2], budget, besides))
    print(machine(), "", table_text(rows), sep="\n")
    return 0


def _in_a_new_process(room: str) -> tuple[float, int]:
    done = subprocess.run(
        [sys.executable, "-m", "app.benchmarks.bonds", room], capture_output=True, text=True, check=True, timeout=300
    )
    seconds, designs = done.stdout.split()
    return float(seconds), int(designs)


def _measured(room: str) -> tuple[float, int]:
    """Processor seconds to bond a room's designs for the first time, and how many there are."""
    setout = solve(ROOMS[room]())
    began = time.process_time()
    bonds = bonds_for(setout)
    return time.process_time() - began, len(bonds)


if __name__ == "__main__":
    sys.exit(main())
