"""Measures memory in a process of its own: peak resident size with the demo room open, then after drag steps.

``python -m app.benchmarks.memory STEPS``, figures as JSON on standard output.
"""

import json
import sys
import tempfile
from pathlib import Path

from PySide6.QtWidgets import QApplication

from app.benchmarks.gestures import DEMO_DRAGS, room_to_measure
from app.benchmarks.hand import MeasuredDrag, MeasureError
from app.document import Document
from app.main import dress
from app.window import Window

STATUS = Path("/proc/self/status")


def peak_bytes() -> int:
    """The most memory this process has had resident so far. Raises MeasureError where the system does not tell."""
    if not STATUS.exists():
        raise MeasureError("peak memory is read from /proc, which only Linux has")
    line = next(line for line in STATUS.read_text().splitlines() if line.startswith("VmHWM:"))
    return int(line.split()[1]) * 1024


def main() -> int:
    """Open the room, drag one opening after another; print both peaks as JSON."""
    wanted = int(sys.argv[1])
    with tempfile.TemporaryDirectory() as folder:
        application = QApplication(sys.argv[:1])
        dress(application)
        document = Document(room_to_measure("demo"))
        window = Window(document, Path(folder))
        window.show()
        MeasuredDrag(window, DEMO_DRAGS["pitch"]).settle()
        opened = peak_bytes()
        steps = 0
        for drag in DEMO_DRAGS.values():
            measured = MeasuredDrag(window, drag)
            measured.press()
            steps += len(measured.out(wanted - steps))
            measured.release()
            document.undo_stack.undo()
            window.elevation.fit()
            if steps == wanted:
                break
        else:
            raise MeasureError(f"the drags gave {steps} steps; {wanted} are wanted")
        print(json.dumps({"open": opened, "dragged": peak_bytes(), "steps": steps}))
        document.undo_stack.setClean()
        window.close()
    return 0


if __name__ == "__main__":
    sys.exit(main())
