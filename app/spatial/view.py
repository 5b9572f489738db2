"""The widget that shows the room standing up: turned by hand and by keys, and a way to pick what stands there."""

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
from app.spatial.keys import Keys
from app.spatial.room_painter import Chosen, RoomPicture
from app.spatial.sight import Sight
from app.spatial.viewpoint import Extent, Projection, Viewpoint
from core.language import tr
from core.room import Opening, wall_letter
from core.setout.result import Panel, SetOut

DEGREES_PER_PX = 0.35
TREMBLE_PX = 4
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
        self._sight = Sight()
        self._setout = document.setout
        self._contents: tuple[WallContent, ...] = wall_contents(self._setout)
        self._forms = [WallForm.of(self._setout.room, content) for content in self._contents]
        self._picture: RoomPicture | None = None
        self._hover: Panel | Opening | None = None
        self._pressed: QPointF | None = None
        self._at: QPointF | None = None
        self._is_turning = False
        self._keys = Keys(self)
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setMinimumSize(320, 240)
        self.setAccessibleName(tr("The room standing up"))
        document.changed.connect(self._take)
        document.selection_changed.connect(self._on_chosen)
        document.wall_changed.connect(self._on_chosen)
        self._describe()

    def sizeHint(self) -> QSize:
        return QSize(1040, 680)

    @property
    def picture(self) -> RoomPicture:
        """The room as it is shown."""
        if self._picture is None:
            self._picture = RoomPicture(self._setout.room, self._forms, self._projection(QRectF(self.rect())))
        return self._picture

    @property
    def viewpoint(self) -> Viewpoint:
        """From where the room is seen."""
        return self._sight.viewpoint

    def _projection(self, view: QRectF) -> Projection:
        extent = Extent.of(self._setout.room.corners_mm, max(content.top_mm for content in self._contents))
        return self._sight.projection(view, extent)

    def turn(self, degrees: float) -> None:
        """Turn the room; its near side moves to the right for a positive angle."""
        self._look_from(self.viewpoint.turned(degrees))

    def tilt(self, degrees: float) -> None:
        """Look from higher up, or lower down."""
        self._look_from(self.viewpoint.tilted(degrees))

    def turn_and_tilt(self, turn_degrees: float, tilt_degrees: float) -> None:
        """Both at once."""
        self._look_from(self.viewpoint.turned(turn_degrees).tilted(tilt_degrees))

    def begin_anew(self) -> None:
        """The viewpoint at the beginning, the whole room in sight."""
        self._sight = Sight()
        self._renew()

    def look_at(self, wall: int) -> None:
        """Make a wall the current one, and turn it to the viewer where it is cut away; numbers run round the room."""
        self._document.set_wall(wall)
        self._bring_up(self._document.wall)

    def step_wall(self, by: int) -> None:
        """Look at a wall so many further on."""
        self.look_at(self._document.wall + by)

    def _bring_up(self, wall: int) -> None:
        if not self.picture.stands(wall):
            self._look_from(self.viewpoint.facing(self._forms[wall].along, SLANT_DEGREES))

    def zoom_in(self) -> None:
        self._zoom_about(ZOOM_STEP, QRectF(self.rect()).center())

    def zoom_out(self) -> None:
        self._zoom_about(1 / ZOOM_STEP, QRectF(self.rect()).center())

    def fit(self) -> None:
        """The whole room in sight."""
        self._sight.fit()
        self._renew()

    def _zoom_about(self, factor: float, at: QPointF) -> None:
        """Nearer or further, with what lies at a pixel staying there."""
        wanted = self._sight.zoom_by(factor, at, self.picture.projection.at)
        self._renew()
        self._pan(wanted - self.picture.projection.at)

    def _pan(self, by: QPointF) -> None:
        """Move the picture; its middle stays in the view."""
        self._sight.pan(by, self.size())
        self._renew()

    def _look_from(self, viewpoint: Viewpoint) -> None:
        self._sight.viewpoint = viewpoint
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
        text = self._sight.words(len(self._forms), self.picture.standing)
        what = self._document.selection
        if not what:
            return text
        if self._document.selected_panel:
            return tr("{seen}. Panel {mark} is selected", seen=text, mark=what)
        return tr("{seen}. Opening {opening} is selected", seen=text, opening=what)

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
            self.turn_and_tilt(by.x() * DEGREES_PER_PX, by.y() * DEGREES_PER_PX)

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
        if not self._keys.press(event):
            super().keyPressEvent(event)

    def focusInEvent(self, event: QFocusEvent) -> None:
        super().focusInEvent(event)
        self.update()

    def focusOutEvent(self, event: QFocusEvent) -> None:
        super().focusOutEvent(event)
        self.update()

    def resizeEvent(self, _event: object) -> None:
        self._renew()
