"""Lists on small sheets: as many pages as they take, and tables whose first columns are words and the others numbers."""

from collections.abc import Iterator, Sequence

from core.setout.result import SetOut
from core.sheets.draft import Draft, drawing_box, papers
from core.sheets.flow import Column, Line, header_row, pages, row, sized


def list_width(setout: SetOut) -> float:
    """Width of tables on the small sheet, in millimetres."""
    return drawing_box(papers(setout.room.display_units)[0], has_foot=False).width


def list_drafts(setout: SetOut, code: str, name: str, kind: str, lines: Sequence[Line]) -> list[Draft]:
    """Lines on as many small sheets as they take."""
    paper = papers(setout.room.display_units)[0]
    found = pages(lines, drawing_box(paper, has_foot=False))
    many = len(found) > 1
    return [
        Draft(
            f"{code}-{number}" if many else code,
            f"{name}, page {number} of {len(found)}" if many else name,
            kind,
            paper,
            tuple(items),
        )
        for number, items in enumerate(found, start=1)
    ]


def table(titles: Sequence[str], rows: Sequence[Sequence[str]], width: float, *, texts: int = 1) -> Iterator[Line]:
    """A table whose first ``texts`` columns are words and the others numbers."""
    columns = [Column(name, anchor="start" if number < texts else "end") for number, name in enumerate(titles)]
    fitted = sized(columns, rows, width)
    yield header_row(fitted)
    for cells in rows:
        yield row(fitted, cells)
