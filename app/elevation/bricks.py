"""The bricks of the panels in sight: bonded in idle moments, one design at a time, and kept across edits."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from typing import Literal

from PySide6.QtCore import QObject, QTimer, Signal

from app.document import Document
from app.elevation.content import GridBox, PlacedFace, covers
from core.bond import StockError, bond_of
from core.bond.cells import corner_square
from core.bond.result import Bond, Laid, Layer
from core.frame import as_hung
from core.parts import PartKind
from core.setout.result import Face, Mount, Panel, SetOut

QUIET_MS = 60
"""How long nothing must be asked or moved before a bond is worked out: a zoom or a pan never meets one."""
MOST_KEPT = 2048
"""Outlines whose bricks are remembered."""

Sort = Literal["pin-hole brick", "plate", "tile", "locating plate", "other leg"]
"""What is drawn otherwise than a brick. The other leg's end shows in the square of a corner."""
_SORTS: dict[PartKind, Sort] = {
    "pin-hole brick": "pin-hole brick",
    "plate": "plate",
    "tile": "tile",
    "locating plate": "locating plate",
}

Shape = tuple[object, ...]
"""What a panel's bond depends on besides kit and parts, wherever the panel stands."""


@dataclass(frozen=True, eq=False, slots=True)
class FaceBricks:
    """One face's bricks, in pitches and plates from its left and its foot; compared by identity, for equal shapes share one."""

    pitches: int
    plates: int
    """The face's width and height."""
    beds: tuple[tuple[int, int, int], ...]
    """Joints between layers: left, right, height."""
    joints: tuple[tuple[int, int, int], ...]
    """Upright joints: pitch line, bottom, top."""
    boxes: tuple[tuple[Sort, GridBox], ...]
    holes: tuple[tuple[int, int], ...]
    """Holes by pitch line and height in half plates."""


class BrickWork(QObject):
    """Answers at once with what is known, and works out the rest when nobody is busy."""

    laid = Signal(object)
    """The marks of panels that must be painted anew: their bricks are known now, or are others."""

    def __init__(self, document: Document) -> None:
        super().__init__()
        self._document = document
        self._known: dict[Shape, tuple[FaceBricks, ...]] = {}
        self._asked: dict[str, None] = {}
        self._setout = document.setout
        self._panels: dict[str, Panel] = {}
        self._built: dict[str, Panel] | None = None
        """The panels with moved holes as they are built; None while nobody has worked out yet which those are."""
        self._is_shown = False
        """Whether anybody asked since the set-out changed."""
        self._timer = QTimer(self)
        self._timer.setSingleShot(True)
        self._timer.timeout.connect(self._lay_one)
        document.changed.connect(self._take)

    @property
    def is_done(self) -> bool:
        """Whether nothing that was asked for is still to be worked out."""
        return not self._asked and not self._seeks_moved

    def of(self, placed: PlacedFace) -> FaceBricks | None:
        """The bricks of a face; None while they are not known, in which case they are asked for."""
        panel = self._panel(placed.mark)
        if panel is None or placed.face not in panel.faces:
            return None
        self._is_shown = True
        faces = self._known.get(shape_key(self._setout, self._as_built(panel)))
        if faces is None:
            self._asked[placed.mark] = None
        if faces is None or self._seeks_moved:
            self.rest()
        return faces[panel.faces.index(placed.face)] if faces else None

    def mounts(self, placed: PlacedFace) -> Sequence[Mount]:
        """Where the mounting points of a face are once its bricks are known: moved holes where they go."""
        panel = self._panel(placed.mark)
        if panel is None or placed.face not in panel.faces:
            return placed.face.mounts
        return self._as_built(panel).faces[panel.faces.index(placed.face)].mounts

    def rest(self) -> None:
        """Wait with the next bond: someone is busy, or has just been. No bond is worked out while a gesture runs."""
        if not self.is_done and self._document.gesture_base is None:
            self._timer.start(QUIET_MS)
        else:
            self._timer.stop()

    def _take(self, setout: SetOut) -> None:
        before, self._setout = self._setout.room, setout
        self._panels, self._built, self._is_shown = {}, None, False
        if (before.kit, before.parts) != (setout.room.kit, setout.room.parts):
            self._known.clear()
            self.laid.emit(frozenset(panel.mark for panel in setout.panels))
        self.rest()

    def _panel(self, mark: str) -> Panel | None:
        if not self._panels:
            self._panels = {panel.mark: panel for panel in self._setout.panels}
        return self._panels.get(mark)

    @property
    def _seeks_moved(self) -> bool:
        """Whether it is still to be found out which holes are moved: not in a sketch, which is on show for moments only."""
        return self._is_shown and self._built is None and self._document.is_full

    def _as_built(self, panel: Panel) -> Panel:
        return (self._built or {}).get(panel.mark, panel)

    def _find_moved(self) -> None:
        """Find the panels with moved holes, and tell of them."""
        hung = as_hung(self._setout)
        self._built = {panel.mark: panel for panel in hung.setout.panels if panel.mark in hung.by_mark}
        self.laid.emit(frozenset(self._built))
        self.rest()

    def _lay_one(self) -> None:
        """Bond the design of the panel asked for last, and tell of every panel that waited for it."""
        if self._document.gesture_base is not None:
            return
        if self._seeks_moved:
            self._find_moved()
            return
        if not self._asked:
            return
        mark, _ = self._asked.popitem()
        panel = self._panel(mark)
        if panel is not None:
            built = self._as_built(panel)
            shape = shape_key(self._setout, built)
            if shape not in self._known:
                self._remember(shape, _bricks(self._setout, built))
            waiting = {other for other in self._asked if self._has(other, shape)}
            for other in waiting:
                del self._asked[other]
            self.laid.emit(frozenset({mark, *waiting}))
        if self._asked:
            self._timer.start(0)

    def _has(self, mark: str, shape: Shape) -> bool:
        panel = self._panel(mark)
        return panel is not None and shape_key(self._setout, self._as_built(panel)) == shape

    def _remember(self, shape: Shape, faces: tuple[FaceBricks, ...]) -> None:
        if len(self._known) >= MOST_KEPT:
            self._known.clear()
        self._known[shape] = faces


def shape_key(setout: SetOut, panel: Panel) -> Shape:
    """A panel's outline, make-up and mounting points without its place; a panel and its mirror image differ."""
    row, faces = setout.rows[panel.row], panel.faces
    left_wall, bottom = faces[0].wall, min(face.bottom for face in faces)
    is_flat = len(faces) == 1
    line, corner = (0, "") if is_flat else (setout.walls[left_wall].pitches, setout.walls[faces[-1].wall].left)
    parts: list[object] = [row.courses, bottom - row.z_plates, corner]
    for face in faces:
        on_left = face.wall == left_wall
        x0 = face.left if is_flat else line if on_left else 0
        rings = tuple(tuple((x - x0, z - bottom) for x, z in ring) for ring in (face.outline, *face.holes))
        parts.append((on_left, rings, tuple((m.x_pitches - x0, m.z_half_plates - 2 * bottom) for m in face.mounts)))
    return tuple(parts)


def _bricks(setout: SetOut, panel: Panel) -> tuple[FaceBricks, ...]:
    """The bricks of every face of a panel as it hangs; nothing where the stocked parts cannot fill it."""
    try:
        bond = bond_of(setout, panel)
    except StockError:
        return ()
    sorts = {part.name: _SORTS.get(part.kind) for part in setout.room.parts}
    walls = list(dict.fromkeys(face.wall for face in panel.faces))
    bottom = min(face.bottom for face in panel.faces)
    found = []
    for face in panel.faces:
        leg = walls.index(face.wall)
        leg_left = 0 if leg else min(one.left for one in panel.faces if one.wall == face.wall)
        found.append(_face_bricks(bond, face, leg, (leg_left, bottom), sorts))
    return tuple(found)


def _face_bricks(bond: Bond, face: Face, leg: int, origin: tuple[int, int], sorts: dict[str, Sort | None]) -> FaceBricks:
    beds: list[tuple[int, int, int]] = []
    joints: list[tuple[int, int, int]] = []
    boxes: list[tuple[Sort, GridBox]] = []
    holes: list[tuple[int, int]] = []
    across, up, width, height = origin[0] - face.left, origin[1] - face.bottom, face.right - face.left, face.top - face.bottom
    for layer in bond.layers:
        low, high = layer.z_plates + up, layer.z_plates + layer.height_plates + up
        shown = [(sort, run) for sort, run in _runs(bond, layer, leg, sorts) if _is_on(face, run, origin, layer)]
        edges = {edge + across for _, run in shown for edge in run}
        joints += [(x, low, high) for x in sorted(edges) if 0 < x < width]
        if high < height:
            beds += [(max(begin + across, 0), min(end + across, width), high) for begin, end in _joined(run for _, run in shown)]
        for sort, (begin, end) in shown:
            left, right = max(begin + across, 0), min(end + across, width)
            if sort is not None and left < right:
                boxes.append((sort, (left, low, right, high)))
            if sort == "pin-hole brick":
                holes.append(((begin + end) // 2 + across, low + high))
    return FaceBricks(width, height, tuple(beds), tuple(joints), tuple(boxes), tuple(holes))


def _runs(bond: Bond, layer: Layer, leg: int, sorts: dict[str, Sort | None]) -> Iterator[tuple[Sort | None, tuple[int, int]]]:
    """What the room sees of a layer on one leg: its parts, and the other leg's end where that fills the corner's square."""
    mine = [laid for laid in layer.laid if laid.leg == leg and laid.side in (None, 0)]
    yield from ((sorts.get(laid.part), (laid.at, laid.at + laid.length)) for laid in mine)
    square = corner_square(bond.legs, bond.corner, bond.depth, leg)
    if square is not None and len(mine) < len(layer.laid) and not any(_meets(laid, square) for laid in mine):
        yield "other leg", square


def _meets(laid: Laid, run: tuple[int, int]) -> bool:
    return laid.at < run[1] and run[0] < laid.at + laid.length


def _joined(runs: Iterable[tuple[int, int]]) -> list[tuple[int, int]]:
    """The runs, those that touch as one."""
    found: list[tuple[int, int]] = []
    for begin, end in sorted(runs):
        if found and begin <= found[-1][1]:
            found[-1] = found[-1][0], max(found[-1][1], end)
        else:
            found.append((begin, end))
    return found


def _is_on(face: Face, run: tuple[int, int], origin: tuple[int, int], layer: Layer) -> bool:
    """Whether a run of a layer lies on this face: an opening may part a leg into several."""
    z = origin[1] + layer.z_plates + layer.height_plates / 2
    return any(covers(face, origin[0] + x + 0.5, z) for x in (run[0], run[1] - 1))
