"""What so many packs of an offer cost, price breaks counted."""

import math
from dataclasses import dataclass

from core.purchase import Offer


@dataclass(frozen=True, slots=True)
class Tier:
    """From ``least`` to ``most`` packs, every pack of the order costs ``price``; ``most`` None has no end."""

    least: int
    most: int | None
    price: float


def tiers(offer: Offer) -> tuple[Tier, ...]:
    """An offer's prices by number of packs, lowest number first; none where no price is given."""
    if offer.price is None:
        return ()
    starts = [(1, offer.price), *((step.from_packs, step.price) for step in offer.breaks)]
    ends = [start - 1 for start, _ in starts[1:]] + [offer.most_packs]
    found = (Tier(start, end, price) for (start, price), end in zip(starts, ends, strict=True))
    most = offer.most_packs
    return tuple(
        tier if most is None else Tier(tier.least, min(most, tier.most or most), tier.price)
        for tier in found
        if most is None or tier.least <= most
    )


def price_at(offer: Offer, packs: int) -> float | None:
    """Price of one pack when so many are ordered; None where no price is given."""
    price = offer.price
    for step in offer.breaks:
        if packs >= step.from_packs:
            price = step.price
    return price


def packs_for(pieces: int, pack: int) -> int:
    """Whole packs that hold at least so many pieces."""
    return math.ceil(pieces / pack)
