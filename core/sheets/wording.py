"""What the sheets say in words, in one place: cautions, names of kinds, names of the crew's minutes."""

import re

from core.room import Units
from core.setout.result import CrewMinutes, PanelKind
from core.units import SIXTEENTH_INCH_MM, format_length

CAUTIONS = (
    "Fire: not assessed. Brick plastic burns, drips and smokes. A lining inside a room must meet the local fire code: ask the "
    "authority before you buy, and keep every fire-resisting board that stands behind the lining.",
    "Electricity: a box in a combustible lining must come out flush with the lining's face. Power off and proven dead; the work "
    "is for a licensed electrician.",
    "Hidden services: find every cable and pipe before you drive a screw, and keep screws clear of them.",
    "Escape: windows and doors that are ways out stay clear and open fully, during the work and after it.",
    "Heat: keep the lining away from heaters, flues, cookers and lamps that run hot.",
    "Lifting: carry panels with two hands and boxes you can manage; no one works alone on a ladder.",
    "Frame: a qualified person judges the frame and every load on it, the lining and what is hung on it included.",
    "Planning aid only. Local codes and licensed practice decide; measure the room again before you cut or order.",
)

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
