"""Commands that change the room or move about in it, on whatever is selected or current."""

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from types import MappingProxyType

from app.document import Document
from app.elevation.together import openings_words
from core import edits
from core.edits.together import remove_openings
from core.language import marked, tr, trn
from core.room import OpeningKind, Room, wall_letter
from core.setout.result import Panel

ADDING: Mapping[OpeningKind, str] = MappingProxyType(
    {
        "door": marked("Add door"),
        "window": marked("Add window"),
        "outlet": marked("Add outlet"),
        "switch": marked("Add switch"),
        "niche": marked("Add niche"),
    }
)
"""What undo calls the adding of an opening."""
STEP_DEPTH_MM = 608.0
"""How far a new step reaches into the room: two full panels."""


class RoomCommands:
    """Each command is one edit of the document."""

    def __init__(self, document: Document, show_place: Callable[[str], object]) -> None:
        self._document, self._show_place = document, show_place

    def answers(self) -> dict[str, Callable[[], object]]:
        """What answers the actions that change the room on the spot."""
        return {
            "delete": self.delete,
            "pin": self.pin,
            "pin_rows": self.pin_rows,
            "unpin_all": self.unpin_all,
            "next_opening": partial(self.step_selection, 1),
            "previous_opening": partial(self.step_selection, -1),
            "toggle_units": self.toggle_units,
            **{f"add_{kind}": partial(self.add, kind) for kind in ADDING},
            "step_wall": self.step_wall,
        }

    def add(self, kind: OpeningKind) -> None:
        """A new opening of that kind on the current wall, where it is free nearest the middle; it is then selected."""
        wall = self._document.wall

        def edit(room: Room) -> Room:
            return edits.add_opening(room, kind, wall, edits.free_left_mm(room, kind, wall))

        if self._document.commit_edit(edit, tr(ADDING[kind])):
            self._document.select(self._document.room.openings[-1].id)

    def delete(self) -> None:
        """Remove the chosen openings and select the one that took the place of the first in the list."""
        room = self._document.room
        names = [opening.id for opening in self._document.chosen.openings]
        if not names:
            return
        place = min(place for place, opening in enumerate(room.openings) if opening.id in names)
        text = tr("Delete {openings}", openings=openings_words(names))
        if self._document.commit_edit(lambda room: remove_openings(room, names), text):
            rest = self._document.room.openings
            self._document.select(rest[min(place, len(rest) - 1)].id if rest else None)

    def pin(self) -> None:
        """Pin the chosen panels where they stand; where all of them are pinned, let them go again."""
        setout, panels = self._document.setout, self._document.chosen.panels
        if not panels:
            return
        pins = [pin for panel in panels for pin in edits.pins_for(setout, panel)]
        words = panels_name(panels)
        if set(pins) <= set(setout.room.pins):
            self._document.commit_edit(lambda room: edits.remove_pins(room, pins), tr("Let {panels} go", panels=words))
        else:
            self._document.commit_edit(lambda room: edits.add_pins(room, pins), tr("Pin {panels}", panels=words))

    def pin_rows(self) -> None:
        """Pin the row stack as it is, or let it go again."""
        pin = edits.rows_pin(self._document.setout)
        if pin in self._document.room.pins:
            self._document.commit_edit(lambda room: edits.remove_pins(room, [pin]), tr("Let the rows go"))
        else:
            self._document.commit_edit(lambda room: edits.add_pins(room, [pin]), tr("Pin the rows"))

    def unpin_all(self) -> None:
        """Let everything go."""
        pins = self._document.room.pins
        self._document.commit_edit(lambda room: edits.remove_pins(room, pins), tr("Remove all pins"))

    def step_selection(self, step: int) -> None:
        """Select the next or previous opening round the room."""
        openings = sorted(self._document.room.openings, key=lambda o: (o.wall, o.left_mm, o.sill_mm))
        if not openings:
            return
        names = [o.id for o in openings]
        now = self._document.selection
        place = names.index(now) + step if now in names else (0 if step > 0 else -1)
        name = names[place % len(names)]
        self._document.select(name)
        self._show_place(f"opening {name}")

    def step_wall(self) -> None:
        """A step in the middle of the current wall, into the room."""
        wall = self._document.wall
        middle_mm = round(self._document.room.wall_length_mm(wall) / 2)
        text = tr("Step in wall {wall}", wall=wall_letter(wall))
        self._document.commit_edit(lambda room: edits.step_wall(room, wall, middle_mm, STEP_DEPTH_MM), text)

    def toggle_units(self) -> None:
        """Millimetres to feet and inches, and back."""
        units = self._document.room.display_units
        self._document.commit_edit(lambda room: edits.set_units(room, "ft-in" if units == "mm" else "mm"), tr("Change units"))

    def choose(self, where: str) -> None:
        """Select what a check's place names: an opening, a panel or a wall."""
        kind, _, name = where.partition(" ")
        if kind in ("opening", "panel"):
            self._document.select(name)
        elif kind == "wall":
            walls = [wall_letter(wall) for wall in range(self._document.room.wall_count)]
            if name in walls:
                self._document.set_wall(walls.index(name))


def panels_name(panels: Sequence[Panel]) -> str:
    """One by its mark, several by their number."""
    return panels[0].mark if len(panels) == 1 else trn("{n} panel", "{n} panels", len(panels))
