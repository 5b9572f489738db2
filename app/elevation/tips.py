"""What a panel says when the pointer rests on it, and what a screen reader says of the selection."""

from app.document import Document
from app.elevation.studs import Studs, stud_name
from core.setout.metric import face_box_mm
from core.setout.result import Panel, SetOut
from core.units import format_length


def panel_tip(setout: SetOut, panel: Panel) -> str:
    """Mark, kind, size of each leg, design, and mounting points without timber."""
    units = setout.room.display_units
    sizes = []
    for face in panel.faces:
        left, bottom, right, top = face_box_mm(setout, face)
        sizes.append(f"{format_length(right - left, units)} × {format_length(top - bottom, units)}")
    mounts = [mount for face in panel.faces for mount in face.mounts]
    missed = sum(mount.lands_on is None for mount in mounts)
    lines = [f"{panel.mark}, {panel.kind}", " and ".join(sizes), f"design {panel.design}"]
    lines.append(f"{missed} of {len(mounts)} screws without timber" if missed else f"{len(mounts)} screws, all on timber")
    return "\n".join(lines)


def selection_words(document: Document, studs: Studs) -> str:
    """What is selected on the elevation and which keys act on it."""
    what, stud, frame = document.selection, studs.selected, studs.frame
    if stud is not None and frame is not None:
        at = format_length(frame.centres_mm[stud], document.room.display_units)
        return f"{stud_name(studs.wall, stud)} is selected, its middle {at} from the left end; arrow keys move it"
    if document.selected_opening is not None:
        return f"{what} is selected; arrow keys move it, with Control they resize it"
    if what is not None:
        return f"panel {what} is selected; Enter shows it at the bench"
    return "Tab goes through the openings; plus, minus and 0 zoom"
