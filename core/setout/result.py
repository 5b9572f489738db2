"""The set-out: what the solver found, frozen. Grid quantities are whole numbers; ``metric`` turns them into millimetres.

Wall-local grid coordinates: x in pitches from the shell's left end of the wall, z in plates from the floor, seen from inside.
"""

from collections.abc import Mapping
from dataclasses import dataclass, field
from typing import Literal

from core.room import Room

PanelKind = Literal["full", "half-height", "half-width", "quarter", "corner", "closer", "shaped", "shaped-corner"]
CornerKind = Literal["inside", "outside", "free"]
Level = Literal["error", "warning", "note"]
Ring = tuple[tuple[int, int], ...]


@dataclass(frozen=True, slots=True)
class WallShell:
    """One wall of the brick shell and how it sits in its frame.

    ``start_mm`` is the shell's left end measured from the wall's left frame corner (negative at an outside corner);
    ``packing_mm`` is the shim between frame and shell; ``left`` and ``right`` say how the wall ends.
    """

    wall: int
    length_mm: float
    pitches: int
    start_mm: float
    packing_mm: float
    left: CornerKind
    right: CornerKind


@dataclass(frozen=True, slots=True)
class Row:
    """One band of panels round the room: ``courses`` brick courses, a plate course and the cap course."""

    index: int
    z_plates: int
    courses: int
    height_plates: int


@dataclass(frozen=True, slots=True)
class Mount:
    """A mounting point: the hole's pitch line and the height of its course's middle; what timber it lands on, if any."""

    wall: int
    x_pitches: int
    z_half_plates: int
    lands_on: str | None


@dataclass(frozen=True, slots=True)
class Face:
    """A panel as seen on one wall: outline anticlockwise from the left one of its lowest points, cut-outs
    clockwise.

    Rings hold (x pitches, z plates) on the shell's frame-side line, z from the floor, not closed.
    """

    wall: int
    outline: Ring
    holes: tuple[Ring, ...]
    mounts: tuple[Mount, ...]

    # Most faces are rectangles, and are asked for their sides at every step of a drag.
    @property
    def left(self) -> int:
        return self.outline[0][0] if len(self.outline) == 4 else min(x for x, _ in self.outline)

    @property
    def right(self) -> int:
        return self.outline[2][0] if len(self.outline) == 4 else max(x for x, _ in self.outline)

    @property
    def bottom(self) -> int:
        return self.outline[0][1]

    @property
    def top(self) -> int:
        return self.outline[2][1] if len(self.outline) == 4 else max(z for _, z in self.outline)


@dataclass(frozen=True, slots=True)
class Panel:
    """One panel in its place.

    A corner panel has its faces on the left wall's right end first, then those on the right wall's left end; two in all, or
    more where an opening parts its cells on one wall and they hold together only around the corner.
    """

    mark: str
    design: str
    kind: PanelKind
    row: int
    minutes: float
    """Build and handling, without set-up and penalties."""
    faces: tuple[Face, ...]


@dataclass(frozen=True, slots=True)
class Design:
    """A distinct panel to be built; flat ones count their mirror image in."""

    name: str
    kind: PanelKind
    count: int
    in_kit: bool


@dataclass(frozen=True, slots=True)
class Tally:
    panels: int
    by_kind: Mapping[PanelKind, int]
    designs_not_in_kit: int


@dataclass(frozen=True, slots=True)
class CrewMinutes:
    """The objective's terms, in crew minutes for the whole room."""

    build: float
    handling: float
    setup: float
    sliver: float
    weak: float
    blocking: float
    bound: float
    """What any set-out of this room takes at least; 0 in a sketch, which does not ask."""

    @property
    def total(self) -> float:
        return self.build + self.handling + self.setup + self.sliver + self.weak + self.blocking

    @property
    def excess(self) -> float:
        """By what part of the bound the total exceeds it: 0 where no set-out can take less, or where there is no bound."""
        return max(0.0, self.total / self.bound - 1) if self.bound > 0 else 0.0


@dataclass(frozen=True, slots=True)
class Check:
    """A finding about the room. ``where`` is ``room``, ``wall A``, ``opening door`` or ``panel B-3-07``."""

    level: Level
    code: str
    where: str
    text: str


@dataclass(frozen=True, slots=True)
class Reveal:
    """Frame left showing around an opening, in millimetres; trim must cover it."""

    opening: str
    left_mm: float
    right_mm: float
    sill_mm: float
    head_mm: float


@dataclass(frozen=True, slots=True)
class Timber:
    """A frame member seen square-on, in wall-local millimetres from the frame's left corner and the floor."""

    wall: int
    member: str
    left_mm: float
    bottom_mm: float
    width_mm: float
    height_mm: float


class Divided:
    """How a set-out's rows were divided; only a sketch near it looks into that (``nearness``)."""

    __slots__ = ()


@dataclass(frozen=True, slots=True)
class SetOut:
    """Everything set-out derives from one room. Panels are ordered by wall, then row, then place."""

    room: Room
    rows: tuple[Row, ...]
    walls: tuple[WallShell, ...]
    panels: tuple[Panel, ...]
    designs: tuple[Design, ...]
    tally: Tally
    minutes: CrewMinutes
    checks: tuple[Check, ...]
    reveals: tuple[Reveal, ...]
    timber: tuple[Timber, ...]
    divided: Divided | None = field(default=None, compare=False, repr=False)
    """For a sketch to stay near; not part of what a set-out says."""
