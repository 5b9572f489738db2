"""The elevation by keyboard: nudge and resize, go through the openings, panels and walls, choose several, zoom."""

from collections.abc import Callable
from typing import Protocol

from PySide6.QtCore import Qt
from PySide6.QtGui import QKeyEvent

from app.document import Document
from app.elevation.stepping import first_panel, next_panel
from app.elevation.together import Nudge, openings_words
from core.edits.together import remove_openings
from core.kit import Kit
from core.language import tr
from core.room import Opening

ARROWS: dict[int, tuple[int, int]] = {
    Qt.Key.Key_Left: (-1, 0),
    Qt.Key.Key_Right: (1, 0),
    Qt.Key.Key_Up: (0, 1),
    Qt.Key.Key_Down: (0, -1),
}
LONG_STEP = 10
_PLAIN = Qt.KeyboardModifier.ShiftModifier | Qt.KeyboardModifier.KeypadModifier


class Viewer(Protocol):
    """What keys ask of the view."""

    @property
    def is_dragging(self) -> bool: ...
    def fit(self) -> None: ...
    def zoom_in(self) -> None: ...
    def zoom_out(self) -> None: ...
    def go_to_wall(self, wall: int) -> None: ...
    def bring_into_view(self, name: str) -> None: ...
    def hold_space(self, held: bool) -> None: ...
    def give_up(self) -> bool: ...
    def pick_selected(self) -> None: ...


class Keyboard:
    """Turns keys into nudges, selection and camera moves."""

    def __init__(self, document: Document, viewer: Viewer) -> None:
        self._document, self._viewer = document, viewer
        self._nudge: Nudge | None = None
        self._commands: dict[int, Callable[[], object]] = {
            Qt.Key.Key_Plus: viewer.zoom_in,
            Qt.Key.Key_Equal: viewer.zoom_in,
            Qt.Key.Key_Minus: viewer.zoom_out,
            Qt.Key.Key_0: viewer.fit,
            Qt.Key.Key_PageUp: lambda: viewer.go_to_wall(document.wall - 1),
            Qt.Key.Key_PageDown: lambda: viewer.go_to_wall(document.wall + 1),
            Qt.Key.Key_Escape: self._escape,
            Qt.Key.Key_Delete: self._remove,
            Qt.Key.Key_Return: viewer.pick_selected,
            Qt.Key.Key_Enter: viewer.pick_selected,
            Qt.Key.Key_Space: lambda: viewer.hold_space(True),
        }

    def press(self, event: QKeyEvent) -> bool:
        """Do what a key says; False where it says nothing here."""
        if (step := arrow_step_mm(event, self._document.room.kit)) is not None:
            if self._document.selected_opening is None:
                self._step_panels(event)
            else:
                self._nudge_by(step, resizing=bool(event.modifiers() & Qt.KeyboardModifier.ControlModifier))
            return True
        command = self._commands.get(event.key())
        if command is None or not _is_plain(event):
            return False
        # Told by False alone: most commands return nothing.
        return command() is not False

    def release(self, event: QKeyEvent) -> bool:
        """Letting go of an arrow key commits the nudge it made."""
        if event.key() in ARROWS and not event.isAutoRepeat():
            self.finish()
        elif event.key() == Qt.Key.Key_Space and not event.isAutoRepeat():
            self._viewer.hold_space(False)
        return event.key() in ARROWS or event.key() == Qt.Key.Key_Space

    def finish(self) -> None:
        """Commit the running nudge."""
        nudge, self._nudge = self._nudge, None
        if nudge is not None:
            nudge.finish()

    def drop(self) -> None:
        """Forget the nudge: the document has ended it."""
        self._nudge = None

    def step_through(self, forward: bool) -> bool:
        """Select the next opening round the room, or the one before; False past the last."""
        openings = self._in_order()
        names = [opening.id for opening in openings]
        selected = self._document.selection
        outside = -1 if forward else len(names)
        at = names.index(selected) if selected in names else outside
        following = at + (1 if forward else -1)
        if not 0 <= following < len(openings):
            return False
        self.finish()
        self._go_to(openings[following].id)
        return True

    def choose_another(self, step: int) -> None:
        """Choose the next opening round the room, or the one before, beside those chosen."""
        names = [opening.id for opening in self._in_order()]
        if not names:
            return
        self.finish()
        now = self._document.selection
        place = names.index(now) + step if now in names else (0 if step > 0 else -1)
        self._go_to(names[place % len(names)], adding=True)

    def enter(self, *, forward: bool) -> None:
        """Tab has come into the elevation: begin at its first opening, or from behind at its last."""
        if openings := self._in_order():
            self._go_to(openings[0 if forward else -1].id)

    def _in_order(self) -> list[Opening]:
        return sorted(self._document.room.openings, key=lambda opening: (opening.wall, opening.left_mm))

    def _go_to(self, name: str, *, adding: bool = False) -> None:
        chosen = self._document.chosen
        chosen.choose((*chosen.names, name) if adding else (name,), name)
        self._viewer.bring_into_view(name)

    def _step_panels(self, event: QKeyEvent) -> None:
        """Go to the panel beside, above or below; with Shift it is chosen beside those that are."""
        if self._viewer.is_dragging or event.modifiers() & ~_PLAIN:
            return
        setout, panel = self._document.setout, self._document.selected_panel
        across, up = ARROWS[event.key()]
        found = next_panel(setout, panel, across, up) if panel else first_panel(setout, self._document.wall)
        if found is not None:
            self._go_to(found.mark, adding=bool(event.modifiers() & Qt.KeyboardModifier.ShiftModifier))

    def _nudge_by(self, step: tuple[float, float], *, resizing: bool) -> None:
        names = tuple(opening.id for opening in self._document.chosen.openings)
        if not names or self._viewer.is_dragging:
            return
        if self._nudge is not None and (self._nudge.names, self._nudge.resizing) != (names, resizing):
            self.finish()
        if self._nudge is None:
            self._nudge = Nudge(self._document, names, resizing=resizing)
        self._nudge.step(*step)

    def _escape(self) -> bool:
        """Give up the drag or the held key; with none running, select nothing. False where there is nothing to give up at all."""
        nudge, self._nudge = self._nudge, None
        if nudge is not None:
            nudge.cancel()
        elif not self._viewer.give_up():
            was_chosen = bool(self._document.chosen.names)
            self._document.select(None)
            return was_chosen
        return True

    def _remove(self) -> None:
        names = [opening.id for opening in self._document.chosen.openings]
        if names and not self._viewer.is_dragging:
            self.finish()
            text = tr("Remove {openings}", openings=openings_words(names))
            self._document.commit_edit(lambda room: remove_openings(room, names), text)


def arrow_step_mm(event: QKeyEvent, kit: Kit) -> tuple[float, float] | None:
    """How far an arrow key moves right and up: a pitch or a course, ten with Shift, a millimetre with Alt."""
    direction = ARROWS.get(event.key())
    if direction is None:
        return None
    across, up = kit.pitch_mm, kit.plate_mm * kit.plates_per_course
    if event.modifiers() & Qt.KeyboardModifier.AltModifier:
        across = up = 1.0
    times = LONG_STEP if event.modifiers() & Qt.KeyboardModifier.ShiftModifier else 1
    return direction[0] * across * times, direction[1] * up * times


OWN_KEYS = frozenset(
    {
        Qt.Key.Key_Plus,
        Qt.Key.Key_Equal,
        Qt.Key.Key_Minus,
        Qt.Key.Key_0,
        Qt.Key.Key_PageUp,
        Qt.Key.Key_PageDown,
        Qt.Key.Key_Delete,
        Qt.Key.Key_Escape,
        Qt.Key.Key_Space,
    }
)


def is_ours(event: QKeyEvent) -> bool:
    """Whether the elevation wants a key for itself although the window may hold a shortcut of the same name."""
    return event.key() in ARROWS or (_is_plain(event) and event.key() in OWN_KEYS)


def _is_plain(event: QKeyEvent) -> bool:
    # Escape must end a drag whose snapping is being held off by Alt or Control.
    return event.key() == Qt.Key.Key_Escape or not event.modifiers() & ~_PLAIN
