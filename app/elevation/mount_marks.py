"""Mounting points: a filled dot where a screw finds timber, an open crossed ring where it does not."""

from collections.abc import Callable, Sequence

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPixmap

from app import theme
from app.elevation.frame import PictureFrame
from core.setout.result import Mount

LEAST_SCALE_LANDED = 0.17
"""Pixels to the millimetre from which good points show: a full panel of some 50 pixels."""
LEAST_SCALE_MISSED = 0.03


def mount_reach_px(scale: float) -> int:
    """How far a point's sprite may reach past the panel's edge, which is at least a pitch from the point."""
    return (_ring_px(scale) + 3) // 2 if scale >= LEAST_SCALE_MISSED else 1


def _ring_px(scale: float) -> int:
    return max(7, min(17, round(45.0 * scale)))


def paint_mounts(painter: QPainter, mounts: Sequence[Mount], frame: PictureFrame) -> None:
    """Paint the points; missed ones stay visible further out than good ones, for they need work."""
    ratio = painter.device().devicePixelRatioF()
    if frame.scale >= LEAST_SCALE_LANDED:
        dot = _dot(max(3, min(9, round(16.0 * frame.scale))), ratio)
        _stamp(painter, dot, [mount for mount in mounts if mount.lands_on is not None], frame)
    if frame.scale >= LEAST_SCALE_MISSED:
        ring = _ring(_ring_px(frame.scale), ratio)
        _stamp(painter, ring, [mount for mount in mounts if mount.lands_on is None], frame)


def _stamp(painter: QPainter, sprite: QPixmap, mounts: Sequence[Mount], frame: PictureFrame) -> None:
    """Copy a small picture to every point: a tenth of the cost of drawing as many smooth circles."""
    half = int(sprite.deviceIndependentSize().width()) // 2
    for mount in mounts:
        painter.drawPixmap(frame.column_px(mount.x_pitches) - half, frame.half_level_px(mount.z_half_plates) - half, sprite)


def _sprite(size_px: int, ratio: float, draw: Callable[[QPainter, QPointF, float], None]) -> QPixmap:
    side = size_px + 2 + (size_px + 1) % 2
    pixmap = QPixmap(round(side * ratio), round(side * ratio))
    pixmap.setDevicePixelRatio(ratio)
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    painter.setRenderHint(QPainter.RenderHint.Antialiasing)
    draw(painter, QPointF(side / 2, side / 2), size_px / 2)
    painter.end()
    return pixmap


@theme.kept(64)
def _dot(size_px: int, ratio: float) -> QPixmap:
    return _sprite(size_px, ratio, _draw_dot)


def _draw_dot(painter: QPainter, middle: QPointF, radius: float) -> None:
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(QColor(theme.shown.mount_lands))
    painter.drawEllipse(middle, radius, radius)


@theme.kept(64)
def _ring(size_px: int, ratio: float) -> QPixmap:
    return _sprite(size_px, ratio, _draw_ring)


def _draw_ring(painter: QPainter, middle: QPointF, radius: float) -> None:
    """A crossed ring on a light ground that lets a neighbouring ring show through."""
    ground = QColor(theme.shown.card)
    ground.setAlpha(150)
    painter.setBrush(ground)
    painter.setPen(QPen(QColor(theme.shown.mount_misses), 1.4 if radius < 6 else 2.0))
    painter.drawEllipse(middle, radius - 0.5, radius - 0.5)
    reach = (radius - 0.5) * 0.7
    painter.drawLine(middle - QPointF(reach, reach), middle + QPointF(reach, reach))
    painter.drawLine(middle - QPointF(reach, -reach), middle + QPointF(reach, -reach))
