"""The plan as a widget: clicks, drags and keys on it become edits."""

import math
from collections.abc import Sequence

from PySide6.QtCore import QEvent, QPointF, QRect, QSize, QSizeF, Qt, Signal
from PySide6.QtGui import QAction, QColor, QKeyEvent, QKeySequence, QMouseEvent, QPainter, QPaintEvent, QPixmap, QRegion
from PySide6.QtWidgets import QSizePolicy, QToolButton, QVBoxLayout, QWidget

from app import theme
from app.document import Document
from app.plan.drags import CornerDrag, Drag, WallDrag, outwards
from app.plan.drawing import PlanDrawing
from app.plan.hits import PlanHits
from app.plan.paper import Dimension, Paper
from app.plan.scale import PlanScale, fit_scale
from app.plan.words import plan_words
from app.spoken import describe
from core.edits import insert_corner, move_corner, remove_corner
from core.edits.plan import move_wall
from core.language import marked, tr
from core.room import Point, Units, wall_letter
from core.setout.result import SetOut
from core.units import SIXTEENTH_INCH_MM, format_length

STEP_MM: dict[Units, float] = {"mm": 10.0, "ft-in": 8 * SIXTEENTH_INCH_MM}
FINE_STEP_MM: dict[Units, float] = {"mm": 1.0, "ft-in": SIXTEENTH_INCH_MM}
"""How far an arrow key moves a corner or a wall, with Shift the fine step."""
BEND_MM = 150.0
"""How far a new corner stands out of the wall at first, so that it can be seen and grasped."""
ALONG_A_WALL = 0.35
"""Cosine to a wall's outward way below which an arrow runs along the wall."""
LIVE_OFF_PX = 24.0
HINT = marked(
    "Click a wall to work on it. Drag a wall or a corner; Alt frees a corner from square, Shift moves by millimetres.\n"
    "Keys: arrows move the wall, or the corner that Home and End choose; Insert bends the wall, Delete straightens it."
)


class PlanView(QWidget):
    """Draws the plan and turns clicks, drags and keys on it into edits."""

    outline_changed = Signal()
    """The room has other walls, and no gesture is running."""

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self.setAccessibleName(tr("Plan of the room"))
        self.setToolTip(tr(HINT))
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setMouseTracking(True)
        self.setSizePolicy(QSizePolicy.Policy.Expanding, QSizePolicy.Policy.Expanding)
        self._document = document
        self._corner: int | None = None
        self._drag: Drag | None = None
        self._outline = document.room.corners_mm
        self._held: PlanScale | None = None
        self._picture: tuple[object, QPixmap] | None = None
        self._button: QToolButton | None = None
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        document.changed.connect(self._follow)
        document.wall_changed.connect(self._repaint)
        document.selection_changed.connect(self._repaint)
        self._repaint()

    def offer(self, actions: Sequence[QAction]) -> None:
        """Offer actions where the plan is: all in its menu, the first as a button in the free corner too."""
        self.addActions(list(actions))
        self.setContextMenuPolicy(Qt.ContextMenuPolicy.ActionsContextMenu)
        self._button = button = QToolButton(self)
        button.setText(tr("Draw…"))
        button.setAccessibleName(actions[0].text().replace("&", ""))
        button.setToolTip(f"{button.accessibleName()} ({actions[0].shortcut().toString(QKeySequence.SequenceFormat.NativeText)})")
        button.setFocusPolicy(Qt.FocusPolicy.TabFocus)
        button.setCursor(Qt.CursorShape.ArrowCursor)
        button.clicked.connect(actions[0].trigger)
        corner = QVBoxLayout(self)
        corner.setContentsMargins(0, 0, 0, 0)
        corner.addWidget(button, 0, Qt.AlignmentFlag.AlignLeft | Qt.AlignmentFlag.AlignTop)

    @property
    def corner(self) -> int | None:
        """The selected corner."""
        return self._corner

    def scale_now(self) -> PlanScale:
        """The scale in use; it holds still while a corner is dragged."""
        return self._held or fit_scale(self._document.room, self.width(), self.height())

    def _hits(self) -> PlanHits:
        return PlanHits(self._document.room, self.scale_now())

    def sizeHint(self) -> QSize:
        return QSize(320, 300)

    def minimumSizeHint(self) -> QSize:
        return QSize(220, 200)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() != Qt.MouseButton.LeftButton or self._drag:
            return
        corner = self._hits().corner(event.position())
        self._corner = corner
        if corner is not None:
            self._held = self.scale_now()
            self._drag = CornerDrag(self._document, corner, event.position(), self._held.px_per_mm)
        elif (opening := self._hits().opening(event.position())) is not None:
            self._document.select(opening.id)
        else:
            self._press_wall(event.position())
        self._repaint()

    def _press_wall(self, position: QPointF) -> None:
        """The nearest wall becomes the current one; pressed on itself it can be dragged."""
        wall = self._hits().wall_near(position)
        self._document.set_wall(wall)
        if self._hits().is_on(wall, position):
            self._held = self.scale_now()
            self._drag = WallDrag(self._document, wall, position, self._held.px_per_mm)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        if self._drag is None:
            self.setCursor(self._cursor_at(event.position()))
            return
        keys = event.modifiers()
        step = self._step_mm(keys)
        square = not keys & Qt.KeyboardModifier.AltModifier
        self._drag.move(event.position(), square=square, step_mm=step)

    def _cursor_at(self, position: QPointF) -> Qt.CursorShape:
        """Which way what lies there can be dragged."""
        if self._hits().corner(position) is not None:
            return Qt.CursorShape.SizeAllCursor
        wall = self._hits().wall_near(position)
        if self._hits().opening(position) is not None or not self._hits().is_on(wall, position):
            return Qt.CursorShape.ArrowCursor
        x, y = outwards(self._document.room, wall)
        return Qt.CursorShape.SizeHorCursor if abs(x) > abs(y) else Qt.CursorShape.SizeVerCursor

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        if event.button() == Qt.MouseButton.LeftButton and self._drag is not None:
            drag = self._end_drag()
            drag.finish()
            self.update()

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        if event.button() != Qt.MouseButton.LeftButton or self._hits().corner(event.position()) is not None:
            return
        self._bend(self._hits().wall_near(event.position()), self.scale_now().to_mm(event.position()))

    def event(self, event: QEvent) -> bool:
        """Keys the plan answers itself are not for the window's shortcuts."""
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent) and self._answers(event):
            event.accept()
            return True
        return super().event(event)

    def _answers(self, event: QKeyEvent) -> bool:
        return event.key() == Qt.Key.Key_Delete and self._corner is not None

    def keyPressEvent(self, event: QKeyEvent) -> None:
        steps = {
            Qt.Key.Key_Left: (-1, 0),
            Qt.Key.Key_Right: (1, 0),
            Qt.Key.Key_Up: (0, 1),
            Qt.Key.Key_Down: (0, -1),
        }
        key = Qt.Key(event.key())
        if key == Qt.Key.Key_Escape and self._drag is not None:
            self._end_drag().cancel()
        elif key == Qt.Key.Key_Escape and self._corner is not None:
            self._corner = None
            self._repaint()
        elif key in (Qt.Key.Key_Home, Qt.Key.Key_End):
            self._choose_corner(1 if key == Qt.Key.Key_End else -1)
        elif key in steps and self._corner is not None:
            self._nudge(self._corner, steps[key], event.modifiers())
        elif key in steps:
            self._nudge_wall(steps[key], event.modifiers())
        elif key == Qt.Key.Key_Insert:
            (x0, y0), (x1, y1) = self._document.room.wall_ends_mm(self._document.wall)
            self._bend(self._document.wall, ((x0 + x1) / 2, (y0 + y1) / 2))
        elif key == Qt.Key.Key_Delete and self._corner is not None:
            gone = self._corner
            self._document.commit_edit(lambda room: remove_corner(room, gone), tr("Remove corner"))
        else:
            super().keyPressEvent(event)

    def _choose_corner(self, step: int) -> None:
        count = self._document.room.wall_count
        self._corner = self._document.wall if self._corner is None else (self._corner + step) % count
        self._repaint(aloud=True)

    def _nudge(self, corner: int, direction: tuple[int, int], keys: Qt.KeyboardModifier) -> None:
        step = self._step_mm(keys)
        square = not keys & Qt.KeyboardModifier.AltModifier
        x, y = self._document.room.corners_mm[corner]
        target = (x + direction[0] * step, y + direction[1] * step)
        self._document.commit_edit(
            lambda room: move_corner(room, corner, target, square=square), tr("Move corner"), f"nudge corner {corner} {square}"
        )

    def _step_mm(self, keys: Qt.KeyboardModifier) -> float:
        steps = FINE_STEP_MM if keys & Qt.KeyboardModifier.ShiftModifier else STEP_MM
        return steps[self._document.room.display_units]

    def _nudge_wall(self, direction: tuple[int, int], keys: Qt.KeyboardModifier) -> None:
        """The current wall by a step, where the arrow points out of the room or into it."""
        wall = self._document.wall
        x, y = outwards(self._document.room, wall)
        out = direction[0] * x + direction[1] * y
        if abs(out) < ALONG_A_WALL:
            return
        step = math.copysign(self._step_mm(keys), out)
        text = tr("Move wall {wall}", wall=wall_letter(wall))
        self._document.commit_edit(lambda room: move_wall(room, wall, step), text, f"nudge wall {wall}")

    def _bend(self, wall: int, point: Point) -> None:
        (x0, y0), (x1, y1) = self._document.room.wall_ends_mm(wall)
        length = self._document.room.wall_length_mm(wall)
        along = ((point[0] - x0) * (x1 - x0) + (point[1] - y0) * (y1 - y0)) / length
        step = STEP_MM[self._document.room.display_units]
        along = round(along / step) * step
        out = BEND_MM / length
        bent = (
            x0 + (x1 - x0) * along / length - (y1 - y0) * out,
            y0 + (y1 - y0) * along / length + (x1 - x0) * out,
        )
        text = tr("Bend wall {wall}", wall=wall_letter(wall))
        if self._document.commit_edit(lambda room: insert_corner(room, wall, bent), text):
            self._corner = wall + 1
            self._repaint()

    def _end_drag(self) -> Drag:
        drag, self._drag, self._held = self._drag, None, None
        assert drag is not None
        return drag

    def _repaint(self, _what: object = None, *, aloud: bool = False) -> None:
        document = self._document
        if document.gesture_base is None:
            describe(self, plan_words(document.room, document.wall, self._corner), aloud=aloud)
        # The button hides what is below it, and would be painted again, too.
        self.update(QRegion(self.rect()) - QRegion(self._button.geometry() if self._button else QRect()))

    def _follow(self, _setout: SetOut) -> None:
        corners = self._document.room.corners_mm
        if self._document.gesture_base is None and corners != self._outline:
            self._outline = corners
            self.outline_changed.emit()
        if self._corner is not None and self._corner >= self._document.room.wall_count:
            self._corner = None
        self._repaint()

    def paintEvent(self, _event: QPaintEvent) -> None:
        scale = self.scale_now()
        painter = QPainter(self)
        painter.drawPixmap(0, 0, self._still(scale))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        PlanDrawing(painter, self._document, scale).draw_openings(self._document.chosen.openings)
        if self._drag is not None:
            self._paint_lengths(Paper(painter, scale, QSizeF(self.size()), self._document.room.display_units))
        painter.end()

    def _paint_lengths(self, paper: Paper) -> None:
        """The lengths that a drag is changing, large."""
        before, room = self._document.base_room, self._document.room
        for wall in range(room.wall_count):
            length = room.wall_length_mm(wall)
            if abs(length - before.wall_length_mm(wall)) > 1e-3:
                words = format_length(length, room.display_units, with_unit=False)
                paper.draw_dimension(Dimension(*room.wall_ends_mm(wall), words), off_px=LIVE_OFF_PX)

    def _still(self, scale: PlanScale) -> QPixmap:
        """The picture of all but the chosen openings, which may be dragged; kept while all that shows in it stays."""
        room, ratio, chosen = self._document.room, self.devicePixelRatioF(), self._document.chosen.names
        openings = [opening for opening in room.openings if opening.id not in chosen]
        corner = self._corner if self.hasFocus() or self._drag else None
        ground = self._document.wall, scale, self.size(), ratio, self.font(), theme.shown
        shows = (room.corners_mm, room.display_units, openings, corner, *ground)
        if self._picture is None or self._picture[0] != shows:
            pixmap = QPixmap(self.size() * ratio)
            pixmap.setDevicePixelRatio(ratio)
            pixmap.fill(QColor(theme.shown.card))
            painter = QPainter(pixmap)
            painter.setFont(self.font())
            painter.setRenderHint(QPainter.RenderHint.Antialiasing)
            PlanDrawing(painter, self._document, scale).draw_still(openings, corner)
            painter.end()
            self._picture = (shows, pixmap)
        return self._picture[1]
