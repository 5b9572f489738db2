"""What the crew has done so far: facts about panels that no change of plan may lose.

A panel is known by its physical place and its design, not by its mark: marks are counted anew whenever a row is divided
otherwise, and what hangs on the wall does not care.
"""

from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from core.language import tr
from core.purchase import PartCount
from core.settings import Settings
from core.workforce import Day

PanelState = Literal["to build", "built", "checked", "hung", "taken out"]
STATES: tuple[PanelState, ...] = ("to build", "built", "checked", "hung", "taken out")

DesignName = Annotated[str, Field(min_length=1, max_length=80)]
Pitches = Annotated[int, Field(ge=0, le=100_000)]
Ingredients = Annotated[tuple[PartCount, ...], Field(max_length=400)]


class Step(Settings):
    """A change of state: what, when, by whom."""

    state: PanelState
    on: Day | None = None
    by: str = Field(default="", max_length=60)


class Span(Settings):
    """What a panel takes up of one wall's length, in pitches from the shell's left end."""

    wall: Annotated[int, Field(ge=0, le=1_000)]
    left_pitches: Pitches
    right_pitches: Annotated[int, Field(ge=1, le=100_000)]

    @model_validator(mode="after")
    def _runs_to_the_right(self) -> Self:
        if self.right_pitches <= self.left_pitches:
            raise ValueError(
                tr(
                    "found {left} to {right} pitches, should end right of where it begins",
                    left=self.left_pitches,
                    right=self.right_pitches,
                )
            )
        return self


class PanelRecord(Settings):
    """One panel's history, oldest step first.

    The place is the lowest left point of the panel's first face: wall, plates above the floor, pitches from the shell's left end.
    ``row_bottom_plates``, ``row_courses`` and ``spans`` say which row it stands in and what it takes up of each wall, so that a
    set-out can leave it hanging; records made before these were kept lack them.
    """

    wall: Annotated[int, Field(ge=0, le=1_000)]
    bottom_plates: Annotated[int, Field(ge=0, le=100_000)]
    left_pitches: Pitches
    design: DesignName
    steps: tuple[Step, ...] = Field(min_length=1, max_length=1_000)
    row_bottom_plates: Annotated[int, Field(ge=0, le=100_000)] | None = None
    row_courses: Annotated[int, Field(ge=1, le=1_000)] | None = None
    spans: tuple[Span, ...] = Field(default=(), max_length=8)
    """One for each wall the panel lies on, in the order of its faces."""
    parts: Ingredients = ()
    """What this panel was laid of, where that was not its design's recipe: in colours, or in a bond of its own."""

    @property
    def state(self) -> PanelState:
        return self.steps[-1].state

    @property
    def place(self) -> tuple[int, int, int, str]:
        """Wall, bottom in plates, left pitch and design: what tells this panel from every other."""
        return self.wall, self.bottom_plates, self.left_pitches, self.design

    @property
    def is_made(self) -> bool:
        """Whether there is such a panel, on a wall or off it."""
        return self.state != "to build"


class Recipe(Settings):
    """What a design took when its first panel was built; kept because a later change of plan may drop the design."""

    design: DesignName
    parts: Ingredients


class WrongPanel(Settings):
    """A panel that came out otherwise than its sheet: what it was meant to be and what it is.

    ``widths_pitches`` holds one width, or both legs of a corner panel, left one first.
    """

    meant_for: DesignName
    widths_pitches: tuple[Annotated[int, Field(ge=1, le=1_000)], ...] = Field(min_length=1, max_length=2)
    courses: Annotated[int, Field(ge=1, le=1_000)]
    is_outside_corner: bool = False
    parts: Ingredients = ()
    on: Day | None = None
    note: str = Field(default="", max_length=400)


class Progress(Settings):
    """Panels built, checked, hung and taken out, and those built wrong."""

    panels: tuple[PanelRecord, ...] = Field(default=(), max_length=100_000)
    recipes: tuple[Recipe, ...] = Field(default=(), max_length=10_000)
    wrong: tuple[WrongPanel, ...] = Field(default=(), max_length=10_000)
    ring_laid: Ingredients = ()
    """Plates laid in the starter ring."""

    @model_validator(mode="after")
    def _recorded_once(self) -> Self:
        places: set[tuple[int, int, int, str]] = set()
        for number, record in enumerate(self.panels):
            if record.place in places:
                raise ValueError(tr("panels.{number}: this place and design is recorded twice; keep one record", number=number))
            places.add(record.place)
        designs: set[str] = set()
        for number, recipe in enumerate(self.recipes):
            if recipe.design in designs:
                raise ValueError(
                    tr("recipes.{number}: {design!r} is listed twice; keep one", number=number, design=recipe.design)
                )
            designs.add(recipe.design)
        return self
