"""The view's fixed margins: wall letters and lengths along the top, row numbers down the left, the last word below."""

from functools import cache
from typing import Protocol

from PySide6.QtCore import QLineF, QPointF, QRect, QRectF, QSize, Qt
from PySide6.QtGui import QColor, QPainter, QPen

from app import theme
from app.elevation import lettering
from app.elevation.camera import Camera
from app.elevation.strip import FOLD_MM, Strip
from core.language import tr
from core.room import wall_letter
from core.setout.result import SetOut
from core.units import format_length

_HEAD_PX = 34
HEAD_GAP_PX = 8
ROOM_FOR_ENDS_PX = 460
"""Between the words at the strip's ends the key to the signs has its place."""
_SIDE_PX = 30
_LETTER_PX = 19
_NOTE_PX = 12
_NOTICE_PX = 13


def head_px() -> int:
    """Height of the margin above the walls."""
    return theme.px(_HEAD_PX)


def side_px() -> int:
    """Width of the margin beside them."""
    return theme.px(_SIDE_PX)


class HasWalls(Protocol):
    """What the head needs of the stage."""

    setout: SetOut
    strip: Strip
    camera: Camera
    size: QSize
    height_mm: float


def head_box(stage: HasWalls) -> QRect:
    """Where ``paint_head`` paints."""
    return QRect(0, _head_top(stage), stage.size.width(), head_px())


def _head_top(stage: HasWalls) -> int:
    return max(0, round(stage.camera.y_px(stage.height_mm)) - head_px() - HEAD_GAP_PX)


def side_box(size: QSize) -> QRect:
    """Where ``paint_side`` paints."""
    return QRect(0, head_px(), side_px(), max(size.height() - head_px(), 0))


def paint_head(painter: QPainter, stage: HasWalls, current: int) -> None:
    """Letter and length over every wall; they stay at the view's upper edge when the walls go on above it."""
    camera, strip, width = stage.camera, stage.strip, float(stage.size.width())
    top = _head_top(stage)
    if top == 0:
        painter.fillRect(QRectF(0, 0, width, head_px()), QColor(theme.shown.bench))
    for wall, (start, length) in enumerate(zip(strip.starts_mm, strip.lengths_mm, strict=True)):
        left, right = max(camera.x_px(start), float(side_px())), min(camera.x_px(start + length), width)
        if right - left < lettering.width_px(wall_letter(wall), theme.px(_LETTER_PX), bold=True) + 4:
            continue
        painter.fillRect(
            QRectF(left, top + head_px() - 4, right - left, 3),
            QColor(theme.shown.accent if wall == current else theme.shown.edge),
        )
        at = QRectF(left, top, right - left, head_px() - 4)
        _write_wall(painter, stage.setout, wall, at, current=wall == current)


def _write_wall(painter: QPainter, setout: SetOut, wall: int, at: QRectF, *, current: bool) -> None:
    letter = wall_letter(wall)
    length = format_length(setout.walls[wall].length_mm, setout.room.display_units)
    letter_wide = lettering.width_px(letter, theme.px(_LETTER_PX), bold=True)
    wide = letter_wide + 8 + lettering.width_px(length, theme.px(_NOTE_PX))
    fits = wide + 12 <= at.width()
    middle = at.center().x()
    painter.setPen(QColor(theme.shown.accent if current else theme.shown.ink))
    painter.setFont(lettering.font(theme.px(_LETTER_PX), bold=True))
    letter_x = middle - (wide - letter_wide) / 2 if fits else middle
    lettering.write(painter, QPointF(letter_x, at.center().y()), letter, theme.px(_LETTER_PX), bold=True)
    if fits:
        painter.setPen(QColor(theme.shown.quiet_ink))
        painter.setFont(lettering.font(theme.px(_NOTE_PX)))
        lettering.write(painter, QPointF(middle + (letter_wide + 8) / 2, at.center().y() + 2), length, theme.px(_NOTE_PX))


def paint_side(painter: QPainter, setout: SetOut, camera: Camera, size: QSize) -> None:
    """The rows' numbers, level with their rows."""
    painter.fillRect(side_box(size), QColor(theme.shown.bench))
    plate_mm = setout.room.kit.plate_mm
    painter.setFont(lettering.font(theme.px(_NOTE_PX)))
    for row in setout.rows:
        low = camera.y_px(row.z_plates * plate_mm)
        high = camera.y_px((row.z_plates + row.height_plates) * plate_mm)
        painter.setPen(QPen(QColor(theme.shown.edge), 1))
        painter.drawLines([QLineF(side_px() - 8, y, side_px() - 2, y) for y in (low, high) if y > head_px()])
        top, bottom = max(high, float(head_px())), min(low, float(size.height()))
        if bottom - top >= theme.px(_NOTE_PX):
            painter.setPen(QColor(theme.shown.quiet_ink))
            lettering.write(painter, QPointF(side_px() / 2 - 3, (top + bottom) / 2), str(row.index + 1), theme.px(_NOTE_PX))


def paint_folds(painter: QPainter, setout: SetOut, strip: Strip, camera: Camera) -> None:
    """The fold lines between walls: dashed where the room turns in, dash-dotted where it turns out."""
    head = camera.y_px(setout.room.clad_height_mm) - 6
    floor = camera.y_px(0.0) + 8
    for wall, shell in enumerate(setout.walls[:-1]):
        x = round(camera.x_px(strip.starts_mm[wall] + strip.lengths_mm[wall] + FOLD_MM / 2)) + 0.5
        style = Qt.PenStyle.DashDotLine if shell.right == "outside" else Qt.PenStyle.DashLine
        painter.setPen(QPen(QColor(theme.shown.ink), 1, style))
        painter.drawLine(QLineF(x, head, x, floor))


def paint_ends(painter: QPainter, setout: SetOut, strip: Strip, camera: Camera) -> None:
    """At the strip's ends, where the room goes on."""
    last = len(setout.walls) - 1
    if camera.scale * strip.width_mm < theme.px(ROOM_FOR_ENDS_PX):
        return
    y = camera.y_px(0.0) + 10 + theme.px(_NOTE_PX)
    painter.setPen(QColor(theme.shown.quiet_ink))
    painter.setFont(lettering.font(theme.px(_NOTE_PX)))
    before, after = _ends_words(last)
    for x_mm, text, side in ((0.0, before, 1), (strip.width_mm, after, -1)):
        centre = camera.x_px(x_mm) + side * lettering.width_px(text, theme.px(_NOTE_PX)) / 2
        lettering.write(painter, QPointF(centre, y), text, theme.px(_NOTE_PX))


@cache
def _ends_words(last: int) -> tuple[str, str]:
    return tr("‹ wall {wall}", wall=wall_letter(last)), tr("wall {wall} ›", wall=wall_letter(0))


def paint_notice(painter: QPainter, text: str, size: QSize) -> None:
    """Why the last step was refused, at the foot of the view."""
    line = text.splitlines()[0]
    box = lettering.pill_box(QPointF(size.width() / 2, size.height() - theme.px(24)), line, theme.px(_NOTICE_PX))
    lettering.pill(painter, box, line, theme.px(_NOTICE_PX), QColor(theme.shown.mount_misses), QColor(theme.shown.card))
