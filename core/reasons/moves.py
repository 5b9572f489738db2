"""Which small move of an opening leaves a panel whole, tried by sketching the room with the opening there."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from core.edits.openings import move_opening
from core.edits.revise import tidy_mm
from core.errors import CoursewrightError
from core.language import marked, tr
from core.reasons.cuts import Cut, Spread, cuts_of, spread_of
from core.room import Opening, Room
from core.setout import sketch
from core.setout.metric import x_mm, z_mm
from core.setout.result import Panel, SetOut
from core.units import format_length

Way = Literal["left", "right", "up", "down"]
_MOVED: Mapping[Way, str] = {
    "left": marked("{opening} moved {by} to the left leaves it whole, by a quick set-out"),
    "right": marked("{opening} moved {by} to the right leaves it whole, by a quick set-out"),
    "up": marked("{opening} moved {by} up leaves it whole, by a quick set-out"),
    "down": marked("{opening} moved {by} down leaves it whole, by a quick set-out"),
}
SHAPED = frozenset({"shaped", "shaped-corner"})


@dataclass(frozen=True, slots=True)
class Move:
    """An opening moved by so much."""

    opening: Opening
    way: Way
    by_mm: float

    def applied(self, room: Room) -> Room:
        """The room with the opening moved. Raises RoomError where it does not fit there."""
        by_mm = self.by_mm if self.way in ("right", "up") else -self.by_mm
        if self.way in ("left", "right"):
            return move_opening(room, self.opening.id, left_mm=tidy_mm(self.opening.left_mm + by_mm))
        return move_opening(room, self.opening.id, sill_mm=tidy_mm(self.opening.sill_mm + by_mm))


def move_words(setout: SetOut, panel: Panel) -> str:
    """The nearest move that leaves a shaped panel's place to a panel without a cut-out; empty where none is found.

    Tried with sketches, which take some hundredths of a second; set-out in full may divide the row otherwise still.
    """
    if panel.kind not in SHAPED:
        return ""
    cuts = cuts_of(setout, panel)
    if len({cut.opening.id for cut in cuts}) != 1:
        return ""
    for move in sorted(_clearing(setout, panel, cuts[0]), key=lambda move: move.by_mm):
        if _leaves_whole(setout, panel, move):
            by = format_length(move.by_mm, setout.room.display_units)
            return tr(_MOVED[move.way], opening=move.opening.id, by=by)
    return tr("no move of its opening alone leaves it whole")


def _clearing(setout: SetOut, panel: Panel, cut: Cut) -> list[Move]:
    """The least moves that take each of the opening's edges out of the panel; doors stay on the floor."""
    opening, mine = cut.opening, spread_of(panel, cut.opening.wall)
    left, right = (x_mm(setout, opening.wall, pitch) for pitch in (mine.left, mine.right))
    bottom, top = (z_mm(setout.room.kit, plates) for plates in (mine.bottom, mine.top))
    wishes: list[tuple[Way, float]] = [("right", right - opening.left_mm), ("left", opening.right_mm - left)]
    if opening.sill_mm > 0:
        wishes += [("up", top - opening.sill_mm), ("down", opening.head_mm - bottom)]
    return [Move(opening, way, tidy_mm(by_mm)) for way, by_mm in wishes if by_mm > 0]


def _leaves_whole(setout: SetOut, panel: Panel, move: Move) -> bool:
    """Whether a sketch of the room has panels without a cut-out, and nothing else, where the panel was."""
    try:
        after = sketch(move.applied(setout.room), near=setout)
    except CoursewrightError:
        return False
    walls = dict.fromkeys(face.wall for face in panel.faces)
    return all(_is_whole_there(after, wall, spread_of(panel, wall)) for wall in walls)


def _is_whole_there(after: SetOut, wall: int, place: Spread) -> bool:
    there = [p for p in after.panels if any(f.wall == wall for f in p.faces) and spread_of(p, wall).meets(place)]
    covered = sum(_common(spread_of(p, wall), place) for p in there)
    whole = (place.right - place.left) * (place.top - place.bottom)
    return covered == whole and all(p.kind not in SHAPED for p in there)


def _common(one: Spread, other: Spread) -> int:
    across = min(one.right, other.right) - max(one.left, other.left)
    up = min(one.top, other.top) - max(one.bottom, other.bottom)
    return max(0, across) * max(0, up)
