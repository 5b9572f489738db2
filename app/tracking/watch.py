"""Says after an edit of the room what it does to panels that hang or are built. It never stands in the way."""

from collections.abc import Collection, Sequence

from PySide6.QtCore import QObject, Signal

from app.document import Document
from app.tracking.marking import parts_for
from core.crew import Orphan, place_of
from core.crew.change import Change, compare
from core.crew.standing import Place
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
    moved = [f"wall {wall_letter(wall)}" for wall in change.shifted_walls]
    if not (down or aside or moved):
        return ""
    said = []
    if down:
        said.append(f"{_count(len(down), 'hung panel')} must come down ({_named(down)})")
    if aside:
        said.append(f"{_count(len(aside), 'built panel')} set aside ({_named(aside)})")
    if moved:
        said.append(f"the lining moves on {_named(moved)}, with all that hangs there")
    if change.builds:
        said.append(f"{len(change.builds)} to build anew")
    if short := _short(change, after.room.display_units):
        said.append(f"more parts to buy: {short}")
    return f"This change: {'; '.join(said)}. Ctrl+Z takes it back."


def _marks(orphans: Sequence[Orphan], had_place: dict[Place, str]) -> list[str]:
    """Marks of the panels that lose their place by this change; those that had none before are not its doing."""
    return [had_place[orphan.record.place] for orphan in orphans if orphan.record.place in had_place]


def _short(change: Change, units: Units) -> str:
    """What has to be bought because of the change: no more than it adds, and no more than is short at all."""
    added = {material: min(more, change.short.get(material, 0)) for material, more in change.more.items()}
    lacking = sorted(((number, material) for material, number in added.items() if number > 0), key=lambda p: (-p[0], p[1].name))
    return _named([f"{number} {shown_name(material, units)}" for number, material in lacking], MOST_PARTS, "more kinds")


def _named(names: Collection[str], most: int = MOST_NAMED, rest_of: str = "more") -> str:
    shown = list(names)[:most]
    rest = len(names) - len(shown)
    return ", ".join(shown) + (f" and {rest} {rest_of}" if rest else "")


def _count(number: int, word: str) -> str:
    return f"{number} {word}{'s' if number != 1 else ''}"
