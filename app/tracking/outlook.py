"""When the job will be done: the plan, the pace so far, and two burn-down charts."""

from collections.abc import Callable

from PySide6.QtCore import QTimer
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from app.tracking.burn import burns
from app.tracking.chart import BurnChart
from core.crew.forecast import Forecast, burn_down, day_after, forecast
from core.crew.plan import CrewPlan, Finish
from core.room import Room
from core.setout.result import SetOut
from core.sheets.buying_crew import day_words
from core.workforce import Day

PAUSE_MS = 1200
"""The forecast simulates many jobs, which takes part of a second: it waits until nobody has marked anything for so long."""
KEY = "thick: left · dashed: planned · dotted: at the pace so far"


class Outlook(QWidget):
    """Works the forecast out when it is on show and the marking has paused."""

    def __init__(self, today: Callable[[], Day]) -> None:
        super().__init__()
        self._today = today
        self._setout: SetOut | None = None
        self._planned: tuple[SetOut, CrewPlan] | None = None
        self.words = QLabel()
        self.words.setWordWrap(True)
        self.charts = BurnChart(), BurnChart()
        key = QLabel(KEY)
        key.setObjectName("quiet")
        layout = QVBoxLayout(self)
        layout.setContentsMargins(10, 6, 10, 4)
        layout.setSpacing(4)
        layout.addWidget(self.words)
        charts = QHBoxLayout()
        for chart in self.charts:
            charts.addWidget(chart, 1)
        layout.addLayout(charts, 1)
        layout.addWidget(key)
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self.work_out)

    def show_setout(self, setout: SetOut) -> None:
        """Forecast from this set-out, once there is a pause."""
        self._setout = setout
        if self.isVisible():
            self._timer.start(PAUSE_MS)

    def showEvent(self, _event: QShowEvent) -> None:
        if self._setout is not None:
            self._timer.start(0)

    def hideEvent(self, _event: object) -> None:
        self._timer.stop()

    def work_out(self) -> None:
        """Show the forecast of the latest set-out now."""
        self._timer.stop()
        setout = self._setout
        if setout is None or not setout.panels:
            self.words.setText("There is nothing to build.")
            return
        points = burn_down(setout)
        today = max([self._today(), *(day_after(point.on) for point in points[-1:])])
        found = forecast(setout, today, self._known_plan(setout))
        self._planned = (setout, found.planned)
        self.words.setText(outlook_words(setout, found))
        for chart, burn in zip(self.charts, burns(setout, found, self._today()), strict=True):
            chart.show_burn(burn)

    def _known_plan(self, setout: SetOut) -> CrewPlan | None:
        """The plan from scratch, where it was made of the same panels, rates and crew."""
        if self._planned is None:
            return None
        was, plan = self._planned
        same = was.panels == setout.panels and _planned_by(was.room) == _planned_by(setout.room)
        return plan if same else None


def _planned_by(room: Room) -> tuple[object, ...]:
    return room.crew, room.rates, room.kit


def outlook_words(setout: SetOut, found: Forecast) -> str:
    """The forecast in a few sentences."""
    hours = found.left.minutes * found.pace / 60
    said = [f"{hours:.1f} crew hours of work left at the rates."]
    if not setout.room.crew.people:
        return " ".join([*said, "Nobody is in the crew yet, so there is no plan to compare with."])
    if found.planned.finish is None or found.left.finish is None:
        return " ".join([*said, f"{found.left.undone} panels have nobody to build or hang them."])
    said.append(f"Planned end: {_when(found.planned.finish)}.")
    pace = f"{found.pace * 100:.0f} % of the rates" if found.pace != 1.0 else "the rates"
    said.append(f"At {pace}: {_when(found.left.finish)}")
    if found.left.range is not None:
        early, late = found.left.range.early, found.left.range.late
        said[-1] += f" (8 of 10 cases: {_when(early)} to {_when(late)})"
    said[-1] += f", {_late_words(found.days_late)}." if found.days_late is not None else "."
    return " ".join(said)


def _when(finish: Finish) -> str:
    return f"{day_words(finish.on)} {finish.on[:4]}" if finish.on else f"day {finish.day}"


def _late_words(days: int) -> str:
    if days == 0:
        return "as planned"
    size = f"{abs(days)} working day{'s' if abs(days) != 1 else ''}"
    return f"{size} behind the plan" if days > 0 else f"{size} ahead of the plan"
