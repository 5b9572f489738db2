"""``python -m tests.words [check]``: keeps the catalogues of other languages in step with the texts in the code.

Extraction, file formats and the check of plural forms are Babel's. Nothing but texts changes a catalogue: no date, no version.
"""

import io
import re
import string
import sys
from collections.abc import Iterable
from pathlib import Path

from babel.messages.catalog import Catalog, Message
from babel.messages.extract import extract_from_dir
from babel.messages.mofile import write_mo
from babel.messages.pofile import read_po, write_po

from core.language import DOMAIN

ROOT = Path(__file__).resolve().parent.parent
LANGUAGES = ROOT / "assets" / "languages"
KEYWORDS = {"tr": None, "trn": (1, 2), "trc": ((1, "c"), 2), "marked": None, "pgettext": ((1, "c"), 2)}
NOT_SHOWN = {"benchmarks", "endurance", "pictures"}
"""Packages for those who work on the program; what they print stays English."""
PERCENT_GAP = re.compile(r"%(\(\w+\))?[srd]\b")
"""How the standard library's own texts name their gaps."""


class Words(Catalog):
    """A catalogue whose head says what programs need and nothing that changes by itself."""

    def __init__(self, locale: str | None = None) -> None:
        comment = "# Coursewright's texts. Brought up to date by .ci/words; where a text is used stands above it."
        super().__init__(locale=locale, domain=DOMAIN, header_comment=comment, charset="utf-8", fuzzy=False)

    @property
    def mime_headers(self) -> list[tuple[str, str]]:
        language = [("Language", str(self.locale)), ("Plural-Forms", self.plural_forms)] if self.locale else []
        form = [("MIME-Version", "1.0"), ("Content-Type", "text/plain; charset=utf-8"), ("Content-Transfer-Encoding", "8bit\n")]
        return [("Project-Id-Version", "Coursewright"), *language, *form]


def texts_in_code() -> Catalog:
    """Every text that the code marks as shown."""
    found = Words()
    for package in ("core", "app"):
        for file, _, text, _, context in extract_from_dir(
            ROOT / package, method_map=[("**.py", "python")], keywords=KEYWORDS, directory_filter=_is_shown
        ):
            _take(found, Message(text, locations=[(f"{package}/{file}", None)], context=context))
    return found


def _is_shown(folder: str) -> bool:
    return Path(folder).name not in NOT_SHOWN


def catalogue_file(language: str) -> Path:
    """Where a language's translations are kept and edited."""
    return LANGUAGES / language / "LC_MESSAGES" / f"{DOMAIN}.po"


def read(language: str) -> Words:
    """A language's translations as they stand; an empty catalogue where there are none."""
    path, found = catalogue_file(language), Words(language)
    if path.exists():
        with path.open("rb") as file:
            for message in read_po(file, locale=language, domain=DOMAIN):
                if message.id:
                    _take(found, message, message.string)
    return found


def _take(catalogue: Words, message: Message, said: str | tuple[str, ...] = "") -> None:
    taken = catalogue.add(message.id, said, message.locations, context=message.context)
    if not any(PERCENT_GAP.search(one) for one in _forms(taken.id)):
        # A per cent sign before a word is no gap.
        taken.flags.discard("python-format")


def faults(language: str) -> list[str]:
    """What keeps a language from being complete: texts missing or no longer there, and gaps that differ."""
    known, wanted = read(language), texts_in_code()
    said = [f"no longer in the code: {m.id}" for m in known if m.id and wanted.get(_key(m), m.context) is None]
    for message in wanted:
        if not message.id:
            continue
        found = known.get(_key(message), message.context)
        if found is None or _forms(found.id) != _forms(message.id):
            said.append(f"not in the catalogue: {message.id}")
        elif not all(_forms(found.string)):
            said.append(f"not translated: {message.id}")
        else:
            said += [f"{error}: {message.id}" for error in found.check(known)]
            forms = _forms(found.string)
            said += [f"the gaps differ: {message.id} / {form}" for form in forms if not _has_gaps_of(form, message)]
    path = catalogue_file(language).with_suffix(".mo")
    if not path.exists() or path.read_bytes() != compiled(known):
        said.append(f"not compiled from the catalogue: {path.name}")
    return said


def _key(message: Message) -> str:
    return _forms(message.id)[0]


def _forms(text: str | Iterable[str]) -> list[str]:
    return [text] if isinstance(text, str) else list(text)


def _has_gaps_of(form: str, message: Message) -> bool:
    """Whether a translation fills in what its English does; how many there are may be said in a word, as "one"."""
    of_english = [_gaps(one) for one in _forms(message.id)]
    needed = set.intersection(*of_english) - ({"n"} if len(of_english) > 1 else set())
    return needed <= _gaps(form) <= set.union(*of_english)


def _gaps(text: str) -> set[str]:
    try:
        return {name for _, name, _, _ in string.Formatter().parse(text) if name is not None}
    except ValueError as error:
        return {str(error)}


def update(language: str) -> None:
    """Take new texts in, drop those no longer in the code, and compile."""
    known, updated = read(language), Words(language)
    for message in texts_in_code():
        if not message.id:
            continue
        before = known.get(_key(message), message.context)
        said = before.string if before is not None and len(_forms(before.id)) == len(_forms(message.id)) else ""
        _take(updated, message, said)
    path = catalogue_file(language)
    path.parent.mkdir(parents=True, exist_ok=True)
    text = io.BytesIO()
    write_po(text, updated, sort_output=True, no_location=False, include_lineno=False, width=130)
    path.write_bytes(text.getvalue())
    path.with_suffix(".mo").write_bytes(compiled(read(language)))


def compiled(catalogue: Catalog) -> bytes:
    """The form that programs read."""
    written = io.BytesIO()
    write_mo(written, catalogue)
    return written.getvalue()


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
