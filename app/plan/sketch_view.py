"""Views of an outline on large paper: one that only shows, and one to sketch on."""

import math
from collections.abc import Sequence

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, QSizeF, Qt
from PySide6.QtGui import QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QPolygonF, QResizeEvent, QWheelEvent
from PySide6.QtWidgets import QSizePolicy, QWidget

from app import theme
from app.plan.paper import Dimension, Paper
from app.plan.scale import PlanScale, fit_points
from app.plan.sketch_hand import Lock, SketchHand
from app.plan.words import outline_words
from app.spoken import describe
from core.language import tr
from core.room import Point, Units
from core.units import format_length

MARGIN_PX = 84.0
REACH_PX = 13.0
OFF_PX = 34.0
FIRST_SIGHT: tuple[Point, Point] = ((-800.0, -800.0), (6000.0, 4600.0))
"""What is in sight before there is anything to see."""
POINTER_MM = 500.0
HEADINGS = {Qt.Key.Key_Right: 0.0, Qt.Key.Key_Up: 90.0, Qt.Key.Key_Left: 180.0, Qt.Key.Key_Down: 270.0}


class OutlineView(QWidget):
    """Shows an outline, fitted, with the dimensions that matter just now."""

    def __init__(self, units: Units) -> None:
        super().__init__()
        self._units = units
        self._points: tuple[Point, ...] = ()
        self._closed = True
        self._dimensions: tuple[Dimension, ...] = ()
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self.setAccessibleName(tr("Outline of the room"))

    @property
    def points(self) -> tuple[Point, ...]:
        return self._points

    @property
    def dimensions(self) -> tuple[Dimension, ...]:
        return self._dimensions

    def show_outline(self, points: Sequence[Point], *, closed: bool = True, dimensions: Sequence[Dimension] = ()) -> None:
        """Show corners, joined up where closed, and dimension lines over them."""
        self._points, self._closed, self._dimensions = tuple(points), closed, tuple(dimensions)
        describe(self, outline_words(self._points, self._units, closed=closed))
        self.update()

    def scale_now(self) -> PlanScale:
        points = self._points or FIRST_SIGHT
        return fit_points(points, self.width(), self.height(), theme.px(MARGIN_PX))

    def sizeHint(self) -> QSize:
        return QSize(760, 520)

    def minimumSizeHint(self) -> QSize:
        return QSize(420, 320)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        paper = Paper(painter, self.scale_now(), QSizeF(self.size()), self._units)
        paper.draw_ground()
        self.paint_on(paper)
        painter.end()

    def paint_on(self, paper: Paper) -> None:
        """What lies on the ground."""
        if self._points:
            paper.draw_outline(self._points, closed=self._closed)
        for dimension in self._dimensions:
            paper.draw_dimension(dimension, off_px=self._inwards(dimension))

    def _inwards(self, dimension: Dimension) -> float:
        """How far a dimension along a wall stands off it, into the room; one across the room stands where it is."""
        scale = self.scale_now()
        outline = QPolygonF([scale.to_px(point) for point in self._points])
        one, other = scale.to_px(dimension.start), scale.to_px(dimension.end)
        length = math.hypot((other - one).x(), (other - one).y()) or 1.0
        right = QPointF(-(other - one).y(), (other - one).x()) / length * OFF_PX
        inside = [outline.containsPoint((one + other) / 2 + off, Qt.FillRule.OddEvenFill) for off in (right, -right)]
        return 0.0 if inside[0] == inside[1] else OFF_PX if inside[0] else -OFF_PX


class SketchView(OutlineView):
    """Turns clicks and keys into corners by way of a hand."""

    def __init__(self, units: Units, hand: SketchHand, behind: Sequence[Point] = ()) -> None:
        super().__init__(units)
        self.setAccessibleName(tr("Paper to sketch the room on"))
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setCursor(Qt.CursorShape.CrossCursor)
        self.hand = hand
        self._behind = tuple(behind)
        self._sight: tuple[Point, ...] = tuple(behind) or FIRST_SIGHT
        self._scale: PlanScale | None = None
        hand.changed.connect(self._follow)
        describe(self, outline_words(hand.sketch.points_mm, units, closed=hand.sketch.is_closed))

    def scale_now(self) -> PlanScale:
        """Holds still while someone sketches, until something goes out of sight."""
        if self._scale is None:
            self._scale = fit_points(self._sight, self.width(), self.height(), theme.px(MARGIN_PX))
        return self._scale

    def resizeEvent(self, _event: QResizeEvent) -> None:
        self._scale = None

    def wheelEvent(self, event: QWheelEvent) -> None:
        """Zoom about the pointer."""
        scale, spot = self.scale_now(), event.position()
        there = scale.to_mm(spot)
        nearer = min(5.0, max(0.002, scale.px_per_mm * 1.2 ** (event.angleDelta().y() / 120)))
        self._scale = PlanScale(nearer, spot.x() - there[0] * nearer, spot.y() + there[1] * nearer)
        event.accept()
        self.update()

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        self._point(event)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() == Qt.MouseButton.LeftButton:
            self._point(event)
            self.hand.fix()
        elif event.button() == Qt.MouseButton.RightButton:
            self.hand.take_back()

    def _point(self, event: QMouseEvent) -> None:
        scale = self.scale_now()
        self.hand.point(scale.to_mm(event.position()), _lock(event.modifiers()), REACH_PX / scale.px_per_mm)

    def event(self, event: QEvent) -> bool:
        """Letters and figures typed here are lengths, not the window's shortcuts."""
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent) and not _is_command(event):
            event.accept()
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        key, hand = Qt.Key(event.key()), self.hand
        if key in (Qt.Key.Key_Return, Qt.Key.Key_Enter):
            hand.confirm()
        elif key == Qt.Key.Key_Backspace:
            hand.take_back()
        elif key == Qt.Key.Key_Escape:
            hand.give_up()
        elif key in HEADINGS:
            turned = event.modifiers() & Qt.KeyboardModifier.ShiftModifier
            turns = {Qt.Key.Key_Left: 45.0, Qt.Key.Key_Right: -45.0}
            hand.head(hand.heading_deg + turns.get(key, 0.0) if turned else HEADINGS[key])
        elif _is_command(event) or not hand.write(event.text()):
            super().keyPressEvent(event)

    def _follow(self) -> None:
        """Keep all that is sketched in sight."""
        hand = self.hand
        describe(self, outline_words(hand.sketch.points_mm, self._units, closed=hand.sketch.is_closed))
        seen = [*hand.sketch.points_mm, *(hand.walked or ()), *([hand.end] if hand.end and hand.typed else [])]
        frame = QRectF(self.rect()).adjusted(30, 30, -30, -30)
        if hand.sketch.is_closed or hand.walked:
            self._sight, self._scale = tuple(seen), None
        elif seen and not all(frame.contains(self.scale_now().to_px(point)) for point in seen):
            self._sight, self._scale = (*FIRST_SIGHT, *seen), None
        self.update()

    def paint_on(self, paper: Paper) -> None:
        hand, sketch = self.hand, self.hand.sketch
        if self._behind:
            paper.draw_behind(self._behind)
        if hand.walked:
            paper.draw_outline(hand.walked, closed=False)
            paper.draw_line(hand.walked[-1], hand.walked[0], dashed=True, colour=theme.shown.mount_misses)
            paper.draw_target(hand.walked[0])
            return
        if sketch.points_mm:
            paper.draw_outline(sketch.points_mm, closed=sketch.is_closed)
        if sketch.is_closed:
            return
        self._paint_aim(paper)

    def _paint_aim(self, paper: Paper) -> None:
        hand, last, end = self.hand, self.hand.last, self.hand.end
        if last is None:
            if hand.aim is not None:
                paper.draw_target(hand.aim)
            return
        first = hand.sketch.points_mm[0]
        if end is None or math.dist(last, end) < 1:
            paper.draw_line(last, self._pointer(last), dashed=True)
            return
        if hand.meets_first:
            paper.draw_target(first)
        elif end[0] == first[0] or end[1] == first[1]:
            paper.draw_guide(first, end)
        paper.draw_line(last, end, dashed=not hand.typed)
        text = f"{hand.typed}▏" if hand.typed else format_length(math.dist(last, end), self._units)
        paper.draw_dimension(Dimension(last, end, text), off_px=0.0)

    def _pointer(self, last: Point) -> Point:
        """A short way ahead, to show where a typed wall would go."""
        angle = math.radians(self.hand.heading_deg)
        return last[0] + math.cos(angle) * POINTER_MM, last[1] + math.sin(angle) * POINTER_MM

    def to_px(self, point: Point) -> QPointF:
        """The pixel of a place on the paper."""
        return self.scale_now().to_px(point)


def _lock(keys: Qt.KeyboardModifier) -> Lock:
    if keys & Qt.KeyboardModifier.AltModifier:
        return "free"
    return "eighths" if keys & Qt.KeyboardModifier.ShiftModifier else "square"


def _is_command(event: QKeyEvent) -> bool:
    return bool(event.modifiers() & (Qt.KeyboardModifier.ControlModifier | Qt.KeyboardModifier.MetaModifier))
