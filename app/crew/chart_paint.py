"""How the plan is drawn: days across, people down. Building is pale with a hatched foot, hanging dark."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from PySide6.QtCore import QRect, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QFont, QPainter, QPen

from app import theme
from app.crew.planning import Outlook, Stretch
from core.language import tr, trc

NAMES_PX, HEAD_PX, PERSON_PX, FOOT_PX, RIGHT_PX = 104, 40, 38, 62, 14
BAR_PX, HATCH_PX = 28, 8
LABEL_STEP_PX = 78
LEAST_DAY_PX, MOST_WIDTH_PX = 26.0, 16_000
STEPS = (1, 2, 5, 10, 20, 50, 100, 200, 500, 1000, 5000, 50_000)

DayWords = Callable[[int], str]
"""The date of a working day counted from 0, or nothing."""


@dataclass(frozen=True, slots=True)
class Axes:
    """Where days and people lie on the widget, in pixels."""

    people: tuple[str, ...]
    days: int
    width_px: int

    @property
    def day_px(self) -> float:
        return (self.width_px - NAMES_PX - RIGHT_PX) / max(1, self.days)

    @property
    def bottom(self) -> int:
        """Below the last person."""
        return HEAD_PX + PERSON_PX * len(self.people)

    def x(self, day: float) -> float:
        return NAMES_PX + day * self.day_px

    def bar(self, stretch: Stretch) -> QRectF:
        """Where a stretch is drawn; never too narrow to see."""
        top = HEAD_PX + PERSON_PX * self.people.index(stretch.person) + (PERSON_PX - BAR_PX) / 2
        left = self.x(stretch.begin)
        return QRectF(left, top, max(3.0, self.x(stretch.end) - left), BAR_PX)


def paint_chart(painter: QPainter, outlook: Outlook, axes: Axes, dates: DayWords, seen: QRect, chosen: Stretch | None) -> None:
    """Draw what of a chart is to be ``seen``."""
    _paint_days(painter, axes, dates, seen)
    _paint_names(painter, axes)
    governing = set(outlook.governing)
    for stretch in outlook.stretches:
        box = axes.bar(stretch)
        if box.toAlignedRect().intersects(seen):
            _paint_stretch(painter, stretch, box, governs=(stretch.doing, stretch.row) in governing)
            if stretch == chosen:
                painter.setPen(QPen(QColor(theme.shown.accent), 3))
                painter.drawRect(box.adjusted(-3, -3, 3, 3))
    _paint_finish(painter, outlook, axes)
    _paint_key(painter, axes)


def _paint_days(painter: QPainter, axes: Axes, dates: DayWords, seen: QRect) -> None:
    step = next((step for step in STEPS if step * axes.day_px >= LABEL_STEP_PX), STEPS[-1])
    first = max(0, int((seen.left() - NAMES_PX) / axes.day_px) - step)
    last = min(axes.days, int((seen.right() - NAMES_PX) / axes.day_px) + 1)
    for day in range(first, last + 1):
        x, is_named = axes.x(day), day % step == 0
        painter.setPen(QPen(QColor(theme.shown.edge), 1))
        if is_named or axes.day_px >= 6:
            painter.drawLine(round(x), HEAD_PX - (10 if is_named else 4), round(x), axes.bottom)
        if is_named and day < axes.days:
            painter.setPen(QColor(theme.shown.ink))
            painter.setFont(_font(theme.HEADING_PX, bold=True))
            painter.drawText(round(x) + 4, 14, tr("day {day}", day=day + 1))
            painter.setPen(QColor(theme.shown.quiet_ink))
            painter.setFont(_font(theme.SMALL_PX))
            painter.drawText(round(x) + 4, 29, dates(day))


def _paint_names(painter: QPainter, axes: Axes) -> None:
    metrics = painter.fontMetrics()
    for number, name in enumerate(axes.people):
        y = HEAD_PX + PERSON_PX * number
        painter.setPen(QPen(QColor(theme.shown.edge), 1))
        painter.drawLine(0, y, axes.width_px - RIGHT_PX, y)
        painter.setPen(QColor(theme.shown.ink))
        painter.setFont(_font(theme.TEXT_PX))
        metrics = painter.fontMetrics()
        text = metrics.elidedText(name, Qt.TextElideMode.ElideRight, NAMES_PX - 10)
        painter.drawText(QRect(2, y, NAMES_PX - 8, PERSON_PX), Qt.AlignmentFlag.AlignVCenter, text)
    painter.setPen(QPen(QColor(theme.shown.ink), 1))
    painter.drawLine(0, axes.bottom, axes.width_px - RIGHT_PX, axes.bottom)


def _paint_stretch(painter: QPainter, stretch: Stretch, box: QRectF, *, governs: bool) -> None:
    _paint_bar(painter, box, is_hung=stretch.doing == "hang", governs=governs)
    ink = theme.shown.chalk if stretch.doing == "hang" else theme.shown.ink
    painter.setPen(QColor(ink))
    painter.setFont(_font(theme.HEADING_PX))
    metrics = painter.fontMetrics()
    room_px = box.width() - 6
    for text in _labels(stretch):
        if metrics.horizontalAdvance(text) <= room_px:
            height = BAR_PX if stretch.doing == "hang" else BAR_PX - HATCH_PX
            painter.drawText(QRectF(box.left() + 4, box.top(), room_px, height), Qt.AlignmentFlag.AlignVCenter, text)
            return


def _labels(stretch: Stretch) -> Sequence[str]:
    """What may stand on a bar, the longest first."""
    row = stretch.row + 1
    whole = tr("hang row {row}", row=row) if stretch.doing == "hang" else tr("build row {row}", row=row)
    return whole, tr("row {row}", row=row), str(row)


def _paint_bar(painter: QPainter, box: QRectF, *, is_hung: bool, governs: bool) -> None:
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(theme.shown.board if is_hung else theme.shown.accent_wash))
    painter.drawRect(box)
    if not is_hung:
        painter.setBrush(QBrush(QColor(theme.shown.ink), Qt.BrushStyle.BDiagPattern))
        painter.drawRect(box.adjusted(0, box.height() - HATCH_PX, 0, 0))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.setPen(QPen(QColor(theme.shown.ink), 1))
    painter.drawRect(box)
    if governs:
        # A heavy stroke along the top says that nothing here may slip.
        painter.fillRect(QRectF(box.left(), box.top() - 4, box.width(), 4), QColor(theme.shown.mount_misses))


def _paint_finish(painter: QPainter, outlook: Outlook, axes: Axes) -> None:
    """The planned end as a heavy stroke; below, the days it may fall on as an open bar."""
    if outlook.range is None or not outlook.stretches:
        return
    top = axes.bottom + 8
    painter.setPen(QColor(theme.shown.ink))
    painter.setFont(_font(theme.TEXT_PX, bold=True))
    painter.drawText(QRect(2, top - 4, NAMES_PX - 8, 20), Qt.AlignmentFlag.AlignVCenter, trc("the end of the work", "finish"))
    # The range runs from the beginning of the early day to the end of the late one.
    painter.setPen(QPen(QColor(theme.shown.ink), 1))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    left = axes.x(outlook.range.early.day - 1)
    painter.drawRect(QRectF(left, top, axes.x(outlook.range.late.day) - left, 12))
    end = round(axes.x(max(one.end for one in outlook.stretches)))
    painter.fillRect(QRect(end - 2, HEAD_PX, 4, axes.bottom - HEAD_PX + 24), QColor(theme.shown.ink))


def _paint_key(painter: QPainter, axes: Axes) -> None:
    y = axes.bottom + 34
    x = 2.0
    painter.setFont(_font(theme.SMALL_PX))
    metrics = painter.fontMetrics()
    for words, is_hung, governs in _key():
        box = QRectF(x, y, 24, 18)
        _paint_bar(painter, box, is_hung=is_hung, governs=governs)
        painter.setPen(QColor(theme.shown.ink))
        painter.drawText(round(x) + 30, y + 14, words)
        x += 30 + metrics.horizontalAdvance(words) + 20


def _key() -> Sequence[tuple[str, bool, bool]]:
    return (tr("building"), False, False), (tr("hanging"), True, False), (tr("the finish waits for it"), False, True)


def _font(pixels: int, *, bold: bool = False) -> QFont:
    font = QFont()
    font.setPixelSize(pixels)
    font.setBold(bold)
    return font
