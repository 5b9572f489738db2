"""All advice about a room as lines of text, each as soon as it is known."""

from collections.abc import Iterator

from core.advice.frame import advise_wall
from core.advice.opening import advise_opening
from core.advice.trial import Search, found_by
from core.advice.words import caution_text, change_text, saving_text, wall_text
from core.language import tr
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
        letter = wall_letter(opening.wall)
        yield tr("{opening}, wall {wall}: nearest changes that save work", opening=opening.id, wall=letter)
        yield from _told(room, advise_opening(setout, opening.id))
    for wall in range(room.wall_count):
        if room.frame(wall).mode == "to_build":
            yield ""
            said = wall_text(room, shell, wall)
            yield tr("wall {wall}, before it is built: {said}", wall=wall_letter(wall), said=said)
            yield from _told(room, advise_wall(setout, wall))


def _told(room: Room, search: Search) -> Iterator[str]:
    told = found_by(search)
    for suggestion in told:
        yield f"  {change_text(suggestion.change, room.display_units)}: {saving_text(suggestion)}"
    caution = caution_text(room, [suggestion.change for suggestion in told]) if told else tr("nothing to gain")
    if caution:
        yield f"  {caution}"
