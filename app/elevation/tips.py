"""What panels and openings say when the pointer rests on them, and what a screen reader says of the selection."""

from collections.abc import Sequence

from app.document import Document
from app.elevation.studs import Studs, stud_name
from core.reasons import move_words, opening_words, panel_words
from core.room import Opening
from core.setout.metric import face_box_mm
from core.setout.result import Panel, SetOut
from core.units import format_length


def panel_tip(setout: SetOut, panel: Panel) -> str:
    """Mark, size of each leg, design, and mounting points without timber; then why it is as it is, and its minutes.

    For a shaped panel rooms are sketched to find what would leave it whole, which takes some hundredths of a second.
    """
    units = setout.room.display_units
    sizes = []
    for face in panel.faces:
        left, bottom, right, top = face_box_mm(setout, face)
        sizes.append(f"{format_length(right - left, units)} × {format_length(top - bottom, units)}")
    mounts = [mount for face in panel.faces for mount in face.mounts]
    missed = sum(mount.lands_on is None for mount in mounts)
    lines = [f"{panel.mark}, {' and '.join(sizes)}", f"design {panel.design}"]
    lines.append(f"{missed} of {len(mounts)} screws without timber" if missed else f"{len(mounts)} screws, all on timber")
    lines += [*panel_words(setout, panel), move_words(setout, panel)]
    return "\n".join(line for line in lines if line)


def opening_tip(setout: SetOut, opening: Opening) -> str:
    """Its id and size, and the panels that are not whole because of it."""
    units = setout.room.display_units
    size = f"{format_length(opening.width_mm, units)} × {format_length(opening.height_mm, units)}"
    return "\n".join([f"{opening.id}, {size}", *opening_words(setout, opening)])


def chosen_words(openings: Sequence[Opening], panels: Sequence[Panel]) -> str:
    """How many of what is chosen: ``2 openings and 12 panels selected``."""
    counts = [(len(openings), "opening"), (len(panels), "panel")]
    return " and ".join(f"{count} {noun}{'' if count == 1 else 's'}" for count, noun in counts if count) + " selected"


def selection_words(document: Document, studs: Studs) -> str:
    """What is selected on the elevation and which keys act on it."""
    what, stud, frame = document.selection, studs.selected, studs.frame
    if stud is not None and frame is not None:
        at = format_length(frame.centres_mm[stud], document.room.display_units)
        return f"{stud_name(studs.wall, stud)} is selected, its middle {at} from the left end; arrow keys move it"
    if len(document.chosen.names) > 1:
        chosen = document.chosen
        return f"{chosen_words(chosen.openings, chosen.panels)}, {what} the latest; Y says why it is as it is"
    if document.selected_opening is not None:
        return f"{what} is selected; arrow keys move it, with Control they resize it"
    if what is not None:
        return f"panel {what} is selected; Enter shows it at the bench, Y says why it is as it is"
    return "Tab goes through the openings; plus, minus and 0 zoom"
