"""The way a corner panel takes round its corner, drawn so that its two faces are seen to be one piece."""

from collections import defaultdict

from PySide6.QtCore import QPoint, QRect
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
        if not frame.sees(_fold_zone(end, content, frame)):
            continue
        polygons = defaultdict(list)
        for placed in content.faces:
            if placed.end == end:
                polygons[placed.kind].extend(_fold_bands(placed, content, frame))
        painter.setPen(QPen(QColor(theme.shown.panel_edge), 1))
        for kind, bands in polygons.items():
            painter.setBrush(QColor(theme.shown.panel_fills[kind]).darker(shade))
            for band in bands:
                painter.drawConvexPolygon(band)


def _fold_zone(end: int, content: WallContent, frame: PictureFrame) -> QRect:
    """Where the bands at an end of the wall may lie."""
    at_shell = frame.column_px(content.shell.pitches if end > 0 else 0)
    at_fold = frame.x_px(content.shell.length_mm + FOLD_MM / 2 if end > 0 else -FOLD_MM / 2)
    return QRect(QPoint(min(at_shell, at_fold), frame.region.top()), QPoint(max(at_shell, at_fold), frame.region.bottom()))


def fold_box(placed: PlacedFace, content: WallContent, frame: PictureFrame) -> QRect:
    """The box of a corner panel's bands."""
    at_panel, at_fold = _fold_ends(placed, content, frame)
    dip = _dip_px(frame)
    high, low = frame.level_px(placed.face.top), frame.level_px(placed.face.bottom)
    return QRect(QPoint(min(at_panel, at_fold), high - dip), QPoint(max(at_panel, at_fold), low + dip))


def _fold_ends(placed: PlacedFace, content: WallContent, frame: PictureFrame) -> tuple[int, int]:
    """Where the bands leave the panel, and where they meet the fold."""
    if placed.end > 0:
        return frame.column_px(placed.face.right), frame.x_px(content.shell.length_mm + FOLD_MM / 2)
    return frame.column_px(placed.face.left), frame.x_px(-FOLD_MM / 2)


def _dip_px(frame: PictureFrame) -> int:
    return max(2, round(FOLD_DIP_MM * frame.scale))


def _fold_bands(placed: PlacedFace, content: WallContent, frame: PictureFrame) -> list[QPolygon]:
    edge = placed.face.right if placed.end > 0 else placed.face.left
    at_panel, at_fold = _fold_ends(placed, content, frame)
    dip = _dip_px(frame)
    bands = []
    for bottom, top in solid_spans(placed.face, edge - placed.end * 0.5):
        low, high = frame.level_px(bottom), frame.level_px(top)
        corners = [(at_panel, high), (at_fold, high + dip), (at_fold, low - dip), (at_panel, low)]
        bands.append(QPolygon([QPoint(x, y) for x, y in corners]))
    return bands
