"""The frame behind every wall in words: how it is set out, and how many screws would find no timber in it."""

from collections import Counter
from dataclasses import replace

from core.room import FrameToBuild, RegularFrame, wall_letter
from core.setout.result import SetOut
from core.sheets.flow import Column, Line, gap, header_row, heading, paragraph, row
from core.units import format_length

_BLOCKING = (
    "Behind every mounting point there must be timber for the screw. Where there is none, cut blocking: a short piece of timber, "
    "fixed between two studs at that height before the panels go up."
)
_RINGS = "Crossed rings on the elevations are the points without timber."
_WALL_MM, _POINTS_MM = 12.0, 44.0


def frames(setout: SetOut, width: float) -> list[Line]:
    """What to do about bare mounting points, where there are any, and a table with a line for each wall."""
    columns = [
        Column("wall", _WALL_MM),
        Column("frame", width - _WALL_MM - _POINTS_MM),
        Column("needs blocking", _POINTS_MM, "end"),
    ]
    landing = _landing(setout)
    blocked = [sum(landing[shell.wall, behind] for behind in (None, "blocking")) for shell in setout.walls]
    bare = any(landing[shell.wall, None] for shell in setout.walls)
    said = f"{_BLOCKING} {_RINGS}" if bare else _BLOCKING
    rows = [
        row(columns, [wall_letter(shell.wall), frame_words(setout, shell.wall), f"{count} points" if count else "no point"])
        for shell, count in zip(setout.walls, blocked, strict=True)
    ]
    words = [replace(line, keeps=True) for line in paragraph(said, width)] if any(blocked) else []
    return [heading("Frame behind the panels", width), *words, gap(0.8), header_row(columns), *rows]


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


def _landing(setout: SetOut) -> Counter[tuple[int, str | None]]:
    """How many mounting points of each wall stand before each kind of timber, or before none."""
    return Counter((face.wall, point.lands_on) for panel in setout.panels for face in panel.faces for point in face.mounts)
