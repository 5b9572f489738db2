"""Texts in the reader's language: English stands in the code, other languages in catalogues of GNU gettext.

One language holds for the whole process and is chosen before the first text is written, so kept results never mix two.
"""

import gettext
from pathlib import Path

DOMAIN = "coursewright"
ENGLISH = "en"

_catalogue: gettext.NullTranslations = gettext.NullTranslations()
_language = ENGLISH


def speak(language: str, folder: Path) -> None:
    """Let every text from here on be in a language (ISO 639, as ``de``) whose catalogue lies in a folder.

    A text without a translation stays English, and so does everything in a language without a catalogue.
    """
    global _catalogue, _language
    found = DOMAIN if language == ENGLISH else gettext.find(DOMAIN, str(folder), [language])
    _language = language if found else ENGLISH
    _catalogue = gettext.NullTranslations() if _language == ENGLISH else gettext.translation(DOMAIN, str(folder), [language])


def spoken() -> str:
    """The language texts are in now (ISO 639)."""
    return _language


def tr(text: str, /, **parts: object) -> str:
    """A text, its named gaps (``{wall}``) filled."""
    found = _catalogue.gettext(text)
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
