"""Points at a part of the window: a frame round it for some seconds, which takes no click and covers nothing."""

from PySide6.QtCore import QRect, QRectF, Qt, QTimer
from PySide6.QtGui import QColor, QPainter, QPaintEvent, QPen, QRegion
from PySide6.QtWidgets import QWidget

from app import theme

SECONDS = 6
RIM_PX = 5


class Pointer(QWidget):
    """Only its rim exists, so that what is inside is painted and pressed as if there were none."""

    def __init__(self, over: QWidget) -> None:
        super().__init__(over)
        self._over = over
        self.setAttribute(Qt.WidgetAttribute.WA_TransparentForMouseEvents)
        self.setFocusPolicy(Qt.FocusPolicy.NoFocus)
        self._timer = QTimer(self, singleShot=True, interval=SECONDS * 1000)
        self._timer.timeout.connect(self.hide)
        self.hide()

    def point_at(self, part: QWidget, place: QRect) -> None:
        """Frame a place on a part of the window; nothing where that part is not on show."""
        if not part.isVisible():
            self.hide()
            return
        seen = place.intersected(part.rect())
        box = QRect(part.mapTo(self._over, seen.topLeft()), seen.size()).adjusted(-RIM_PX, -RIM_PX, RIM_PX, RIM_PX)
        box = box.intersected(self._over.rect())
        self.setGeometry(box)
        inside = self.rect().adjusted(RIM_PX, RIM_PX, -RIM_PX, -RIM_PX)
        self.setMask(QRegion(self.rect()) - QRegion(inside))
        self.show()
        self.raise_()
        self._timer.start()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(theme.shown.card))
        painter.setPen(QPen(QColor(theme.shown.accent), 3))
        painter.drawRect(QRectF(self.rect()).adjusted(2, 2, -2, -2))
        painter.end()
