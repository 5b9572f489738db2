"""The parts panels are bonded from: what a brick is called, how large and heavy it is, and what is known about getting it."""

from collections.abc import Iterable
from typing import Annotated, Literal

from pydantic import AfterValidator, Field

from core.language import tr
from core.settings import Settings

PartKind = Literal["brick", "pin-hole brick", "plate", "tile", "locating plate", "plug", "floor plate"]

Grams = Annotated[float, Field(ge=0, le=10_000, allow_inf_nan=False)]
Count = Annotated[int, Field(ge=0, le=100_000_000)]


class Part(Settings):
    """One kind of part. ``length_pitches`` lies along the wall, ``depth_pitches`` through the panel's thickness.

    Bricks one pitch long lie crosswise. ``mass_g`` is an estimate from memory unless weighed.
    """

    name: str = Field(min_length=1, max_length=40)
    kind: PartKind
    length_pitches: int = Field(default=1, ge=1, le=64)
    depth_pitches: int = Field(default=2, ge=1, le=64)
    mass_g: Grams
    is_stocked: bool = True
    """Whether bonds may use it at all."""
    pack: int = Field(default=1, ge=1, le=1_000_000)
    """How many come in one box or bag where no supplier says otherwise."""
    price: Annotated[float, Field(ge=0, le=1_000_000, allow_inf_nan=False)] | None = None
    """Price of one, where no supplier says otherwise; None where nobody has asked yet."""


LONGEST_STOCKED_PITCHES = 4
"""Longer bricks and plates are dear and rarely bought by the thousand; they are known but not stocked unless the user says so."""


def _run(kind: PartKind, grams_by_length: dict[int, float], pack: int) -> tuple[Part, ...]:
    return tuple(
        Part(
            name=f"{kind} 2x{length}",
            kind=kind,
            length_pitches=length,
            mass_g=grams,
            pack=pack,
            is_stocked=length <= LONGEST_STOCKED_PITCHES,
        )
        for length, grams in grams_by_length.items()
    )


DEFAULT_PARTS: tuple[Part, ...] = (
    *_run("brick", {1: 0.8, 2: 1.2, 3: 1.8, 4: 2.3, 6: 3.4, 8: 4.5}, 600),
    Part(name="pin-hole brick 1x2", kind="pin-hole brick", length_pitches=2, depth_pitches=1, mass_g=0.8, pack=600),
    *_run("plate", {1: 0.4, 2: 0.6, 3: 0.9, 4: 1.1, 6: 1.6, 8: 2.1}, 600),
    *_run("tile", {1: 0.3, 2: 0.6, 3: 0.8, 4: 1.1}, 600),
    Part(name="locating plate 2x2", kind="locating plate", length_pitches=2, mass_g=0.6, pack=600),
    Part(name="plug", kind="plug", length_pitches=1, depth_pitches=1, mass_g=0.1, pack=600),
    Part(name="floor plate 2x8", kind="floor plate", length_pitches=8, mass_g=2.1, pack=600),
)
"""Masses are estimates from memory; 600 to a box, and 2x4 the longest stocked, are common practice."""


def named(parts: Iterable[Part], name: str) -> Part:
    """The part of that name; raises KeyError where there is none."""
    for part in parts:
        if part.name == name:
            return part
    raise KeyError(name)


def stocked(parts: Iterable[Part], kind: PartKind) -> tuple[Part, ...]:
    """The stocked parts of a kind, shortest first."""
    return tuple(sorted((p for p in parts if p.kind == kind and p.is_stocked), key=lambda part: part.length_pitches))


def _named_apart(parts: tuple[Part, ...]) -> tuple[Part, ...]:
    seen: set[str] = set()
    for number, part in enumerate(parts):
        if part.name in seen:
            raise ValueError(
                tr("{number}.name {name!r} is used twice; give every part its own name", number=number, name=part.name)
            )
        seen.add(part.name)
    return parts


Parts = Annotated[tuple[Part, ...], Field(min_length=1, max_length=400), AfterValidator(_named_apart)]
