"""The changes of one opening worth trying: all that block other cells, within a reach, nearest first."""

from collections.abc import Iterable, Iterator
from dataclasses import replace
from itertools import islice

from core.advice.changes import Box, OpeningChange, Way
from core.advice.grid import TIDY_NM, LevelLines, PitchLines, shifts_nm, whole_steps
from core.edits.revise import tidy_mm
from core.room import Opening, OpeningKind, Room
from core.setout.result import Row
from core.setout.shell import NM_PER_MM, Shell, to_nm

BOUGHT_IN_ONE_SIZE: frozenset[OpeningKind] = frozenset({"outlet", "switch"})
"""Boxes are bought as they are; only their place can change."""

LEVEL_STEPS = 4
"""Layer lines next to an edge that it is tried on; row joints are tried anyway."""

MOST_SIDEWAYS, MOST_LEVEL, MOST_WIDTHS, MOST_HEIGHTS = 56, 20, 24, 14
"""Nearest changes of each sort; their sum bounds what one search tries."""


def changes_of(room: Room, shell: Shell, rows: tuple[Row, ...], opening: Opening) -> list[OpeningChange]:
    """The changes to try, nearest first and in a fixed order among equals. They may still not fit the wall."""
    lines, levels = PitchLines.of(room, shell, opening.wall), LevelLines.of(room, rows)
    panel_mm = room.kit.full_width * room.kit.pitch_mm
    sorts: list[list[OpeningChange]] = [
        _nearest(_sideways(room, lines, opening, panel_mm), MOST_SIDEWAYS),
        _nearest(_up_and_down(levels, opening, panel_mm), MOST_LEVEL),
    ]
    if opening.kind not in BOUGHT_IN_ONE_SIZE:
        sorts.append(_nearest(_widths(lines, opening, panel_mm / 2), MOST_WIDTHS))
        sorts.append(_nearest(_heights(levels, opening, panel_mm / 2), MOST_HEIGHTS))
    return _nearest((change for sort in sorts for change in sort if _stays(room, change.box, opening.wall)), None)


def _nearest(changes: Iterable[OpeningChange], most: int | None) -> list[OpeningChange]:
    return list(islice(sorted(changes, key=lambda change: change.distance_mm), most))


def _stays(room: Room, box: Box, wall: int) -> bool:
    """Whether the opening stays on its wall and where the lining is."""
    length, height = room.wall_length_mm(wall), room.clad_height_mm
    return (
        min(box.left_mm, box.sill_mm) >= 0
        and min(box.width_mm, box.height_mm) > 0
        and box.left_mm + box.width_mm <= length
        and box.sill_mm < height
    )


def _moved(opening: Opening, way: Way, distance_mm: float, **new: float) -> OpeningChange:
    box = replace(Box.of(opening), **{name: tidy_mm(value) for name, value in new.items()})
    return OpeningChange(opening.id, way, tidy_mm(distance_mm), box)


def _sideways(room: Room, lines: PitchLines, opening: Opening, reach_mm: float) -> Iterator[OpeningChange]:
    count = whole_steps(reach_mm, room.kit.pitch_mm)
    leftwards, rightwards = shifts_nm(lines, opening, room.display_units, count)
    for shift in leftwards:
        yield _moved(opening, "left", shift / NM_PER_MM, left_mm=opening.left_mm - shift / NM_PER_MM)
    for shift in rightwards:
        yield _moved(opening, "right", shift / NM_PER_MM, left_mm=opening.left_mm + shift / NM_PER_MM)


def _up_and_down(levels: LevelLines, opening: Opening, reach_mm: float) -> Iterator[OpeningChange]:
    """With the sill on a line, or the head on a row joint, and the other way about; never a door or what stands on the floor."""
    if opening.sill_mm == 0:
        return
    sill, head = opening.sill_mm, opening.head_mm
    joints = replace(levels, layers_mm=())
    up = {line - sill for line in levels.above(sill, LEVEL_STEPS, reach_mm)}
    up |= {line - head for line in joints.above(head, 0, reach_mm)}
    down = {head - line for line in levels.below(head, LEVEL_STEPS, reach_mm)}
    down |= {sill - line for line in joints.below(sill, 0, reach_mm)}
    for distance in sorted(tidy_mm(d) for d in up):
        yield _moved(opening, "up", distance, sill_mm=sill + distance)
    for distance in sorted(tidy_mm(d) for d in down):
        yield _moved(opening, "down", distance, sill_mm=sill - distance)


def _widths(lines: PitchLines, opening: Opening, reach_mm: float) -> Iterator[OpeningChange]:
    """With one upright edge on a pitch line."""
    left, width, right = opening.left_mm, opening.width_mm, opening.right_mm
    for line_mm, to_right in _lines_near(lines, left, reach_mm):
        way: Way = "left edge right" if to_right else "left edge left"
        yield _moved(opening, way, abs(line_mm - left), left_mm=line_mm, width_mm=width + left - line_mm)
    for line_mm, to_right in _lines_near(lines, right, reach_mm):
        way = "right edge right" if to_right else "right edge left"
        yield _moved(opening, way, abs(line_mm - right), width_mm=line_mm - left)


def _lines_near(lines: PitchLines, at_mm: float, reach_mm: float) -> Iterator[tuple[float, bool]]:
    """Pitch lines within reach that can be stood on to a tenth of a micrometre, and whether they lie to the right."""
    at, reach = to_nm(at_mm), to_nm(reach_mm)
    first, last = -((lines.start_nm + reach - at) // lines.pitch_nm), (at + reach - lines.start_nm) // lines.pitch_nm
    for line in range(max(0, first), min(lines.pitches, last) + 1):
        line_nm = lines.at_nm(line)
        if line_nm != at and line_nm % TIDY_NM == 0:
            yield line_nm / NM_PER_MM, line_nm > at


def _heights(levels: LevelLines, opening: Opening, reach_mm: float) -> Iterator[OpeningChange]:
    """With its head, or its sill unless it stands on the floor, on a layer line."""
    sill, head, height = opening.sill_mm, opening.head_mm, opening.height_mm
    for line in levels.above(head, LEVEL_STEPS, reach_mm):
        yield _moved(opening, "head up", line - head, height_mm=line - sill)
    for line in levels.below(head, LEVEL_STEPS, reach_mm):
        yield _moved(opening, "head down", head - line, height_mm=line - sill)
    if sill == 0:
        return
    for line in levels.above(sill, LEVEL_STEPS, reach_mm):
        yield _moved(opening, "sill up", line - sill, sill_mm=line, height_mm=height + sill - line)
    for line in levels.below(sill, LEVEL_STEPS, reach_mm):
        yield _moved(opening, "sill down", sill - line, sill_mm=line, height_mm=height + sill - line)
