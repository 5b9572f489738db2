"""Elevations as DXF, one drawing per wall, true size in millimetres: the origin is the wall's left frame corner at the floor."""

import io
from collections.abc import Iterable

from ezdxf import filemanagement, units
from ezdxf.document import Drawing
from ezdxf.enums import TextEntityAlignment
from ezdxf.layouts.layout import Modelspace

from core.language import tr
from core.room import wall_letter
from core.setout.metric import mount_mm, ring_mm, x_mm, z_mm
from core.setout.result import Face, Ring, SetOut

LAYERS = {"FRAME": 8, "TIMBER": 30, "PANELS": 7, "OPENINGS": 1, "MOUNTING POINTS": 3, "MARKS": 7, "TITLE": 7}
"""Layer names and their colour indexes."""
_MARK_MM, _TITLE_MM, _HOLE_MM = 22.0, 40.0, 4.8
_R2010 = "R2010"


def elevation_dxf(setout: SetOut, wall: int) -> bytes:
    """One wall's elevation. Panels, openings and timber are closed polylines; mounting points circles of the hole's diameter."""
    drawing = filemanagement.new(_R2010, setup=False, units=units.MM)
    for name, colour in LAYERS.items():
        drawing.layers.add(name, color=colour)
    space = drawing.modelspace()
    _frame(space, setout, wall)
    for timber in setout.timber:
        if timber.wall == wall:
            right, top = timber.left_mm + timber.width_mm, timber.bottom_mm + timber.height_mm
            _rectangle(space, timber.left_mm, timber.bottom_mm, right, top, "TIMBER")
    for opening in setout.room.openings:
        if opening.wall == wall:
            _rectangle(space, opening.left_mm, opening.sill_mm, opening.right_mm, opening.head_mm, "OPENINGS")
            _text(space, opening.id, (opening.left_mm + 10, opening.sill_mm + 10), _MARK_MM, "OPENINGS")
    for panel in setout.panels:
        for face in panel.faces:
            if face.wall == wall:
                _face(space, setout, face, panel.mark)
    return _written(drawing)


def _frame(space: Modelspace, setout: SetOut, wall: int) -> None:
    room, shell = setout.room, setout.walls[wall]
    _rectangle(space, 0.0, 0.0, shell.length_mm, room.clad_height_mm, "FRAME")
    title = tr("{room}: wall {wall}, from inside, mm", room=room.name, wall=wall_letter(wall))
    _text(space, title, (0.0, room.clad_height_mm + _TITLE_MM), _TITLE_MM, "TITLE")


def _face(space: Modelspace, setout: SetOut, face: Face, mark: str) -> None:
    for ring in (face.outline, *face.holes):
        _ring(space, setout, face.wall, ring)
    for mount in face.mounts:
        space.add_circle(mount_mm(setout, mount), _HOLE_MM / 2, dxfattribs={"layer": "MOUNTING POINTS"})
    middle = (x_mm(setout, face.wall, face.left) + x_mm(setout, face.wall, face.right)) / 2
    height = z_mm(setout.room.kit, (face.bottom + face.top) / 2)
    text = space.add_text(mark, height=_MARK_MM, dxfattribs={"layer": "MARKS"})
    text.set_placement((middle, height), align=TextEntityAlignment.MIDDLE_CENTER)


def _ring(space: Modelspace, setout: SetOut, wall: int, ring: Ring) -> None:
    space.add_lwpolyline(ring_mm(setout, wall, ring), close=True, dxfattribs={"layer": "PANELS"})


def _rectangle(space: Modelspace, left: float, bottom: float, right: float, top: float, layer: str) -> None:
    corners: Iterable[tuple[float, float]] = ((left, bottom), (right, bottom), (right, top), (left, top))
    space.add_lwpolyline(corners, close=True, dxfattribs={"layer": layer})


def _text(space: Modelspace, words: str, at: tuple[float, float], height: float, layer: str) -> None:
    space.add_text(words, height=height, dxfattribs={"layer": layer}).set_placement(at)


def _written(drawing: Drawing) -> bytes:
    stream = io.StringIO()
    drawing.write(stream)
    return stream.getvalue().encode(drawing.output_encoding, errors="dxfreplace")
