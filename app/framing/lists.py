"""Lists of lengths as people write them off a tape: one to a line, or parted by semicolons or commas; plain numbers by spaces."""

import re

from core.errors import CoursewrightError, LengthError
from core.language import tr
from core.room import Units
from core.units import format_length, parse_length_mm

_PARTED = re.compile(r"[;\n]|,(?=\s|$)")
_NUMBERS = re.compile(r"[0-9]+(?:\.[0-9]+)?(?:\s+[0-9]+(?:\.[0-9]+)?)+")
_SHOWN = 24


def read_lengths(typed: str, known_mm: tuple[float, ...] = (), units: Units = "mm") -> tuple[float, ...]:
    """Millimetres of a list; empty text is an empty list. Raises LengthError that says which of them is wrong.

    What still reads as one of ``known_mm`` is written keeps its exact value: feet and inches round to a sixteenth.
    """
    exact = {_written(mm, units): mm for mm in known_mm}
    plain = typed.strip()
    parts = plain.split() if _NUMBERS.fullmatch(plain) else [part.strip() for part in _PARTED.split(plain)]
    found = []
    for number, part in enumerate((part for part in parts if part), start=1):
        try:
            found.append(exact[part] if part in exact else parse_length_mm(part))
        except CoursewrightError as error:
            said = tr("number {number} in the list, {found}: {fault}", number=number, found=repr(part[:_SHOWN]), fault=error)
            raise LengthError(said) from None
    return tuple(found)


def write_lengths(lengths_mm: tuple[float, ...], units: Units) -> str:
    """A list as it can be typed."""
    return "; ".join(_written(mm, units) for mm in lengths_mm)


def _written(mm: float, units: Units) -> str:
    return format_length(mm, units, 2, with_unit=False)


def read_signed_mm(typed: str) -> float:
    """A length that may lie on the other side: ``-3`` or ``-1/8 in``. Raises LengthError."""
    plain = typed.strip()
    if plain[:1] in ("-", "−", "–"):
        return -parse_length_mm(plain[1:])
    return parse_length_mm(plain)
