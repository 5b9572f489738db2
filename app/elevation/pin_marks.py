"""Where something is pinned: a small diamond on what stays, whatever set-out would prefer."""

from collections.abc import Iterator

from PySide6.QtCore import QPointF, Qt
from PySide6.QtGui import QColor, QPainter, QPen, QPolygonF

from app import theme
from app.elevation.camera import Camera
from app.elevation.strip import Strip, WallPoint
from core.pins import LegPin, PanelPin, RowsPin
from core.setout.metric import outer_mm, z_mm
from core.setout.result import Row, SetOut

REACH_PX = 8.0


def pinned_places(setout: SetOut) -> Iterator[WallPoint]:
    """The middle of what each pin holds, in every row it speaks of. A pinned row stack is marked at the first wall's left end."""
    room, kit = setout.room, setout.room.kit
    for pin in room.pins:
        if isinstance(pin, RowsPin):
            yield from (WallPoint(0, outer_mm(setout, 0)[0], _middle_mm(setout, row)) for row in setout.rows)
            continue
        if pin.wall >= room.wall_count:
            continue
        if isinstance(pin, PanelPin):
            x_mm = pin.left_mm + pin.width_pitches * kit.pitch_mm / 2
        elif isinstance(pin, LegPin):
            left_mm, right_mm = outer_mm(setout, pin.wall)
            x_mm = left_mm + pin.pitches * kit.pitch_mm if pin.end == "left" else right_mm - pin.pitches * kit.pitch_mm
        else:
            x_mm = pin.x_mm
        for row in setout.rows:
            low_mm, high_mm = z_mm(kit, row.z_plates), z_mm(kit, row.z_plates + row.height_plates)
            if pin.z_mm is None or low_mm <= pin.z_mm < high_mm:
                yield WallPoint(pin.wall, x_mm, high_mm)


def _middle_mm(setout: SetOut, row: Row) -> float:
    return z_mm(setout.room.kit, row.z_plates + row.height_plates / 2)


def paint_pins(painter: QPainter, setout: SetOut, strip: Strip, camera: Camera) -> None:
    """A diamond at every pinned place."""
    if not setout.room.pins:
        return
    painter.setPen(QPen(QColor(theme.shown.card), 2.5))
    painter.setBrush(QColor(theme.shown.ink))
    for place in pinned_places(setout):
        at = camera.to_screen(strip.place(place))
        painter.drawPolygon(
            QPolygonF(
                [
                    at + QPointF(0, -REACH_PX),
                    at + QPointF(REACH_PX, 0),
                    at + QPointF(0, REACH_PX),
                    at + QPointF(-REACH_PX, 0),
                ]
            )
        )
    painter.setBrush(Qt.BrushStyle.NoBrush)
