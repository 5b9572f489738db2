"""The drags that are measured, each as a hand would make it: what is held, where, and how far the pointer goes at a step."""

from collections.abc import Mapping
from dataclasses import dataclass
from types import MappingProxyType

from app.assets import asset
from app.benchmarks.hall import hall
from core.files import load_room
from core.room import Room

BODY = (0.4, 0.4)
RIGHT_EDGE = (0.99, 0.5)


@dataclass(frozen=True, slots=True)
class Drag:
    """One drag of an opening. ``hold`` is the share of its width and height at which it is taken hold of."""

    title: str
    opening: str
    step_px: tuple[int, int]
    steps: int
    hold: tuple[float, float] = BODY
    wall_in_view: int | None = None
    """The wall that fills the view; None shows the whole room, as the window opens."""
    zoom: int = 0
    """Steps nearer from there; a view as wide and low as the window's shows a whole wall rather small."""
    is_free: bool = False
    """The key that switches snapping off is held."""


DEMO_DRAGS: Mapping[str, Drag] = MappingProxyType(
    {
        "sub-pitch": Drag("window sideways, 2 mm a step", "window", (1, 0), 120, wall_in_view=1, zoom=5, is_free=True),
        "pitch": Drag("window sideways, a pitch a step", "window", (1, 0), 120, is_free=True),
        "snap": Drag("window sideways, a pitch a step, snapping", "window", (1, 0), 120),
        "up": Drag("window up, 7 mm a step", "window", (0, -2), 70, wall_in_view=1, zoom=3),
        "down": Drag("window down, 7 mm a step", "window", (0, 2), 90, wall_in_view=1, zoom=3),
        "slant": Drag("window down and sideways", "window", (3, 2), 80, wall_in_view=1, zoom=2),
        "edge": Drag("window's right edge, a pitch a step", "window", (1, 0), 100, hold=RIGHT_EDGE),
        "outlet": Drag("outlet up and sideways", "outlet-1", (2, -1), 120),
        "door": Drag("door sideways, a pitch a step", "door", (-1, 0), 110),
        "corner": Drag("window across a corner, onto a standing frame", "window", (4, 0), 125),
    }
)
HALL_DRAGS: Mapping[str, Drag] = MappingProxyType(
    {
        "whole": Drag("window sideways, whole hall in view", "window-22", (1, 0), 50),
        "pitch": Drag("window sideways, a pitch a step", "window-10", (2, 0), 80, wall_in_view=10, zoom=4, is_free=True),
        "up": Drag("window up, a course a step", "window-10", (0, -2), 60, wall_in_view=10, zoom=3),
        "edge": Drag("window's right edge, a pitch a step", "window-10", (2, 0), 60, RIGHT_EDGE, wall_in_view=10, zoom=4),
        "standing": Drag("window sideways, standing frame", "window-4", (2, 0), 60, wall_in_view=4, zoom=4, is_free=True),
        "outlet": Drag("outlet up and sideways", "outlet-2", (2, -1), 60, wall_in_view=2, zoom=1),
        "door": Drag("door sideways, a pitch a step", "door-15", (-2, 0), 80, wall_in_view=15, zoom=4, is_free=True),
        "corner": Drag("window across a corner", "window-10", (4, 0), 140, wall_in_view=10, zoom=1),
    }
)
DRAGS: Mapping[str, Mapping[str, Drag]] = MappingProxyType({"demo": DEMO_DRAGS, "hall": HALL_DRAGS})


def room_to_measure(name: str) -> Room:
    """The demo room as it ships, or the hall."""
    return load_room(asset("demo.room.json")) if name == "demo" else hall()
