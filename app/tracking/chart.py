"""A small burn-down chart, painted here: what is left as a thick line, the plan dashed, the pace so far dotted."""

from collections.abc import Sequence
from datetime import date
from math import ceil, floor

from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QWidget

from app import theme
from app.theme.look import InStep
from app.tracking.burn import At, Burn
from core.language import tr
from core.sheets.buying_crew import day_words

LEFT_PX, RIGHT_PX, TOP_PX, FOOT_PX = 40, 12, 24, 22
STEPS = (1, 2, 5, 10, 20, 25, 50, 100, 200, 250, 500, 1000, 2500, 5000, 10_000, 100_000)
DAYS = (1, 2, 7, 14, 28, 56, 112, 365, 3650, 36_500)
LEAST_LABEL_PX = 76
DOT_PX = 3.0


class BurnChart(QWidget):
    """One chart."""

    def __init__(self) -> None:
        super().__init__()
        self._burn: Burn | None = None
        self.setAccessibleName(tr("What is left, day by day"))
        self.setAccessibleDescription(tr("being worked out"))
        InStep(self, lambda: self.setMinimumSize(theme.px(150), theme.px(110)))

    def sizeHint(self) -> QSize:
        return QSize(280, 180)

    @property
    def burn(self) -> Burn | None:
        """What is shown."""
        return self._burn

    def show_burn(self, burn: Burn) -> None:
        """Show other lines, and say in words what they say."""
        self._burn = burn
        self.setAccessibleName(burn.title)
        left, whole = burn.done[-1].left, burn.done[0].left
        self.setAccessibleDescription(tr("{left:.0f} of {whole:.0f} left", left=left, whole=whole))
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(theme.shown.card))
        if self._burn is not None:
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            painter.scale(theme.times(), theme.times())
            _Drawing(painter, painter.transform().inverted()[0].mapRect(QRectF(self.rect())), self._burn).paint()
        painter.end()


class _Drawing:
    """The chart in a box; keeps where moments and amounts lie."""

    def __init__(self, painter: QPainter, box: QRectF, burn: Burn) -> None:
        self._painter, self._burn = painter, burn
        self._area = box.adjusted(LEFT_PX, TOP_PX, -RIGHT_PX, -FOOT_PX)
        points = [*burn.planned, *burn.done, *burn.ahead]
        self._first = floor(min(point.moment for point in points))
        self._last = max(ceil(max(point.moment for point in points)), self._first + 1)
        self._most = max(*(point.left for point in points), 1.0)

    def paint(self) -> None:
        """Paint title, axes and lines."""
        self._write(QRectF(0, 0, self._area.right(), TOP_PX - 4), self._burn.title, Qt.AlignmentFlag.AlignLeft, bold=True)
        self._amounts()
        self._days()
        self._line(self._burn.planned, QPen(QColor(theme.shown.quiet_ink), 1.5, Qt.PenStyle.DashLine))
        self._line(self._burn.ahead, QPen(QColor(theme.shown.ink), 2, Qt.PenStyle.DotLine))
        self._line(self._burn.done, QPen(QColor(theme.shown.ink), 3))
        self._painter.setBrush(QColor(theme.shown.ink))
        for point in self._burn.done[1:]:
            self._painter.drawEllipse(self._at(point), DOT_PX, DOT_PX)

    def _at(self, point: At) -> QPointF:
        area = self._area
        across = (point.moment - self._first) / (self._last - self._first)
        return QPointF(area.left() + across * area.width(), area.bottom() - point.left / self._most * area.height())

    def _amounts(self) -> None:
        """A line for every so many, as close as their numbers can be read."""
        step = next((s for s in STEPS if s / self._most * self._area.height() >= 26), STEPS[-1])
        for amount in range(0, int(self._most) + 1, step):
            y = self._at(At(self._first, amount)).y()
            self._painter.setPen(QPen(QColor(theme.shown.edge), 1))
            self._painter.drawLine(QLineF(self._area.left(), y, self._area.right(), y))
            self._write(QRectF(0, y - 9, LEFT_PX - 6, 18), f"{amount}", Qt.AlignmentFlag.AlignRight)

    def _days(self) -> None:
        """Dates along the foot, each at its morning."""
        per_day = self._area.width() / (self._last - self._first)
        step = next((days for days in DAYS if days * per_day >= LEAST_LABEL_PX), DAYS[-1])
        for day in range(self._first, self._last, step):
            x = self._at(At(day, 0)).x()
            self._painter.setPen(QPen(QColor(theme.shown.quiet_ink), 1))
            self._painter.drawLine(QLineF(x, self._area.bottom(), x, self._area.bottom() + 4))
            box = QRectF(x - 2, self._area.bottom() + 3, LEAST_LABEL_PX, FOOT_PX - 3)
            if box.left() + LEAST_LABEL_PX * 0.8 <= self._area.right() + RIGHT_PX:
                self._write(box, day_words(date.fromordinal(day).isoformat()), Qt.AlignmentFlag.AlignLeft)

    def _line(self, points: Sequence[At], pen: QPen) -> None:
        self._painter.setPen(pen)
        self._painter.setBrush(Qt.BrushStyle.NoBrush)
        self._painter.drawPolyline(QPolygonF([self._at(point) for point in points]))

    def _write(self, box: QRectF, text: str, side: Qt.AlignmentFlag, *, bold: bool = False) -> None:
        font = QFont(self._painter.font())
        font.setPixelSize(theme.HEADING_PX if bold else theme.SMALL_PX)
        font.setBold(bold)
        self._painter.setFont(font)
        self._painter.setPen(QColor(theme.shown.ink if bold else theme.shown.quiet_ink))
        self._painter.drawText(box, side | Qt.AlignmentFlag.AlignVCenter, text)
