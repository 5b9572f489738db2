"""How wide text is, without asking a font engine: advance widths of the font package the sheets are set in.

The numbers are thousandths of an em, read once from Noto Sans regular; a test holds them against the installed font.
"""

import re
from functools import lru_cache

CAP_HEIGHT = 0.714
"""Height of capitals and digits, in ems. Text heights on a drawing are heights of capitals (ISO 3098)."""
DESCENT = 0.34
"""How far letters may hang below the baseline, as a share of the height of capitals."""
_STAND = frozenset("ABCDEFGHIKLMNOPRSTUVWXYZ0123456789-. '\"×")

_ASCII = """
    260 269 408 646 572 831 732 225 300 300 551 572 268 322 268 372 572 572 572 572 572 572 572 572 572 572
    268 268 572 572 572 434 899 639 650 632 730 556 519 728 741 339 273 619 524 907 760 781 605 781 622 549
    556 731 600 930 586 566 572 329 372 329 572 444 281 561 615 480 615 564 344 615 618 258 258 534 258 935
    618 605 615 615 413 479 361 618 508 786 529 510 470 380 551 380 572
"""
_LATIN = """
    260 269 572 572 572 572 551 513 580 832 357 509 572 322 832 500 428 572 350 350 281 623 655 268 225 350
    376 509 745 771 781 434 639 639 639 639 639 639 881 632 556 556 556 556 339 339 339 339 730 760 781 781
    781 781 781 572 781 731 731 731 731 566 605 631 561 561 561 561 561 561 864 480 564 564 564 564 258 258
    258 258 605 618 605 605 605 605 605 572 605 618 618 618 618 510 615 510 639 561 639 561 639 561 632 480
    632 480 632 480 632 480 730 615 730 617 556 564 556 564 556 564 556 564 556 564 728 615 728 615 728 615
    728 615 741 618 741 618 339 258 339 258 339 258 339 258 339 258 612 516 273 258 619 534 534 524 258 524
    258 524 258 524 268 524 258 760 618 760 618 760 618 688 760 618 781 605 781 605 781 605 928 946 622 413
    622 413 622 413 549 479 549 479 549 479 549 479 556 361 556 361 556 361 731 618 731 618 731 618 731 618
    731 618 731 618 930 786 566 510 566 572 470 572 470 572 470 326
"""
_OTHERS = {
    "–": 500,
    "—": 1000,
    "‘": 175,
    "’": 175,
    "“": 359,
    "”": 359,
    "„": 416,
    "•": 376,
    "…": 791,
    "′": 232,
    "″": 408,
    "−": 572,
    "⅛": 830,
    "⅜": 830,
    "⅝": 830,
    "⅞": 830,
    "π": 653,
}
_WIDEST = 1200
"""Assumed for letters not listed."""

_ADVANCE: dict[str, int] = {
    **{chr(0x20 + i): int(width) for i, width in enumerate(_ASCII.split())},
    **{chr(0xA0 + i): int(width) for i, width in enumerate(_LATIN.split())},
    **_OTHERS,
}


@lru_cache(maxsize=20_000)
def text_width_mm(text: str, height_mm: float) -> float:
    """Width of one line set with capitals ``height_mm`` high, without kerning."""
    return sum(_ADVANCE.get(letter, _WIDEST) for letter in text) / 1000 * height_mm / CAP_HEIGHT


def hang_mm(text: str, height_mm: float) -> float:
    """How far the text reaches below its baseline: nothing for marks and numbers."""
    return 0.0 if _STAND.issuperset(text) else DESCENT * height_mm


def shorten(text: str, width_mm: float, height_mm: float) -> str:
    """The text, or as much of its beginning as fits the width, with an ellipsis."""
    if text_width_mm(text, height_mm) <= width_mm:
        return text
    while text and text_width_mm(text.rstrip() + "…", height_mm) > width_mm:
        text = text[:-1]
    return text.rstrip() + "…"


def wrap(text: str, width_mm: float, height_mm: float) -> list[str]:
    """The text broken between words into lines that fit the width; a longer word is broken anywhere.

    A no-break space holds two words together.
    """
    lines: list[str] = []
    line = ""
    for word in re.split(r"[ \n\t]+", text.strip()) if text.strip() else ():
        joined = f"{line} {word}" if line else word
        if text_width_mm(joined, height_mm) <= width_mm:
            line = joined
            continue
        lines += [line] if line else []
        *full, line = _broken(word, width_mm, height_mm)
        lines += full
    return [*lines, line] if line else lines


def _broken(word: str, width_mm: float, height_mm: float) -> list[str]:
    parts = [""]
    for letter in word:
        if parts[-1] and text_width_mm(parts[-1] + letter, height_mm) > width_mm:
            parts.append("")
        parts[-1] += letter
    return parts
