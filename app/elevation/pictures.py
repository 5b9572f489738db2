"""A kept picture of every wall: a drag repaints the walls whose content changed, a pan none at all."""

from collections.abc import Container, Mapping
from dataclasses import dataclass, replace

from PySide6.QtCore import QPoint, QRect, QSize
from PySide6.QtGui import QPainter, QPixmap

from app.elevation.brick_marks import BrickSource, shows_bricks
from app.elevation.changes import changed_parts, parts_round, same_ground
from app.elevation.content import WallContent
from app.elevation.frame import PictureFrame, picture_size
from app.elevation.mount_marks import mount_reach_px
from app.elevation.wall_painter import Tint, paint_wall

TILE_PX = 256
"""A picture holds the visible part of its wall rounded out to whole tiles, so that small pans find it ready."""


@dataclass(frozen=True, slots=True)
class _Picture:
    content: WallContent
    frame: PictureFrame
    ratio: float
    pixmap: QPixmap

    def shows(self, scale: float, region: QRect, ratio: float) -> bool:
        return (self.frame.scale, self.ratio) == (scale, ratio) and self.frame.region.contains(region)


class WallPictures:
    """One picture per wall, painted anew only where its content, its scale or its visible part has changed."""

    def __init__(self, bricks: BrickSource | None = None) -> None:
        self._kept: dict[int, _Picture] = {}
        self._bricks = bricks
        self._tint: Tint | None = None

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
        painter.drawPixmap(corner + picture.frame.region.topLeft(), picture.pixmap)

    def show_tint(self, tint: Tint | None) -> None:
        """Paint everything anew, with other colours or with none."""
        self._tint = tint
        self.forget()

    def forget(self) -> None:
        """Paint everything anew."""
        self._kept.clear()

    def repaint(self, marks: Container[str]) -> None:
        """Paint panels anew whose bricks have become known."""
        for kept in self._kept.values():
            if not shows_bricks(kept.frame):
                continue
            faces = [placed for placed, _ in kept.frame.seen(kept.content.faces) if placed.mark in marks]
            for part in parts_round(faces, kept.content, kept.frame):
                self._paint(kept.pixmap, kept.content, kept.frame.clipped(part, mount_reach_px(kept.frame.scale)))

    def _picture(self, content: WallContent, scale: float, region: QRect, ratio: float) -> _Picture:
        wall = content.shell.wall
        kept = self._kept.get(wall)
        if kept is None or not kept.shows(scale, region, ratio) or not same_ground(kept.content, content):
            kept = self._kept[wall] = self._new(kept, content, PictureFrame.of(content, scale, region), ratio)
        elif kept.content is not content:
            for part in changed_parts(kept.content, content, kept.frame):
                self._paint(kept.pixmap, content, kept.frame.clipped(part, mount_reach_px(scale)))
            kept = self._kept[wall] = replace(kept, content=content)
        return kept

    def _new(self, old: _Picture | None, content: WallContent, frame: PictureFrame, ratio: float) -> _Picture:
        """Paint all of a picture, into the old one's memory where that is as large."""
        size = frame.region.size()
        pixmap = old.pixmap if old and (old.frame.region.size(), old.ratio) == (size, ratio) else blank(size, ratio)
        self._paint(pixmap, content, frame)
        return _Picture(content, frame, ratio, pixmap)

    def _paint(self, pixmap: QPixmap, content: WallContent, frame: PictureFrame) -> None:
        """Paint over the frame's clip, which a drag does into the same memory again and again."""
        painter = QPainter(pixmap)
        painter.translate(-frame.region.topLeft())
        painter.setClipRect(frame.clip)
        paint_wall(painter, content, frame, self._bricks, self._tint)
        painter.end()


def blank(size: QSize, ratio: float) -> QPixmap:
    """A picture of that size in logical pixels, with nothing painted on it yet."""
    pixmap = QPixmap(size * ratio)
    pixmap.setDevicePixelRatio(ratio)
    return pixmap


def _tiled(rect: QRect) -> QRect:
    left, top = rect.left() // TILE_PX * TILE_PX, rect.top() // TILE_PX * TILE_PX
    right, bottom = -(-(rect.right() + 1) // TILE_PX) * TILE_PX, -(-(rect.bottom() + 1) // TILE_PX) * TILE_PX
    return QRect(left, top, right - left, bottom - top)
