"""The frame behind every wall in words: how it is set out, and how many screws would find no timber in it."""

from dataclasses import replace

from core.drawing.lettering import wrap
from core.frame import FramePlan
from core.frame.remedies import misses_in_words
from core.language import marked, tr, trn
from core.room import FrameToBuild, MeasuredFrame, RegularFrame, wall_letter
from core.setout.result import SetOut
from core.sheets.flow import Column, Line, heading, paragraph, row
from core.units import format_length

_MISSING_WORDS = marked(
    "Behind every mounting point there must be timber. Where the frame has none (crossed rings on the elevations), the frame "
    "list of the wall says for each what to do before panels go up."
)
_EVERY = marked("standing: {width} studs every {spacing}, the first centred at {first}")
_EVERY_WITH_RAILS = marked("standing: {width} studs every {spacing}, the first centred at {first}; {rails}")
_WALL_MM = 18.0


def frames(setout: SetOut, plan: FramePlan, width: float) -> list[Line]:
    """Lines for each wall: how its frame is set out, what is done about points without timber, how far its studs drift."""
    columns = [Column("", _WALL_MM), Column("", width - _WALL_MM)]
    lines = [heading(tr("Frame behind the panels"), width)]
    if any(frame.backed.misses for frame in plan.walls):
        lines += [replace(line, keeps=True) for line in paragraph(tr(_MISSING_WORDS), width)]
    for frame in plan.walls:
        said = f"{frame_words(setout, frame.wall)}. {misses_in_words(len(frame.points), frame.backed.misses)}"
        parts = wrap(said, columns[1].width_mm - 2.0, 2.5)
        for number, part in enumerate(parts, start=1):
            cells = [tr("wall {wall}", wall=wall_letter(frame.wall)) if number == 1 else "", part]
            is_last = number == len(parts)
            lines.append(replace(row(columns, cells, is_ruled=is_last), keeps=not is_last))
    return lines


def frame_words(setout: SetOut, wall: int) -> str:
    """How a wall's frame is set out."""
    frame, units = setout.room.frame(wall), setout.room.display_units
    stud = format_length(frame.stud_mm, units)
    if isinstance(frame, FrameToBuild):
        return tr("to build: {width} studs, centred on the panel joints, one at each end", width=stud)
    if isinstance(frame, RegularFrame):
        spacing, first = format_length(frame.spacing_mm, units), format_length(frame.first_centre_mm, units)
        words = _EVERY_WITH_RAILS if frame.rails_mm else _EVERY
        return tr(words, width=stud, spacing=spacing, first=first, rails=_rail_count(frame))
    return tr(
        "standing, as measured: {studs} and {rails}, {width}",
        studs=trn("{n} stud", "{n} studs", len(frame.centres_mm)),
        rails=_rail_count(frame),
        width=stud,
    )


def _rail_count(frame: RegularFrame | MeasuredFrame) -> str:
    return trn("{n} rail", "{n} rails", len(frame.rails_mm))
