"""The developed elevation's widget: what the rest of the window sees of the stage, and the events it hands on."""

from collections.abc import Container, Mapping

from PySide6.QtCore import QEvent, QPointF, QRectF, QSize, Qt, Signal
from PySide6.QtGui import (
    QFocusEvent,
    QHelpEvent,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QWidget

from app.document import Document
from app.elevation.attention import attention
from app.elevation.bricks import BrickWork
from app.elevation.camera import Camera
from app.elevation.cursors import cursor_shape
from app.elevation.hand import Hand
from app.elevation.keyboard import Keyboard, is_ours
from app.elevation.scene import Scene
from app.elevation.stage import Stage
from app.elevation.strip import WallPoint
from app.elevation.stud_keys import StudKeys
from app.elevation.studs import Studs
from app.elevation.telling import Telling
from app.elevation.wall_painter import Tint
from app.elevation.wheel import ZOOM_STEP, turn_wheel
from app.theme.look import look
from core.language import tr
from core.room import Opening
from core.setout.result import Panel, SetOut


class ElevationView(QWidget):
    """All walls side by side as seen from inside, with everything on them; openings are moved and resized here."""

    zoom_changed = Signal(float)
    """Pixels to the millimetre."""
    panel_picked = Signal(str)
    """The mark of a panel that someone wants to see at the bench."""

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._stage = Stage(document.setout)
        self._bricks = BrickWork(document)
        self._scene = Scene(self._stage, self._bricks)
        self._studs = Studs(document, self._stage, self)
        self._hand = Hand(document, self._stage, self._studs, self)
        self._keyboard, self._stud_keys = Keyboard(document, self), StudKeys(document, self._studs)
        self._telling = Telling(self, document, self._stage, self._studs)
        self._notice = ""
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setMinimumSize(320, 200)
        self.setAccessibleName(tr("Developed elevation"))
        self._telling.describe()
        self._listen()

    def _listen(self) -> None:
        self._document.changed.connect(self._take)
        look.changed.connect(self._on_look)
        self._document.selection_changed.connect(self._on_selection)
        self._document.wall_changed.connect(self._on_wall)
        self._document.refused.connect(self._on_refused)
        self._bricks.laid.connect(self._on_laid)
        self._stage.moved.connect(self._on_camera)
        self._studs.changed.connect(self._on_studs)
        self._hand.changed.connect(self._on_hand)

    def sizeHint(self) -> QSize:
        return QSize(1200, 560)

    def wall_to_screen(self, wall: int, x_mm: float, z_mm: float) -> QPointF:
        """The pixel of a place on a wall."""
        return self._stage.to_screen(WallPoint(wall, x_mm, z_mm))

    def screen_to_wall(self, pos: QPointF) -> WallPoint | None:
        """The place on the wall at a pixel; None in a fold or past the strip's ends."""
        return self._stage.to_wall(pos)

    def panel_at(self, pos: QPointF) -> Panel | None:
        """The panel at a pixel."""
        return self._stage.panel(pos)

    def opening_at(self, pos: QPointF) -> Opening | None:
        """The opening at a pixel, its edges included."""
        found = self._stage.opening_grip(pos, self._document.selection)
        return found[0] if found else None

    @property
    def pictures(self) -> Mapping[int, object]:
        """The kept picture of each wall that is in sight; another object once it had to be painted anew."""
        return self._scene.pictures

    @property
    def camera(self) -> Camera:
        return self._stage.camera

    def fit(self) -> None:
        """Show the whole room, and keep showing it whole until someone zooms or pans."""
        self._stage.fit()

    def zoom_in(self) -> None:
        self._stage.zoom(ZOOM_STEP, self._zoom_centre())

    def zoom_out(self) -> None:
        self._stage.zoom(1 / ZOOM_STEP, self._zoom_centre())

    def _zoom_centre(self) -> QPointF:
        """The selected opening where it is in sight, else the middle of the view."""
        selected = self._document.selected_opening
        if selected is not None and self._stage.shows(self._stage.opening_box(selected)):
            return self._stage.opening_px(selected).center()
        return QRectF(self.rect()).center()

    def go_to_wall(self, wall: int) -> None:
        """Fill the view with a wall and make it the current one; numbers run round the room."""
        self._document.set_wall(wall)
        self._stage.fill(self._stage.wall_box(self._document.wall))

    def show_place(self, where: str) -> bool:
        """Bring a check's place into the middle and select it; False where there is no such place."""
        box = self._stage.place_box(where)
        if box is None:
            return False
        kind, _, name = where.partition(" ")
        if kind == "room":
            self.fit()
        elif kind == "wall":
            self._stage.fill(box)
        else:
            self._document.select(name)
            self._stage.show(box)
        return True

    def bring_into_view(self, name: str) -> None:
        """Show an opening or a panel by its name where not all of it is in sight."""
        box = self._stage.named_box(name)
        if box is not None and not self._stage.shows(box):
            self._stage.show(box)

    def choose_another(self, step: int) -> None:
        """Choose the next opening round the room, or the one before, beside those chosen."""
        self._keyboard.choose_another(step)

    def show_tint(self, tint: Tint | None) -> None:
        """Paint panels in the colours of their bricks, or by their kinds where None."""
        self._scene.show_tint(tint)
        self.update()

    def explain(self) -> str:
        """Show and say why what is selected is as it is; returns the words."""
        return "" if self.is_dragging else self._telling.explain()

    def pick_selected(self) -> None:
        """Say that the selected panel is wanted at the bench."""
        if (panel := self._document.selected_panel) is not None:
            self.panel_picked.emit(panel.mark)

    def hold_space(self, held: bool) -> None:
        """While the space bar is held a drag pans."""
        self._hand.may_pan = held
        self._on_hand()

    def give_up(self) -> bool:
        """Cancel the running drag; False where there is none."""
        if not self._hand.is_busy:
            return False
        self._hand.let_go(keep=False)
        return True

    @property
    def is_dragging(self) -> bool:
        return self._hand.gesture is not None

    def _take(self, setout: SetOut) -> None:
        settled = self._document.gesture_base is None
        if settled:
            self._hand.drop()
            self._keyboard.drop()
            self._stud_keys.drop()
        self._studs.follow()
        self._stage.take(setout, settled=settled)
        self._notice = ""
        self._telling.describe()
        self.update()

    def _on_selection(self, _what: str | None) -> None:
        self._notice = ""
        self._telling.describe(aloud=True)
        self.update()

    def _on_studs(self) -> None:
        self._stud_keys.finish()
        self._on_selection(None)

    def _on_wall(self, _wall: int) -> None:
        self.update()

    def _on_refused(self, reason: str) -> None:
        self._notice = reason
        self.update()

    def _on_laid(self, marks: Container[str]) -> None:
        self._scene.repaint(marks)
        self.update()

    def _on_look(self) -> None:
        self._scene.forget()
        self._stage.resize(self.size())
        self.update()

    def _on_camera(self) -> None:
        self._bricks.rest()
        self.zoom_changed.emit(self._stage.camera.scale)
        self.update()

    def _on_hand(self) -> None:
        shape = cursor_shape(self._hand.grip, panning=self._hand.is_panning, ready=self._hand.may_pan)
        if shape != self.cursor().shape():
            self.setCursor(shape)
        self.update()

    def paintEvent(self, _event: QPaintEvent) -> None:
        painter = QPainter(self)
        busy_with = attention(self._document, self._hand, self._studs, self._notice, has_focus=self.hasFocus())
        self._scene.paint(painter, busy_with)
        painter.end()

    def mousePressEvent(self, event: QMouseEvent) -> None:
        self._keyboard.finish()
        self._stud_keys.finish()
        self._hand.press(event)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        self._hand.move(event)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        self._notice = ""
        self._hand.release(event)

    def mouseDoubleClickEvent(self, event: QMouseEvent) -> None:
        """A panel double clicked is wanted at the bench, a stud where its strip is empty; else it counts as pressed again."""
        self.mousePressEvent(event)
        is_plain = event.button() == Qt.MouseButton.LeftButton and not event.modifiers()
        if is_plain and self._studs.covers(event.position()):
            if self._studs.at(event.position()) is None:
                self._studs.add(float(round(self._studs.x_mm(event.position()))))
        elif is_plain and self.opening_at(event.position()) is None:
            self.pick_selected()

    def leaveEvent(self, _event: QEvent) -> None:
        self._hand.leave()

    def wheelEvent(self, event: QWheelEvent) -> None:
        turn_wheel(self._stage, event)

    def event(self, event: QEvent) -> bool:
        is_asking = event.type() == QEvent.Type.ShortcutOverride
        if is_asking and isinstance(event, QKeyEvent) and (is_ours(event) or self._stud_keys.wants(event)):
            event.accept()
            return True
        if event.type() == QEvent.Type.ToolTip and isinstance(event, QHelpEvent):
            if not self.is_dragging:
                self._telling.show_tip(event.globalPos(), QPointF(event.pos()))
            return True
        return super().event(event)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        is_stud_key = not self.is_dragging and self._stud_keys.press(event)
        if not is_stud_key and not self._keyboard.press(event):
            super().keyPressEvent(event)

    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        if not self._stud_keys.release(event) and not self._keyboard.release(event):
            super().keyReleaseEvent(event)

    def focusNextPrevChild(self, forward: bool) -> bool:
        """Tab goes through the openings in the order of the walls, and on to the next widget after the last."""
        return self._keyboard.step_through(forward) or super().focusNextPrevChild(forward)

    def focusInEvent(self, event: QFocusEvent) -> None:
        if event.reason() in (Qt.FocusReason.TabFocusReason, Qt.FocusReason.BacktabFocusReason):
            self._keyboard.enter(forward=event.reason() == Qt.FocusReason.TabFocusReason)
        self.update()

    def focusOutEvent(self, _event: QFocusEvent) -> None:
        self._keyboard.finish()
        self._stud_keys.finish()
        self.hold_space(False)

    def resizeEvent(self, _event: QResizeEvent) -> None:
        self._stage.resize(self.size())
