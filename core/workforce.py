"""Who builds, when, how fast, and how much faster with practice."""

from datetime import date
from typing import Annotated, Literal, Self

from pydantic import AfterValidator, Field, model_validator

from core.language import tr
from core.settings import Settings


def _is_a_day(text: str) -> str:
    try:
        found = date.fromisoformat(text)
    except ValueError:
        raise ValueError(tr("found {text!r}, should be a date like {wanted}", text=text[:20], wanted="2027-05-31")) from None
    if found.isoformat() != text:
        raise ValueError(tr("found {text!r}, should be a date like {wanted}", text=text[:20], wanted=found.isoformat()))
    return text


Day = Annotated[str, Field(max_length=20), AfterValidator(_is_a_day)]
"""A date as ISO 8601 writes it, 2027-05-31; such texts sort by date."""

Duty = Literal["build", "hang", "both"]
LearningModel = Literal["unit", "cumulative average"]
Make = Literal["plain", "shaped", "corner", "shaped corner"]
Work = Literal["build", "handling", "setup"]
Weekday = Literal["mon", "tue", "wed", "thu", "fri", "sat", "sun"]
WEEKDAYS: tuple[Weekday, ...] = ("mon", "tue", "wed", "thu", "fri", "sat", "sun")

Hours = Annotated[float, Field(ge=0.25, le=23.5, allow_inf_nan=False)]
Timed = Annotated[float, Field(gt=0, le=100_000, allow_inf_nan=False)]


class Person(Settings):
    """A helper. Without ``starts_on`` they are there from the first day."""

    name: str = Field(min_length=1, max_length=60)
    hours_per_day: Hours = 6.0
    starts_on: Day | None = None
    duty: Duty = "both"


class Timing(Settings):
    """A stopwatch reading: so many minutes for so many panels of one design, or the set-up of one."""

    work: Work
    design: str = Field(min_length=1, max_length=80)
    make: Make = "plain"
    area: Annotated[float, Field(gt=0, le=1_000, allow_inf_nan=False)] = 1.0
    """The design's area in full panels, noted with the reading so that it counts even when the design is gone."""
    panels: Annotated[int, Field(ge=1, le=100_000)] = 1
    minutes: Timed
    panels_before: Annotated[int, Field(ge=0, le=1_000_000)] = 0
    """How many panels this person had built before, so that practice is not counted twice."""
    on: Day | None = None


class Workforce(Settings):
    """The crew as a person described it; defaults mean that nobody is named yet."""

    people: tuple[Person, ...] = Field(default=(), max_length=200)
    starts_on: Day | None = None
    """First day of work; without it the plan counts days."""
    workdays: tuple[Weekday, ...] = Field(default=("mon", "tue", "wed", "thu", "fri"), min_length=1, max_length=7)
    days_off: tuple[Day, ...] = Field(default=(), max_length=1_000)
    benches: Annotated[int, Field(ge=1, le=100)] = 2
    """Places to build at; one person works at each."""
    kits_per_bench: Annotated[int, Field(ge=1, le=200)] = 4
    """Panels' worth of parts laid out at a bench at a time."""
    hangers: Annotated[int, Field(ge=1, le=100)] = 1
    """People hanging at the same time at most."""
    hang_from: Annotated[int, Field(ge=1, le=10_000)] = 8
    """Finished panels waiting before somebody who does both leaves the bench to hang them."""
    learning_model: LearningModel = "unit"
    learning_rate: Annotated[float, Field(ge=0.5, le=1.0, allow_inf_nan=False)] = 1.0
    """Time left over each time the number of panels built doubles; 1.0 is no learning."""
    learning_floor: Annotated[float, Field(ge=0.05, le=1.0, allow_inf_nan=False)] = 0.4
    """Nobody gets faster than this share of their first panel's time."""
    spread_percent: Annotated[float, Field(ge=0, le=200, allow_inf_nan=False)] = 25.0
    """How much one panel's minutes scatter, as a standard deviation. Common practice, no published source."""
    rates_off_percent: Annotated[float, Field(ge=0, le=200, allow_inf_nan=False)] = 15.0
    """How far all rates together may be off, as a standard deviation. Common practice, no published source."""
    timings: tuple[Timing, ...] = Field(default=(), max_length=5_000)

    @model_validator(mode="after")
    def _named_once(self) -> Self:
        seen: set[str] = set()
        for number, person in enumerate(self.people):
            if person.name in seen:
                raise ValueError(
                    tr(
                        "people.{number}.name {name!r} is used twice; give everybody their own name",
                        number=number,
                        name=person.name,
                    )
                )
            seen.add(person.name)
        if len(set(self.workdays)) < len(self.workdays):
            raise ValueError(tr("workdays names a day twice; name each once"))
        return self
