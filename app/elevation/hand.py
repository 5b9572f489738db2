"""The hand on the mouse: from press to release it points, selects, drags openings or a band, or pans."""

from collections.abc import Callable

from PySide6.QtCore import QObject, QPointF, Qt, QTimer, Signal
from PySide6.QtGui import QMouseEvent
from PySide6.QtWidgets import QApplication

from app.document import Document
from app.elevation.band import Band
from app.elevation.gestures import Gesture, MoveOpening, Pointer, ResizeOpening
from app.elevation.hits import BODY, Grip
from app.elevation.margins import side_px
from app.elevation.stage import Stage
from app.elevation.studs import StudDrag, Studs
from app.elevation.together import MoveTogether
from core.room import Opening
from core.setout.result import Panel

SIDEWAYS: Grip = frozenset({"left"})
"""What a stud's handle does, for the cursor."""
TREMBLE_PX = 4
"""A press that moves less is a click."""
CARRY_EDGE_PX = 26
CARRY_STEP_PX = 14.0
CARRY_INTERVAL_MS = 16
SNAP_OFF = Qt.KeyboardModifier.AltModifier | Qt.KeyboardModifier.ControlModifier
"""Either key frees a drag from snapping: some desktops keep Alt and a drag for moving windows."""

ADDING = Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.ControlModifier
"""With either key a click chooses one more, or leaves it out, and a band adds to what is chosen."""


class Hand(QObject):
    """Turns mouse events into selection, gestures and panning."""

    changed = Signal()
    """Something to repaint, or another cursor."""

    def __init__(self, document: Document, stage: Stage, studs: Studs, parent: QObject) -> None:
        super().__init__(parent)
        self._document, self._stage, self._studs = document, stage, studs
        self.gesture: Gesture | None = None
        self.hover: Opening | Panel | None = None
        self.grip: Grip | None = None
        self.is_panning = False
        self.may_pan = False
        """Space is held: the next press pans."""
        self._pressed: tuple[QPointF, Callable[[], Gesture]] | None = None
        self._clicked: Callable[[], None] | None = None
        """What a press does once it is let go without a drag."""
        self._at = QPointF(-1, -1)
        self._carrier = QTimer(self)
        self._carrier.setInterval(CARRY_INTERVAL_MS)
        self._carrier.timeout.connect(self._carry)

    @property
    def is_busy(self) -> bool:
        """Whether a press or a drag of an opening is going on."""
        return self.gesture is not None or self._pressed is not None

    def press(self, event: QMouseEvent) -> None:
        """Begin to pan, or select what is there and hold it ready for a drag."""
        self._at = event.position()
        button = event.button()
        if button == Qt.MouseButton.MiddleButton or (button == Qt.MouseButton.LeftButton and self.may_pan):
            self.is_panning = self.gesture is None
            self.changed.emit()
        elif button == Qt.MouseButton.LeftButton and self.gesture is None:
            self._take_hold(event.position(), adding=bool(event.modifiers() & ADDING))

    def _take_hold(self, pos: QPointF, *, adding: bool) -> None:
        self._clicked = None
        stud = self._studs.at(pos)
        self._studs.pick(stud)
        if stud is not None:
            wall, grab = self._studs.wall, self._stage.camera.to_strip(pos)
            self._pressed = (pos, lambda: StudDrag(self._document, wall, stud, grab))
        elif (found := self._stage.opening_grip(pos, self._document.selection)) is not None:
            self._hold_opening(pos, *found, adding=adding)
        else:
            self._hold_panel(pos, adding=adding)

    def _hold_opening(self, pos: QPointF, opening: Opening, grip: Grip, *, adding: bool) -> None:
        """A press on one of several leaves them chosen, to be dragged together; only a click leaves it alone."""
        chosen = self._document.chosen
        if adding:
            self._clicked = lambda: chosen.toggle(opening.id)
        elif opening.id in chosen.names and len(chosen.names) > 1:
            chosen.choose(chosen.names, opening.id)
            self._clicked = lambda: self._document.select(opening.id)
        else:
            self._document.select(opening.id)
        self._pressed = (pos, lambda: self._opening_drag(pos, opening, grip))

    def _hold_panel(self, pos: QPointF, *, adding: bool) -> None:
        """On a panel, or beside all walls, a drag draws a band."""
        chosen, panel = self._document.chosen, self._stage.panel(pos)
        if not adding:
            self._document.select(panel.mark if panel else None)
            if (place := self._stage.to_wall(pos)) is not None:
                self._document.set_wall(place.wall)
        elif panel is not None:
            self._clicked = lambda: chosen.toggle(panel.mark)
        grab = self._stage.camera.to_strip(pos)
        self._pressed = (pos, lambda: Band(self._stage, chosen, grab, adding=adding))

    def move(self, event: QMouseEvent) -> None:
        """Pan, take the drag a step further, or point."""
        before, self._at = self._at, event.position()
        if self.is_panning:
            self._stage.pan(self._at - before)
        elif self.gesture is not None or self._begins_drag():
            self._step(event.modifiers())
            self._mind_the_edge()
        elif self._pressed is None:
            self.point()

    def release(self, event: QMouseEvent) -> None:
        """Finish what the press began."""
        self._at = event.position()
        if self.is_panning:
            self.is_panning = False
        elif event.button() == Qt.MouseButton.LeftButton:
            self.let_go(keep=True)
        self.point()

    def let_go(self, *, keep: bool) -> None:
        """Commit or give up the drag. The hand is empty first, so that the document's answer finds no drag running."""
        gesture, self.gesture, self._pressed = self.gesture, None, None
        clicked, self._clicked = self._clicked, None
        self._carrier.stop()
        if gesture is not None and keep:
            gesture.finish()
        elif gesture is not None:
            gesture.cancel()
        elif clicked is not None and keep:
            clicked()
        self.changed.emit()

    def drop(self) -> None:
        """Forget the drag: the document has ended it."""
        self.gesture = self._pressed = self._clicked = self.hover = None
        self._carrier.stop()

    def leave(self) -> None:
        """The pointer has left the view."""
        self.hover = None
        self._studs.point(None)
        self.changed.emit()

    def point(self) -> None:
        """Note what is under the pointer and what a press would do there."""
        before = (self.hover, self.grip, self._studs.hover)
        stud = self._studs.at(self._at)
        self._studs.point(stud)
        if stud is not None:
            self.hover, self.grip = None, SIDEWAYS
        else:
            found = self._stage.opening_grip(self._at, self._document.selection)
            self.hover, self.grip = found if found else (self._stage.panel(self._at), None)
        if before != (self.hover, self.grip, self._studs.hover):
            self.changed.emit()

    def _begins_drag(self) -> bool:
        if self._pressed is None or (self._at - self._pressed[0]).manhattanLength() < TREMBLE_PX:
            return False
        (_, begin), self._pressed, self._clicked = self._pressed, None, None
        self.hover = None
        self.gesture = begin()
        return True

    def _opening_drag(self, start: QPointF, opening: Opening, grip: Grip) -> Gesture:
        grab, strip = self._stage.camera.to_strip(start), self._stage.strip
        if opening.id not in self._document.chosen.names:
            self._document.select(opening.id)
        others = [other for other in self._document.chosen.openings if other.id != opening.id]
        if grip == BODY and others:
            return MoveTogether(self._document, opening, others, grab, strip)
        if grip == BODY:
            return MoveOpening(self._document, opening, grab, strip)
        return ResizeOpening(self._document, opening, grab, strip, grip)

    def _step(self, modifiers: Qt.KeyboardModifier) -> None:
        if self.gesture is not None:
            pointer = Pointer(
                at=self._stage.camera.to_strip(self._at),
                pixel_mm=1 / self._stage.camera.scale,
                snapping=not modifiers & SNAP_OFF,
                straight=bool(modifiers & Qt.KeyboardModifier.ShiftModifier),
            )
            self.gesture.step(pointer)
            self.changed.emit()

    def _mind_the_edge(self) -> None:
        """Near the view's edge the picture moves on, so that an opening can be carried to a wall out of sight."""
        x = self._at.x()
        if x < side_px() + CARRY_EDGE_PX or x > self._stage.size.width() - CARRY_EDGE_PX:
            self._carrier.start()
        else:
            self._carrier.stop()

    def _carry(self) -> None:
        whole = self._stage.camera.box_px(self._stage.whole)
        to_left = self._at.x() < self._stage.size.width() / 2
        hidden = side_px() - whole.left() if to_left else whole.right() - self._stage.size.width()
        if hidden > 0:
            by = min(CARRY_STEP_PX, hidden)
            self._stage.pan(QPointF(by if to_left else -by, 0))
            self._step(QApplication.keyboardModifiers())
