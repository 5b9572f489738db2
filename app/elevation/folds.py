"""The way a corner panel takes round its corner, drawn so that its two faces are seen to be one piece."""

from collections import defaultdict

from PySide6.QtCore import QPoint
from PySide6.QtGui import QColor, QPainter, QPen, QPolygon

from app import theme
from app.elevation.content import PlacedFace, WallContent, solid_spans
from app.elevation.frame import PictureFrame
from app.elevation.strip import FOLD_MM

FOLD_DIP_MM = 18.0
LEFT_SHADE, RIGHT_SHADE = 106, 118
"""The two sides of a fold catch the light differently."""


def paint_folds(painter: QPainter, content: WallContent, frame: PictureFrame) -> None:
    """Half of each corner panel's way round the corner: a band that dips towards the fold, shaded by side."""
    for end, shade in ((-1, LEFT_SHADE), (1, RIGHT_SHADE)):
        polygons = defaultdict(list)
        for placed in content.faces:
            if placed.end == end:
                polygons[placed.kind].extend(_fold_bands(placed, content, frame))
        painter.setPen(QPen(QColor(theme.PANEL_EDGE), 1))
        for kind, bands in polygons.items():
            painter.setBrush(QColor(theme.PANEL_FILLS[kind]).darker(shade))
            for band in bands:
                painter.drawConvexPolygon(band)


def _fold_bands(placed: PlacedFace, content: WallContent, frame: PictureFrame) -> list[QPolygon]:
    length_mm = content.shell.length_mm
    edge = placed.face.right if placed.end > 0 else placed.face.left
    at_panel = frame.column_px(edge)
    at_fold = frame.x_px(length_mm + FOLD_MM / 2) if placed.end > 0 else frame.x_px(-FOLD_MM / 2)
    dip = max(2, round(FOLD_DIP_MM * frame.scale))
    bands = []
    for bottom, top in solid_spans(placed.face, edge - placed.end * 0.5):
        low, high = frame.level_px(bottom), frame.level_px(top)
        corners = [(at_panel, high), (at_fold, high + dip), (at_fold, low - dip), (at_panel, low)]
        bands.append(QPolygon([QPoint(x, y) for x, y in corners]))
    return bands
