"""Measures memory in a process of its own: peak resident size with the demo room open, then after drag steps.

``python -m app.benchmarks.memory STEPS ...``, figures as JSON on standard output.
"""

import json
import sys
import tempfile
from itertools import cycle
from pathlib import Path

from PySide6.QtWidgets import QApplication

from app.benchmarks.gestures import DEMO_DRAGS, Drag, room_to_measure
from app.benchmarks.hand import MeasuredDrag, MeasureError
from app.collector import calm_collector
from app.document import Document
from app.main import dress
from app.window import USUAL_SIZE, Window

STATUS = Path("/proc/self/status")


def peak_bytes() -> int:
    """The most memory this process has had resident so far. Raises MeasureError where the system does not tell."""
    if not STATUS.exists():
        raise MeasureError("peak memory is read from /proc, which only Linux has")
    line = next(line for line in STATUS.read_text().splitlines() if line.startswith("VmHWM:"))
    return int(line.split()[1]) * 1024


def main() -> int:
    """Open the room and drag one opening after another; the peaks when it is open and after each number of steps, as JSON."""
    marks = [int(argument) for argument in sys.argv[1:]]
    with tempfile.TemporaryDirectory() as folder:
        application = QApplication(sys.argv[:1])
        dress(application)
        document = Document(room_to_measure("demo"))
        window = Window(document, Path(folder))
        window.resize(USUAL_SIZE)
        window.show()
        calm_collector(document)
        drags = cycle(DEMO_DRAGS.values())
        MeasuredDrag(window, DEMO_DRAGS["pitch"]).settle()
        peaks = [peak_bytes()]
        steps = 0
        for mark in marks:
            while steps < mark:
                steps += _drag(window, next(drags), mark - steps)
            peaks.append(peak_bytes())
        print(json.dumps(peaks))
        document.undo_stack.setClean()
        window.close()
    return 0


def _drag(window: Window, drag: Drag, most_steps: int) -> int:
    """Drag an opening and undo it; how many steps changed the room."""
    measured = MeasuredDrag(window, drag)
    measured.press()
    steps = len(measured.out(most_steps))
    measured.release()
    if not steps:
        raise MeasureError(f"the drag {drag.title} changed nothing")
    window.document.undo_stack.undo()
    window.elevation.fit()
    return steps


if __name__ == "__main__":
    sys.exit(main())
