"""A step as a brick of the course: outlined while it is still to be laid, filled and ticked once it is."""

from PySide6.QtCore import QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPainter, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QAbstractButton, QSizePolicy

from app import theme
from app.first_steps.steps import Step
from app.theme.look import InStep
from core.language import tr

KNOB_WIDE_PX, KNOB_HIGH_PX = 12, 4
SIDE_PX = 12
TICK_PX = 11


class Brick(QAbstractButton):
    """Chosen by a click, by Tab and the arrow keys."""

    def __init__(self, step: Step, number: int, count: int) -> None:
        super().__init__()
        self.step, self._title = step, tr(step.title)
        self._place = tr("Step {number} of {count}: {title}", number=number, count=count, title=self._title)
        self._number = number
        self.is_laid = False
        self.setCheckable(True)
        self.setText(self._title)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Fixed)
        self.setToolTip(tr(step.text))
        self.lay(False)
        InStep(self, self._grow)

    def lay(self, is_laid: bool) -> None:
        """Show whether the step is done."""
        self.is_laid = is_laid
        self.setAccessibleName(tr("{step}, done", step=self._place) if is_laid else self._place)
        self.setAccessibleDescription(tr(self.step.text))
        self.update()

    def _grow(self) -> None:
        font = QFont(self.font())
        font.setPixelSize(theme.px(theme.HEADING_PX))
        self.setFont(font)
        self.updateGeometry()

    def _bold(self) -> QFont:
        font = QFont(self.font())
        font.setBold(True)
        return font

    def sizeHint(self) -> QSize:
        metrics = QFontMetrics(self._bold())
        wide = metrics.horizontalAdvance(f"{self._number}  {self.text()}") + 2 * SIDE_PX + 4
        return QSize(wide, metrics.height() + 12 + theme.px(KNOB_HIGH_PX))

    def minimumSizeHint(self) -> QSize:
        """The number alone says which brick it is where there is little room."""
        wide = QFontMetrics(self._bold()).horizontalAdvance(f"{self._number} …") + 2 * SIDE_PX
        return QSize(wide, self.sizeHint().height())

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        shown, high = theme.shown, theme.px(KNOB_HIGH_PX)
        body = QRectF(self.rect()).adjusted(1, 1 + high, -1, -1)
        edge = QPen(QColor(shown.accent if self.isChecked() else shown.panel_edge), 2.5 if self.isChecked() else 1)
        painter.setPen(edge)
        painter.setBrush(QColor(shown.panel_fills["half-width"] if self.is_laid else shown.card))
        wide = theme.px(KNOB_WIDE_PX)
        for share in (0.25, 0.75):
            painter.drawRect(QRectF(body.left() + body.width() * share - wide / 2, body.top() - high, wide, high))
        painter.drawRect(body)
        self._paint_words(painter, body)
        if self.hasFocus():
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.setPen(QPen(QColor(shown.ink), 1, Qt.PenStyle.DotLine))
            painter.drawRect(body.adjusted(4, 4, -4, -4))
        painter.end()

    def _paint_words(self, painter: QPainter, body: QRectF) -> None:
        painter.setPen(QColor(theme.shown.ink))
        painter.setFont(self._bold() if self.isChecked() else self.font())
        line = body.adjusted(SIDE_PX, 0, -SIDE_PX, 0)
        if self.is_laid:
            tick = theme.px(TICK_PX)
            _paint_tick(painter, QRectF(line.left(), body.center().y() - tick / 2, tick, tick))
            line.setLeft(line.left() + tick + 7)
        words = self.text() if self.is_laid else f"{self._number}  {self.text()}"
        fitted = painter.fontMetrics().elidedText(words, Qt.TextElideMode.ElideRight, int(line.width()))
        painter.drawText(line, Qt.AlignmentFlag.AlignVCenter, fitted)


def _paint_tick(painter: QPainter, box: QRectF) -> None:
    """The sign that a panel is built."""
    painter.save()
    painter.setPen(QPen(QColor(theme.shown.ink), 2))
    low = QPointF(box.left() + box.width() / 3, box.bottom())
    painter.drawPolyline(QPolygonF([QPointF(box.left(), box.center().y()), low, box.topRight()]))
    painter.restore()
