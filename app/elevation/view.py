"""The developed elevation's widget: paints the stage, and turns what a person does into gestures on the document."""

from PySide6.QtCore import QEvent, QPoint, QPointF, QRect, QRectF, QSize, Qt, QTimerEvent, Signal
from PySide6.QtGui import (
    QCloseEvent,
    QColor,
    QFocusEvent,
    QHelpEvent,
    QInputDevice,
    QKeyEvent,
    QMouseEvent,
    QPainter,
    QPaintEvent,
    QResizeEvent,
    QWheelEvent,
)
from PySide6.QtWidgets import QApplication, QToolTip, QWidget

from app import theme
from app.document import Document
from app.elevation import keyboard, margins
from app.elevation.camera import Camera
from app.elevation.cursors import cursor_shape
from app.elevation.gestures import Gesture, MoveOpening, Nudge, Pointer, ResizeOpening
from app.elevation.hits import BODY, Grip
from app.elevation.overlay import Overlay
from app.elevation.pictures import WallPictures
from app.elevation.stage import Stage
from app.elevation.strip import WallPoint
from app.elevation.tips import panel_tip
from core.edits import remove_opening
from core.room import Opening
from core.setout.result import Panel, SetOut

ZOOM_STEP = 1.25
WHEEL_NOTCH = 120.0
KEPT_IN_VIEW_PX = 80.0
CARRY_EDGE_PX = 26
CARRY_STEP_PX = 14.0
CARRY_INTERVAL_MS = 16
SNAP_OFF = Qt.KeyboardModifier.AltModifier | Qt.KeyboardModifier.ControlModifier
"""Either key frees a drag from snapping: some desktops keep Alt and a drag for moving windows."""


class ElevationView(QWidget):
    """All walls side by side as seen from inside, with everything on them; openings are moved and resized here."""

    zoom_changed = Signal(float)
    """Pixels to the millimetre."""

    def __init__(self, document: Document, parent: QWidget | None = None) -> None:
        super().__init__(parent)
        self._document = document
        self._stage = Stage(document.setout)
        self._pictures = WallPictures()
        self._gesture: Gesture | None = None
        self._nudge: Nudge | None = None
        self._pressed: tuple[QPointF, Opening, Grip] | None = None
        self._pointer = QPointF(-1, -1)
        self._pan_from: QPointF | None = None
        self._space_held = False
        self._is_fitted = True
        self._notice = ""
        self._hover: Opening | Panel | None = None
        self._carry_timer = 0
        self.setMouseTracking(True)
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setMinimumSize(320, 200)
        self.setAccessibleName("Developed elevation")
        self._describe()
        document.changed.connect(self._take)
        document.selection_changed.connect(self._on_selection)
        document.wall_changed.connect(lambda _wall: self.update())
        document.refused.connect(self._on_refused)

    def sizeHint(self) -> QSize:
        return QSize(1200, 560)

    # Places and pixels

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

    # The camera

    @property
    def camera(self) -> Camera:
        return self._stage.camera

    def fit(self) -> None:
        """Show the whole room, and keep showing it whole until someone zooms or pans."""
        self._is_fitted = True
        self._stage.fit(self._stage.whole, self.size())
        self._camera_moved()

    def zoom_in(self) -> None:
        self._zoom(ZOOM_STEP, self._zoom_centre())

    def zoom_out(self) -> None:
        self._zoom(1 / ZOOM_STEP, self._zoom_centre())

    def go_to_wall(self, wall: int) -> None:
        """Fill the view with a wall and make it the current one; numbers run round the room."""
        wall %= self._document.room.wall_count
        self._document.set_wall(wall)
        self._is_fitted = False
        self._stage.fit(self._stage.wall_box(wall), self.size())
        self._camera_moved()

    def show_place(self, where: str) -> bool:
        """Bring a check's place into the middle and select it; False where there is no such place."""
        box = self._stage.place_box(where)
        if box is None:
            return False
        kind, _, name = where.partition(" ")
        if kind == "room":
            self.fit()
            return True
        self._is_fitted = False
        if kind == "wall":
            self._stage.fit(box, self.size())
        else:
            self._document.select(name)
            self._stage.show(box, self.size())
        self._camera_moved()
        return True

    def _zoom_centre(self) -> QPointF:
        """The selected opening where it is in sight, else the middle of the view."""
        selected = self._document.selected_opening
        if selected is not None and self.rect().contains(self._stage.opening_px(selected).center().toPoint()):
            return self._stage.opening_px(selected).center()
        return QRectF(self.rect()).center()

    def _zoom(self, factor: float, about: QPointF) -> None:
        self._is_fitted = False
        self._stage.camera = self._kept(self.camera.zoomed(factor, about))
        self._camera_moved()

    def _pan(self, by: QPointF) -> None:
        self._is_fitted = False
        self._stage.camera = self._kept(self.camera.panned(by))
        self._camera_moved()

    def _kept(self, camera: Camera) -> Camera:
        return camera.kept_near(self._stage.whole, self.size(), KEPT_IN_VIEW_PX)

    def _camera_moved(self) -> None:
        self.zoom_changed.emit(self.camera.scale)
        self.update()

    # What the document says

    def _take(self, setout: SetOut) -> None:
        walls_changed = self._stage.take(setout)
        self._notice = ""
        self._hover = None
        if self._document.gesture_base is None:
            self._gesture = self._nudge = None
            if walls_changed and self._is_fitted:
                self._stage.fit(self._stage.whole, self.size())
        self._describe()
        self.update()

    def _on_selection(self, _what: str | None) -> None:
        self._notice = ""
        self._describe()
        self.update()

    def _on_refused(self, reason: str) -> None:
        self._notice = reason
        self.update()

    def _describe(self) -> None:
        what = self._document.selection
        self.setAccessibleDescription(
            f"{what} is selected; arrow keys move it, with Control they resize it"
            if self._document.selected_opening
            else f"panel {what} is selected"
            if what
            else "Tab goes through the openings; plus, minus and 0 zoom"
        )

    # Painting

    def paintEvent(self, _event: QPaintEvent) -> None:
        stage, painter = self._stage, QPainter(self)
        painter.fillRect(self.rect(), QColor(theme.BENCH))
        self._paint_walls(painter)
        margins.paint_folds(painter, stage.setout, stage.strip, stage.camera)
        margins.paint_ends(painter, stage.setout, stage.strip, stage.camera)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        self._paint_overlay(Overlay(painter, stage.setout, stage.strip, stage.camera))
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        margins.paint_side(painter, stage.setout, stage.camera, self.size())
        margins.paint_head(painter, stage.setout, stage.strip, stage.camera, self.size(), self._document.wall)
        if self._notice:
            margins.paint_notice(painter, self._notice, self.size())
        if self.hasFocus():
            painter.setPen(QColor(theme.ACCENT))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(self.rect().adjusted(0, 0, -1, -1))
        painter.end()

    def _paint_walls(self, painter: QPainter) -> None:
        for content in self._stage.contents:
            box = self._stage.wall_box(content.shell.wall)
            top = self.camera.y_px(self._stage.picture_top_mm(content.shell.wall))
            corner = QPoint(round(self.camera.x_px(box.left_mm)), round(top))
            self._pictures.draw(painter, content, self.camera.scale, corner, QRect(self.rect()))

    def _paint_overlay(self, overlay: Overlay) -> None:
        panel, opening = self._document.selected_panel, self._document.selected_opening
        if panel is not None:
            overlay.select_panel(panel)
        if isinstance(self._hover, Panel):
            overlay.hover_panel(self._hover)
        elif isinstance(self._hover, Opening) and self._hover != opening:
            overlay.hover_opening(self._hover)
        if self._gesture is not None:
            overlay.guides(self._gesture.guides)
        if opening is not None:
            overlay.select_opening(opening)
            overlay.dimensions(opening)
        if self._gesture is not None and self._gesture.refused is not None:
            overlay.refused(self._gesture.refused)

    # The mouse

    def mousePressEvent(self, event: QMouseEvent) -> None:
        pos = event.position()
        if event.button() == Qt.MouseButton.MiddleButton or (event.button() == Qt.MouseButton.LeftButton and self._space_held):
            self._pan_from = pos
            self._point_at(pos)
            return
        if event.button() != Qt.MouseButton.LeftButton or self._gesture is not None:
            return
        self._end_nudge()
        found = self._stage.opening_grip(pos, self._document.selection)
        if found is not None:
            self._document.select(found[0].id)
            self._pressed = (pos, *found)
            return
        panel = self.panel_at(pos)
        self._document.select(panel.mark if panel else None)
        if (place := self.screen_to_wall(pos)) is not None:
            self._document.set_wall(place.wall)

    def mouseMoveEvent(self, event: QMouseEvent) -> None:
        pos = event.position()
        self._pointer = pos
        if self._pan_from is not None:
            by, self._pan_from = pos - self._pan_from, pos
            self._pan(by)
        elif self._gesture is not None or self._begins_drag(pos):
            self._step(event.modifiers())
            self._carry(pos)
        elif self._pressed is None:
            self._point_at(pos)

    def mouseReleaseEvent(self, event: QMouseEvent) -> None:
        if self._pan_from is not None and event.button() in (Qt.MouseButton.MiddleButton, Qt.MouseButton.LeftButton):
            self._pan_from = None
            self._point_at(event.position())
        elif event.button() == Qt.MouseButton.LeftButton:
            self._pressed = None
            self._end_gesture(keep=True)
            self._point_at(event.position())

    def leaveEvent(self, _event: QEvent) -> None:
        self._hover = None
        self.update()

    def _begins_drag(self, pos: QPointF) -> bool:
        """Begin the drag of what was pressed, once the pointer has gone further than a click's tremble."""
        if self._pressed is None:
            return False
        start, opening, grip = self._pressed
        if (pos - start).manhattanLength() < min(QApplication.startDragDistance(), 4):
            return False
        self._pressed = None
        grab = self.camera.to_strip(start)
        if grip == BODY:
            self._gesture = MoveOpening(self._document, opening, grab, self._stage.strip)
        else:
            self._gesture = ResizeOpening(self._document, opening, grab, self._stage.strip, grip)
        return True

    def _step(self, modifiers: Qt.KeyboardModifier) -> None:
        if self._gesture is not None:
            self._gesture.step(
                Pointer(
                    at=self.camera.to_strip(self._pointer),
                    pixel_mm=1 / self.camera.scale,
                    snapping=not modifiers & SNAP_OFF,
                    straight=bool(modifiers & Qt.KeyboardModifier.ShiftModifier),
                )
            )
            self.update()

    def _end_gesture(self, *, keep: bool) -> None:
        """Finish or cancel the drag; the view lets go of it first, so that the document's answer finds none running."""
        gesture, self._gesture, self._pressed = self._gesture, None, None
        self._stop_carrying()
        if gesture is not None:
            self._notice = ""
            gesture.finish() if keep else gesture.cancel()
        self.update()

    def _point_at(self, pos: QPointF) -> None:
        """Highlight what is under the pointer and show what a press would do."""
        found = self._stage.opening_grip(pos, self._document.selection)
        hover = found[0] if found else self.panel_at(pos)
        self.setCursor(cursor_shape(found[1] if found else None, panning=self._pan_from is not None, ready=self._space_held))
        if hover != self._hover:
            self._hover = hover
            self.update()

    # Carrying an opening past the view's edge

    def _carry(self, pos: QPointF) -> None:
        near_edge = pos.x() < margins.SIDE_PX + CARRY_EDGE_PX or pos.x() > self.width() - CARRY_EDGE_PX
        if near_edge and not self._carry_timer:
            self._carry_timer = self.startTimer(CARRY_INTERVAL_MS)
        elif not near_edge:
            self._stop_carrying()

    def timerEvent(self, event: QTimerEvent) -> None:
        if event.timerId() != self._carry_timer or self._gesture is None:
            return
        whole = self.camera.box_px(self._stage.whole)
        to_left = self._pointer.x() < self.width() / 2
        hidden = margins.SIDE_PX - whole.left() if to_left else whole.right() - self.width()
        if hidden > 0:
            step = min(CARRY_STEP_PX, hidden)
            self._pan(QPointF(step if to_left else -step, 0))
            self._step(QApplication.keyboardModifiers())

    def _stop_carrying(self) -> None:
        if self._carry_timer:
            self.killTimer(self._carry_timer)
            self._carry_timer = 0

    # Wheel and touch pad

    def wheelEvent(self, event: QWheelEvent) -> None:
        """A wheel zooms about the pointer, with Shift it pans sideways; a touch pad pans, with Control it zooms."""
        control = bool(event.modifiers() & Qt.KeyboardModifier.ControlModifier)
        shift = bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier)
        by_hand = event.device().type() == QInputDevice.DeviceType.TouchPad or not event.pixelDelta().isNull()
        turned = QPointF(event.angleDelta())
        if control or not (by_hand or shift):
            self._zoom(ZOOM_STEP ** (turned.y() / WHEEL_NOTCH), event.position())
        elif by_hand:
            self._pan(QPointF(event.pixelDelta()) if not event.pixelDelta().isNull() else turned / 2)
        else:
            self._pan(QPointF(turned.x() or turned.y(), 0))
        event.accept()

    # Keys

    def event(self, event: QEvent) -> bool:
        if event.type() == QEvent.Type.ShortcutOverride and isinstance(event, QKeyEvent) and keyboard.is_ours(event):
            event.accept()
            return True
        if event.type() == QEvent.Type.ToolTip and isinstance(event, QHelpEvent):
            self._show_tip(event)
            return True
        return super().event(event)

    def _show_tip(self, event: QHelpEvent) -> None:
        pos = QPointF(event.pos())
        panel = None if self._gesture or self.opening_at(pos) else self.panel_at(pos)
        QToolTip.showText(event.globalPos(), panel_tip(self._stage.setout, panel) if panel else "", self)

    def keyPressEvent(self, event: QKeyEvent) -> None:
        if (step := keyboard.arrow_step_mm(event, self._document.room.kit)) is not None:
            self._nudge_by(step, resizing=bool(event.modifiers() & Qt.KeyboardModifier.ControlModifier))
        elif not self._key_command(event.key()):
            super().keyPressEvent(event)

    def _key_command(self, key: int) -> bool:
        commands = {
            Qt.Key.Key_Plus: self.zoom_in,
            Qt.Key.Key_Equal: self.zoom_in,
            Qt.Key.Key_Minus: self.zoom_out,
            Qt.Key.Key_0: self.fit,
            Qt.Key.Key_PageUp: lambda: self.go_to_wall(self._document.wall - 1),
            Qt.Key.Key_PageDown: lambda: self.go_to_wall(self._document.wall + 1),
            Qt.Key.Key_Escape: self._escape,
            Qt.Key.Key_Delete: self._remove,
            Qt.Key.Key_Space: self._hold_space,
        }
        command = commands.get(Qt.Key(key))
        if command is not None:
            command()
        return command is not None

    def keyReleaseEvent(self, event: QKeyEvent) -> None:
        if event.isAutoRepeat():
            return
        if event.key() in keyboard.ARROWS:
            self._end_nudge()
        elif event.key() == Qt.Key.Key_Space:
            self._space_held = False
            self._point_at(self._pointer)
        else:
            super().keyReleaseEvent(event)

    def _hold_space(self) -> None:
        self._space_held = True
        self._point_at(self._pointer)

    def _nudge_by(self, step: tuple[float, float], *, resizing: bool) -> None:
        selected = self._document.selected_opening
        if selected is None or self._gesture is not None:
            return
        if self._nudge is not None and (self._nudge.name, self._nudge.resizing) != (selected.id, resizing):
            self._end_nudge()
        if self._nudge is None:
            self._nudge = Nudge(self._document, selected, resizing=resizing)
        self._nudge.step(*step)

    def _end_nudge(self) -> None:
        nudge, self._nudge = self._nudge, None
        if nudge is not None:
            nudge.finish()

    def _escape(self) -> None:
        """Give up the drag or the held key; with none running, select nothing."""
        if self._nudge is not None:
            nudge, self._nudge = self._nudge, None
            nudge.cancel()
        elif self._gesture is not None or self._pressed is not None:
            self._end_gesture(keep=False)
        else:
            self._document.select(None)

    def _remove(self) -> None:
        selected = self._document.selected_opening
        if selected is not None and self._gesture is None:
            self._end_nudge()
            self._document.commit_edit(lambda room: remove_opening(room, selected.id), f"Remove {selected.id}")

    # Focus

    def focusNextPrevChild(self, forward: bool) -> bool:
        """Tab goes through the openings in the order of the walls, and on to the next widget after the last."""
        names = self._openings_in_order()
        at = names.index(self._document.selection) if self._document.selection in names else None
        following = (0 if forward else len(names) - 1) if at is None else at + (1 if forward else -1)
        if not 0 <= following < len(names):
            return super().focusNextPrevChild(forward)
        self._select_in_view(names[following])
        return True

    def _openings_in_order(self) -> list[str | None]:
        return [opening.id for opening in sorted(self._document.room.openings, key=lambda o: (o.wall, o.left_mm))]

    def _select_in_view(self, name: str | None) -> None:
        self._end_nudge()
        self._document.select(name)
        opening = self._document.selected_opening
        if opening is not None and not self.rect().contains(self._stage.opening_px(opening).toAlignedRect()):
            self.show_place(f"opening {opening.id}")

    def focusInEvent(self, event: QFocusEvent) -> None:
        names = self._openings_in_order()
        if names and event.reason() == Qt.FocusReason.TabFocusReason:
            self._select_in_view(names[0])
        elif names and event.reason() == Qt.FocusReason.BacktabFocusReason:
            self._select_in_view(names[-1])
        self.update()

    def focusOutEvent(self, _event: QFocusEvent) -> None:
        self._space_held = False
        self._end_nudge()
        self.update()

    def resizeEvent(self, _event: QResizeEvent) -> None:
        if self._is_fitted:
            self.fit()

    def closeEvent(self, event: QCloseEvent) -> None:
        self._end_gesture(keep=False)
        super().closeEvent(event)
