"""The same walk gone wrong: mistyped, given up, and told to write where nothing can be written. Nothing may be lost or break."""

from collections.abc import Callable, Sequence

from tests.endtoend.walkthrough.person import Person

NOT_A_FOLDER = "note.txt"
FAR_BEYOND = "9999"


def leave_first_steps(person: Person) -> None:
    person.front("Potting shed")
    person.see("First steps")
    person.key("Escape")
    person.sees_no_more("Drag the window")
    person.film("first steps left by Escape")


def mistype_walls(person: Person) -> None:
    person.key("ctrl+n")
    person.front("New room")
    person.overtype("Reading den")
    person.key("Tab")
    person.overtype("21x30")
    person.key("Return")
    person.reads("'21x30' is not a length")
    person.film("a height mistyped")
    person.overtype("2130")
    person.key("ctrl+3")
    person.type("2440 R 3048 Q 2440 R 3046 R")
    person.key("Return")
    person.reads("wall B: '3048 Q 2440' is not a length")
    person.film("a list mistyped")
    person.overtype("2440 R 3048 R 2440 R 3046 R")
    person.key("Return")
    person.click("Begin with these walls")
    person.reads("choose how to share that out")
    person.film("nothing shared out yet")
    person.key("Escape")
    person.front("Potting shed")


def begin(person: Person) -> None:
    person.key("ctrl+n")
    person.front("New room")
    person.key("ctrl+3")
    person.type("2440 R 3048 R 2440 R 3048")
    person.key("Return")
    person.click("Begin with these walls")
    person.front("New room")
    person.settle()


def change_ones_mind(person: Person) -> None:
    """Undo, redo, a length that cannot be, and a drag given up half way."""
    person.key("d")
    person.settle()
    person.key("ctrl+z", "ctrl+shift+z")
    person.settle()
    place = person.opening("door")
    person.click_at(place)
    person.fill("Left edge", FAR_BEYOND)
    person.reads("^door: left .* past the end of wall A")
    person.film("a left edge beyond the wall")
    person.key("Escape")
    person.drag(place, (place[0] - 90, place[1]), give_up=True)
    assert person.opening("door") == place
    person.film("a drag given up")


def write_where_one_cannot(person: Person) -> None:
    blocked = person.program.home / NOT_A_FOLDER
    blocked.write_text("in the way", encoding="utf-8")
    person.key("ctrl+1", "ctrl+s")
    person.front("Save the room")
    person.overtype(str(blocked / "den"))
    person.key("Return")
    person.front("Not saved")
    person.film("saved where one cannot")
    person.key("Return")
    person.front("New room")
    person.key("ctrl+shift+p")
    person.front("Make the print pack")
    person.overtype(str(blocked / "pack"))
    person.key("Return")
    person.front("No print pack")
    person.film("printed where one cannot")
    person.key("Return")
    person.front("New room")


def hesitate_to_leave(person: Person) -> None:
    """Quit and stay, quit and save and stay, and in the end quit without saving."""
    person.key("ctrl+q")
    person.front("Unsaved changes")
    person.film("unsaved changes")
    person.key("Escape")
    person.front("New room")
    person.key("ctrl+q")
    person.front("Unsaved changes")
    person.key("Return")
    person.front("Save the room")
    person.key("Escape")
    person.front("New room")
    person.film("still there")
    person.key("ctrl+q")
    person.front("Unsaved changes")
    person.last_click("Discard")


SECTIONS: Sequence[Callable[[Person], None]] = (
    leave_first_steps,
    mistype_walls,
    begin,
    change_ones_mind,
    write_where_one_cannot,
    hesitate_to_leave,
)
