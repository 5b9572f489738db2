"""What stands on each wall as kept shapes in wall millimetres (z up): turning the room maps them and makes none anew."""

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, field
from functools import cached_property

from PySide6.QtCore import QPointF, QRectF
from PySide6.QtGui import QPainterPath

from app import theme
from app.elevation.content import GridBox, PlacedFace, WallContent, grid_box, is_rectangle, roomiest_box
from app.elevation.fills import CROSSED
from app.spatial.signs import paint_opening_lines, sign_bars, sign_lines
from app.spatial.viewpoint import Plan
from core.drawing import Pen
from core.drawing.hatch import hatch
from core.room import Room
from core.setout.result import Face, PanelKind, Ring

Area = tuple[list[QPointF], list[list[QPointF]]]
"""An outline and its cut-outs in wall millimetres."""


@dataclass(frozen=True)
class WallForm:
    """One wall's shapes. The wall stands on the shell's line, so that corner panels meet in their corner."""

    content: WallContent
    foot: Plan
    along: Plan
    _hatches: dict[float, dict[PanelKind, QPainterPath]] = field(default_factory=dict, compare=False)

    @classmethod
    def of(cls, room: Room, content: WallContent) -> "WallForm":
        """The form of a wall of that content."""
        shell = content.shell
        (x0, y0), (x1, y1) = room.wall_ends_mm(shell.wall)
        dx, dy = (x1 - x0) / shell.length_mm, (y1 - y0) / shell.length_mm
        return cls(content, (x0 + dy * shell.packing_mm, y0 - dx * shell.packing_mm), (dx, dy))

    @property
    def wall(self) -> int:
        return self.content.shell.wall

    @property
    def left_mm(self) -> float:
        """Where the wall's face begins: at the shell's corner, or at the frame's where the lining stops short of it."""
        return 0.0 if self.content.shell.left == "free" else self.content.shell.start_mm

    @property
    def right_mm(self) -> float:
        shell = self.content.shell
        end_mm = shell.start_mm + shell.pitches * self.content.kit.pitch_mm
        return shell.length_mm if shell.right == "free" else end_mm

    @property
    def ends(self) -> tuple[Plan, Plan]:
        """Left and right end on the plan."""
        return self.plan(self.left_mm), self.plan(self.right_mm)

    def plan(self, along_mm: float) -> Plan:
        """The place on the plan below a place on the wall."""
        return self.foot[0] + self.along[0] * along_mm, self.foot[1] + self.along[1] * along_mm

    def mm(self, x_pitches: float, z_plates: float) -> QPointF:
        """Wall millimetres of a place on the grid."""
        kit = self.content.kit
        return QPointF(self.content.shell.start_mm + x_pitches * kit.pitch_mm, z_plates * kit.plate_mm)

    def box_mm(self, placed: PlacedFace) -> QRectF:
        """Where a face has most room for a sign; its foot is the rectangle's upper edge, since z runs up."""
        left, bottom, right, top = grid_box(placed.face) if is_rectangle(placed.face) else roomiest_box(placed.face)
        return QRectF(self.mm(left, bottom), self.mm(right, top))

    @cached_property
    def outline(self) -> QPainterPath:
        path = QPainterPath()
        path.addRect(QRectF(self.left_mm, 0.0, self.right_mm - self.left_mm, self.content.clad_height_mm))
        return path

    @cached_property
    def fills(self) -> dict[PanelKind, QPainterPath]:
        """The faces of each kind, neighbours run together: a few large areas paint faster than many small ones."""
        paths: dict[PanelKind, QPainterPath] = {}
        for kind, areas in self._areas.items():
            path = paths.setdefault(kind, QPainterPath())
            for outline, holes in areas:
                _add_rings(path, (outline, *holes))
        return paths

    @cached_property
    def _areas(self) -> dict[PanelKind, list[Area]]:
        boxes: defaultdict[PanelKind, list[GridBox]] = defaultdict(list)
        areas: defaultdict[PanelKind, list[Area]] = defaultdict(list)
        for placed in self.content.faces:
            if is_rectangle(placed.face):
                boxes[placed.kind].append(grid_box(placed.face))
            else:
                areas[placed.kind].append((self._ring(placed.face.outline), [self._ring(hole) for hole in placed.face.holes]))
        for kind, found in boxes.items():
            for left, bottom, right, top in run_together(found):
                corners = ((left, bottom), (right, bottom), (right, top), (left, top))
                areas[kind].append(([self.mm(x, z) for x, z in corners], []))
        return dict(areas)

    def _ring(self, ring: Ring) -> list[QPointF]:
        return [self.mm(x, z) for x, z in ring]

    def face_path(self, face: Face) -> QPainterPath:
        """One face's outline and cut-outs."""
        path = QPainterPath()
        _add_rings(path, [self._ring(ring) for ring in (face.outline, *face.holes)])
        return path

    def hatches(self, spacing_mm: float) -> dict[PanelKind, QPainterPath]:
        """The hatch of each kind that must be made specially, at a spacing; kept."""
        if spacing_mm not in self._hatches:
            self._hatches.clear()
            self._hatches[spacing_mm] = {
                kind: _hatch_path(areas, spacing_mm, kind in CROSSED)
                for kind, areas in self._areas.items()
                if kind in theme.HATCHED_KINDS
            }
        return self._hatches[spacing_mm]

    @cached_property
    def joints(self) -> QPainterPath:
        """Every edge of every face, each stretch once."""
        upright: defaultdict[int, list[tuple[int, int]]] = defaultdict(list)
        level: defaultdict[int, list[tuple[int, int]]] = defaultdict(list)
        for placed in self.content.faces:
            for ring in (placed.face.outline, *placed.face.holes):
                for (x0, z0), (x1, z1) in zip(ring, ring[1:] + ring[:1], strict=True):
                    if x0 == x1:
                        upright[x0].append((min(z0, z1), max(z0, z1)))
                    else:
                        level[z0].append((min(x0, x1), max(x0, x1)))
        path = QPainterPath()
        for x, spans in upright.items():
            for low, high in joined(spans):
                _add_line(path, self.mm(x, low), self.mm(x, high))
        for z, spans in level.items():
            for left, right in joined(spans):
                _add_line(path, self.mm(left, z), self.mm(right, z))
        return path

    @cached_property
    def openings(self) -> QPainterPath:
        path = QPainterPath()
        for opening in self.content.openings:
            path.addRect(QRectF(opening.left_mm, opening.sill_mm, opening.width_mm, opening.height_mm))
        return path

    @cached_property
    def opening_lines(self) -> QPainterPath:
        """What tells the kinds of openings apart."""
        path = QPainterPath()
        for opening in self.content.openings:
            paint_opening_lines(path, opening)
        return path

    @cached_property
    def signs(self) -> QPainterPath:
        """How far each panel is, as lines: ticks and crosses."""
        path = QPainterPath()
        for placed in self.content.faces:
            sign_lines(path, placed.state, self.box_mm(placed))
        return path

    @cached_property
    def bars(self) -> QPainterPath:
        """The bars along the foot of panels that hang."""
        path = QPainterPath()
        for placed in self.content.faces:
            sign_bars(path, placed.state, self.box_mm(placed))
        return path


def _add_line(path: QPainterPath, begin: QPointF, end: QPointF) -> None:
    path.moveTo(begin)
    path.lineTo(end)


def _add_rings(path: QPainterPath, rings: Iterable[Sequence[QPointF]]) -> None:
    for ring in rings:
        path.addPolygon(list(ring))
        path.closeSubpath()


def _hatch_path(areas: Iterable[Area], spacing_mm: float, crossed: bool) -> QPainterPath:
    path = QPainterPath()
    for outline, holes in areas:
        for up in (-1.0, 1.0) if crossed else (-1.0,):
            rings = [[(at.x(), up * at.y()) for at in ring] for ring in (outline, *holes)]
            for line in hatch(rings[0], rings[1:], spacing_mm, Pen(0.13)):
                (x0, z0), (x1, z1) = line.points[0], line.points[-1]
                _add_line(path, QPointF(x0, up * z0), QPointF(x1, up * z1))
    return path


def joined(spans: Iterable[tuple[int, int]]) -> list[tuple[int, int]]:
    """Spans that touch or overlap as one, in rising order."""
    done: list[tuple[int, int]] = []
    for low, high in sorted(spans):
        if done and low <= done[-1][1]:
            done[-1] = done[-1][0], max(done[-1][1], high)
        else:
            done.append((low, high))
    return done


def run_together(boxes: Iterable[GridBox]) -> list[GridBox]:
    """Boxes that share a whole side as one: first along their row, then the rows."""
    across: list[GridBox] = []
    for left, bottom, right, top in sorted(boxes, key=lambda box: (box[1], box[3], box[0])):
        if across and across[-1][2] == left and (across[-1][1], across[-1][3]) == (bottom, top):
            across[-1] = across[-1][0], bottom, right, top
        else:
            across.append((left, bottom, right, top))
    up: list[GridBox] = []
    for left, bottom, right, top in sorted(across, key=lambda box: (box[0], box[2], box[1])):
        if up and up[-1][3] == bottom and (up[-1][0], up[-1][2]) == (left, right):
            up[-1] = left, up[-1][1], right, top
        else:
            up.append((left, bottom, right, top))
    return up
