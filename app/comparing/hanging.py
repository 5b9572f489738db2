"""What going over to the other version means for panels that are built or hang, in sentences."""

from collections.abc import Collection, Iterator
from dataclasses import replace

from app.comparing.versions import Pair
from app.tracking.marking import parts_for
from core.crew.change import Change, compare
from core.crew.standing import Orphan, place_of, standing
from core.room import Room, wall_letter
from core.setout.result import SetOut

MOST_NAMED = 6


def hanging_words(pair: Pair) -> tuple[str, ...]:
    """Sentences about the work done in the room open now, were the second version built instead of the first.

    Empty where nothing is built yet. The versions are taken as they stand: what hangs now is laid over both of them.
    """
    if not any(record.is_made for record in pair.now.progress.panels):
        return ()
    before, after = (_with_work_of(pair.now, version.setout) for version in (pair.before, pair.after))
    parts = (parts_for(setout, [design.name for design in setout.designs]) for setout in (before, after))
    return tuple(_sentences(before, compare(before, after, *parts)))


def _with_work_of(now: Room, setout: SetOut) -> SetOut:
    return replace(setout, room=setout.room.model_copy(update={"progress": now.progress, "stock": now.stock}))


def _sentences(before: SetOut, change: Change) -> Iterator[str]:
    states = standing(before).by_mark
    marks = {place_of(panel): panel.mark for panel in before.panels}
    kept = sum(states[keep.before] != "to build" for keep in change.keeps)
    yield f"{_panels(kept)} built or hung so far: the place is kept."
    if change.comes_down:
        yield f"{_panels(len(change.comes_down))} must come down: {_named(_names(change.comes_down, marks))}."
    if change.set_aside:
        yield f"{_panels(len(change.set_aside))} made, without a place: {_named(_names(change.set_aside, marks))}."
    if change.shifted_walls:
        walls = [f"wall {wall_letter(wall)}" for wall in change.shifted_walls]
        yield f"The lining moves on {_named(walls)}, with all that hangs there."
    if change.builds or change.drops:
        yield f"{len(change.builds)} are to build that were not planned before; {len(change.drops)} planned ones fall away."
    ranked = sorted(change.more.items(), key=lambda item: (-abs(item[1]), item[0].name))
    for word, sign in (("more", 1), ("fewer", -1)):
        if found := [f"{abs(number)} {material.name}" for material, number in ranked if number * sign > 0]:
            yield f"What is left to do takes {word}: {_named(found, 4)}."


def _names(orphans: Collection[Orphan], marks: dict[tuple[int, int, int, str], str]) -> list[str]:
    """Marks where the first version has the panel, else its design and wall."""
    return [
        marks.get(orphan.record.place) or f"{orphan.record.design} on wall {wall_letter(orphan.record.wall)}"
        for orphan in orphans
    ]


def _panels(number: int) -> str:
    return f"{number} panel{'s' if number != 1 else ''}"


def _named(names: Collection[str], most: int = MOST_NAMED) -> str:
    shown = list(names)[:most]
    rest = len(names) - len(shown)
    return ", ".join(shown) + (f" and {rest} more" if rest else "")
