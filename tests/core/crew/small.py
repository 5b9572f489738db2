"""A small room with a crew, quick to plan."""

from core.room import Opening, Room
from core.workforce import Person, Workforce
from tests.generate import SMALL_KIT

CREW = Workforce(
    people=(Person(name="one"), Person(name="two", duty="hang", starts_on="2027-06-02"), Person(name="three", hours_per_day=3.0)),
    starts_on="2027-05-31",
    hang_from=4,
)


def small_room(crew: Workforce = CREW) -> Room:
    """Two rows and a half one, a window, about thirty panels. 2027-05-31 is a Monday."""
    window = Opening(id="window", kind="window", wall=0, left_mm=300.0, sill_mm=60.0, width_mm=150.0, height_mm=80.0)
    corners = ((0.0, 0.0), (0.0, 700.0), (600.0, 700.0), (600.0, 0.0))
    return Room(name="small", corners_mm=corners, clad_height_mm=358.0, kit=SMALL_KIT, openings=(window,), crew=crew)
