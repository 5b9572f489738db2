"""What the sheets say in words, in one place: names of kinds, names of the crew's minutes."""

from collections.abc import Sequence

from core.language import marked, tr
from core.room import Units
from core.setout.result import CrewMinutes, PanelKind

KIND_NAMES: dict[PanelKind, str] = {
    "full": marked("full"),
    "half-height": marked("half-height"),
    "half-width": marked("half-width"),
    "quarter": marked("quarter"),
    "corner": marked("corner"),
    "closer": marked("closer"),
    "shaped": marked("shaped"),
    "shaped-corner": marked("shaped corner"),
}
"""In the order in which sheets list them; to be put through ``tr`` where they are shown."""

APART = " · "
"""Between names of designs in running text, for names have commas in them."""

NO_TIMBER = marked("points without timber")
"""The minutes that mounting points without timber take, whatever is done about them."""


def term_rows(minutes: CrewMinutes) -> list[tuple[str, str]]:
    """The crew's minutes by term, then the total, each as words and a number with its unit."""
    terms = (
        (tr("build"), minutes.build),
        (tr("fetch, hang, screw, plug"), minutes.handling),
        (tr("set-up of own designs"), minutes.setup),
        (tr("slivers"), minutes.sliver),
        (tr("weak panels"), minutes.weak),
        (tr(NO_TIMBER), minutes.blocking),
    )
    rows = [(name, f"{value:.0f} min") for name, value in terms]
    return [*rows, (tr("all together"), hours(minutes.total))]


def hours(minutes: float) -> str:
    """Minutes as hours and minutes."""
    whole, rest = divmod(round(minutes), 60)
    return f"{whole} h {rest:02d} min"


def unit_short(units: Units) -> str:
    """The unit of lengths in a table's head."""
    return "mm" if units == "mm" else tr("ft-in")


def lengths_in(units: Units) -> str:
    """In which unit a sheet's lengths are, as a sentence."""
    return tr("Lengths in mm.") if units == "mm" else tr("Lengths in feet and inches.")


def both(names: Sequence[str]) -> str:
    """Names that belong together, in a row: ``king stud and trimmer``."""
    first, *others = names
    for other in others:
        first = tr("{first} and {second}", first=first, second=other)
    return first


def span_words(first: int, last: int) -> str:
    """Numbers in a run, by its ends."""
    return str(first) if first == last else tr("{first} to {last}", first=first, last=last)
