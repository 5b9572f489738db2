"""The contrast tables of ``docs/look.md``, written from the schemes: ``python -m app.theme.contrast_tables``."""

import sys
from collections.abc import Iterator
from dataclasses import fields
from pathlib import Path

from app.theme.colours import SCHEMES, Colours
from app.theme.contrast import contrast
from core.sheets.wording import KIND_NAMES

PAGE = Path("docs/look.md")
BEGIN, END = "<!-- contrast tables: begin -->", "<!-- contrast tables: end -->"
LEVELS = {"error": "STOP", "warning": "LOOK", "note": "NOTE"}
RENAMED = {
    "mount_misses": "screw that misses",
    "on_accent": "letters on accent",
    "hole_ground": "pin hole ground",
    "field": "field ground",
}


def tables() -> str:
    """Both schemes: every ink with its grounds, and of each line and mark the ground it shows least on."""
    return "\n\n".join(_scheme(name, scheme) for name, scheme in SCHEMES.items())


def put_in(page: str) -> str:
    """The page with its tables written anew."""
    before, rest = page.split(BEGIN)
    _, after = rest.split(END)
    return f"{before}{BEGIN}\n{tables()}\n{END}{after}"


def _scheme(name: str, scheme: Colours) -> str:
    names = _names(scheme)
    texts = _rows(names, scheme.text_pairs)
    marks = dict.fromkeys(mark for mark, _ in scheme.mark_pairs)
    least = [min((p for p in scheme.mark_pairs if p[0] == mark), key=lambda pair: contrast(*pair)) for mark in marks]
    title = name.capitalize()
    return (
        f"{title}, letters:\n\n| text | on | ratio |\n|---|---|--:|\n{texts}\n\n"
        f"{title}, the least contrast of each line and mark on anything it is drawn on:\n\n"
        f"| line or mark | on | ratio |\n|---|---|--:|\n{_rows(names, least)}"
    )


def _rows(names: dict[str, str], pairs: "Iterator[tuple[str, str]] | tuple[tuple[str, str], ...] | list[tuple[str, str]]") -> str:
    unique = dict.fromkeys(pairs)
    return "\n".join(f"| {names[one]} `{one}` | {names[other]} `{other}` | {contrast(one, other):.2f} |" for one, other in unique)


def _names(scheme: Colours) -> dict[str, str]:
    """What each colour is called; a colour with several uses is called by the first."""
    names: dict[str, str] = {}
    for field in fields(scheme):
        value = getattr(scheme, field.name)
        if isinstance(value, str):
            names.setdefault(value, RENAMED.get(field.name, field.name.replace("_", " ")))
    for kind, fill in scheme.panel_fills.items():
        names.setdefault(fill, f"{KIND_NAMES[kind].replace(' ', '-')} panel")
    for level, ink in scheme.level_inks.items():
        names.setdefault(ink, LEVELS[level])
    return names


if __name__ == "__main__":
    text = put_in(PAGE.read_text(encoding="utf-8"))
    if "--check" in sys.argv:
        sys.exit(text != PAGE.read_text(encoding="utf-8"))
    PAGE.write_text(text, encoding="utf-8")
