"""What panels and openings say when the pointer rests on them, and what a screen reader says of the selection."""

from collections.abc import Sequence

from app.document import Document
from app.elevation.studs import Studs, stud_name
from core.language import tr, trn
from core.reasons import holding_words, hole_words, move_words, opening_words, panel_words, pin_words
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
    lines = [f"{panel.mark}, " + tr(" and ").join(sizes), tr("design {design}", design=panel.design)]
    if missed:
        lines.append(tr("{missed} of {count} screws without timber", missed=missed, count=len(mounts)))
    else:
        lines.append(tr("{count} screws, all on timber", count=len(mounts)))
    lines += [*panel_words(setout, panel), *pin_words(setout, panel), move_words(setout, panel), *hole_words(setout, panel)]
    lines += holding_words(setout, panel)
    return "\n".join(line for line in lines if line)


def opening_tip(setout: SetOut, opening: Opening) -> str:
    """Its id and size, and the panels that are not whole because of it."""
    units = setout.room.display_units
    size = f"{format_length(opening.width_mm, units)} × {format_length(opening.height_mm, units)}"
    return "\n".join([f"{opening.id}, {size}", *opening_words(setout, opening)])


def chosen_words(openings: Sequence[Opening], panels: Sequence[Panel]) -> str:
    """How many of what is chosen: ``2 openings and 12 panels selected``."""
    if not panels:
        return trn("{n} opening selected", "{n} openings selected", len(openings))
    if not openings:
        return trn("{n} panel selected", "{n} panels selected", len(panels))
    return tr(
        "{openings} and {panels} selected",
        openings=trn("{n} opening", "{n} openings", len(openings)),
        panels=trn("{n} panel", "{n} panels", len(panels)),
    )


def selection_words(document: Document, studs: Studs) -> str:
    """What is selected on the elevation and which keys act on it."""
    what, stud, frame = document.selection, studs.selected, studs.frame
    if stud is not None and frame is not None:
        at = format_length(frame.centres_mm[stud], document.room.display_units)
        name = stud_name(studs.wall, stud)
        return tr("{stud} is selected, its middle {distance} from the left end; arrow keys move it", stud=name, distance=at)
    if len(document.chosen.names) > 1:
        words = chosen_words(document.chosen.openings, document.chosen.panels)
        return tr("{chosen}, {latest} the latest; Y says why it is as it is", chosen=words, latest=what)
    if document.selected_opening is not None:
        return tr("{opening} is selected; arrow keys move it, with Control they resize it", opening=what)
    if what is not None:
        return tr("panel {panel} is selected; Enter shows it at the bench, Y says why it is as it is", panel=what)
    return tr("Tab goes through the openings; plus, minus and 0 zoom")
