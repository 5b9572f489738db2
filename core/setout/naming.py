"""Names for designs: what a helper reads on a sheet."""

from core.setout.bodies import Body, DesignKey, ShapeKey
from core.setout.tariff import MakeUp

KIT_NAMES = frozenset({"full", "half-height", "half-width", "quarter"})


class DesignNames:
    """Hands out one name per design; shaped ones are numbered as they come up."""

    def __init__(self) -> None:
        self._names: dict[DesignKey, str] = {}
        self._shaped = 0

    def name(self, body: Body) -> str:
        """The name of a body's design."""
        if body.design not in self._names:
            self._names[body.design] = self._new_name(body)
        return self._names[body.design]

    def _new_name(self, body: Body) -> str:
        design = body.design
        if isinstance(design, ShapeKey):
            self._shaped += 1
            return f"{body.kind} {self._shaped}"
        if len(design) == 2:
            width, made = design
            return body.kind if body.kind in KIT_NAMES else f"closer {width} x {_height(made)}"
        kind, left, right, made = design
        return f"{'corner' if kind == 'inside' else 'outside corner'} {left}+{right} x {_height(made)}"


def _height(made: MakeUp) -> str:
    """Courses, with what is left out of the usual plate and cap course above them."""
    courses, has_plate, has_cap = made
    if has_plate and has_cap:
        return str(courses)
    return f"{courses} {'without cap' if has_plate else 'bare'}"
