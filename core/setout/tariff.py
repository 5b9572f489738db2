"""Crew minutes as whole numbers, so that costs add up and compare exactly whatever the order.

One unit is 1/1 000 minute divided by the area of a full panel, with room below it for tie-breaks.
"""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np
from numpy.typing import NDArray

from core.kit import Kit, Rates
from core.setout.layers import Layers

Ints = NDArray[np.int64]

TIE_ROOM = 1 << 16
PER_MINUTE = 1_000
UNREACHABLE = np.int64(1 << 61)

MakeUp = tuple[int, bool, bool]
"""What a piece is made of from the bottom: brick courses, whether a plate course, whether the cap course."""


def make_up(layers: Layers, low: int, high: int) -> MakeUp:
    """The make-up of the layers ``low`` up to, not including, ``high``."""
    plate = layers.courses
    return layers.courses_between(low, high), low <= plate < high, high == layers.count


@dataclass(frozen=True, slots=True)
class Tariff:
    """The rates in whole units, for one kit.

    ``build`` rates are per pitch-plate of area, ``full_area`` is that of a full panel.
    """

    kit: Kit
    full_area: int
    build_plain: int
    build_shaped: int
    build_corner: int
    build_shaped_corner: int
    handling: int
    setup: int
    sliver: int
    weak: int
    blocking: int

    def minutes(self, units: int) -> float:
        """Units back to minutes, tie-breaks dropped."""
        return (units // TIE_ROOM) / (PER_MINUTE * self.full_area)

    def is_kit_row(self, courses: int) -> bool:
        return courses in (self.kit.full_courses, self.kit.half_courses)

    def has_all_layers(self, made: MakeUp) -> bool:
        """Whether a make-up is that of a whole full or half-height panel."""
        return self.is_kit_row(made[0]) and made[1] and made[2]


MOST_UNITS = int(UNREACHABLE) // 2
"""Rooms whose costs could come to more are refused: they could not be told from UNREACHABLE."""


def tariff_of(kit: Kit, rates: Rates) -> Tariff:
    """Turn rates in minutes into whole units."""
    full_area = kit.full_width * kit.row_plates(kit.full_courses)

    def per_area(factor: float) -> int:
        return round(rates.build_full_panel * factor * PER_MINUTE) * TIE_ROOM

    def each(minutes: float) -> int:
        return round(minutes * PER_MINUTE) * full_area * TIE_ROOM

    return Tariff(
        kit=kit,
        full_area=full_area,
        build_plain=per_area(rates.plain_factor),
        build_shaped=per_area(rates.shaped_factor),
        build_corner=per_area(rates.corner_factor),
        build_shaped_corner=per_area(rates.shaped_corner_factor),
        handling=each(rates.handling),
        setup=each(rates.setup),
        sliver=each(rates.sliver),
        weak=each(rates.weak),
        blocking=each(rates.blocking),
    )


PlainKey = tuple[int, MakeUp]
CornerKey = tuple[str, int, int, MakeUp]


class Prices(NamedTuple):
    """What each use of a design outside the kit is charged while rows are solved one by one.

    Its set-up is spread over the pieces thought to share it; designs in ``open_plain`` and ``open_corner`` are set up already
    and free.
    """

    plain_shared_by: int
    corner_shared_by: int
    open_plain: frozenset[PlainKey] = frozenset()
    open_corner: frozenset[CornerKey] = frozenset()


class PriceList:
    """Prices laid out by size for one tariff."""

    def __init__(self, tariff: Tariff, prices: Prices) -> None:
        self._kit = tariff.kit
        self._is_kit_make = tariff.has_all_layers
        self.each = tariff.setup // prices.plain_shared_by
        """Charge for one use of a flat design or a shaped corner that is not in the kit, ``corner_each`` for a plain corner."""
        self.corner_each = tariff.setup // prices.corner_shared_by
        self._open = prices.open_plain
        self._open_corner = prices.open_corner
        self._plain: dict[MakeUp, Ints] = {}

    def plain(self, made: MakeUp) -> Ints:
        """Price of a plain piece by its width in pitches, shape (full_width + 1,)."""
        if made not in self._plain:
            by_width = np.full(self._kit.full_width + 1, self.each, dtype=np.int64)
            if self._is_kit_make(made):
                by_width[list(self._kit.widths_pitches)] = 0
            by_width[[width for width, other in self._open if other == made]] = 0
            self._plain[made] = by_width
        return self._plain[made]

    def corner(self, made: MakeUp, legs: Ints, kind: str) -> Ints:
        """Price of a plain piece around a corner of a kind by its left and right leg, shape (legs, legs)."""
        prices = np.full((len(legs), len(legs)), self.corner_each, dtype=np.int64)
        if self._is_kit_make(made):
            in_kit = np.isin(legs, self._kit.legs_pitches)
            prices[np.ix_(in_kit, in_kit)] = 0
        for open_kind, left, right, other in self._open_corner:
            if open_kind == kind and other == made:
                prices[legs == left, legs == right] = 0
        return prices
