"""A picture file brought down to the few cells a room keeps of it."""

import base64
from dataclasses import dataclass
from pathlib import Path

from PySide6.QtCore import Qt
from PySide6.QtGui import QColor, QColorSpace, QImage, QImageReader, QPainter

from core.colouring import MOST_COLUMNS, MOST_LINES
from core.errors import CoursewrightError
from core.language import tr
from core.system_words import system_words

MOST_MB = 60
MOST_PIXELS = 80_000_000


class PictureError(CoursewrightError):
    """A file that no picture can be read from."""


@dataclass(frozen=True, slots=True)
class PictureCells:
    """A picture's name and cells; ``srgb`` as a room file keeps it."""

    name: str
    columns: int
    lines: int
    srgb: str


def picture_suffixes() -> list[str]:
    """The kinds of files that can be read, such as ``png``."""
    return sorted({bytes(name.data()).decode("ascii").lower() for name in QImageReader.supportedImageFormats()})


def read_picture(path: Path) -> PictureCells:
    """The picture in a file, no finer than a room may keep it, on white where one sees through. Raises PictureError."""
    image = _fitted(_read(path))
    flat = QImage(image.size(), QImage.Format.Format_RGB888)
    flat.fill(QColor("white"))
    painter = QPainter(flat)
    painter.drawImage(0, 0, image)
    painter.end()
    columns, lines, stride = flat.width(), flat.height(), flat.bytesPerLine()
    data = bytes(flat.constBits())
    cells = b"".join(data[line * stride : line * stride + 3 * columns] for line in range(lines))
    return PictureCells(path.name[:120], columns, lines, base64.b64encode(cells).decode("ascii"))


def _read(path: Path) -> QImage:
    try:
        size = path.stat().st_size
    except OSError as error:
        text = tr("{file}: cannot be opened ({reason}); choose another file", file=path.name, reason=system_words(error))
        raise PictureError(text) from None
    if size > MOST_MB * 1_000_000:
        text = tr("{file}: is {size:.0f} MB large; at most {most} MB can be read", file=path.name, size=size / 1e6, most=MOST_MB)
        raise PictureError(text)
    reader = QImageReader(str(path))
    reader.setDecideFormatFromContent(True)
    reader.setAutoTransform(True)
    if not reader.canRead():
        kinds = ", ".join(picture_suffixes())
        raise PictureError(tr("{file}: is no picture this program can read; it reads {kinds}", file=path.name, kinds=kinds))
    pixels = reader.size().width() * reader.size().height()
    if pixels > MOST_PIXELS:
        raise PictureError(
            tr(
                "{file}: has {pixels:.0f} million pixels; make it smaller, at most {most} million",
                file=path.name,
                pixels=pixels / 1e6,
                most=MOST_PIXELS // 1_000_000,
            )
        )
    image = reader.read()
    if image.isNull():
        text = tr(
            "{file}: the picture in it is damaged ({reason}); choose another file", file=path.name, reason=reader.errorString()
        )
        raise PictureError(text)
    if image.colorSpace().isValid():
        image.convertToColorSpace(QColorSpace(QColorSpace.NamedColorSpace.SRgb))
    return image


def _fitted(image: QImage) -> QImage:
    """The picture as it is where it is small enough, else as large as a room may keep it."""
    scale = min(1.0, MOST_COLUMNS / image.width(), MOST_LINES / image.height())
    wide, high = max(1, int(image.width() * scale)), max(1, int(image.height() * scale))
    ways = Qt.AspectRatioMode.IgnoreAspectRatio, Qt.TransformationMode.SmoothTransformation
    fine = image.convertToFormat(QImage.Format.Format_ARGB32_Premultiplied)
    return fine if scale == 1.0 else fine.scaled(wide, high, *ways)
