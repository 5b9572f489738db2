"""Says after an edit of the room what it does to panels that hang or are built. It never stands in the way."""

from collections.abc import Sequence

from PySide6.QtCore import QObject, Signal

from app.document import Document
from app.tracking.marking import parts_for
from core.crew import Orphan, place_of
from core.crew.change import Change, compare
from core.crew.standing import Place
from core.language import tr, trn
from core.room import Units, wall_letter
from core.setout.result import SetOut
from core.takeoff import shown_name

MOST_NAMED = 4
MOST_PARTS = 2
"""More would push what takes the change back out of a small window."""


class ChangeWatch(QObject):
    """Compares every set-out worked out in full with the one before it, where anything has been built yet."""

    said = Signal(str)
    """What the latest edit brings down, sets aside, asks for anew."""

    def __init__(self, document: Document, parent: QObject) -> None:
        super().__init__(parent)
        self._document = document
        self._before: SetOut | None = document.setout if document.is_full else None
        document.changed.connect(self._follow)

    def _follow(self, setout: SetOut) -> None:
        document = self._document
        if document.gesture_base is not None or not document.is_full:
            return
        before, self._before = self._before, setout
        is_fresh = document.undo_stack.count() == 0
        if is_fresh or before is None or not setout.room.progress.panels:
            return
        if before.panels == setout.panels and before.walls == setout.walls:
            return
        if text := change_words(before, setout):
            self.said.emit(text)


def change_words(before: SetOut, after: SetOut) -> str:
    """What an edit means for work done: empty where all that is built keeps its place."""
    designs = {panel.design for panel in (*before.panels, *after.panels)}
    change = compare(before, after, parts_for(before, designs), parts_for(after, designs))
    had_place: dict[Place, str] = {place_of(panel): panel.mark for panel in before.panels}
    down = _marks(change.comes_down, had_place)
    aside = _marks(change.set_aside, had_place)
    moved = [tr("wall {wall}", wall=wall_letter(wall)) for wall in change.shifted_walls]
    if not (down or aside or moved):
        return ""
    said = []
    if down:
        marks = _named(down)
        said.append(
            trn("{n} hung panel must come down ({marks})", "{n} hung panels must come down ({marks})", len(down), marks=marks)
        )
    if aside:
        marks = _named(aside)
        said.append(trn("{n} built panel set aside ({marks})", "{n} built panels set aside ({marks})", len(aside), marks=marks))
    if moved:
        said.append(tr("the lining moves on {walls}, with all that hangs there", walls=_named(moved)))
    if change.builds:
        said.append(tr("{n} to build anew", n=len(change.builds)))
    if short := _short(change, after.room.display_units):
        said.append(tr("more parts to buy: {parts}", parts=short))
    return tr("This change: {effects}. Ctrl+Z takes it back.", effects="; ".join(said))


def _marks(orphans: Sequence[Orphan], had_place: dict[Place, str]) -> list[str]:
    """Marks of the panels that lose their place by this change; those that had none before are not its doing."""
    return [had_place[orphan.record.place] for orphan in orphans if orphan.record.place in had_place]


def _short(change: Change, units: Units) -> str:
    """What has to be bought because of the change: no more than it adds, and no more than is short at all."""
    added = {material: min(more, change.short.get(material, 0)) for material, more in change.more.items()}
    lacking = sorted(((number, material) for material, number in added.items() if number > 0), key=lambda p: (-p[0], p[1].name))
    shown = ", ".join(f"{number} {shown_name(material, units)}" for number, material in lacking[:MOST_PARTS])
    rest = len(lacking) - MOST_PARTS
    return tr("{names} and {n} more kinds", names=shown, n=rest) if rest > 0 else shown


def _named(names: Sequence[str]) -> str:
    shown = ", ".join(names[:MOST_NAMED])
    rest = len(names) - MOST_NAMED
    return tr("{names} and {n} more", names=shown, n=rest) if rest > 0 else shown
