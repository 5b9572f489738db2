"""Bricks drawn on the elevation: joints as lines, what is no plain brick by its shade, a batch for each colour."""

from collections import defaultdict
from collections.abc import Sequence
from functools import lru_cache
from typing import Protocol

from PySide6.QtCore import QLine, QPointF, QRect, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from app import theme
from app.elevation.bricks import FaceBricks, Sort
from app.elevation.content import GridBox, PlacedFace, grid_box
from app.elevation.frame import PictureFrame, Sight
from core.setout.result import PanelKind

LEAST_COURSE_PX = 5.0
"""Courses closer than this on screen show no bricks."""
HOLE_MM = 4.8
LEAST_HOLE_PX = 5.0
"""Smaller holes are left to the mounting points' own marks."""

_SHADES: dict[Sort, int] = {"tile": 92, "plate": 112, "pin-hole brick": 132, "other leg": 120}
"""Darker than the panel's own colour, in hundredths; the cap's smooth tiles are lighter."""
JOINT_SHADE = 165

LaidSight = tuple[PlacedFace, FaceBricks]


class BrickSource(Protocol):
    """Where the bricks of a face come from; None while they are not known."""

    def of(self, placed: PlacedFace) -> FaceBricks | None: ...


def laid_in(seen: Sequence[Sight], source: BrickSource | None, frame: PictureFrame) -> list[LaidSight]:
    """The faces in sight whose bricks are known; none where courses are too low to show any."""
    if source is None or not shows_bricks(frame):
        return []
    pairs = ((placed, source.of(placed)) for placed, _ in seen)
    return [(placed, bricks) for placed, bricks in pairs if bricks is not None]


def shows_bricks(frame: PictureFrame) -> bool:
    """Whether a course is high enough on screen."""
    return frame.course_mm * frame.scale >= LEAST_COURSE_PX


def paint_special(painter: QPainter, laid: Sequence[LaidSight], frame: PictureFrame) -> None:
    """Grounds of everything that is no plain brick. Locating plates are black, so that no printer or eye can miss them."""
    rects: defaultdict[tuple[PanelKind, Sort], list[QRect]] = defaultdict(list)
    for placed, bricks in laid:
        for sort, rect in _rects(bricks, *grid_box(placed.face)[:2], frame.columns, frame.levels):
            rects[placed.kind, sort].append(rect)
    painter.setPen(Qt.PenStyle.NoPen)
    for (kind, sort), batch in sorted(rects.items()):
        painter.setBrush(special_colour(kind, sort))
        painter.drawRects(batch)


def special_colour(kind: PanelKind, sort: Sort) -> QColor:
    """The ground of a part on a panel of that kind."""
    return QColor(theme.INK) if sort == "locating plate" else QColor(theme.PANEL_FILLS[kind]).darker(_SHADES[sort])


def paint_joints(painter: QPainter, laid: Sequence[LaidSight], frame: PictureFrame) -> None:
    """Every upright joint in one call for each colour, then the holes."""
    lines: defaultdict[PanelKind, list[QLine]] = defaultdict(list)
    for placed, bricks in laid:
        lines[placed.kind] += _lines(bricks, *grid_box(placed.face)[:2], frame.columns, frame.levels)
    for kind, batch in sorted(lines.items()):
        painter.setPen(QPen(joint_colour(kind), 1))
        painter.drawLines(batch)
    _paint_holes(painter, laid, frame)


def joint_colour(kind: PanelKind) -> QColor:
    """Joints, in a darker shade of the panel's own colour."""
    return QColor(theme.PANEL_FILLS[kind]).darker(JOINT_SHADE)


def _paint_holes(painter: QPainter, laid: Sequence[LaidSight], frame: PictureFrame) -> None:
    radius = HOLE_MM * frame.scale / 2
    if 2 * radius < LEAST_HOLE_PX:
        return
    painter.setPen(QPen(QColor(theme.INK), 1))
    painter.setBrush(QColor(theme.CARD))
    for placed, bricks in laid:
        left, bottom, _, _ = grid_box(placed.face)
        for x, half_plates in bricks.holes:
            centre = QPointF(frame.column_px(left + x), frame.half_level_px(2 * bottom + half_plates))
            painter.drawEllipse(centre, radius, radius)


@lru_cache(maxsize=256)
def _lines(bricks: FaceBricks, left: int, bottom: int, columns: tuple[int, ...], levels: tuple[int, ...]) -> list[QLine]:
    """A face's joints in the picture's pixels: kept, for most faces stay where they are while something moves beside them."""
    return [
        QLine(x_px, levels[2 * (bottom + high)], x_px, levels[2 * (bottom + low)] - 1)
        for x, low, high in bricks.joints
        for x_px in (columns[left + x],)
    ]


@lru_cache(maxsize=256)
def _rects(
    bricks: FaceBricks, left: int, bottom: int, columns: tuple[int, ...], levels: tuple[int, ...]
) -> list[tuple[Sort, QRect]]:
    def rect(box: GridBox) -> QRect:
        x0, x1 = columns[left + box[0]], columns[left + box[2]]
        y0, y1 = levels[2 * (bottom + box[3])], levels[2 * (bottom + box[1])]
        return QRect(x0, y0, max(x1 - x0, 1), max(y1 - y0, 1))

    return [(sort, rect(box)) for sort, box in bricks.boxes]
