"""What a person wants to stay as it is, whatever else set-out would prefer. Places are wall-local millimetres."""

from typing import Annotated, Literal

from pydantic import Field

from core.settings import Settings

Along = Annotated[float, Field(ge=-1_000, le=100_000, allow_inf_nan=False)]
Height = Annotated[float, Field(ge=0, le=12_000, allow_inf_nan=False)]
Wall = Annotated[int, Field(ge=0, le=199)]
Pitches = Annotated[int, Field(ge=1, le=200)]
Courses = Annotated[int, Field(ge=1, le=200)]


class JointPin(Settings):
    """A joint at ``x_mm`` in the row that holds ``z_mm``; in every row where that is left out."""

    kind: Literal["joint"]
    wall: Wall
    x_mm: Along
    z_mm: Height | None = None


class PanelPin(Settings):
    """One undivided panel ``width_pitches`` wide from ``left_mm`` on."""

    kind: Literal["panel"]
    wall: Wall
    left_mm: Along
    width_pitches: Pitches
    z_mm: Height | None = None


class LegPin(Settings):
    """The length of the corner leg at one end of a wall."""

    kind: Literal["leg"]
    wall: Wall
    end: Literal["left", "right"]
    pitches: Pitches
    z_mm: Height | None = None


class RowsPin(Settings):
    """The whole row stack, by courses from the floor up."""

    kind: Literal["rows"]
    courses: tuple[Courses, ...] = Field(min_length=1, max_length=200)


Pin = Annotated[JointPin | PanelPin | LegPin | RowsPin, Field(discriminator="kind")]
Pins = Annotated[tuple[Pin, ...], Field(max_length=2_000)]
