"""The painter draws what the drawing model says, and nothing where it says nothing."""

import pytest
from PySide6.QtGui import QImage, QPainter

from app.painter import paint_sheet
from core.drawing import Rings, Sheet
from core.drawing.sheet import A4

BLACK, WHITE = 0, 255
OUTER = ((0.0, 0.0), (30.0, 0.0), (30.0, 30.0), (0.0, 30.0))
INNER = ((10.0, 10.0), (20.0, 10.0), (20.0, 20.0), (10.0, 20.0))
APART = ((40.0, 0.0), (60.0, 0.0), (60.0, 30.0), (40.0, 30.0))


@pytest.mark.usefixtures("qapp")
@pytest.mark.parametrize(
    ("x", "y", "level"), [(15, 15, BLACK), (25, 25, WHITE), (35, 35, BLACK), (45, 15, WHITE), (55, 25, BLACK), (5, 5, WHITE)]
)
def test_rings_are_one_area_and_those_within_others_are_cut_out(x: int, y: int, level: int) -> None:
    """One dot a millimetre; the area begins at 10, 10."""
    picture = QImage(210, 297, QImage.Format.Format_Grayscale8)
    picture.fill(0xFFFFFFFF)
    painter = QPainter(picture)
    paint_sheet(painter, Sheet("x", "x", A4, (Rings((10.0, 10.0), (OUTER, INNER, APART)),)))
    painter.end()
    assert picture.pixelColor(x, y).red() == level
