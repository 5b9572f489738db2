"""Advice in words: what to change, what it saves, and what to mind."""

from collections.abc import Iterable, Mapping

from core.advice.changes import MOVES, SIDEWAYS, Change, LengthChange, OpeningChange
from core.advice.frame import is_whole
from core.advice.suggestion import Suggestion
from core.advice.work import Work
from core.language import marked, tr, trn
from core.room import Room, Units, wall_letter
from core.setout.shell import Shell
from core.units import format_length, gap_words

ESCAPE_AND_REACH = marked("Escape widths, sill and switch heights: local code decides.")
FRAME_STANDS = marked("The frame stands here: an opening that moves needs its timber moved.")
_CHANGES: Mapping[str, str] = {
    "left": marked("{distance} left"),
    "right": marked("{distance} right"),
    "up": marked("{distance} up"),
    "down": marked("{distance} down"),
    "narrower": marked("{opening} {width} wide, from {left} on"),
    "wider": marked("{opening} {width} wide, from {left} on"),
    "left edge left": marked("Left edge {distance} left, {width} wide"),
    "left edge right": marked("Left edge {distance} right, {width} wide"),
    "right edge left": marked("Right edge {distance} left, {width} wide"),
    "right edge right": marked("Right edge {distance} right, {width} wide"),
    "sill down": marked("Sill {distance} down, {height} high"),
    "sill up": marked("Sill {distance} up, {height} high"),
    "head down": marked("Head {distance} down, {height} high"),
    "head up": marked("Head {distance} up, {height} high"),
    "longer": marked("{length} long, {distance} longer"),
    "shorter": marked("{length} long, {distance} shorter"),
}
_MOVES: Mapping[str, str] = {
    "left": marked("Move {opening} {distance} left"),
    "right": marked("Move {opening} {distance} right"),
    "up": marked("Move {opening} {distance} up"),
    "down": marked("Move {opening} {distance} down"),
}


def change_text(change: Change, units: Units) -> str:
    """What to do: ``12 mm left``, ``Head 9.6 mm up, to 617.6 mm high``, ``3041 mm long, 7 mm shorter``."""

    def length(mm: float) -> str:
        return format_length(mm, units, 2)

    distance = gap_words(change.distance_mm, units, 2)
    if isinstance(change, LengthChange):
        return tr(_CHANGES[change.way], length=length(change.length_mm), distance=distance)
    return tr(
        _CHANGES[change.way],
        opening=change.opening,
        distance=distance,
        left=length(change.box.left_mm),
        width=length(change.box.width_mm),
        height=length(change.box.height_mm),
    )


def saving_text(suggestion: Suggestion) -> str:
    """What it saves: ``4 shaped panels fewer, 31 min saved; 7 special designs left``."""
    before, after = suggestion.before, suggestion.after
    fewer = suggestion.special_panels_fewer
    parts = [_panels(fewer, are_shaped=fewer == before.shaped_panels - after.shaped_panels)] if fewer else []
    minutes = round(suggestion.minutes_saved)
    parts.append(tr("{minutes} min saved", minutes=minutes) if minutes >= 0 else tr("{minutes} min more", minutes=-minutes))
    return f"{', '.join(parts)}; {_designs(after)}"


def _panels(fewer: int, *, are_shaped: bool) -> str:
    if are_shaped and fewer > 0:
        return trn("{n} shaped panel fewer", "{n} shaped panels fewer", fewer)
    if are_shaped:
        return trn("{n} shaped panel more", "{n} shaped panels more", -fewer)
    if fewer > 0:
        return trn("{n} special panel fewer", "{n} special panels fewer", fewer)
    return trn("{n} special panel more", "{n} special panels more", -fewer)


def undo_text(change: Change, units: Units) -> str:
    """The change as one step to undo: ``Move window 12 mm left``."""
    if isinstance(change, LengthChange):
        length = format_length(change.length_mm, units, 2)
        return tr("Make wall {wall} {length} long", wall=wall_letter(change.wall), length=length)
    if change.way in MOVES:
        return tr(_MOVES[change.way], opening=change.opening, distance=gap_words(change.distance_mm, units, 2))
    return tr("Resize {opening}", opening=change.opening)


def wall_text(room: Room, shell: Shell, wall: int) -> str:
    """Whether a wall divides into whole panels."""
    if is_whole(room, shell, wall):
        return tr("its length divides into whole panels")
    return tr("its length does not divide into whole panels")


def caution_text(room: Room, changes: Iterable[Change]) -> str:
    """What to mind before making any of the changes; empty where there is nothing."""
    openings = [change for change in changes if isinstance(change, OpeningChange)]
    lines = []
    if any(room.frame(room.opening(change.opening).wall).mode != "to_build" for change in openings):
        lines.append(tr(FRAME_STANDS))
    if any(change.way not in SIDEWAYS for change in openings):
        lines.append(tr(ESCAPE_AND_REACH))
    return " ".join(lines)


def _designs(after: Work) -> str:
    if not after.special_designs:
        return tr("no special design left")
    return trn("{n} special design left", "{n} special designs left", after.special_designs)
