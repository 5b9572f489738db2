"""The hand that sketches: what pointer and keys do to an outline, corner after corner."""

import math
from typing import Literal

from PySide6.QtCore import QObject, Signal

from core.edits.sketch import Sketch
from core.errors import CoursewrightError
from core.language import tr
from core.room import Point, Units
from core.survey import closure_of
from core.units import MM_PER_INCH, parse_length_mm, reason

Lock = Literal["square", "eighths", "free"]
"""What a wall may run along: right angles, steps of 45 degrees, or anything."""

TYPEABLE = frozenset("0123456789.,'\"/ -½¼¾mcftin′″")
LONGEST_TEXT = 20
NEAR_MISS = 0.01
"""Of the way round: a typed wall that ends so near the first corner was meant to meet it."""


class SketchHand(QObject):
    """Holds the sketch, the wall being aimed and the length being typed. Nothing here knows pixels."""

    changed = Signal()
    used = Signal()
    """The closed room is to be used."""
    left = Signal()
    """There is nothing more to give up here."""

    def __init__(self, units: Units) -> None:
        super().__init__()
        self.sketch = Sketch()
        self.walked: tuple[Point, ...] | None = None
        """Typed walls that were meant to close but miss the first corner, that corner first, the end last."""
        self.aim: Point | None = None
        """Where the pointer would put the next corner."""
        self.typed = ""
        self.notice = ""
        self._heading_deg = 90.0
        self._given_up: Sketch | None = None
        self._before_sharing: tuple[Sketch, tuple[Point, ...]] | None = None
        self._units: Units = units
        self._step_mm = 10.0 if units == "mm" else float(MM_PER_INCH / 2)

    @property
    def last(self) -> Point | None:
        """The corner that the next wall starts from."""
        return self.sketch.points_mm[-1] if self.sketch.points_mm and not self._is_done else None

    @property
    def end(self) -> Point | None:
        """Where the next wall ends as things are: by the typed length, or at the pointer."""
        if self.last is None:
            return None
        if self.typed:
            length = self._typed_mm()
            return None if length is None else self._ahead(length)
        return self.aim

    @property
    def heading_deg(self) -> float:
        """The way the next wall goes, degrees from the plan's right, anticlockwise."""
        return self._heading_deg

    @property
    def meets_first(self) -> bool:
        """Whether the next corner is the first one again."""
        return len(self.sketch.points_mm) >= 3 and self.end == self.sketch.points_mm[0]

    @property
    def _is_done(self) -> bool:
        return self.sketch.is_closed or self.walked is not None

    def point(self, place: Point, lock: Lock, reach_mm: float) -> None:
        """The pointer is there; the aim keeps to the lock, and within reach catches on the first corner and its lines."""
        if self._is_done:
            return
        first = self.sketch.points_mm[0] if self.sketch.points_mm else None
        if first and len(self.sketch.points_mm) >= 3 and math.dist(place, first) <= reach_mm:
            self.aim = first
        elif self.last is None:
            self.aim = self._stepped(place)
        else:
            self.aim = self._locked(self.last, place, lock, first, reach_mm)
        if self.last and self.aim and math.dist(self.last, self.aim) > 0:
            self._heading_deg = _heading_deg(self.last, self.aim)
        self.changed.emit()

    def _locked(self, last: Point, place: Point, lock: Lock, first: Point | None, reach_mm: float) -> Point:
        length, heading = math.dist(last, place), _heading_deg(last, place)
        if lock == "free":
            return self._stepped(place)
        grid = 90 if lock == "square" else 45
        heading = round(heading / grid) * grid
        length *= max(0.0, math.cos(math.radians(_heading_deg(last, place) - heading)))
        length = round(length / self._step_mm) * self._step_mm
        x, y = _ahead(last, heading, length)
        if first and heading % 180 == 0 and abs(x - first[0]) <= reach_mm:
            x = first[0]
        if first and heading % 180 == 90 and abs(y - first[1]) <= reach_mm:
            y = first[1]
        return x, y

    def _stepped(self, place: Point) -> Point:
        return round(place[0] / self._step_mm) * self._step_mm, round(place[1] / self._step_mm) * self._step_mm

    def head(self, heading_deg: float) -> None:
        """The next wall goes that way, whatever the pointer said."""
        self._heading_deg, self.aim = heading_deg % 360, None
        self.changed.emit()

    def write(self, text: str) -> bool:
        """Take up typed characters as part of a length; False where they can be none."""
        if self.last is None or not text or any(char not in TYPEABLE for char in text) or (text == " " and not self.typed):
            return False
        self.typed = (self.typed + text)[:LONGEST_TEXT]
        self.notice = ""
        self.changed.emit()
        return True

    def fix(self) -> None:
        """Fix the corner where the next wall ends; closes the room at its first corner."""
        if self.typed:
            self._fix_typed()
        elif self.last is None and not self._is_done:
            self._take(self.sketch.with_corner(self.aim or (0.0, 0.0)))
        elif self.meets_first:
            self.close()
        elif self.aim is not None and self.last is not None:
            self._try(self.aim)

    def confirm(self) -> None:
        """What Enter does: fix the corner typed or aimed at, else close the room, else use the closed one."""
        if self.sketch.is_closed:
            self.used.emit()
        elif self.walked is not None:
            self.tell(tr("choose at the left how to share out what is missing; Backspace takes the last length back"))
        elif self.typed or self.aim is not None or self.last is None:
            self.fix()
        else:
            self.close()

    def close(self) -> None:
        """Join the last corner to the first."""
        try:
            self._take(self.sketch.closed())
        except CoursewrightError as error:
            self._refuse(error)

    def use(self, closed: Sketch) -> None:
        """Take up a sketch closed elsewhere; taking back leads to the choice of how to share out."""
        if self.walked is not None:
            self._before_sharing, self.walked = (self.sketch, self.walked), None
        self._take(closed)

    def tell(self, notice: str) -> None:
        """Say why something was not done."""
        self.notice = notice
        self.changed.emit()

    def take_back(self) -> None:
        """One step back: the last typed character, the closing, the last corner, or the sketch given up before."""
        if self.typed:
            self.typed = self.typed[:-1]
        elif self.walked is not None:
            self.walked = None
        elif self.sketch.is_closed and self._before_sharing is not None:
            (before, walked), self._before_sharing = self._before_sharing, None
            self._take(before)
            self.walked = walked
        elif self.sketch.points_mm:
            self._take(self.sketch.without_last())
        elif self._given_up is not None:
            self._take(self._given_up)
        self.notice = ""
        self.changed.emit()

    def give_up(self) -> None:
        """Give up what is typed, else the whole sketch; taking back once more brings that back."""
        if self.typed:
            self.typed = ""
        elif self.sketch.points_mm:
            self._given_up, self.sketch, self.walked = self.sketch, Sketch(), None
            self._before_sharing = None
            self._heading_deg = 90.0
        else:
            self.left.emit()
        self.aim, self.notice = None, ""
        self.changed.emit()

    def _fix_typed(self) -> None:
        length = self._typed_mm(tell=True)
        if length is None or self.last is None:
            return
        end = self._ahead(length)
        points = (*self.sketch.points_mm, end)
        missed = closure_of(points)
        if len(points) > 3 and not missed.closes and missed.missed_mm <= NEAR_MISS * missed.way_round_mm:
            self.walked, self.typed, self.aim = points, "", None
            self.changed.emit()
        elif len(points) > 3 and missed.closes:
            self.close()
        else:
            self._try(end)

    def _typed_mm(self, *, tell: bool = False) -> float | None:
        try:
            return parse_length_mm(self.typed)
        except CoursewrightError as error:
            if tell:
                self._refuse(error)
            return None

    def _ahead(self, length_mm: float) -> Point:
        assert self.last is not None
        return _ahead(self.last, self._heading_deg, length_mm)

    def _try(self, point: Point) -> None:
        try:
            self._take(self.sketch.with_corner(point))
        except CoursewrightError as error:
            self._refuse(error)

    def _take(self, sketch: Sketch) -> None:
        """Take up a sketch; the next wall turns right from its last one until someone says otherwise."""
        self.sketch, self.typed, self.aim, self.notice = sketch, "", None, ""
        points = sketch.points_mm
        self._heading_deg = (_heading_deg(points[-2], points[-1]) - 90) % 360 if len(points) > 1 else 90.0
        self.changed.emit()

    def _refuse(self, error: CoursewrightError) -> None:
        self.notice = reason(error, self._units)
        self.changed.emit()


def _heading_deg(start: Point, end: Point) -> float:
    return math.degrees(math.atan2(end[1] - start[1], end[0] - start[0])) % 360


def _ahead(start: Point, heading_deg: float, length_mm: float) -> Point:
    """The point so far ahead; exact along the plan's ways."""
    ways = {0.0: (1.0, 0.0), 90.0: (0.0, 1.0), 180.0: (-1.0, 0.0), 270.0: (0.0, -1.0)}
    radians = math.radians(heading_deg)
    step = ways.get(round(heading_deg, 9) % 360, (math.cos(radians), math.sin(radians)))
    return round(start[0] + step[0] * length_mm, 4), round(start[1] + step[1] * length_mm, 4)
