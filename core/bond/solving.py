"""From a shape to its bond: fewest faults, then fewest parts, then fewest sizes."""

from collections import Counter
from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace
from functools import lru_cache
from typing import cast

from core.bond.faults import faults_of
from core.bond.legs import Leg, legs_of, throughs
from core.bond.palette import FILLS, FillKind, Palette, StockError, missing_piece
from core.bond.path import Bonded, LegSearch, Size
from core.bond.patterns import PART, Prices
from core.bond.result import Bond, Laid, Layer
from core.bond.shape import PanelShape, ShapeLayer
from core.bond.tilings import NEVER, fewest_pieces
from core.language import marked, tr
from core.setout.kept import Kept

MOST_KEPT = 256
MOST_READ = 64


@dataclass(frozen=True, slots=True)
class _Laid:
    """A whole shape laid: the legs as read, the searches that laid them, and what they found."""

    legs: tuple[Leg, ...]
    searches: tuple[LegSearch, ...]
    bonded: tuple[Bonded, ...]

    @property
    def cost(self) -> int:
        return sum(leg.cost for leg in self.bonded)


KnownBonds = Mapping[tuple[PanelShape, Palette], Bond]
"""Bonds by the shape and what there was to lay it of."""

_known = Kept(MOST_KEPT)


def bond_shape(shape: PanelShape, palette: Palette) -> Bond:
    """The bond of a shape, its design left unnamed. Raises StockError where the stocked parts cannot fill it."""

    def make() -> Bond:
        fewest = fewest_parts(shape, palette)
        return _finished(shape, palette, _with_fewer_sizes(_cheapest(shape, palette, usual_prices(palette))), fewest)

    return _known.get((shape, palette), make)


def known_bonds() -> KnownBonds:
    """The bonds remembered, as ``remember`` takes them in another process."""
    return cast(KnownBonds, _known.everything())


def remember(bonds: KnownBonds) -> None:
    """Take over what another process has bonded."""
    for key, bond in bonds.items():
        _known.get(key, lambda bond=bond: bond)  # type: ignore[misc]


def forget_bonds() -> None:
    """Bond everything anew."""
    _known.clear()


def bond_at_prices(shape: PanelShape, palette: Palette, prices: dict[FillKind, Prices]) -> Bond:
    """The bond of a shape that is cheapest where parts have prices of their own, in units of ``patterns``; raises StockError."""
    fewest = fewest_parts(shape, palette)
    return _finished(shape, palette, _cheapest(shape, palette, prices), fewest)


def _finished(shape: PanelShape, palette: Palette, laid: _Laid, fewest: int) -> Bond:
    layers = tuple(_layer(palette, n, layer, laid) for n, layer in enumerate(shape.layers))
    bond = Bond("", shape.legs, layers, fewest, (), shape.mounts, shape.corner, palette.depth)
    return replace(bond, faults=faults_of(shape, bond))


def fewest_parts(shape: PanelShape, palette: Palette) -> int:
    """A number of parts, plugs included, that no bond of the shape can do with less than: every run filled for itself."""
    return min(_least(legs, palette) for legs in _readings(shape, palette)) + shape.mounts


@lru_cache(maxsize=MOST_READ)
def _readings(shape: PanelShape, palette: Palette) -> tuple[tuple[Leg, ...], ...]:
    """The legs for each way they may run through at the corner; remembered, for a shape is counted before it is laid."""
    return tuple(legs_of(shape, through, palette) for through in throughs(shape, palette.depth))


def _least(legs: Sequence[Leg], palette: Palette) -> int:
    total = 0
    for leg in legs:
        for layer, fixed in zip(leg.layers, leg.fixed, strict=True):
            lengths = tuple(piece.length for piece in palette.pieces(layer.fill))
            runs = [right - left for left, right in layer.free]
            total += len(fixed) + sum(_pieces_for(run, lengths, layer.fill, palette.depth) for run in runs)
    return total


_TOO_LONG: Mapping[FillKind, str] = {
    "brick": marked(
        "parts: no bricks fill a run of {run} pitches; those stocked are {stocked} pitches long. "
        "Set is_stocked on shorter ones, such as brick {deep}x1 or {deep}x2"
    ),
    "plate": marked(
        "parts: no plates fill a run of {run} pitches; those stocked are {stocked} pitches long. "
        "Set is_stocked on shorter ones, such as plate {deep}x1 or {deep}x2"
    ),
    "tile": marked(
        "parts: no tiles fill a run of {run} pitches; those stocked are {stocked} pitches long. "
        "Set is_stocked on shorter ones, such as tile {deep}x1 or {deep}x2"
    ),
}


def _pieces_for(run: int, lengths: tuple[int, ...], fill: FillKind, deep: int) -> int:
    if not lengths:
        raise missing_piece(fill, deep)
    count = fewest_pieces(run, lengths)[run]
    if count == NEVER:
        stocked = ", ".join(str(length) for length in lengths)
        raise StockError(tr(_TOO_LONG[fill], run=run, stocked=stocked, deep=deep))
    return count


def _cheapest(shape: PanelShape, palette: Palette, prices: dict[FillKind, Prices]) -> _Laid:
    found = []
    for legs in _readings(shape, palette):
        searches = tuple(LegSearch(leg, prices) for leg in legs)
        found.append(_Laid(legs, searches, tuple(search.best for search in searches)))
    return min(found, key=lambda laid: laid.cost)


def usual_prices(palette: Palette) -> dict[FillKind, Prices]:
    """One part costs as much as another, but for a little that keeps rare sizes out where they gain nothing."""
    return {
        kind: tuple(
            (piece.length, PART + _rarity(piece.length, palette.pieces(kind)[-1].length)) for piece in palette.pieces(kind)
        )
        for kind in FILLS.values()
    }


def _rarity(length: int, longest: int) -> int:
    """Longest and half-longest pieces are every bond's mainstay."""
    return 0 if length in (longest, longest // 2) else 1


def _with_fewer_sizes(laid: _Laid) -> _Laid:
    """The same less some of its sizes, the rarest first, as long as that takes no more faults and no more parts."""
    banned: frozenset[Size] = frozenset()
    for size in _sizes(laid):
        tried = banned | {size}
        if fewer := _without(laid, tried, (laid.cost // PART + 1) * PART - 1):
            laid, banned = replace(laid, bonded=fewer), tried
    return laid


def _without(laid: _Laid, sizes: frozenset[Size], most: int) -> tuple[Bonded, ...]:
    """Every leg's cheapest bond without some sizes; none where the legs come to more than ``most`` together."""
    spare = most - sum(search.best.cost for search in laid.searches)
    found: list[Bonded] = []
    for search in laid.searches:
        bonded = search.without(sizes, search.best.cost + spare)
        if bonded is None:
            return ()
        spare -= bonded.cost - search.best.cost
        found.append(bonded)
    return tuple(found)


def _sizes(laid: _Laid) -> list[Size]:
    """The sizes a bond uses of each kind it uses several of, the rarest first."""
    used = Counter(
        (layer.fill, length)
        for leg, bonded in zip(laid.legs, laid.bonded, strict=True)
        for layer, pattern in zip(leg.layers, bonded.patterns, strict=True)
        for _, length in pattern
    )
    several = Counter(fill for fill, _ in used)
    return sorted((size for size in used if several[size[0]] > 1), key=lambda size: (used[size], size))


def _layer(palette: Palette, n: int, layer: ShapeLayer, laid: _Laid) -> Layer:
    parts: list[Laid] = []
    for number, (leg, bonded) in enumerate(zip(laid.legs, laid.bonded, strict=True)):
        fill = leg.layers[n].fill
        filling = [Laid(palette.name(fill, length), number, left, length) for left, length in bonded.patterns[n]]
        parts += sorted((*filling, *leg.fixed[n]), key=lambda part: (part.at, part.side or 0))
    return Layer(layer.kind, layer.z_plates, layer.height_plates, tuple(parts))
