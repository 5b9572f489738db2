"""Lines in two columns a page: what does not fit one column goes on in the next one that is free."""

from collections.abc import Iterator, Sequence
from dataclasses import replace
from itertools import count

from core.drawing import Box, Item
from core.drawing.items import moved
from core.sheets.flow import Line, pages


def in_columns(left_lines: Sequence[Line], right_lines: Sequence[Line], left: Box, right: Box) -> list[list[Item]]:
    """Both columns' lines on as many pages as they take; the right one's overflow fills whatever columns are free.

    Where all of it finds room under the left column's lines, it goes there, and no other page is begun for it.
    """
    own = pages(left_lines, left)
    fitting = leading(right_lines, right.height)
    rest = right_lines[fitting:]
    under = left.top + stacked_mm(left_lines)
    again = [rest[0].head] if rest and rest[0].head else []
    if fitting and rest and len(own) == 1 and under + stacked_mm([*again, *rest]) <= left.bottom:
        (items,) = pages(right_lines[:fitting], right)
        (below,) = pages(rest, Box(left.left, under, left.right, left.bottom))
        return [[*own[0], *items, *below]]
    made: list[list[Item]] = [list(items) for items in own]
    slots = _slots(len(own))
    for items in pages(right_lines, right):
        page, is_left = next(slots)
        while len(made) <= page:
            made.append([])
        made[page] += [moved(item, left.left - right.left, 0.0) for item in items] if is_left else items
    return made


def page_count(left_lines: Sequence[Line], right_lines: Sequence[Line], left: Box, right: Box) -> int:
    """How many pages both columns take, without what stands on them."""
    return len(in_columns(_bare(left_lines), _bare(right_lines), left, right))


def _bare(lines: Sequence[Line]) -> list[Line]:
    return [replace(line, items=(), head=line.head and replace(line.head, items=())) for line in lines]


def leading(lines: Sequence[Line], height_mm: float) -> int:
    """How many of the first lines fit that height, those that keep together not parted."""
    y, found = 0.0, 0
    for number, line in enumerate(lines, start=1):
        y += line.height_mm
        if y > height_mm + 1e-6:
            break
        if not line.keeps:
            found = number
    return found


def _slots(taken: int) -> Iterator[tuple[int, bool]]:
    """Pages and columns free for the right column's lines, in reading order."""
    for page in count():
        if page >= taken:
            yield page, True
        yield page, False


def abreast(one: Sequence[Line], other: Sequence[Line], shift: float) -> list[Line]:
    """Two stacks of lines next to each other as one block."""
    items: list[Item] = []
    heights = []
    for lines, dx in ((one, 0.0), (other, shift)):
        y = 0.0
        for line in lines:
            items += [moved(item, dx, y) for item in line.items]
            y += line.height_mm
        heights.append(y)
    return [Line(max(heights), tuple(items))]


def stacked_mm(lines: Sequence[Line]) -> float:
    """How high the lines stand on one another."""
    return sum(line.height_mm for line in lines)
