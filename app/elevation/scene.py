"""The order in which a view's picture comes about: walls, folds, what is pointed at and selected, margins, the notice."""

from collections.abc import Callable, Container, Mapping

from PySide6.QtCore import QPoint, QRect, Qt
from PySide6.QtGui import QColor, QPainter, QPixmap

from app import theme
from app.elevation import margins
from app.elevation.attention import Attention
from app.elevation.band import Band
from app.elevation.brick_marks import BrickSource
from app.elevation.overlay import Overlay
from app.elevation.pictures import WallPictures, blank
from app.elevation.pin_marks import paint_pins
from app.elevation.progress_marks import key_box, paint_key
from app.elevation.stage import Stage
from app.elevation.stud_marks import paint_studs
from app.elevation.studs import StudView
from app.elevation.wall_painter import Tint
from core.setout.result import Panel


class Scene:
    """Paints a stage; the walls' pictures are kept from one painting to the next."""

    def __init__(self, stage: Stage, bricks: BrickSource) -> None:
        self._stage = stage
        self._pictures = WallPictures(bricks)
        self._margins: dict[str, tuple[object, QPixmap]] = {}

    @property
    def pictures(self) -> Mapping[int, object]:
        return self._pictures.kept

    def show_tint(self, tint: Tint | None) -> None:
        """Paint the walls anew, with other colours or with none."""
        self._pictures.show_tint(tint)

    def forget(self) -> None:
        """Paint everything anew: colours or letters are others now."""
        self._pictures.forget()
        self._margins.clear()

    def repaint(self, marks: Container[str]) -> None:
        """Paint panels anew in the kept pictures."""
        self._pictures.repaint(marks)

    def paint(self, painter: QPainter, attention: Attention) -> None:
        """Paint everything."""
        stage = self._stage
        view = QRect(QPoint(0, 0), stage.size)
        painter.fillRect(view, QColor(theme.shown.bench))
        self._paint_walls(painter, view)
        margins.paint_folds(painter, stage.setout, stage.strip, stage.camera)
        margins.paint_ends(painter, stage.setout, stage.strip, stage.camera)
        self._paint_margins(painter, attention.wall)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        paint_pins(painter, stage.setout, stage.strip, stage.camera)
        overlay = Overlay(painter, stage.setout, stage.strip, stage.camera)
        _paint_attention(overlay, attention)
        if attention.studs is not None:
            paint_studs(painter, attention.studs, stage)
            _paint_stud(overlay, attention.studs)
        if attention.notice:
            margins.paint_notice(painter, attention.notice, stage.size)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)
        if attention.has_focus:
            painter.setPen(QColor(theme.shown.accent))
            painter.setBrush(Qt.BrushStyle.NoBrush)
            painter.drawRect(view.adjusted(0, 0, -1, -1))

    def _paint_walls(self, painter: QPainter, view: QRect) -> None:
        camera = self._stage.camera
        for content in self._stage.contents:
            wall = content.shell.wall
            left = round(camera.x_px(self._stage.wall_box(wall).left_mm))
            top = round(camera.y_px(content.top_mm))
            self._pictures.draw(painter, content, camera.scale, QPoint(left, top), view)

    def _paint_margins(self, painter: QPainter, current: int) -> None:
        """Row numbers, wall letters and the key, of which a drag changes nothing."""
        stage = self._stage
        setout, camera, size = stage.setout, stage.camera, stage.size
        self._from_picture(
            painter,
            "side",
            margins.side_box(size),
            (setout.rows, setout.room.kit, camera),
            lambda inner: margins.paint_side(inner, setout, camera, size),
        )
        self._from_picture(
            painter,
            "head",
            margins.head_box(stage),
            (setout.walls, setout.room.display_units, camera, stage.strip, current),
            lambda inner: margins.paint_head(inner, stage, current),
        )
        shown = tuple(stage.states)
        self._from_picture(painter, "key", key_box(shown, size), shown, lambda inner: paint_key(inner, shown, size))

    def _from_picture(self, painter: QPainter, name: str, box: QRect, content: object, paint: Callable[[QPainter], None]) -> None:
        """Draw a box of the view, painted anew only where its place or its content has changed."""
        if box.isEmpty():
            return
        ratio = painter.device().devicePixelRatioF()
        kept, picture = self._margins.get(name, (None, None))
        if picture is None or kept != (box, ratio, content):
            picture = blank(box.size(), ratio)
            picture.fill(QColor(theme.shown.bench))
            inner = QPainter(picture)
            inner.translate(-box.topLeft())
            paint(inner)
            inner.end()
            self._margins[name] = (box, ratio, content), picture
        painter.drawPixmap(box.topLeft(), picture)


def _paint_stud(overlay: Overlay, studs: StudView) -> None:
    number = studs.hover if studs.selected is None else studs.selected
    if number is not None:
        overlay.stud(studs.wall, studs.frame.centres_mm[number], studs.frame.stud_mm)


def _paint_attention(overlay: Overlay, attention: Attention) -> None:
    if attention.panels:
        overlay.select_panels(attention.panels)
    for opening in attention.openings:
        overlay.choose_opening(opening)
    if isinstance(attention.hover, Panel):
        overlay.hover_panel(attention.hover)
    elif attention.hover is not None and attention.hover != attention.opening:
        overlay.hover_opening(attention.hover)
    if isinstance(attention.gesture, Band):
        overlay.band(attention.gesture.box)
    elif attention.gesture is not None:
        overlay.guides(attention.gesture.guides)
    if attention.opening is not None:
        overlay.select_opening(attention.opening)
        overlay.dimensions(attention.opening)
    if attention.gesture is not None and attention.gesture.refused is not None:
        overlay.refused(attention.gesture.refused)
