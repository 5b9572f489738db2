"""``python -m tests.words [check]``: keeps the catalogues of other languages in step with the texts in the code.

Extraction, file formats and the checks of gaps and plural forms are Babel's.
"""

import io
import sys
from pathlib import Path

from babel.messages.catalog import Catalog
from babel.messages.extract import extract_from_dir
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po

from core.language import DOMAIN

ROOT = Path(__file__).resolve().parent.parent
LANGUAGES = ROOT / "assets" / "languages"
KEYWORDS = {"tr": None, "trn": (1, 2), "trc": ((1, "c"), 2), "marked": None}
NOT_SHOWN = {"benchmarks", "endurance", "pictures"}
"""Packages for those who work on the program; what they print stays English."""


def texts_in_code() -> Catalog:
    """Every text that the code marks as shown."""
    found = Catalog(domain=DOMAIN, project="Coursewright", charset="utf-8")
    for package in ("core", "app"):
        for file, _, text, _, context in extract_from_dir(
            ROOT / package, method_map=[("**.py", "python")], keywords=KEYWORDS, directory_filter=_is_shown
        ):
            found.add(text, locations=[(f"{package}/{file}", None)], context=context)
    return found


def _is_shown(folder: str) -> bool:
    return Path(folder).name not in NOT_SHOWN


def catalogue_file(language: str) -> Path:
    """Where a language's translations are kept and edited."""
    return LANGUAGES / language / "LC_MESSAGES" / f"{DOMAIN}.po"


def read(language: str) -> Catalog:
    """A language's translations as they stand; an empty catalogue where there are none."""
    path = catalogue_file(language)
    if not path.exists():
        return Catalog(locale=language, domain=DOMAIN, charset="utf-8")
    with path.open("rb") as file:
        return read_po(file, locale=language, domain=DOMAIN)


def faults(language: str) -> list[str]:
    """What keeps a language from being complete: texts missing or no longer there, and gaps that differ."""
    known, wanted = read(language), texts_in_code()
    said = [f"not in the catalogue: {m.id}" for m in wanted if m.id and known.get(_key(m), m.context) is None]
    for message in known:
        if not message.id:
            continue
        if wanted.get(_key(message), message.context) is None:
            said.append(f"no longer in the code: {message.id}")
        elif not _is_translated(message.string):
            said.append(f"not translated: {message.id}")
        said += [f"{error}: {message.id}" for error in message.check(known)]
    return said


def _key(message: object) -> str:
    identity = message.id  # type: ignore[attr-defined]
    return identity if isinstance(identity, str) else identity[0]


def _is_translated(text: object) -> bool:
    return all(text) if isinstance(text, list | tuple) else bool(text)


def update(language: str) -> None:
    """Take new texts in, drop those no longer in the code, and compile."""
    known = read(language)
    known.update(texts_in_code(), no_fuzzy_matching=True)
    known.obsolete.clear()
    path = catalogue_file(language)
    path.parent.mkdir(parents=True, exist_ok=True)
    text = io.BytesIO()
    write_po(text, known, sort_output=True, no_location=False, include_lineno=False, width=130)
    path.write_bytes(text.getvalue())
    compile_catalogue(known, path.with_suffix(".mo"))


def compile_catalogue(catalogue: Catalog, path: Path) -> None:
    """Write the form that programs read."""
    with path.open("wb") as file:
        write_mo(file, catalogue)


def languages() -> list[str]:
    """The languages there are catalogues for."""
    return sorted(folder.name for folder in LANGUAGES.iterdir() if folder.is_dir())


def main(arguments: list[str]) -> int:
    """Check or update every catalogue; the exit status."""
    if arguments == ["check"]:
        said = [f"{language}: {fault}" for language in languages() for fault in faults(language)]
        sys.stdout.write("\n".join([*said, ""]))
        return 1 if said else 0
    for language in languages():
        update(language)
    return 0


if __name__ == "__main__":
    sys.exit(main(sys.argv[1:]))
