"""The kit of parts and the crew's rates: data a user can change, with the defaults this project assumes."""

from typing import Annotated, Self

from pydantic import Field, model_validator

from core.language import tr
from core.settings import Settings

Minutes = Annotated[float, Field(ge=0, le=10_000, allow_inf_nan=False)]
Factor = Annotated[float, Field(gt=0, le=100, allow_inf_nan=False)]
Millimetres = Annotated[float, Field(gt=0, le=1_000, allow_inf_nan=False)]


class MountRule(Settings):
    """Where a panel is screwed through: the kit's hole pattern and what a screw needs around it."""

    inset_pitches: int = Field(default=1, ge=1, le=8)
    """From the panel's edge to the hole, in pitches."""
    course: int = Field(default=4, ge=1, le=15)
    """The holes' course, counted from the bottom and again from the top."""
    clear_pitches: int = Field(default=2, ge=0, le=8)
    """Nothing but whole bricks within this distance of the pin-hole brick."""
    edge_mm: Millimetres = 8.0
    """Least distance from the screw's centre to the timber's edge (from memory: 2.5 diameters of a 3.2 mm screw)."""


class Kit(Settings):
    """Sizes every panel is made from; counts are pitches, courses and plates, so set-out stays in whole numbers."""

    pitch_mm: Millimetres = 8.0
    plate_mm: Millimetres = 3.2
    plates_per_course: int = Field(default=3, ge=1, le=12)
    thickness_pitches: int = Field(default=2, ge=1, le=8)
    full_courses: int = Field(default=31, ge=4, le=200)
    half_courses: int = Field(default=15, ge=3, le=199)
    least_closing_courses: int = Field(default=3, ge=1, le=199)
    widths_pitches: tuple[int, ...] = (19, 38)
    """Widths of the plain panels that the kit's sheets cover; the widest is the full panel."""
    legs_pitches: tuple[int, ...] = (19, 38)
    """Corner legs the kit's sheets cover, in any pair, measured along the frame side."""
    least_width_pitches: int = Field(default=8, ge=4, le=100)
    """Narrowest panel, and shortest corner leg, that set-out may plan."""
    fit_mm: Millimetres = 1.0
    """Play left between two frames that face each other: half of it at each."""
    head_gap_mm: Annotated[float, Field(ge=0, le=300, allow_inf_nan=False)] = 10.0
    """Most that may stay open under the lining's head; trim covers it."""
    mounts: MountRule = MountRule()

    @property
    def full_width(self) -> int:
        """Widest panel and longest leg, in pitches."""
        return max(self.widths_pitches)

    @property
    def half_width(self) -> int:
        """The half-width panel in pitches: half the full one, rounded up. Narrower panels are slivers."""
        return -(-self.full_width // 2)

    def row_plates(self, courses: int) -> int:
        """Height in plates of a row of ``courses`` brick courses, one plate course and the cap course."""
        return self.plates_per_course * courses + 2

    @model_validator(mode="after")
    def _sizes_agree(self) -> Self:
        if not self.widths_pitches or not self.legs_pitches:
            raise ValueError(tr("the kit needs at least one panel width and one corner leg"))
        if min(self.widths_pitches + self.legs_pitches) < self.least_width_pitches:
            raise ValueError(
                tr(
                    "a kit width or leg is narrower than least_width_pitches = {least_width_pitches}",
                    least_width_pitches=self.least_width_pitches,
                )
            )
        if self.full_width > 200 or max(self.legs_pitches) > self.full_width:
            raise ValueError(tr("the widest panel may have at most 200 pitches and no leg may be longer than it"))
        if self.full_width < 2 * self.least_width_pitches - 1:
            raise ValueError(tr("the full width must be at least twice least_width_pitches, less one, to fill every run"))
        if not self.least_closing_courses <= self.half_courses < self.full_courses:
            raise ValueError(tr("half_courses must lie from least_closing_courses up to below full_courses"))
        return self


class Rates(Settings):
    """What work costs, in crew minutes. Defaults are common practice, no published source."""

    build_full_panel: Minutes = 10.0
    plain_factor: Factor = 1.0
    shaped_factor: Factor = 1.5
    corner_factor: Factor = 2.0
    shaped_corner_factor: Factor = 3.0
    handling: Minutes = 4.0
    """Fetch, hang, screw and plug one panel."""
    setup: Minutes = 12.0
    """Once for each design that is not in the kit."""
    sliver: Minutes = 10.0
    weak: Minutes = 60.0
    blocking: Minutes = 6.0
    """Each mounting point with no timber behind it."""
