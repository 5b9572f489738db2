"""What the elevation shows, and where: the set-out, its strip and the camera, with the questions a pointer asks."""

from PySide6.QtCore import QPointF, QRectF, QSize

from app.elevation.camera import Box, Camera
from app.elevation.content import WallContent, wall_contents
from app.elevation.frame import picture_top_mm
from app.elevation.hits import Grip, grip_at, panel_on
from app.elevation.margins import HEAD_PX, SIDE_PX
from app.elevation.overlay import opening_box
from app.elevation.strip import FOLD_MM, Strip, WallPoint
from core.room import Opening, wall_letter
from core.setout.metric import face_box_mm
from core.setout.result import Panel, SetOut

ROUND_A_PLACE = 1.6
"""A place shown by itself gets so many times its own size of picture."""


class Stage:
    """The one place that knows both the walls and the camera."""

    def __init__(self, setout: SetOut) -> None:
        self.camera = Camera(0.1, 0.0, 0.0)
        self.setout = setout
        self.strip = Strip.of(setout.room)
        self.contents: tuple[WallContent, ...] = wall_contents(setout)
        self.height_mm = _height_mm(self.contents)

    def take(self, setout: SetOut) -> bool:
        """Show another set-out; True where the walls themselves have changed, so that a fit no longer fits."""
        before = (self.strip, self.height_mm)
        self.setout = setout
        self.strip = Strip.of(setout.room)
        self.contents = wall_contents(setout)
        self.height_mm = _height_mm(self.contents)
        return before != (self.strip, self.height_mm)

    @property
    def whole(self) -> Box:
        """All walls, with half a fold at either end."""
        return Box(-FOLD_MM / 2, 0.0, self.strip.width_mm + FOLD_MM / 2, self.height_mm)

    def wall_box(self, wall: int) -> Box:
        start = self.strip.starts_mm[wall]
        return Box(start - FOLD_MM / 2, 0.0, start + self.strip.lengths_mm[wall] + FOLD_MM / 2, self.height_mm)

    def picture_top_mm(self, wall: int) -> float:
        return picture_top_mm(self.contents[wall])

    def frame_px(self, size: QSize) -> QRectF:
        """The part of the view that margins and labels leave to the walls."""
        return QRectF(SIDE_PX + 6, HEAD_PX + 26, max(size.width() - SIDE_PX - 18, 1), max(size.height() - HEAD_PX - 66, 1))

    def fit(self, box: Box, size: QSize) -> None:
        self.camera = Camera.fitting(box, self.frame_px(size))

    def show(self, box: Box, size: QSize) -> None:
        """Bring a box into the middle, nearer only where it would be too small to see."""
        fitting = Camera.fitting(_roomier(box), self.frame_px(size))
        scale = min(max(self.camera.scale, min(fitting.scale, 0.25)), fitting.scale)
        self.camera = Camera(scale, 0.0, 0.0).centred(box.centre, self.frame_px(size).center())

    def to_screen(self, place: WallPoint) -> QPointF:
        return self.camera.to_screen(self.strip.place(place))

    def to_wall(self, pos: QPointF) -> WallPoint | None:
        return self.strip.wall_point(self.camera.to_strip(pos))

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
        return panel_on(self.contents[place.wall], place)

    def place_box(self, where: str) -> Box | None:
        """The box of a check's ``where``: ``room``, ``wall A``, ``opening door`` or ``panel B-3-07``."""
        kind, _, name = where.partition(" ")
        if kind == "room":
            return self.whole
        if kind == "wall":
            return next((self.wall_box(w) for w in range(len(self.contents)) if wall_letter(w) == name), None)
        if kind == "opening":
            return next((opening_box(self.strip, o) for o in self.setout.room.openings if o.id == name), None)
        if kind == "panel":
            return next((self._panel_box(panel) for panel in self.setout.panels if panel.mark == name), None)
        return None

    def _panel_box(self, panel: Panel) -> Box:
        face = panel.faces[-1]
        left, bottom, right, top = face_box_mm(self.setout, face)
        start = self.strip.starts_mm[face.wall]
        return Box(start + left, bottom, start + right, top)


def _roomier(box: Box) -> Box:
    across = max((box.right_mm - box.left_mm) * (ROUND_A_PLACE - 1), 600.0) / 2
    up = max((box.top_mm - box.bottom_mm) * (ROUND_A_PLACE - 1), 600.0) / 2
    return Box(box.left_mm - across, box.bottom_mm - up, box.right_mm + across, box.top_mm + up)


def _height_mm(contents: tuple[WallContent, ...]) -> float:
    return max(picture_top_mm(content) for content in contents)
