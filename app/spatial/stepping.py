"""From panel to panel by keyboard: along its row round the room, or to the row above and below."""

from app.elevation.strip import Strip
from core.setout.metric import face_box_mm
from core.setout.result import Panel, SetOut


def next_panel(setout: SetOut, panel: Panel, across: int, up: int) -> Panel:
    """The panel beside, above or below; the same one where the room has no further row."""
    strip = Strip.of(setout.room)
    here = _middle_mm(setout, strip, panel)
    row = panel.row + up
    level = [(_middle_mm(setout, strip, other), other) for other in setout.panels if other.row == row]
    if not level:
        return panel
    if up:
        return min(level, key=lambda found: abs(found[0] - here))[1]
    level.sort(key=lambda found: (found[0], found[1].mark))
    marks = [other.mark for _, other in level]
    return level[(marks.index(panel.mark) + across) % len(level)][1]


def first_panel(setout: SetOut, wall: int) -> Panel | None:
    """The lowest panel at a wall's left end; None where the wall carries none."""
    return next((panel for panel in setout.panels if any(face.wall == wall for face in panel.faces)), None)


def _middle_mm(setout: SetOut, strip: Strip, panel: Panel) -> float:
    face = panel.faces[-1]
    left, _, right, _ = face_box_mm(setout, face)
    return strip.starts_mm[face.wall] + (left + right) / 2
