"""The room as a picture in a file: PNG for a letter, SVG to draw on."""

from collections.abc import Callable
from pathlib import Path

from PySide6.QtCore import QBuffer, QByteArray, QIODevice, QRect, QSize
from PySide6.QtGui import QColor, QImage, QPainter
from PySide6.QtSvg import QSvgGenerator

from app import theme

Paint = Callable[[QPainter], None]
PNG_TIMES = 2
"""Pixels of the picture to one on the screen, so that it prints clearly."""
SUFFIXES = (".png", ".svg")


def picture_bytes(paint: Paint, size: QSize, suffix: str, title: str) -> bytes:
    """The picture in the format of that suffix, as on paper. Raises ValueError for any other suffix."""
    with theme.on_paper():
        if suffix == ".svg":
            return _svg(paint, size, title)
        if suffix == ".png":
            return _png(paint, size)
    raise ValueError(f"found {suffix!r}; a picture is one of {', '.join(SUFFIXES)}")


def with_picture_suffix(path: Path) -> Path:
    """The path as it is where it names a kind of picture; else with that of a PNG."""
    return path if path.suffix.lower() in SUFFIXES else path.with_name(path.name + SUFFIXES[0])


def _png(paint: Paint, size: QSize) -> bytes:
    image = QImage(size * PNG_TIMES, QImage.Format.Format_RGB32)
    image.setDevicePixelRatio(PNG_TIMES)
    image.fill(QColor(theme.shown.sheet))
    painter = QPainter(image)
    paint(painter)
    painter.end()
    store = QByteArray()
    buffer = QBuffer(store)
    buffer.open(QIODevice.OpenModeFlag.WriteOnly)
    image.save(buffer, "PNG")  # type: ignore[call-overload]
    buffer.close()
    return bytes(store.data())


def _svg(paint: Paint, size: QSize, title: str) -> bytes:
    store = QByteArray()
    buffer = QBuffer(store)
    generator = QSvgGenerator()
    generator.setOutputDevice(buffer)
    generator.setSize(size)
    generator.setViewBox(QRect(0, 0, size.width(), size.height()))
    generator.setTitle(title)
    painter = QPainter(generator)
    painter.fillRect(QRect(0, 0, size.width(), size.height()), QColor(theme.shown.sheet))
    paint(painter)
    painter.end()
    return bytes(store.data())
