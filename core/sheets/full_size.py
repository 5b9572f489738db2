"""What sheets at full size share: strips split where the paper is too short, and how to make sure that a print is true."""

from collections.abc import Callable, Sequence
from dataclasses import dataclass

from core.drawing import Item, Paper, Path, Pen, Text
from core.drawing.scale import Scale
from core.language import tr
from core.sheets.draft import BAR, Draft, drawing_box, foot_box, page_title, page_words, scale_bar
from core.sheets.flow import Line, gap, pages, paragraph

OVERLAP_MM = 20.0
"""How much two parts of one strip share."""
_JOIN = Pen(0.35, (3.0, 1.0, 0.5, 1.0))


@dataclass(frozen=True, slots=True)
class Piece:
    """A part of a strip: from where to where it reaches, and where it is joined to those before and after it."""

    start_mm: float
    end_mm: float
    joins_mm: tuple[float, ...]

    @property
    def length_mm(self) -> float:
        return self.end_mm - self.start_mm


def pieces(length_mm: float, most_mm: float) -> list[Piece]:
    """The strip in as few parts as fit ``most_mm``, neighbours sharing the overlap; a join is in the overlap's middle."""
    starts = [0.0]
    while length_mm - starts[-1] > most_mm + 1e-9:
        starts.append(starts[-1] + most_mm - OVERLAP_MM)
    ends = [start + OVERLAP_MM for start in starts[1:]] + [length_mm]
    joins = [start + OVERLAP_MM / 2 for start in starts[1:]]
    return [
        Piece(start, end, tuple(joins[max(0, number - 1) : number + 1]))
        for number, (start, end) in enumerate(zip(starts, ends, strict=True))
    ]


def join_marks(piece: Piece, at: Callable[[float], float], top: float, bottom: float) -> list[Item]:
    """The lines to lay on one another where parts are joined; ``at`` turns a place on the strip into one on the sheet."""
    items: list[Item] = []
    for join in piece.joins_mm:
        x = at(join)
        items += [Path(((x, top), (x, bottom)), _JOIN), Text((x + 1.0, (top + bottom) / 2 + 2.0), tr("join"), 2.5)]
    return items


def piece_words(number: int, count: int) -> str:
    """What is added to the title of a strip in several parts."""
    if count == 1:
        return ""
    return tr(", part {number} of {count}: lay join on join and glue", number=number, count=count)


def print_words(paper: Paper) -> str:
    """What makes a print true, and what to do with one that is not."""
    return tr(
        "Measure the {length} line at the foot of this sheet with a steel rule before you use it. If it is not {length}, throw "
        "the print away and print again on {paper} at 100 % (actual size), never fitted to the page.",
        length=BAR,
        paper=paper.name,
    )


def full_size_drafts(code: str, title: str, kind: str, paper: Paper, how: str, strips: Sequence[Line]) -> list[Draft]:
    """The strips on as many sheets as they take, each with the words on how to use them and the bar to measure."""
    area = drawing_box(paper, has_foot=True)
    head = [
        *paragraph(title, area.width, 7.0),
        *paragraph(how, area.width, 3.5),
        *paragraph(print_words(paper), area.width, 3.5),
        gap(2.0),
    ]
    found = pages(strips, area, head) if strips else []
    bar = scale_bar(foot_box(paper))
    return [
        Draft(
            f"{code}-{number}",
            page_title(title, page),
            kind,
            paper,
            (*items, *bar),
            Scale(1).ratio,
            page=page,
        )
        for number, items in enumerate(found, start=1)
        for page in [page_words(number, len(found))]
    ]


def strip_width_mm(paper: Paper) -> float:
    """The longest strip that a sheet takes."""
    return drawing_box(paper, has_foot=True).width
