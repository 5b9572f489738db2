"""An independent checker of a whole set-out: reads only the room and the result, and lists everything that is wrong."""

from collections import Counter
from collections.abc import Iterator

import shapely
from shapely import LinearRing, MultiPolygon, Polygon
from shapely.geometry.base import BaseGeometry

from core.setout.metric import ring_mm
from core.setout.result import Face, SetOut
from tests.reference.panel_audit import audit_panels, audit_sums, read_panels
from tests.reference.reading import division_faults, read_rows
from tests.reference.shell_audit import audit_shell
from tests.reference.strip import layers

NEAR_MM2 = 1.0
"""Millimetres are rounded to four places; the smallest fault, one cell of a plate, is 25.6 mm² in the default kit."""


def audit(setout: SetOut) -> list[str]:
    """Every fault found; empty for a sound set-out."""
    readings = read_rows(setout)
    faults = [*audit_shell(setout), *_rows(setout), *_coverage(setout), *_rings(setout), *_marks(setout)]
    for reading in readings:
        faults += reading.faults
        faults += division_faults(reading)
    reads = read_panels(setout, readings)
    return [*faults, *audit_panels(setout, reads), *audit_sums(setout, reads)]


def _rows(setout: SetOut) -> Iterator[str]:
    kit, foot, closing = setout.room.kit, 0, 0
    for place, row in enumerate(setout.rows):
        if (row.index, row.z_plates, row.height_plates) != (place, foot, kit.row_plates(row.courses)):
            yield f"{row} does not stand on the row below"
        foot += row.height_plates
        if row.courses not in (kit.full_courses, kit.half_courses):
            closing += 1
            if not kit.least_closing_courses <= row.courses < kit.full_courses:
                yield f"{row} is no row of the kit"
    if closing > 1:
        yield f"{closing} closing rows"
    gap_mm = setout.room.clad_height_mm - foot * kit.plate_mm
    if not -1e-6 <= gap_mm <= kit.head_gap_mm + 1e-6:
        yield f"head gap {gap_mm} mm"


def _marks(setout: SetOut) -> Iterator[str]:
    twice = [mark for mark, count in Counter(panel.mark for panel in setout.panels).items() if count > 1]
    if twice:
        yield f"marks used twice: {twice}"
    order = [(panel.faces[-1].wall, panel.row) for panel in setout.panels]
    if order != sorted(order) and [(p.faces[0].wall, p.row) for p in setout.panels] != sorted(order):
        yield "panels are not ordered by wall and row"


def face_area(setout: SetOut, face: Face) -> BaseGeometry:
    """A face in wall-local millimetres; a ring may touch itself at a point but not cross."""
    shape = Polygon(ring_mm(setout, face.wall, face.outline), [ring_mm(setout, face.wall, hole) for hole in face.holes])
    return shape if shape.is_valid else shapely.make_valid(shape)


def _rings(setout: SetOut) -> Iterator[str]:
    for panel in setout.panels:
        for face in panel.faces:
            if not LinearRing(face.outline).is_ccw or face.outline[0] != min(face.outline, key=lambda point: point[::-1]):
                yield f"{panel.mark}: its outline does not run anticlockwise from its lowest left point"
            if any(LinearRing(hole).is_ccw for hole in face.holes):
                yield f"{panel.mark}: a cut-out runs anticlockwise"


def openings_area(setout: SetOut, wall: int) -> BaseGeometry:
    """All openings of a wall, each grown to whole pitches and whole layers of whatever rows it meets."""
    kit, shell, blocked = setout.room.kit, setout.walls[wall], []
    lines = [shell.start_mm + kit.pitch_mm * x for x in range(shell.pitches + 1)]
    plates = {row.z_plates + level for row in setout.rows for y in layers(kit, row) for level in (y.bottom, y.top)}
    levels = [level * kit.plate_mm for level in sorted(plates)]
    for opening in setout.room.openings:
        if opening.wall == wall:
            left, right = _grown(lines, opening.left_mm, opening.right_mm)
            bottom, top = _grown(levels, opening.sill_mm, opening.head_mm)
            if left < right and bottom < top:
                blocked.append(shapely.box(left, bottom, right, top))
    return shapely.union_all(blocked) if blocked else MultiPolygon()


def _grown(lines: list[float], low: float, high: float) -> tuple[float, float]:
    """The nearest lines that enclose an extent, ends included; equal where it lies beyond the lines."""
    near = 1e-6
    first = max((line for line in lines if line <= low + near), default=lines[0])
    last = min((line for line in lines if line >= high - near), default=lines[-1])
    return (first, last) if low < lines[-1] - near and high > lines[0] + near else (lines[0], lines[0])


def _coverage(setout: SetOut) -> Iterator[str]:
    kit = setout.room.kit
    top_mm = sum(row.height_plates for row in setout.rows) * kit.plate_mm
    for shell in setout.walls:
        faces = [face_area(setout, f) for panel in setout.panels for f in panel.faces if f.wall == shell.wall]
        clad = shapely.union_all(faces) if faces else MultiPolygon()
        whole = shapely.box(shell.start_mm, 0, shell.start_mm + shell.pitches * kit.pitch_mm, top_mm)
        wanted = whole.difference(openings_area(setout, shell.wall))
        off = clad.symmetric_difference(wanted).area
        if off > NEAR_MM2:
            yield f"wall {shell.wall}: {off:.1f} mm² clad that should not be, or bare that should not be"
        overlap = sum(face.area for face in faces) - clad.area
        if abs(overlap) > NEAR_MM2:
            yield f"wall {shell.wall}: faces overlap by {overlap:.1f} mm²"
