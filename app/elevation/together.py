"""Gestures that move several openings as one, and arrow keys on whatever openings are chosen."""

from collections.abc import Sequence

from app.document import Document
from app.elevation.gestures import MoveOpening, Pointer
from app.elevation.strip import Strip, StripPoint
from core.edits.together import free_shift_mm, free_stretch_mm, shift_openings, stretch_openings
from core.language import tr, trn
from core.room import Opening, Room


def openings_words(names: Sequence[str]) -> str:
    """One by its name, several by their number."""
    return names[0] if len(names) == 1 else trn("{n} opening", "{n} openings", len(names))


class MoveTogether(MoveOpening):
    """Dragging one of several chosen openings: the others keep their distance from it, every one on its own wall."""

    def __init__(self, document: Document, opening: Opening, others: Sequence[Opening], grab: StripPoint, strip: Strip) -> None:
        super().__init__(document, opening, grab, strip)
        self._all = (opening, *others)
        self._names = tuple(one.id for one in self._all)

    def finish(self) -> None:
        """Commit what is shown, as one step to undo."""
        self._document.finish(tr(self.undo_text, openings=openings_words(self._names)))

    def _wall_under(self, _pointer: Pointer) -> int:
        return self._opening.wall

    @property
    def _stays_down(self) -> bool:
        return any(one.kind == "door" and one.sill_mm == 0 for one in self._all)

    def _kept(self, wanted: Opening) -> Opening:
        """No further than the wall's end that one of them comes to first."""
        shift = self._shift_to(wanted)
        free = free_shift_mm(self._base.room, self._names, *shift)
        if free == shift:
            return wanted
        self.guides = ()
        left_mm, sill_mm = self._opening.left_mm + free[0], self._opening.sill_mm + free[1]
        return wanted.model_copy(update={"left_mm": round(left_mm, 4), "sill_mm": round(sill_mm, 4)})

    def _shift_to(self, wanted: Opening) -> tuple[float, float]:
        return wanted.left_mm - self._opening.left_mm, wanted.sill_mm - self._opening.sill_mm

    def _edit(self, room: Room, wanted: Opening) -> Room:
        return shift_openings(room, self._names, *self._shift_to(wanted))


class Nudge:
    """Arrow keys on the chosen openings: every press or repeat is a step, letting go commits."""

    def __init__(self, document: Document, names: Sequence[str], *, resizing: bool) -> None:
        self.names, self.resizing = tuple(names), resizing
        self._document, self._base = document, document.base_room
        self._by = (0.0, 0.0)

    def step(self, right_mm: float, up_mm: float) -> None:
        """Move, or widen and heighten, all by so much more; a refused step leaves them where they were."""
        wish = self._by[0] + right_mm, self._by[1] + up_mm
        free = free_stretch_mm if self.resizing else free_shift_mm
        by = free(self._base, self.names, *wish)
        change = stretch_openings if self.resizing else shift_openings
        if self._document.preview_edit(lambda room: change(room, self.names, *by)):
            self._by = by

    def finish(self) -> None:
        """Commit what is shown."""
        words = openings_words(self.names)
        self._document.finish(
            tr("Resize {openings}", openings=words) if self.resizing else tr("Nudge {openings}", openings=words)
        )

    def cancel(self) -> None:
        """Put everything back."""
        self._document.cancel()
