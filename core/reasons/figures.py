"""How each figure of the tally comes about: its formula, with the rates the room has."""

from core.setout.result import SetOut
from core.sheets.wording import KIND_NAMES

PROVEN = 5e-6
"""A part of the total too small to show."""


def panels_words(setout: SetOut) -> str:
    """Panels by kind."""
    tally = setout.tally
    kinds = " + ".join(f"{tally.by_kind[kind]} {name}" for kind, name in KIND_NAMES.items() if tally.by_kind.get(kind))
    return f"Every piece to build and hang: {kinds or 'none'} = {tally.panels}."


def hours_words(setout: SetOut, *, is_full: bool) -> str:
    """The crew's minutes term by term, and how near they are to the least possible."""
    minutes, rates, tally = setout.minutes, setout.room.rates, setout.tally
    factors = (
        f"{rates.plain_factor:g} plain, {rates.shaped_factor:g} shaped, {rates.corner_factor:g} corner, "
        f"{rates.shaped_corner_factor:g} shaped corner"
    )
    lines = [
        f"build {minutes.build:.0f} min: {rates.build_full_panel:g} for a full panel's area, times {factors}",
        f"+ handling {minutes.handling:.0f}: {rates.handling:g} to fetch, hang, screw and plug each of {tally.panels} panels",
        f"+ set-up {minutes.setup:.0f}: {rates.setup:g} for each of {tally.designs_not_in_kit} designs not in the kit",
        f"+ slivers {minutes.sliver:.0f}: {rates.sliver:g} for each flat panel under half a panel wide",
        f"+ weak {minutes.weak:.0f}: {rates.weak:g} for each panel too thin to hold together",
        f"+ points without timber {minutes.blocking:.0f}: {rates.blocking:g} for each",
        f"= {minutes.total:.0f} min",
        bound_words(setout, is_full=is_full),
    ]
    return "\n".join(lines)


def bound_words(setout: SetOut, *, is_full: bool) -> str:
    """What is known of the least minutes any set-out of the room could take."""
    minutes = setout.minutes
    if not is_full:
        return "Sketched: the least possible is worked out once you pause."
    if minutes.excess < PROVEN:
        return f"Proven least: no set-out of this room takes under {minutes.bound:.0f} min by these rates."
    return (
        f"Bound: any set-out of this room takes at least {minutes.bound:.0f} min; "
        f"{minutes.total:.0f} / {minutes.bound:.0f} is {100 * minutes.excess:.1f} % over it."
    )


def designs_words(setout: SetOut) -> str:
    """Which designs need a sheet of their own, and what that is charged."""
    own = [design for design in setout.designs if not design.in_kit]
    kinds = {kind: sum(design.kind == kind for design in own) for kind in KIND_NAMES}
    listed = " + ".join(f"{count} {KIND_NAMES[kind]}" for kind, count in kinds.items() if count)
    setup = setout.room.rates.setup
    return (
        f"Distinct panels the kit has no sheet for: {listed or 'none'} = {len(own)}.\n"
        f"Each is charged {setup:g} min of set-up once, however many panels are built to it: {len(own)} × {setup:g} "
        f"= {len(own) * setup:g} min."
    )


def blocking_words(setout: SetOut) -> str:
    """How many mounting points miss the timber, and what that is charged."""
    mounts = [mount for panel in setout.panels for face in panel.faces for mount in face.mounts]
    missed = sum(mount.lands_on is None for mount in mounts)
    each = setout.room.rates.blocking
    return (
        f"Of {len(mounts)} mounting points {missed} have no timber where the screw comes through.\n"
        f"Each is reckoned at {each:g} min, whatever is done about it: {missed} × {each:g} = {missed * each:g} min. "
        f"A frame still to be built is given timber behind every point."
    )
