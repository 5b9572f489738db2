"""Texts in the reader's language: English stands in the code, other languages in catalogues of GNU gettext.

One language holds for the whole process and is chosen before the first text is written, so kept results never mix two; only what
other programs read is written ``in_english`` all the same.
"""

import gettext
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

DOMAIN = "coursewright"
ENGLISH = "en"
LOCALES = ("LC_ALL", "LC_MESSAGES", "LANG")
UNTRANSLATED = ("C", "POSIX")

_catalogue: gettext.NullTranslations = gettext.NullTranslations()
_language = ENGLISH


def speak(language: str, folder: Path) -> None:
    """Let every text from here on be in a language (ISO 639, as ``de``) whose catalogue lies in a folder.

    A text without a translation stays English, and so does everything in a language without a catalogue.
    """
    global _catalogue, _language
    _catalogue = _read(language, folder)
    _language = ENGLISH if type(_catalogue) is gettext.NullTranslations else language


def spoken() -> str:
    """The language texts are in now (ISO 639)."""
    return _language


@contextmanager
def in_english() -> Iterator[None]:
    """Let texts be English for a while: for files that other programs read."""
    global _catalogue, _language
    before = _catalogue, _language
    _catalogue, _language = gettext.NullTranslations(), ENGLISH
    try:
        yield
    finally:
        _catalogue, _language = before


def asked_by(environment: Mapping[str, str], folder: Path) -> str:
    """The language that an environment asks for, by GNU gettext's rules.

    The first of the variables that say how texts are to be decides; ``LANGUAGE`` goes before them with a list, of which the first
    that has a catalogue is taken, unless they ask for texts as they are in the code (``C``).
    """
    locale = next((said for name in LOCALES if (said := environment.get(name))), "")
    if locale in UNTRANSLATED:
        return ENGLISH
    wishes = (environment.get("LANGUAGE") or locale).split(":")
    known = languages(folder) if any(wishes) else []
    for wish in wishes:
        name = wish.partition(".")[0].partition("@")[0]
        for language in (name, name.partition("_")[0]):
            if language in UNTRANSLATED:
                return ENGLISH
            if language in known:
                return language
    return ENGLISH


def languages(folder: Path) -> list[str]:
    """The languages texts can be in, English first."""
    found = [path.name for path in folder.iterdir() if gettext.find(DOMAIN, str(folder), [path.name])]
    return [ENGLISH, *sorted(found)]


def own_name(language: str, folder: Path) -> str:
    """What those who speak a language call it."""
    return _read(language, folder).pgettext("the name of this language", "English")


def _read(language: str, folder: Path) -> gettext.NullTranslations:
    if language == ENGLISH:
        return gettext.NullTranslations()
    return gettext.translation(DOMAIN, str(folder), [language], fallback=True)


def tr(text: str, /, **parts: object) -> str:
    """A text, its named gaps (``{wall}``) filled."""
    # To gettext an empty text is the catalogue's head.
    found = _catalogue.gettext(text) if text else text
    return found.format(**parts) if parts else found


def trn(one: str, many: str, n: int, /, **parts: object) -> str:
    """A text that counts: ``{n}`` is the number, and the language decides which form it takes."""
    return _catalogue.ngettext(one, many, n).format(n=n, **parts)


def trc(context: str, text: str, /, **parts: object) -> str:
    """A text whose English means two things, with a word that tells which."""
    found = _catalogue.pgettext(context, text)
    return found.format(**parts) if parts else found


def marked(text: str) -> str:
    """The text as it is: marks a constant for the catalogue, to be put through ``tr`` where it is shown."""
    return text
