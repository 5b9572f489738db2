"""Lists on small sheets: as many pages as they take, and tables whose first columns are words and the others numbers."""

from collections.abc import Iterator, Sequence
from dataclasses import replace

from core.drawing import Text
from core.drawing.lettering import shorten
from core.setout.result import SetOut
from core.sheets.draft import Draft, drawing_box, page_title, page_words, papers
from core.sheets.flow import Column, Line, header_row, pages, row, sized


def list_width(setout: SetOut) -> float:
    """Width of tables on the small sheet, in millimetres."""
    return drawing_box(papers(setout.room.display_units)[0], has_foot=False).width


def list_drafts(setout: SetOut, code: str, name: str, kind: str, lines: Sequence[Line]) -> list[Draft]:
    """Lines on as many small sheets as they take; ``kind`` is the document type."""
    paper = papers(setout.room.display_units)[0]
    box = drawing_box(paper, has_foot=False)
    found = pages(lines, box, _title(name, box.width))
    many = len(found) > 1
    return [
        Draft(
            f"{code}-{number}" if many else code,
            page_title(name, page),
            kind,
            paper,
            tuple(items),
            page=page,
        )
        for number, items in enumerate(found, start=1)
        for page in [page_words(number, len(found))]
    ]


def table(titles: Sequence[str], rows: Sequence[Sequence[str]], width: float, *, texts: int = 1) -> Iterator[Line]:
    """A table whose first ``texts`` columns are words and the others numbers."""
    columns = [Column(name, anchor="start" if number < texts else "end") for number, name in enumerate(titles)]
    yield from rows_under(sized(columns, rows, width), rows)


def rows_under(columns: Sequence[Column], rows: Sequence[Sequence[str]]) -> Iterator[Line]:
    """Rows under their columns' titles, which come again on every page."""
    head = header_row(columns)
    yield head
    for cells in rows:
        yield replace(row(columns, cells), head=head)


def _title(name: str, width: float) -> list[Line]:
    """What the list is, to be read from a step away."""
    return [Line(8.0, (Text((0.0, 6.0), shorten(name, width, 5.0), 5.0),))]
