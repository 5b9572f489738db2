"""Which parts of a wall's picture another content changes: a drag paints these anew and leaves the rest."""

from collections.abc import Iterator

from PySide6.QtCore import QRect
from PySide6.QtGui import QRegion

from app.elevation.content import PlacedFace, WallContent, grid_box
from app.elevation.folds import fold_box
from app.elevation.frame import PictureFrame
from app.elevation.mount_marks import mount_reach_px
from app.elevation.opening_marks import opening_rect
from app.elevation.timber_marks import timber_rect

LINE_PX = 2
"""How far the widest line reaches past what it goes round."""


def same_ground(one: WallContent, other: WallContent) -> bool:
    """Whether two contents lie on one grid, so that a picture frame of either serves both."""
    grounds = ((c.shell, c.rows, c.kit, c.clad_height_mm, c.top_mm) for c in (one, other))
    return next(grounds) == next(grounds)


def changed_region(before: WallContent, now: WallContent, frame: PictureFrame) -> QRegion:
    """Where two contents on the same ground look different."""
    region = QRegion()
    for rect in _changed_rects(before, now, frame):
        region += rect
    return region.intersected(frame.region)


def _changed_rects(before: WallContent, now: WallContent, frame: PictureFrame) -> Iterator[QRect]:
    spread = mount_reach_px(frame.scale)
    for placed in _unshared_faces(before.faces, now.faces):
        yield frame.rect(grid_box(placed.face)).adjusted(-spread, -spread, spread, spread)
        if placed.end:
            yield _wider(fold_box(placed, now, frame))
    if before.timber != now.timber:
        yield from (_wider(timber_rect(member, frame)) for member in set(before.timber) ^ set(now.timber))
    if before.openings != now.openings:
        yield from (_wider(opening_rect(opening, frame)) for opening in set(before.openings) ^ set(now.openings))


def _unshared_faces(before: tuple[PlacedFace, ...], now: tuple[PlacedFace, ...]) -> Iterator[PlacedFace]:
    """Faces that only one content has. Equal faces are the same objects, so no two need comparing."""
    then, there = {id(placed) for placed in before}, {id(placed) for placed in now}
    yield from (placed for placed in before if id(placed) not in there)
    yield from (placed for placed in now if id(placed) not in then)


def _wider(rect: QRect) -> QRect:
    return rect.adjusted(-LINE_PX, -LINE_PX, LINE_PX, LINE_PX)
