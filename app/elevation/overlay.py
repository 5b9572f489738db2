"""What changes with every pointer move, drawn over the wall pictures: hover, selection, dimensions, snap lines, refusals."""

from collections.abc import Iterable, Sequence

from PySide6.QtCore import QLineF, QPointF, QRectF, Qt
from PySide6.QtGui import QColor, QPainter, QPainterPath, QPen, QPolygonF

from app import theme
from app.elevation import lettering
from app.elevation.camera import Box, Camera
from app.elevation.gestures import Guide, Wanted
from app.elevation.strip import Strip, StripPoint, WallPoint
from core.language import tr
from core.room import Opening, Room
from core.setout.metric import ring_mm
from core.setout.result import Panel, SetOut
from core.units import format_length

GRIP_PX = 7.0
BAND_ALPHA = 36
LABEL_PX = 13
GUIDE_PX = 12
TICK_PX = 5.0
STUD_DIMENSION_PX = 20
"""How far above the floor a stud's distance is written."""
ROOMY_PX = 96.0
"""An opening at least this wide and high carries its width and height apart and inside; a smaller one in one label above."""


def opening_box(strip: Strip, opening: Wanted) -> Box:
    """The place on the strip of an opening, or of what was wanted like one."""
    start = strip.starts_mm[opening.wall]
    return Box(start + opening.left_mm, opening.sill_mm, start + opening.right_mm, opening.head_mm)


class Overlay:
    """Draws over the walls of one set-out seen through one camera."""

    def __init__(self, painter: QPainter, setout: SetOut, strip: Strip, camera: Camera) -> None:
        self._painter, self._setout, self._strip, self._camera = painter, setout, strip, camera

    @property
    def _room(self) -> Room:
        return self._setout.room

    def hover_panel(self, panel: Panel) -> None:
        self._outline([panel], QPen(QColor(theme.shown.accent), 2))

    def select_panels(self, panels: Sequence[Panel]) -> None:
        """Outline every face; a corner panel's two faces belong together, so both are marked."""
        self._outline(panels, QPen(QColor(theme.shown.card), 5), QPen(QColor(theme.shown.accent), 3))

    def _outline(self, panels: Sequence[Panel], *pens: QPen) -> None:
        path = QPainterPath()
        for panel in panels:
            for face in panel.faces:
                for ring in (face.outline, *face.holes):
                    places = (WallPoint(face.wall, x, z) for x, z in ring_mm(self._setout, face.wall, ring))
                    path.addPolygon(QPolygonF([self._screen(place) for place in places]))
                    path.closeSubpath()
        self._painter.setBrush(Qt.BrushStyle.NoBrush)
        for pen in pens:
            self._painter.setPen(pen)
            self._painter.drawPath(path)

    def band(self, box: Box) -> None:
        """The band that is being drawn round what is to be chosen."""
        fill = QColor(theme.shown.accent)
        fill.setAlpha(BAND_ALPHA)
        self._painter.setPen(QPen(QColor(theme.shown.accent), 1.5, Qt.PenStyle.DashLine))
        self._painter.setBrush(fill)
        self._painter.drawRect(self._camera.box_px(box))

    def choose_opening(self, opening: Opening) -> None:
        """Outline one of several chosen openings; grips and dimensions are the current one's."""
        self._painter.setPen(QPen(QColor(theme.shown.accent), 3))
        self._painter.setBrush(Qt.BrushStyle.NoBrush)
        self._painter.drawRect(self._shown(opening))

    def hover_opening(self, opening: Opening) -> None:
        self._painter.setPen(QPen(QColor(theme.shown.accent), 2))
        self._painter.setBrush(Qt.BrushStyle.NoBrush)
        self._painter.drawRect(self._shown(opening))

    def select_opening(self, opening: Opening) -> None:
        """Outline with the grips that resize it; the small ones keep clear of the opening."""
        shown = self._shown(opening)
        self.choose_opening(opening)
        self._painter.setPen(QPen(QColor(theme.shown.accent), 1.5))
        self._painter.setBrush(QColor(theme.shown.card))
        self._painter.drawRects([_square(at) for at in _grips(shown)])

    def stud(self, wall: int, centre_mm: float, stud_mm: float) -> None:
        """Outline a stud over what hides it, and say how far its middle is from the wall's left end."""
        start, half = self._strip.starts_mm[wall] + centre_mm, stud_mm / 2
        shown = self._camera.box_px(Box(start - half, 0.0, start + half, self._room.clad_height_mm))
        self._painter.setBrush(Qt.BrushStyle.NoBrush)
        for pen in (QPen(QColor(theme.shown.card), 4), QPen(QColor(theme.shown.accent), 2)):
            self._painter.setPen(pen)
            self._painter.drawRect(shown)
        y = round(min(shown.bottom(), self._painter.viewport().height() - 30.0)) - theme.px(STUD_DIMENSION_PX) + 0.5
        self._across(QLineF(self._wall_px(wall).left(), y, shown.center().x(), y), centre_mm)

    def refused(self, wanted: Wanted) -> None:
        """Where the opening or stud was wanted but cannot go: a crossed ghost."""
        shown = self._shown(wanted)
        self._painter.setPen(QPen(QColor(theme.shown.mount_misses), 2, Qt.PenStyle.DashLine))
        self._painter.setBrush(Qt.BrushStyle.NoBrush)
        self._painter.drawRect(shown)
        self._painter.drawLine(shown.topLeft(), shown.bottomRight())
        self._painter.drawLine(shown.topRight(), shown.bottomLeft())

    def guides(self, guides: Iterable[Guide]) -> None:
        """The lines that edges have snapped to, each named at its end."""
        pen = QPen(QColor(theme.shown.snap_line), 1.5, Qt.PenStyle.DashDotLine)
        for guide in guides:
            line = self._guide_line(guide)
            self._painter.setPen(pen)
            self._painter.drawLine(line)
            up, size = guide.axis == "across", theme.px(GUIDE_PX)
            end = line.p1() + QPointF(0, 12) if up else line.p2() + QPointF(46, 0)
            name = tr(guide.kind)
            box = self._kept_inside(lettering.pill_box(end, name, size))
            lettering.pill(self._painter, box, name, size, QColor(theme.shown.snap_line), QColor(theme.shown.card))

    def _guide_line(self, guide: Guide) -> QLineF:
        length = self._strip.lengths_mm[guide.wall]
        if guide.axis == "across":
            foot = self._screen(WallPoint(guide.wall, guide.at_mm, 0.0))
            head = self._screen(WallPoint(guide.wall, guide.at_mm, self._room.clad_height_mm))
            return QLineF(foot + QPointF(0, 12), head - QPointF(0, 12))
        left = self._screen(WallPoint(guide.wall, 0.0, guide.at_mm))
        right = self._screen(WallPoint(guide.wall, length, guide.at_mm))
        return QLineF(left, right)

    def dimensions(self, opening: Opening) -> None:
        """Distances to the wall's ends and the floor, width and height, in the room's units."""
        shown = self._shown(opening)
        wall_px = self._wall_px(opening.wall)
        middle = round(shown.center().y()) + 0.5
        right_mm = self._room.wall_length_mm(opening.wall) - opening.right_mm
        self._across(QLineF(wall_px.left(), middle, shown.left(), middle), opening.left_mm)
        self._across(QLineF(shown.right(), middle, wall_px.right(), middle), right_mm)
        self._up(QLineF(shown.center().x(), shown.bottom(), shown.center().x(), wall_px.bottom()), opening.sill_mm)
        self._sizes(opening, shown)

    def _sizes(self, opening: Opening, shown: QRectF) -> None:
        width, height = self._length(opening.width_mm), self._length(opening.height_mm)
        if min(shown.width(), shown.height()) < theme.px(ROOMY_PX):
            above = QPointF(shown.center().x(), shown.top() - theme.px(18))
            self._label(above, f"{format_length(opening.width_mm, self._room.display_units, with_unit=False)} × {height}")
            return
        top = shown.top() + theme.px(18)
        self._label(QPointF(shown.center().x(), top), width)
        box = lettering.pill_box(QPointF(0, 0), height, theme.px(LABEL_PX))
        # Below the width, which it would cover in an opening that is hardly wider than both.
        down = max(shown.top() + shown.height() * 0.22, top + box.height() + 2)
        self._label(QPointF(shown.right() - box.width() / 2 - 8, down), height)

    def _across(self, line: QLineF, length_mm: float) -> None:
        """A level dimension; its label moves towards the wall's end where there is no room for it."""
        if length_mm <= 0:
            return
        self._dimension_line(line, QPointF(TICK_PX, -TICK_PX))
        text = self._length(length_mm)
        centre = line.center()
        lack = lettering.pill_box(centre, text, theme.px(LABEL_PX)).width() + 6 - line.length()
        if lack > 0:
            at_left = line.p1().x() < self._wall_middle(line)
            centre += QPointF(-lack / 2 if at_left else lack / 2, 0)
        self._label(centre, text)

    def _wall_middle(self, line: QLineF) -> float:
        point = self._strip.nearest(self._camera.to_strip(line.center()))
        return self._wall_px(point.wall).center().x()

    def _up(self, line: QLineF, length_mm: float) -> None:
        if length_mm <= 0:
            return
        self._dimension_line(line, QPointF(TICK_PX, -TICK_PX))
        text = self._length(length_mm)
        box = lettering.pill_box(line.center(), text, theme.px(LABEL_PX))
        aside = QPointF(box.width() / 2 + 10, 0) if line.length() < box.height() + 16 else QPointF(0, 0)
        self._label(line.center() + aside, text)

    def _dimension_line(self, line: QLineF, tick: QPointF) -> None:
        """A line ended by oblique strokes, as ISO 129-1 allows, on a pale line that keeps it readable over panels."""
        strokes = [line, *(QLineF(end - tick, end + tick) for end in (line.p1(), line.p2()))]
        self._painter.setPen(QPen(QColor(theme.shown.card), 4))
        self._painter.drawLines(strokes)
        self._painter.setPen(QPen(QColor(theme.shown.accent), 1.5))
        self._painter.drawLines(strokes)

    def _label(self, centre: QPointF, text: str) -> None:
        box = self._kept_inside(lettering.pill_box(centre, text, theme.px(LABEL_PX)))
        lettering.pill(self._painter, box, text, theme.px(LABEL_PX), QColor(theme.shown.accent), QColor(theme.shown.on_accent))

    def _kept_inside(self, box: QRectF) -> QRectF:
        view = QRectF(self._painter.viewport()).adjusted(4, 4, -4, -4)
        across = max(0.0, view.left() - box.left()) - max(0.0, box.right() - view.right())
        down = max(0.0, view.top() - box.top()) - max(0.0, box.bottom() - view.bottom())
        return box.translated(across, down)

    def _length(self, mm: float) -> str:
        return format_length(mm, self._room.display_units)

    def _screen(self, place: WallPoint) -> QPointF:
        return self._camera.to_screen(self._strip.place(place))

    def _shown(self, opening: Wanted) -> QRectF:
        return self._camera.box_px(opening_box(self._strip, opening))

    def _wall_px(self, wall: int) -> QRectF:
        start = self._strip.starts_mm[wall]
        low, high = StripPoint(start, 0.0), StripPoint(start + self._strip.lengths_mm[wall], self._room.clad_height_mm)
        return self._camera.box_px(Box(*low, *high))


def _grips(shown: QRectF) -> list[QPointF]:
    """Corners always; the middles of edges that are long enough to show them apart."""
    points = [shown.topLeft(), shown.topRight(), shown.bottomLeft(), shown.bottomRight()]
    middle = shown.center()
    if shown.width() >= GRIP_PX * 5:
        points += [QPointF(middle.x(), shown.top()), QPointF(middle.x(), shown.bottom())]
    if shown.height() >= GRIP_PX * 5:
        points += [QPointF(shown.left(), middle.y()), QPointF(shown.right(), middle.y())]
    return points if min(shown.width(), shown.height()) >= GRIP_PX * 2 else []


def _square(at: QPointF) -> QRectF:
    return QRectF(round(at.x()) - GRIP_PX / 2, round(at.y()) - GRIP_PX / 2, GRIP_PX, GRIP_PX)
