"""Finds room for text on a crowded drawing: nothing may cover what was placed before."""

from collections import defaultdict
from collections.abc import Iterable, Iterator
from itertools import product
from math import dist

from core.drawing import Box, Text, item_box
from core.drawing.items import Point

_AIR_MM = 0.4
_CELL_MM = 8.0


class Placer:
    """Remembers what is taken on one sheet, inside one area."""

    def __init__(self, area: Box) -> None:
        self._area = area
        self._taken: defaultdict[tuple[int, int], list[Box]] = defaultdict(list)
        self._texts: list[Box] = []

    def claim(self, box: Box, *, is_text: bool = False) -> None:
        """Keeps later text off this box, and leaders too where it holds text."""
        for cell in _cells(box):
            self._taken[cell].append(box)
        if is_text:
            self._texts.append(box)

    def claim_line(self, start: Point, end: Point) -> None:
        """Keeps later text off a leader: small boxes along it, so that a slanting one blocks no more than it covers."""
        steps = max(1, round(dist(start, end)))
        for i in range(steps + 1):
            x, y = (a + (b - a) * i / steps for a, b in zip(start, end, strict=True))
            self.claim(Box(x - 0.5, y - 0.5, x + 0.5, y + 0.5))

    def is_free(self, box: Box) -> bool:
        """Whether the box lies in the area and touches nothing claimed."""
        aired = box.grown(_AIR_MM)
        if not self._area.holds(box):
            return False
        return not any(aired.overlaps(taken) for cell in _cells(aired) for taken in self._taken.get(cell, ()))

    def first_free(self, candidates: Iterable[tuple[Text, ...]]) -> tuple[Text, ...] | None:
        """The first candidate whose block of lines is free, claimed at once; None where none is."""
        for lines in candidates:
            block = block_box(lines)
            if self.is_free(block):
                self.claim(block, is_text=True)
                return lines
        return None

    def first_led(self, candidates: Iterable[tuple[Text, ...]], target: Point) -> tuple[Text, ...] | None:
        """The first candidate that is free and whose leader to the target runs through no text, claimed with its leader."""
        for lines in candidates:
            block = block_box(lines)
            start = nearest_point(block, target)
            if self.is_free(block) and not any(meets(text, start, target) for text in self._texts):
                self.claim(block, is_text=True)
                self.claim_line(start, target)
                return lines
        return None


def nearest_point(box: Box, point: Point) -> Point:
    """The place in a box that is nearest to a point."""
    return min(max(point[0], box.left), box.right), min(max(point[1], box.top), box.bottom)


def meets(box: Box, start: Point, end: Point) -> bool:
    """Whether a straight line between two points runs through a box."""
    enter, leave = 0.0, 1.0
    for at, to, low, high in ((start[0], end[0], box.left, box.right), (start[1], end[1], box.top, box.bottom)):
        if abs(to - at) < 1e-9:
            if not low < at < high:
                return False
            continue
        first, second = sorted(((low - at) / (to - at), (high - at) / (to - at)))
        enter, leave = max(enter, first), min(leave, second)
    return enter < leave


def _cells(box: Box) -> Iterator[tuple[int, int]]:
    """The squares of a coarse grid that a box touches: only what is near is ever compared."""
    columns = range(int(box.left // _CELL_MM), int(box.right // _CELL_MM) + 1)
    lines = range(int(box.top // _CELL_MM), int(box.bottom // _CELL_MM) + 1)
    return product(columns, lines)


def block_box(lines: tuple[Text, ...]) -> Box:
    """The box round lines that stand together."""
    boxes = [item_box(line) for line in lines]
    return Box(min(b.left for b in boxes), min(b.top for b in boxes), max(b.right for b in boxes), max(b.bottom for b in boxes))


def around(box: Box, reach_mm: float, step_mm: float = 2.0) -> Iterator[Point]:
    """Points in and round a box, the nearest to its centre first."""
    x0, y0 = box.centre
    across = int((box.width / 2 + reach_mm) // step_mm)
    down = int((box.height / 2 + reach_mm) // step_mm)
    offsets = [(i * step_mm, j * step_mm) for i in range(-across, across + 1) for j in range(-down, down + 1)]
    offsets.sort(key=lambda offset: (offset[0] ** 2 + offset[1] ** 2, offset[1], offset[0]))
    for dx, dy in offsets:
        yield x0 + dx, y0 + dy


def stacked(centre: Point, lines: tuple[str, ...], height_mm: float, *, turn_degrees: int = 0) -> tuple[Text, ...]:
    """Lines of text about a centre, upright or turned a quarter anticlockwise."""
    lead = height_mm * 1.6
    made = []
    for i, line in enumerate(lines):
        down = (i - (len(lines) - 1) / 2) * lead + height_mm / 2
        at = (centre[0] + down, centre[1]) if turn_degrees == 90 else (centre[0], centre[1] + down)
        made.append(Text(at, line, height_mm, "middle", turn_degrees))
    return tuple(made)
