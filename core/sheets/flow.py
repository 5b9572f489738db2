"""Lines set one below the other and broken into pages; tables are lines, too."""

from collections.abc import Sequence
from dataclasses import dataclass, replace

from core.drawing import Box, Item, Path, Pen, Text
from core.drawing.items import Anchor, moved
from core.drawing.lettering import shorten, text_width_mm, wrap

LINE_MM = 4.6
_RULE = Pen(0.13)
_AIR_MM = 2.4


@dataclass(frozen=True, slots=True)
class Line:
    """A strip of the page: items measured from its top left corner. ``keeps`` holds it on the page of the next line.

    Where a page begins with the line, its ``head`` comes first: the titles of the table it is a row of.
    """

    height_mm: float
    items: tuple[Item, ...] = ()
    keeps: bool = False
    head: "Line | None" = None


@dataclass(frozen=True, slots=True)
class Column:
    title: str
    width_mm: float = 0.0
    anchor: Anchor = "start"


def pages(lines: Sequence[Line], box: Box, header: Sequence[Line] = ()) -> list[list[Item]]:
    """The lines stacked into pages of that box, each page beginning with the header."""
    made: list[list[Item]] = []
    y = box.bottom + 1
    for i, line in enumerate(lines):
        needed = line.height_mm
        for ahead in range(i, len(lines) - 1):
            if not lines[ahead].keeps:
                break
            needed += lines[ahead + 1].height_mm
        if y + needed > box.bottom + 1e-6:
            made.append([])
            y = box.top
            for head in [*header, *([line.head] if line.head else [])]:
                made[-1] += [moved(item, box.left, y) for item in head.items]
                y += head.height_mm
        made[-1] += [moved(item, box.left, y) for item in line.items]
        y += line.height_mm
    return made


def heading(text: str, width_mm: float) -> Line:
    """A heading with the air above it; stays with what follows."""
    return Line(8.6, (Text((0, 6.8), shorten(text, width_mm, 3.5), 3.5),), keeps=True)


def heading_and_words(title: str, words: str, width_mm: float) -> list[Line]:
    """``title: words`` as a heading where that is wide enough for it, else the words in a paragraph under the title."""
    if text_width_mm(f"{title}: {words}", 3.5) <= width_mm:
        return [heading(f"{title}: {words}", width_mm)]
    return [heading(title, width_mm), *paragraph(f"{words[0].upper()}{words[1:]}.", width_mm)]


def paragraph(text: str, width_mm: float, height_mm: float = 2.5, *, has_bullet: bool = False) -> list[Line]:
    """Text broken into lines; a bullet hangs in front of the first."""
    indent = 4.0 if has_bullet else 0.0
    lead = height_mm * 1.7
    found: list[Line] = []
    broken = wrap(text, width_mm - indent, height_mm)
    for number, part in enumerate(broken):
        items: list[Item] = [Text((indent, lead * 0.8), part, height_mm)]
        if has_bullet and number == 0:
            middle = lead * 0.8 - height_mm / 2
            square = ((0.5, middle - 0.8), (2.1, middle - 0.8), (2.1, middle + 0.8), (0.5, middle + 0.8))
            items.append(Path(square, None, closed=True, fill=0.0))
        found.append(Line(lead, tuple(items), keeps=number < len(broken) - 1))
    return found


def gap(height_mm: float) -> Line:
    return Line(height_mm)


def row(columns: Sequence[Column], cells: Sequence[str], *, is_ruled: bool = True) -> Line:
    """One row of a table; what is too long for its column is shortened."""
    items: list[Item] = []
    x = 0.0
    for column, cell in zip(columns, cells, strict=True):
        if cell:
            text = shorten(cell, column.width_mm - 2, 2.5)
            at = {"start": x + 1, "middle": x + column.width_mm / 2, "end": x + column.width_mm - 1}[column.anchor]
            items.append(Text((at, 3.4), text, 2.5, column.anchor))
        x += column.width_mm
    if is_ruled:
        items.append(Path(((0.0, LINE_MM), (x, LINE_MM)), _RULE))
    return Line(LINE_MM, tuple(items))


def needed_mm(columns: Sequence[Column], rows: Sequence[Sequence[str]]) -> list[float]:
    """The width each column needs for its longest cell and its title."""
    return [
        max(text_width_mm(cell, 2.5) for cell in (*column.title.split("\n"), *cells)) + _AIR_MM
        for column, *cells in zip(columns, *rows, strict=True)
    ]


def sized(columns: Sequence[Column], rows: Sequence[Sequence[str]], width_mm: float) -> list[Column]:
    """The columns as wide as their longest cell; what is left over is shared, what is missing comes off the widest."""
    needs = needed_mm(columns, rows)
    spare = width_mm - sum(needs)
    if spare < 0:
        needs[needs.index(max(needs))] += spare
        spare = 0.0
    return [replace(column, width_mm=need + spare / len(needs)) for column, need in zip(columns, needs, strict=True)]


def header_row(columns: Sequence[Column]) -> Line:
    """The row of column titles, on as many lines as the tallest has, with a strong rule under it."""
    width = sum(column.width_mm for column in columns)
    titles = [column.title.split("\n") for column in columns]
    depth = max(len(title) for title in titles)
    items: list[Item] = []
    for level in range(depth):
        words = [([""] * (depth - len(title)) + title)[level] for title in titles]
        items += [moved(item, 0.0, level * 4.0) for item in row(columns, words, is_ruled=False).items]
    bottom = LINE_MM + (depth - 1) * 4.0
    return Line(bottom + 1.0, (*items, Path(((0.0, bottom), (width, bottom)), Pen(0.5))), keeps=True)
