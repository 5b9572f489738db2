"""What can be done with what lies under the pointer on the elevation, as a menu; the menu key asks about what is selected.

Over one of several chosen things the menu is about all of them.
"""

from collections.abc import Callable, Mapping, Sequence
from functools import partial
from types import MappingProxyType

from PySide6.QtCore import QEvent, QObject, QPointF
from PySide6.QtGui import QAction, QContextMenuEvent
from PySide6.QtWidgets import QMenu, QWidget

from app.document import Document
from app.elevation import ElevationView
from app.elevation.strip import WallPoint
from app.elevation.together import openings_words
from app.room_commands import ADDING, panels_name
from core import edits
from core.crew.standing import standing
from core.edits.colouring import lay_panels
from core.edits.openings import DEFAULT_SIZES
from core.edits.together import Level, align_openings
from core.language import marked, tr
from core.progress import STATES
from core.room import Opening, OpeningKind, Room, wall_letter
from core.setout.metric import face_box_mm
from core.setout.result import Panel

PasteAt = Callable[[float], object]
"""Pastes openings on the current wall, from so many millimetres on."""
KINDS: tuple[OpeningKind, ...] = ("door", "window", "outlet", "switch", "niche")
LEVELLING: Mapping[Level, tuple[str, str]] = MappingProxyType(
    {
        "sill": (marked("Sills level with {opening}"), marked("Level sills with {opening}")),
        "head": (marked("Heads level with {opening}"), marked("Level heads with {opening}")),
    }
)
"""What can be levelled: its entry in the menu, and what undo calls it."""
STATE_WORDS: Mapping[str, str] = MappingProxyType(
    {
        "to build": marked("To b&uild"),
        "built": marked("Bui&lt"),
        "checked": marked("&Checked"),
        "hung": marked("&Hung"),
        "taken out": marked("&Taken out"),
    }
)


class ElevationMenu(QObject):
    """Makes the menu anew each time. Its entries select what they are about and then do what the window's actions do."""

    def __init__(
        self, document: Document, elevation: ElevationView, actions: Mapping[str, QAction], paste_at: PasteAt, parent: QWidget
    ) -> None:
        super().__init__(parent)
        self._document, self._elevation, self._actions, self._paste_at = document, elevation, actions, paste_at
        self.menu: QMenu | None = None
        elevation.installEventFilter(self)

    def eventFilter(self, watched: QObject, event: QEvent) -> bool:
        if watched is not self._elevation or not isinstance(event, QContextMenuEvent):
            return False
        if not self._elevation.is_dragging:
            by_key = event.reason() == QContextMenuEvent.Reason.Keyboard
            self.show_at(self._selected_place() if by_key else QPointF(event.pos()))
        return True

    def show_at(self, pos: QPointF) -> None:
        """Open the menu for what lies at a pixel of the elevation."""
        if self.menu is not None:
            self.menu.close()
            self.menu.deleteLater()
        self.menu = self.menu_at(pos)
        self.menu.popup(self._elevation.mapToGlobal(pos.toPoint()))

    def menu_at(self, pos: QPointF) -> QMenu:
        """The menu for what lies at a pixel."""
        menu = QMenu(self._elevation)
        opening = self._elevation.opening_at(pos)
        panel = None if opening else self._elevation.panel_at(pos)
        what = opening.id if opening else panel.mark if panel else None
        if what in self._document.chosen.names and len(self._document.chosen.names) > 1:
            menu.setAccessibleName(tr("What is chosen"))
            self._add_entries_for_all(menu, opening)
        elif opening is not None:
            menu.setAccessibleName(tr("Opening {opening}", opening=opening.id))
            self._add_opening_entries(menu, opening)
        elif panel is not None:
            menu.setAccessibleName(tr("Panel {panel}", panel=panel.mark))
            self._add_panel_entries(menu, panel)
        if (place := self._elevation.screen_to_wall(pos)) is not None:
            menu.addSeparator()
            adding = menu.addMenu(tr("&Add here, on wall {wall}", wall=wall_letter(place.wall)))
            for kind in KINDS:
                _entry(adding, self._actions[f"add_{kind}"].text(), partial(self._add, kind, place))
            _entry(menu, tr("Paste &openings here"), partial(self._paste, place))
        menu.addSeparator()
        menu.addAction(self._actions["zoom_fit"])
        return menu

    def _add_opening_entries(self, menu: QMenu, opening: Opening) -> None:
        _entry(menu, tr("&Select {name}", name=opening.id), partial(self._document.select, opening.id))
        _entry(menu, tr("Type its &sizes"), partial(self._act, opening.id, "go_inspector"))
        menu.addSeparator()
        _entry(menu, tr("Cu&t"), partial(self._act, opening.id, "cut"))
        _entry(menu, tr("&Copy"), partial(self._act, opening.id, "copy"))
        _entry(menu, tr("&Delete {name}", name=opening.id), partial(self._act, opening.id, "delete"))

    def _add_entries_for_all(self, menu: QMenu, under: Opening | None) -> None:
        """What can be done with everything that is chosen; ``under`` is the opening under the pointer."""
        chosen = self._document.chosen
        if names := [opening.id for opening in chosen.openings]:
            menu.addSection(openings_words(names))
            menu.addAction(self._actions["go_inspector"])
            if under is not None and len(names) > 1:
                for level in LEVELLING:
                    _entry(menu, tr(LEVELLING[level][0], opening=under.id), partial(self._align, names, level, under.id))
            for name in ("cut", "copy", "delete"):
                menu.addAction(self._actions[name])
        if panels := chosen.panels:
            menu.addSection(panels_name(panels))
            menu.addAction(self._actions["pin"])
            self._add_colours(menu, panels)
            for wanted in STATES:
                _entry(menu, _state_words(wanted), self._actions[_state_action(wanted)].trigger)
            menu.addAction(self._actions["swap"])

    def _add_colours(self, menu: QMenu, panels: Sequence[Panel]) -> None:
        laying = menu.addMenu(tr("Lay in c&olour"))
        for colour in self._document.room.colouring.colours:
            _entry(laying, tr(colour.name), partial(self._lay, panels, colour.name))

    def _lay(self, panels: Sequence[Panel], colour: str) -> None:
        text = tr("Lay {colour}: {panels}", colour=tr(colour), panels=panels_name(panels))
        self._document.commit_edit(lambda room: lay_panels(room, panels, colour), text)

    def _align(self, names: Sequence[str], level: Level, like: str) -> None:
        self._document.commit_edit(lambda room: align_openings(room, names, level, like), tr(LEVELLING[level][1], opening=like))

    def _paste(self, place: WallPoint) -> None:
        self._document.set_wall(place.wall)
        self._paste_at(float(round(place.x_mm)))

    def _add_panel_entries(self, menu: QMenu, panel: Panel) -> None:
        setout, mark = self._document.setout, panel.mark
        state = standing(setout).by_mark[mark]
        _entry(menu, tr("&Select {name}", name=mark), partial(self._document.select, mark))
        _entry(menu, tr("Open at the &bench…"), partial(self._act, mark, "bench"))
        is_pinned = set(edits.pins_for(setout, panel)) <= set(setout.room.pins)
        _entry(menu, tr("&Let it go") if is_pinned else tr("&Pin it here"), partial(self._act, mark, "pin"))
        self._add_colours(menu, (panel,))
        menu.addSeparator()
        for wanted in STATES:
            entry = _entry(menu, _state_words(wanted), partial(self._act, mark, _state_action(wanted)))
            entry.setCheckable(True)
            entry.setChecked(wanted == state)
        _entry(menu, tr("S&wap for something else…"), partial(self._act, mark, "swap"))

    def _act(self, what: str, action: str) -> None:
        """Select, then do as the window's action does."""
        self._document.select(what)
        self._actions[action].trigger()

    def _add(self, kind: OpeningKind, place: WallPoint) -> None:
        """An opening of that kind with its middle at a place; a door stands on the floor whatever the height."""
        size = DEFAULT_SIZES[kind]
        left_mm = round(place.x_mm - size.width_mm / 2)
        sill_mm = 0 if kind == "door" else max(0, round(place.z_mm - size.height_mm / 2))

        def edit(room: Room) -> Room:
            most_mm = max(0.0, room.clad_height_mm - size.height_mm)
            made = edits.add_opening(room, kind, place.wall, left_mm)
            return edits.move_opening(made, made.openings[-1].id, sill_mm=min(sill_mm, most_mm))

        if self._document.commit_edit(edit, tr(ADDING[kind])):
            self._document.select(self._document.room.openings[-1].id)

    def _selected_place(self) -> QPointF:
        """The middle of what is selected, else of the current wall, kept within the view."""
        document, setout = self._document, self._document.setout
        wall = document.wall
        x_mm, z_mm = setout.walls[wall].length_mm / 2, setout.room.clad_height_mm / 2
        if (opening := document.selected_opening) is not None:
            wall, x_mm, z_mm = opening.wall, opening.left_mm + opening.width_mm / 2, opening.sill_mm + opening.height_mm / 2
        elif (panel := document.selected_panel) is not None:
            face = panel.faces[-1]
            left, bottom, right, top = face_box_mm(setout, face)
            wall, x_mm, z_mm = face.wall, (left + right) / 2, (bottom + top) / 2
        at = self._elevation.wall_to_screen(wall, x_mm, z_mm)
        inside = self._elevation.rect()
        return QPointF(min(max(at.x(), 0), inside.right()), min(max(at.y(), 0), inside.bottom()))


def _entry(menu: QMenu, words: str, answer: Callable[[], object]) -> QAction:
    entry = menu.addAction(words)
    entry.triggered.connect(lambda _checked=False: answer())
    return entry


def _state_action(state: str) -> str:
    return f"mark_{state.replace(' ', '_')}"


def _state_words(state: str) -> str:
    """The state with the letter that chooses it, each another one."""
    return tr(STATE_WORDS[state])
