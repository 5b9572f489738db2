"""Everything the window can be told to do: one table of words, keys and what answers them."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from PySide6.QtCore import Qt
from PySide6.QtGui import QAction, QKeySequence
from PySide6.QtWidgets import QMenu, QMenuBar, QWidget

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
    Entry("new", "&File", "&New room…", ("Ctrl+N",)),
    Entry("open", "&File", "&Open…", ("Ctrl+O",)),
    Entry("save", "&File", "&Save", ("Ctrl+S",), parted=True),
    Entry("save_as", "&File", "Save &as…", ("Ctrl+Shift+S",)),
    Entry("pack", "&File", "&Make the print pack…", ("Ctrl+Shift+P",), parted=True),
    Entry("preview", "&File", "Print pre&view…", ("Ctrl+Shift+V",)),
    Entry("print", "&File", "&Print…", ("Ctrl+P",)),
    Entry("export", "&File", "&Export the set-out as JSON…", ("Ctrl+E",)),
    Entry("compare", "&File", "&Compare with another version…", ("Ctrl+Shift+C",), parted=True),
    Entry("quit", "&File", "&Quit", ("Ctrl+Q",), parted=True),
    Entry("delete", "&Edit", "&Delete the chosen openings", ("Del",), parted=True),
    Entry("cut", "&Edit", "Cu&t the chosen openings", ("Ctrl+X",), parted=True, on_elevation=True),
    Entry("copy", "&Edit", "&Copy the chosen openings", ("Ctrl+C",), on_elevation=True),
    Entry("paste", "&Edit", "Past&e on this wall", ("Ctrl+V",), on_elevation=True),
    Entry("copy_wall", "&Edit", "Copy this wall's &openings to…"),
    Entry("choose_all", "&Edit", "Choose &all openings and panels", ("Ctrl+A",), parted=True, on_elevation=True),
    Entry("choose_next", "&Edit", "Choose the ne&xt opening as well", ("Ctrl+.",)),
    Entry("choose_previous", "&Edit", "Choose the pre&vious opening as well", ("Ctrl+,",)),
    Entry("next_opening", "&Edit", "&Next opening", (".",), parted=True),
    Entry("previous_opening", "&Edit", "&Previous opening", (",",)),
    Entry("find", "&Edit", "&Find a panel or an opening…", ("Ctrl+F",), parted=True),
    Entry("pin", "&Edit", "&Pin the chosen panels, or let them go", ("P",), parted=True),
    Entry("pin_rows", "&Edit", "Pin the &rows, or let them go", ("Shift+P",)),
    Entry("unpin_all", "&Edit", "Remove all p&ins"),
    Entry("sketch", "&Edit", "Draw the &walls anew…", ("Ctrl+K",), parted=True),
    Entry("square", "&Edit", "Chec&k square…", ("Ctrl+D",)),
    Entry("toggle_units", "&Edit", "&Lengths in mm or feet and inches", ("Ctrl+U",), parted=True),
    Entry("add_door", "&Add", "&Door", ("D",)),
    Entry("add_window", "&Add", "&Window", ("W",)),
    Entry("add_outlet", "&Add", "&Outlet", ("O",)),
    Entry("add_switch", "&Add", "&Switch", ("S",)),
    Entry("add_niche", "&Add", "&Niche", ("N",)),
    Entry("step_wall", "&Add", "S&tep in the wall", ("T",), parted=True),
    Entry("recess", "&Add", "&Alcove or chimney breast…", ("A",)),
    Entry("next_wall", "&View", "&Next wall", ("PgDown",)),
    Entry("previous_wall", "&View", "&Previous wall", ("PgUp",)),
    Entry("zoom_in", "&View", "Zoom &in", ("+", "=", "Ctrl++", "Ctrl+="), parted=True),
    Entry("zoom_out", "&View", "Zoom &out", ("-", "Ctrl+-")),
    Entry("zoom_fit", "&View", "Show the &whole room", ("0", "Ctrl+0")),
    Entry("bench", "&View", "The panel at the &bench…", ("B",), parted=True),
    Entry("why", "&View", "Wh&y it is as it is", ("Y",)),
    Entry("standing", "&View", "The room standing &up…", ("V",)),
    Entry("go_elevation", "&View", "Go to the &elevation", ("Ctrl+1",), parted=True),
    Entry("go_plan", "&View", "Go to the p&lan", ("Ctrl+2",)),
    Entry("go_inspector", "&View", "Go to the i&nspector", ("Ctrl+3",)),
    Entry("go_checks", "&View", "Go to the &checks", ("Ctrl+4",)),
    Entry("go_buy", "&View", "Go to &buying", ("Ctrl+5",)),
    Entry("go_crew", "&View", "Go to the c&rew", ("Ctrl+6",)),
    Entry("go_build", "&View", "Go to trac&king the build", ("Ctrl+7",)),
    Entry("go_frame", "&View", "Go to the fra&me", ("Ctrl+8",)),
    Entry("go_colour", "&View", "Go to the c&olours", ("Ctrl+9",)),
    Entry("show_colours", "&View", "&Colours of bricks, or kinds of panels", ("C",), parted=True),
    Entry("step_forward", "&Track", "Step &forward", ("F",)),
    Entry("step_back", "&Track", "Step &back", ("R",)),
    Entry("mark_to_build", "&Track", "Chosen panels: to b&uild", ("1",), parted=True),
    Entry("mark_built", "&Track", "Chosen panels: bui&lt", ("2",)),
    Entry("mark_checked", "&Track", "Chosen panels: &checked", ("3",)),
    Entry("mark_hung", "&Track", "Chosen panels: &hung", ("4",)),
    Entry("mark_taken_out", "&Track", "Chosen panels: &taken out", ("5",)),
    Entry("swap", "&Track", "&Swap for something else…", ("X",), parted=True),
    Entry("first_steps", "&Help", "&First steps"),
    Entry("keys", "&Help", "&Keys", ("F1",), parted=True),
    Entry("figures", "&Help", "How the &figures come about", ("I",)),
    Entry("cautions", "&Help", "&Cautions"),
    Entry("about", "&Help", "&About Coursewright"),
)

ELSEWHERE = (
    ("Elevation", "Arrows", "move the chosen openings by a pitch or a course; Shift ten, Alt a millimetre"),
    ("Elevation", "Arrows on a panel", "go to the panel beside, above or below; with Shift choose it as well"),
    ("Elevation", "Ctrl+arrows", "widen, heighten, or the other way"),
    ("Elevation", "Tab", "next opening; Escape gives up a drag or the selection"),
    ("Elevation", "Enter", "the selected panel at the bench, like a double click"),
    ("Elevation", "Menu key, Shift+F10", "what can be done with what is selected, like a right click"),
    ("Find", "Up, Down, Enter", "go through what is found; Enter shows it, and once more the next; Escape closes"),
    ("Comparison", "PgDn, PgUp", "from wall to wall in both elevations; Home shows the whole rooms"),
    ("Standing room", "Arrows", "turn and tilt by 5°, with Shift 15°, with Alt 1°; Home goes back"),
    ("Standing room", "Ctrl+arrows", "from panel to panel; PgUp and PgDn go from wall to wall, Enter shows it square-on"),
    ("Elevation", "U, Shift+U", "next, previous measured stud of the current wall; arrows move it a millimetre, Shift ten"),
    ("Elevation", "Insert, Delete", "one more measured stud in the gap to the right, the selected one away"),
    ("Frame", "Ctrl+Enter", "take a list of lengths as it is typed; leaving it does the same, Escape gives it up"),
    ("Bench", "Space, Right, Down", "next course; Left and Up go back, Home to the first, End to the check figures"),
    ("Bench", "M, P", "see the other side, preview this panel's sheet"),
    ("Bench", "B, Ctrl+Z", "mark the checked panel as built, take that back"),
    ("Bench", "PgDown, PgUp", "next design, the one before; F11 fills the screen, Escape closes"),
    ("Elevation", "Ctrl or Shift and a click", "choose one more opening or panel, or leave it out again"),
    ("Elevation", "A drag beside openings", "draw a band: panels it touches and openings within it are chosen; Shift adds them"),
    ("Build", "Enter", "do what each scan does to the panel whose mark stands in the code field"),
    ("Plan", "Home, End", "choose a corner; Escape goes back to the current wall"),
    (
        "Plan",
        "Arrows",
        "move the current wall or the chosen corner 10 mm or half an inch; Shift less, Alt leaves the corner's neighbours",
    ),
    ("Plan", "Insert, Delete", "bend the current wall in its middle, remove the chosen corner"),
    ("Sketch", "Arrows", "say which way the next wall goes; with Shift, left and right turn it by 45°"),
    ("Sketch", "Figures, Enter", "the wall's length; Enter alone closes the room, and once more uses it"),
    ("Sketch", "Backspace, Escape", "take the last corner back, give the sketch up"),
    ("Sketch", "Ctrl+1, 2, 3", "ready shape, drawing, measured list"),
    ("Inspector", "Enter, Escape", "take what is typed, give it up"),
    ("Checks", "Enter", "go to the place"),
    ("Tables", "Arrows, Enter", "go from cell to cell, begin to type into one; Tab leaves the table"),
    ("Tables", "Delete", "take the row out"),
    ("Crew's plan", "Arrows", "go along what somebody does, or to what the next person does meanwhile"),
)
"""Keys that belong to one part of the window."""


def build_actions(owner: QWidget, elevation: QWidget, answers: Mapping[str, Answer]) -> dict[str, QAction]:
    """An action per entry, connected and added to where its keys are heard. Every entry needs an answer."""
    actions = {}
    for entry in ENTRIES:
        action = QAction(entry.words, owner)
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
            menus[entry.menu] = bar.addMenu(entry.menu)
            menus[entry.menu].addActions(first.get(entry.menu, []))
        if entry.parted:
            menus[entry.menu].addSeparator()
        menus[entry.menu].addAction(actions[entry.name])
        for submenu in after.get(entry.name, []):
            menus[entry.menu].addMenu(submenu)


def keys_table() -> list[tuple[str, str, str]]:
    """Every key: where it works, the key, what it does."""
    everywhere = [
        ("Elevation" if entry.on_elevation else "Anywhere", ", ".join(entry.keys), _plain(entry.words))
        for entry in ENTRIES
        if entry.keys
    ]
    return [*everywhere, ("Anywhere", "Ctrl+Z, Ctrl+Shift+Z", "Undo, redo"), *ELSEWHERE]


def _plain(words: str) -> str:
    return words.replace("&", "").rstrip("…")
