"""One painting of the plan: floor, lining, walls, openings, letters and corners."""

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QFont, QFontMetricsF, QPainter, QPen, QPolygonF

from app import theme
from app.document import Document
from app.plan.scale import PlanScale, opening_ends_mm
from core.room import Opening, wall_letter
from core.units import format_length


@dataclass(frozen=True, slots=True)
class LetterPlace:
    """Where a wall's letter goes, about ``middle`` with the length below it; alone where ``length`` is empty. Pixels."""

    middle: QPointF
    length: str
    length_px: float

    @property
    def letter_at(self) -> QPointF:
        return self.middle - QPointF(0, theme.px(8)) if self.length else self.middle

    @property
    def letter_box(self) -> QRectF:
        wide, high = theme.px(26), theme.px(21)
        return QRectF(self.letter_at.x() - wide / 2, self.letter_at.y() - theme.px(10), wide, high)

    @property
    def box(self) -> QRectF:
        """All that is lettered."""
        if not self.length:
            return self.letter_box.adjusted(theme.px(8), 0, -theme.px(8), 0)
        high = theme.px(18)
        return self.letter_box.united(
            QRectF(self.middle.x() - self.length_px / 2, self.middle.y() + theme.px(10) - high / 2, self.length_px, high)
        )

    def is_clear_of(self, boxes: list[QRectF], lines: list[QLineF]) -> bool:
        """Whether no box and no line is in the way. A line across a box crosses one of its diagonals."""
        box = self.box
        diagonals = QLineF(box.topLeft(), box.bottomRight()), QLineF(box.topRight(), box.bottomLeft())
        return not any(box.intersects(other) for other in boxes) and not any(
            line.intersects(diagonal)[0] == QLineF.IntersectionType.BoundedIntersection
            for line in lines
            for diagonal in diagonals
        )


class PlanDrawing:
    """One painting of the plan."""

    def __init__(self, painter: QPainter, document: Document, scale: PlanScale) -> None:
        self._painter, self._document, self._scale = painter, document, scale
        self._room = document.room

    def draw_still(self, openings: Sequence[Opening], corner: int | None) -> None:
        """What a drag of other openings leaves alone: floor, lining, walls, letters, these openings and the corners."""
        corners = [self._scale.to_px(point) for point in self._room.corners_mm]
        self._painter.setPen(Qt.PenStyle.NoPen)
        self._painter.setBrush(QColor(theme.shown.paper))
        self._painter.drawPolygon(QPolygonF(corners))
        for wall in range(self._room.wall_count):
            self._draw_wall(wall)
        for wall, place in self.letter_places().items():
            self._draw_letter(wall, place, current=wall == self._document.wall)
        self.draw_openings(openings)
        for index, point in enumerate(self._room.corners_mm):
            self._draw_corner(self._scale.to_px(point), chosen=index == corner)

    def draw_openings(self, openings: Iterable[Opening]) -> None:
        """Openings over the walls."""
        for opening in openings:
            self._draw_opening(opening)

    def _draw_wall(self, wall: int) -> None:
        start, end = (self._scale.to_px(p) for p in self._room.wall_ends_mm(wall))
        out = _outwards(start, end)
        current = wall == self._document.wall
        self._painter.setPen(_flat_pen(theme.shown.shell, 5))
        self._painter.drawLine(start - out * 4, end - out * 4)
        self._painter.setPen(QPen(QColor(theme.shown.accent if current else theme.shown.ink), 5 if current else 3))
        self._painter.drawLine(start, end)

    def letter_places(self) -> dict[int, LetterPlace]:
        """Where walls' letters go, the current wall's found first, then the longest's; none where it would lie over another."""
        places: dict[int, LetterPlace] = {}
        longest = sorted(range(self._room.wall_count), key=lambda wall: -self._room.wall_length_mm(wall))
        for wall in sorted(longest, key=lambda wall: wall != self._document.wall):
            place = self._letter_place(wall, [place.box for place in places.values()])
            if place is not None:
                places[wall] = place
        return places

    def _letter_place(self, wall: int, taken: list[QRectF]) -> LetterPlace | None:
        """Outside with the length, else the letter alone outside or inside: where no letters and no other wall are in the way."""
        start, end = (self._scale.to_px(p) for p in self._room.wall_ends_mm(wall))
        out, middle = _outwards(start, end), (start + end) / 2
        full = LetterPlace(middle + out * theme.px(23), self._length_words(wall), self._length_px(wall))
        off = theme.px(round(6 + 6 * abs(out.x()) + 9 * abs(out.y())))
        bare = [LetterPlace(middle + out * side, "", 0.0) for side in (off, -off)]
        others = [self._wall_line(other) for other in range(self._room.wall_count) if other != wall]
        last = bare[0] if wall == self._document.wall else None
        return next((place for place in (full, *bare) if place.is_clear_of(taken, others)), last)

    def _wall_line(self, wall: int) -> QLineF:
        return QLineF(*(self._scale.to_px(p) for p in self._room.wall_ends_mm(wall)))

    def _length_words(self, wall: int) -> str:
        return format_length(self._room.wall_length_mm(wall), self._room.display_units, with_unit=False)

    def _length_px(self, wall: int) -> float:
        font = QFont(self._painter.font())
        font.setPixelSize(theme.px(theme.SMALL_PX))
        return QFontMetricsF(font).horizontalAdvance(self._length_words(wall))

    def _draw_letter(self, wall: int, place: LetterPlace, *, current: bool) -> None:
        font, at = QFont(self._painter.font()), place.letter_at
        if current:
            self._painter.setPen(Qt.PenStyle.NoPen)
            self._painter.setBrush(QColor(theme.shown.accent))
            self._painter.drawRoundedRect(place.letter_box, 3, 3)
        font.setPixelSize(theme.px(17))
        font.setBold(True)
        self._painter.setFont(font)
        self._painter.setPen(QColor(theme.shown.on_accent if current else theme.shown.ink))
        self._painter.drawText(_box(at), Qt.AlignmentFlag.AlignCenter, wall_letter(wall))
        font.setPixelSize(theme.px(theme.SMALL_PX))
        font.setBold(False)
        self._painter.setFont(font)
        self._painter.setPen(QColor(theme.shown.ink))
        self._painter.drawText(_box(at + QPointF(0, theme.px(18))), Qt.AlignmentFlag.AlignCenter, place.length)

    def _draw_opening(self, opening: Opening) -> None:
        start, end = (self._scale.to_px(p) for p in opening_ends_mm(self._room, opening))
        out = _outwards(start, end)
        chosen = self._document.selection == opening.id
        through = opening.kind in ("door", "window")
        ink = QColor(theme.shown.accent if chosen else theme.shown.opening_edge)
        self._painter.setPen(_flat_pen(theme.shown.opening_fill, 12 if through else 5))
        self._painter.drawLine(start - out * 2, end - out * 2)
        self._painter.setPen(QPen(ink, 2.5 if chosen else 1.5))
        for end_point in (start, end):
            self._painter.drawLine(end_point + out * 4, end_point - out * 8)
        inner = 3.0 if opening.kind == "window" else 8.0
        if opening.kind != "door":
            self._painter.drawLine(start - out * inner, end - out * inner)
        if opening.kind in ("window", "niche"):
            self._painter.drawLine(start + out * 2, end + out * 2)

    def _draw_corner(self, point: QPointF, *, chosen: bool) -> None:
        size = 6.5 if chosen else 4.0
        self._painter.setPen(QPen(QColor(theme.shown.accent if chosen else theme.shown.ink), 2))
        self._painter.setBrush(QColor(theme.shown.accent_wash if chosen else theme.shown.card))
        self._painter.drawRect(QRectF(point.x() - size, point.y() - size, 2 * size, 2 * size))


def _flat_pen(colour: str, width: float) -> QPen:
    return QPen(QColor(colour), width, Qt.PenStyle.SolidLine, Qt.PenCapStyle.FlatCap)


def _outwards(start: QPointF, end: QPointF) -> QPointF:
    """The unit vector out of the room: corners run clockwise, so it lies to the left of the way."""
    step = end - start
    length = math.hypot(step.x(), step.y()) or 1.0
    return QPointF(step.y() / length, -step.x() / length)


def _box(middle: QPointF) -> QRectF:
    return QRectF(middle.x() - 90, middle.y() - 18, 180, 36)
