"""Text prepared once and drawn many times: laying out a string costs far more than drawing it."""

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QStaticText
from PySide6.QtWidgets import QApplication

from app import theme


@theme.kept(64)
def font(size_px: int, *, bold: bool = False) -> QFont:
    """The application's font at a size in pixels."""
    made = QFont(QApplication.font())
    made.setPixelSize(size_px)
    made.setBold(bold)
    return made


@theme.kept(64)
def line_height_px(size_px: int, *, bold: bool = False) -> float:
    """Height of one line of text."""
    return QFontMetricsF(font(size_px, bold=bold)).height()


@theme.kept(8192)
def width_px(text: str, size_px: int, *, bold: bool = False) -> float:
    """Width of a text on one line."""
    return QFontMetricsF(font(size_px, bold=bold)).horizontalAdvance(text)


@theme.kept(8192)
def _prepared(text: str, size_px: int, bold: bool) -> tuple[QStaticText, float, float]:
    """The text laid out, and half its width and height."""
    static = QStaticText(text)
    static.setTextFormat(Qt.TextFormat.PlainText)
    static.setPerformanceHint(QStaticText.PerformanceHint.AggressiveCaching)
    static.prepare(font=font(size_px, bold=bold))
    return static, width_px(text, size_px, bold=bold) / 2, line_height_px(size_px, bold=bold) / 2


def sizes(*usual_px: int) -> tuple[int, ...]:
    """Sizes to try, largest first: the usual ones times what the person wants, then down to the smallest usual one."""
    wanted = [theme.px(size) for size in usual_px]
    return (*wanted, *range(wanted[-1] - 2, usual_px[-1] - 1, -2)) if wanted[-1] > usual_px[-1] else tuple(wanted)


def prepared(centre: QPointF, text: str, size_px: int, *, bold: bool = False) -> tuple[int, int, QStaticText]:
    """One line of text laid out about its centre, as the arguments of ``QPainter.drawStaticText``."""
    static, half_wide, half_high = _prepared(text, size_px, bold)
    return round(centre.x() - half_wide), round(centre.y() - half_high), static


def write(painter: QPainter, centre: QPointF, text: str, size_px: int, *, bold: bool = False) -> None:
    """Draw one line of text about its centre with the painter's pen; the caller sets the font with ``font``."""
    painter.drawStaticText(*prepared(centre, text, size_px, bold=bold))


def pill(painter: QPainter, box: QRectF, text: str, size_px: int, ground: QColor, ink: QColor) -> None:
    """A text on a ground of its own, readable over anything."""
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(ground)
    painter.drawRoundedRect(box, 3, 3)
    painter.setPen(ink)
    painter.setFont(font(size_px, bold=True))
    # Most such texts are lengths that change with every move of the pointer: to keep them laid out takes longer.
    painter.drawText(box, Qt.AlignmentFlag.AlignCenter, text)


def pill_box(centre: QPointF, text: str, size_px: int) -> QRectF:
    """The room a pill takes about its centre."""
    wide = width_px(text, size_px, bold=True) + 12
    high = line_height_px(size_px, bold=True) + 4
    return QRectF(round(centre.x() - wide / 2), round(centre.y() - high / 2), round(wide), round(high))
