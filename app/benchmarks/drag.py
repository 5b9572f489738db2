"""Measures one drag in a process of its own: ``python -m app.benchmarks.drag ROOM DRAG``, figures as JSON on standard output.

A process of its own starts with nothing kept but the room as it opens, so every place on the way out is new to it.
"""

import argparse
import cProfile
import json
import pstats
import sys
import tempfile
from pathlib import Path
from time import perf_counter

from PySide6.QtWidgets import QApplication

from app.benchmarks.gestures import DRAGS, room_to_measure
from app.benchmarks.hand import MeasuredDrag
from app.collector import calm_collector
from app.document import Document
from app.main import dress
from app.window import USUAL_SIZE, Window

TOP = 25


def main() -> int:
    """Run the drag; print its figures, or with ``--profile`` where the time of the way out goes."""
    parser = argparse.ArgumentParser(prog="app.benchmarks.drag", description=__doc__)
    parser.add_argument("room", choices=DRAGS)
    parser.add_argument("drag")
    parser.add_argument("--steps", type=int, default=None)
    parser.add_argument("--profile", action="store_true")
    options = parser.parse_args()
    with tempfile.TemporaryDirectory() as folder:
        application = QApplication(sys.argv[:1])
        dress(application)
        begin = perf_counter()
        document = Document(room_to_measure(options.room))
        cold_solve_ms = 1000 * (perf_counter() - begin)
        window = Window(document, Path(folder))
        window.resize(USUAL_SIZE)
        window.show()
        calm_collector(document)
        measured = MeasuredDrag(window, DRAGS[options.room][options.drag])
        measured.press()
        if options.profile:
            _profile(measured, options.steps)
        else:
            out = measured.out(options.steps)
            size = window.elevation.size()
            print(
                json.dumps(
                    {
                        "platform": application.platformName(),
                        "view_px": [size.width(), size.height()],
                        "panels": document.setout.tally.panels,
                        "walls": document.room.wall_count,
                        "cold_solve_ms": cold_solve_ms,
                        "out_ms": [step.all_ms for step in out],
                        "out_setout_ms": [step.setout_ms for step in out],
                        "back_ms": [step.all_ms for step in measured.back()],
                    }
                )
            )
        # Nothing is worth keeping here, and closing the window would ask about unsaved changes.
        measured.release()
        document.undo_stack.setClean()
        window.close()
    return 0


def _profile(measured: MeasuredDrag, steps: int | None) -> None:
    profile = cProfile.Profile()
    took = profile.runcall(measured.out, steps)
    print(f"{len(took)} steps, {sum(step.all_ms for step in took):.0f} ms under the profiler, which slows Python down")
    table = pstats.Stats(profile).strip_dirs()
    table.sort_stats("tottime").print_stats(TOP)
    table.sort_stats("cumulative").print_stats(TOP)


if __name__ == "__main__":
    sys.exit(main())
