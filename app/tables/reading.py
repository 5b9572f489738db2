"""Numbers and amounts as people type them, and edits that say why they could not be made."""

from app.document import Document, Edit
from core.errors import CoursewrightError
from core.language import tr

LONGEST_DIGITS = 12


class TypedError(CoursewrightError):
    """What was typed cannot be read."""


def whole(typed: str) -> int:
    """A whole number of things, spaces between its digits allowed. Raises TypedError."""
    plain = _without_spaces(typed)
    if not (plain.isascii() and plain.isdigit() and len(plain) <= LONGEST_DIGITS):
        raise TypedError(tr("found {typed!r}, should be a whole number like 600", typed=typed[:20]))
    return int(plain)


def decimal(typed: str, like: str = "12.50") -> float:
    """A number with a point or a comma before its decimals. Raises TypedError."""
    plain = _without_spaces(typed).replace(",", ".")
    if not (plain.isascii() and plain.replace(".", "", 1).isdigit() and len(plain) <= LONGEST_DIGITS + 4):
        raise TypedError(tr("found {typed!r}, should be a number like {like}", typed=typed[:20], like=like))
    return float(plain)


def amount(typed: str, currency: str) -> float:
    """An amount of money, the currency before or after it allowed. Raises TypedError."""
    plain = typed.strip()
    if currency:
        plain = plain.removeprefix(currency).removesuffix(currency)
    return decimal(plain.strip())


def percent(typed: str) -> float:
    """A number of per cent, the sign allowed. Raises TypedError."""
    return decimal(typed.strip().removesuffix("%"), "3 %")


def kilograms(typed: str) -> float:
    """A mass, its unit allowed. Raises TypedError."""
    return decimal(typed.strip().removesuffix("kg"), "15 kg")


def number_text(count: int) -> str:
    """A count with its thousands apart."""
    return f"{count:,}".replace(",", "\u00a0")


def committed(document: Document, edit: Edit, text: str) -> str:
    """Make an edit as one step to undo; why it could not be made, or nothing. ``text`` names it."""
    return "" if document.commit_edit(edit, text) else document.refusal.replace("\n", "; ")


def _without_spaces(typed: str) -> str:
    return "".join(typed.split())
