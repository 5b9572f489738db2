"""The widget that shows the room standing up: turned by hand and by keys, and a way to pick what stands there."""

from collections.abc import Callable

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QFocusEvent, QHelpEvent, QKeyEvent, QMouseEvent, QPainter, QPaintEvent, QWheelEvent
from PySide6.QtWidgets import QToolTip, QWidget

from app import theme
from app.document import Document
from app.elevation.content import WallContent, next_contents, wall_contents
from app.elevation.progress_marks import paint_key
from app.elevation.stepping import first_panel, next_panel
from app.elevation.tips import panel_tip
from app.spatial.forms import WallForm
from app.spatial.room_painter import Chosen, RoomPicture
from app.spatial.viewpoint import LEAST_ZOOM, MOST_ZOOM, Extent, Projection, Viewpoint
from core.room import Opening, wall_letter
from core.setout.result import Panel, SetOut

STEP_DEGREES, LONG_STEP_DEGREES, SHORT_STEP_DEGREES = 5.0, 15.0, 1.0
DEGREES_PER_PX = 0.35
TREMBLE_PX = 4
MARGIN_PX = 44.0
FOOT_PX = 30.0
ZOOM_STEP = 1.25
WHEEL_NOTCH = 120.0
SLANT_DEGREES = 25.0
"""How far aslant a wall is shown that was asked for while it was cut away."""


class RoomView(QWidget):
    """Turning maps kept shapes; they are made anew only for walls whose content has changed."""

    turned = Signal()
    """Another viewpoint, or another picture of the room."""
    wanted = Signal(str)
    """The place of what someone wants to see square-on, as checks name places."""

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self.viewpoint = Viewpoint()
        self._zoom, self._moved = 1.0, QPointF(0.0, 0.0)
        self._setout = document.setout
        self._contents: tuple[WallContent, ...] = wall_contents(self._setout)
        self._forms = [WallForm.of(self._setout.room, content) for content in self._contents]
        self._picture: RoomPicture | None = None
        self._hover: Panel | Opening | None = None
        self._pressed: QPointF | None = None
        self._at: QPointF | None = None
        self._is_turning = False
        self._keys = self._key_table()
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setMinimumSize(320, 240)
        self.setAccessibleName("The room standing up")
        document.changed.connect(self._take)
        document.selection_changed.connect(self._on_chosen)
        document.wall_changed.connect(self._on_chosen)
        self._describe()

    def _key_table(self) -> dict[int, Callable[[], object]]:
        key, document = Qt.Key, self._document
        return {
            key.Key_Plus: self.zoom_in,
            key.Key_Equal: self.zoom_in,
            key.Key_Minus: self.zoom_out,
            key.Key_0: self.fit,
            key.Key_Home: self.begin_anew,
            key.Key_PageUp: lambda: self.look_at(document.wall - 1),
            key.Key_PageDown: lambda: self.look_at(document.wall + 1),
            key.Key_Return: self.want_selected,
            key.Key_Enter: self.want_selected,
        }

    def sizeHint(self) -> QSize:
        return QSize(1040, 680)

    @property
    def picture(self) -> RoomPicture:
        """The room as it is shown."""
        if self._picture is None:
            self._picture = RoomPicture(self._setout.room, self._forms, self._projection(QRectF(self.rect())))
        return self._picture

    def _projection(self, view: QRectF) -> Projection:
        frame = view.adjusted(MARGIN_PX, MARGIN_PX, -MARGIN_PX, -MARGIN_PX - FOOT_PX)
        frame.setSize(frame.size().expandedTo(QRectF(0, 0, 40, 40).size()))
        extent = Extent.of(self._setout.room.corners_mm, max(content.top_mm for content in self._contents))
        return Projection.fitting(self.viewpoint, extent, frame.translated(self._moved), self._zoom)

    def turn(self, degrees: float) -> None:
        """Turn the room; its near side moves to the right for a positive angle."""
        self._look_from(self.viewpoint.turned(degrees))

    def tilt(self, degrees: float) -> None:
        """Look from higher up, or lower down."""
        self._look_from(self.viewpoint.tilted(degrees))

    def begin_anew(self) -> None:
        """The viewpoint at the beginning, the whole room in sight."""
        self._zoom, self._moved = 1.0, QPointF(0.0, 0.0)
        self._look_from(Viewpoint())

    def look_at(self, wall: int) -> None:
        """Make a wall the current one, and turn it to the viewer where it is cut away; numbers run round the room."""
        self._document.set_wall(wall)
        self._bring_up(self._document.wall)

    def _bring_up(self, wall: int) -> None:
        if not self.picture.stands(wall):
            self._look_from(self.viewpoint.facing(self._forms[wall].along, SLANT_DEGREES))

    def zoom_in(self) -> None:
        self._zoom_about(ZOOM_STEP, QRectF(self.rect()).center())

    def zoom_out(self) -> None:
        self._zoom_about(1 / ZOOM_STEP, QRectF(self.rect()).center())

    def fit(self) -> None:
        """The whole room in sight."""
        self._zoom, self._moved = 1.0, QPointF(0.0, 0.0)
        self._renew()

    def _zoom_about(self, factor: float, at: QPointF) -> None:
        """Nearer or further, with what lies at a pixel staying there."""
        zoom = min(MOST_ZOOM, max(LEAST_ZOOM, self._zoom * factor))
        foot = self.picture.projection.at
        wanted = at + (foot - at) * (zoom / self._zoom)
        self._zoom = zoom
        self._renew()
        self._pan(wanted - self.picture.projection.at)

    def _pan(self, by: QPointF) -> None:
        """Move the picture; its middle stays in the view."""
        moved = self._moved + by
        reach = QPointF(self.width() * max(1.0, self._zoom) / 2, self.height() * max(1.0, self._zoom) / 2)
        self._moved = QPointF(
            min(reach.x(), max(-reach.x(), moved.x())),
            min(reach.y(), max(-reach.y(), moved.y())),
        )
        self._renew()

    def _look_from(self, viewpoint: Viewpoint) -> None:
        self.viewpoint = viewpoint
        self._renew()

    def _renew(self) -> None:
        self._picture = None
        self._describe()
        self.update()
        self.turned.emit()

    def _take(self, setout: SetOut) -> None:
        """Show another set-out; forms of walls that stay as they were are kept."""
        contents = next_contents(self._contents, self._setout, setout)
        same_plan = self._setout.room.corners_mm == setout.room.corners_mm
        known = {id(form.content): form for form in self._forms} if same_plan else {}
        self._forms = [known.get(id(content)) or WallForm.of(setout.room, content) for content in contents]
        self._contents, self._setout, self._hover = contents, setout, None
        self._renew()

    def _on_chosen(self, _what: object) -> None:
        self._describe()
        self.update()
        self.turned.emit()

    def step(self, across: int, up: int) -> None:
        """Select the next panel along the row, or the one above or below."""
        panel = self._document.selected_panel
        found = next_panel(self._setout, panel, across, up) if panel else first_panel(self._setout, self._document.wall)
        if found is not None:
            self._document.select(found.mark)
            walls = {face.wall for face in found.faces}
            if not any(self.picture.stands(wall) for wall in walls):
                self._bring_up(self._document.wall)

    def want_selected(self) -> None:
        """Say that what is selected, or the current wall, is wanted square-on."""
        if (opening := self._document.selected_opening) is not None:
            self.wanted.emit(f"opening {opening.id}")
        elif (panel := self._document.selected_panel) is not None:
            self.wanted.emit(f"panel {panel.mark}")
        else:
            self.wanted.emit(f"wall {wall_letter(self._document.wall)}")

    @property
    def words(self) -> str:
        """What is seen from here."""
        standing = self.picture.standing
        away = [wall for wall in range(len(self._forms)) if wall not in standing]
        parts = [f"standing {_letters(standing)}"] if standing else []
        parts += [f"cut away {_letters(away)}"] if away else []
        text = f"Seen from {self.viewpoint.tilt_degrees:.0f}° up, turned {self.viewpoint.turn_degrees:.0f}°: {', '.join(parts)}"
        what = self._document.selection
        return f"{text}. {'Panel' if self._document.selected_panel else 'Opening'} {what} is selected" if what else text

    def _describe(self) -> None:
        self.setAccessibleDescription(self.words)

    def paint_picture(self, painter: QPainter, size: QSize) -> None:
        """Paint the room into a picture of that size, as it is seen now, without what the mouse points at."""
        view = QRectF(0, 0, size.width(), size.height())
        picture = RoomPicture(self._setout.room, self._forms, self._projection(view))
        picture.paint(painter, self._chosen(hover=None))
        self._paint_key(painter, size)

    def _chosen(self, hover: Panel | Opening | None) -> Chosen:
        document = self._document
        return Chosen(document.wall, document.selected_opening, document.selected_panel, hover)

    def _paint_key(self, painter: QPainter, size: QSize) -> None:
        states = tuple(dict.fromkeys(record.state for record in self._setout.room.progress.panels))
        paint_key(painter, states, size)

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(theme.shown.bench))
        self.picture.paint(painter, self._chosen(self._hover))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        self._paint_key(painter, self.size())
        if self.hasFocus():
            painter.setPen(QColor(theme.shown.accent))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(self.rect().adjusted(0, 0, -1, -1))
        painter.end()

    def _found(self, pos: QPointF) -> Panel | Opening | None:
        what = self.picture.hit(pos)
        if not isinstance(what, str):
            return None
        opening = next((o for o in self._setout.room.openings if o.id == what), None)
        return opening or next((p for p in self._setout.panels if p.mark == what), None)

    def mousePressEvent(self, event: QMouseEvent) -> None:
        if event.button() in (Qt.MouseButton.LeftButton, Qt.MouseButton.MiddleButton):
            self._pressed = self._at = event.position()
            self._is_turning = False

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        """A drag turns the room; with Shift or the middle button it moves the picture."""
        if self._pressed is None or self._at is None:
            self._point(event.position())
            return
        if not self._is_turning and (event.position() - self._pressed).manhattanLength() < TREMBLE_PX:
            return
        by, self._at, self._is_turning, self._hover = event.position() - self._at, event.position(), True, None
        shift = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
        if shift or event.buttons() & Qt.MouseButton.MiddleButton:
            self._pan(by)
        else:
            self._look_from(self.viewpoint.turned(by.x() * DEGREES_PER_PX).tilted(by.y() * DEGREES_PER_PX))

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        is_click = self._pressed is not None and not self._is_turning and event.button() == Qt.MouseButton.LeftButton
        self._pressed = self._at = None
        self._is_turning = False
        if is_click:
            self.pick(event.position())
        self._point(event.position())

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        if event.button() == Qt.MouseButton.LeftButton and self.picture.hit(event.position()) is not None:
            self.want_selected()

    def pick(self, pos: QPointF) -> None:
        """Select what lies at a pixel and make its wall the current one; nothing is selected beside the room."""
        what = self.picture.hit(pos)
        self._document.select(what if isinstance(what, str) else None)
        if isinstance(what, int):
            self._document.set_wall(what)

    def _point(self, pos: QPointF) -> None:
        found = self._found(pos)
        if found != self._hover:
            self._hover = found
            self.update()

    def leaveEvent(self, _event: QEvent) -> None:
        self._hover = None
        self.update()

    def wheelEvent(self, event: QWheelEvent) -> None:
        self._zoom_about(ZOOM_STEP ** (event.angleDelta().y() / WHEEL_NOTCH), event.position())
        event.accept()

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ToolTip and isinstance(event, QHelpEvent):
            found = None if self._is_turning else self._found(QPointF(event.pos()))
            text = panel_tip(self._setout, found) if isinstance(found, Panel) else found.id if found else ""
            QToolTip.showText(event.globalPos(), text, self)
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        ways = {Qt.Key.Key_Left: (-1, 0), Qt.Key.Key_Right: (1, 0), Qt.Key.Key_Up: (0, 1), Qt.Key.Key_Down: (0, -1)}
        way, command = ways.get(Qt.Key(event.key())), self._keys.get(event.key())
        if way is not None and event.modifiers() & Qt.KeyboardModifier.ControlModifier:
            self.step(*way)
        elif way is not None:
            degrees = _step_degrees(event.modifiers())
            self._look_from(self.viewpoint.turned(way[0] * degrees).tilted(way[1] * degrees))
        elif command is not None:
            command()
        else:
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.update()

    def resizeEvent(self, _event: object) -> None:
        self._renew()


def _step_degrees(held: Qt.KeyboardModifier) -> float:
    if held & Qt.KeyboardModifier.ShiftModifier:
        return LONG_STEP_DEGREES
    return SHORT_STEP_DEGREES if held & Qt.KeyboardModifier.AltModifier else STEP_DEGREES


def _letters(walls: list[int]) -> str:
    most = 8
    shown = ", ".join(wall_letter(wall) for wall in walls[:most])
    rest = len(walls) - most
    return shown + (f" and {rest} more" if rest > 0 else "")
