"""Bookmarks in a PDF: one for every sheet, sheets that go on over several pages gathered under one."""

from collections.abc import Sequence
from io import BytesIO
from itertools import groupby

from core.language import marked, tr

PAGES = marked(", page ")
"""What parts a sheet's title from which of its pages this is; in other languages through ``tr``."""


def with_bookmarks(pdf: bytes, titles: Sequence[str]) -> bytes:
    """The same PDF with a bookmark for every page; ``titles`` has one for each."""
    # Reading a library of its own takes time that only a pack needs.
    from pypdf import PdfWriter

    writer = PdfWriter(clone_from=BytesIO(pdf))
    pages, between = enumerate(titles), tr(PAGES)
    for stem, group in groupby(pages, key=lambda page: page[1].split(between)[0]):
        members = list(group)
        first = writer.add_outline_item(title=stem, page_number=members[0][0])
        if len(members) > 1:
            for number, title in members:
                rest = title.split(between, 1)[-1]
                writer.add_outline_item(title=tr("page {number}", number=rest), page_number=number, parent=first)
    done = BytesIO()
    writer.write(done)
    return done.getvalue()
