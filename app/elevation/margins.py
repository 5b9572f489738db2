"""The view's fixed margins: wall letters and lengths along the top, row numbers down the left, the last word below."""

from typing import Protocol

from PySide6.QtCore import QLineF, QPointF, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from app import theme
from app.elevation import lettering
from app.elevation.camera import Camera
from app.elevation.strip import FOLD_MM, Strip
from core.room import wall_letter
from core.setout.result import SetOut
from core.units import format_length

HEAD_PX = 34
HEAD_GAP_PX = 8
SIDE_PX = 30
LETTER_PX = 19
NOTE_PX = 12


class HasWalls(Protocol):
    """What the head needs of the stage."""

    setout: SetOut
    strip: Strip
    camera: Camera
    size: QSize
    height_mm: float


def paint_head(painter: QPainter, stage: HasWalls, current: int) -> None:
    """Letter and length over every wall; they stay at the view's upper edge when the walls go on above it."""
    camera, strip, width = stage.camera, stage.strip, float(stage.size.width())
    top = max(0.0, round(camera.y_px(stage.height_mm)) - HEAD_PX - HEAD_GAP_PX)
    if top == 0:
        painter.fillRect(QRectF(0, 0, width, HEAD_PX), QColor(theme.BENCH))
    for wall, (start, length) in enumerate(zip(strip.starts_mm, strip.lengths_mm, strict=True)):
        left, right = max(camera.x_px(start), float(SIDE_PX)), min(camera.x_px(start + length), width)
        if right - left < lettering.width_px(wall_letter(wall), LETTER_PX, bold=True) + 4:
            continue
        painter.fillRect(
            QRectF(left, top + HEAD_PX - 4, right - left, 3), QColor(theme.ACCENT if wall == current else theme.EDGE)
        )
        at = QRectF(left, top, right - left, HEAD_PX - 4)
        _write_wall(painter, stage.setout, wall, at, current=wall == current)


def _write_wall(painter: QPainter, setout: SetOut, wall: int, at: QRectF, *, current: bool) -> None:
    letter = wall_letter(wall)
    length = format_length(setout.walls[wall].length_mm, setout.room.display_units)
    letter_wide = lettering.width_px(letter, LETTER_PX, bold=True)
    wide = letter_wide + 8 + lettering.width_px(length, NOTE_PX)
    fits = wide + 12 <= at.width()
    middle = at.center().x()
    painter.setPen(QColor(theme.ACCENT if current else theme.INK))
    painter.setFont(lettering.font(LETTER_PX, bold=True))
    letter_x = middle - (wide - letter_wide) / 2 if fits else middle
    lettering.write(painter, QPointF(letter_x, at.center().y()), letter, LETTER_PX, bold=True)
    if fits:
        painter.setPen(QColor(theme.QUIET_INK))
        painter.setFont(lettering.font(NOTE_PX))
        lettering.write(painter, QPointF(middle + (letter_wide + 8) / 2, at.center().y() + 2), length, NOTE_PX)


def paint_side(painter: QPainter, setout: SetOut, camera: Camera, size: QSize) -> None:
    """The rows' numbers, level with their rows."""
    painter.fillRect(QRectF(0, HEAD_PX, SIDE_PX, size.height() - HEAD_PX), QColor(theme.BENCH))
    plate_mm = setout.room.kit.plate_mm
    painter.setFont(lettering.font(NOTE_PX))
    for row in setout.rows:
        low = camera.y_px(row.z_plates * plate_mm)
        high = camera.y_px((row.z_plates + row.height_plates) * plate_mm)
        painter.setPen(QPen(QColor(theme.EDGE), 1))
        painter.drawLines([QLineF(SIDE_PX - 8, y, SIDE_PX - 2, y) for y in (low, high) if y > HEAD_PX])
        top, bottom = max(high, float(HEAD_PX)), min(low, float(size.height()))
        if bottom - top >= NOTE_PX:
            painter.setPen(QColor(theme.QUIET_INK))
            lettering.write(painter, QPointF(SIDE_PX / 2 - 3, (top + bottom) / 2), str(row.index + 1), NOTE_PX)


def paint_folds(painter: QPainter, setout: SetOut, strip: Strip, camera: Camera) -> None:
    """The fold lines between walls: dashed where the room turns in, dash-dotted where it turns out."""
    head = camera.y_px(setout.room.clad_height_mm) - 6
    floor = camera.y_px(0.0) + 8
    for wall, shell in enumerate(setout.walls[:-1]):
        x = round(camera.x_px(strip.starts_mm[wall] + strip.lengths_mm[wall] + FOLD_MM / 2)) + 0.5
        style = Qt.PenStyle.DashDotLine if shell.right == "outside" else Qt.PenStyle.DashLine
        painter.setPen(QPen(QColor(theme.INK), 1, style))
        painter.drawLine(QLineF(x, head, x, floor))


def paint_ends(painter: QPainter, setout: SetOut, strip: Strip, camera: Camera) -> None:
    """At the strip's ends, where the room goes on."""
    last = len(setout.walls) - 1
    y = camera.y_px(0.0) + 22
    painter.setPen(QColor(theme.QUIET_INK))
    painter.setFont(lettering.font(NOTE_PX))
    for x_mm, text, side in ((0.0, f"‹ wall {wall_letter(last)}", 1), (strip.width_mm, "wall A ›", -1)):
        centre = camera.x_px(x_mm) + side * lettering.width_px(text, NOTE_PX) / 2
        lettering.write(painter, QPointF(centre, y), text, NOTE_PX)


def paint_notice(painter: QPainter, text: str, size: QSize) -> None:
    """Why the last step was refused, at the foot of the view."""
    line = text.splitlines()[0]
    box = lettering.pill_box(QPointF(size.width() / 2, size.height() - 24), line, 13)
    lettering.pill(painter, box, line, 13, QColor(theme.MOUNT_MISSES), QColor(theme.CARD))
