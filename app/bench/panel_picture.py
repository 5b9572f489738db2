"""The whole panel from the front: what is laid, the course that is due, and what is still to come."""

from dataclasses import dataclass

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from app import theme
from app.bench.job import BenchJob
from core.bond.result import Layer
from core.sheets.panel_legs import LegSpan

BETWEEN_LEGS_PX = 26.0


@dataclass(frozen=True, slots=True)
class PanelPicture:
    """A panel fitted into a frame of pixels; every layer below ``due`` is laid."""

    job: BenchJob
    frame: QRectF
    due: int
    from_back: bool

    @property
    def scale(self) -> float:
        """Pixels to the millimetre."""
        kit, spans = self.job.kit, self.job.spans
        wide = sum(span.width for span in spans) * kit.pitch_mm
        high = self._plates * kit.plate_mm
        room = self.frame.width() - (len(spans) - 1) * BETWEEN_LEGS_PX
        return max(0.01, min(room / wide, self.frame.height() / high))

    @property
    def _plates(self) -> int:
        return max(layer.z_plates + layer.height_plates for layer in self.job.layers)

    def legs(self) -> list[tuple[LegSpan, float]]:
        """The legs as they stand from the left, each with its left edge."""
        placed = []
        x = self.frame.left()
        for span in reversed(self.job.spans) if self.from_back else self.job.spans:
            placed.append((span, x))
            x += span.width * self.job.kit.pitch_mm * self.scale + BETWEEN_LEGS_PX
        return placed

    @property
    def right(self) -> float:
        span, left = self.legs()[-1]
        return left + span.width * self.job.kit.pitch_mm * self.scale

    def level(self, plates: int) -> float:
        return self.frame.bottom() - plates * self.job.kit.plate_mm * self.scale

    def boxes(self, layer: Layer) -> list[QRectF]:
        """A layer's parts as the viewer sees them."""
        front = self.job.bond.depth - 1 if self.from_back else 0
        top, bottom = self.level(layer.z_plates + layer.height_plates), self.level(layer.z_plates)
        found = []
        for span, left in self.legs():
            for laid in layer.laid:
                if laid.leg != span.leg or laid.side not in (None, front):
                    continue
                knobs = span.end - laid.at - laid.length if self.from_back else laid.at - span.begin
                x = left + knobs * self.job.kit.pitch_mm * self.scale
                found.append(QRectF(x, top, laid.length * self.job.kit.pitch_mm * self.scale, bottom - top))
        return found


def paint_picture(painter: QPainter, picture: PanelPicture) -> None:
    """Paint the panel: laid courses grey, the due one black between two pointers, the rest in outline."""
    layers = picture.job.layers
    painter.setPen(QPen(QColor(theme.shown.sheet), 1))
    painter.setBrush(QColor(theme.shown.laid))
    painter.drawRects([box for layer in layers[: picture.due] for box in picture.boxes(layer)])
    painter.setPen(QPen(QColor(theme.shown.to_come), 1))
    painter.setBrush(Qt.BrushStyle.NoBrush)
    painter.drawRects([box for layer in layers[picture.due + 1 :] for box in picture.boxes(layer)])
    if picture.due < len(layers):
        painter.setPen(QPen(QColor(theme.shown.sheet), 1))
        painter.setBrush(QColor(theme.shown.ink))
        painter.drawRects(picture.boxes(layers[picture.due]))
        _paint_pointers(painter, picture, layers[picture.due])
    painter.setPen(QPen(QColor(theme.shown.ink), 2))
    bottom = picture.frame.bottom() + 1
    painter.drawLine(QLineF(picture.frame.left() - 8, bottom, picture.right + 8, bottom))


def _paint_pointers(painter: QPainter, picture: PanelPicture, layer: Layer) -> None:
    y = (picture.level(layer.z_plates) + picture.level(layer.z_plates + layer.height_plates)) / 2
    painter.setPen(Qt.PenStyle.NoPen)
    for tip, back in ((picture.frame.left() - 5, -16), (picture.right + 5, 16)):
        painter.drawPolygon(QPolygonF([QPointF(tip, y), QPointF(tip + back, y - 9), QPointF(tip + back, y + 9)]))
