"""What is known about getting parts: what came in, spares, suppliers with their offers, and the budget."""

from itertools import pairwise
from typing import Annotated, Self

from pydantic import Field, model_validator

from core.language import tr
from core.settings import Settings

Name = Annotated[str, Field(min_length=1, max_length=60)]
Colour = Annotated[str, Field(min_length=1, max_length=40)]
Money = Annotated[float, Field(ge=0, le=1_000_000_000, allow_inf_nan=False)]
Pieces = Annotated[int, Field(ge=0, le=100_000_000)]
Packs = Annotated[int, Field(ge=1, le=1_000_000)]
Percent = Annotated[float, Field(ge=0, le=300, allow_inf_nan=False)]


class PartCount(Settings):
    """So many of one part; ``colour`` is None where the job has one colour."""

    part: Name
    colour: Colour | None = None
    count: Pieces


class Received(Settings):
    """All pieces of one part that ever came to the job, bricks now in panels included, and those lost or broken since.

    What lies in the boxes is ``count - lost`` less what is in panels.
    """

    part: Name
    colour: Colour | None = None
    count: Pieces
    lost: Pieces = 0


class PriceBreak(Settings):
    """From so many packs on, every pack of the order costs this much."""

    from_packs: Annotated[int, Field(ge=2, le=1_000_000)]
    price: Money


class Offer(Settings):
    """One part as a supplier sells it. ``price`` is of one pack; None where the supplier has not said."""

    part: Name
    colour: Colour | None = None
    pack: Packs = 1
    """Pieces in a pack."""
    price: Money | None = None
    breaks: tuple[PriceBreak, ...] = Field(default=(), max_length=20)
    most_packs: Packs | None = None
    """The most the supplier can send; None where there is no limit."""

    @model_validator(mode="after")
    def _breaks_rise(self) -> Self:
        for before, after in pairwise(self.breaks):
            if after.from_packs <= before.from_packs:
                raise ValueError(
                    tr(
                        "breaks hold {before} and then {after} packs; list them by rising from_packs",
                        before=before.from_packs,
                        after=after.from_packs,
                    )
                )
        if self.breaks and self.price is None:
            raise ValueError(tr("breaks are given without a price; give the price of a single pack too"))
        return self


class Supplier(Settings):
    """Someone parts can be ordered from."""

    name: Name
    offers: tuple[Offer, ...] = Field(default=(), max_length=2_000)
    shipping: Money = 0.0
    """Once per order."""
    free_shipping_from: Money | None = None
    """Order value, without shipping, from which shipping costs nothing."""
    minimum_order: Money = 0.0
    """Least order value, without shipping."""


class Purchase(Settings):
    """Everything buying needs to know; defaults mean that nothing is known yet."""

    received: tuple[Received, ...] = Field(default=(), max_length=5_000)
    spare_percent: Percent = 3.0
    """Bought on top of what panels take, for what gets lost or breaks. Common practice, no published source."""
    suppliers: tuple[Supplier, ...] = Field(default=(), max_length=50)
    currency: str = Field(default="", max_length=8)
    """Written before amounts of money; it converts nothing."""
    budget: Money | None = None
    heaviest_box_kg: Annotated[float, Field(gt=0, le=100, allow_inf_nan=False)] = 15.0
    """A box packed on site may weigh no more; below the 16 kg at which the HSE's lifting filter (INDG143) begins, from memory."""

    @model_validator(mode="after")
    def _named_once(self) -> Self:
        names: set[str] = set()
        for number, supplier in enumerate(self.suppliers):
            if supplier.name in names:
                raise ValueError(
                    tr(
                        "suppliers.{number}.name {name!r} is used twice; give every supplier its own name",
                        number=number,
                        name=supplier.name,
                    )
                )
            names.add(supplier.name)
        parts: set[tuple[str, str | None]] = set()
        for number, line in enumerate(self.received):
            if (line.part, line.colour) in parts:
                raise ValueError(
                    tr("received.{number}: {part!r} is listed twice; add the counts up", number=number, part=line.part)
                )
            parts.add((line.part, line.colour))
            if line.lost > line.count:
                raise ValueError(
                    tr(
                        "received.{number}.lost is {lost}; no more can be lost than the {count} that came",
                        number=number,
                        lost=line.lost,
                        count=line.count,
                    )
                )
        return self
