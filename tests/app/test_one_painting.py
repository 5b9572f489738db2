"""A step of a drag has the window painted once: whoever asks for a new layout has it painted a second time."""

import pytest
from PySide6.QtCore import QEvent, QObject

from app.benchmarks.gestures import DRAGS
from app.benchmarks.hand import MeasuredDrag
from app.window import USUAL_SIZE, Window


class Counter(QObject):
    """Counts events of one type that reach an object."""

    def __init__(self, watched: QObject, kind: QEvent.Type) -> None:
        super().__init__(watched)
        self.count, self._kind = 0, kind
        watched.installEventFilter(self)

    def eventFilter(self, _watched: QObject, event: QEvent) -> bool:
        self.count += event.type() == self._kind
        return False


@pytest.mark.parametrize(("name", "steps"), [("corner", 60), ("slant", 30)])
def test_a_step_that_changes_figures_checks_and_panels_paints_the_window_once(window: Window, name: str, steps: int) -> None:
    window.resize(USUAL_SIZE)
    drag = MeasuredDrag(window, DRAGS["demo"][name])
    drag.press()
    listed: list[int] = []
    window.checks.model.modelReset.connect(lambda: listed.append(window.checks.model.rowCount()))
    moves, paintings = Counter(window.elevation, QEvent.Type.MouseMove), Counter(window, QEvent.Type.UpdateRequest)
    assert len(drag.out(steps)) == steps
    moved, painted = moves.count, paintings.count
    drag.release()
    assert len(set(listed)) > 1
    assert steps <= painted <= moved
