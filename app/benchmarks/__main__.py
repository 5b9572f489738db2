"""``python -m app.benchmarks``: measures, prints one table, and writes it as Markdown where asked to."""

import argparse
import sys
from pathlib import Path

from app.benchmarks import children
from app.benchmarks.gestures import DRAGS
from app.benchmarks.hand import MeasureError
from app.benchmarks.measures import MEASURES, QUICK_STEPS, Effort
from app.benchmarks.report import COMMAND, Row, machine, markdown, table_text


def main() -> int:
    """Measure what the options ask for; 1 where something could not be measured. Going over a budget is no failure."""
    options = _options()
    effort = Effort(options.quick, options.rounds)
    if options.profile:
        return _profile(options.profile, effort)
    facts = machine()
    rows: list[Row] = []
    try:
        for name, measure in MEASURES.items():
            if options.only in (None, name):
                rows += measure(effort)
    except MeasureError as error:
        print(error, file=sys.stderr)
        return 1
    notes = _notes(effort)
    print(facts, *(f"* {note}" for note in notes), "", table_text(rows), sep="\n")
    if options.write is not None:
        options.write.write_text(markdown(rows, notes, facts), encoding="utf-8")
    return 0


def _options() -> argparse.Namespace:
    parser = argparse.ArgumentParser(prog=COMMAND, description=__doc__, allow_abbrev=False)
    parser.add_argument("--only", choices=MEASURES, metavar="NAME", help=f"measure only one of {', '.join(MEASURES)}")
    parser.add_argument("--quick", action="store_true", help="few steps and single runs, to see that everything runs")
    often = "make each drag so often; a step takes the median of its times"
    parser.add_argument("--rounds", type=int, choices=range(1, 10), default=3, help=often)
    parser.add_argument("--write", type=Path, metavar="FILE", help="write the table as Markdown, too")
    drags = "; ".join(f"{room}: {', '.join(names)}" for room, names in DRAGS.items())
    parser.add_argument("--profile", nargs=2, metavar=("ROOM", "DRAG"), help=f"show where a drag's time goes ({drags})")
    return parser.parse_args()


def _profile(which: list[str], effort: Effort) -> int:
    room, drag = which
    if drag not in DRAGS.get(room, {}):
        print(f"there is no drag {room} {drag}; see {COMMAND} --help", file=sys.stderr)
        return 2
    print(children.run("app.benchmarks.drag", [room, drag, "--profile", *effort.step_options]))
    return 0


def _notes(effort: Effort) -> list[str]:
    """What a reader must know to judge the figures."""
    notes = [
        "Drag steps: real mouse events through the shown window, each timed until set-out, views and screen have followed and no "
        "event is left. Measured is the 95th percentile. Besides, in ms: half of the steps take no longer than “half”; pairs are "
        "50th and 95th percentiles, of the set-out alone and of the same drag back over places now known.",
        "Each drag has a process of its own and meets every place for the first time; the only warm-up is opening the room, "
        "working it out in full, one paint and the press. Steps that leave the room as it was (held by snapping or by another "
        "opening) are left out.",
        f"Runs of each drag: {effort.drag_runs}, round after round of all drags. A step takes the median of its times in them, "
        "so that what else the machine does for a while counts for little.",
        "Whole processes: one run to compile modules, as an installed program has them, and to warm the file cache; then the "
        "median of the rest, start of Python included.",
        "Work without a window: processor seconds in a process that has nothing kept, the median of its runs.",
        "Memory: the largest resident size so far; 1 MB is 1,000,000 bytes.",
    ]
    if effort.quick:
        notes.append(f"Quick: one drag of {QUICK_STEPS} steps per room and single runs, which say nothing about the budgets.")
    return notes


if __name__ == "__main__":
    sys.exit(main())
