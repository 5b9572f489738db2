"""Which bricks are laid in which colour: the colours there are, and rules for where they go.

Rules are heeded in order, and a later one lies over an earlier one. Without rules and without a colour for the rest, the job has
one colour and nobody need say which.
"""

import base64
import binascii
from typing import Annotated, Literal, Self

from pydantic import Field, model_validator

from core.language import marked, tr
from core.purchase import Colour as ColourName
from core.settings import Settings

MOST_COLUMNS, MOST_LINES = 400, 250
"""Cells a picture may have: a wall of some three metres has as many pitches and courses."""

Wall = Annotated[int, Field(ge=0, le=1_000)]
Height = Annotated[float, Field(ge=0, le=12_000, allow_inf_nan=False)]
Along = Annotated[float, Field(ge=-100_000, le=100_000, allow_inf_nan=False)]
Size = Annotated[float, Field(ge=1, le=400_000, allow_inf_nan=False)]
Way = Literal["nearest", "dithered"]


class BrickColour(Settings):
    """A colour bricks come in. ``code`` is what is lettered on a brick; ``srgb`` only shows it, no brick is mixed by it."""

    name: ColourName
    code: Annotated[str, Field(pattern=r"^[a-z]{1,2}$")]
    srgb: Annotated[str, Field(pattern=r"^#[0-9a-f]{6}$")]
    is_stocked: bool = True
    """Whether rules may ask for it and pictures may use it."""


class RoomRule(Settings):
    """Every brick of the room."""

    kind: Literal["room"]
    colour: ColourName


class WallRule(Settings):
    """Every brick seen on a wall."""

    kind: Literal["wall"]
    colour: ColourName
    wall: Wall


class BandRule(Settings):
    """Every layer whose middle lies between two heights, on some walls or, where none is named, on all."""

    kind: Literal["band"]
    colour: ColourName
    from_mm: Height
    to_mm: Height
    walls: tuple[Wall, ...] = Field(default=(), max_length=200)

    @model_validator(mode="after")
    def _runs_upwards(self) -> Self:
        if self.to_mm <= self.from_mm:
            raise ValueError(
                tr(
                    "found a band from {low:g} mm to {high:g} mm; it must end above where it begins",
                    low=self.from_mm,
                    high=self.to_mm,
                )
            )
        return self


class PanelRule(Settings):
    """One panel, or some of its layers. Known by the lowest left point of its first face, as panels built are, never by its mark:

    marks are counted anew whenever a row is divided otherwise. What design hangs there does not matter.
    ``layers`` count from 1 at the panel's bottom, the plate course and the cap course last; none means all of them.
    """

    kind: Literal["panel"]
    colour: ColourName
    wall: Wall
    bottom_plates: Annotated[int, Field(ge=0, le=100_000)]
    left_pitches: Annotated[int, Field(ge=0, le=100_000)]
    layers: tuple[Annotated[int, Field(ge=1, le=1_000)], ...] = Field(default=(), max_length=1_000)


class PictureRule(Settings):
    """A picture laid as a mosaic. It may run on round the corner, onto the walls to the right.

    ``srgb`` holds three bytes for every cell, line by line from the top left, in base64. Cells are no bricks yet: the wall's
    pitches and courses take the mean of what of the picture lies over them.
    """

    kind: Literal["picture"]
    name: Annotated[str, Field(min_length=1, max_length=120)]
    wall: Wall
    left_mm: Along
    bottom_mm: Annotated[float, Field(ge=-12_000, le=12_000, allow_inf_nan=False)]
    width_mm: Size
    height_mm: Annotated[float, Field(ge=1, le=24_000, allow_inf_nan=False)]
    way: Way = "nearest"
    """Every cell the nearest colour, or errors handed on to the cells beside, so that tones between show as a mixture."""
    columns: Annotated[int, Field(ge=1, le=MOST_COLUMNS)]
    lines: Annotated[int, Field(ge=1, le=MOST_LINES)]
    srgb: Annotated[str, Field(max_length=4 * MOST_COLUMNS * MOST_LINES)]

    @model_validator(mode="after")
    def _is_a_picture(self) -> Self:
        try:
            found = len(self.cells)
        except (binascii.Error, ValueError):
            raise ValueError(tr("srgb is not base64; take the picture up anew")) from None
        needed = 3 * self.columns * self.lines
        if found != needed:
            raise ValueError(
                tr(
                    "srgb holds {found} bytes; {columns} columns by {lines} lines need {needed}",
                    found=found,
                    columns=self.columns,
                    lines=self.lines,
                    needed=needed,
                )
            )
        return self

    @property
    def cells(self) -> bytes:
        """Red, green and blue of every cell from the top left."""
        return base64.b64decode(self.srgb, validate=True)


Rule = Annotated[RoomRule | WallRule | BandRule | PanelRule | PictureRule, Field(discriminator="kind")]

DEFAULT_COLOURS: tuple[BrickColour, ...] = tuple(
    BrickColour(name=name, code=code, srgb=srgb)
    for name, code, srgb in (
        ("white", "w", "#f6f5f1"),
        ("chalk", "c", "#d9d6cb"),
        ("sand", "s", "#d9c08c"),
        ("honey", "h", "#e2a52f"),
        ("terracotta", "t", "#c8703f"),
        ("brick red", "b", "#98342a"),
        ("plum", "p", "#6b3a5e"),
        ("azure", "a", "#86b4d2"),
        ("dusk blue", "d", "#35567f"),
        ("moss", "m", "#77853f"),
        ("fir", "f", "#2a4f3d"),
        ("umber", "u", "#5c4333"),
        ("slate", "e", "#646b70"),
        ("black", "k", "#1d2023"),
    )
)
"""Plain names of this project's own; the values are chosen to be told apart on screen and match no maker's bricks."""


_NOT_STOCKED = marked("{where} {name!r} is not stocked; stock it or choose one of those that are: {offered}")
_NOT_LISTED = marked("{where} {name!r} is not in the list of colours; stock it or choose one of those that are: {offered}")


class Colouring(Settings):
    """Colours by room, wall, band, panel, course and picture; without any, the job has one colour."""

    colours: tuple[BrickColour, ...] = Field(default=DEFAULT_COLOURS, min_length=1, max_length=120)
    rest: ColourName | None = None
    """The colour of everything no rule speaks of; None where it may be any."""
    rules: tuple[Rule, ...] = Field(default=(), max_length=500)

    @property
    def is_plain(self) -> bool:
        """Whether nobody has said anything about colours."""
        return self.rest is None and not self.rules

    @property
    def stocked(self) -> tuple[BrickColour, ...]:
        return tuple(colour for colour in self.colours if colour.is_stocked)

    def colour(self, name: str) -> BrickColour:
        """The colour of that name; raises KeyError where there is none."""
        for colour in self.colours:
            if colour.name == name:
                return colour
        raise KeyError(name)

    @model_validator(mode="after")
    def _colours_are_there(self) -> Self:
        for field in ("name", "code"):
            seen: set[str] = set()
            for number, colour in enumerate(self.colours):
                if (value := getattr(colour, field)) in seen:
                    raise ValueError(
                        tr(
                            "colours.{number}.{field} {value!r} is used twice; give every colour its own",
                            number=number,
                            field=field,
                            value=value,
                        )
                    )
                seen.add(value)
        self._check("rest", self.rest)
        for number, rule in enumerate(self.rules):
            if not isinstance(rule, PictureRule):
                self._check(f"rules.{number}.colour", rule.colour)
            elif not self.stocked:
                raise ValueError(
                    tr("rules.{number} is a picture, and no colour is stocked to lay it in; stock at least one", number=number)
                )
        return self

    def _check(self, where: str, name: str | None) -> None:
        stocked = {colour.name: colour.is_stocked for colour in self.colours}
        if name is None or stocked.get(name):
            return
        offered = ", ".join(known for known, is_stocked in stocked.items() if is_stocked) or tr("none")
        raise ValueError(
            tr(
                _NOT_STOCKED if name in stocked else _NOT_LISTED,
                where=where,
                name=name,
                offered=offered,
            )
        )
