"""What a panel says when the pointer rests on it."""

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
