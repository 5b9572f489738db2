"""All advice about a room as lines of text, each as soon as it is known."""

from collections.abc import Iterator

from core.advice.frame import advise_wall
from core.advice.opening import advise_opening
from core.advice.trial import Search, found_by
from core.advice.words import caution_text, change_text, saving_text, wall_text
from core.room import Room, wall_letter
from core.setout.result import SetOut
from core.setout.shell import shell_of


def report_lines(setout: SetOut) -> Iterator[str]:
    """Lines about every opening of a room, then about every wall whose frame is still to be built."""
    room = setout.room
    shell = shell_of(room)
    yield room.name
    for opening in room.openings:
        yield ""
        yield f"{opening.id}, wall {wall_letter(opening.wall)}: nearest changes that save work"
        yield from _told(room, advise_opening(setout, opening.id))
    for wall in range(room.wall_count):
        if room.frame(wall).mode == "to_build":
            yield ""
            yield f"wall {wall_letter(wall)}, before it is built: {wall_text(room, shell, wall)}"
            yield from _told(room, advise_wall(setout, wall))


def _told(room: Room, search: Search) -> Iterator[str]:
    told = found_by(search)
    for suggestion in told:
        yield f"  {change_text(suggestion.change, room.display_units)}: {saving_text(suggestion)}"
    caution = caution_text(room, [suggestion.change for suggestion in told]) if told else "nothing to gain"
    if caution:
        yield f"  {caution}"
