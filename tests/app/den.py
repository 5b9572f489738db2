"""A room small enough that its set-out, its orders and its plan are soon worked out."""

from core.room import Opening, Room

WINDOW = Opening(id="window", kind="window", wall=1, left_mm=500, sill_mm=304, width_mm=608, height_mm=304)


def reading_den(*openings: Opening) -> Room:
    """A den of 1.6 m by 1.6 m, three rows high."""
    corners = ((0.0, 0.0), (0.0, 1600.0), (1600.0, 1600.0), (1600.0, 0.0))
    return Room(name="Reading den", corners_mm=corners, clad_height_mm=910.0, openings=openings)
