"""Everything the window can be told to do: one table of words, keys and what answers them."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMenu, QMenuBar, QWidget

from app.keys_elsewhere import ELSEWHERE
from core.language import marked, tr

Answer = Callable[[], object]


@dataclass(frozen=True, slots=True)
class Entry:
    """An action: its name in the program, its menu and words, its keys, the first of them shown."""

    name: str
    menu: str
    words: str
    keys: tuple[str, ...] = ()
    parted: bool = False
    """Whether a line parts it from the action above."""
    on_elevation: bool = False
    """Whether its keys are heard on the elevation only: fields and lists use the same for their own text and rows."""


ENTRIES = (
    Entry("new", marked("&File"), marked("&New room…"), ("Ctrl+N",)),
    Entry("open", marked("&File"), marked("&Open…"), ("Ctrl+O",)),
    Entry("save", marked("&File"), marked("&Save"), ("Ctrl+S",), parted=True),
    Entry("save_as", marked("&File"), marked("Save &as…"), ("Ctrl+Shift+S",)),
    Entry("pack", marked("&File"), marked("&Make the print pack…"), ("Ctrl+Shift+P",), parted=True),
    Entry("preview", marked("&File"), marked("Print pre&view…"), ("Ctrl+Shift+V",)),
    Entry("print", marked("&File"), marked("&Print…"), ("Ctrl+P",)),
    Entry("export", marked("&File"), marked("&Export the set-out as JSON…"), ("Ctrl+E",)),
    Entry("compare", marked("&File"), marked("&Compare with another version…"), ("Ctrl+Shift+C",), parted=True),
    Entry("quit", marked("&File"), marked("&Quit"), ("Ctrl+Q",), parted=True),
    Entry("delete", marked("&Edit"), marked("&Delete the chosen openings"), ("Del",), parted=True),
    Entry("cut", marked("&Edit"), marked("Cu&t the chosen openings"), ("Ctrl+X",), parted=True, on_elevation=True),
    Entry("copy", marked("&Edit"), marked("&Copy the chosen openings"), ("Ctrl+C",), on_elevation=True),
    Entry("paste", marked("&Edit"), marked("Past&e on this wall"), ("Ctrl+V",), on_elevation=True),
    Entry("copy_wall", marked("&Edit"), marked("Copy this wall's &openings to…")),
    Entry("choose_all", marked("&Edit"), marked("Choose &all openings and panels"), ("Ctrl+A",), parted=True, on_elevation=True),
    Entry("choose_next", marked("&Edit"), marked("Choose the ne&xt opening as well"), ("Ctrl+.",)),
    Entry("choose_previous", marked("&Edit"), marked("Choose the pre&vious opening as well"), ("Ctrl+,",)),
    Entry("next_opening", marked("&Edit"), marked("&Next opening"), (".",), parted=True),
    Entry("previous_opening", marked("&Edit"), marked("&Previous opening"), (",",)),
    Entry("find", marked("&Edit"), marked("&Find a panel or an opening…"), ("Ctrl+F",), parted=True),
    Entry("pin", marked("&Edit"), marked("&Pin the chosen panels, or let them go"), ("P",), parted=True),
    Entry("pin_rows", marked("&Edit"), marked("Pin the &rows, or let them go"), ("Shift+P",)),
    Entry("unpin_all", marked("&Edit"), marked("Remove all p&ins")),
    Entry("sketch", marked("&Edit"), marked("Draw the &walls anew…"), ("Ctrl+K",), parted=True),
    Entry("square", marked("&Edit"), marked("Chec&k square…"), ("Ctrl+D",)),
    Entry("toggle_units", marked("&Edit"), marked("&Lengths in mm or feet and inches"), ("Ctrl+U",), parted=True),
    Entry("add_door", marked("&Add"), marked("&Door"), ("D",)),
    Entry("add_window", marked("&Add"), marked("&Window"), ("W",)),
    Entry("add_outlet", marked("&Add"), marked("&Outlet"), ("O",)),
    Entry("add_switch", marked("&Add"), marked("&Switch"), ("S",)),
    Entry("add_niche", marked("&Add"), marked("&Niche"), ("N",)),
    Entry("step_wall", marked("&Add"), marked("S&tep in the wall"), ("T",), parted=True),
    Entry("recess", marked("&Add"), marked("&Alcove or chimney breast…"), ("A",)),
    Entry("next_wall", marked("&View"), marked("&Next wall"), ("PgDown",)),
    Entry("previous_wall", marked("&View"), marked("&Previous wall"), ("PgUp",)),
    Entry("zoom_in", marked("&View"), marked("Zoom &in"), ("+", "=", "Ctrl++", "Ctrl+="), parted=True),
    Entry("zoom_out", marked("&View"), marked("Zoom &out"), ("-", "Ctrl+-")),
    Entry("zoom_fit", marked("&View"), marked("Show the &whole room"), ("0", "Ctrl+0")),
    Entry("bench", marked("&View"), marked("The panel at the &bench…"), ("B",), parted=True),
    Entry("why", marked("&View"), marked("Wh&y it is as it is"), ("Y",)),
    Entry("standing", marked("&View"), marked("The room standing &up…"), ("V",)),
    Entry("go_elevation", marked("&View"), marked("Go to the &elevation"), ("Ctrl+1",), parted=True),
    Entry("go_plan", marked("&View"), marked("Go to the p&lan"), ("Ctrl+2",)),
    Entry("go_inspector", marked("&View"), marked("Go to the i&nspector"), ("Ctrl+3",)),
    Entry("go_checks", marked("&View"), marked("Go to the &checks"), ("Ctrl+4",)),
    Entry("go_buy", marked("&View"), marked("Go to &buying"), ("Ctrl+5",)),
    Entry("go_crew", marked("&View"), marked("Go to the c&rew"), ("Ctrl+6",)),
    Entry("go_build", marked("&View"), marked("Go to trac&king the build"), ("Ctrl+7",)),
    Entry("go_frame", marked("&View"), marked("Go to the fra&me"), ("Ctrl+8",)),
    Entry("go_colour", marked("&View"), marked("Go to the c&olours"), ("Ctrl+9",)),
    Entry("show_colours", marked("&View"), marked("&Colours of bricks, or kinds of panels"), ("C",), parted=True),
    Entry("step_forward", marked("&Track"), marked("Step &forward"), ("F",)),
    Entry("step_back", marked("&Track"), marked("Step &back"), ("R",)),
    Entry("mark_to_build", marked("&Track"), marked("Chosen panels: to b&uild"), ("1",), parted=True),
    Entry("mark_built", marked("&Track"), marked("Chosen panels: bui&lt"), ("2",)),
    Entry("mark_checked", marked("&Track"), marked("Chosen panels: &checked"), ("3",)),
    Entry("mark_hung", marked("&Track"), marked("Chosen panels: &hung"), ("4",)),
    Entry("mark_taken_out", marked("&Track"), marked("Chosen panels: &taken out"), ("5",)),
    Entry("swap", marked("&Track"), marked("&Swap for something else…"), ("X",), parted=True),
    Entry("first_steps", marked("&Help"), marked("&First steps")),
    Entry("keys", marked("&Help"), marked("&Keys"), ("F1",), parted=True),
    Entry("figures", marked("&Help"), marked("How the &figures come about"), ("I",)),
    Entry("cautions", marked("&Help"), marked("&Cautions")),
    Entry("about", marked("&Help"), marked("&About Coursewright")),
)


def build_actions(owner: QWidget, elevation: QWidget, answers: Mapping[str, Answer]) -> dict[str, QAction]:
    """An action per entry, connected and added to where its keys are heard. Every entry needs an answer."""
    actions = {}
    for entry in ENTRIES:
        action = QAction(tr(entry.words), owner)
        action.setShortcuts([QKeySequence(key) for key in entry.keys])
        answer = answers[entry.name]
        action.triggered.connect(lambda _checked=False, answer=answer: answer())
        if entry.on_elevation:
            action.setShortcutContext(Qt.ShortcutContext.WidgetShortcut)
        (elevation if entry.on_elevation else owner).addAction(action)
        actions[entry.name] = action
    return actions


def fill_menus(
    bar: QMenuBar, actions: Mapping[str, QAction], first: Mapping[str, list[QAction]], after: Mapping[str, list[QMenu]]
) -> None:
    """Menus in the table's order; ``first`` puts further actions at the head of a menu, ``after`` menus below an action."""
    menus: dict[str, QMenu] = {}
    for entry in ENTRIES:
        if entry.menu not in menus:
            menus[entry.menu] = bar.addMenu(tr(entry.menu))
            menus[entry.menu].addActions(first.get(entry.menu, []))
        if entry.parted:
            menus[entry.menu].addSeparator()
        menus[entry.menu].addAction(actions[entry.name])
        for submenu in after.get(entry.name, []):
            menus[entry.menu].addMenu(submenu)


def keys_table() -> list[tuple[str, str, str]]:
    """Every key: where it works, the key, what it does."""
    elevation, anywhere = tr("Elevation"), tr("Anywhere")
    everywhere = [
        (elevation if entry.on_elevation else anywhere, ", ".join(map(key_words, entry.keys)), _plain(tr(entry.words)))
        for entry in ENTRIES
        if entry.keys
    ]
    undoing = anywhere, ", ".join(map(key_words, ("Ctrl+Z", "Ctrl+Shift+Z"))), tr("Undo, redo")
    return [*everywhere, undoing, *((tr(where), tr(key), tr(what)) for where, key, what in ELSEWHERE)]


def key_words(key: str | QKeySequence) -> str:
    """A key as menus letter it: in the reader's language, as Qt has it."""
    return QKeySequence(key).toString(QKeySequence.SequenceFormat.NativeText)


def _plain(words: str) -> str:
    return words.replace("&", "").rstrip("…")
