"""Readings of the stopwatch: from then on the crew's own rates count."""

from typing import cast

from PySide6.QtCore import QElapsedTimer, QTimer
from PySide6.QtWidgets import (
    QComboBox,
    QDoubleSpinBox,
    QFormLayout,
    QHBoxLayout,
    QLabel,
    QListWidget,
    QPushButton,
    QSpinBox,
    QVBoxLayout,
    QWidget,
)

from app.tracking.marking import Marking
from app.tracking.picks import Picks
from core.language import marked, tr
from core.setout.result import SetOut
from core.workforce import Timing, Work

WORKS: tuple[tuple[Work, str], ...] = (
    ("build", marked("building")),
    ("handling", marked("fetching, hanging, screwing")),
    ("setup", marked("setting a new design up")),
)
TICK_MS = 1000


class Stopwatch(QWidget):
    """A watch to start and stop, the reading to note, and those noted so far."""

    def __init__(self, marking: Marking, picks: Picks) -> None:
        super().__init__()
        self._marking, self._picks = marking, picks
        self._setout: SetOut | None = None
        self._watch = QElapsedTimer()
        self._tick = QTimer(self)
        self._tick.setInterval(TICK_MS)
        self._tick.timeout.connect(self._show_running)
        self.design, self.work = QComboBox(), QComboBox()
        for box in (self.design, self.work):
            box.setSizeAdjustPolicy(QComboBox.SizeAdjustPolicy.AdjustToMinimumContentsLengthWithIcon)
            box.setMinimumContentsLength(10)
        for value, words in WORKS:
            self.work.addItem(tr(words), value)
        self.minutes = QDoubleSpinBox()
        self.minutes.setRange(0.0, 100_000.0)
        self.minutes.setDecimals(1)
        self.panels, self.before = QSpinBox(), QSpinBox()
        self.panels.setRange(1, 100_000)
        self.before.setRange(0, 1_000_000)
        self.run = QPushButton(tr("Start"))
        self.run.setCheckable(True)
        self.run.toggled.connect(self._on_run)
        self.add = QPushButton(tr("Note the reading"))
        self.add.clicked.connect(self._add)
        self.drop = QPushButton(tr("Leave it out"))
        self.drop.clicked.connect(self._drop)
        self.list = QListWidget()
        self.list.setAccessibleName(tr("Readings"))
        self.list.setMinimumHeight(48)
        self.list.currentRowChanged.connect(lambda row: self.drop.setEnabled(row >= 0))
        self.rates = QLabel()
        self.rates.setWordWrap(True)
        self._place()
        picks.changed.connect(self._follow_pick)

    def _place(self) -> None:
        form = QFormLayout()
        form.setVerticalSpacing(4)
        watch = QHBoxLayout()
        watch.addWidget(self.minutes, 1)
        watch.addWidget(self.run)
        for caption, field in ((tr("Design"), self.design), (tr("Work"), self.work)):
            form.addRow(caption, field)
            field.setAccessibleName(caption)
        form.addRow(tr("Minutes in all"), watch)
        form.addRow(tr("for so many panels"), self.panels)
        form.addRow(tr("built before"), self.before)
        self.minutes.setAccessibleName(tr("Minutes in all"))
        self.panels.setAccessibleName(tr("For so many panels"))
        self.before.setAccessibleName(tr("Panels this person had built before"))
        form.addRow(self.add)
        right = QVBoxLayout()
        right.addWidget(self.rates)
        right.addWidget(self.list, 1)
        right.addWidget(self.drop)
        layout = QHBoxLayout(self)
        layout.setContentsMargins(10, 6, 10, 6)
        layout.addLayout(form, 1)
        layout.addLayout(right, 1)

    def show_setout(self, setout: SetOut) -> None:
        """Offer the set-out's designs, list the readings and the rates they make."""
        self._setout = setout
        names = [design.name for design in setout.designs]
        self.add.setEnabled(bool(names))
        if names != [self.design.itemText(n) for n in range(self.design.count())]:
            chosen = self.design.currentText()
            self.design.clear()
            self.design.addItems(names)
            self.design.setCurrentText(chosen)
        self.list.clear()
        self.list.addItems([timing_words(timing) for timing in setout.room.crew.timings])
        self.drop.setEnabled(self.list.currentRow() >= 0)
        rates = setout.room.rates
        self.rates.setText(
            tr(
                "Now: a full panel {build:.1f} min, fetching and hanging {handling:.1f} min, setting a design up {setup:.1f} min",
                build=rates.build_full_panel,
                handling=rates.handling,
                setup=rates.setup,
            )
        )
        self._follow_pick()

    def _follow_pick(self) -> None:
        """The design timed is that of the chosen panel."""
        if self._setout is None or not self._picks.marks or self._watch.isValid():
            return
        panel = next((panel for panel in self._setout.panels if panel.mark == self._picks.marks[0]), None)
        if panel is not None:
            self.design.setCurrentText(panel.design)

    def _on_run(self, running: bool) -> None:
        self.run.setText(tr("Stop") if running else tr("Start"))
        if running:
            self.minutes.setValue(0.0)
            self._watch.start()
            self._tick.start()
        else:
            self._show_running()
            self._tick.stop()
            self._watch.invalidate()

    def _drop(self) -> None:
        self._marking.drop_timing(self.list.currentRow())

    def _show_running(self) -> None:
        self.minutes.setValue(self._watch.elapsed() / 60_000)

    def _add(self) -> None:
        if self.run.isChecked():
            self.run.setChecked(False)
        work = cast(Work, self.work.currentData())
        if self._marking.time(
            self.design.currentText(), self.minutes.value(), work=work, panels=self.panels.value(), before=self.before.value()
        ):
            self.minutes.setValue(0.0)


def timing_words(timing: Timing) -> str:
    """One reading in a line."""
    words = tr(
        "{design}: {minutes:g} min for {panels}, {each:.1f} each, {work}",
        design=timing.design,
        minutes=timing.minutes,
        panels=timing.panels,
        each=timing.minutes / timing.panels,
        work=tr(dict(WORKS)[timing.work]),
    )
    return f"{words}, {timing.on}" if timing.on else words
