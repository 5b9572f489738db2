"""The ground state: one immutable room as a person measured and wished it. Everything else is derived from it."""

import re
from functools import lru_cache
from itertools import pairwise
from typing import Annotated, Literal, Self

from pydantic import Field, model_validator
from shapely import Polygon
from shapely.validation import explain_validity

from core.colouring import Colouring
from core.kit import Kit, Rates
from core.language import marked, tr
from core.parts import DEFAULT_PARTS, Parts
from core.pins import Pins
from core.progress import Progress
from core.purchase import Purchase
from core.settings import Settings
from core.timberwork import Timberwork
from core.workforce import Workforce

LONGEST_WALL_MM = 100_000.0
TALLEST_WALL_MM = 12_000.0

LOOKS_LIKE_A_MARK = re.compile(r"[A-Z]+-\d+-\d+")

TOUCH_MM = 1e-6
"""Openings that overlap by no more than this just touch."""

Coordinate = Annotated[float, Field(ge=-1_000_000, le=1_000_000, allow_inf_nan=False)]
Point = tuple[Coordinate, Coordinate]
Along = Annotated[float, Field(ge=0, le=LONGEST_WALL_MM, allow_inf_nan=False)]
Size = Annotated[float, Field(gt=0, le=LONGEST_WALL_MM, allow_inf_nan=False)]
OpeningKind = Literal["door", "window", "outlet", "switch", "niche"]
Units = Literal["mm", "ft-in"]
Joints = Literal["in line", "staggered"]


class Opening(Settings):
    """A hole in the lining, in wall-local millimetres: x from the wall's left frame corner, z from the floor."""

    id: str = Field(min_length=1, max_length=40, pattern=r"^[\w][\w .\-]*$")
    kind: OpeningKind
    wall: int = Field(ge=0)
    left_mm: Along
    sill_mm: Along
    width_mm: Size
    height_mm: Size

    @property
    def right_mm(self) -> float:
        return self.left_mm + self.width_mm

    @property
    def head_mm(self) -> float:
        return self.sill_mm + self.height_mm


class FrameToBuild(Settings):
    """A frame that does not stand yet: its studs follow the panels."""

    mode: Literal["to_build"] = "to_build"
    stud_mm: Annotated[float, Field(ge=20, le=200, allow_inf_nan=False)] = 38.0


class RegularFrame(Settings):
    """A standing frame with studs at one spacing from the first centre on, and one at either end of the wall.

    The centres of its horizontal rails are measured above the floor.
    """

    mode: Literal["regular"]
    spacing_mm: Annotated[float, Field(ge=50, le=5_000, allow_inf_nan=False)]
    first_centre_mm: Along = 19.0
    rails_mm: tuple[Along, ...] = ()
    stud_mm: Annotated[float, Field(ge=20, le=200, allow_inf_nan=False)] = 38.0

    @model_validator(mode="after")
    def _rails_lie_apart(self) -> Self:
        _check_rising("rails_mm", self.rails_mm, self.stud_mm)
        return self


class MeasuredFrame(Settings):
    """A standing frame measured stud by stud, with the centres of its horizontal rails above the floor."""

    mode: Literal["measured"]
    centres_mm: tuple[Along, ...]
    rails_mm: tuple[Along, ...] = ()
    stud_mm: Annotated[float, Field(ge=20, le=200, allow_inf_nan=False)] = 38.0

    @model_validator(mode="after")
    def _timber_lies_apart(self) -> Self:
        _check_rising("centres_mm", self.centres_mm, self.stud_mm)
        _check_rising("rails_mm", self.rails_mm, self.stud_mm)
        return self


def _check_rising(field: str, centres_mm: tuple[float, ...], stud_mm: float) -> None:
    for before, after in pairwise(centres_mm):
        if after - before < stud_mm:
            words = tr(
                "{field} holds {before:g} mm and then {after:g} mm; list them in rising order, "
                "at least one timber ({stud:g} mm) apart",
                field=field,
                before=before,
                after=after,
                stud=stud_mm,
            )
            raise ValueError(words)


_STUD_PAST_WALL = marked("{where} is {centre:g} mm; wall {wall} is {length:g} mm long, so no stud stands there")
_RAIL_OVER_FRAME = marked("{where} is {centre:g} mm; the frame of wall {wall} ends at {length:g} mm, so no rail lies there")

Frame = Annotated[FrameToBuild | RegularFrame | MeasuredFrame, Field(discriminator="mode")]


class Room(Settings):
    """A room to line. Corners run clockwise seen from above (y up); wall i runs from corner i to corner i + 1."""

    format: Literal["coursewright-room"] = "coursewright-room"
    version: Literal[1] = 1
    name: str = Field(min_length=1, max_length=120)
    display_units: Units = "mm"
    corners_mm: tuple[Point, ...] = Field(min_length=3, max_length=200)
    clad_height_mm: Annotated[float, Field(gt=0, le=TALLEST_WALL_MM, allow_inf_nan=False)]
    openings: tuple[Opening, ...] = Field(default=(), max_length=500)
    frame_height_mm: Annotated[float, Field(gt=0, le=TALLEST_WALL_MM, allow_inf_nan=False)] | None = None
    """Upper edge of the top plates above the floor; None where the frames end with the lining."""
    frames: tuple[Frame, ...] = ()
    kit: Kit = Kit()
    rates: Rates = Rates()
    parts: Parts = DEFAULT_PARTS
    timberwork: Timberwork = Timberwork()
    colouring: Colouring = Colouring()
    pins: Pins = ()
    joints: Joints = "in line"
    """Whether the joints of neighbouring rows should meet, or keep a quarter panel apart."""
    stock: Purchase = Purchase()
    crew: Workforce = Workforce()
    progress: Progress = Progress()

    @property
    def wall_count(self) -> int:
        return len(self.corners_mm)

    @property
    def frame_head_mm(self) -> float:
        """Upper edge of the top plates: never below the lining's."""
        return max(self.clad_height_mm, self.frame_height_mm or 0.0)

    def wall_ends_mm(self, wall: int) -> tuple[Point, Point]:
        """Plan coordinates of a wall's left and right frame corner."""
        return self.corners_mm[wall], self.corners_mm[(wall + 1) % self.wall_count]

    def wall_length_mm(self, wall: int) -> float:
        """Frame length of a wall."""
        (x0, y0), (x1, y1) = self.wall_ends_mm(wall)
        return float(((x1 - x0) ** 2 + (y1 - y0) ** 2) ** 0.5)

    def frame(self, wall: int) -> FrameToBuild | RegularFrame | MeasuredFrame:
        """The wall's frame; one still to be built where the file names none."""
        return self.frames[wall] if self.frames else FrameToBuild()

    def opening(self, name: str) -> Opening:
        """The opening with that id; raises KeyError where there is none."""
        for opening in self.openings:
            if opening.id == name:
                return opening
        raise KeyError(name)

    @model_validator(mode="after")
    def _plan_is_simple(self) -> Self:
        for i in range(self.wall_count):
            length = self.wall_length_mm(i)
            if not 0 < length <= LONGEST_WALL_MM:
                raise ValueError(
                    tr(
                        "corners_mm: wall {wall} is {length:g} mm long; a wall must be longer than 0 and at most {most:g} mm",
                        wall=wall_letter(i),
                        length=length,
                        most=LONGEST_WALL_MM,
                    )
                )
        if _runs_round_clockwise(self.corners_mm):
            return self
        plan = Polygon(self.corners_mm)
        if not plan.is_valid:
            raise ValueError(tr("corners_mm: the walls cross or touch each other ({why})", why=_what_is_wrong(plan)))
        raise ValueError(tr("corners_mm run anticlockwise; list them clockwise seen from above (reverse the list)"))

    @model_validator(mode="after")
    def _parts_match_walls(self) -> Self:
        if self.frames and len(self.frames) != self.wall_count:
            raise ValueError(
                tr(
                    "frames lists {count} frames; give one per wall ({walls}) or none",
                    count=len(self.frames),
                    walls=self.wall_count,
                )
            )
        for wall, frame in enumerate(self.frames):
            self._check_frame(wall, frame)
        seen: set[str] = set()
        for number, opening in enumerate(self.openings):
            where = f"openings.{number} ({opening.id})"
            if opening.id in seen:
                raise ValueError(tr("{where}: this id is used twice; give every opening its own", where=where))
            seen.add(opening.id)
            if LOOKS_LIKE_A_MARK.fullmatch(opening.id):
                raise ValueError(tr("{where}.id looks like a panel's mark; give the opening another name", where=where))
            if opening.wall >= self.wall_count:
                raise ValueError(
                    tr(
                        "{where}.wall is {wall}; the room has walls 0 to {last}",
                        where=where,
                        wall=opening.wall,
                        last=self.wall_count - 1,
                    )
                )
            self._check_inside(where, opening)
        self._check_apart()
        return self

    def _check_frame(self, wall: int, frame: FrameToBuild | RegularFrame | MeasuredFrame) -> None:
        # Rails read off a wall that is higher than the lining are in older files of measured frames.
        if isinstance(frame, MeasuredFrame):
            field, centres, end, words = "centres_mm", frame.centres_mm, self.wall_length_mm(wall), _STUD_PAST_WALL
        elif isinstance(frame, RegularFrame):
            field, centres, end, words = "rails_mm", frame.rails_mm, self.frame_head_mm, _RAIL_OVER_FRAME
        else:
            return
        for number, centre in enumerate(centres):
            if centre > end:
                where = f"frames.{wall}.{field}.{number}"
                raise ValueError(tr(words, where=where, centre=centre, wall=wall_letter(wall), length=end))

    def _check_inside(self, where: str, opening: Opening) -> None:
        length = self.wall_length_mm(opening.wall)
        if opening.right_mm > length + TOUCH_MM:
            raise ValueError(
                tr(
                    "{where}: left_mm + width_mm = {right:g} mm reaches past the end of wall {wall}, which is {length:g} mm long",
                    where=where,
                    right=opening.right_mm,
                    wall=wall_letter(opening.wall),
                    length=length,
                )
            )
        if opening.sill_mm >= self.clad_height_mm:
            raise ValueError(
                tr(
                    "{where}.sill_mm is {sill:g} mm; the lining ends at clad_height_mm = {lining:g} mm",
                    where=where,
                    sill=opening.sill_mm,
                    lining=self.clad_height_mm,
                )
            )
        if opening.head_mm > TALLEST_WALL_MM:
            raise ValueError(
                tr(
                    "{where}: sill_mm + height_mm = {head:g} mm; at most {most:g} mm",
                    where=where,
                    head=opening.head_mm,
                    most=TALLEST_WALL_MM,
                )
            )

    def _check_apart(self) -> None:
        for i, a in enumerate(self.openings):
            for j, b in enumerate(self.openings[:i]):
                if (
                    a.wall == b.wall
                    and max(a.left_mm, b.left_mm) + TOUCH_MM < min(a.right_mm, b.right_mm)
                    and max(a.sill_mm, b.sill_mm) + TOUCH_MM < min(a.head_mm, b.head_mm)
                ):
                    one, other, wall = f"openings.{j} ({b.id})", f"openings.{i} ({a.id})", wall_letter(a.wall)
                    raise ValueError(
                        tr("{opening} and {other} overlap on wall {wall}; move one", opening=one, other=other, wall=wall)
                    )


@lru_cache(maxsize=64)
def _runs_round_clockwise(corners_mm: tuple[Point, ...]) -> bool:
    """Whether walls meet at their corners only and run clockwise; remembered, for most edits leave the plan as it is."""
    plan = Polygon(corners_mm)
    return bool(plan.is_valid) and not plan.exterior.is_ccw


def _what_is_wrong(plan: Polygon) -> str:
    """What makes an outline no area, and where: the two parts of ``Self-intersection[1 2]``."""
    said, bracket, place = str(explain_validity(plan)).partition("[")
    return tr(said) + bracket + place


def wall_letter(wall: int) -> str:
    """The wall's letter as marks use it: A to Z, then AA, AB ..."""
    letters = ""
    wall += 1
    while wall:
        wall, rest = divmod(wall - 1, 26)
        letters = chr(ord("A") + rest) + letters
    return letters
