"""The walk as ``docs/guide.md`` has it, sections 1 to 10: from a start with nothing remembered to a printed pack.

Values are those of the guide; where it offers the mouse or a key, both are used somewhere.
"""

from collections.abc import Callable, Sequence

from tests.endtoend.walkthrough.person import Person

MEASURED_LIST = "2440 R 3048 R 2440 R 3046 R"
FILE = "den.room.json"
PACK = "den-pack"
PRICES = (("brick 2x4", "500", "28"), ("brick 2x2", "500", "19"), ("plate 2x4", "500", "17"))
Section = Callable[[Person], None]


def begin(person: Person) -> None:
    """The first start, and the walls from a measured list."""
    person.front("Potting shed")
    person.film("the first start")
    person.click("Watch the board")
    person.film("a first step chosen")
    person.click("Leave  Esc")
    person.film("first steps left")
    person.menu("File")
    person.film("the menu File")
    person.click("New room…", "menu")
    person.front("New room")
    person.film("a new room")
    person.overtype("Reading den")
    person.key("Tab")
    person.overtype("2130")
    person.click("Measured list")
    person.type(MEASURED_LIST)
    person.reads("misses the first corner by")
    person.film("the measured list typed")
    person.key("Return")
    person.click("The last wall takes it all")
    person.film("what is missing shared out")
    person.click("Begin with these walls")
    person.front("Reading den")
    person.settle()
    person.film("four walls")
    check_square(person)
    save(person)


def check_square(person: Person) -> None:
    """The diagonals as the tape has them: those of right angles."""
    person.key("ctrl+d")
    person.front("Check square")
    person.film("check square")
    person.key("Escape")
    person.front("Reading den")


def save(person: Person) -> None:
    person.key("ctrl+s")
    person.front("Save the room")
    person.film("where to save")
    person.overtype(str(person.program.home / FILE))
    person.key("Return")
    person.front("Reading den")
    person.reads("den.room.json")
    person.film("saved")


def put_in_openings(person: Person) -> None:
    """Door, window and outlet by keys, dragged by the mouse, sized on the card."""
    for _ in range(3):
        person.key("Next")
    person.film("on wall D")
    person.key("d")
    person.settle()
    person.film("a door")
    size(person, "door", Width="912", Height="1980")
    start = person.opening("door", 0.5, 0.6)
    person.drag(start, (start[0] + 40, start[1]))
    person.settle()
    person.film("the door dragged")
    size(person, "door", **{"Left edge": "1100"})
    person.film("the door as measured")
    person.key("ctrl+1", "Prior", "Prior", "w")
    person.settle()
    size(person, "window", Width="912", Height="912", Sill="912", **{"Left edge": "1068"})
    person.film("a window")
    person.key("ctrl+1", "Prior", "o")
    person.settle()
    size(person, "outlet", Width="60", Height="100", Sill="300", **{"Left edge": "700"})
    person.film("an outlet")
    person.click("Whole room")
    edge = person.opening("window", 0.995, 0.5)
    person.drag(edge, (edge[0] + 30, edge[1]))
    person.settle()
    person.film("the window's edge dragged")
    person.key("ctrl+z")
    person.settle()
    person.film("taken back")


def size(person: Person, _name: str, **values: str) -> None:
    """Type exact sizes on the card of the selected opening."""
    for field, value in values.items():
        person.fill(field, value)
    person.settle()


def take_advice(person: Person) -> None:
    """What the guide takes for the den: door to the left, outlet up and clear of a stud."""
    for opening, change in (("door", "32 mm left"), ("outlet-1", "4 mm up")):
        person.click_at(person.opening(opening))
        person.film(f"{opening} chosen")
        person.see(f"Apply: {change}", seconds=60)
        # The list is in the order of nearness and grows while it is looked for.
        person.sees_no_more("looking …")
        person.film(f"advice on {opening}")
        person.click(f"Apply: {change}")
        person.settle()
        person.film(f"advice on {opening} taken")
    person.key("i")
    person.front("Figures")
    person.film("how the figures come about")
    person.key("Escape")
    person.front("Reading den")
    # A screw beside it finds no timber; a little to the left it does.
    person.fill("Left edge", "672")
    person.settle()
    person.film("no stop any more")


def look_at_frame(person: Person) -> None:
    person.click("Whole room")
    person.key("ctrl+1", "Next", "Next")
    person.choose("Frame", "regular studs")
    person.fill("Stud spacing", "400")
    person.settle()
    person.film("wall C stands")
    person.click("Frame", "tab")
    person.sees_no_more("working out …")
    person.film("the frame leaf")
    for page in ("Timber", "Screws", "Notes"):
        person.click(page)
        person.film(f"the frame leaf, {page}")
    person.click("Room", "tab")
    person.choose("Frame", "still to build")
    person.settle()
    person.film("wall C still to build")


def pin(person: Person) -> None:
    person.click("Whole room")
    person.click_at(person.panel("B-2-04"))
    person.key("p")
    person.settle()
    person.reads("Pinned here")
    person.film("a panel pinned")
    person.key("p")
    person.settle()
    person.film("let go")
    person.key("ctrl+f")
    person.film("finding")
    person.type("C-3-05")
    person.film("a mark typed")
    person.key("Return", "Escape")
    person.click("Whole room")
    person.click_at(person.panel("C-3-05"), button=3)
    person.film("the menu of a panel")
    person.key("Escape")


def choose_colours(person: Person) -> None:
    person.click("Colour", "tab")
    person.film("the colour leaf")
    person.choose("The rest", "sand")
    person.settle()
    person.click("sand (s)", "item")
    person.type("moss")
    person.see("Lay moss over")
    person.click_at(person.panel("D-2-02"))
    person.click("Wall D")
    person.film("a wall in moss")
    person.pick("moss (m)", "umber (u)")
    person.see("Lay umber over")
    person.fill("Band from", "0")
    person.fill("Band to", "304")
    person.click("Band", "button")
    person.film("a band along the floor")
    person.key("ctrl+1", "c")
    person.film("kinds of panels again")


def stand_up(person: Person) -> None:
    person.key("ctrl+1", "v")
    person.front("standing up")
    person.film("the room standing up")
    person.key("Left", "Left", "Left", "Up")
    person.film("the room turned")
    person.key("Escape")
    person.front("Reading den")


def buy(person: Person) -> None:
    person.key("ctrl+5")
    person.reads("at least|no price|Suppliers")
    person.film("the leaf Buy")
    person.click("Suppliers", "button")
    person.fill_cell("Suppliers", 0, "Supplier", "Merchant")
    person.film("a supplier")
    for number, (part, pack, price) in enumerate(PRICES):
        person.fill_cell("Prices", number, "Part", part)
        person.fill_cell("Prices", number, "In a pack", pack)
        person.fill_cell("Prices", number, "A pack costs", price)
    person.film("prices")
    person.click("Needs, orders")
    person.fill_cell("What the room needs", "brick 2x1, sand", "On hand", "120")
    person.fill("Spares", "5")
    person.fill("Budget", "9000")
    person.settle()
    person.sees_no_more("working out the least cost …")
    person.film("spares and budget")


def plan_crew(person: Person) -> None:
    person.key("ctrl+6")
    person.film("the leaf Crew")
    person.click("People and benches")
    for number, (name, hours) in enumerate((("Hazel", "4"), ("Rowan", "6"))):
        person.fill_cell("People", number, "Name", name)
        person.fill_cell("People", number, "Hours a day", hours)
    person.fill("First day", "2027-06-07")
    person.film("people")
    person.click("The plan")
    person.film("the plan of the crew")


def print_pack(person: Person) -> None:
    person.key("ctrl+shift+v")
    person.front("Print preview")
    person.film("the print preview")
    person.key("Escape")
    person.front("Reading den")
    person.key("ctrl+s", "ctrl+shift+p")
    person.front("Make the print pack")
    person.film("where the pack goes")
    person.overtype(str(person.program.home / PACK))
    person.key("Return")
    person.film("the pack is made")
    person.front("Print pack")
    person.film("the pack is there")
    person.key("Return")
    person.front("Reading den")


def leave(person: Person) -> None:
    person.film("everything saved")
    person.last_key("ctrl+q")


SECTIONS: Sequence[Section] = (
    begin,
    put_in_openings,
    take_advice,
    look_at_frame,
    pin,
    choose_colours,
    stand_up,
    buy,
    plan_crew,
    print_pack,
    leave,
)
