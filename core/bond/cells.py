"""Which cells of the plan a part covers, so that parts of two legs meet in the corner's square."""

from core.bond.result import Bond, Laid
from core.bond.shape import Run

Cell = tuple[int, int, int]
"""Leg, pitch and place through the thickness. Cells of the corner's square all count as the left leg's."""


def corner_square(legs: tuple[int, ...], corner: str | None, depth: int, leg: int) -> Run | None:
    """The corner's own square in a leg's pitches; None for a flat panel."""
    if corner is None:
        return None
    begin = legs[0] - depth if leg == 0 else 0
    shift = 0 if corner == "inside" else depth if leg == 0 else -depth
    return begin + shift, begin + shift + depth


def cells_of(bond: Bond, laid: Laid) -> list[Cell]:
    """The cells a part covers; each carries one knob."""
    sides = range(bond.depth) if laid.side is None else (laid.side,)
    pitches = range(laid.at, laid.at + laid.length)
    if laid.leg == 0:
        return [(0, x, side) for x in pitches for side in sides]
    square = corner_square(bond.legs, bond.corner, bond.depth, 1)
    shift = corner_square(bond.legs, bond.corner, bond.depth, 0)
    if square is None or shift is None:
        return [(1, x, side) for x in pitches for side in sides]
    return [
        # In the square the right leg's pitches run through the left leg's thickness.
        (0, shift[0] + side, x - square[0]) if square[0] <= x < square[1] else (1, x, side)
        for x in pitches
        for side in sides
    ]
