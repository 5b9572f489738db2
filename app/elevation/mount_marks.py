"""Mounting points: a filled dot where a screw finds timber, an open crossed ring where it does not."""

from collections.abc import Sequence
from functools import lru_cache

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPixmap

from app import theme
from app.elevation.frame import PictureFrame
from core.setout.result import Mount

LEAST_SCALE_LANDED = 0.07
"""Pixels to the millimetre from which good points show: a full panel of 21 pixels."""
LEAST_SCALE_MISSED = 0.03


def paint_mounts(painter: QPainter, mounts: Sequence[Mount], frame: PictureFrame) -> None:
    """Paint the points; missed ones stay visible further out than good ones, for they need work."""
    if frame.scale >= LEAST_SCALE_LANDED:
        size = max(3.0, min(9.0, 16.0 * frame.scale))
        painter.setPen(QPen(QColor(theme.MOUNT_LANDS), size, Qt.PenStyle.SolidLine, Qt.PenCapStyle.RoundCap))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, size > 3)
        painter.drawPoints([_place(mount, frame) for mount in mounts if mount.lands_on is not None])
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
    if frame.scale >= LEAST_SCALE_MISSED:
        ring = _ring(max(7, min(19, round(50.0 * frame.scale))), painter.device().devicePixelRatioF())
        half = ring.deviceIndependentSize().width() / 2
        for mount in mounts:
            if mount.lands_on is None:
                painter.drawPixmap(_place(mount, frame) - QPointF(half, half), ring)


def _place(mount: Mount, frame: PictureFrame) -> QPointF:
    return QPointF(frame.column_px(mount.x_pitches) + 0.5, frame.level_px(mount.z_half_plates / 2) + 0.5)


@lru_cache(maxsize=64)
def _ring(size_px: int, ratio: float) -> QPixmap:
    """A crossed ring on a light ground, so that it reads over any panel."""
    side = size_px + 2
    pixmap = QPixmap(round(side * ratio), round(side * ratio))
    pixmap.setDevicePixelRatio(ratio)
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    painter.setPen(QPen(QColor(theme.MOUNT_MISSES), 1.4 if size_px < 12 else 2.0))
    painter.setBrush(QColor(theme.CARD))
    middle, radius = side / 2, (size_px - 1) / 2
    painter.drawEllipse(QPointF(middle, middle), radius, radius)
    reach = radius * 0.7
    painter.drawLine(QPointF(middle - reach, middle - reach), QPointF(middle + reach, middle + reach))
    painter.drawLine(QPointF(middle - reach, middle + reach), QPointF(middle + reach, middle - reach))
    painter.end()
    return pixmap
