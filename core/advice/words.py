"""Advice in words: what to change, what it saves, and what to mind."""

from collections.abc import Iterable

from core.advice.changes import MOVES, SIDEWAYS, Change, LengthChange, OpeningChange
from core.advice.frame import is_whole
from core.advice.suggestion import Suggestion
from core.advice.work import Work
from core.room import Room, Units, wall_letter
from core.setout.shell import Shell
from core.units import format_length, gap_words

ESCAPE_AND_REACH = "Escape widths, sill and switch heights: local code decides."
FRAME_STANDS = "The frame stands here: an opening that moves needs its timber moved."


def change_text(change: Change, units: Units) -> str:
    """What to do: ``12 mm left``, ``Head 9.6 mm up, to 617.6 mm high``, ``3041 mm long, 7 mm shorter``."""

    def length(mm: float) -> str:
        return format_length(mm, units, 2)

    distance = gap_words(change.distance_mm, units, 2)
    if isinstance(change, LengthChange):
        return f"{length(change.length_mm)} long, {distance} {change.way}"
    if change.way in MOVES:
        return f"{distance} {change.way}"
    if change.way in ("narrower", "wider"):
        return f"{change.opening} {length(change.box.width_mm)} wide, from {length(change.box.left_mm)} on"
    edge, to = change.way.rsplit(" ", 1)
    upright = edge in ("left edge", "right edge")
    size = f"{length(change.box.width_mm)} wide" if upright else f"{length(change.box.height_mm)} high"
    return f"{edge.capitalize()} {distance} {to}, {size}"


def saving_text(suggestion: Suggestion) -> str:
    """What it saves: ``4 shaped panels fewer, 31 min saved; 7 special designs left``."""
    before, after = suggestion.before, suggestion.after
    fewer = suggestion.special_panels_fewer
    sort = "shaped" if fewer == before.shaped_panels - after.shaped_panels else "special"
    parts = [f"{_counted(abs(fewer), f'{sort} panel')} {'fewer' if fewer > 0 else 'more'}"] if fewer else []
    minutes = round(suggestion.minutes_saved)
    parts.append(f"{abs(minutes)} min {'saved' if minutes >= 0 else 'more'}")
    return f"{', '.join(parts)}; {_designs(after)}"


def undo_text(change: Change, units: Units) -> str:
    """The change as one step to undo: ``Move window 12 mm left``."""
    if isinstance(change, LengthChange):
        return f"Make wall {wall_letter(change.wall)} {format_length(change.length_mm, units, 2)} long"
    verb = "Move" if change.way in MOVES else "Resize"
    return f"{verb} {change.opening}" + (f" {change_text(change, units)}" if verb == "Move" else "")


def wall_text(room: Room, shell: Shell, wall: int) -> str:
    """Whether a wall divides into whole panels."""
    return (
        "its length divides into whole panels" if is_whole(room, shell, wall) else "its length does not divide into whole panels"
    )


def caution_text(room: Room, changes: Iterable[Change]) -> str:
    """What to mind before making any of the changes; empty where there is nothing."""
    openings = [change for change in changes if isinstance(change, OpeningChange)]
    lines = []
    if any(room.frame(room.opening(change.opening).wall).mode != "to_build" for change in openings):
        lines.append(FRAME_STANDS)
    if any(change.way not in SIDEWAYS for change in openings):
        lines.append(ESCAPE_AND_REACH)
    return " ".join(lines)


def _designs(after: Work) -> str:
    return f"{_counted(after.special_designs, 'special design')} left" if after.special_designs else "no special design left"


def _counted(count: int, noun: str) -> str:
    return f"{count} {noun}{'' if count == 1 else 's'}"
