"""The camera: how the strip's millimetres map to the widget's pixels."""

from dataclasses import dataclass, replace

from PySide6.QtCore import QPointF, QRectF, QSize

from app.elevation.strip import StripPoint

LEAST_SCALE = 0.002
MOST_SCALE = 4.0
"""Pixels to the millimetre: from a hundred-metre hall in a small window to a course of forty pixels."""


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle on the strip, in millimetres."""

    left_mm: float
    bottom_mm: float
    right_mm: float
    top_mm: float

    @property
    def centre(self) -> StripPoint:
        return StripPoint((self.left_mm + self.right_mm) / 2, (self.bottom_mm + self.top_mm) / 2)


@dataclass(frozen=True, slots=True)
class Camera:
    """``scale`` pixels to the millimetre; ``left_mm`` and ``top_mm`` lie in the widget's upper left corner."""

    scale: float
    left_mm: float
    top_mm: float

    @classmethod
    def fitting(cls, box: Box, frame: QRectF) -> "Camera":
        """The camera that shows a box centred and as large as it fits into a frame of pixels."""
        wide = max(box.right_mm - box.left_mm, 1.0)
        high = max(box.top_mm - box.bottom_mm, 1.0)
        scale = _bounded(min(max(frame.width(), 1.0) / wide, max(frame.height(), 1.0) / high))
        return cls(scale, 0.0, 0.0).centred(box.centre, frame.center())

    def x_px(self, x_mm: float) -> float:
        return (x_mm - self.left_mm) * self.scale

    def y_px(self, z_mm: float) -> float:
        return (self.top_mm - z_mm) * self.scale

    def to_screen(self, point: StripPoint) -> QPointF:
        return QPointF(self.x_px(point.x_mm), self.y_px(point.z_mm))

    def to_strip(self, pos: QPointF) -> StripPoint:
        return StripPoint(self.left_mm + pos.x() / self.scale, self.top_mm - pos.y() / self.scale)

    def box_px(self, box: Box) -> QRectF:
        """A box in pixels."""
        return QRectF(
            self.to_screen(StripPoint(box.left_mm, box.top_mm)), self.to_screen(StripPoint(box.right_mm, box.bottom_mm))
        )

    def zoomed(self, factor: float, about: QPointF) -> "Camera":
        """The camera nearer or further, with the place under ``about`` staying there."""
        there = self.to_strip(about)
        return replace(self, scale=_bounded(self.scale * factor)).centred(there, about)

    def panned(self, by: QPointF) -> "Camera":
        """The camera with the picture moved by so many pixels."""
        return replace(self, left_mm=self.left_mm - by.x() / self.scale, top_mm=self.top_mm + by.y() / self.scale)

    def centred(self, on: StripPoint, at: QPointF) -> "Camera":
        """The camera moved so that a place on the strip lies at a pixel."""
        return replace(self, left_mm=on.x_mm - at.x() / self.scale, top_mm=on.z_mm + at.y() / self.scale)

    def kept_near(self, box: Box, size: QSize, least_px: float) -> "Camera":
        """The camera moved back where the box would leave the widget but for ``least_px`` pixels."""
        shown = self.box_px(box)
        across = _back(shown.left(), shown.right(), float(size.width()), least_px)
        down = _back(shown.top(), shown.bottom(), float(size.height()), least_px)
        return self.panned(QPointF(across, down)) if across or down else self


def _back(low: float, high: float, size: float, least: float) -> float:
    least = min(least, size / 2)
    if high < least:
        return least - high
    return min(0.0, size - least - low)


def _bounded(scale: float) -> float:
    return max(LEAST_SCALE, min(MOST_SCALE, scale))
