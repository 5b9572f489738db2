"""When the job will be done: the plan, the pace so far, and two burn-down charts."""

from collections.abc import Callable

from PySide6.QtCore import QTimer
from PySide6.QtGui import QShowEvent
from PySide6.QtWidgets import QHBoxLayout, QLabel, QVBoxLayout, QWidget

from app.aside.aside import Aside
from app.tracking.chart import BurnChart
from app.tracking.outcome import Outcome, outcome
from core.language import marked, tr
from core.setout.result import SetOut
from core.workforce import Day

PAUSE_MS = 300
"""Marks that follow one another are forecast once, when nobody has marked anything for so long."""
KEY = marked("thick: left · dashed: planned · dotted: at the pace so far")


class Outlook(QWidget):
    """Has the forecast worked out when it is on show and the marking has paused."""

    def __init__(self, today: Callable[[], Day]) -> None:
        super().__init__()
        self._today = today
        self._setout: SetOut | None = None
        self.words = QLabel()
        self.words.setWordWrap(True)
        self.charts = BurnChart(), BurnChart()
        key = QLabel(tr(KEY))
        key.setObjectName("quiet")
        key.setWordWrap(True)
        layout = QVBoxLayout(self)
        layout.setContentsMargins(10, 6, 10, 4)
        layout.setSpacing(4)
        layout.addWidget(self.words)
        charts = QHBoxLayout()
        for chart in self.charts:
            charts.addWidget(chart, 1)
        layout.addLayout(charts, 1)
        layout.addWidget(key)
        self._aside = Aside(self)
        self._aside.told.connect(self._show)
        self._aside.failed.connect(self.words.setText)
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
        self._aside.close()

    def work_out(self) -> None:
        """Have the forecast of the latest set-out worked out now, beside the window: it simulates many jobs."""
        self._timer.stop()
        setout = self._setout
        if setout is None or not setout.panels:
            self.words.setText(tr("There is nothing to build."))
            return
        self._aside.ask(outcome, setout, self._today())

    def _show(self, found: Outcome) -> None:
        self.words.setText(found.words)
        for chart, burn in zip(self.charts, found.burns, strict=True):
            chart.show_burn(burn)
