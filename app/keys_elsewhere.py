"""Keys that belong to one part of the window, with what they do there; shown through ``tr``."""

from core.language import marked

ELSEWHERE = (
    (
        marked("Elevation"),
        marked("Arrows"),
        marked("move the chosen openings by a pitch or a course; Shift ten, Alt a millimetre"),
    ),
    (
        marked("Elevation"),
        marked("Arrows on a panel"),
        marked("go to the panel beside, above or below; with Shift choose it as well"),
    ),
    (marked("Elevation"), marked("Ctrl+arrows"), marked("widen, heighten, or the other way")),
    (marked("Elevation"), "Tab", marked("next opening; Escape gives up a drag or the selection")),
    (marked("Elevation"), marked("Enter"), marked("the selected panel at the bench, like a double click")),
    (marked("Elevation"), marked("Menu key, Shift+F10"), marked("what can be done with what is selected, like a right click")),
    (
        marked("Find"),
        marked("Up, Down, Enter"),
        marked("go through what is found; Enter shows it, and once more the next; Escape closes"),
    ),
    (marked("Comparison"), marked("PgDn, PgUp"), marked("from wall to wall in both elevations; Home shows the whole rooms")),
    (marked("Standing room"), marked("Arrows"), marked("turn and tilt by 5°, with Shift 15°, with Alt 1°; Home goes back")),
    (
        marked("Standing room"),
        marked("Ctrl+arrows"),
        marked("from panel to panel; PgUp and PgDn go from wall to wall, Enter shows it square-on"),
    ),
    (
        marked("Elevation"),
        marked("U, Shift+U"),
        marked("next, previous measured stud of the current wall; arrows move it a millimetre, Shift ten"),
    ),
    (
        marked("Elevation"),
        marked("Insert, Delete"),
        marked("one more measured stud in the gap to the right, the selected one away"),
    ),
    (
        marked("Frame"),
        marked("Ctrl+Enter"),
        marked("take a list of lengths as it is typed; leaving it does the same, Escape gives it up"),
    ),
    (
        marked("Bench"),
        marked("Space, Right, Down"),
        marked("next course; Left and Up go back, Home to the first, End to the check figures"),
    ),
    (marked("Bench"), "M, P", marked("see the other side, preview this panel's sheet")),
    (marked("Bench"), marked("B, Ctrl+Z"), marked("mark the checked panel as built, take that back")),
    (marked("Bench"), marked("PgDown, PgUp"), marked("next design, the one before; F11 fills the screen, Escape closes")),
    (marked("Elevation"), marked("Ctrl or Shift and a click"), marked("choose one more opening or panel, or leave it out again")),
    (
        marked("Elevation"),
        marked("A drag beside openings"),
        marked("draw a band: panels it touches and openings within it are chosen; Shift adds them"),
    ),
    (marked("Build"), marked("Enter"), marked("do what each scan does to the panel whose mark stands in the code field")),
    (marked("Plan"), marked("Home, End"), marked("choose a corner; Escape goes back to the current wall")),
    (
        marked("Plan"),
        marked("Arrows"),
        marked(
            "move the current wall or the chosen corner 10 mm or half an inch; Shift less, Alt leaves the corner's neighbours"
        ),
    ),
    (marked("Plan"), marked("Insert, Delete"), marked("bend the current wall in its middle, remove the chosen corner")),
    (marked("Sketch"), marked("Arrows"), marked("say which way the next wall goes; with Shift, left and right turn it by 45°")),
    (marked("Sketch"), marked("Figures, Enter"), marked("the wall's length; Enter alone closes the room, and once more uses it")),
    (marked("Sketch"), marked("Backspace, Escape"), marked("take the last corner back, give the sketch up")),
    (marked("Sketch"), marked("Ctrl+1, 2, 3"), marked("ready shape, drawing, measured list")),
    (marked("Inspector"), marked("Enter, Escape"), marked("take what is typed, give it up")),
    (marked("Checks"), marked("Enter"), marked("go to the place")),
    (marked("Tables"), marked("Arrows, Enter"), marked("go from cell to cell, begin to type into one; Tab leaves the table")),
    (marked("Tables"), marked("Delete"), marked("take the row out")),
    (marked("Crew's plan"), marked("Arrows"), marked("go along what somebody does, or to what the next person does meanwhile")),
)
"""Part of the window, keys, what they do. Keys without a word in them are the same in every language."""
