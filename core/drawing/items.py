"""The few things a backend must be able to draw: paths, areas of many rings, circles and text, in millimetres on the sheet.

The origin is the sheet's top left corner, x to the right, y down. Ink is a grey from 0.0 (black) to 1.0 (white).
"""

from dataclasses import dataclass
from math import cos, radians, sin
from typing import Literal

from core.drawing.lettering import hang_mm, text_width_mm

PEN_WIDTHS_MM = (0.13, 0.18, 0.25, 0.35, 0.5, 0.7, 1.0, 1.4, 2.0)
"""The line widths a drawing may use (ISO 128 series, steps of root two)."""
TEXT_HEIGHTS_MM = (1.8, 2.5, 3.5, 5.0, 7.0, 10.0, 14.0, 20.0)
"""The heights of capitals a drawing may use (ISO 3098 series, steps of root two)."""

Point = tuple[float, float]
Anchor = Literal["start", "middle", "end"]


@dataclass(frozen=True, slots=True)
class Pen:
    """A line of one width; ``dashes_mm`` alternates drawn and left out, empty for a continuous line."""

    width_mm: float = 0.25
    dashes_mm: tuple[float, ...] = ()
    grey: float = 0.0

    def __post_init__(self) -> None:
        if self.width_mm not in PEN_WIDTHS_MM:
            raise ValueError(f"pen width {self.width_mm:g} mm is not one of {PEN_WIDTHS_MM}")


@dataclass(frozen=True, slots=True)
class Path:
    """A line through points, or with ``closed`` a polygon; ``fill`` is a grey, None for no fill."""

    points: tuple[Point, ...]
    pen: Pen | None = Pen()
    closed: bool = False
    fill: float | None = None


@dataclass(frozen=True, slots=True)
class Rings:
    """One area of many closed rings, measured from ``at``; what lies in an even number of them is left out."""

    at: Point
    rings: tuple[tuple[Point, ...], ...]
    pen: Pen | None = None
    fill: float | None = 0.0


@dataclass(frozen=True, slots=True)
class Circle:
    centre: Point
    radius_mm: float
    pen: Pen | None = Pen()
    fill: float | None = None


@dataclass(frozen=True, slots=True)
class Text:
    """One line of text. ``at`` lies on the baseline at the anchor; ``turn_degrees`` turns it anticlockwise."""

    at: Point
    text: str
    height_mm: float = 2.5
    anchor: Anchor = "start"
    turn_degrees: int = 0
    grey: float = 0.0

    def __post_init__(self) -> None:
        if self.height_mm not in TEXT_HEIGHTS_MM:
            raise ValueError(f"text height {self.height_mm:g} mm is not one of {TEXT_HEIGHTS_MM}")


Item = Path | Rings | Circle | Text


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle on the sheet."""

    left: float
    top: float
    right: float
    bottom: float

    @property
    def width(self) -> float:
        return self.right - self.left

    @property
    def height(self) -> float:
        return self.bottom - self.top

    @property
    def centre(self) -> Point:
        return (self.left + self.right) / 2, (self.top + self.bottom) / 2

    def overlaps(self, other: "Box", slack_mm: float = 0.0) -> bool:
        """Whether the two share more than ``slack_mm`` in both directions."""
        return (
            min(self.right, other.right) - max(self.left, other.left) > slack_mm
            and min(self.bottom, other.bottom) - max(self.top, other.top) > slack_mm
        )

    def holds(self, other: "Box", slack_mm: float = 1e-6) -> bool:
        """Whether the other lies inside, its edges included."""
        return (
            other.left >= self.left - slack_mm
            and other.top >= self.top - slack_mm
            and other.right <= self.right + slack_mm
            and other.bottom <= self.bottom + slack_mm
        )

    def grown(self, by_mm: float) -> "Box":
        return Box(self.left - by_mm, self.top - by_mm, self.right + by_mm, self.bottom + by_mm)


def rectangle(box: Box, pen: Pen | None, fill: float | None = None) -> Path:
    """The box as a closed path."""
    corners = ((box.left, box.top), (box.right, box.top), (box.right, box.bottom), (box.left, box.bottom))
    return Path(corners, pen, closed=True, fill=fill)


def item_box(item: Item) -> Box:
    """What an item covers, measured on its geometry (pens are not counted); text from capitals to descenders."""
    if isinstance(item, Circle):
        (x, y), r = item.centre, item.radius_mm
        return Box(x - r, y - r, x + r, y + r)
    points = _points(item)
    xs, ys = [x for x, _ in points], [y for _, y in points]
    return Box(min(xs), min(ys), max(xs), max(ys))


def _points(item: Path | Rings | Text) -> tuple[Point, ...]:
    if isinstance(item, Rings):
        return tuple((item.at[0] + x, item.at[1] + y) for ring in item.rings for x, y in ring)
    return item.points if isinstance(item, Path) else _text_corners(item)


def moved(item: Item, dx_mm: float, dy_mm: float) -> Item:
    """The same item elsewhere on the sheet."""
    if isinstance(item, Circle):
        return Circle((item.centre[0] + dx_mm, item.centre[1] + dy_mm), item.radius_mm, item.pen, item.fill)
    if isinstance(item, Path):
        # Tens of thousands of these in a pack; replace would look every field up first.
        return Path(tuple([(x + dx_mm, y + dy_mm) for x, y in item.points]), item.pen, item.closed, item.fill)
    at = item.at[0] + dx_mm, item.at[1] + dy_mm
    if isinstance(item, Rings):
        return Rings(at, item.rings, item.pen, item.fill)
    return Text(at, item.text, item.height_mm, item.anchor, item.turn_degrees, item.grey)


def _text_corners(text: Text) -> tuple[Point, ...]:
    width = text_width_mm(text.text, text.height_mm)
    left = {"start": 0.0, "middle": -width / 2, "end": -width}[text.anchor]
    top, bottom = -text.height_mm, hang_mm(text.text, text.height_mm)
    c, s = cos(radians(text.turn_degrees)), sin(radians(text.turn_degrees))
    return tuple(
        (text.at[0] + x * c + y * s, text.at[1] - x * s + y * c)
        for x, y in ((left, top), (left + width, top), (left + width, bottom), (left, bottom))
    )
