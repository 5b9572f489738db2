"""Advice for a frame still to be built: the lengths and the opening widths that leave whole panels of the kit only.

Arithmetic proposes, and the solver has the last word: nothing is told that would need more special panels than now.
"""

from core.advice.candidates import BOUGHT_IN_ONE_SIZE
from core.advice.changes import Box, Change, LengthChange, OpeningChange
from core.advice.grid import PitchLines
from core.advice.suggestion import Suggestion
from core.advice.trial import Search, changed, suggested
from core.advice.whole import left_runs, nearest_of, right_runs, wall_runs
from core.edits.revise import tidy_mm
from core.errors import CoursewrightError
from core.room import Opening, Room
from core.setout.result import SetOut, WallShell
from core.setout.shell import NM_PER_MM, Shell, shell_of, to_nm

PLAY_OF_A_PITCH = 0.375
"""How much of a pitch a proposed frame may come out too short or too long, 3 mm of 8: common practice, no published source."""
MOST_SOLVED = 40
"""Changes of one wall that are solved, all together."""
WHOLE_EDGES_TRIED = 5
"""Lines nearest to either edge of an opening that are tried together."""


def is_whole(room: Room, shell: Shell, wall: int) -> bool:
    """Whether a wall divides into whole panels of the kit, its openings left aside."""
    shown = shell.walls[wall]
    return shown.pitches in wall_runs(room.kit, shown, shown.pitches)


def advise_wall(before: SetOut, wall: int) -> Search:
    """Searches lengths of a wall whose frame is still to be built, and widths of its openings, in a room solved exactly.

    Returns suggestions: the wall's first, then those of each opening from the left, nearest first. Nothing where the frame
    stands.
    """
    room = before.room
    if room.frame(wall).mode != "to_build" or not before.panels:
        return ()
    shell, told = shell_of(room), list[Suggestion]()
    openings = sorted((o for o in room.openings if o.wall == wall), key=lambda o: (o.left_mm, o.id))
    changes: list[Change] = [*_lengths(room, shell, wall)]
    for opening in openings:
        changes += _widths(room, shell, opening)
    for change in changes[:MOST_SOLVED]:
        found = yield from suggested(before, change, tuple(told))
        if found is not None and found.special_panels_fewer >= 0:
            told.append(found)
    return tuple(told)


def _lengths(room: Room, shell: Shell, wall: int) -> list[LengthChange]:
    """The nearest shorter and longer length that divides into whole panels; none where the present one does."""
    shown = shell.walls[wall]
    if is_whole(room, shell, wall):
        return []
    runs = wall_runs(room.kit, shown, shown.pitches + 2 * room.kit.full_width)
    shorter = max((run for run in runs if run < shown.pitches), default=None)
    longer = min((run for run in runs if run > shown.pitches), default=None)
    found = (_length(room, shown, pitches) for pitches in (shorter, longer) if pitches)
    return sorted((change for change in found if change), key=lambda change: change.distance_mm)


def _length(room: Room, shown: WallShell, pitches: int) -> LengthChange | None:
    """The nearest length with so many pitches of shell and some play either way; None where the room cannot follow."""
    now = shown.length_mm
    by_pitches = now + (pitches - shown.pitches) * room.kit.pitch_mm
    with_play = by_pitches + _to_some_play_mm(room, shown, longer=pitches > shown.pitches)
    for length in (float(round(with_play)), tidy_mm(with_play), tidy_mm(by_pitches)):
        change = LengthChange(shown.wall, length, tidy_mm(abs(length - now)), "longer" if length > now else "shorter")
        if length > 0 and _pitches_after(room, change) == pitches:
            return change
    return None


def _to_some_play_mm(room: Room, shown: WallShell, *, longer: bool) -> float:
    """What to add to a change by whole pitches so that small errors of the frame leave the shell as it is.

    A frame may be up to a pitch longer than its shell needs; the nearest length leaves a little of that on either side.
    """
    if (shown.left, shown.right) != ("inside", "inside"):
        return 0.0
    pitch, play = room.kit.pitch_mm, PLAY_OF_A_PITCH * room.kit.pitch_mm
    spare = (shown.length_mm - shown.pitches * pitch - room.kit.fit_mm) % pitch
    return (play if longer else pitch - play) - spare


def _pitches_after(room: Room, change: LengthChange) -> int | None:
    after = changed(room, change)
    if after is None:
        return None
    try:
        return shell_of(after).walls[change.wall].pitches
    except CoursewrightError:
        return None


def _widths(room: Room, shell: Shell, opening: Opening) -> list[OpeningChange]:
    """The nearest narrower and the nearest wider opening with whole panels on both sides; none where they are already."""
    if opening.kind in BOUGHT_IN_ONE_SIZE:
        return []
    lines, shown = PitchLines.of(room, shell, opening.wall), shell.walls[opening.wall]
    left, right = lines.blocked(to_nm(opening.left_mm), to_nm(opening.right_mm))
    lefts = left_runs(room.kit, shown)
    rights = frozenset(shown.pitches - run for run in right_runs(room.kit, shown))
    if left in lefts and right in rights:
        return []
    boxes = [
        _between(opening, lines, (left, right), (new_left, new_right))
        for new_left in nearest_of(lefts, left, WHOLE_EDGES_TRIED)
        for new_right in nearest_of(rights, right, WHOLE_EDGES_TRIED)
        if new_left < new_right
    ]
    found = [change for change in (_resized(opening, box) for box in boxes) if change is not None]
    by_way = ([change for change in found if change.way == way] for way in ("narrower", "wider"))
    chosen = [min(some, key=lambda change: change.distance_mm) for some in by_way if some]
    return sorted(chosen, key=lambda change: change.distance_mm)


def _between(opening: Opening, lines: PitchLines, here: tuple[int, int], edges: tuple[int, int]) -> Box:
    """The opening with the edges that have to move on those lines; an edge in the right pitch already stays."""
    left_mm = opening.left_mm if edges[0] == here[0] else tidy_mm(lines.at_nm(edges[0]) / NM_PER_MM)
    right_mm = opening.right_mm if edges[1] == here[1] else tidy_mm(lines.at_nm(edges[1]) / NM_PER_MM)
    return Box(left_mm, opening.sill_mm, tidy_mm(right_mm - left_mm), opening.height_mm)


def _resized(opening: Opening, box: Box) -> OpeningChange | None:
    """The change to another width; None where only the place is another."""
    if box.width_mm == opening.width_mm or box.width_mm <= 0:
        return None
    moved = abs(box.left_mm - opening.left_mm) + abs(box.left_mm + box.width_mm - opening.right_mm)
    return OpeningChange(opening.id, "wider" if box.width_mm > opening.width_mm else "narrower", tidy_mm(moved), box)
