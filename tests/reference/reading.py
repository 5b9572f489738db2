"""Panels read back from their outlines onto the cells of their row, and whether a division into candidates explains them."""

from collections.abc import Iterator
from dataclasses import dataclass, field

import numpy as np
from numpy.typing import NDArray

from core.setout.result import Face, Panel, Ring, Row, SetOut
from tests.reference.strip import Piece, RowCells, Run, Strip, row_cells, strips

NOBODY = -1
Cells = NDArray[np.bool_]


@dataclass
class RowReading:
    """One row of one strip: its cells, and which panel (by its place in ``panels``) holds each."""

    cells: RowCells
    panels: list[Panel]
    owner: NDArray[np.int64]
    """Shape (layers, strip length)."""
    faults: list[str] = field(default_factory=list)

    @property
    def where(self) -> str:
        return f"row {self.cells.row.index}, walls {self.cells.strip.walls}"


def read_rows(setout: SetOut) -> list[RowReading]:
    """Every row of every strip, with its panels laid onto its cells."""
    return [_read(setout, strip, row) for strip in strips(setout.walls) for row in setout.rows]


def _read(setout: SetOut, strip: Strip, row: Row) -> RowReading:
    cells = row_cells(setout.room, setout.walls, strip, row)
    panels = [p for p in setout.panels if p.row == row.index and p.faces[0].wall in strip.walls]
    reading = RowReading(cells, panels, np.full(cells.free.shape, NOBODY, dtype=np.int64))
    for place, panel in enumerate(panels):
        for face in panel.faces:
            _lay(reading, setout, place, face)
    if not np.array_equal(reading.owner != NOBODY, cells.free):
        missing, extra = cells.free & (reading.owner == NOBODY), ~cells.free & (reading.owner != NOBODY)
        reading.faults.append(f"{reading.where}: {missing.sum()} free cells bare, {extra.sum()} blocked cells clad")
    return reading


def _lay(reading: RowReading, setout: SetOut, place: int, face: Face) -> None:
    cells, mark = reading.cells, reading.panels[place].mark
    levels = {cells.row.z_plates + level for layer in cells.layers for level in (layer.bottom, layer.top)}
    for ring in (face.outline, *face.holes):
        if not {z for _, z in ring} <= levels:
            reading.faults.append(f"{mark}: a corner of its outline is between two layers of its row")
        if any(x0 != x1 and z0 != z1 for (x0, z0), (x1, z1) in zip(ring, (*ring[1:], ring[0]), strict=True)):
            reading.faults.append(f"{mark}: a slanting outline")
    pitches = setout.walls[face.wall].pitches
    if face.left < 0 or face.right > pitches:
        reading.faults.append(f"{mark}: reaches past the end of wall {face.wall}")
        return
    start = cells.strip.starts[cells.strip.walls.index(face.wall)]
    block = reading.owner[:, start : start + pitches]
    held = _inside(cells, pitches, (face.outline, *face.holes))
    if (block[held] != NOBODY).any():
        reading.faults.append(f"{mark}: overlaps another panel")
    block[held] = place


def _inside(cells: RowCells, pitches: int, rings: tuple[Ring, ...]) -> Cells:
    """Cells with an odd number of upright outline edges to their left."""
    crossed = np.zeros((len(cells.layers), pitches + 1), dtype=np.int64)
    middles = np.array([cells.row.z_plates + (layer.bottom + layer.top) / 2 for layer in cells.layers])
    for ring in rings:
        for (x0, z0), (x1, z1) in zip(ring, (*ring[1:], ring[0]), strict=True):
            if x0 == x1:
                crossed[(min(z0, z1) < middles) & (middles < max(z0, z1)), x0] += 1
    return np.asarray(np.cumsum(crossed, axis=1)[:, :-1] % 2 == 1)


def division_faults(reading: RowReading) -> Iterator[str]:
    """Nothing where some complete division into candidates leaves exactly these panels."""
    cells, owner = reading.cells, reading.owner
    upright = (owner[1:] != owner[:-1]) & cells.free[1:] & cells.free[:-1]
    if upright.any():
        yield f"{reading.where}: two panels stand one on the other in the same pitch"
    before, is_clad_before = np.roll(owner, 1, axis=1), np.roll(cells.free, 1, axis=1)
    if not cells.strip.closed:
        is_clad_before[:, 0] = False
    both = cells.free & is_clad_before
    joints = set(np.flatnonzero((both & (owner != before)).any(axis=0)).tolist())
    whole = set(np.flatnonzero((both & (owner == before)).any(axis=0)).tolist())
    if joints & whole:
        yield f"{reading.where}: lines {sorted(joints & whole)} divide some panels and run through others"
    elif not _has_division(cells, joints, whole):
        yield f"{reading.where}: no division into candidates of allowed widths leaves these panels (joints {sorted(joints)})"


def _has_division(cells: RowCells, joints: set[int], whole: set[int]) -> bool:
    strip, kit = cells.strip, cells.kit
    barred = whole | set(strip.corners)
    if joints & set(strip.corners):
        return False
    firsts = [line for line in range(min(2 * kit.full_width, strip.length)) if line not in barred] if strip.closed else [0]
    return any(_reaches(cells, joints, barred, first) for first in firsts)


def _reaches(cells: RowCells, joints: set[int], barred: set[int], first: int) -> bool:
    strip, least, most = cells.strip, cells.kit.least_width_pitches, cells.kit.full_width
    reached = {first}
    for left in range(first, first + strip.length):
        if left not in reached:
            continue
        for right in range(left + least, min(left + 2 * most, first + strip.length) + 1):
            corners = strip.corner_inside(left, right)
            legs = [right - left] if not corners else [corners[0] - left, right - corners[0]]
            if len(corners) < 2 and all(least <= leg <= most for leg in legs) and strip.line(right) not in barred:
                reached.add(right)
            if strip.line(right) in joints:
                break
    return first + strip.length in reached


def read_pieces(reading: RowReading) -> list[tuple[Panel, Piece]]:
    """Each panel as the piece its cells make; on a closed strip a panel around line 0 is read past the strip's end."""
    return [(panel, _piece(reading, place)) for place, panel in enumerate(reading.panels) if (reading.owner == place).any()]


def _piece(reading: RowReading, place: int) -> Piece:
    strip = reading.cells.strip
    held = reading.owner == place
    if strip.closed and held[:, 0].any() and held[:, -1].any():
        seam = strip.length - int(np.argmin(held.any(axis=0)[::-1]))
        held = np.hstack([np.zeros_like(held[:, :seam]), held[:, seam:], held[:, :seam]])
    runs: list[Run] = []
    for layer, row in enumerate(held):
        edges = np.flatnonzero(np.diff(np.concatenate([[False], row, [False]]).astype(int))).tolist()
        runs += [(layer, layer + 1, left, right) for left, right in zip(edges[::2], edges[1::2], strict=True)]
    left, right = min(run[2] for run in runs), max(run[3] for run in runs)
    corners = strip.corner_inside(left, right)
    return Piece(tuple(runs), corners[0] if corners else None)


def is_connected(piece: Piece) -> bool:
    """True where shared cell sides join all its runs."""
    return len(_parts(piece.runs)) == 1


def parts_by_wall(piece: Piece) -> list[set[Run]]:
    """The piece's connected parts on either side of its corner line; itself where it has none."""
    if piece.corner is None:
        return _parts(piece.runs)
    left = tuple((low, high, a, min(b, piece.corner)) for low, high, a, b in piece.runs if a < piece.corner)
    right = tuple((low, high, max(a, piece.corner), b) for low, high, a, b in piece.runs if b > piece.corner)
    return _parts(left) + _parts(right)


def _parts(runs: tuple[Run, ...]) -> list[set[Run]]:
    unseen, parts = set(runs), []
    while unseen:
        todo = [unseen.pop()]
        part = set(todo)
        while todo:
            low, high, left, right = todo.pop()
            near = {run for run in unseen if (run[0] == high or run[1] == low) and run[2] < right and left < run[3]}
            unseen -= near
            part |= near
            todo += near
        parts.append(part)
    return parts
