"""Which parts of a wall's picture another content changes: a drag paints these anew and leaves the rest."""

from collections.abc import Iterable, Iterator

from PySide6.QtCore import QRect

from app.elevation.content import PlacedFace, WallContent, grid_box
from app.elevation.folds import fold_box
from app.elevation.frame import PictureFrame
from app.elevation.mount_marks import mount_reach_px
from app.elevation.opening_marks import opening_rect
from app.elevation.timber_marks import timber_rect

MOST_PARTS = 3
"""Each part is painted for itself: rectangular clips cost nothing, others several times as much as they save."""
NEAR_PX = 24
LINE_PX = 2
"""How far the widest line reaches past what it goes round."""


def same_ground(one: WallContent, other: WallContent) -> bool:
    """Whether two contents lie on one grid, so that a picture frame of either serves both."""
    grounds = ((c.shell, c.rows, c.kit, c.clad_height_mm, c.top_mm) for c in (one, other))
    return next(grounds) == next(grounds)


def changed_parts(before: WallContent, now: WallContent, frame: PictureFrame) -> list[QRect]:
    """Where two contents on the same ground look different: a few rectangles side by side, from left to right."""
    unshared = list(_unshared_faces(before.faces, now.faces))
    if len(unshared) > len(now.faces):
        return [frame.region]
    return _parts([*_face_boxes(unshared, now, frame), *_other_boxes(before, now, frame)], frame)


def parts_round(faces: Iterable[PlacedFace], content: WallContent, frame: PictureFrame) -> list[QRect]:
    """Where those faces are: a few rectangles side by side, from left to right."""
    return _parts(_face_boxes(faces, content, frame), frame)


def _parts(boxes: Iterable["Edges"], frame: PictureFrame) -> list[QRect]:
    parts: list[Edges] = []
    for left, top, right, bottom in sorted(boxes):
        if parts and left <= parts[-1][2] + NEAR_PX:
            parts[-1] = _united(parts[-1], (left, top, right, bottom))
        else:
            parts.append((left, top, right, bottom))
    while len(parts) > MOST_PARTS:
        gap = min(range(1, len(parts)), key=lambda n: parts[n][0] - parts[n - 1][2])
        parts[gap - 1 : gap + 1] = [_united(parts[gap - 1], parts[gap])]
    rects = (QRect(left, top, right - left, bottom - top).intersected(frame.region) for left, top, right, bottom in parts)
    return [rect for rect in rects if not rect.isEmpty()]


Edges = tuple[int, int, int, int]
"""Left, top, right and bottom in pixels."""


def _united(one: Edges, other: Edges) -> Edges:
    return min(one[0], other[0]), min(one[1], other[1]), max(one[2], other[2]), max(one[3], other[3])


def _face_boxes(faces: Iterable[PlacedFace], content: WallContent, frame: PictureFrame) -> Iterator[Edges]:
    spread = mount_reach_px(frame.scale)
    for placed in faces:
        left, bottom, right, top = grid_box(placed.face)
        yield (
            frame.column_px(left) - spread,
            frame.level_px(top) - spread,
            frame.column_px(right) + spread,
            frame.level_px(bottom) + spread,
        )
        if placed.end:
            yield _wider(fold_box(placed, content, frame))


def _other_boxes(before: WallContent, now: WallContent, frame: PictureFrame) -> Iterator[Edges]:
    if before.timber != now.timber:
        yield from (_wider(timber_rect(member, frame)) for member in set(before.timber) ^ set(now.timber))
    if before.openings != now.openings:
        yield from (_wider(opening_rect(opening, frame)) for opening in set(before.openings) ^ set(now.openings))


def _unshared_faces(before: tuple[PlacedFace, ...], now: tuple[PlacedFace, ...]) -> Iterator[PlacedFace]:
    """Faces that only one content has. Equal faces are the same objects, so no two need comparing."""
    then, there = {id(placed) for placed in before}, {id(placed) for placed in now}
    yield from (placed for placed in before if id(placed) not in there)
    yield from (placed for placed in now if id(placed) not in then)


def _wider(rect: QRect) -> Edges:
    left, top = rect.left() - LINE_PX, rect.top() - LINE_PX
    return left, top, left + rect.width() + 2 * LINE_PX, top + rect.height() + 2 * LINE_PX
