"""A sheet before the set is numbered, and the frame and title block every sheet gets."""

import hashlib
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from core.drawing import Box, Item, Paper, Path, Pen, Sheet, Text
from core.drawing.items import rectangle
from core.drawing.lettering import shorten, text_width_mm
from core.drawing.scale import stated
from core.drawing.sheet import A3, A4, LETTER, TABLOID
from core.language import tr
from core.room import Room, Units
from core.units import metric_size

BLOCK_WIDTH_MM = 180.0
BLOCK_HEIGHT_MM = 29.0
FOOT_GAP_MM = 2.0
BAR = metric_size(100)
"""How long the bar is that a print is checked by; metric on every paper, as the bricks are."""
_THIN, _THICK = Pen(0.25), Pen(0.7)


@dataclass(frozen=True, slots=True)
class Draft:
    """What a sheet shows, without frame and number. ``document_type`` is English, to be put through ``tr`` where it is shown.

    ``scale`` is its ratio and what else is said of it, empty for tables.
    """

    code: str
    title: str
    document_type: str
    paper: Paper
    items: tuple[Item, ...]
    scale: str = ""
    begins: str | None = None
    """The design that this sheet is the first about, where it is a panel sheet."""
    page: str = ""
    """The last part of the title, where the sheet is one of several pages."""

    @property
    def heading(self) -> str:
        """The title that all pages of it share."""
        return self.title.removesuffix(f", {self.page}") if self.page else self.title


def page_words(number: int, count: int) -> str:
    """Which page of how many; nothing where there is one."""
    return tr("page {number} of {count}", number=number, count=count) if count > 1 else ""


def sheet_title(name: str, number: int, count: int) -> str:
    """What one of the sheets for the same panels is called."""
    return tr("{name}, {number} of {count}", name=name, number=number, count=count) if count > 1 else name


def page_title(title: str, page: str) -> str:
    """The title of one page."""
    return f"{title}, {page}" if page else title


def papers(units: Units) -> tuple[Paper, Paper]:
    """The small upright and the large lying paper for rooms in these units."""
    return (A4, A3) if units == "mm" else (LETTER, TABLOID)


def title_block_box(paper: Paper) -> Box:
    """Bottom right in the frame, at most 180 mm wide (ISO 7200)."""
    frame = paper.frame
    return Box(frame.right - BLOCK_WIDTH_MM, frame.bottom - BLOCK_HEIGHT_MM, frame.right, frame.bottom)


def foot_box(paper: Paper) -> Box:
    """Where legends go: left of the title block on a large sheet, above it on a small one."""
    frame, block = paper.frame, title_block_box(paper)
    if block.left - frame.left > BLOCK_WIDTH_MM:
        return Box(frame.left + 2, block.top, block.left - 2, frame.bottom)
    return Box(frame.left + 2, block.top - BLOCK_HEIGHT_MM, frame.right - 2, block.top)


def drawing_box(paper: Paper, *, has_foot: bool) -> Box:
    """The frame above title block and legend, with a little air at its edges."""
    frame = paper.frame
    bottom = foot_box(paper).top if has_foot else title_block_box(paper).top
    return Box(frame.left + 3, frame.top + 3, frame.right - 3, bottom - FOOT_GAP_MM)


def room_number(room: Room) -> str:
    """Six letters and digits that change whenever the room does, so that sheets of two states cannot be mixed unseen."""
    return hashlib.sha256(room.model_dump_json().encode()).hexdigest()[:6].upper()


def finish(room: Room, drafts: Sequence[Draft], issued: date | None) -> tuple[Sheet, ...]:
    """Numbers the drafts and gives each its frame and title block; the date of issue stays blank where None."""
    number, day = room_number(room), issued.isoformat() if issued else ""
    return tuple(
        Sheet(draft.code, f"{room.name}: {draft.title}", draft.paper, (*draft.items, *_surround(room, draft, fields)))
        for place, draft in enumerate(drafts, start=1)
        for fields in [_Fields(f"{number}-{place:03d}", day, f"{place} / {len(drafts)}")]
    )


@dataclass(frozen=True, slots=True)
class _Fields:
    identification: str
    issued: str
    sheet: str


def _surround(room: Room, draft: Draft, fields: _Fields) -> list[Item]:
    block = title_block_box(draft.paper)
    items: list[Item] = [rectangle(draft.paper.frame, _THICK), rectangle(block, _THICK)]
    y = block.top
    for height, cells in _field_rows(room, draft, fields):
        x = block.left
        for label, value, width in cells:
            items += _cell(Box(x, y, x + width, y + height), label, value, is_main=height > 10)
            x += width
        y += height
    return items


def _field_rows(room: Room, draft: Draft, fields: _Fields) -> tuple[tuple[float, tuple[tuple[str, str, float], ...]], ...]:
    """Rows of the title block (data fields of ISO 7200): height, then label, value and width of each."""
    top = (
        (tr("Legal owner"), "", 60.0),
        (tr("Approved by"), "", 45.0),
        (tr("Creator"), "Coursewright", 35.0),
        (tr("Document type"), tr(draft.document_type), 40.0),
    )
    middle = ((tr("Title"), draft.title, 125.0), (tr("Identification number"), fields.identification, 55.0))
    bottom = (
        (tr("Room"), room.name, 67.0),
        (tr("Scale"), stated(draft.scale) if draft.scale else tr("not to scale"), 57.0),
        (tr("Date of issue"), fields.issued, 28.0),
        (tr("Sheet"), fields.sheet, 28.0),
    )
    return ((9.0, top), (11.0, middle), (9.0, bottom))


def _cell(box: Box, label: str, value: str, *, is_main: bool) -> list[Item]:
    height = 3.5 if is_main and text_width_mm(value, 3.5) <= box.width - 3 else 2.5
    return [
        rectangle(box, _THIN),
        Text((box.left + 1.2, box.top + 2.9), label, 1.8),
        Text((box.left + 1.5, box.bottom - 1.5), shorten(value, box.width - 3, height), height),
    ]


def scale_bar(box: Box) -> list[Item]:
    """A bar 100 mm long to hold a rule against: a print that was fitted to the page shows itself."""
    y, left = box.bottom - 3.0, box.left
    ticks = [Path(((left + x, y - (2 if x % 50 else 3)), (left + x, y)), Pen(0.25)) for x in range(0, 101, 10)]
    words = (
        tr("{length} on paper: check with a rule, print at 100 %", length=BAR),
        tr("{length}: check with a rule", length=BAR),
    )
    fitting = next((text for text in words if text_width_mm(text, 2.5) <= box.width - 104), BAR)
    return [
        Path(((left, y), (left + 100, y)), Pen(0.5)),
        *ticks,
        Text((left + 103, y), fitting, 2.5),
    ]
