"""Lengths as people write them: millimetres inside, metric or feet and inches at the border.

The international inch is exactly 25.4 mm and the foot 0.3048 m (NIST SP 811, appendix B.6), so parsing is exact
fractions until the last step.
"""

import math
import re
from fractions import Fraction

from core.errors import CoursewrightError, LengthError
from core.field_words import field_words
from core.language import marked, tr
from core.room import Units

MM_PER_INCH = Fraction(254, 10)
MM_PER_FOOT = 12 * MM_PER_INCH
SIXTEENTH_INCH_MM = float(MM_PER_INCH / 16)

METRIC = "\u00a0mm"
"""The unit of sizes that stay metric: see ``metric_size``."""

_METRIC = {"": 1, "mm": 1, "cm": 10, "m": 1000}
_LONGEST_TEXT = 40
_EXAMPLES = marked("write it like 3048, 304.8 cm, 3.048 m, 10', 10' 6 1/2\" or 126.5 in")

_GLYPHS = str.maketrans(
    {
        **dict.fromkeys("′’‘ʹ", "'"),
        **dict.fromkeys("″”“ʺ", '"'),
        **dict.fromkeys("\u00a0\u2009\u202f\t", " "),
        **dict.fromkeys("‐‑–−", "-"),
        "⁄": "/",
        "¼": " 1/4",
        "½": " 1/2",
        "¾": " 3/4",
        "⅛": " 1/8",
        "⅜": " 3/8",
        "⅝": " 5/8",
        "⅞": " 7/8",
    }
)

_NUMBER = r"[0-9]+(?:[.,][0-9]+)?|[.,][0-9]+"
_METRIC_LENGTH = re.compile(rf"(?P<number>{_NUMBER}) *(?P<unit>mm|cm|m|)")
_FEET = rf"(?P<feet>{_NUMBER}) *(?:'|feet|foot|ft\.?)"
_INCHES = (
    rf"(?:(?P<over>[0-9]+) */ *(?P<under>[0-9]+)|(?P<inches>{_NUMBER})(?:(?: +| *- *)(?P<top>[0-9]+) */ *(?P<bottom>[0-9]+))?)"
    r" *(?:\"|''|inches|inch|in\.?)"
)
_FOOT_LENGTH = re.compile(rf"{_FEET}(?: *-? *{_INCHES})?")
_INCH_LENGTH = re.compile(_INCHES)
_THOUSANDS_OR_DECIMALS = re.compile(r"(?<![0-9.,])[1-9][0-9]{0,2},[0-9]{3}(?![0-9])")

_SAID_LENGTH = re.compile(r"(?<![\w.-])(-?[0-9]+(?:\.[0-9]+)?(?:e[+-]?[0-9]+)?) mm\b")
_FIELD = re.compile(r"\b([a-z]+(?:_[a-z]+)*)_mm\b")

_OPENING_IN_FILE = re.compile(r"\bopenings\.\d+ \(([^()]*)\)")


def parse_length_mm(text: str) -> float:
    """Millimetres of a length as a person types it; no unit means millimetres.

    Takes lengths of zero or more, metric (``3048``, ``304.8 cm``, ``3,048 m``) and imperial (``10'``, ``10ft 6-1/2in``,
    ``126.5 in``). Raises LengthError for anything else.
    """
    plain = " ".join(text.translate(_GLYPHS).lower().split())
    if not plain:
        raise LengthError(tr("found no length; {examples}", examples=tr(_EXAMPLES)))
    if len(plain) > _LONGEST_TEXT:
        raise LengthError(
            tr("found {count} characters, too many for a length; {examples}", count=len(plain), examples=tr(_EXAMPLES))
        )
    if metric := _METRIC_LENGTH.fullmatch(plain):
        _refuse_unclear_comma(metric["number"] if metric["unit"] != "m" else "", text)
        return float(_number(metric["number"]) * _METRIC[metric["unit"]])
    if imperial := _INCH_LENGTH.fullmatch(plain) or _FOOT_LENGTH.fullmatch(plain):
        _refuse_unclear_comma(plain, text)
        return float(_imperial_mm(imperial.groupdict(), text))
    if plain.startswith("-"):
        raise LengthError(tr("found {text}; a length cannot be negative", text=_shown(text)))
    raise LengthError(tr("{text} is not a length; {examples}", text=_shown(text), examples=tr(_EXAMPLES)))


def _refuse_unclear_comma(number: str, text: str) -> None:
    """Only in metres are three decimals the rule; elsewhere a comma before three digits may as well part the thousands."""
    if unclear := _THOUSANDS_OR_DECIMALS.search(number):
        digits = unclear[0]
        raise LengthError(
            tr(
                "{text} could mean {one} or {other}; write it without the comma",
                text=_shown(text),
                one=digits.replace(",", ""),
                other=digits.replace(",", "."),
            )
        )


def _imperial_mm(parts: dict[str, str | None], text: str) -> Fraction:
    inches = _inches(parts, text)
    feet = parts.get("feet")
    if feet is None:
        return inches * MM_PER_INCH
    has_inches = bool(parts["inches"] or parts["over"])
    if has_inches and not feet.isdigit():
        raise LengthError(tr("found {text}; feet before inches must be a whole number", text=_shown(text)))
    if has_inches and inches >= 12:
        raise LengthError(tr("found {text}; inches after feet must be below 12", text=_shown(text)))
    return _number(feet) * MM_PER_FOOT + inches * MM_PER_INCH


def _inches(parts: dict[str, str | None], text: str) -> Fraction:
    if parts["over"] and parts["under"]:
        return _fraction(parts["over"], parts["under"], text)
    inches = _number(parts["inches"] or "0")
    if not (parts["top"] and parts["bottom"]):
        return inches
    fraction = _fraction(parts["top"], parts["bottom"], text)
    if inches.denominator != 1 or fraction >= 1:
        raise LengthError(tr('found {text}; write whole inches and a fraction below one, like 6 1/2"', text=_shown(text)))
    return inches + fraction


def _fraction(over: str, under: str, text: str) -> Fraction:
    if int(under) == 0:
        raise LengthError(tr("found {text}; the fraction's lower number must not be 0", text=_shown(text)))
    return Fraction(int(over), int(under))


def _number(digits: str) -> Fraction:
    return Fraction(digits.replace(",", "."))


def _shown(text: str) -> str:
    return repr(text.strip()[:_LONGEST_TEXT])


def format_length(mm: float, units: Units = "mm", precision: int = 1, *, with_unit: bool = True) -> str:
    """A length for reading: ``304.8 mm``, or feet and inches to the nearest sixteenth, ``10' 6 1/2"``.

    ``precision`` is the most decimals of a millimetre shown; feet and inches ignore it and always carry their marks.
    Negative lengths (a shell that starts before its corner) get a minus. Raises LengthError if ``mm`` is not finite.
    """
    if not math.isfinite(mm):
        raise LengthError(tr("found {number}; a length must be a finite number", number=mm))
    if units == "ft-in":
        return _feet_and_inches(mm)
    number = f"{mm:.{precision}f}"
    if "." in number:
        number = number.rstrip("0").rstrip(".")
    if number == "-0":
        number = "0"
    return f"{number} mm" if with_unit else number


def gap_words(mm: float, units: Units, precision: int = 1, *, with_unit: bool = True) -> str:
    """A length which may be there and yet be too small for the units to show. ``precision`` as of ``format_length``."""
    if units == "ft-in" and 0 < abs(mm) < SIXTEENTH_INCH_MM / 2:
        return tr('under 1/16"')
    return format_length(mm, units, precision, with_unit=with_unit)


def in_units(text: str, units: Units) -> str:
    """A finding or refusal as the room's units write it.

    Both are made in millimetres, whatever the room shows: a finding outlives a change of units. Every figure with ``mm`` behind
    it is read as a length, and a field of the room file (``clad_height_mm``) as the words in its name. What ``metric_size``
    wrote stays as it is.
    """
    plain = _FIELD.sub(lambda found: field_words(found[1]), text)
    return plain if units == "mm" else _SAID_LENGTH.sub(lambda found: gap_words(float(found[1]), units), plain)


def reason(error: CoursewrightError, units: Units) -> str:
    """Why something was refused, for a person who reads these units; what they typed is quoted as they typed it.

    An opening is called by its name: its place in the room file (``openings.0 (door)``) says nothing to who has none open.
    """
    return str(error) if isinstance(error, LengthError) else in_units(_OPENING_IN_FILE.sub(r"\1", str(error)), units)


def metric_size(mm: float, precision: int | None = None) -> str:
    """A size that stays in millimetres whatever units the room shows, by the no-break space before its unit.

    For bricks, their holes, and screws, which are made and sold in millimetres, and for differences that vanish in sixteenths
    of an inch. ``precision`` are its decimals; without it as many as it has.
    """
    return f"{mm:g}{METRIC}" if precision is None else f"{mm:.{precision}f}{METRIC}"


def _feet_and_inches(mm: float) -> str:
    sixteenths = round(Fraction(abs(mm)) / MM_PER_INCH * 16)
    sign = "-" if mm < 0 and sixteenths else ""
    feet, rest = divmod(sixteenths, 12 * 16)
    inches, part = divmod(rest, 16)
    words = [f"{feet}'"] if feet else []
    if part:
        fraction = Fraction(part, 16)
        whole = f"{inches} " if inches or feet else ""
        words.append(f'{whole}{fraction.numerator}/{fraction.denominator}"')
    else:
        words.append(f'{inches}"')
    return sign + " ".join(words)
