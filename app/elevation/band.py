"""A band drawn over the elevation: panels it touches and openings that lie wholly within it are chosen."""

from app.elevation.camera import Box
from app.elevation.gestures import Guide, Pointer, Wanted
from app.elevation.stage import Stage
from app.elevation.strip import StripPoint
from app.selection import Selection


class Band:
    """A gesture that changes nothing but what is chosen, once it ends; ``adding`` keeps what was chosen before."""

    def __init__(self, stage: Stage, chosen: Selection, grab: StripPoint, *, adding: bool) -> None:
        self.guides: tuple[Guide, ...] = ()
        self.refused: Wanted | None = None
        self.box = Box(grab.x_mm, grab.z_mm, grab.x_mm, grab.z_mm)
        self._stage, self._chosen, self._grab = stage, chosen, grab
        self._before = chosen.names if adding else ()

    def step(self, pointer: Pointer) -> None:
        """Draw the band from where it began to the pointer."""
        (x0, z0), (x1, z1) = self._grab, pointer.at
        self.box = Box(min(x0, x1), min(z0, z1), max(x0, x1), max(z0, z1))

    def finish(self) -> None:
        """Choose what is in it. An opening becomes the current one before any panel, so that arrow keys move it."""
        self._chosen.choose((*self._before, *self._stage.panels_touched(self.box), *self._stage.openings_within(self.box)))

    def cancel(self) -> None:
        """Leave chosen what was chosen."""
