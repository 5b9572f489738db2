"""Panels in the colours of their bricks on the elevation. Hue never stands alone: every patch carries its colour's code."""

from collections import defaultdict
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

import numpy as np
from PySide6.QtCore import QLine, QObject, QPoint, QPointF, QRect, Qt, Signal
from PySide6.QtGui import QColor, QPainter, QPen

from app import theme
from app.document import Document
from app.elevation import lettering
from app.elevation.brick_marks import shows_bricks
from app.elevation.content import GridBox, PlacedFace, is_rectangle
from app.elevation.frame import PictureFrame, Sight
from app.elevation.wall_painter import face_path
from core.colour import ANY, Finish, Wishes, laid_cells, wishes_of
from core.colour.places import LegPlace, leg_places
from core.colour.wishes import Cells
from core.colouring import PictureRule
from core.edits.colouring import add_rule
from core.errors import CoursewrightError
from core.setout.result import SetOut

CODE_PX = 11
LEAST_HIGH_PX, LEAST_WIDE_PX = 11, 9
"""Smaller patches carry no code; there a longer look at the sheet tells."""


@dataclass(frozen=True, slots=True)
class _Patch:
    """A rectangle of one colour, on the wall's grid."""

    colour: int
    box: GridBox


@dataclass(frozen=True, slots=True)
class _Laid:
    """A panel's bricks and where they are."""

    finish: Finish
    places: tuple[LegPlace, ...]
    bottom: int


class Tint(QObject):
    """Knows the wished colours of the set-out shown, and of a picture that is only being tried."""

    changed = Signal()
    """Other colours than before."""

    def __init__(self, document: Document, parent: QObject) -> None:
        super().__init__(parent)
        self._document = document
        self.is_on = False
        """Whether anybody looks; nothing is worked out where nobody does."""
        self._trial: tuple[PictureRule, int | None] | None = None
        self._wishes: Wishes | None = None
        self._shown: Wishes | None = None
        self._patched: Wishes | None = None
        """What the patches were cut from."""
        self._patches: dict[tuple[int, str, GridBox], tuple[_Patch, ...]] = {}
        self._finishes: dict[str, _Laid] = {}
        self._laid_cells: dict[int, Cells] = {}
        """The colours as laid by wall, once they are known; they differ from the wishes where a brick bridges a line."""
        document.changed.connect(self._take)

    @property
    def wishes(self) -> Wishes:
        """The colours of the set-out shown."""
        if self._wishes is None:
            self._wishes = wishes_of(self._tried(self._document.setout))
            if self._patched is None or not _are_alike(self._patched, self._wishes):
                self._patched, self._patches = self._wishes, {}
        return self._wishes

    def try_picture(self, rule: PictureRule | None, number: int | None = None) -> None:
        """Show a picture over all rules, or in place of one; None puts the room's own colours back."""
        trial = None if rule is None else (rule, number)
        if trial != self._trial:
            self._trial = trial
            self._forget()

    def show_finishes(self, wishes: Wishes, finishes: Mapping[str, Finish]) -> None:
        """Show what is really laid, with its joints, until something else is wished."""
        if not _are_alike(wishes, self.wishes):
            return
        setout = wishes.setout
        self._finishes = {
            panel.mark: _Laid(finishes[panel.mark], leg_places(setout, panel), min(face.bottom for face in panel.faces))
            for panel in setout.panels
            if panel.mark in finishes
        }
        self._laid_cells, self._patches = laid_cells(wishes, finishes), {}
        self.changed.emit()

    def _tried(self, setout: SetOut) -> SetOut:
        """The set-out with what is being tried; as it is where that makes no sense any more."""
        if self._trial is None:
            return setout
        rule, number = self._trial
        try:
            room = setout.room
            if number is not None and number < len(room.colouring.rules):
                rules = (*room.colouring.rules[:number], *room.colouring.rules[number + 1 :])
                room = room.model_copy(update={"colouring": room.colouring.model_copy(update={"rules": rules})})
            return replace(setout, room=add_rule(room, rule))
        except CoursewrightError:
            return setout

    def _take(self, _setout: SetOut) -> None:
        """Between gestures, walls whose panels stay may have other colours all the same."""
        self._forget_bricks()
        if self._document.gesture_base is None:
            self._forget()

    def _forget_bricks(self) -> None:
        self._wishes, self._finishes = None, {}
        if self._laid_cells:
            self._laid_cells, self._patches = {}, {}

    def _forget(self) -> None:
        self._forget_bricks()
        if not self.is_on:
            return
        before, now = self._shown, self.wishes
        self._shown = now
        if before is None or not _are_alike(before, now):
            self.changed.emit()

    def paint(self, painter: QPainter, wall: int, seen: Sequence[Sight], frame: PictureFrame) -> None:
        """Paint the patches of every face in sight; where any colour will do the panel's own fill stays."""
        painter.save()
        rects: defaultdict[int, list[QRect]] = defaultdict(list)
        joints: list[QLine] = []
        shaped: list[tuple[PlacedFace, list[tuple[int, QRect]]]] = []
        for placed, _ in seen:
            found = [(patch.colour, frame.rect(patch.box)) for patch in self._of(wall, placed)]
            if is_rectangle(placed.face):
                for colour, rect in found:
                    rects[colour].append(rect)
                joints += self._joints(wall, placed, frame)
            else:
                shaped.append((placed, found))
        self._fill(painter, rects)
        painter.setPen(QPen(QColor(theme.shown.field_edge), 1))
        painter.drawLines(joints)
        for placed, found in shaped:
            painter.save()
            painter.setClipPath(face_path(placed.face, frame), Qt.ClipOperation.IntersectClip)
            self._fill(painter, {colour: [rect for one, rect in found if one == colour] for colour, _ in found})
            painter.setPen(QPen(QColor(theme.shown.field_edge), 1))
            painter.drawLines(self._joints(wall, placed, frame))
            painter.restore()
        self._outline(painter, seen, frame)
        painter.restore()

    def _fill(self, painter: QPainter, rects: dict[int, list[QRect]]) -> None:
        colours = self.wishes.setout.room.colouring.colours
        painter.setFont(lettering.font(theme.px(CODE_PX)))
        for number, batch in sorted(rects.items()):
            ground = QColor(colours[number].srgb)
            painter.setPen(Qt.PenStyle.NoPen)
            painter.setBrush(ground)
            painter.drawRects(batch)
            painter.setPen(QColor(ink_on(colours[number].srgb)))
            for rect in batch:
                if rect.height() >= LEAST_HIGH_PX and rect.width() >= LEAST_WIDE_PX:
                    lettering.write(painter, _code_at(rect), colours[number].code, theme.px(CODE_PX))

    def _outline(self, painter: QPainter, seen: Sequence[Sight], frame: PictureFrame) -> None:
        painter.setPen(QPen(QColor(theme.shown.panel_edge), 1 if frame.scale < 0.6 else 2))
        painter.setBrush(Qt.BrushStyle.NoBrush)
        painter.drawRects([rect for placed, rect in seen if is_rectangle(placed.face)])
        for placed, _ in seen:
            if not is_rectangle(placed.face):
                painter.drawPath(face_path(placed.face, frame))

    def _joints(self, wall: int, placed: PlacedFace, frame: PictureFrame) -> list[QLine]:
        """Upright joints of a face, where its bricks are known and a course is high enough."""
        known = self._finishes.get(placed.mark) if shows_bricks(frame) else None
        if known is None:
            return []
        leg = next(number for number, place in enumerate(known.places) if place.wall == wall)
        face = placed.face
        lines = []
        for layer in known.finish.bond.layers:
            low = known.bottom + layer.z_plates
            for laid in layer.laid:
                x = known.places[leg].left + laid.at
                if laid.leg == leg and not laid.side and face.left < x < face.right and face.bottom <= low < face.top:
                    x_px = frame.column_px(x)
                    lines.append(QLine(x_px, frame.level_px(low + layer.height_plates), x_px, frame.level_px(low)))
        return lines

    def _of(self, wall: int, placed: PlacedFace) -> tuple[_Patch, ...]:
        wishes, face = self.wishes, placed.face
        key = (wall, placed.mark, (face.left, face.bottom, face.right, face.top))
        if key not in self._patches:
            self._patches[key] = _patches(wishes, self._laid_cells.get(wall, wishes.walls[wall]), key[2])
        return self._patches[key]


def ink_on(srgb: str) -> str:
    """Black or white, whichever reads better on a ground: one of them always has a contrast of at least 4.58."""
    return max(("#000000", "#ffffff"), key=lambda ink: theme.contrast(ink, srgb))


def _code_at(rect: QRect) -> QPointF:
    """In the lower left corner, clear of mark and mounting points; in the middle of what is small."""
    if rect.width() < 3 * theme.px(CODE_PX) or rect.height() < 3 * theme.px(CODE_PX):
        return QPointF(rect.center() + QPoint(1, 1))
    return QPointF(rect.left() + theme.px(CODE_PX) - 1, rect.top() + rect.height() - theme.px(CODE_PX) + 1)


def _are_alike(one: Wishes, other: Wishes) -> bool:
    if one.setout.room.colouring.colours != other.setout.room.colouring.colours or one.walls.keys() != other.walls.keys():
        return False
    if one.setout.rows != other.setout.rows:
        return False
    return all(np.array_equal(cells, other.walls[wall]) for wall, cells in one.walls.items())


def _patches(wishes: Wishes, cells: Cells, box: GridBox) -> tuple[_Patch, ...]:
    """Runs of one colour within a box, those that go on in the layer above as one."""
    left, bottom, right, top = box
    numbers = [number for number, layer in enumerate(wishes.layers) if bottom <= layer.z_plates < top]
    block = cells[numbers, left:right]
    if (block == block[0, 0]).all():
        return () if block[0, 0] == ANY else (_Patch(int(block[0, 0]), box),)
    done: list[_Patch] = []
    open_runs: dict[tuple[int, int, int], int] = {}
    for line, number in zip(block, numbers, strict=True):
        z, runs = wishes.layers[number].z_plates, _runs(line, left)
        done += [_Patch(c, (a, low, b, z)) for (c, a, b), low in open_runs.items() if (c, a, b) not in runs]
        open_runs = {run: open_runs.get(run, z) for run in runs}
    return (*done, *(_Patch(c, (a, low, b, top)) for (c, a, b), low in open_runs.items()))


def _runs(line: np.ndarray[tuple[int], np.dtype[np.int16]], left: int) -> list[tuple[int, int, int]]:
    """Colour, begin and end of every run that has a colour."""
    edges = np.flatnonzero(np.diff(line)) + 1
    begins, ends = [0, *edges.tolist()], [*edges.tolist(), len(line)]
    return [(int(line[a]), left + a, left + b) for a, b in zip(begins, ends, strict=True) if line[a] != ANY]
