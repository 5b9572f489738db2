"""The bar chart of the plan: arrows go from stretch to stretch, and what is pointed at is said in words."""

import math

from PySide6.QtCore import QEvent, QPointF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QHelpEvent, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QResizeEvent
from PySide6.QtWidgets import QScrollArea, QSizePolicy, QToolTip, QWidget

from app import theme
from app.crew.chart_paint import (
    FOOT_PX,
    HEAD_PX,
    LEAST_DAY_PX,
    MOST_WIDTH_PX,
    NAMES_PX,
    PERSON_PX,
    RIGHT_PX,
    Axes,
    DayWords,
    paint_chart,
)
from app.crew.planning import Outlook, Stretch
from app.crew.words import NOBODY, stretch_words
from app.spoken import describe
from app.theme.look import look
from core.language import tr

STEPS = {Qt.Key.Key_Left: -1, Qt.Key.Key_Right: 1}
MOST_TOLD = 200
"""Stretches told when none is chosen."""
OWN_KEYS = (*STEPS, Qt.Key.Key_Up, Qt.Key.Key_Down)


class PlanChart(QWidget):
    """Shows one outlook; greyed while it is about the room as it was."""

    chosen_changed = Signal(str)
    """The stretch someone went to, in words."""

    def __init__(self) -> None:
        super().__init__()
        self.setAccessibleName(tr("Plan of the crew"))
        self.setAccessibleDescription(tr("being worked out"))
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self._outlook: Outlook | None = None
        self._dates: DayWords = lambda _day: ""
        self._is_old = False
        self.chosen: Stretch | None = None
        look.changed.connect(self._resize)

    def show_outlook(self, outlook: Outlook, dates: DayWords) -> None:
        """Draw another plan; ``dates`` gives the date of a working day."""
        self._outlook, self._dates, self._is_old = outlook, dates, False
        if self.chosen not in outlook.stretches:
            self.chosen = None
        self._describe()
        self._resize()
        self.update()

    def _describe(self) -> None:
        """The stretch someone went to is read out; without one the description is the whole plan."""
        stretches = self._outlook.stretches if self._outlook else ()
        if self.chosen is not None:
            describe(self, stretch_words(self.chosen), aloud=True)
        else:
            describe(self, "; ".join(stretch_words(one) for one in stretches[:MOST_TOLD]) or tr(NOBODY))

    def grow_old(self) -> None:
        """The room changed: what is drawn stays, paler, until it is worked out again."""
        self._is_old = True
        self.update()

    @property
    def axes(self) -> Axes | None:
        """Where everything lies; None without anything to draw."""
        if self._outlook is None or not self._outlook.stretches:
            return None
        people = tuple(dict.fromkeys(one.person for one in self._outlook.stretches))
        return Axes(people, max(1, math.ceil(self._outlook.last_day)), round(self.width() / theme.times()))

    def choose(self, stretch: Stretch | None) -> None:
        """Go to a stretch."""
        self.chosen = stretch
        self.update()
        words = stretch_words(stretch) if stretch else ""
        self.chosen_changed.emit(words)
        self._describe()
        axes = self.axes
        viewport = self.parentWidget()
        area = viewport.parentWidget() if viewport is not None else None
        if stretch and axes and isinstance(area, QScrollArea):
            at = (axes.bar(stretch).center() * theme.times()).toPoint()
            area.ensureVisible(at.x(), at.y(), 80, theme.px(PERSON_PX))

    def sizeHint(self) -> QSize:
        return self.minimumSize()

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent) and event.key() in OWN_KEYS:
            event.accept()
            return True
        if event.type() == QEvent.Type.ToolTip and isinstance(event, QHelpEvent):
            under = self._under(QPointF(event.pos()))
            QToolTip.showText(event.globalPos(), stretch_words(under) if under else "", self)
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        found = self._outlook.stretches if self._outlook else ()
        if not found or event.key() not in OWN_KEYS:
            super().keyPressEvent(event)
        elif self.chosen is None:
            self.choose(found[0])
        elif event.key() in STEPS:
            self.choose(found[(found.index(self.chosen) + STEPS[Qt.Key(event.key())]) % len(found)])
        else:
            self._go_to_neighbour(1 if event.key() == Qt.Key.Key_Down else -1)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        self.choose(self._under(event.position()))

    def paintEvent(self, event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(event.rect(), QColor(theme.shown.card))
        axes = self.axes
        if axes is None or self._outlook is None:
            if self._outlook is not None:
                painter.setPen(QColor(theme.shown.quiet_ink))
                painter.drawText(self.rect(), Qt.AlignmentFlag.AlignCenter | Qt.TextFlag.TextWordWrap, tr(NOBODY))
        else:
            painter.setOpacity(0.45 if self._is_old else 1.0)
            painter.scale(theme.times(), theme.times())
            seen = painter.transform().inverted()[0].mapRect(event.rect())
            paint_chart(painter, self._outlook, axes, self._dates, seen, self.chosen if self.hasFocus() else None)
        painter.end()

    def resizeEvent(self, event: QResizeEvent) -> None:
        super().resizeEvent(event)
        self.update()

    def _resize(self) -> None:
        axes = self.axes
        if axes is None:
            self.setMinimumSize(0, 0)
            return
        days_px = min(MOST_WIDTH_PX, math.ceil(axes.days * LEAST_DAY_PX))
        wide, high = NAMES_PX + RIGHT_PX + days_px, HEAD_PX + PERSON_PX * len(axes.people) + FOOT_PX
        self.setMinimumSize(theme.px(wide), theme.px(high))

    def _under(self, at: QPointF) -> Stretch | None:
        axes = self.axes
        if axes is None or self._outlook is None:
            return None
        at = at / theme.times()
        return next((one for one in self._outlook.stretches if axes.bar(one).contains(at)), None)

    def _go_to_neighbour(self, step: int) -> None:
        """What the person above or below does at the same time, or nearest to it."""
        axes, chosen = self.axes, self.chosen
        if axes is None or self._outlook is None or chosen is None:
            return
        person = axes.people[(axes.people.index(chosen.person) + step) % len(axes.people)]
        mine = [one for one in self._outlook.stretches if one.person == person]
        self.choose(min(mine, key=lambda one: abs(one.begin - chosen.begin)))
