"""Both elevations one above the other at one scale, with what only one of them has outlined heavily."""

from collections import defaultdict
from collections.abc import Collection, Iterable, Iterator
from dataclasses import dataclass

from PySide6.QtCore import QPoint, QPointF, QRect, QRectF, QSize, Qt, Signal
from PySide6.QtGui import QColor, QKeyEvent, QPainter, QPainterPath, QPaintEvent, QPen, QPolygonF
from PySide6.QtWidgets import QWidget
from shapely import Polygon, unary_union

from app import theme
from app.comparing.versions import Pair, Version
from app.elevation import lettering, margins
from app.elevation.camera import Box, Camera
from app.elevation.frame import FLOOR_PX
from app.elevation.overlay import opening_box
from app.elevation.pictures import WallPictures
from app.elevation.stage import Stage
from app.elevation.strip import StripPoint, WallPoint
from app.theme.look import look
from core.compare import changed_openings, only_in_one
from core.language import tr, trn
from core.room import wall_letter
from core.setout.metric import ring_mm
from core.setout.result import Panel, SetOut

TITLE_PX, TITLE_HIGH_PX = 13, 24
OUTLINE_PX = 3.0
FLAG_PX = 9.0


RingMm = tuple[tuple[float, float], ...]


@dataclass(frozen=True)
class _Half:
    """One version's elevation and what in it is to be outlined."""

    version: Version
    stage: Stage
    pictures: WallPictures
    panels: tuple[Panel, ...]
    regions: tuple[tuple[int, tuple[RingMm, ...]], ...]
    """What those panels cover together: by wall, the rings of one connected area."""
    openings: frozenset[str]

    @classmethod
    def of(cls, version: Version, marks: Collection[str], openings: frozenset[str]) -> "_Half":
        panels = tuple(panel for panel in version.setout.panels if panel.mark in marks)
        return cls(version, Stage(version.setout), WallPictures(), panels, tuple(_regions(version.setout, panels)), openings)


class ComparedElevations(QWidget):
    """Shows the whole room or one wall of both versions."""

    wall_changed = Signal(object)
    """The wall shown; None for the whole room."""

    def __init__(self, pair: Pair) -> None:
        super().__init__()
        self._wall: int | None = None
        self.setFocusPolicy(Qt.FocusPolicy.StrongFocus)
        self.setAttribute(Qt.WidgetAttribute.WA_OpaquePaintEvent)
        self.setMinimumSize(400, 300)
        self.setAccessibleName(tr("Elevations of both versions"))
        self.show_pair(pair)
        look.changed.connect(self._on_look)

    def sizeHint(self) -> QSize:
        return QSize(1200, 460)

    def show_pair(self, pair: Pair) -> None:
        """Show two other versions."""
        marks = only_in_one(pair.before.setout, pair.after.setout)
        openings = changed_openings(pair.before.setout.room, pair.after.setout.room)
        self._halves = tuple(
            _Half.of(version, found, openings) for version, found in zip((pair.before, pair.after), marks, strict=True)
        )
        self._wall = None
        counts = [_count_words(half) for half in self._halves]
        self.setAccessibleDescription("; ".join(counts))
        self.update()

    @property
    def outlined(self) -> tuple[frozenset[str], frozenset[str]]:
        """Marks of the panels outlined in the upper and in the lower elevation."""
        upper, lower = (frozenset(panel.mark for panel in half.panels) for half in self._halves)
        return upper, lower

    @property
    def wall(self) -> int | None:
        return self._wall

    @property
    def wall_count(self) -> int:
        """How many walls the version with more of them has."""
        return max(len(half.stage.contents) for half in self._halves)

    def show_wall(self, wall: int | None) -> None:
        """Fill both halves with a wall, or with the whole room."""
        if wall != self._wall and (wall is None or 0 <= wall < self.wall_count):
            self._wall = wall
            self.wall_changed.emit(wall)
            self.update()

    def wall_of(self, where: str) -> int | None:
        """The wall of a place as checks name it, in the later version where it has the place; None for the room and the kit."""
        kind, _, name = where.partition(" ")
        for half in reversed(self._halves):
            room = half.version.setout.room
            walls = {wall_letter(wall): wall for wall in range(room.wall_count)}
            found = {o.id: o.wall for o in room.openings} if kind == "opening" else walls if kind == "wall" else {}
            if name in found:
                return found[name]
        return None

    def step_wall(self, step: int) -> None:
        """The next wall, or the one before; the whole room lies between the last and the first."""
        places: list[int | None] = [None, *range(self.wall_count)]
        self.show_wall(places[(places.index(self._wall) + step) % len(places)])

    def _on_look(self) -> None:
        for half in self._halves:
            half.pictures.forget()
        self.update()

    def keyPressEvent(self, event: QKeyEvent) -> None:
        steps = {Qt.Key.Key_PageDown: 1, Qt.Key.Key_Right: 1, Qt.Key.Key_PageUp: -1, Qt.Key.Key_Left: -1}
        if (step := steps.get(Qt.Key(event.key()))) is not None:
            self.step_wall(step)
        elif event.key() in (Qt.Key.Key_0, Qt.Key.Key_Home):
            self.show_wall(None)
        else:
            super().keyPressEvent(event)

    def _aim(self) -> None:
        """Both cameras at one scale, from the same left edge."""
        high = self.height() // 2 - theme.px(TITLE_HIGH_PX)
        boxes = [self._box(half.stage) for half in self._halves]
        for half in self._halves:
            half.stage.size = QSize(self.width(), high)
        above, below = margins.head_px() + margins.HEAD_GAP_PX, FLOOR_PX + 2
        frame = QRectF(margins.side_px() + 6, above, max(self.width() - margins.side_px() - 14, 1), max(high - above - below, 1))
        scale = min(Camera.fitting(box, frame).scale for box in boxes)
        widest = max(box.right_mm - box.left_mm for box in boxes) * scale
        left = frame.center().x() - widest / 2
        for half, box in zip(self._halves, boxes, strict=True):
            at = QPointF(left, frame.center().y())
            half.stage.camera = Camera(scale, 0.0, 0.0).centred(StripPoint(box.left_mm, box.centre.z_mm), at)

    def _box(self, stage: Stage) -> Box:
        if self._wall is None:
            return stage.whole
        return stage.wall_box(min(self._wall, len(stage.contents) - 1))

    def paintEvent(self, _event: QPaintEvent) -> None:
        self._aim()
        painter = QPainter(self)
        painter.fillRect(self.rect(), QColor(theme.shown.bench))
        for number, half in enumerate(self._halves):
            painter.save()
            painter.translate(0, number * (self.height() // 2))
            _paint_title(painter, half, self.width())
            painter.translate(0, theme.px(TITLE_HIGH_PX))
            self._paint_half(painter, half)
            painter.restore()
        if self.hasFocus():
            painter.setPen(QColor(theme.shown.accent))
            painter.drawRect(self.rect().adjusted(0, 0, -1, -1))
        painter.end()

    def _paint_half(self, painter: QPainter, half: _Half) -> None:
        stage = half.stage
        if self._wall is not None and self._wall >= len(stage.contents):
            painter.setPen(QColor(theme.shown.quiet_ink))
            painter.setFont(lettering.font(theme.px(TITLE_PX)))
            painter.drawText(QRect(QPoint(0, 0), stage.size), Qt.AlignmentFlag.AlignCenter, tr("no such wall in this version"))
            return
        view = QRect(QPoint(0, 0), stage.size)
        painter.setClipRect(view)
        for content in stage.contents:
            left = round(stage.camera.x_px(stage.wall_box(content.shell.wall).left_mm))
            corner = QPoint(left, round(stage.camera.y_px(content.top_mm)))
            half.pictures.draw(painter, content, stage.camera.scale, corner, view)
        margins.paint_head(painter, stage, -1 if self._wall is None else self._wall)
        margins.paint_side(painter, stage.setout, stage.camera, stage.size)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing)
        for wall, rings in half.regions:
            self._outline(painter, _region_path(stage, wall, rings))
        for opening in stage.setout.room.openings:
            if opening.id in half.openings:
                path = QPainterPath()
                path.addRect(stage.camera.box_px(opening_box(stage.strip, opening)))
                self._outline(painter, path)
        painter.setRenderHint(QPainter.RenderHint.Antialiasing, False)

    @staticmethod
    def _outline(painter: QPainter, path: QPainterPath) -> None:
        """A heavy black line just inside on a white one, and a filled corner: told from other lines by weight, not by colour."""
        painter.save()
        painter.setClipPath(path, Qt.ClipOperation.IntersectClip)
        painter.strokePath(path, QPen(QColor(theme.shown.card), 2 * OUTLINE_PX + 3, j=Qt.PenJoinStyle.MiterJoin))
        painter.strokePath(path, QPen(QColor(theme.shown.ink), 2 * OUTLINE_PX, j=Qt.PenJoinStyle.MiterJoin))
        box = path.boundingRect()
        if min(box.width(), box.height()) > 4 * FLAG_PX:
            nodes = [path.elementAt(number) for number in range(path.elementCount())]
            y, x = min((node.y, node.x) for node in nodes)
            corner = QPointF(x, y)
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(QColor(theme.shown.ink))
            painter.drawPolygon(QPolygonF([corner, corner + QPointF(2 * FLAG_PX, 0), corner + QPointF(0, 2 * FLAG_PX)]))
        painter.restore()


def _count_words(half: _Half) -> str:
    return trn(
        "{version}: {n} panel that the other has not",
        "{version}: {n} panels that the other has not",
        len(half.panels),
        version=half.version.title,
    )


def _regions(setout: SetOut, panels: Iterable[Panel]) -> Iterator[tuple[int, tuple[RingMm, ...]]]:
    """The connected areas of some panels, wall by wall."""
    areas: defaultdict[int, list[Polygon]] = defaultdict(list)
    for panel in panels:
        for face in panel.faces:
            areas[face.wall].append(Polygon(face.outline, face.holes))
    for wall, found in areas.items():
        whole = unary_union(found)
        for part in getattr(whole, "geoms", [whole]):
            rings = (part.exterior, *part.interiors)
            yield wall, tuple(tuple(ring_mm(setout, wall, tuple((int(x), int(z)) for x, z in r.coords[:-1]))) for r in rings)


def _region_path(stage: Stage, wall: int, rings: Iterable[RingMm]) -> QPainterPath:
    path = QPainterPath()
    for ring in rings:
        path.addPolygon(QPolygonF([stage.to_screen(WallPoint(wall, x, z)) for x, z in ring]))
        path.closeSubpath()
    return path


def _paint_title(painter: QPainter, half: _Half, width_px: int) -> None:
    painter.fillRect(QRect(0, 0, width_px, theme.px(TITLE_HIGH_PX)), QColor(theme.shown.card))
    painter.setPen(QColor(theme.shown.ink))
    painter.setFont(lettering.font(theme.px(TITLE_PX), bold=True))
    box = QRect(10, 0, width_px - 20, theme.px(TITLE_HIGH_PX))
    painter.drawText(box, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignLeft, half.version.title)
    painter.setFont(lettering.font(theme.px(TITLE_PX)))
    said = tr("every panel is in both")
    if number := len(half.panels):
        said = trn("{n} panel that the other has not, outlined", "{n} panels that the other has not, outlined", number)
    painter.drawText(box, Qt.AlignmentFlag.AlignVCenter | Qt.AlignmentFlag.AlignRight, said)
