"""From a shape to its bond: fewest faults, then fewest parts, then fewest sizes."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache

from core.bond.faults import faults_of
from core.bond.legs import Leg, legs_of, throughs
from core.bond.palette import FILLS, FillKind, Palette, StockError, missing_piece
from core.bond.path import bond_leg
from core.bond.patterns import PART, Pattern, Prices
from core.bond.result import Bond, Laid, Layer
from core.bond.shape import PanelShape, ShapeLayer
from core.bond.tilings import NEVER, fewest_pieces

MOST_KEPT = 1024


@dataclass(frozen=True, slots=True)
class _Laid:
    """A whole shape laid: the legs as read, the patterns chosen on each, and what they cost."""

    legs: tuple[Leg, ...]
    patterns: tuple[tuple[Pattern, ...], ...]
    cost: int


@lru_cache(maxsize=MOST_KEPT)
def bond_shape(shape: PanelShape, palette: Palette) -> Bond:
    """The bond of a shape, its design left unnamed. Raises StockError where the stocked parts cannot fill it."""
    fewest = fewest_parts(shape, palette)
    laid = _cheapest(shape, palette)
    laid = _with_fewer_sizes(shape, palette, laid)
    layers = tuple(_layer(palette, n, layer, laid) for n, layer in enumerate(shape.layers))
    return Bond("", shape.legs, layers, fewest, faults_of(shape, layers, palette), shape.mounts)


def fewest_parts(shape: PanelShape, palette: Palette) -> int:
    """A number of parts, plugs included, that no bond of the shape can do with less than: every run filled for itself."""
    return min(_least(legs_of(shape, through, palette), palette) for through in throughs(shape, palette.depth)) + shape.mounts


def _least(legs: Sequence[Leg], palette: Palette) -> int:
    total = 0
    for leg in legs:
        for layer, fixed in zip(leg.layers, leg.fixed, strict=True):
            lengths = tuple(piece.length for piece in palette.pieces(layer.fill))
            runs = [right - left for left, right in layer.free]
            total += len(fixed) + sum(_pieces_for(run, lengths, layer.fill, palette.depth) for run in runs)
    return total


def _pieces_for(run: int, lengths: tuple[int, ...], fill: FillKind, deep: int) -> int:
    if not lengths:
        raise missing_piece(fill, deep)
    count = fewest_pieces(run, lengths)[run]
    if count == NEVER:
        stocked = ", ".join(str(length) for length in lengths)
        raise StockError(
            f"parts: no {fill}s fill a run of {run} pitches; those stocked are {stocked} pitches long. "
            f"Set is_stocked on shorter ones, such as {fill} {deep}x1 or {deep}x2"
        )
    return count


def _cheapest(shape: PanelShape, palette: Palette, prices: dict[FillKind, Prices] | None = None) -> _Laid:
    prices = prices or usual_prices(palette)
    found = []
    for through in throughs(shape, palette.depth):
        legs = legs_of(shape, through, palette)
        bonded = [bond_leg(leg, prices) for leg in legs]
        fixed = sum(len(parts) for leg in legs for parts in leg.fixed)
        cost = sum(leg.cost for leg in bonded) + fixed * PART
        found.append(_Laid(legs, tuple(leg.patterns for leg in bonded), cost))
    return min(found, key=lambda laid: laid.cost)


def usual_prices(palette: Palette) -> dict[FillKind, Prices]:
    """One part costs as much as another, but for a little that keeps rare sizes out where they gain nothing."""
    return {
        kind: tuple((piece.length, PART + _rarity(piece.length, palette.pieces(kind)[-1].length)) for piece in palette.pieces(kind))
        for kind in FILLS.values()
    }


def _rarity(length: int, longest: int) -> int:
    """Longest and half-longest pieces are every bond's mainstay."""
    return 0 if length in (longest, longest // 2) else 1


def _with_fewer_sizes(shape: PanelShape, palette: Palette, laid: _Laid) -> _Laid:
    """The same without some of its sizes, as long as that takes no more faults and no more parts; the rarest go first."""
    while True:
        used = Counter(name for name, _ in _pieces(palette, laid))
        for name, _ in sorted(used.items(), key=lambda item: (item[1], item[0])):
            found = _without(shape, palette, name, laid.cost // PART)
            if found is not None:
                palette, laid = palette.without(name), found
                break
        else:
            return laid


def _without(shape: PanelShape, palette: Palette, name: str, most: int) -> _Laid | None:
    fewer = palette.without(name)
    try:
        fewest_parts(shape, fewer)
    except StockError:
        return None
    found = _cheapest(shape, fewer)
    return found if found.cost // PART <= most else None


def _pieces(palette: Palette, laid: _Laid) -> list[tuple[str, int]]:
    return [
        (palette.name(layer.fill, length), length)
        for leg, patterns in zip(laid.legs, laid.patterns, strict=True)
        for layer, pattern in zip(leg.layers, patterns, strict=True)
        for _, length in pattern
    ]


def _layer(palette: Palette, n: int, layer: ShapeLayer, laid: _Laid) -> Layer:
    parts: list[Laid] = []
    for number, (leg, patterns) in enumerate(zip(laid.legs, laid.patterns, strict=True)):
        fill = leg.layers[n].fill
        filling = [Laid(palette.name(fill, length), number, left, length) for left, length in patterns[n]]
        parts += sorted((*filling, *leg.fixed[n]), key=lambda part: (part.at, part.side or 0))
    return Layer(layer.kind, layer.z_plates, layer.height_plates, tuple(parts))
