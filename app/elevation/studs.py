"""Measured studs of the current wall by hand: a strip of handles along its floor, the one chosen, and the drag that moves it."""

from collections.abc import Callable
from dataclasses import dataclass
from math import ceil, floor
from typing import NamedTuple

from PySide6.QtCore import QObject, QPointF, QRectF, Signal

from app.document import Document
from app.elevation.gestures import Guide, Pointer
from app.elevation.margins import side_px
from app.elevation.stage import Stage
from app.elevation.strip import StripPoint
from core.edits.studs import add_stud, free_centre_mm, move_stud
from core.language import tr
from core.room import MeasuredFrame, Room, wall_letter

STRIP_TOP_PX, STRIP_HIGH_PX = 2, 14
HANDLE_PX = 9
REACH_PX = 8.0
"""A handle is caught from so far to either side of its middle."""


class Ghost(NamedTuple):
    """Where a stud was wanted but cannot stand."""

    wall: int
    left_mm: float
    right_mm: float
    sill_mm: float
    head_mm: float


@dataclass(frozen=True, slots=True)
class StudView:
    """What there is to paint of a wall's measured studs; numbers count from 0 at the left."""

    wall: int
    frame: MeasuredFrame
    strip_px: QRectF
    selected: int | None
    hover: int | None


def stud_name(wall: int, number: int) -> str:
    """A measured stud in words, counted from the left."""
    return tr("stud {number} of wall {wall}", number=number + 1, wall=wall_letter(wall))


class Studs(QObject):
    """Knows where the handles are and which stud is chosen: it follows the document, and is not saved."""

    changed = Signal()

    def __init__(self, document: Document, stage: Stage, parent: QObject) -> None:
        super().__init__(parent)
        self._document, self._stage = document, stage
        self.selected: int | None = None
        self.hover: int | None = None
        document.selection_changed.connect(self._on_selection)
        document.wall_changed.connect(self._turn)

    def _turn(self, _wall: int) -> None:
        self.pick(None)

    @property
    def wall(self) -> int:
        return self._document.wall

    @property
    def frame(self) -> MeasuredFrame | None:
        """The current wall's frame where its studs were measured one by one."""
        frame = self._document.room.frame(self.wall)
        return frame if isinstance(frame, MeasuredFrame) else None

    @property
    def view(self) -> StudView | None:
        """What to paint; None where the current wall's studs are not measured."""
        frame = self.frame
        return StudView(self.wall, frame, self._strip_px(), self.selected, self.hover) if frame else None

    def covers(self, pos: QPointF) -> bool:
        """Whether a pixel lies on the strip of handles."""
        return self.frame is not None and self._strip_px().adjusted(0, -STRIP_TOP_PX, 0, 1).contains(pos)

    def at(self, pos: QPointF) -> int | None:
        """The stud whose handle is nearest a pixel on the strip, if one is in reach."""
        frame = self.frame
        if frame is None or not self.covers(pos):
            return None
        scale, x_mm = self._stage.camera.scale, self.x_mm(pos)
        reach_mm = max(frame.stud_mm / 2, REACH_PX / scale)
        near = min(range(len(frame.centres_mm)), key=lambda i: abs(frame.centres_mm[i] - x_mm), default=None)
        return near if near is not None and abs(frame.centres_mm[near] - x_mm) <= reach_mm else None

    def x_mm(self, pos: QPointF) -> float:
        """A pixel's distance from the wall's left end."""
        return self._stage.camera.to_strip(pos).x_mm - self._stage.strip.starts_mm[self.wall]

    def pick(self, number: int | None) -> None:
        """Choose a stud, and nothing else, or none."""
        if number is not None:
            self._document.select(None)
        if number != self.selected:
            self.selected = number
            self.changed.emit()

    def point(self, number: int | None) -> None:
        """Note which stud is under the pointer."""
        self.hover = number

    def follow(self) -> None:
        """The document shows another room: a stud that is no longer there is not chosen."""
        count = len(self.frame.centres_mm) if self.frame else 0
        self.hover = None
        if self.selected is not None and self.selected >= count:
            self.pick(None)

    def add(self, centre_mm: float) -> bool:
        """Put one more stud up and choose it; False, and refused, where it cannot stand."""
        return self._put_up(lambda _room: centre_mm)

    def add_in_gap(self) -> bool:
        """Put one up in the gap to the right of the chosen stud, or in the widest; False, and refused, where none fits in."""
        wall, after = self.wall, self.selected
        return self._put_up(lambda room: free_centre_mm(room, wall, after))

    def _put_up(self, centre_in: Callable[[Room], float]) -> bool:
        wall, before = self.wall, self.frame.centres_mm if self.frame else ()
        text = tr("Add a stud to wall {wall}", wall=wall_letter(wall))
        if not self._document.commit_edit(lambda room: add_stud(room, wall, centre_in(room)), text):
            return False
        now = self.frame.centres_mm if self.frame else ()
        self.pick(next((number for number, centre in enumerate(now) if centre not in before), None))
        return True

    def _strip_px(self) -> QRectF:
        stage, wall = self._stage, self.wall
        start = stage.strip.starts_mm[wall]
        left = max(stage.camera.x_px(start), float(side_px()))
        right = min(stage.camera.x_px(start + stage.strip.lengths_mm[wall]), float(stage.size.width()))
        top = min(stage.camera.y_px(0.0) + STRIP_TOP_PX, stage.size.height() - STRIP_HIGH_PX - 2.0)
        return QRectF(left, top, max(0.0, right - left), STRIP_HIGH_PX)

    def _on_selection(self, what: str | None) -> None:
        if what is not None:
            self.pick(None)


class StudDrag:
    """A stud on its way along the wall, by mouse or by key: whole millimetres, never past the wall's ends."""

    def __init__(self, document: Document, wall: int, number: int, grab: StripPoint = StripPoint(0.0, 0.0)) -> None:  # noqa: B008
        frame = document.room.frame(wall)
        assert isinstance(frame, MeasuredFrame)
        self.guides: tuple[Guide, ...] = ()
        self.refused: Ghost | None = None
        self.wall, self.number = wall, number
        self._document, self._grab = document, grab
        self._stud_mm = frame.stud_mm
        self._start = self._wanted = frame.centres_mm[number]

    def step(self, pointer: Pointer) -> None:
        """Show the stud under the pointer."""
        self._to(self._start + pointer.at.x_mm - self._grab.x_mm)

    def nudge(self, by_mm: float) -> None:
        """Show the stud so much further to the right; where it cannot go it stays."""
        before = self._wanted
        self._to(before + by_mm)
        if self.refused is not None:
            self._wanted, self.refused = before, None

    def finish(self) -> None:
        """Commit what is shown, as one step to undo."""
        self._document.finish(tr("Move {stud}", stud=stud_name(self.wall, self.number)))

    def cancel(self) -> None:
        """Put the stud back."""
        self._document.cancel()

    def _to(self, wish_mm: float) -> None:
        room, half = self._document.room, self._stud_mm / 2
        low, high = ceil(half), floor(room.wall_length_mm(self.wall) - half)
        wanted = float(max(low, min(round(wish_mm), high)))
        if wanted == self._wanted:
            return
        self._wanted = wanted
        shown = self._document.preview_edit(lambda before: self._edit(before, wanted))
        self.refused = None if shown else Ghost(self.wall, wanted - half, wanted + half, 0.0, room.clad_height_mm)

    def _edit(self, room: Room, wanted: float) -> Room:
        return move_stud(room, self.wall, self.number, wanted)
