"""What going over to the other version means for panels that are built or hang, in sentences."""

from collections.abc import Collection, Iterator
from dataclasses import replace

from app.comparing.versions import Pair
from app.tracking.marking import parts_for
from core.crew.change import Change, compare
from core.crew.standing import Orphan, place_of, standing
from core.language import tr, trn
from core.room import Room, wall_letter
from core.setout.result import SetOut
from core.takeoff import shown_name

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
    yield trn("{n} panel built or hung so far: the place is kept.", "{n} panels built or hung so far: the place is kept.", kept)
    if gone := change.comes_down:
        names = _named(_names(gone, marks))
        yield trn("{n} panel must come down: {panels}.", "{n} panels must come down: {panels}.", len(gone), panels=names)
    if loose := change.set_aside:
        names = _named(_names(loose, marks))
        yield trn(
            "{n} panel made, without a place: {panels}.",
            "{n} panels made, without a place: {panels}.",
            len(loose),
            panels=names,
        )
    if change.shifted_walls:
        walls = [tr("wall {wall}", wall=wall_letter(wall)) for wall in change.shifted_walls]
        yield tr("The lining moves on {walls}, with all that hangs there.", walls=_named(walls))
    if change.builds or change.drops:
        yield tr(
            "{builds} are to build that were not planned before; {drops} planned ones fall away.",
            builds=len(change.builds),
            drops=len(change.drops),
        )
    if more := _counts(change, 1):
        yield tr("What is left to do takes more: {parts}.", parts=_named(more, 4))
    if fewer := _counts(change, -1):
        yield tr("What is left to do takes fewer: {parts}.", parts=_named(fewer, 4))


def _counts(change: Change, sign: int) -> list[str]:
    """How many parts more (``sign`` 1) or fewer (-1) are needed, the largest numbers first."""
    ranked = sorted(change.more.items(), key=lambda item: (-abs(item[1]), item[0].name))
    return [f"{abs(number)} {shown_name(material, 'mm')}" for material, number in ranked if number * sign > 0]


def _names(orphans: Collection[Orphan], marks: dict[tuple[int, int, int, str], str]) -> list[str]:
    """Marks where the first version has the panel, else its design and wall."""
    return [
        marks.get(orphan.record.place)
        or tr("{design} on wall {wall}", design=orphan.record.design, wall=wall_letter(orphan.record.wall))
        for orphan in orphans
    ]


def _named(names: Collection[str], most: int = MOST_NAMED) -> str:
    shown = list(names)[:most]
    rest = len(names) - len(shown)
    listed = ", ".join(shown)
    return tr("{names} and {count} more", names=listed, count=rest) if rest else listed
