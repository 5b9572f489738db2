"""A sheet of paper with what is drawn on it."""

from dataclasses import dataclass

from core.drawing.items import Box, Item

FILING_MARGIN_MM = 20.0
MARGIN_MM = 10.0
"""ISO 5457: 20 mm at the left, where sheets are filed, 10 mm at the other edges."""


@dataclass(frozen=True, slots=True)
class Paper:
    """A paper size as it lies on the table: width, then height."""

    name: str
    width_mm: float
    height_mm: float

    @property
    def frame(self) -> Box:
        """The drawing frame, inside the margins."""
        return Box(FILING_MARGIN_MM, MARGIN_MM, self.width_mm - MARGIN_MM, self.height_mm - MARGIN_MM)


A4 = Paper("A4", 210.0, 297.0)
A3 = Paper("A3", 420.0, 297.0)
LETTER = Paper("US letter", 215.9, 279.4)
TABLOID = Paper("US tabloid", 431.8, 279.4)
"""Small sheets stand upright, large ones lie: so both fold to one size and file on the left."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """A finished sheet. ``code`` names it in the set and in file names, for example ``elevation-A``."""

    code: str
    title: str
    paper: Paper
    items: tuple[Item, ...]
