"""What set-out says below a card's fields: quiet text that rewraps by itself and disturbs the layout only when it must."""

from PySide6.QtCore import QRect, QSize, Qt
from PySide6.QtGui import QColor, QFont, QFontMetrics, QPainter, QPaintEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app import theme
from app.opaque import Opaque
from app.text_shape import text_shape

NARROWEST_PX = 120
TALLEST_PX = 10_000


class Readout(QWidget):
    """Wrapped text. A label would have the whole bench laid out anew at every step of a drag, though its lines stay as many."""

    def __init__(self) -> None:
        super().__init__()
        policy = QSizePolicy(QSizePolicy.Policy.Preferred, QSizePolicy.Policy.Preferred)
        policy.setHeightForWidth(True)
        self.setSizePolicy(policy)
        # A card's ground comes along, so that nothing below is painted when the text changes.
        Opaque(self)
        self._text = ""
        self._height_px = 0

    def text(self) -> str:
        return self._text

    def setText(self, text: str) -> None:
        """Show another text."""
        if text == self._text:
            return
        breaks_as_before = text_shape(text) == text_shape(self._text)
        self._text = text
        self.setAccessibleName(text)
        height_px = self._height_px if breaks_as_before else self.heightForWidth(self.width())
        if height_px != self._height_px:
            self._height_px = height_px
            self.updateGeometry()
        self.update()

    def heightForWidth(self, width_px: int) -> int:
        line = QRect(0, 0, width_px, TALLEST_PX)
        return QFontMetrics(self._font()).boundingRect(line, Qt.TextFlag.TextWordWrap, self._text).height()

    def sizeHint(self) -> QSize:
        return self.minimumSizeHint()

    def minimumSizeHint(self) -> QSize:
        return QSize(NARROWEST_PX, self.heightForWidth(max(self.width(), NARROWEST_PX)))

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(theme.shown.card))
        painter.setFont(self._font())
        painter.setPen(QColor(theme.shown.quiet_ink))
        painter.drawText(self.rect(), Qt.TextFlag.TextWordWrap, self._text)
        painter.end()

    def _font(self) -> QFont:
        font = QFont(self.font())
        font.setPixelSize(theme.px(theme.SMALL_PX))
        return font
