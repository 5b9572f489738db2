"""The pages in docs hang together: what they link to is there, and no picture lies about unused."""

import re
from pathlib import Path

import pytest

from tests.conftest import ROOT

DOCS = ROOT / "docs"
PAGES = (ROOT / "README.md", ROOT / "DEVELOPERS.md", *sorted(DOCS.glob("*.md")))
LINK = re.compile(r"\]\(([^)#\s]+)(?:#[^)]*)?\)")
NAMED = re.compile(r"`((?:docs|core|app|assets|tests)/[\w./-]*\.(?:md|py|json))`")


QUOTED = re.compile("“([^”]+)”")
SPEAKING = ("guide.md", "limits.md")
"""Pages on which words in curly quotes are words of the window."""


def _links(page: Path) -> set[Path]:
    """Files a page links to; addresses on the web are none."""
    found = LINK.findall(page.read_text(encoding="utf-8"))
    return {(page.parent / target).resolve() for target in found if "://" not in target}


@pytest.mark.parametrize("page", PAGES, ids=lambda page: page.name)
def test_every_file_a_page_links_to_or_names_exists(page: Path) -> None:
    named = {ROOT / name for name in NAMED.findall(page.read_text(encoding="utf-8"))}
    missing = sorted(str(target) for target in _links(page) | named if not target.exists())
    assert not missing, f"{page.name} points at {missing}"


def test_every_picture_is_on_some_page() -> None:
    shown = set[Path]().union(*(_links(page) for page in PAGES))
    assert not {picture for picture in (DOCS / "pictures").iterdir() if picture.resolve() not in shown}


def test_every_heading_linked_to_exists() -> None:
    for page in PAGES:
        text = page.read_text(encoding="utf-8")
        headings = {_anchor(line) for line in re.findall(r"^#+ (.+)$", text, flags=re.MULTILINE)}
        wanted = set(re.findall(r"\]\(#([^)]+)\)", text))
        assert wanted <= headings, f"{page.name} links to {sorted(wanted - headings)}"


@pytest.mark.parametrize("name", SPEAKING)
def test_words_in_quotes_stand_in_the_program(name: str) -> None:
    sources = (path.read_text(encoding="utf-8") for part in ("app", "core") for path in (ROOT / part).rglob("*.py"))
    said = "\n".join(sources).replace("&", "")
    quoted = QUOTED.findall((DOCS / name).read_text(encoding="utf-8"))
    assert quoted
    assert not [words for words in quoted if words not in said]


def _anchor(heading: str) -> str:
    return re.sub(r"[^\w\- ]", "", heading.lower()).replace(" ", "-")
