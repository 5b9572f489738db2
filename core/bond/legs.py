"""A shape made ready for bonding leg by leg: what is fixed in every layer, what is free, and what lies below.

Around a corner the legs take turns at the corner's own square; once it is settled which leg runs through in each layer, every leg
is bonded by itself.
"""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass

from core.bond.cells import corner_square
from core.bond.palette import FILLS, FillKind, Palette, missing_piece
from core.bond.result import Laid
from core.bond.shape import PanelShape, Run, Runs, ShapeLayer

Through = tuple[int | None, ...]
"""The leg that runs through the corner in each layer; None where the square is left out."""


@dataclass(frozen=True, slots=True)
class LegLayer:
    """One layer on one leg, all a filling depends on besides the layers above and below.

    ``free`` are the runs to fill, ``fixed`` the ends of parts that are there already, ``forced`` the joints no filling changes:
    those beside fixed parts and the one at the other leg's side. ``below`` and ``above`` are where the layers next to it have
    cells; None where there is no layer.
    """

    fill: FillKind
    free: Runs
    fixed: Runs
    forced: tuple[int, ...]
    below: Runs | None
    above: Runs | None


@dataclass(frozen=True, slots=True)
class Leg:
    """One leg: its layers from the bottom and the fixed parts in each."""

    layers: tuple[LegLayer, ...]
    fixed: tuple[tuple[Laid, ...], ...]


def throughs(shape: PanelShape, depth: int) -> tuple[Through, ...]:
    """The ways the legs may take turns at the corner: beginning with the left leg or with the right one."""
    if shape.corner is None:
        return ((None,) * len(shape.layers),)
    choices = [_may_run_through(shape, layer, depth) for layer in shape.layers]
    return tuple(dict.fromkeys((_turns(choices, 0), _turns(choices, 1))))


def _may_run_through(shape: PanelShape, layer: ShapeLayer, depth: int) -> tuple[int, ...]:
    """The legs that can fill the corner's square in a layer.

    At an inside corner a leg must hold all of its pitches in it; at an outside corner the square belongs to the panel where both
    legs reach the corner line.
    """
    line = shape.legs[0]
    if shape.corner == "outside":
        reach = covers(layer.runs[0], (line - 1, line)) and covers(layer.runs[1], (0, 1))
        return (0, 1) if reach else ()
    squares = (line - depth, line), (0, depth)
    return tuple(leg for leg in (0, 1) if covers(layer.runs[leg], squares[leg]))


def _turns(choices: Sequence[tuple[int, ...]], first: int) -> Through:
    found: list[int | None] = []
    turn = first
    for choice in choices:
        through = None if not choice else turn if turn in choice else choice[0]
        found.append(through)
        turn = turn if through is None else 1 - through
    return tuple(found)


def legs_of(shape: PanelShape, through: Through, palette: Palette) -> tuple[Leg, ...]:
    """Every leg's layers. Raises StockError where a part that must be there is not stocked."""
    return tuple(_Reader(shape, through, palette, leg).leg() for leg in range(len(shape.legs)))


class _Reader:
    """Works out one leg of a shape."""

    def __init__(self, shape: PanelShape, through: Through, palette: Palette, leg: int) -> None:
        self._shape, self._through, self._palette, self._leg = shape, through, palette, leg
        self._square = corner_square(shape.legs, shape.corner, palette.depth, leg)

    def leg(self) -> Leg:
        fixed = [
            tuple(sorted(self._fixed(n), key=lambda laid: (laid.at, laid.side or 0))) for n in range(len(self._shape.layers))
        ]
        layers = tuple(self._layer(n, fixed[n]) for n in range(len(self._shape.layers)))
        return Leg(layers, tuple(fixed))

    def _layer(self, n: int, fixed: tuple[Laid, ...]) -> LegLayer:
        runs = self._cells(n)
        ends = tuple(dict.fromkeys((laid.at, laid.at + laid.length) for laid in fixed))
        free = _without(runs, ends)
        edges = {edge for run in ends for edge in run}
        forced = sorted(edge for edge in edges if covers(runs, (edge - 1, edge + 1)))
        abutted = self._abutted(n, runs)
        if abutted is not None:
            forced = sorted({*forced, abutted})
        below = self._covered(n - 1) if n else None
        above = self._covered(n + 1) if n + 1 < len(self._shape.layers) else None
        return LegLayer(FILLS[self._shape.layers[n].kind], free, ends, tuple(forced), below, above)

    def _cells(self, n: int) -> Runs:
        """The cells this leg fills in a layer: its own, less or more the corner's square."""
        own, through = self._shape.layers[n].runs[self._leg], self._through[n]
        if self._square is None:
            return own
        if through == self._leg:
            return joined((*own, self._square))
        if through is not None:
            return _without(own, (self._square,))
        return _without(own, (self._square,)) if self._yields(n) else own

    def _yields(self, n: int) -> bool:
        """Whether the right leg keeps out of an inside corner's square because the left one has part of it."""
        if self._leg == 0 or self._shape.corner == "outside":
            return False
        line = self._shape.legs[0]
        return any(right > line - self._palette.depth for _, right in self._shape.layers[n].runs[0])

    def _covered(self, n: int) -> Runs:
        """Where this leg finds something below it: its own cells and the square, whichever leg fills it."""
        if self._square is None or self._through[n] is None:
            return self._cells(n)
        return joined((*self._cells(n), self._square))

    def _abutted(self, n: int, runs: Runs) -> int | None:
        """The joint at the side of the other leg where that one runs through."""
        if self._square is None or self._through[n] in (None, self._leg):
            return None
        edge = self._square[1] if self._leg else self._square[0]
        near = (edge, edge + 1) if self._leg else (edge - 1, edge)
        return edge if covers(runs, near) else None

    def _fixed(self, n: int) -> Iterator[Laid]:
        layer, palette = self._shape.layers[n], self._palette
        if layer.mounts[self._leg] and palette.pin is None:
            raise missing_piece("pin-hole brick", 1, 2)
        if palette.pin is not None:
            for line in layer.mounts[self._leg]:
                for side in range(palette.depth):
                    yield Laid(palette.pin.name, self._leg, line - 1, 2, side)
        if layer.kind == "cap":
            yield from self._locating(n)

    def _locating(self, n: int) -> Iterator[Laid]:
        """A locating plate at either end of a flat panel, at the far end of a leg; none where nothing would hold it."""
        piece = self._palette.locating
        if piece is None:
            raise missing_piece("locating plate", self._palette.depth)
        long_enough = [run for run in self._cells(n) if run[1] - run[0] >= piece.length]
        if not long_enough:
            return
        left, right = long_enough[0][0], long_enough[-1][1] - piece.length
        ends = []
        if self._square is None or self._leg == 0:
            ends.append(left)
        if (self._square is None and right - left >= piece.length) or self._leg == 1:
            ends.append(right)
        below = self._covered(n - 1) if n else ()
        for at in ends:
            if touches(below, at, at + piece.length):
                yield Laid(piece.name, self._leg, at, piece.length)


def covers(runs: Runs, run: Run) -> bool:
    """Whether one of the runs holds the whole of another."""
    return any(left <= run[0] and run[1] <= right for left, right in runs)


def touches(beside: Runs, left: int, right: int) -> bool:
    """Whether a stretch has any pitch in common with runs beside it."""
    return any(a < right and left < b for a, b in beside)


def joined(runs: Iterable[Run]) -> Runs:
    """The union of runs, those that touch or overlap as one."""
    found: list[Run] = []
    for left, right in sorted(runs):
        if found and left <= found[-1][1]:
            found[-1] = found[-1][0], max(found[-1][1], right)
        else:
            found.append((left, right))
    return tuple(found)


def _without(runs: Runs, taken: Iterable[Run]) -> Runs:
    """What is left of runs when others are taken away."""
    left_over = list(runs)
    for begin, end in taken:
        cut = []
        for left, right in left_over:
            cut += [(a, b) for a, b in ((left, min(right, begin)), (max(left, end), right)) if a < b]
        left_over = cut
    return tuple(left_over)
