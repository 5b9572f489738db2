"""The frame behind every wall in words: how it is set out, and how many screws would find no timber in it."""

from collections import Counter
from dataclasses import replace

from core.room import FrameToBuild, RegularFrame, wall_letter
from core.setout.result import SetOut
from core.sheets.flow import Column, Line, heading, paragraph, row
from core.sheets.symbols import needs_blocking
from core.units import format_length

_BLOCKING_WORDS = (
    "Behind every mounting point there must be timber. Where there is none (crossed rings on the elevations), cut blocking: "
    "a short timber, fixed between two studs at that height before panels go up."
)
_WALL_MM, _POINTS_MM = 18.0, 36.0


def frames(setout: SetOut, width: float) -> list[Line]:
    """A line for each wall and, where there are points without timber, what to do about them."""
    blocked = Counter(
        face.wall for panel in setout.panels for face in panel.faces for point in face.mounts if needs_blocking(point)
    )
    columns = [Column("", _WALL_MM), Column("", width - _WALL_MM - _POINTS_MM), Column("", _POINTS_MM, "end")]
    rows = [
        row(columns, [f"wall {wall_letter(shell.wall)}", frame_words(setout, shell.wall), _points(blocked[shell.wall])])
        for shell in setout.walls
    ]
    words = [replace(line, keeps=True) for line in paragraph(_BLOCKING_WORDS, width)] if blocked else []
    return [heading("Frame behind the panels", width), *words, *rows]


def _points(count: int) -> str:
    return f"{_counted(count, 'point')} to block" if count else "no blocking"


def frame_words(setout: SetOut, wall: int) -> str:
    """How a wall's frame is set out."""
    frame, units = setout.room.frame(wall), setout.room.display_units
    stud = format_length(frame.stud_mm, units)
    if isinstance(frame, FrameToBuild):
        return f"to build: {stud} studs, centred on the panel joints, one at each end"
    if isinstance(frame, RegularFrame):
        spacing, first = format_length(frame.spacing_mm, units), format_length(frame.first_centre_mm, units)
        return f"standing: {stud} studs every {spacing}, the first centred at {first}"
    return f"standing, as measured: {_counted(len(frame.centres_mm), 'stud')} and {_counted(len(frame.rails_mm), 'rail')}, {stud}"


def _counted(count: int, name: str) -> str:
    return f"{count} {name}{'' if count == 1 else 's'}"
