"""Edits of what the crew has done. Each takes the set-out the crew works from and returns its room with the facts added."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace
from typing import Any, Literal

from core.crew.standing import Place, place_of, records_by_place, standing
from core.edits.revise import build, revise
from core.errors import RoomError
from core.language import tr
from core.progress import PanelRecord, PanelState, Recipe, Span, Step, WrongPanel
from core.purchase import PartCount
from core.room import Room
from core.setout.result import Panel, SetOut
from core.takeoff import Count, DesignParts, Material

_FOLLOWS: Mapping[PanelState, frozenset[PanelState]] = {
    "to build": frozenset({"built", "checked", "hung"}),
    "built": frozenset({"to build", "checked", "hung"}),
    "checked": frozenset({"to build", "built", "hung"}),
    "hung": frozenset({"to build", "built", "checked", "taken out"}),
    "taken out": frozenset({"to build", "checked", "hung"}),
}
"""What may come next: anything but taking out a panel that does not hang."""

Way = Literal["forward", "back"]
_STEPS: Mapping[Way, Mapping[PanelState, PanelState]] = {
    "forward": {"to build": "built", "built": "checked", "checked": "hung", "taken out": "hung"},
    "back": {"built": "to build", "checked": "built", "hung": "checked", "taken out": "hung"},
}
"""The next state either way. Nothing is taken out by a step: that is said in so many words."""


def mark_panels(
    setout: SetOut,
    marks: Iterable[str],
    state: PanelState,
    parts: DesignParts,
    *,
    own: Mapping[str, Count] | None = None,
    on: str | None = None,
    by: str = "",
) -> Room:
    """The room with panels in a new state; back to ``to build`` means that a panel was taken apart again.

    ``parts`` are noted the first time a design is built; ``own``, by mark, with a panel that is laid otherwise.
    Raises RoomError for a mark that does not exist, a panel that cannot come into the state from its own, or a bad date.
    """
    panels = {panel.mark: panel for panel in setout.panels}
    records = records_by_place(setout)
    designs: list[str] = []
    for mark in dict.fromkeys(marks):
        panel = panels.get(mark)
        if panel is None:
            raise RoomError(tr("panel {mark} does not exist in this set-out; look the mark up in the panel schedule", mark=mark))
        record = _next_record(setout, panel, records.get(place_of(panel)), state, on, by)
        if record is not None:
            records[record.place] = revise(record, parts=_laid_of(record, (own or {}).get(mark)))
            designs.append(panel.design)
    return _with_records(setout.room, records, designs, parts)


def step_panels(
    setout: SetOut,
    marks: Iterable[str],
    way: Way,
    parts: DesignParts,
    *,
    own: Mapping[str, Count] | None = None,
    on: str | None = None,
    by: str = "",
) -> Room:
    """The room with every panel one state further or back; those that hang stay when the others step forward.

    Raises RoomError for a mark that does not exist, and where no panel can step.
    """
    wanted = list(dict.fromkeys(marks))
    states = standing(setout).by_mark
    groups: dict[PanelState, list[str]] = {}
    for mark in wanted:
        if mark not in states:
            raise RoomError(tr("panel {mark} does not exist in this set-out; look the mark up in the panel schedule", mark=mark))
        if (state := _STEPS[way].get(states[mark])) is not None:
            groups.setdefault(state, []).append(mark)
    if not groups:
        raise RoomError(_no_step(wanted, way))
    for state, group in groups.items():
        setout = replace(setout, room=mark_panels(setout, group, state, parts, own=own, on=on, by=by))
    return setout.room


def _no_step(marks: Sequence[str], way: Way) -> str:
    if not marks:
        return tr("choose at least one panel")
    if way == "forward":
        return (
            tr("panel {panel} is hung already; mark it taken out where it comes off the wall", panel=marks[0])
            if len(marks) == 1
            else tr("these panels are hung already; mark it taken out where it comes off the wall")
        )
    if len(marks) == 1:
        return tr("panel {panel} is still to build, so there is no step back", panel=marks[0])
    return tr("these panels are still to build, so there is no step back")


def mark_orphan(setout: SetOut, place: Place, state: PanelState, *, on: str | None = None, by: str = "") -> Room:
    """The room with a panel that has no place any more in a new state: taken out, or taken apart (``to build``)."""
    records = records_by_place(setout)
    record = _recorded(records, place)
    step = _step(_place_words(place), record.state, state, on, by)
    if step is None:
        return setout.room
    records[place] = revise(record, steps=(*record.steps, step))
    return _with_records(setout.room, records, (), {})


def move_panel(setout: SetOut, place: Place, mark: str, *, on: str | None = None) -> Room:
    """The room with a built panel given another place of its design; one that hung must come down and is ``checked`` there.

    Raises RoomError where there is no such panel, the designs differ or the place is taken.
    """
    panel = next((panel for panel in setout.panels if panel.mark == mark), None)
    if panel is None:
        raise RoomError(tr("panel {mark} does not exist in this set-out; look the mark up in the panel schedule", mark=mark))
    records = records_by_place(setout)
    record = _recorded(records, place)
    target = place_of(panel)
    if record.design != panel.design:
        raise RoomError(
            tr(
                "panel {mark} is of design {design}; the one to move is {other}",
                mark=mark,
                design=panel.design,
                other=record.design,
            )
        )
    taken = records.get(target)
    if target == place or (taken is not None and taken.is_made):
        raise RoomError(tr("panel {mark} has been built already; choose a place that is still to build", mark=mark))
    state: PanelState = "checked" if record.state in ("hung", "taken out") else record.state
    del records[place]
    steps = (*record.steps, build(Step, state=state, on=on))
    records[target] = build(PanelRecord, **_whereabouts(setout, panel), steps=steps, parts=record.parts)
    return _with_records(setout.room, records, (), {})


def record_wrong(room: Room, wrong: WrongPanel) -> Room:
    """The room with a panel noted that came out otherwise than its sheet."""
    return revise(room, progress=revise(room.progress, wrong=(*room.progress.wrong, wrong)))


def drop_wrong(room: Room, number: int) -> Room:
    """The room without a wrong panel: it was taken apart, and its parts are back in the boxes. Raises RoomError."""
    wrong = room.progress.wrong
    if not 0 <= number < len(wrong):
        raise RoomError(tr("wrong panel {number} does not exist; {count} are recorded", number=number + 1, count=len(wrong)))
    return revise(room, progress=revise(room.progress, wrong=(*wrong[:number], *wrong[number + 1 :])))


def use_wrong(setout: SetOut, number: int, mark: str, parts: DesignParts, *, on: str | None = None) -> Room:
    """The room with a wrong panel used in a place it fits: the place is ``checked``, the wrong panel is gone."""
    room = mark_panels(setout, (mark,), "checked", parts, on=on)
    return drop_wrong(room, number)


def lay_ring(room: Room, plates: Count) -> Room:
    """The room with those plates laid in its starter ring, in place of what was noted before; none takes it up again."""
    return revise(room, progress=revise(room.progress, ring_laid=_lines(plates)))


def _next_record(
    setout: SetOut, panel: Panel, record: PanelRecord | None, state: PanelState, on: str | None, by: str
) -> PanelRecord | None:
    """The panel's record with one step more; None where it is in the state already."""
    step = _step(tr("panel {panel}", panel=panel.mark), record.state if record else "to build", state, on, by)
    if step is None:
        return None
    before = {"steps": record.steps, "parts": record.parts} if record else {"steps": (), "parts": ()}
    return build(PanelRecord, **_whereabouts(setout, panel), steps=(*before["steps"], step), parts=before["parts"])


def _laid_of(record: PanelRecord, own: Count | None) -> tuple[PartCount, ...]:
    """The parts to note with a panel: its own as it comes to be, none once it is taken apart, else those it has."""
    if not record.is_made:
        return ()
    was_made = len(record.steps) > 1 and record.steps[-2].state != "to build"
    return record.parts if was_made else _lines(own or {})


def _lines(count: Mapping[Material, int]) -> tuple[PartCount, ...]:
    return tuple(
        build(PartCount, part=item.name, colour=item.colour, count=number)
        for item, number in sorted(count.items(), key=lambda line: (line[0].name, line[0].colour or ""))
        if number
    )


def _whereabouts(setout: SetOut, panel: Panel) -> dict[str, Any]:
    """A record's place, row and spans for a panel of the set-out."""
    wall, bottom, left, design = place_of(panel)
    row = setout.rows[panel.row]
    return {
        "wall": wall,
        "bottom_plates": bottom,
        "left_pitches": left,
        "design": design,
        "row_bottom_plates": row.z_plates,
        "row_courses": row.courses,
        "spans": _spans(panel),
    }


def _spans(panel: Panel) -> tuple[Span, ...]:
    """What the panel takes up of each of its walls; an opening may part its cells on one wall into several faces."""
    walls = dict.fromkeys(face.wall for face in panel.faces)
    faces = {wall: [face for face in panel.faces if face.wall == wall] for wall in walls}
    return tuple(
        build(Span, wall=wall, left_pitches=min(f.left for f in there), right_pitches=max(f.right for f in there))
        for wall, there in faces.items()
    )


def _step(where: str, before: PanelState, after: PanelState, on: str | None, by: str) -> Step | None:
    if after == before:
        return None
    if after not in _FOLLOWS[before]:
        raise RoomError(
            tr(
                "{where} is {before}, so it cannot be {after}; it can be {states}",
                where=where,
                before=tr(before),
                after=tr(after),
                states=", ".join(map(tr, sorted(_FOLLOWS[before]))),
            )
        )
    return build(Step, state=after, on=on, by=by)


def _recorded(records: Mapping[Place, PanelRecord], place: Place) -> PanelRecord:
    record = records.get(place)
    if record is None or not record.is_made:
        raise RoomError(tr("no panel is recorded at {place}", place=_place_words(place)))
    return record


def _place_words(place: Place) -> str:
    wall, bottom, left, design = place
    return tr("wall {wall}, {bottom} plates up, pitch {left} ({design})", wall=wall, bottom=bottom, left=left, design=design)


def _with_records(room: Room, records: Mapping[Place, PanelRecord], designs: Iterable[str], parts: DesignParts) -> Room:
    progress = room.progress
    known = {recipe.design for recipe in progress.recipes}
    new = [_recipe(design, parts[design]) for design in dict.fromkeys(designs) if design not in known and design in parts]
    changed = revise(progress, panels=tuple(records.values()), recipes=(*progress.recipes, *new))
    return revise(room, progress=changed)


def _recipe(design: str, parts: Mapping[str, int]) -> Recipe:
    lines = tuple(build(PartCount, part=name, count=number) for name, number in sorted(parts.items()) if number)
    return build(Recipe, design=design, parts=lines)
