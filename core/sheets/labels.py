"""Labels with the panels' marks, to cut out with scissors and stick on: where a panel goes, which side is up, a code."""

import re
from collections.abc import Iterator, Mapping, Sequence
from functools import lru_cache
from itertools import groupby

import segno

from core.drawing import Box, Item, Path, Pen, Rings, Text
from core.drawing.items import Point, rectangle
from core.drawing.lettering import shorten, text_width_mm, wrap
from core.language import marked, tr, trc
from core.setout.result import Panel, SetOut
from core.sheets.draft import Draft, drawing_box, page_title, papers
from core.sheets.flow import Line, gap, pages, paragraph

LABEL_WIDTH_MM, LABEL_HEIGHT_MM = 58.0, 29.0
MODULE_MM = 0.8
"""One square of the code: wide enough for the camera of any telephone at arm's length."""
QUIET_MODULES = 4
"""Plain paper around the code (ISO/IEC 18004)."""
MASK = 5
"""The mask that ISO/IEC 18004 prefers most often for marks. Readers take all eight; comparing them takes most of the time."""
_DARK_RUN = re.compile(rb"\x01+")
_CUT = Pen(0.18, (2.0, 1.0), grey=0.4)
_HOW = marked(
    "Cut along the dashed lines with scissors. Stick the label on the panel's back as soon as it has passed its check, the arrow "
    "pointing up. The square code says the mark."
)


def labels(setout: SetOut, names: Mapping[str, str] | None = None) -> list[Draft]:
    """Sheets with a label for every panel, in the set-out's order.

    ``names`` say which sheet a panel is built by, by mark, where that is not its design's.
    """
    paper = papers(setout.room.display_units)[0]
    area = drawing_box(paper, has_foot=False)
    across = int(area.width / LABEL_WIDTH_MM)
    head = [*paragraph(tr(_HOW), area.width, 2.5), gap(1.0)]
    found = pages(list(_rows(setout, names or {}, across)), area, head)
    return [
        Draft(f"labels-{number}", page_title(tr("Labels"), page), marked("labels"), paper, tuple(items), page=page)
        for number, items in enumerate(found, start=1)
        for page in [tr("page {number} of {count}", number=number, count=len(found))]
    ]


def _rows(setout: SetOut, names: Mapping[str, str], across: int) -> Iterator[Line]:
    numbered = enumerate(setout.panels)
    for _, group in groupby(numbered, key=lambda pair: pair[0] // across):
        items: list[Item] = []
        for number, panel in group:
            items += label(panel, (number % across) * LABEL_WIDTH_MM, names.get(panel.mark))
        yield Line(LABEL_HEIGHT_MM, tuple(items))


def label(panel: Panel, left_mm: float = 0.0, name: str | None = None) -> list[Item]:
    """One label from its top left corner: mark, design, place, the arrow and the code.

    A sheet's own ``name`` goes on after the design's with what tells it apart; that stands in the place of the place.
    """
    design, _, apart = (name or panel.design).partition(", ")
    size = code_mm(panel.mark)
    code_left = left_mm + LABEL_WIDTH_MM - size
    wall = panel.mark.partition("-")[0]
    x, text_mm = left_mm + 3.0, LABEL_WIDTH_MM - size - 3.0
    height = next((h for h in (7.0, 5.0, 3.5) if text_width_mm(panel.mark, h) <= text_mm), 2.5)
    place = shorten(apart or tr("wall {wall}, row {row}", wall=wall, row=panel.row + 1), text_mm, 2.5)
    return [
        rectangle(Box(left_mm, 0.0, left_mm + LABEL_WIDTH_MM, LABEL_HEIGHT_MM), _CUT),
        Text((x, 10.0), panel.mark, height),
        *(Text((x, y), words, 2.5) for y, words in _under_the_mark(design, place, text_mm)),
        *_arrow(x + 2.0, 22.0, 27.0),
        Text((x + 6.0, 26.2), trc("label", "up"), 3.5),
        qr_item(panel.mark, (code_left, (LABEL_HEIGHT_MM - size) / 2)),
    ]


def _under_the_mark(design: str, place: str, width_mm: float) -> Iterator[tuple[float, str]]:
    """The design over the place, on two lines where its name is long: cut short it could be another's."""
    first, *more = wrap(design, width_mm, 2.5)
    if more:
        yield from ((14.0, first), (17.4, shorten(" ".join(more), width_mm, 2.5)), (20.8, place))
    else:
        yield from ((15.4, first), (19.8, place))


def _arrow(x: float, top: float, bottom: float) -> list[Item]:
    """An arrow that points up."""
    return [
        Path(((x, bottom), (x, top + 2.0)), Pen(0.7)),
        Path(((x, top), (x + 1.6, top + 2.6), (x - 1.6, top + 2.6)), None, closed=True, fill=0.0),
    ]


def code_mm(text: str) -> float:
    """How wide the code of a text is, its quiet zone included."""
    return (len(_modules(text)) + 2 * QUIET_MODULES) * MODULE_MM


def qr_item(text: str, at: Point) -> Rings:
    """The text as a QR code, its quiet zone beginning at that place."""
    return Rings(at, _dark_rings(_modules(text)))


def _dark_rings(modules: Sequence[bytearray]) -> tuple[tuple[Point, ...], ...]:
    """Rectangles over all dark squares, those in a row drawn as one."""
    rings: list[tuple[Point, ...]] = []
    for number, row in enumerate(modules, start=QUIET_MODULES):
        top, bottom = number * MODULE_MM, (number + 1) * MODULE_MM
        for run in _DARK_RUN.finditer(row):
            left, right = ((at + QUIET_MODULES) * MODULE_MM for at in run.span())
            rings.append(((left, top), (right, top), (right, bottom), (left, bottom)))
    return tuple(rings)


@lru_cache(maxsize=8_000)
def _modules(text: str) -> tuple[bytearray, ...]:
    return tuple(segno.make_qr(text, error="m", mask=MASK).matrix)
