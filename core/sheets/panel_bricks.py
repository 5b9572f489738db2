"""How one part looks on a panel sheet: told apart by what is written on it and by hatching, never by colour."""

from collections.abc import Iterable
from dataclasses import dataclass, replace

from core.bond.result import Laid
from core.drawing import Box, Circle, Item, Path, Pen, Text
from core.drawing.hatch import hatch
from core.drawing.items import TEXT_HEIGHTS_MM, rectangle
from core.drawing.lettering import text_width_mm
from core.parts import Part

EDGE = Pen(0.25)
_STROKE = Pen(0.13)
_CROSS = Pen(0.18)
_RING = Pen(0.35)
HOLE_MM = 4.8
_GREYS = {1: 0.62, 3: 0.9}
_HATCHED = 2
_HATCH_MM = 1.3


@dataclass(frozen=True, slots=True)
class Look:
    """What is written on a part, and how it is filled."""

    label: str
    length: int
    kind: str

    @property
    def grey(self) -> float | None:
        """The even grey a part is filled with, None for plain paper or hatching."""
        return _GREYS.get(self.length) if self.kind in ("brick", "plate", "tile") else None

    @property
    def is_hatched(self) -> bool:
        return self.kind in ("brick", "plate", "tile") and self.length == _HATCHED


def looks_of(parts: Iterable[Part]) -> dict[str, Look]:
    """How every part looks, by name: bricks, plates and tiles by their length in knobs, the others by a letter."""
    letters = {"pin-hole brick": "H", "locating plate": "L"}
    return {part.name: Look(letters.get(part.kind, str(part.length_pitches)), part.length_pitches, part.kind) for part in parts}


def fill(look: Look, box: Box) -> list[Item]:
    """The part's ground and edge."""
    items: list[Item] = [rectangle(box, EDGE, look.grey)]
    if look.is_hatched:
        ring = ((box.left, box.top), (box.right, box.top), (box.right, box.bottom), (box.left, box.bottom))
        items = [*hatch(ring, (), _HATCH_MM, _STROKE), rectangle(box, EDGE)]
    return items


def lettered(look: Look, box: Box, most_mm: float) -> list[Item]:
    """The part's label as large as it fits, at most ``most_mm`` high, on a clear ground; nothing where it cannot be read."""
    height = _height(look.label, box, most_mm)
    if height is None:
        return []
    x, y = box.centre
    width = text_width_mm(look.label, height)
    ground = Box(x - width / 2 - 0.3, y - height / 2 - 0.3, x + width / 2 + 0.3, y + height / 2 + 0.3)
    backing = [rectangle(ground, None, 1.0)] if look.is_hatched else []
    return [*backing, Text((x, y + height / 2), look.label, height, "middle")]


def coded(look: Look, box: Box, code: str, most_mm: float) -> list[Item]:
    """The part's label with the code of its colour behind it; the code alone where both cannot be read."""
    both = lettered(replace(look, label=look.label + code), box, most_mm)
    return both or lettered(replace(look, label=code), box, most_mm)


def _height(label: str, box: Box, most_mm: float) -> float | None:
    fitting = (
        height
        for height in reversed(TEXT_HEIGHTS_MM)
        if 2.5 <= height <= most_mm and height <= box.height - 0.6 and text_width_mm(label, height) <= box.width - 0.4
    )
    return next(fitting, None)


def hole(centre: tuple[float, float], factor: float) -> list[Item]:
    """A pin-hole brick's hole seen along its axis, at a scale of 1 to ``factor``, with its centre."""
    x, y = centre
    radius = max(HOLE_MM / 2 / factor, 0.6)
    return [Circle(centre, radius, _RING, fill=1.0), Circle((x, y), min(0.4, radius / 3), None, fill=0.0)]


def end_of_other_leg(box: Box) -> list[Item]:
    """The corner's square where the other leg's brick fills it: crossed out, nothing of this leg goes there."""
    return [
        rectangle(box, _CROSS, 1.0),
        Path(((box.left, box.top), (box.right, box.bottom)), _CROSS),
        Path(((box.left, box.bottom), (box.right, box.top)), _CROSS),
    ]


def is_seen(laid: Laid, depth: int, *, from_back: bool) -> bool:
    """Whether a part shows on the room's side of the panel, or on the frame's side."""
    return laid.side in (None, depth - 1 if from_back else 0)
