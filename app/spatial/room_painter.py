"""Paints the room standing up: the floor, then wall after wall from the furthest to the nearest."""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from functools import cached_property

from PySide6.QtCore import QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen, QPolygonF, QTransform

from app import theme
from app.elevation import lettering
from app.elevation.hits import face_on
from app.elevation.strip import WallPoint
from app.spatial.forms import WallForm
from app.spatial.viewpoint import Projection, far_to_near
from core.room import Opening, Room, wall_letter
from core.setout.result import Panel

LETTER_PX, SMALL_LETTER_PX = 16, 12
FEW_WALLS = 16
"""With more walls than this their letters are small."""
HALO_PX = 4.0
NAME_PX = 12
OUTSIDE_PX = 20.0
"""How far a cut-away wall's letter stands outside it."""
HATCH_PX = 6.0
COARSEST_SHADE = 8
"""Per cent: how much darker the walls on one side are than those on the other, so that corners show."""
REACH_PX = 7.0
"""A press this near to a cut-away wall's foot is meant for it."""


@dataclass(frozen=True, slots=True)
class Chosen:
    """What the person is busy with."""

    wall: int
    opening: Opening | None = None
    panel: Panel | None = None
    hover: Panel | Opening | None = None


@dataclass(frozen=True)
class RoomPicture:
    """A room's forms seen through one projection."""

    room: Room
    forms: Sequence[WallForm]
    projection: Projection

    @cached_property
    def order(self) -> list[int]:
        """Wall numbers from the furthest to the nearest."""
        return far_to_near(self.projection.viewpoint, [form.ends for form in self.forms])

    @cached_property
    def transforms(self) -> list[QTransform]:
        """By wall: from wall millimetres to pixels."""
        return [self.projection.upright(form.foot, form.along) for form in self.forms]

    def stands(self, wall: int) -> bool:
        """Whether a wall shows its face; otherwise it is cut away."""
        return self.projection.viewpoint.sees_face(self.forms[wall].along)

    @property
    def standing(self) -> list[int]:
        return [form.wall for form in self.forms if self.stands(form.wall)]

    def place(self, point: WallPoint) -> QPointF:
        """The pixel of a place on a wall."""
        return self.transforms[point.wall].map(QPointF(point.x_mm, point.z_mm))

    def hit(self, pos: QPointF) -> str | int | None:
        """What lies at a pixel: an opening's id, a panel's mark, else a wall's number; the nearest wall first."""
        for wall in reversed(self.order):
            if self.stands(wall) and (found := self._hit_wall(wall, pos)) is not None:
                return found
        feet = ((self._foot_distance(wall, pos), wall) for wall in range(len(self.forms)) if not self.stands(wall))
        near = min(feet, default=(math.inf, 0))
        return near[1] if near[0] <= REACH_PX else None

    def _hit_wall(self, wall: int, pos: QPointF) -> str | int | None:
        back, may_invert = self.transforms[wall].inverted()
        form = self.forms[wall]
        at = back.map(pos)
        inside = form.left_mm <= at.x() <= form.right_mm and 0.0 <= at.y() <= form.content.top_mm
        if not (may_invert and inside):
            return None
        for opening in form.content.openings:
            if opening.left_mm <= at.x() <= opening.right_mm and opening.sill_mm <= at.y() <= opening.head_mm:
                return opening.id
        if at.y() > form.content.clad_height_mm:
            return None
        placed = face_on(form.content, WallPoint(wall, at.x(), at.y()))
        return placed.mark if placed else wall

    def _foot_distance(self, wall: int, pos: QPointF) -> float:
        form = self.forms[wall]
        a, b = (self.transforms[wall].map(QPointF(x, 0.0)) for x in (form.left_mm, form.right_mm))
        along = b - a
        length = QPointF.dotProduct(along, along)
        share = max(0.0, min(1.0, QPointF.dotProduct(pos - a, along) / length)) if length else 0.0
        gap = pos - a - along * share
        return math.hypot(gap.x(), gap.y())

    def paint(self, painter: QPainter, chosen: Chosen) -> None:
        """Paint everything; the ground behind it is the caller's."""
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_floor(painter)
        for wall in self.order:
            if self.stands(wall):
                self._paint_standing(painter, wall, is_current=wall == chosen.wall)
            else:
                self._paint_cut_away(painter, wall, is_current=wall == chosen.wall)
        self._paint_chosen(painter, chosen)
        self._paint_names(painter)
        self._paint_letters(painter, chosen.wall)
        if chosen.panel is not None:
            self._paint_name(painter, chosen.panel.mark, self._above(chosen.panel))

    def _paint_floor(self, painter: QPainter) -> None:
        painter.setPen(QPen(QColor(theme.shown.edge), 1))
        painter.setBrush(QColor(theme.shown.paper))
        painter.drawPolygon(QPolygonF([self.projection.point(x, y) for x, y in self.room.corners_mm]))

    def _paint_standing(self, painter: QPainter, wall: int, *, is_current: bool) -> None:
        form, turn = self.forms[wall], self.transforms[wall]
        shade = self._shade(form)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(theme.shown.card).darker(shade))
        painter.drawPath(turn.map(form.outline))
        hatches = form.hatches(self._hatch_spacing_mm)
        for kind, path in form.fills.items():
            colour = QColor(theme.shown.panel_fills[kind]).darker(shade)
            painter.fillPath(turn.map(path), colour)
            if kind in hatches:
                painter.setPen(QPen(theme.shaded(colour.name(), 150), 1))
                painter.setBrush(Qt.BrushStyle.NoBrush)
                _draw(painter, turn, hatches[kind])
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(QColor(theme.shown.panel_edge), 1))
        _draw(painter, turn, form.joints)
        self._paint_signs(painter, form, turn)
        self._paint_openings(painter, form, turn)
        painter.setPen(QPen(QColor(theme.shown.ink), 1.6, j=Qt.PenJoinStyle.MiterJoin))
        painter.drawPath(turn.map(form.outline))
        self._paint_foot(painter, form, turn, is_current=is_current)

    @staticmethod
    def _paint_signs(painter: QPainter, form: WallForm, turn: QTransform) -> None:
        painter.setPen(QPen(QColor(theme.shown.ink), 1.6))
        _draw(painter, turn, form.signs)
        painter.setPen(Qt.PenStyle.NoPen)
        painter.setBrush(QColor(theme.shown.ink))
        _draw(painter, turn, form.bars)

    @staticmethod
    def _paint_openings(painter: QPainter, form: WallForm, turn: QTransform) -> None:
        painter.setBrush(QColor(theme.shown.opening_fill))
        painter.setPen(QPen(QColor(theme.shown.opening_edge), 1.6, j=Qt.PenJoinStyle.MiterJoin))
        _draw(painter, turn, form.openings)
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.setPen(QPen(QColor(theme.shown.quiet_ink), 1))
        _draw(painter, turn, form.opening_lines)

    def _paint_cut_away(self, painter: QPainter, wall: int, *, is_current: bool) -> None:
        """Outlines only, so that the far side of the room shows through."""
        form, turn = self.forms[wall], self.transforms[wall]
        painter.setBrush(Qt.BrushStyle.NoBrush)
        pen = QPen(QColor(theme.shown.quiet_ink), 1)
        pen.setDashPattern([5.0, 4.0])
        painter.setPen(pen)
        painter.drawPath(turn.map(form.outline))
        painter.setPen(QPen(QColor(theme.shown.quiet_ink), 1))
        _draw(painter, turn, form.openings)
        self._paint_foot(painter, form, turn, is_current=is_current)

    @staticmethod
    def _paint_foot(painter: QPainter, form: WallForm, turn: QTransform, *, is_current: bool) -> None:
        foot = QPainterPath(QPointF(form.left_mm, 0.0))
        foot.lineTo(form.right_mm, 0.0)
        painter.setPen(QPen(QColor(theme.shown.accent if is_current else theme.shown.ink), 4 if is_current else 2))
        painter.drawPath(turn.map(foot))

    def _shade(self, form: WallForm) -> int:
        """Darker the further a wall looks to the right."""
        across, _ = self.projection.viewpoint.across_and_away(form.along[1], -form.along[0])
        return 100 + round(COARSEST_SHADE * (across + 1) / 2)

    @property
    def _hatch_spacing_mm(self) -> float:
        """Twice as wide or half as wide when the room is seen from further or nearer, so that the kept hatch mostly serves."""
        return float(2.0 ** math.ceil(math.log2(HATCH_PX / self.projection.scale)))

    def _paint_chosen(self, painter: QPainter, chosen: Chosen) -> None:
        painter.setBrush(Qt.BrushStyle.NoBrush)
        if isinstance(chosen.hover, Panel):
            self._outline(painter, self._panel_path(chosen.hover), 2.0)
        elif chosen.hover is not None:
            self._outline(painter, self._opening_path(chosen.hover), 2.0)
        if chosen.panel is not None:
            self._outline(painter, self._panel_path(chosen.panel), 3.0)
        if chosen.opening is not None:
            self._outline(painter, self._opening_path(chosen.opening), 3.0)

    @staticmethod
    def _outline(painter: QPainter, path: QPainterPath, wide_px: float) -> None:
        painter.setPen(QPen(QColor(theme.shown.card), wide_px + 2))
        painter.drawPath(path)
        painter.setPen(QPen(QColor(theme.shown.accent), wide_px))
        painter.drawPath(path)

    def _panel_path(self, panel: Panel) -> QPainterPath:
        path = QPainterPath()
        for face in panel.faces:
            path.addPath(self.transforms[face.wall].map(self.forms[face.wall].face_path(face)))
        return path

    def _opening_path(self, opening: Opening) -> QPainterPath:
        path = QPainterPath()
        path.addRect(QRectF(opening.left_mm, opening.sill_mm, opening.width_mm, opening.height_mm))
        return self.transforms[opening.wall].map(path)

    def _above(self, panel: Panel) -> QPointF:
        box = self._panel_path(panel).boundingRect()
        return QPointF(box.center().x(), box.top() - theme.px(13))

    @staticmethod
    def _paint_name(painter: QPainter, text: str, centre: QPointF) -> None:
        box = lettering.pill_box(centre, text, theme.px(NAME_PX + 1))
        lettering.pill(painter, box, text, theme.px(NAME_PX + 1), QColor(theme.shown.accent), QColor(theme.shown.on_accent))

    def _paint_letters(self, painter: QPainter, current: int) -> None:
        """Over a standing wall, outside the foot of one that is cut away; none where it would stand on another wall or letter."""
        size = theme.px(LETTER_PX) if len(self.forms) <= FEW_WALLS else theme.px(SMALL_LETTER_PX)
        taken: list[QRectF] = []
        for wall in sorted(range(len(self.forms)), key=lambda wall: wall != current):
            letter, place = wall_letter(wall), self.letter_place(wall)
            box = lettering.pill_box(place, letter, size)
            if wall != current and (self.is_covered(wall, place) or any(box.intersects(other) for other in taken)):
                continue
            taken.append(box)
            if wall == current:
                lettering.pill(painter, box, letter, size, QColor(theme.shown.accent), QColor(theme.shown.on_accent))
            else:
                _write_clear(painter, box, letter, size)

    def _paint_names(self, painter: QPainter) -> None:
        """The names of openings that are wide enough in sight to hold them."""
        painter.setFont(lettering.font(theme.px(NAME_PX)))
        for opening in self.room.openings:
            box = self._opening_path(opening).boundingRect()
            fits = lettering.width_px(opening.id, theme.px(NAME_PX)) + 14 <= box.width() and box.height() >= 3 * theme.px(NAME_PX)
            if fits and not self.is_covered(opening.wall, box.center()):
                high = lettering.line_height_px(NAME_PX)
                ground = QRectF(0, 0, lettering.width_px(opening.id, theme.px(NAME_PX)) + 6, high)
                ground.moveCenter(box.center())
                painter.fillRect(ground, QColor(theme.shown.opening_fill if self.stands(opening.wall) else theme.shown.paper))
                painter.setPen(QColor(theme.shown.quiet_ink))
                lettering.write(painter, box.center(), opening.id, theme.px(NAME_PX))

    def is_covered(self, wall: int, pos: QPointF) -> bool:
        """Whether a standing wall nearer than this one lies over a pixel."""
        nearer = self.order[self.order.index(wall) + 1 :]
        return any(self.stands(other) and self.transforms[other].map(self.forms[other].outline).contains(pos) for other in nearer)

    def letter_place(self, wall: int) -> QPointF:
        """The middle of a wall's letter."""
        form = self.forms[wall]
        middle_mm = (form.left_mm + form.right_mm) / 2
        if self.stands(wall):
            return self.place(WallPoint(wall, middle_mm, form.content.clad_height_mm)) - QPointF(0.0, theme.px(LETTER_PX))
        x, y = form.plan(middle_mm)
        foot = self.projection.point(x, y)
        outwards = self.projection.point(x - form.along[1], y + form.along[0]) - foot
        length = math.hypot(outwards.x(), outwards.y()) or 1.0
        return foot + outwards * (theme.px(OUTSIDE_PX) / length)


def _draw(painter: QPainter, turn: QTransform, path: QPainterPath) -> None:
    """A kept path, turned; an empty one would leave a path without data in an SVG."""
    if not path.isEmpty():
        painter.drawPath(turn.map(path))


def _write_clear(painter: QPainter, box: QRectF, text: str, size_px: int) -> None:
    """Text with a rim of the ground's colour, so that lines do not run into it."""
    font = lettering.font(size_px, bold=True)
    width = lettering.width_px(text, size_px, bold=True)
    path = QPainterPath()
    path.addText(QPointF(box.center().x() - width / 2, box.center().y() + 0.36 * size_px), font, text)
    painter.strokePath(path, QPen(QColor(theme.shown.bench), HALO_PX, j=Qt.PenJoinStyle.RoundJoin))
    painter.fillPath(path, QColor(theme.shown.ink))
