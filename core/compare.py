"""Two versions of a room side by side: what a person changed from one to the other, and which panels only one of them has.

What a change means for panels that hang is asked of ``core.crew.change``.
"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import zip_longest
from typing import Any

from pydantic import BaseModel

from core.field_words import field_heading, field_words
from core.kit import Kit
from core.language import marked, tr, trc
from core.room import FrameToBuild, MeasuredFrame, Opening, RegularFrame, Room, Units, wall_letter
from core.setout.result import Panel, SetOut
from core.setout.shell import corners_of
from core.units import format_length

NOTHING = "–"
_ANGLE_SHOWN_DEGREES = 0.05
_PLACE_MM = 0.5
"""A wall whose shell begins further away than this carries its panels elsewhere."""
_GIVEN = (
    ("kit", marked("Kit")),
    ("rates", marked("Crew minutes")),
    ("parts", marked("Part")),
    ("timberwork", marked("Timber")),
    ("colouring", marked("Colours")),
)
"""What of the kit is compared field by field."""


@dataclass(frozen=True, slots=True)
class Difference:
    """One thing that differs: what it is about, as checks name places where it has one, and how it reads in either version."""

    subject: str
    what: str
    before: str
    after: str


def differences(before: Room, after: Room) -> tuple[Difference, ...]:
    """What a person measured or wished otherwise: the room, its walls and frames, the openings, the kit, the job."""
    units = after.display_units
    found = (
        *_room(before, after, units),
        *_walls(before, after, units),
        *_openings(before, after, units),
        *_kit(before, after),
        *_job(before, after),
    )
    return tuple(difference for difference in found if difference.before != difference.after)


def only_in_one(before: SetOut, after: SetOut) -> tuple[frozenset[str], frozenset[str]]:
    """Marks of the panels of either set-out that the other has not: of another design, outline or place."""
    ours, theirs = _by_place(before), _by_place(after)
    same = ours.keys() & theirs.keys() if _grid(before.room.kit) == _grid(after.room.kit) else set()
    left = frozenset(mark for place, mark in ours.items() if place not in same)
    right = frozenset(mark for place, mark in theirs.items() if place not in same)
    return left, right


def changed_openings(before: Room, after: Room) -> frozenset[str]:
    """Ids of the openings that only one version has or that differ."""
    ours, theirs = ({opening.id: opening for opening in room.openings} for room in (before, after))
    return frozenset(name for name in ours.keys() | theirs.keys() if ours.get(name) != theirs.get(name))


def _grid(kit: Kit) -> tuple[float, float]:
    return kit.pitch_mm, kit.plate_mm


def _by_place(setout: SetOut) -> dict[object, str]:
    return {_place(setout, panel): panel.mark for panel in setout.panels}


def _place(setout: SetOut, panel: Panel) -> object:
    faces = tuple((face.wall, _step(setout.walls[face.wall].start_mm), face.outline, face.holes) for face in panel.faces)
    return panel.design, faces


def _step(mm: float) -> int:
    return round(mm / _PLACE_MM)


def _room(before: Room, after: Room, units: Units) -> Iterator[Difference]:
    yield Difference("room", tr("name"), before.name, after.name)
    heights = (format_length(room.clad_height_mm, units) for room in (before, after))
    yield Difference("room", tr("lined up to"), *heights)
    heads = (r.frame_height_mm and format_length(r.frame_height_mm, units) for r in (before, after))
    yield Difference("room", tr("frames up to"), *(head or tr("the lining's head") for head in heads))
    yield Difference("room", tr("joints"), tr(before.joints), tr(after.joints))
    yield Difference("room", tr("walls"), str(before.wall_count), str(after.wall_count))


def _walls(before: Room, after: Room, units: Units) -> Iterator[Difference]:
    lengths = [[format_length(r.wall_length_mm(w), units) for w in range(r.wall_count)] for r in (before, after)]
    frames = [[_frame_words(r.frame(w), units) for w in range(r.wall_count)] for r in (before, after)]
    angles = [[corner.inside_degrees for corner in corners_of(room)] for room in (before, after)]
    for wall, (ours, theirs) in enumerate(zip_longest(*lengths, fillvalue=NOTHING)):
        yield Difference(f"wall {wall_letter(wall)}", tr("length"), ours, theirs)
    if before.wall_count == after.wall_count:
        for wall, (a, b) in enumerate(zip(*angles, strict=True)):
            if abs(a - b) > _ANGLE_SHOWN_DEGREES:
                yield Difference(f"wall {wall_letter(wall)}", tr("angle at its left end"), f"{a:.1f}°", f"{b:.1f}°")
    for wall, (ours, theirs) in enumerate(zip_longest(*frames, fillvalue=NOTHING)):
        yield Difference(f"wall {wall_letter(wall)}", tr("frame"), ours, theirs)


_EVERY = marked("studs every {spacing} from {first}, {stud}")
_EVERY_WITH_RAILS = marked("studs every {spacing} from {first}, rails at {rails}, {stud}")
_AT = marked("measured studs at {centres}, {stud}")
_AT_WITH_RAILS = marked("measured studs at {centres}, rails at {rails}, {stud}")


def _frame_words(frame: FrameToBuild | RegularFrame | MeasuredFrame, units: Units) -> str:
    stud = tr("{stud} timber", stud=format_length(frame.stud_mm, units))
    if isinstance(frame, FrameToBuild):
        return tr("still to build, {stud}", stud=stud)
    rails = ", ".join(format_length(at, units, with_unit=False) for at in frame.rails_mm)
    if isinstance(frame, RegularFrame):
        spacing, first = format_length(frame.spacing_mm, units), format_length(frame.first_centre_mm, units)
        words = _EVERY_WITH_RAILS if rails else _EVERY
        return tr(words, spacing=spacing, first=first, rails=rails, stud=stud)
    centres = ", ".join(format_length(at, units, with_unit=False) for at in frame.centres_mm)
    words = _AT_WITH_RAILS if rails else _AT
    return tr(words, centres=centres or NOTHING, rails=rails, stud=stud)


def _openings(before: Room, after: Room, units: Units) -> Iterator[Difference]:
    ours, theirs = ({opening.id: opening for opening in room.openings} for room in (before, after))
    for name in dict.fromkeys((*ours, *theirs)):
        a, b = ours.get(name), theirs.get(name)
        subject = f"opening {name}"
        if a is None or b is None:
            yield Difference(subject, "", _opening_words(a, units), _opening_words(b, units))
            continue
        yield Difference(subject, tr("kind"), tr(a.kind), tr(b.kind))
        yield Difference(subject, tr("wall"), wall_letter(a.wall), wall_letter(b.wall))
        for what in ("left", "sill", "width", "height"):
            lengths = (format_length(getattr(opening, f"{what}_mm"), units) for opening in (a, b))
            yield Difference(subject, field_words(what), *lengths)


def _opening_words(opening: Opening | None, units: Units) -> str:
    if opening is None:
        return NOTHING
    size = f"{format_length(opening.width_mm, units, with_unit=False)} × {format_length(opening.height_mm, units)}"
    return tr("{kind} {size} on wall {wall}", kind=tr(opening.kind), size=size, wall=wall_letter(opening.wall))


def _kit(before: Room, after: Room) -> Iterator[Difference]:
    for field, subject in _GIVEN:
        yield from _fields(tr(subject), "", getattr(before, field), getattr(after, field))


def _fields(subject: str, what: str, ours: Any, theirs: Any) -> Iterator[Difference]:
    """What differs in two values, going into models and into lists of things that have names."""
    if ours == theirs:
        return
    if isinstance(ours, BaseModel) and type(ours) is type(theirs):
        for name in type(ours).model_fields:
            words = f"{what} {field_heading(name)}".strip()
            yield from _fields(subject, words, getattr(ours, name), getattr(theirs, name))
    elif _have_names(ours) and _have_names(theirs):
        a, b = ({item.name: item for item in items} for items in (ours, theirs))
        for name in dict.fromkeys((*a, *b)):
            if name in a and name in b:
                yield from _fields(f"{subject} {tr(name)}", what, a[name], b[name])
            else:
                yield Difference(f"{subject} {tr(name)}", what, *(tr("there") if name in side else NOTHING for side in (a, b)))
    else:
        yield Difference(subject, what, _words(ours), _words(theirs))


def _have_names(items: Any) -> bool:
    return isinstance(items, tuple) and len(items) > 0 and all(hasattr(item, "name") for item in items)


def _words(value: Any) -> str:
    if isinstance(value, bool):
        return trc("true or false", "yes") if value else trc("true or false", "no")
    if value is None or value in ((), ""):
        return NOTHING
    if isinstance(value, float):
        return f"{value:g}"
    if isinstance(value, BaseModel):
        return tr("set")
    if isinstance(value, Sequence) and not isinstance(value, str):
        return _list_words(value)
    return tr(str(value))


def _list_words(values: Sequence[Any]) -> str:
    if all(isinstance(value, str | int | float) for value in values):
        return ", ".join(f"{value:g}" if isinstance(value, float) else str(value) for value in values)
    return tr("{count} entries", count=len(values))


def _job(before: Room, after: Room) -> Iterator[Difference]:
    """What is pinned, bought, planned and done, told in numbers only: each has a place of its own to read it."""
    yield Difference("room", tr("pins"), str(len(before.pins)), str(len(after.pins)))
    done = (str(_made(room)) for room in (before, after))
    yield Difference("room", tr("panels built or hung"), *done)
    for field, what in (("stock", tr("what is bought and in stock")), ("crew", tr("crew and calendar"))):
        if getattr(before, field) != getattr(after, field):
            yield Difference("room", what, tr("as it was"), tr("otherwise"))


def _made(room: Room) -> int:
    return sum(record.is_made for record in room.progress.panels)
