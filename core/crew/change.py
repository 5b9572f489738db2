"""A change in mid-build: what of the work done stays, what comes down, what is built anew, what is short."""

from collections.abc import Mapping
from dataclasses import dataclass

from core.buying.account import account
from core.crew.standing import DONE, Orphan, Place, place_of, standing
from core.setout.result import Panel, SetOut
from core.takeoff import DesignParts, Material, take_off

_SAME_PLACE_MM = 0.5
"""A wall whose shell starts further away than this is another wall to what hangs on it."""


@dataclass(frozen=True, slots=True)
class Kept:
    """A panel that stays where it is; its mark may change."""

    before: str
    after: str


@dataclass(frozen=True)
class Change:
    """What changes from one set-out to another. Panels are of the later set-out where it has them."""

    keeps: tuple[Kept, ...]
    """In both, at the same place and of the same design, built or not."""
    comes_down: tuple[Orphan, ...]
    """Hanging, with no place in the new set-out."""
    set_aside: tuple[Orphan, ...]
    """Built or taken out, with no place in the new set-out."""
    builds: tuple[Panel, ...]
    """New in the later set-out and not built."""
    drops: tuple[Panel, ...]
    """Of the earlier set-out, never built, no longer wanted."""
    shifted_walls: tuple[int, ...]
    """Walls on which the whole shell moves, so that what hangs there must be moved although its place is called the same."""
    more: Mapping[Material, int]
    """How many pieces more (or, below nothing, fewer) the rest of the job takes than before."""
    short: Mapping[Material, int]
    """What has to be bought for the later set-out, spares included."""


def compare(before: SetOut, after: SetOut, parts_before: DesignParts, parts_after: DesignParts) -> Change:
    """What an edit in mid-build means. ``after`` is of the edited room, which carries the same progress."""
    old = {place_of(panel): panel for panel in before.panels}
    new = {place_of(panel): panel for panel in after.panels}
    now = standing(after)
    was = standing(before).by_mark
    hanging = tuple(orphan for orphan in now.orphans if orphan.record.state == "hung")
    aside = tuple(orphan for orphan in now.orphans if orphan.record.state != "hung")
    before_lines = account(before, take_off(before, parts_before))
    lines = account(after, take_off(after, parts_after))
    more = {m: line.needed - (before_lines[m].needed if m in before_lines else 0) for m, line in lines.items()}
    more |= {m: -line.needed for m, line in before_lines.items() if m not in lines}
    return Change(
        keeps=tuple(Kept(old[place].mark, panel.mark) for place, panel in new.items() if place in old),
        comes_down=hanging,
        set_aside=aside,
        builds=tuple(p for place, p in new.items() if place not in old and now.by_mark[p.mark] == "to build"),
        drops=tuple(p for place, p in old.items() if place not in new and was[p.mark] == "to build"),
        shifted_walls=_shifted(before, after, {place for place, panel in old.items() if was[panel.mark] in DONE}),
        more={material: number for material, number in more.items() if number},
        short={material: line.to_buy for material, line in lines.items() if line.to_buy},
    )


def _shifted(before: SetOut, after: SetOut, hung: set[Place]) -> tuple[int, ...]:
    """Walls with something hung whose shell starts elsewhere."""
    starts = {shell.wall: shell.start_mm for shell in after.walls}
    walls = sorted({wall for wall, *_ in hung})
    return tuple(wall for wall in walls if wall in starts and abs(starts[wall] - before.walls[wall].start_mm) > _SAME_PLACE_MM)
