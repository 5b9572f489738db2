"""A picture as it looks to people who see colours otherwise, and without colours at all."""

from collections.abc import Mapping
from types import MappingProxyType

import numpy as np
from numpy.typing import NDArray
from PySide6.QtGui import QColor, QImage, QPainter

from app import theme
from app.fonts import drawing_font
from core.colour.lab import linear

Floats = NDArray[np.float64]

MATRICES: Mapping[str, Floats] = MappingProxyType(
    {
        "protanopia": np.array(
            ((0.152286, 1.052583, -0.204868), (0.114503, 0.786281, 0.099216), (-0.003882, -0.048116, 1.051998))
        ),
        "deuteranopia": np.array(
            ((0.367322, 0.860646, -0.227968), (0.280085, 0.672501, 0.047413), (-0.011820, 0.042940, 0.968881))
        ),
        "tritanopia": np.array(
            ((1.255528, -0.076749, -0.178779), (-0.078411, 0.930809, 0.147602), (0.004733, 0.691367, 0.303900))
        ),
        "printed in black and white": np.array(((0.2126, 0.7152, 0.0722),) * 3),
    }
)
"""On linear red, green and blue. The first three: G. M. Machado, M. M. Oliveira and L. A. F. Fernandes, A Physiologically-based
Model for Simulation of Color Vision Deficiency, IEEE TVCG 15 (2009), severity 1.0. The last: WCAG 2's relative luminance."""

CAPTION_PX = 34
LETTERS_PX = 20


def seen(image: QImage, matrix: Floats) -> QImage:
    """The image after a matrix on its linear colours; what falls outside of what a screen can show is cut off."""
    made = image.convertToFormat(QImage.Format.Format_RGB32)
    data = np.frombuffer(made.bits(), dtype=np.uint8).reshape(made.height(), made.bytesPerLine() // 4, 4)
    steps = data[..., 2::-1].astype(np.float64) / 255
    turned = np.clip(linear(steps) @ matrix.T, 0.0, 1.0)
    coded = np.where(turned <= 0.0031308, turned * 12.92, 1.055 * turned ** (1 / 2.4) - 0.055)
    data[..., 2::-1] = np.rint(coded * 255).astype(np.uint8)
    return made


def seen_by_all(image: QImage) -> QImage:
    """The picture once for every matrix, one below the other, each with its name above it."""
    high = image.height() + CAPTION_PX
    made = QImage(image.width(), high * len(MATRICES), QImage.Format.Format_RGB32)
    made.fill(theme.shown.paper)
    painter = QPainter(made)
    painter.setFont(drawing_font(LETTERS_PX))
    painter.setPen(QColor(theme.shown.ink))
    for number, (name, matrix) in enumerate(MATRICES.items()):
        painter.drawText(8, number * high + CAPTION_PX - 10, name)
        painter.drawImage(0, number * high + CAPTION_PX, seen(image, matrix))
    painter.end()
    return made
