"""A kept picture of every wall: a drag repaints the walls whose content changed, a pan none at all."""

from collections.abc import Mapping
from dataclasses import dataclass

from PySide6.QtCore import QPoint, QRect
from PySide6.QtGui import QPainter, QPixmap

from app.elevation.content import WallContent
from app.elevation.frame import PictureFrame, picture_size
from app.elevation.wall_painter import paint_wall

TILE_PX = 512
"""A picture holds the visible part of its wall rounded out to whole tiles, so that small pans find it ready."""


@dataclass(frozen=True, slots=True)
class _Picture:
    content: WallContent
    scale: float
    ratio: float
    region: QRect
    pixmap: QPixmap


class WallPictures:
    """One picture per wall, painted anew only where its content, its scale or its visible part has changed."""

    def __init__(self) -> None:
        self._kept: dict[int, _Picture] = {}

    @property
    def kept(self) -> Mapping[int, object]:
        """The picture of each wall painted so far."""
        return self._kept

    def draw(self, painter: QPainter, content: WallContent, scale: float, corner: QPoint, view: QRect) -> None:
        """Draw a wall with its picture's upper left corner at ``corner``; nothing where none of it lies in the view."""
        whole = QRect(QPoint(0, 0), QPoint(*picture_size(content, scale)) - QPoint(1, 1))
        visible = whole.intersected(view.translated(-corner))
        if visible.isEmpty():
            return
        region = _tiled(visible).intersected(whole)
        picture = self._picture(content, scale, region, painter.device().devicePixelRatioF())
        painter.drawPixmap(corner + picture.region.topLeft(), picture.pixmap)

    def _picture(self, content: WallContent, scale: float, region: QRect, ratio: float) -> _Picture:
        wall = content.shell.wall
        kept = self._kept.get(wall)
        if kept and (kept.scale, kept.ratio) == (scale, ratio) and kept.region.contains(region) and kept.content == content:
            return kept
        same_size = kept is not None and (kept.region.size(), kept.ratio) == (region.size(), ratio)
        pixmap = kept.pixmap if kept and same_size else _blank(region, ratio)
        _paint(pixmap, content, scale, region)
        self._kept[wall] = fresh = _Picture(content, scale, ratio, region, pixmap)
        return fresh


def _blank(region: QRect, ratio: float) -> QPixmap:
    pixmap = QPixmap(region.size() * ratio)
    pixmap.setDevicePixelRatio(ratio)
    return pixmap


def _paint(pixmap: QPixmap, content: WallContent, scale: float, region: QRect) -> None:
    """Paint over all of a picture, which a drag does into the same memory again and again."""
    painter = QPainter(pixmap)
    painter.translate(-region.topLeft())
    paint_wall(painter, content, PictureFrame.of(content, scale, region))
    painter.end()


def _tiled(rect: QRect) -> QRect:
    left, top = rect.left() // TILE_PX * TILE_PX, rect.top() // TILE_PX * TILE_PX
    right, bottom = -(-(rect.right() + 1) // TILE_PX) * TILE_PX, -(-(rect.bottom() + 1) // TILE_PX) * TILE_PX
    return QRect(left, top, right - left, bottom - top)
