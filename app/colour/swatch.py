"""A colour's swatch: outlined, with its code on it, and crossed out where it is not stocked; and a picture's thumbnail."""

from PySide6.QtCore import QRectF, Qt
from PySide6.QtGui import QColor, QIcon, QImage, QPainter, QPen, QPixmap

from app import theme
from app.colour.tint import ink_on
from app.elevation import lettering
from core.colouring import BrickColour, PictureRule

SWATCH_PX = 24
_CODE_PX = 13


def swatch(colour: BrickColour, ratio: float = 2.0) -> QIcon:
    """The swatch as an icon."""
    pixmap = QPixmap(round(SWATCH_PX * ratio), round(SWATCH_PX * ratio))
    pixmap.setDevicePixelRatio(ratio)
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    box = QRectF(0.5, 0.5, SWATCH_PX - 1, SWATCH_PX - 1)
    painter.setPen(QPen(QColor(theme.shown.ink), 1))
    painter.setBrush(QColor(colour.srgb))
    painter.drawRect(box)
    ink = QColor(ink_on(colour.srgb))
    painter.setPen(QPen(ink, 1.5))
    if not colour.is_stocked:
        painter.drawLine(box.topLeft(), box.bottomRight())
        painter.drawLine(box.bottomLeft(), box.topRight())
    painter.setFont(lettering.font(_CODE_PX, bold=True))
    painter.drawText(box, Qt.AlignmentFlag.AlignCenter, colour.code)
    painter.end()
    made = QIcon(pixmap)
    # A chosen row would lay its own colour over the swatch.
    made.addPixmap(pixmap, QIcon.Mode.Selected)
    return made


def thumbnail(picture: PictureRule) -> QIcon:
    """A picture small enough to stand in a list."""
    image = QImage(picture.cells, picture.columns, picture.lines, 3 * picture.columns, QImage.Format.Format_RGB888)
    size = 2 * SWATCH_PX
    ways = Qt.AspectRatioMode.KeepAspectRatio, Qt.TransformationMode.SmoothTransformation
    return QIcon(QPixmap.fromImage(image.scaled(size, size, *ways)))
