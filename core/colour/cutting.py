"""A panel bonded anew so that bricks end where colours do: course by course from the bottom, each the best over the one below.

What a piece and its bearing cost is what ``core.bond`` charges. Joints in line are not forbidden here, as they are there: a line
between two colours may run straight up for a few courses. It costs more with every course, until a brick that bridges the line
and shows a pitch or two in the wrong colour is the lesser evil: else the panel would fall apart along the line.
"""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from functools import lru_cache

from core.bond.faults import faults_of
from core.bond.legs import Leg, LegLayer, legs_of, throughs
from core.bond.palette import FillKind, Palette
from core.bond.patterns import LEAST_LAP_PITCHES, PART, Pattern, Prices, Tariff
from core.bond.result import Bond, Laid, Layer
from core.bond.shape import PanelShape, Run
from core.bond.solving import bond_shape, usual_prices

Line = tuple[int, ...]
"""The wished colour of every pitch of one layer on one leg."""
Wished = tuple[tuple[Line, ...], ...]
"""By leg, then by layer from the bottom."""

MOST_KEPT = 1024

MISSED = 8 * PART
"""A pitch that shows another colour than wished."""
SHORT_LAP = PART
IN_LINE = (0, 2 * PART, 5 * PART, 60 * PART)
"""A joint on top of so many in line, the last figure for that many or more."""
NEVER_IN_LINE = (0, 60 * PART)
"""Tried where the other leaves parts loose: few layers beside an opening may have no brick that bridges."""
InLine = tuple[int, ...]


@dataclass(frozen=True, slots=True)
class _LegBond:
    """One leg laid: the pieces of every layer, and what they cost together."""

    leg: Leg
    patterns: tuple[Pattern, ...]
    cost: int


@lru_cache(maxsize=MOST_KEPT)
def cut_bond(shape: PanelShape, palette: Palette, wished: Wished) -> Bond | None:
    """The bond of a shape for the wished colours, its design left unnamed; None where every such bond leaves parts loose.

    Raises StockError as bonding does.
    """
    plain = bond_shape(shape, palette)
    for in_line in (IN_LINE, NEVER_IN_LINE):
        made = _made(shape, palette, plain, wished, in_line)
        if _loose(made) <= _loose(plain):
            return made
    return None


def _loose(bond: Bond) -> int:
    return sum(fault.kind == "loose" for fault in bond.faults)


def _made(shape: PanelShape, palette: Palette, plain: Bond, wished: Wished, in_line: InLine) -> Bond:
    prices = usual_prices(palette)
    ways = [
        [_laid(leg, lines, prices, in_line) for leg, lines in zip(legs_of(shape, through, palette), wished, strict=True)]
        for through in throughs(shape, palette.depth)
    ]
    legs = min(ways, key=lambda way: sum(leg.cost for leg in way))
    layers = tuple(_layer(palette, number, layer, legs) for number, layer in enumerate(plain.layers))
    made = replace(plain, layers=layers, faults=())
    return replace(made, faults=faults_of(shape, made))


def _laid(leg: Leg, lines: Sequence[Line], prices: dict[FillKind, Prices], in_line: InLine) -> _LegBond:
    patterns: list[Pattern] = []
    stacked: dict[int, int] = {}
    total = 0
    for number, (layer, line) in enumerate(zip(leg.layers, lines, strict=True)):
        above = leg.layers[number + 1].forced if number + 1 < len(leg.layers) else ()
        course = _Course(layer, line, prices[layer.fill], _weights(stacked, above, in_line))
        found = [course.fill(*run) for run in layer.free]
        pattern = tuple(piece for _, pieces in found for piece in pieces)
        begins = {left for left, _ in layer.free}
        joints = {*(left for left, _ in pattern if left not in begins), *layer.forced}
        stacked = {x: stacked.get(x, 0) + 1 for x in joints}
        patterns.append(pattern)
        total += sum(cost for cost, _ in found)
    return _LegBond(leg, tuple(patterns), total)


class _Course:
    """One layer on one leg, to be filled over joints that are known."""

    def __init__(self, layer: LegLayer, line: Line, prices: Prices, weights: dict[int, int]) -> None:
        self._tariff = Tariff(layer, prices)
        self._line = line
        self._lengths = tuple(length for length, _ in prices)
        self._weights = weights

    def fill(self, left: int, right: int) -> tuple[int, Pattern]:
        """The cheapest filling of a run, and its cost: a shortest path along the run."""
        best: list[tuple[int, int] | None] = [(0, 0)]
        for x in range(left + 1, right + 1):
            joint = self._weights.get(x, 0) + self._tariff.joint(x) if x < right else 0
            options = []
            for length in self._lengths:
                before = best[x - length - left] if x - length >= left else None
                if before is not None:
                    options.append((before[0] + joint + self._piece(x - length, length), length))
            best.append(min(options, default=None))
        return _traced(best, left, right)

    def _piece(self, at: int, length: int) -> int:
        return self._tariff.piece(at, length) + MISSED * majority(under(self._line, at, length))[1]


def _weights(stacked: dict[int, int], above: tuple[int, ...], in_line: InLine) -> dict[int, int]:
    """What a joint on each line costs for those in line below it and those that must lie above it."""
    found: dict[int, int] = {}
    for x, count in [*stacked.items(), *((x, 1) for x in above)]:
        found[x] = found.get(x, 0) + in_line[min(count, len(in_line) - 1)]
        for apart in range(1, LEAST_LAP_PITCHES):
            for beside in (x - apart, x + apart):
                found[beside] = found.get(beside, 0) + SHORT_LAP
    return found


def _traced(best: Sequence[tuple[int, int] | None], left: int, right: int) -> tuple[int, Pattern]:
    found: list[Run] = []
    x = right
    while x > left:
        entry = best[x - left]
        if entry is None:
            raise ValueError(f"a run of {right - left} pitches cannot be filled")
        found.append((x - entry[1], entry[1]))
        x -= entry[1]
    last = best[-1]
    return (last[0] if last else 0), tuple(reversed(found))


def under(line: Line, at: int, length: int) -> list[int]:
    """The wishes under a piece; round an outside corner a leg reaches further than its wall, and goes on as it ends."""
    return [line[min(max(pitch, 0), len(line) - 1)] for pitch in range(at, at + length)]


def majority(colours: Sequence[int]) -> tuple[int, int]:
    """The colour most pitches wish for, of equals the one further left; and how many wish for another."""
    first = colours[0]
    most, count = first, colours.count(first)
    for colour in colours[1:]:
        if colour != most and (number := colours.count(colour)) > count:
            most, count = colour, number
    return most, len(colours) - count


def _layer(palette: Palette, number: int, layer: Layer, legs: Sequence[_LegBond]) -> Layer:
    laid: list[Laid] = []
    for leg_number, found in enumerate(legs):
        fill = found.leg.layers[number].fill
        pieces = [Laid(palette.name(fill, length), leg_number, left, length) for left, length in found.patterns[number]]
        laid += sorted((*pieces, *found.leg.fixed[number]), key=lambda one: (one.at, one.side or 0))
    return replace(layer, laid=tuple(laid))
