"""What the sheets say in words, in one place: names of kinds, names of the crew's minutes."""

from core.setout.result import CrewMinutes, PanelKind

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


NO_TIMBER = "points without timber"
"""The minutes that mounting points without timber take, whatever is done about them."""


def term_rows(minutes: CrewMinutes) -> list[tuple[str, str]]:
    """The crew's minutes by term, then the total, each as words and a number with its unit."""
    terms = (
        ("build", minutes.build),
        ("fetch, hang, screw, plug", minutes.handling),
        ("set-up of own designs", minutes.setup),
        ("slivers", minutes.sliver),
        ("weak panels", minutes.weak),
        (NO_TIMBER, minutes.blocking),
    )
    rows = [(name, f"{value:.0f} min") for name, value in terms]
    return [*rows, ("all together", hours(minutes.total))]


def hours(minutes: float) -> str:
    """Minutes as hours and minutes."""
    whole, rest = divmod(round(minutes), 60)
    return f"{whole} h {rest:02d} min"
