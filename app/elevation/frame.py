"""The piece of a wall that a picture holds, and how its millimetres and grid counts become whole pixels."""

from dataclasses import dataclass

from PySide6.QtCore import QPoint, QRect

from app.elevation.content import GridBox, WallContent
from app.elevation.strip import FOLD_MM

FLOOR_PX = 9
"""Height of the floor's hatched band below the wall."""


def picture_top_mm(content: WallContent) -> float:
    """The highest thing to see on a wall: the lining's head, a tall opening or the frame."""
    heads = [opening.head_mm for opening in content.openings]
    timber = [member.bottom_mm + member.height_mm for member in content.timber]
    return max([content.clad_height_mm, *heads, *timber])


@dataclass(frozen=True, slots=True)
class PictureFrame:
    """Pixels count from the whole picture's upper left corner; ``region`` is the part of it that is drawn."""

    scale: float
    top_mm: float
    start_mm: float
    pitch_mm: float
    plate_mm: float
    region: QRect

    @classmethod
    def of(cls, content: WallContent, scale: float, region: QRect) -> "PictureFrame":
        """The frame for a region of a wall's picture."""
        kit = content.kit
        return cls(scale, picture_top_mm(content), content.shell.start_mm, kit.pitch_mm, kit.plate_mm, region)

    def x_px(self, x_mm: float) -> int:
        return round((x_mm + FOLD_MM / 2) * self.scale)

    def y_px(self, z_mm: float) -> int:
        return round((self.top_mm - z_mm) * self.scale)

    def rect_mm(self, left_mm: float, bottom_mm: float, right_mm: float, top_mm: float) -> QRect:
        """A rectangle of millimetres; its right and bottom edge are those of its neighbours."""
        return _spanned(self.x_px(left_mm), self.y_px(top_mm), self.x_px(right_mm), self.y_px(bottom_mm))

    def column_px(self, pitches: float) -> int:
        return self.x_px(self.start_mm + pitches * self.pitch_mm)

    def level_px(self, plates: float) -> int:
        return self.y_px(plates * self.plate_mm)

    def point(self, pitches: float, plates: float) -> QPoint:
        return QPoint(self.column_px(pitches), self.level_px(plates))

    def rect(self, box: GridBox) -> QRect:
        """A rectangle of grid counts."""
        left, bottom, right, top = box
        return _spanned(self.column_px(left), self.level_px(top), self.column_px(right), self.level_px(bottom))

    def sees(self, rect: QRect) -> bool:
        return self.region.intersects(rect)


def _spanned(left: int, top: int, right: int, bottom: int) -> QRect:
    return QRect(left, top, max(right - left, 1), max(bottom - top, 1))


def picture_size(content: WallContent, scale: float) -> tuple[int, int]:
    """Pixels of a wall's whole picture: half a fold at either end, the floor's band below."""
    wide = round((content.shell.length_mm + FOLD_MM) * scale)
    high = round(picture_top_mm(content) * scale) + FLOOR_PX
    return max(wide, 1), max(high, 1)
