"""What the elevation shows, and where: the set-out, its strip and the camera, with the questions a pointer asks."""

import math

from PySide6.QtCore import QObject, QPointF, QRectF, QSize, Signal

from app import theme
from app.elevation.camera import Box, Camera
from app.elevation.content import WallContent, next_contents, wall_contents
from app.elevation.hits import Grip, face_on, grip_at
from app.elevation.margins import head_px, side_px
from app.elevation.overlay import opening_box
from app.elevation.strip import FOLD_MM, Strip, WallPoint
from core.progress import PanelState
from core.room import Opening, wall_letter
from core.setout.metric import face_box_mm
from core.setout.result import Face, Panel, SetOut

KEPT_IN_VIEW_PX = 80.0
LEGIBLE_SCALE = 0.25
"""Pixels to the millimetre at which marks and mounting points are read with ease."""
NO_LARGER = 0.05
"""A picture that would grow by less than this part stays as it is."""
ROUND_A_PLACE = 1.6
"""A place shown by itself gets so many times its own size of picture."""


class Stage(QObject):
    """The one place that knows both the walls and the camera."""

    moved = Signal()
    """The camera has moved."""

    def __init__(self, setout: SetOut) -> None:
        super().__init__()
        self.camera = Camera(0.1, 0.0, 0.0)
        self.size = QSize(1, 1)
        self.is_fitted = True
        self.setout = setout
        self.strip = Strip.of(setout.room)
        self.contents: tuple[WallContent, ...] = wall_contents(setout)
        self.height_mm = _height_mm(self.contents)

    def take(self, setout: SetOut, *, settled: bool) -> None:
        """Show another set-out. A fitted picture is fitted again where the walls have changed, but not amid a gesture."""
        before = (self.strip, self.height_mm)
        self.contents = next_contents(self.contents, self.setout, setout)
        self.setout = setout
        self.strip = Strip.of(setout.room)
        self.height_mm = _height_mm(self.contents)
        if settled and self.is_fitted and before != (self.strip, self.height_mm):
            self.fit()

    @property
    def states(self) -> tuple[PanelState, ...]:
        """The states that any panel has been in: what the key must explain."""
        return tuple(dict.fromkeys(record.state for record in self.setout.room.progress.panels))

    @property
    def whole(self) -> Box:
        """All walls, with half a fold at either end."""
        return Box(-FOLD_MM / 2, 0.0, self.strip.width_mm + FOLD_MM / 2, self.height_mm)

    def wall_box(self, wall: int) -> Box:
        start = self.strip.starts_mm[wall]
        return Box(start - FOLD_MM / 2, 0.0, start + self.strip.lengths_mm[wall] + FOLD_MM / 2, self.height_mm)

    @property
    def frame_px(self) -> QRectF:
        """The part of the view that margins and labels leave to the walls."""
        wide, high = self.size.width() - side_px() - 18, self.size.height() - head_px() - 26 - theme.px(40)
        return QRectF(side_px() + 6, head_px() + 26, max(wide, 1), max(high, 1))

    def resize(self, size: QSize) -> None:
        """Take the view's size; the whole room stays in sight until someone has zoomed or panned."""
        self.size = size
        if self.is_fitted:
            self.fit()

    def fit(self) -> None:
        """Show the whole room, and keep showing it whole until someone zooms or pans."""
        self._move(Camera.fitting(self.whole, self.frame_px), fitted=True)

    def fill(self, box: Box) -> None:
        """Show a box as large as it fits; where it is, if it is in sight and grows no larger."""
        camera = Camera.fitting(box, self.frame_px)
        if not (self.shows(box) and math.isclose(camera.scale, self.camera.scale, rel_tol=NO_LARGER)):
            self._move(camera)

    def show(self, box: Box) -> None:
        """Bring a box into the middle, nearer only where it would be too small to see."""
        fitting = Camera.fitting(_roomier(box), self.frame_px)
        scale = min(max(self.camera.scale, min(fitting.scale, LEGIBLE_SCALE)), fitting.scale)
        self._move(Camera(scale, 0.0, 0.0).centred(box.centre, self.frame_px.center()))

    def zoom(self, factor: float, about: QPointF) -> None:
        """Nearer or further, with the place under ``about`` staying there."""
        self._move(self.camera.zoomed(factor, about).kept_near(self.whole, self.size, KEPT_IN_VIEW_PX))

    def pan(self, by: QPointF) -> None:
        """Move the picture by so many pixels; some of the room stays in sight."""
        self._move(self.camera.panned(by).kept_near(self.whole, self.size, KEPT_IN_VIEW_PX))

    def _move(self, camera: Camera, *, fitted: bool = False) -> None:
        self.camera, self.is_fitted = camera, fitted
        self.moved.emit()

    def shows(self, box: Box) -> bool:
        """Whether all of a box of the strip is in sight."""
        return QRectF(QPointF(0, 0), QPointF(self.size.width(), self.size.height())).contains(self.camera.box_px(box))

    def to_screen(self, place: WallPoint) -> QPointF:
        return self.camera.to_screen(self.strip.place(place))

    def to_wall(self, pos: QPointF) -> WallPoint | None:
        return self.strip.wall_point(self.camera.to_strip(pos))

    def opening_box(self, opening: Opening) -> Box:
        return opening_box(self.strip, opening)

    def opening_px(self, opening: Opening) -> QRectF:
        return self.camera.box_px(opening_box(self.strip, opening))

    def opening_grip(self, pos: QPointF, selected: str | None) -> tuple[Opening, Grip] | None:
        """The opening at a pixel and the part of it; the selected one first, then small ones before large ones."""
        by_size = sorted(self.setout.room.openings, key=lambda o: (o.id != selected, o.width_mm * o.height_mm))
        for opening in by_size:
            grip = grip_at(self.opening_px(opening), pos, selected=opening.id == selected)
            if grip is not None:
                return opening, grip
        return None

    def panel(self, pos: QPointF) -> Panel | None:
        place = self.strip.nearest(self.camera.to_strip(pos))
        there = face_on(self.contents[place.wall], place)
        return self._panel(there.mark) if there else None

    def panels_touched(self, box: Box) -> tuple[str, ...]:
        """The marks of the panels that reach into a box of the strip, in the set-out's order."""
        return tuple(panel.mark for panel in self.setout.panels if any(_meet(box, self._face_box(face)) for face in panel.faces))

    def openings_within(self, box: Box) -> tuple[str, ...]:
        """The openings that lie wholly within a box of the strip."""
        return tuple(o.id for o in self.setout.room.openings if _holds(box, opening_box(self.strip, o)))

    def _panel(self, mark: str) -> Panel | None:
        return next((panel for panel in self.setout.panels if panel.mark == mark), None)

    def place_box(self, where: str) -> Box | None:
        """The box of a check's ``where``: ``room``, ``wall A``, ``opening door`` or ``panel B-3-07``."""
        kind, _, name = where.partition(" ")
        if kind == "room":
            return self.whole
        if kind == "wall":
            return next((self.wall_box(w) for w in range(len(self.contents)) if wall_letter(w) == name), None)
        return self.named_box(name) if kind in ("opening", "panel") else None

    def named_box(self, name: str) -> Box | None:
        """The box of an opening by its id, or of a panel by its mark."""
        opening = next((o for o in self.setout.room.openings if o.id == name), None)
        if opening is not None:
            return opening_box(self.strip, opening)
        panel = self._panel(name)
        return self._panel_box(panel) if panel else None

    def _panel_box(self, panel: Panel) -> Box:
        return self._face_box(panel.faces[-1])

    def _face_box(self, face: Face) -> Box:
        left, bottom, right, top = face_box_mm(self.setout, face)
        start = self.strip.starts_mm[face.wall]
        return Box(start + left, bottom, start + right, top)


def _roomier(box: Box) -> Box:
    across = max((box.right_mm - box.left_mm) * (ROUND_A_PLACE - 1), 600.0) / 2
    up = max((box.top_mm - box.bottom_mm) * (ROUND_A_PLACE - 1), 600.0) / 2
    return Box(box.left_mm - across, box.bottom_mm - up, box.right_mm + across, box.top_mm + up)


def _meet(one: Box, other: Box) -> bool:
    across = one.left_mm < other.right_mm and other.left_mm < one.right_mm
    return across and one.bottom_mm < other.top_mm and other.bottom_mm < one.top_mm


def _holds(outer: Box, inner: Box) -> bool:
    across = outer.left_mm <= inner.left_mm and inner.right_mm <= outer.right_mm
    return across and outer.bottom_mm <= inner.bottom_mm and inner.top_mm <= outer.top_mm


def _height_mm(contents: tuple[WallContent, ...]) -> float:
    return max(content.top_mm for content in contents)
