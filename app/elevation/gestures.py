"""Gestures: each holds one drag or held key from its beginning, previews its steps, and commits once or not at all."""

from dataclasses import dataclass
from typing import Literal, Protocol

from app.document import Document
from app.elevation.hits import Edge, Grip
from app.elevation.strip import Strip, StripPoint
from core.edits import clamp_left_mm, move_opening, resize_opening
from core.language import marked, tr
from core.room import TALLEST_WALL_MM, Opening, Room
from core.setout.result import SetOut
from core.snap import AxisLines, LineKind, Side, Snapped, WallLines, snap, wall_lines

REACH_PX = 7.0
MOST_REACH_PITCHES = 3.0
"""Joints and studs catch from so many pixels, but never from further than so many pitches."""
SLACK_PX = 7.0
"""A body drag keeps its height until the pointer has gone further up or down than this."""
LEAST_SIZE_MM = 16.0


@dataclass(frozen=True, slots=True)
class Guide:
    """The line an edge has snapped to: across is an upright line at x, up a level one at z."""

    wall: int
    axis: Literal["across", "up"]
    at_mm: float
    kind: LineKind


@dataclass(frozen=True, slots=True)
class Pointer:
    """One step of a drag: where the pointer is, and what the modifier keys say."""

    at: StripPoint
    pixel_mm: float
    snapping: bool = True
    straight: bool = False


class Wanted(Protocol):
    """A place on a wall that was wanted."""

    @property
    def wall(self) -> int: ...
    @property
    def left_mm(self) -> float: ...
    @property
    def right_mm(self) -> float: ...
    @property
    def sill_mm(self) -> float: ...
    @property
    def head_mm(self) -> float: ...


class Gesture(Protocol):
    """What the view runs from press to release."""

    guides: tuple[Guide, ...]

    @property
    def refused(self) -> Wanted | None:
        """Where the person wanted the opening or stud when the last step was refused."""

    def step(self, pointer: Pointer) -> None: ...
    def finish(self) -> None: ...
    def cancel(self) -> None: ...


class _OpeningDrag:
    """What moving and resizing an opening share."""

    undo_text = ""
    """Names the edit for undo, with a gap for the openings."""

    def __init__(self, document: Document, opening: Opening, grab: StripPoint, strip: Strip) -> None:
        self.guides: tuple[Guide, ...] = ()
        self.refused: Opening | None = None
        self._document, self._opening, self._grab, self._strip = document, opening, grab, strip
        self._base: SetOut = document.gesture_base or document.setout
        self._wanted = opening
        self._lines: dict[int, WallLines] = {}

    def finish(self) -> None:
        """Commit what is shown, as one step to undo."""
        self._document.finish(tr(self.undo_text, openings=self._opening.id))

    def cancel(self) -> None:
        """Put everything back."""
        self._document.cancel()

    def _show(self, wanted: Opening) -> None:
        """Preview the opening there; a step that changes nothing costs nothing."""
        if wanted == self._wanted:
            return
        self._wanted = wanted
        shown = self._document.preview_edit(lambda room: self._edit(room, wanted))
        self.refused = None if shown else wanted
        if not shown:
            self.guides = ()

    def _edit(self, room: Room, wanted: Opening) -> Room:
        raise NotImplementedError

    def _lines_on(self, wall: int) -> WallLines:
        if wall not in self._lines:
            self._lines[wall] = wall_lines(self._base, wall)
        return self._lines[wall]

    def _snap(self, edges: dict[Side, float], lines: AxisLines, pointer: Pointer) -> Snapped | None:
        if not pointer.snapping:
            return None
        reach = min(REACH_PX * pointer.pixel_mm, MOST_REACH_PITCHES * self._base.room.kit.pitch_mm)
        return snap(edges, lines, reach)


class MoveOpening(_OpeningDrag):
    """Dragging an opening's body, along its wall or round the corner to the next."""

    undo_text = marked("Move {openings}")

    def step(self, pointer: Pointer) -> None:
        """Show the opening under the pointer, kept within the wall's ends."""
        across = abs(pointer.at.x_mm - self._grab.x_mm) >= abs(pointer.at.z_mm - self._grab.z_mm)
        wall, left_mm = (self._opening.wall, self._opening.left_mm)
        self.guides = ()
        if across or not pointer.straight:
            wall, left_mm = self._across(pointer)
        sill_mm = self._opening.sill_mm if across and pointer.straight else self._up(pointer, wall)
        self._show(self._kept(self._opening.model_copy(update={"wall": wall, "left_mm": left_mm, "sill_mm": sill_mm})))

    def _kept(self, wanted: Opening) -> Opening:
        """What is wanted, or as much of it as can be."""
        return wanted

    def _edit(self, room: Room, wanted: Opening) -> Room:
        return move_opening(room, wanted.id, wall=wanted.wall, left_mm=wanted.left_mm, sill_mm=wanted.sill_mm)

    def _across(self, pointer: Pointer) -> tuple[int, float]:
        width_mm = self._opening.width_mm
        wall = self._wall_under(pointer)
        held_mm = self._grab.x_mm - self._strip.starts_mm[self._opening.wall] - self._opening.left_mm
        wish = pointer.at.x_mm - self._strip.starts_mm[wall] - held_mm
        left_mm = clamp_left_mm(self._base.room, wall, wish, width_mm)
        found = self._snap({"low": left_mm, "high": left_mm + width_mm}, self._lines_on(wall).along, pointer)
        if found is None:
            return wall, clamp_left_mm(self._base.room, wall, float(round(left_mm)), width_mm)
        snapped = clamp_left_mm(self._base.room, wall, left_mm + found.shift_mm, width_mm)
        if abs(snapped - left_mm - found.shift_mm) < 1e-3:
            self.guides += (Guide(wall, "across", found.line.at_mm, found.line.kind),)
        return wall, snapped

    def _wall_under(self, pointer: Pointer) -> int:
        wall = self._strip.nearest(pointer.at).wall
        return wall if self._strip.lengths_mm[wall] >= self._opening.width_mm else self._wanted.wall

    @property
    def _stays_down(self) -> bool:
        """Whether the sill is not to be lifted by hand."""
        return self._opening.kind == "door" and self._opening.sill_mm == 0

    def _up(self, pointer: Pointer, wall: int) -> float:
        """The sill under the pointer; doors stay on the floor, and nothing leaves its height by a slip of the hand."""
        opening = self._opening
        rise = pointer.at.z_mm - self._grab.z_mm
        if self._stays_down or abs(rise) < SLACK_PX * pointer.pixel_mm:
            return opening.sill_mm
        most = max(0.0, self._base.room.clad_height_mm - LEAST_SIZE_MM)
        sill_mm = max(0.0, min(opening.sill_mm + rise, most))
        found = self._snap({"low": sill_mm, "high": sill_mm + opening.height_mm}, self._lines_on(wall).up, pointer)
        if found is None:
            return float(round(sill_mm))
        snapped = max(0.0, min(sill_mm + found.shift_mm, most))
        self.guides += (Guide(wall, "up", found.line.at_mm, found.line.kind),)
        return round(snapped, 4)


class ResizeOpening(_OpeningDrag):
    """Dragging an opening's edge or corner."""

    undo_text = marked("Resize {openings}")

    def __init__(self, document: Document, opening: Opening, grab: StripPoint, strip: Strip, grip: Grip) -> None:
        super().__init__(document, opening, grab, strip)
        self._grip = grip

    def step(self, pointer: Pointer) -> None:
        """Show the opening with the held edges under the pointer, no further than the wall goes."""
        self.guides = ()
        wanted = self._opening
        for edge in sorted(self._grip):
            wanted = self._with_edge(wanted, edge, pointer)
        self._show(wanted)

    def _edit(self, room: Room, wanted: Opening) -> Room:
        sizes = {name: getattr(wanted, name) for name in ("left_mm", "sill_mm", "width_mm", "height_mm")}
        return resize_opening(room, wanted.id, **sizes)

    def _with_edge(self, opening: Opening, edge: Edge, pointer: Pointer) -> Opening:
        across = edge in ("left", "right")
        start = {"left": opening.left_mm, "right": opening.right_mm, "sill": opening.sill_mm, "head": opening.head_mm}[edge]
        moved = pointer.at.x_mm - self._grab.x_mm if across else pointer.at.z_mm - self._grab.z_mm
        low, high = self._limits(opening, edge)
        wish = max(low, min(start + moved, high))
        lines = self._lines_on(opening.wall)
        side: Side = "low" if edge in ("left", "sill") else "high"
        found = self._snap({side: wish}, lines.along if across else lines.up, pointer)
        at_mm = max(low, min(wish + found.shift_mm if found else float(round(wish)), high))
        if found and abs(at_mm - found.line.at_mm) < 1e-3:
            self.guides += (Guide(opening.wall, "across" if across else "up", found.line.at_mm, found.line.kind),)
        return with_edge_at(opening, edge, at_mm)

    def _limits(self, opening: Opening, edge: Edge) -> tuple[float, float]:
        room = self._base.room
        if edge == "left":
            return 0.0, opening.right_mm - LEAST_SIZE_MM
        if edge == "right":
            return opening.left_mm + LEAST_SIZE_MM, room.wall_length_mm(opening.wall)
        if edge == "sill":
            return 0.0, min(opening.head_mm, room.clad_height_mm) - LEAST_SIZE_MM
        return opening.sill_mm + LEAST_SIZE_MM, TALLEST_WALL_MM


def with_edge_at(opening: Opening, edge: Edge, at_mm: float) -> Opening:
    """The opening with one edge elsewhere and the opposite one where it was; not validated."""
    left, right, sill, head = opening.left_mm, opening.right_mm, opening.sill_mm, opening.head_mm
    changes = {
        "left": {"left_mm": at_mm, "width_mm": right - at_mm},
        "right": {"width_mm": at_mm - left},
        "sill": {"sill_mm": at_mm, "height_mm": head - at_mm},
        "head": {"height_mm": at_mm - sill},
    }[edge]
    return opening.model_copy(update={name: round(value, 4) for name, value in changes.items()})
