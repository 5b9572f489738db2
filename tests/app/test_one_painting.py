"""A step of a drag has the window painted once: whoever asks for a new layout has it painted a second time."""

import pytest
from PySide6.QtCore import QEvent, QObject

from app.benchmarks.gestures import DRAGS
from app.benchmarks.hand import MeasuredDrag
from app.window import Window
from tests.app.view_menu import entry


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


@pytest.mark.usefixtures("usual_look_afterwards")
@pytest.mark.parametrize("scheme", ["Light", "Dark"])
def test_nothing_below_a_figure_is_painted_when_the_figure_changes(window: Window, scheme: str) -> None:
    entry(window, "Light or dark", scheme)
    drag = MeasuredDrag(window, DRAGS["demo"]["pitch"])
    drag.press()
    drag.out(3)
    below = [Counter(there, QEvent.Type.Paint) for there in (window, window.board, window.inspector)]
    fields = [Counter(there, QEvent.Type.Paint) for there in (window.inspector.opening.left.line, window.elevation)]
    drag.out(8)
    assert [counter.count for counter in below] == [0, 0, 0]
    assert min(counter.count for counter in fields) >= 5
    drag.release()
