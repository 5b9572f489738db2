"""How each figure of the tally comes about: its formula, with the rates the room has."""

from collections import Counter
from collections.abc import Mapping

from core.kit import Rates
from core.language import marked, tr
from core.setout.result import CrewMinutes, PanelKind, SetOut
from core.sheets.wording import KIND_NAMES

PROVEN = 5e-6
"""A part of the total too small to show."""


def panels_words(setout: SetOut) -> str:
    """Panels by kind."""
    tally = setout.tally
    return tr("Every piece to build and hang: {kinds} = {panels}.", kinds=_sum_of(tally.by_kind), panels=tally.panels)


def hours_words(setout: SetOut, *, is_full: bool) -> str:
    """The crew's minutes term by term, and how near they are to the least possible."""
    minutes, rates, tally = setout.minutes, setout.room.rates, setout.tally
    lines = [
        tr(
            "build {minutes:.0f} min: {rate:g} for a full panel's area, times "
            "{plain:g} plain, {shaped:g} shaped, {corner:g} corner, {shaped_corner:g} shaped corner",
            minutes=minutes.build,
            rate=rates.build_full_panel,
            plain=rates.plain_factor,
            shaped=rates.shaped_factor,
            corner=rates.corner_factor,
            shaped_corner=rates.shaped_corner_factor,
        ),
        tr(
            "+ handling {minutes:.0f}: {rate:g} to fetch, hang, screw and plug each of {panels} panels",
            minutes=minutes.handling,
            rate=rates.handling,
            panels=tally.panels,
        ),
        tr(
            "+ set-up {minutes:.0f}: {rate:g} for each of {designs} designs not in the kit",
            minutes=minutes.setup,
            rate=rates.setup,
            designs=tally.designs_not_in_kit,
        ),
        *(tr(text, minutes=taken, rate=rate) for text, taken, rate in _charges(minutes, rates)),
        f"= {minutes.total:.0f} min",
        bound_words(setout, is_full=is_full),
    ]
    return "\n".join(lines)


def _charges(minutes: CrewMinutes, rates: Rates) -> tuple[tuple[str, float, float], ...]:
    """What is charged for each of something, in whole sentences."""
    return (
        (
            marked("+ slivers {minutes:.0f}: {rate:g} for each flat panel under half a panel wide"),
            minutes.sliver,
            rates.sliver,
        ),
        (marked("+ weak {minutes:.0f}: {rate:g} for each panel too thin to hold together"), minutes.weak, rates.weak),
        (marked("+ points without timber {minutes:.0f}: {rate:g} for each"), minutes.blocking, rates.blocking),
    )


def _sum_of(counts: Mapping[PanelKind, int]) -> str:
    """Counts by kind as a sum, in the order in which sheets list kinds."""
    listed = " + ".join(f"{counts[kind]} " + tr(name) for kind, name in KIND_NAMES.items() if counts.get(kind))
    return listed or tr("none")


def bound_words(setout: SetOut, *, is_full: bool) -> str:
    """What is known of the least minutes any set-out of the room could take."""
    minutes = setout.minutes
    if not is_full:
        return tr("Sketched: the least possible is worked out once you pause.")
    if minutes.excess < PROVEN:
        return tr("Proven least: no set-out of this room takes under {bound:.0f} min by these rates.", bound=minutes.bound)
    return tr(
        "Bound: any set-out of this room takes at least {bound:.0f} min; {total:.0f} / {bound:.0f} is {percent:.1f} % over it.",
        bound=minutes.bound,
        total=minutes.total,
        percent=100 * minutes.excess,
    )


def designs_words(setout: SetOut) -> str:
    """Which designs need a sheet of their own, and what that is charged."""
    own = [design for design in setout.designs if not design.in_kit]
    setup = setout.room.rates.setup
    return tr(
        "Distinct panels the kit has no sheet for: {kinds} = {designs}.\n"
        "Each is charged {rate:g} min of set-up once, however many panels are built to it: {designs} × {rate:g} "
        "= {total:g} min.",
        kinds=_sum_of(Counter(design.kind for design in own)),
        designs=len(own),
        rate=setup,
        total=len(own) * setup,
    )


def blocking_words(setout: SetOut) -> str:
    """How many mounting points miss the timber, and what that is charged."""
    mounts = [mount for panel in setout.panels for face in panel.faces for mount in face.mounts]
    missed = sum(mount.lands_on is None for mount in mounts)
    each = setout.room.rates.blocking
    return tr(
        "Of {points} mounting points {missed} have no timber where the screw comes through.\n"
        "Each is reckoned at {rate:g} min, whatever is done about it: {missed} × {rate:g} = {total:g} min. "
        "A frame still to be built is given timber behind every point.",
        points=len(mounts),
        missed=missed,
        rate=each,
        total=missed * each,
    )
