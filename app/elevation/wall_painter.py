"""Painting one wall: frame, panels, timber behind, courses, mounting points, marks and openings, a batch of each."""

from collections import defaultdict

from PySide6.QtCore import QLine, QPoint, QPointF, QRect, QRectF, Qt
from PySide6.QtGui import QBrush, QColor, QPainter, QPainterPath, QPen, QPolygon

from app import theme
from app.elevation import lettering
from app.elevation.content import PlacedFace, WallContent, grid_box, is_rectangle, roomiest_box, solid_spans
from app.elevation.frame import FLOOR_PX, PictureFrame
from app.elevation.mount_marks import paint_mounts
from app.elevation.opening_marks import paint_openings
from app.elevation.strip import FOLD_MM
from core.room import wall_letter
from core.setout.result import Face, PanelKind

LEAST_COURSE_PX = 5.0
"""Courses closer than this on screen are left out."""
LEAST_STUD_PX = 7
"""Narrower studs show as a tint, wider ones also with their edges dashed, as hidden edges are drawn."""
LEAST_SCALE_LABEL_GROUND = 0.2
"""From here on studs show with their edges, and marks need a ground of their own to be read over them."""
FOLD_DIP_MM = 18.0
HATCHES = {
    "closer": Qt.BrushStyle.BDiagPattern,
    "shaped": Qt.BrushStyle.DiagCrossPattern,
    "shaped-corner": Qt.BrushStyle.DiagCrossPattern,
}
MARK_SIZES_PX = (15, 13, 12, 11, 10)


def paint_wall(painter: QPainter, content: WallContent, frame: PictureFrame) -> None:
    """Paint a wall's region; the painter's origin is the whole picture's upper left corner."""
    seen = [placed for placed in content.faces if frame.sees(frame.rect(grid_box(placed.face)))]
    _paint_ground(painter, content, frame)
    _paint_folds(painter, content, frame)
    _paint_panels(painter, seen, frame)
    _paint_timber_behind(painter, content, frame)
    if frame.plate_mm * content.kit.plates_per_course * frame.scale >= LEAST_COURSE_PX:
        _paint_courses(painter, content, seen, frame)
    _paint_size_ticks(painter, seen, frame)
    paint_mounts(painter, [mount for placed in seen for mount in placed.face.mounts], frame)
    _paint_marks(painter, wall_letter(content.shell.wall), seen, frame)
    paint_openings(painter, content.openings, frame)
    _paint_floor(painter, content, frame)


def _paint_ground(painter: QPainter, content: WallContent, frame: PictureFrame) -> None:
    painter.fillRect(frame.region, QColor(theme.BENCH))
    wall = frame.rect_mm(0.0, 0.0, content.shell.length_mm, content.clad_height_mm)
    painter.fillRect(wall, QColor(theme.CARD))
    painter.setPen(QPen(QColor(theme.TIMBER_EDGE), 1))
    painter.setBrush(QColor(theme.TIMBER))
    painter.drawRects(_timber_rects(content, frame))


def _timber_rects(content: WallContent, frame: PictureFrame) -> list[QRect]:
    rects = (frame.rect_mm(t.left_mm, t.bottom_mm, t.left_mm + t.width_mm, t.bottom_mm + t.height_mm) for t in content.timber)
    return [rect for rect in rects if frame.sees(rect)]


def _paint_panels(painter: QPainter, seen: list[PlacedFace], frame: PictureFrame) -> None:
    rects: defaultdict[PanelKind, list[QRect]] = defaultdict(list)
    paths: dict[PanelKind, QPainterPath] = {}
    for placed in seen:
        kind = placed.panel.kind
        if is_rectangle(placed.face):
            rects[kind].append(frame.rect(grid_box(placed.face)))
        else:
            paths.setdefault(kind, QPainterPath()).addPath(face_path(placed.face, frame))
    pen = QPen(QColor(theme.PANEL_EDGE), 1 if frame.scale < 0.6 else 2)
    for kind in sorted(rects.keys() | paths.keys()):
        brushes = [QBrush(QColor(theme.PANEL_FILLS[kind]))]
        if kind in HATCHES and frame.scale > 0.03:
            brushes.append(QBrush(_hatch_colour(kind), HATCHES[kind]))
        painter.setPen(pen)
        for brush in brushes:
            painter.setBrush(brush)
            if kind in rects:
                painter.drawRects(rects[kind])
            if kind in paths:
                painter.drawPath(paths[kind])


def _hatch_colour(kind: PanelKind) -> QColor:
    return QColor(theme.PANEL_FILLS[kind]).darker(126)


def face_path(face: Face, frame: PictureFrame) -> QPainterPath:
    """A face's outline with its cut-outs left open."""
    path = QPainterPath()
    path.setFillRule(Qt.FillRule.OddEvenFill)
    for ring in (face.outline, *face.holes):
        path.addPolygon(QPolygon([frame.point(x, z) for x, z in ring]))
        path.closeSubpath()
    return path


def _paint_folds(painter: QPainter, content: WallContent, frame: PictureFrame) -> None:
    """Half of each corner panel's way round the corner: a band that dips towards the fold, shaded by side."""
    for end, shade in ((-1, 106), (1, 118)):
        polygons = defaultdict(list)
        for placed in content.faces:
            if placed.end == end:
                polygons[placed.panel.kind].extend(_fold_bands(placed, content, frame))
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


def _paint_timber_behind(painter: QPainter, content: WallContent, frame: PictureFrame) -> None:
    rects = _timber_rects(content, frame)
    tint = QColor(theme.TIMBER)
    tint.setAlpha(70)
    painter.setPen(Qt.PenStyle.NoPen)
    painter.setBrush(tint)
    painter.drawRects(rects)
    wide = [rect for rect in rects if min(rect.width(), rect.height()) >= LEAST_STUD_PX]
    pen = QPen(QColor(theme.TIMBER_EDGE), 1, Qt.PenStyle.CustomDashLine)
    pen.setDashPattern([5, 4])
    painter.setPen(pen)
    painter.drawLines([line for rect in wide for line in _long_edges(rect)])


def _long_edges(rect: QRect) -> list[QLine]:
    left, top, right, bottom = rect.left(), rect.top(), rect.left() + rect.width(), rect.top() + rect.height()
    if rect.height() >= rect.width():
        return [QLine(left, top, left, bottom), QLine(right, top, right, bottom)]
    return [QLine(left, top, right, top), QLine(left, bottom, right, bottom)]


def _paint_courses(painter: QPainter, content: WallContent, seen: list[PlacedFace], frame: PictureFrame) -> None:
    faint = QColor(theme.PANEL_EDGE)
    faint.setAlpha(70)
    pen = QPen(faint, 1)
    step = content.kit.plates_per_course
    for placed in seen:
        row = content.rows[placed.panel.row]
        bricks = row.z_plates + step * row.courses
        levels = [*range(row.z_plates + step, bricks + 1, step), bricks + 1]
        left, bottom, right, top = grid_box(placed.face)
        inside = [frame.level_px(level) for level in levels if bottom < level < top]
        painter.setPen(pen)
        if not is_rectangle(placed.face):
            painter.setClipPath(face_path(placed.face, frame))
        painter.drawLines([QLine(frame.column_px(left), y, frame.column_px(right), y) for y in inside])
        painter.setClipping(False)


def _paint_size_ticks(painter: QPainter, seen: list[PlacedFace], frame: PictureFrame) -> None:
    """Half-height and half-width panels carry a tick at the middle of the edges that a full panel has twice as long."""
    lines = []
    for placed in seen:
        kind = placed.panel.kind
        rect = frame.rect(grid_box(placed.face))
        tick = min(6, rect.width() // 4, rect.height() // 4)
        right, bottom = rect.left() + rect.width(), rect.top() + rect.height()
        if kind in ("half-height", "quarter"):
            y = rect.center().y()
            lines += [QLine(rect.left(), y, rect.left() + tick, y), QLine(right - tick, y, right, y)]
        if kind in ("half-width", "quarter"):
            x = rect.center().x()
            lines += [QLine(x, rect.top(), x, rect.top() + tick), QLine(x, bottom - tick, x, bottom)]
    painter.setPen(QPen(QColor(theme.PANEL_EDGE), 1))
    painter.drawLines(lines)


def _paint_marks(painter: QPainter, letter: str, seen: list[PlacedFace], frame: PictureFrame) -> None:
    """Each mark in the largest size that fits; its place alone where the whole does not; nothing where that is too long."""
    sized: defaultdict[int, list[tuple[QPointF, str]]] = defaultdict(list)
    for placed in seen:
        rect = frame.rect(roomiest_box(placed.face))
        mark = placed.panel.mark
        texts = [mark, mark.rsplit("-", 1)[-1]] if mark.startswith(f"{letter}-") else [mark]
        if fitting := _fitting(texts, rect):
            text, size = fitting
            sized[size].append((QPointF(rect.x() + rect.width() / 2, rect.y() + rect.height() / 2), text))
    if frame.scale >= LEAST_SCALE_LABEL_GROUND:
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(_label_ground())
        painter.drawRects([_label_box(centre, text, size) for size, labels in sized.items() for centre, text in labels])
    painter.setPen(QColor(theme.INK))
    for size, labels in sized.items():
        painter.setFont(lettering.font(size))
        for centre, text in labels:
            lettering.write(painter, centre, text, size)


def _fitting(texts: list[str], rect: QRect) -> tuple[str, int] | None:
    """A whole mark wants air around it; a place alone only has to fit."""
    for text, air in zip(texts, (0.9, 0.5), strict=False):
        for size in MARK_SIZES_PX:
            if lettering.width_px(text, size) + air * size <= rect.width() and size + 3 <= rect.height():
                return text, size
    return None


def _label_ground() -> QColor:
    ground = QColor(theme.CARD)
    ground.setAlpha(170)
    return ground


def _label_box(centre: QPointF, text: str, size: int) -> QRectF:
    wide, high = lettering.width_px(text, size) + 6, size + 4
    return QRectF(round(centre.x() - wide / 2), round(centre.y() - high / 2), round(wide), high)


def _paint_floor(painter: QPainter, content: WallContent, frame: PictureFrame) -> None:
    left, right = frame.x_px(0.0), frame.x_px(content.shell.length_mm)
    floor = frame.y_px(0.0)
    painter.fillRect(
        QRect(left, floor + 1, right - left, FLOOR_PX - 2), QBrush(QColor(theme.QUIET_INK), Qt.BrushStyle.BDiagPattern)
    )
    painter.fillRect(QRect(left, floor, right - left, 2), QColor(theme.INK))
    painter.setPen(QPen(QColor(theme.EDGE), 1))
    head = frame.y_px(content.clad_height_mm)
    painter.drawLines([QLine(left, head, left, floor), QLine(right, head, right, floor), QLine(left, head, right, head)])
