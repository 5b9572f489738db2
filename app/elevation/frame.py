"""The piece of a wall that a picture holds, and how its millimetres and grid counts become whole pixels."""

from collections.abc import Iterable
from dataclasses import dataclass, replace
from functools import lru_cache

import numpy as np
from PySide6.QtCore import QPoint, QRect

from app.elevation.content import GridBox, PlacedFace, WallContent, grid_box
from app.elevation.strip import FOLD_MM

Sight = tuple[PlacedFace, QRect]
"""A face and its place in the picture."""

FLOOR_PX = 9
"""Height of the floor's hatched band below the wall."""


@dataclass(frozen=True, slots=True)
class PictureFrame:
    """Pixels count from the whole picture's upper left corner; ``region`` is the part of it that the picture holds.

    ``clip`` is the part of that to paint now, ``near`` the same with room round it: what lies there may reach into it.
    ``columns`` holds the pixel of every pitch line of the shell, ``levels`` that of every half plate above the floor: a
    wall asks for thousands of them.
    """

    scale: float
    top_mm: float
    course_mm: float
    region: QRect
    clip: QRect
    near: QRect
    columns: tuple[int, ...]
    levels: tuple[int, ...]

    @classmethod
    def of(cls, content: WallContent, scale: float, region: QRect) -> "PictureFrame":
        """The frame for a region of a wall's picture."""
        kit, top_mm = content.kit, content.top_mm
        half_plates = 2 * max((row.z_plates + row.height_plates for row in content.rows), default=0)
        return cls(
            scale=scale,
            top_mm=top_mm,
            course_mm=kit.plate_mm * kit.plates_per_course,
            region=region,
            clip=region,
            near=region,
            columns=_lines_px(content.shell.start_mm + FOLD_MM / 2, kit.pitch_mm, content.shell.pitches, scale),
            levels=_lines_px(top_mm, -kit.plate_mm / 2, half_plates, scale),
        )

    def clipped(self, clip: QRect, room_px: int) -> "PictureFrame":
        """The frame to paint some of the region again, with so much room round it."""
        return replace(self, clip=clip, near=clip.adjusted(-room_px, -room_px, room_px, room_px))

    def x_px(self, x_mm: float) -> int:
        return round((x_mm + FOLD_MM / 2) * self.scale)

    def y_px(self, z_mm: float) -> int:
        return round((self.top_mm - z_mm) * self.scale)

    def rect_mm(self, left_mm: float, bottom_mm: float, right_mm: float, top_mm: float) -> QRect:
        """A rectangle of millimetres; its right and bottom edge are those of its neighbours."""
        return _spanned(self.x_px(left_mm), self.y_px(top_mm), self.x_px(right_mm), self.y_px(bottom_mm))

    def column_px(self, pitches: int) -> int:
        return self.columns[pitches]

    def level_px(self, plates: int) -> int:
        return self.levels[2 * plates]

    def half_level_px(self, half_plates: int) -> int:
        return self.levels[half_plates]

    def point(self, pitches: int, plates: int) -> QPoint:
        return QPoint(self.columns[pitches], self.levels[2 * plates])

    def rect(self, box: GridBox) -> QRect:
        """A rectangle of grid counts."""
        left, bottom, right, top = box
        columns, levels = self.columns, self.levels
        return _spanned(columns[left], levels[2 * top], columns[right], levels[2 * bottom])

    def seen(self, faces: Iterable[PlacedFace]) -> list[Sight]:
        """The faces in sight, each with its place in the picture."""
        near = self.near
        first_x, first_y, last_x, last_y = near.left(), near.top(), near.right(), near.bottom()
        columns, levels = self.columns, self.levels
        seen: list[Sight] = []
        for placed in faces:
            left, bottom, right, top = grid_box(placed.face)
            x0, y0, x1, y1 = columns[left], levels[2 * top], columns[right], levels[2 * bottom]
            if x0 <= last_x and first_x <= x1 and y0 <= last_y and first_y <= y1:
                seen.append((placed, _spanned(x0, y0, x1, y1)))
        return seen

    def sees(self, rect: QRect) -> bool:
        return self.near.intersects(rect)


@lru_cache(maxsize=256)
def _lines_px(first_mm: float, step_mm: float, count: int, scale: float) -> tuple[int, ...]:
    """The pixels of evenly spaced lines, the first included."""
    return tuple(np.rint((first_mm + np.arange(count + 1) * step_mm) * scale).astype(int).tolist())


def _spanned(left: int, top: int, right: int, bottom: int) -> QRect:
    return QRect(left, top, max(right - left, 1), max(bottom - top, 1))


def picture_size(content: WallContent, scale: float) -> tuple[int, int]:
    """Pixels of a wall's whole picture: half a fold at either end, the floor's band below."""
    wide = round((content.shell.length_mm + FOLD_MM) * scale)
    high = round(content.top_mm * scale) + FLOOR_PX
    return max(wide, 1), max(high, 1)
