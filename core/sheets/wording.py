"""What the sheets say in words, in one place: names of kinds, names of the crew's minutes."""

import re

from core.room import Units
from core.setout.result import CrewMinutes, PanelKind
from core.units import SIXTEENTH_INCH_MM, format_length

KIND_NAMES: dict[PanelKind, str] = {
    "full": "full",
    "half-height": "half-height",
    "half-width": "half-width",
    "quarter": "quarter",
    "corner": "corner",
    "closer": "closer",
    "shaped": "shaped",
    "shaped-corner": "shaped corner",
}
"""In the order in which sheets list them."""


def term_rows(minutes: CrewMinutes) -> list[tuple[str, str]]:
    """The crew's minutes by term, then the total, each as words and a number with its unit."""
    terms = (
        ("build", minutes.build),
        ("fetch, hang, screw, plug", minutes.handling),
        ("set-up of own designs", minutes.setup),
        ("slivers", minutes.sliver),
        ("weak panels", minutes.weak),
        ("blocking", minutes.blocking),
    )
    rows = [(name, f"{value:.0f} min") for name, value in terms]
    return [*rows, ("all together", hours(minutes.total))]


def hours(minutes: float) -> str:
    """Minutes as hours and minutes."""
    whole, rest = divmod(round(minutes), 60)
    return f"{whole} h {rest:02d} min"


def gap_words(mm: float, units: Units, *, with_unit: bool = True) -> str:
    """A gap, which may be there and yet be too small for the units to show."""
    if units == "ft-in" and 0 < mm < SIXTEENTH_INCH_MM / 2:
        return 'under 1/16"'
    return format_length(mm, units, with_unit=with_unit)


def in_units(text: str, units: Units) -> str:
    """A finding as the room's units write it: findings speak of fields and millimetres, whatever the room shows."""
    plain = re.sub(r"clad_height_mm = ([0-9.]+[0-9])", r"the clad height of \1 mm", text)
    if units == "mm":
        return plain
    return re.sub(r"([0-9]+(?:\.[0-9]+)?) mm\b", lambda found: format_length(float(found[1]), units), plain)
