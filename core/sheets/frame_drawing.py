"""One wall's timber square-on, true to scale: what stands where, with running dimensions from the frame's left corner."""

from collections import Counter
from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import ceil

from core.drawing import Box, Item, Paper, Path, Pen, Text
from core.drawing.items import rectangle
from core.drawing.lettering import shorten, text_width_mm, wrap
from core.drawing.scale import Scale, scales
from core.frame import WallFrame
from core.frame.datum import datum_words
from core.frame.members import LEVEL
from core.frame.remedies import misses_in_words
from core.language import marked, tr
from core.room import Units, wall_letter
from core.setout.result import SetOut, Timber
from core.sheets.draft import Draft, drawing_box, foot_box, papers, scale_bar
from core.sheets.running import HEIGHT_MM, LABEL_PITCH_MM, Along, Tick, label_depth_mm, running_dimension, spread
from core.units import format_length, in_units

SMALLEST_FACTOR = {"mm": 20, "ft-in": 24}
_TITLE_MM, _LEAD_MM, _TAG_MM = 7.0, 4.2, 10.5
_NEW, _OLD, _BLOCK = Pen(0.35), Pen(0.18, (2.0, 1.0), grey=0.45), Pen(0.5)
_VOID, _FLOOR, _LEADER = Pen(0.13), Pen(0.7), Pen(0.13)
_BLOCK_GREY = 0.8
_END = marked("end")
"""Written beside the wall's length, which is no upright's edge."""
_UPRIGHT_MM = 4.6
"""Room on paper that an upright's number and value need."""


@dataclass(frozen=True, slots=True)
class _Field:
    """Where a stretch of wall, ``begin`` to ``end`` in millimetres, lies on the paper."""

    box: Box
    scale: Scale
    begin: float
    end: float

    def x(self, along_mm: float) -> float:
        return self.box.left + (along_mm - self.begin) / self.scale.factor

    def y(self, height_mm: float) -> float:
        return self.box.bottom - height_mm / self.scale.factor

    def clipped(self, left: float, low: float, right: float, high: float) -> Box | None:
        left, right = max(left, self.begin), min(right, self.end)
        return Box(self.x(left), self.y(high), self.x(right), self.y(low)) if left < right and low < high else None


def frame_drawings(setout: SetOut, frame: WallFrame) -> list[Draft]:
    """The set-out of one wall's frame, on as many sheets as keep it legible; none where nothing is to be cut for it."""
    if not (frame.members or frame.backed.blocks or frame.backed.doubling):
        return []
    paper = papers(setout.room.display_units)[1]
    fields = _fields(setout, frame, paper)
    return [_draft(setout, frame, paper, field, number, len(fields)) for number, field in enumerate(fields, start=1)]


def _ends(setout: SetOut, frame: WallFrame) -> tuple[float, float]:
    boxes = [m.timber for m in frame.members]
    length = setout.walls[frame.wall].length_mm
    return min([0.0, *(t.left_mm for t in boxes)]), max([length, *(t.left_mm + t.width_mm for t in boxes)])


def _fields(setout: SetOut, frame: WallFrame, paper: Paper) -> list[_Field]:
    """The wall at the largest scale that fits; in equal stretches where even the smallest legible one does not."""
    units = setout.room.display_units
    area = _area(setout, frame, paper)
    begin, end = _ends(setout, frame)
    depth = label_depth_mm([f"{_write(setout, at)} {tr(_END)}" for at in (begin, end)]) + 4.0
    width, height = area.width - 36.0, area.height - _TAG_MM - depth
    legible = [s for s in scales(units == "ft-in") if s.factor >= setout.room.frame_head_mm / height]
    smallest = next((s for s in legible if s.factor >= SMALLEST_FACTOR[units]), legible[0])
    count = max(1, ceil((end - begin) / smallest.factor / width), ceil(len(frame.marks) * _UPRIGHT_MM / width))
    while _busiest(frame, begin, end, count) * _UPRIGHT_MM > width:
        count += 1
    step = (end - begin) / count
    scale = next(s for s in legible if step / s.factor <= width)
    wide, high = step / scale.factor, setout.room.frame_head_mm / scale.factor
    left = area.left + 18.0 + (width - wide) / 2
    top = area.top + _TAG_MM + (height - high) / 2
    box = Box(left, top, left + wide, top + high)
    return [_Field(box, scale, begin + step * i, begin + step * (i + 1)) for i in range(count)]


def _busiest(frame: WallFrame, begin: float, end: float, count: int) -> int:
    """The most marks that fall into one of so many equal stretches."""
    places = [mark.left_mm for mark in frame.marks]
    found = Counter(min(count - 1, int((at - begin) / (end - begin) * count)) for at in places)
    return max(found.values(), default=0)


def _area(setout: SetOut, frame: WallFrame, paper: Paper) -> Box:
    box = drawing_box(paper, has_foot=True)
    lines = wrap(_facts(setout, frame), box.width, 2.5)
    return Box(box.left, box.top + _TITLE_MM + _LEAD_MM * len(lines), box.right, box.bottom)


def _write(setout: SetOut, mm: float) -> str:
    return format_length(mm, setout.room.display_units, with_unit=False)


def _facts(setout: SetOut, frame: WallFrame) -> str:
    units = setout.room.display_units
    if units == "mm":
        said = [tr("Seen from inside the room. Lengths in mm, along the plates from the frame's left corner.")]
    else:
        said = [tr("Seen from inside the room. Lengths in feet and inches, along the plates from the frame's left corner.")]
    said += [*_how_to_mark(frame, units), tr("b: blocking, on edge, fixed at both ends.")]
    datum, drift = in_units(datum_words(setout), units), frame.drift.words if frame.drift else ""
    return " ".join(part for part in (*said, datum, misses_in_words(len(frame.points), frame.backed.misses), drift) if part)


def _how_to_mark(frame: WallFrame, units: Units) -> Iterator[str]:
    if not frame.is_to_build:
        yield tr("The frame stands (dashed): measure it again before you cut. Heights on the right are middles of blocking.")
        if frame.backed.blocks or frame.backed.doubling:
            yield tr("Values below are LEFT ends of blocking and doubling pieces.")
        return
    yield tr(
        "Each value is the LEFT edge of an upright: strike a line there and put the timber to its RIGHT. Only at "
        "“{end}”, the frame's right corner, none begins.",
        end=tr(_END),
    )
    if frame.strip_mm:
        yield tr("Lay the sole plate on a continuous strip {thickness} thick.", thickness=format_length(frame.strip_mm, units))


def _draft(setout: SetOut, frame: WallFrame, paper: Paper, field: _Field, number: int, count: int) -> Draft:
    letter = wall_letter(frame.wall)
    title = tr("Frame set-out of wall {wall}", wall=letter)
    if count > 1:
        title = tr("Frame set-out of wall {wall}, part {number} of {count}", wall=letter, number=number, count=count)
    box = drawing_box(paper, has_foot=True)
    lines = wrap(_facts(setout, frame), box.width, 2.5)
    items: list[Item] = [
        Text((box.left, box.top + 5), title, 5.0),
        *(Text((box.left, box.top + _TITLE_MM + _LEAD_MM * (i + 0.75)), line, 2.5) for i, line in enumerate(lines)),
        *_openings(setout, frame, field),
        *_timber(setout, frame, field),
        Path(((field.box.left, field.y(0.0)), (field.box.right, field.y(0.0))), _FLOOR),
        *_tags(frame, field),
        *_along(setout, frame, field, is_first=number == 1),
        *_heights(setout, frame, field),
        *_key(paper),
    ]
    code = f"frame-{letter}" + (f"-{number}" if count > 1 else "")
    return Draft(code, title, marked("frame set-out"), paper, tuple(items), field.scale.ratio)


def _openings(setout: SetOut, frame: WallFrame, field: _Field) -> Iterator[Item]:
    for o in setout.room.openings:
        box = field.clipped(o.left_mm, o.sill_mm, o.right_mm, min(o.head_mm, setout.room.frame_head_mm))
        if o.wall == frame.wall and box:
            yield Path(((box.left, box.top), (box.right, box.bottom)), _VOID)
            yield Path(((box.left, box.bottom), (box.right, box.top)), _VOID)
            name = shorten(o.id, max(box.width - 2, 12.0), 2.5)
            if text_width_mm(name, 2.5) <= box.width:
                yield rectangle(Box(*_around(box.centre, text_width_mm(name, 2.5))), None, fill=1.0)
                yield Text((box.centre[0], box.centre[1] + 1.2), name, 2.5, "middle")


def _around(centre: tuple[float, float], width: float) -> tuple[float, float, float, float]:
    return centre[0] - width / 2 - 0.6, centre[1] - 2.2, centre[0] + width / 2 + 0.6, centre[1] + 2.2


def _timber(setout: SetOut, frame: WallFrame, field: _Field) -> Iterator[Item]:
    old = [] if frame.is_to_build else [t for t in setout.timber if t.wall == frame.wall]
    for timbers, pen, grey in (
        (old, _OLD, None),
        ([m.timber for m in frame.members], _NEW, 1.0),
        (list(frame.backed.doubling), _BLOCK, _BLOCK_GREY),
    ):
        for t in timbers:
            if box := _box(field, t):
                yield rectangle(box, pen, fill=grey)
    for number, block in enumerate(frame.backed.blocks, start=1):
        if box := _box(field, block.timber):
            yield rectangle(box, _BLOCK, fill=_BLOCK_GREY)
            name = f"b{number}"
            half = text_width_mm(name, HEIGHT_MM) / 2 + 0.4
            x, y = box.centre
            yield rectangle(Box(x - half, y - 1.5, x + half, y + 1.5), None, fill=1.0)
            yield Text((x, y + HEIGHT_MM / 2), name, HEIGHT_MM, "middle")


def _box(field: _Field, t: Timber) -> Box | None:
    return field.clipped(t.left_mm, t.bottom_mm, t.left_mm + t.width_mm, t.bottom_mm + t.height_mm)


def _tags(frame: WallFrame, field: _Field) -> Iterator[Item]:
    """The uprights' numbers above the wall: level where they have room, turned a quarter where they crowd."""
    shown = [mark for mark in frame.marks if field.begin - 1e-6 <= mark.centre_mm <= field.end + 1e-6]
    places = [field.x(mark.centre_mm) for mark in shown]
    words = ["-".join(dict.fromkeys((str(mark.numbers[0]), str(mark.numbers[-1])))) for mark in shown]
    widths = [text_width_mm(word, HEIGHT_MM) for word in words]
    top = field.box.top
    level = [(one + other) / 2 + 1.0 for one, other in pairwise(widths)]
    is_level = all(after - before >= least for (before, after), least in zip(pairwise(places), level, strict=True))
    gaps = level if is_level else [LABEL_PITCH_MM] * (len(places) - 1)
    spots = spread(places, gaps, field.box.left - 8.0, field.box.right + 8.0) if places else []
    for place, spot, word in zip(places, spots, words, strict=True):
        yield Path(((place, top - 0.4), (place, top - 1.0), (spot, top - 2.4)), _LEADER)
        at = (spot, top - 3.0) if is_level else (spot + HEIGHT_MM / 2, top - 3.0)
        yield Text(at, word, HEIGHT_MM, "middle" if is_level else "start", 0 if is_level else 90)


def _along(setout: SetOut, frame: WallFrame, field: _Field, *, is_first: bool) -> list[Item]:
    """Left edges of all uprights; for a standing frame the left ends of what is cut in."""
    length = setout.walls[frame.wall].length_mm
    if frame.is_to_build:
        places = {mark.left_mm for mark in frame.marks} | {length}
    else:
        places = {b.left_mm for b in frame.backed.blocks} | {t.left_mm for t in frame.backed.doubling}
    shown = sorted(at for at in places if field.begin - 1e-6 <= at <= field.end + 1e-6 and at > 0)
    is_end = frame.is_to_build and length not in {mark.left_mm for mark in frame.marks}
    ticks = [Tick(field.x(at), _write(setout, at) + (f" {tr(_END)}" if is_end and at == length else "")) for at in shown]
    lie = Along(field.box.bottom + 4.0, field.box.bottom, False, field.box.left - 8.0, field.box.right + 8.0)
    return running_dimension(lie, field.x(0.0), ticks, has_origin=is_first)


def _heights(setout: SetOut, frame: WallFrame, field: _Field) -> list[Item]:
    """Up the left: undersides of level members. Up the right: middles of the blocking."""
    level = [m.timber for m in frame.members if m.name in LEVEL]
    edges = sorted({round(t.bottom_mm, 1) for t in level if t.bottom_mm > 0} | {setout.room.frame_head_mm})
    middles = sorted({round(b.middle_mm, 1) for b in frame.backed.blocks if field.begin <= b.left_mm <= field.end})
    items: list[Item] = []
    for values, line, edge in (
        (edges if frame.is_to_build else [], field.box.left - 4.0, field.box.left),
        (middles, field.box.right + 4.0, field.box.right),
    ):
        ticks = [Tick(field.y(at), _write(setout, at)) for at in values]
        items += running_dimension(Along(line, edge, True, field.box.top - 4, field.box.bottom + 2), field.y(0.0), ticks)
    return items


def _key(paper: Paper) -> list[Item]:
    box = foot_box(paper)
    entries: Sequence[tuple[Pen, float | None, str]] = (
        (_NEW, 1.0, tr("timber to cut; its number stands above it, the list gives its length")),
        (_OLD, None, tr("timber that stands already")),
        (_BLOCK, _BLOCK_GREY, tr("blocking and doubling pieces")),
    )
    items: list[Item] = []
    for i, (pen, grey, words) in enumerate(entries):
        y = box.top + 1.0 + i * 5.4
        items.append(rectangle(Box(box.left, y, box.left + 8, y + 4.0), pen, fill=grey))
        items.append(Text((box.left + 10, y + 3.2), words, 2.5))
    return [*items, *scale_bar(box)]
