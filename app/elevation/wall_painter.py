"""Painting one wall: frame, panels, timber behind, courses, marks, mounting points and openings, a batch of each."""

from collections import defaultdict
from collections.abc import Iterator, Sequence
from itertools import pairwise
from typing import Protocol

from PySide6.QtCore import QLine, QRect, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPainterPath, QPen, QPolygon

from app import theme
from app.elevation.brick_marks import LEAST_COURSE_PX, BrickSource, LaidSight, paint_bricks, split_laid
from app.elevation.content import PlacedFace, WallContent, grid_box, is_rectangle
from app.elevation.fills import TICKED, panel_brush, size_ticks
from app.elevation.folds import paint_folds
from app.elevation.frame import FLOOR_PX, PictureFrame, Sight
from app.elevation.marks import LEAST_SCALE_GROUND, paint_marks
from app.elevation.mount_marks import paint_mounts
from app.elevation.opening_marks import paint_openings
from app.elevation.progress_marks import paint_states
from app.elevation.timber_marks import paint_bare_timber, paint_timber_behind, timber_rects
from core.room import wall_letter
from core.setout.result import Face, Mount, PanelKind


class Tint(Protocol):
    """Paints panels in the colours of their bricks, and where these meet, over the fills of their kinds."""

    def paint(self, painter: QPainter, wall: int, seen: Sequence[Sight], frame: PictureFrame) -> None: ...


def paint_wall(
    painter: QPainter, content: WallContent, frame: PictureFrame, bricks: BrickSource | None = None, tint: Tint | None = None
) -> None:
    """Paint a wall's region; the painter's origin is the whole picture's upper left corner. Near enough, bricks show."""
    seen = frame.seen(content.faces)
    laid, plain = split_laid(seen, None if tint else bricks, frame)
    timber = timber_rects(content, frame)
    _paint_ground(painter, content, frame)
    paint_bare_timber(painter, timber)
    paint_folds(painter, content, frame)
    _paint_panels(painter, seen, frame)
    if tint is not None:
        tint.paint(painter, content.shell.wall, seen, frame)
    else:
        paint_timber_behind(painter, timber, frame)
    if frame.course_mm * frame.scale >= LEAST_COURSE_PX:
        _paint_courses(painter, content, plain, frame)
    paint_bricks(painter, laid)
    _paint_size_ticks(painter, seen)
    paint_states(painter, seen, frame)
    if tint is None or frame.scale >= LEAST_SCALE_GROUND:
        # From afar marks would hide the very colours that someone wants to see.
        paint_marks(painter, wall_letter(content.shell.wall), seen, frame)
    paint_mounts(painter, _mounts(laid, plain, bricks), frame)
    paint_openings(painter, content.openings, frame)
    _paint_floor(painter, content, frame)


def _mounts(laid: Sequence[LaidSight], plain: Sequence[Sight], bricks: BrickSource | None) -> list[Mount]:
    """Mounting points on bare panels as their designs have them, on bricks where their pin-hole bricks lie."""
    found = [mount for placed, _ in plain for mount in placed.face.mounts]
    return [*found, *(mount for placed, *_ in laid for mount in (bricks.mounts(placed) if bricks else placed.face.mounts))]


def _paint_ground(painter: QPainter, content: WallContent, frame: PictureFrame) -> None:
    wall = frame.rect_mm(0.0, 0.0, content.shell.length_mm, content.clad_height_mm)
    if not wall.contains(frame.clip):
        painter.fillRect(frame.clip, QColor(theme.shown.bench))
    painter.fillRect(wall.intersected(frame.clip), QColor(theme.shown.card))


def _paint_panels(painter: QPainter, seen: Sequence[Sight], frame: PictureFrame) -> None:
    rects: defaultdict[PanelKind, list[QRect]] = defaultdict(list)
    shaped: defaultdict[PanelKind, list[Face]] = defaultdict(list)
    for placed, rect in seen:
        if is_rectangle(placed.face):
            rects[placed.kind].append(rect)
        else:
            shaped[placed.kind].append(placed.face)
    # Once a pixmap brush was set, Qt 6.11 misplaces static text on dense screens until the painter's state is restored.
    painter.save()
    painter.setPen(QPen(QColor(theme.shown.panel_edge), 1 if frame.scale < 0.6 else 2))
    for kind in sorted(rects.keys() | shaped.keys()):
        brush = panel_brush(kind, painter.device().devicePixelRatioF())
        painter.setBrush(brush)
        if rects[kind]:
            painter.drawRects(rects[kind])
        painter.setBrush(Qt.BrushStyle.NoBrush)
        for face in shaped[kind]:
            # A path with a pattern in it takes Qt as long as a hundred such rectangles.
            for slab in _slabs(face, frame):
                painter.fillRect(slab, brush)
            for ring in (face.outline, *face.holes):
                painter.drawPolygon(QPolygon([frame.point(x, z) for x, z in ring]))
    painter.restore()


def _slabs(face: Face, frame: PictureFrame) -> Iterator[QRect]:
    """A shaped face as upright rectangles side by side."""
    rings = (face.outline, *face.holes)
    level = [(*sorted((x0, x1)), z0) for ring in rings for (x0, z0), (x1, z1) in pairwise((*ring, ring[0])) if z0 == z1]
    for left, right in pairwise(sorted({x for ring in rings for x, _ in ring})):
        heights = sorted(z for x0, x1, z in level if x0 <= left and right <= x1)
        for bottom, top in zip(heights[::2], heights[1::2], strict=True):
            upper, lower = frame.point(left, top), frame.point(right, bottom)
            yield QRect(upper.x(), upper.y(), lower.x() - upper.x(), lower.y() - upper.y())


def face_path(face: Face, frame: PictureFrame) -> QPainterPath:
    """A face's outline with its cut-outs left open."""
    path = QPainterPath()
    path.setFillRule(Qt.FillRule.OddEvenFill)
    for ring in (face.outline, *face.holes):
        path.addPolygon(QPolygon([frame.point(x, z) for x, z in ring]))
        path.closeSubpath()
    return path


def _paint_courses(painter: QPainter, content: WallContent, seen: Sequence[Sight], frame: PictureFrame) -> None:
    """Lines between layers, in a darker shade of each panel's own colour: see-through lines would cost twenty times as much."""
    lines: defaultdict[PanelKind, list[QLine]] = defaultdict(list)
    for placed, _ in seen:
        across = _layer_lines(placed, content, frame)
        if is_rectangle(placed.face):
            lines[placed.kind] += across
            continue
        painter.save()
        painter.setClipPath(face_path(placed.face, frame), Qt.ClipOperation.IntersectClip)
        painter.setPen(_course_colour(placed.kind))
        painter.drawLines(across)
        painter.restore()
    for kind, batch in lines.items():
        painter.setPen(_course_colour(kind))
        painter.drawLines(batch)


def _layer_lines(placed: PlacedFace, content: WallContent, frame: PictureFrame) -> list[QLine]:
    row, step = content.rows[placed.row], content.kit.plates_per_course
    bricks = row.z_plates + step * row.courses
    levels = [*range(row.z_plates + step, bricks + 1, step), bricks + 1]
    left, bottom, right, top = grid_box(placed.face)
    x0, x1 = frame.column_px(left) + 1, frame.column_px(right) - 1
    return [QLine(x0, frame.level_px(level), x1, frame.level_px(level)) for level in levels if bottom < level < top]


def _course_colour(kind: PanelKind) -> QColor:
    return theme.shaded(theme.shown.panel_fills[kind], 130)


def _paint_size_ticks(painter: QPainter, seen: Sequence[Sight]) -> None:
    painter.setPen(QPen(QColor(theme.shown.panel_edge), 1))
    painter.drawLines([line for placed, rect in seen if placed.kind in TICKED for line in size_ticks(placed.kind, rect)])


def _paint_floor(painter: QPainter, content: WallContent, frame: PictureFrame) -> None:
    left, right = frame.x_px(0.0), frame.x_px(content.shell.length_mm)
    floor = frame.y_px(0.0)
    painter.fillRect(
        QRect(left, floor + 1, right - left, FLOOR_PX - 2), QBrush(QColor(theme.shown.quiet_ink), Qt.BrushStyle.BDiagPattern)
    )
    painter.fillRect(QRect(left, floor, right - left, 2), QColor(theme.shown.ink))
    painter.setPen(QPen(QColor(theme.shown.edge), 1))
    head = frame.y_px(content.clad_height_mm)
    painter.drawLines([QLine(left, head, left, floor), QLine(right, head, right, floor), QLine(left, head, right, head)])
