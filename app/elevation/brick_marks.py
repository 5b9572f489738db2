"""Bricks drawn on the elevation: joints as lines, what is no plain brick by its shade. Equal panels share one small picture."""

from collections import defaultdict
from collections.abc import Sequence
from dataclasses import dataclass
from typing import Protocol

from PySide6.QtCore import QLine, QPointF, QRect, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPixmap

from app import theme
from app.elevation.bricks import FaceBricks, Sort
from app.elevation.content import PlacedFace
from app.elevation.frame import PictureFrame, Sight
from core.setout.result import Mount, PanelKind

LEAST_COURSE_PX = 5.0
"""Courses closer than this on screen show no bricks."""
HOLE_PITCHES = 0.6
"""A hole of 4.8 mm in pitches of 8.0 mm."""
LEAST_HOLE_PX = 5.0
"""Smaller holes are left to the mounting points' own marks."""
MOST_SPRITE_PX = 250_000
"""Larger panels are drawn each for itself: few are in sight then, and their pictures would take much memory."""

_SHADES: dict[Sort, int] = {"tile": 92, "plate": 112, "pin-hole brick": 132, "other leg": 120}
"""Darker than the panel's own colour, in hundredths; the cap's smooth tiles are lighter."""
BED_SHADE, JOINT_SHADE = 130, 165

LaidSight = tuple[PlacedFace, QRect, FaceBricks]


class BrickSource(Protocol):
    """Where the bricks of a face come from; None while they are not known."""

    def of(self, placed: PlacedFace) -> FaceBricks | None: ...

    def mounts(self, placed: PlacedFace) -> Sequence[Mount]:
        """The mounting points of a face whose bricks are known."""


def shows_bricks(frame: PictureFrame) -> bool:
    """Whether a course is high enough on screen."""
    return frame.course_mm * frame.scale >= LEAST_COURSE_PX


def split_laid(seen: Sequence[Sight], source: BrickSource | None, frame: PictureFrame) -> tuple[list[LaidSight], Sequence[Sight]]:
    """The faces in sight whose bricks are known, and the others; all are others where courses are too low to show any."""
    if source is None or not shows_bricks(frame):
        return [], seen
    laid: list[LaidSight] = []
    others: list[Sight] = []
    for placed, rect in seen:
        bricks = source.of(placed)
        if bricks is None:
            others.append((placed, rect))
        else:
            laid.append((placed, rect, bricks))
    return laid, others


@dataclass(frozen=True, slots=True)
class _Spread:
    """A face's bricks over so many whole pixels; equal faces side by side share one picture, a pixel wider or not."""

    bricks: FaceBricks
    kind: PanelKind
    wide: int
    high: int

    def x(self, pitches: float) -> int:
        return round(pitches * self.wide / self.bricks.pitches)

    def y(self, plates: float) -> int:
        return round((self.bricks.plates - plates) * self.high / self.bricks.plates)


def paint_bricks(painter: QPainter, laid: Sequence[LaidSight]) -> None:
    """Paint the bricks over the panels' plain fills."""
    ratio = painter.device().devicePixelRatioF()
    for placed, rect, bricks in laid:
        spread = _Spread(bricks, placed.kind, rect.width(), rect.height())
        if spread.wide * spread.high <= MOST_SPRITE_PX:
            painter.drawPixmap(rect.topLeft(), _sprite(spread, ratio))
        else:
            painter.translate(rect.topLeft())
            _draw(painter, spread)
            painter.translate(-rect.topLeft())


@theme.kept(32)
def _sprite(spread: _Spread, ratio: float) -> QPixmap:
    pixmap = QPixmap(round(spread.wide * ratio), round(spread.high * ratio))
    pixmap.setDevicePixelRatio(ratio)
    pixmap.fill(Qt.GlobalColor.transparent)
    painter = QPainter(pixmap)
    _draw(painter, spread)
    painter.end()
    return pixmap


def _draw(painter: QPainter, spread: _Spread) -> None:
    """A batch for each colour: grounds of what is no plain brick, beds, upright joints; then the holes."""
    bricks, x, y = spread.bricks, spread.x, spread.y
    rects: defaultdict[Sort, list[QRect]] = defaultdict(list)
    for sort, (left, low, right, high) in bricks.boxes:
        # The panel's own edge stays in sight.
        x0, y0 = x(left) + (left == 0), y(high) + (high == bricks.plates)
        rects[sort].append(QRect(x0, y0, x(right) - x0, y(low) - y0))
    painter.setPen(Qt.PenStyle.NoPen)
    for sort, batch in rects.items():
        painter.setBrush(special_colour(spread.kind, sort))
        painter.drawRects(batch)
    painter.setPen(QPen(_shaded(spread.kind, BED_SHADE), 1))
    painter.drawLines([QLine(x(left) + 1, y(z), x(right) - 1, y(z)) for left, right, z in bricks.beds])
    painter.setPen(QPen(_shaded(spread.kind, JOINT_SHADE), 1))
    painter.drawLines([QLine(x(line), y(high), x(line), y(low) - 1) for line, low, high in bricks.joints])
    _draw_holes(painter, spread)


def special_colour(kind: PanelKind, sort: Sort) -> QColor:
    """The ground of a part on a panel of that kind. Locating plates are black, so that no printer or eye can miss them."""
    return QColor(theme.shown.ink) if sort == "locating plate" else _shaded(kind, _SHADES[sort])


def _shaded(kind: PanelKind, shade: int) -> QColor:
    return theme.shaded(theme.shown.panel_fills[kind], shade)


def _draw_holes(painter: QPainter, spread: _Spread) -> None:
    radius = HOLE_PITCHES * spread.wide / spread.bricks.pitches / 2
    if 2 * radius < LEAST_HOLE_PX:
        return
    painter.setPen(QPen(QColor(theme.shown.ink), 1))
    painter.setBrush(QColor(theme.shown.card))
    for line, half_plates in spread.bricks.holes:
        painter.drawEllipse(QPointF(spread.x(line), spread.y(half_plates / 2)), radius, radius)
