"""Where a finished bond is weaker than the rules ask, read from the parts as laid."""

from collections.abc import Iterator
from itertools import pairwise

from core.bond.palette import Palette
from core.bond.patterns import LEAST_LAP_PITCHES, bears
from core.bond.result import Fault, FaultKind, Laid, Layer
from core.bond.shape import PanelShape, Run, Runs


def faults_of(shape: PanelShape, layers: tuple[Layer, ...], palette: Palette) -> tuple[Fault, ...]:
    """The faults of a bond, from the bottom up."""
    found: list[Fault] = []
    for leg in range(len(shape.legs)):
        plans = [_LegPlan(shape, layers, n, leg, palette.depth) for n in range(len(layers))]
        for n, (lower, upper) in enumerate(pairwise(plans), start=1):
            found += _lap_faults(n, leg, lower, upper)
            found += _bearing_faults(n, leg, lower.covered, upper)
    return tuple(sorted(found, key=lambda fault: (fault.layer, fault.leg, fault.at, fault.kind)))


class _LegPlan:
    """One layer of one leg as laid: its parts, its joints and the cells that hold something up."""

    def __init__(self, shape: PanelShape, layers: tuple[Layer, ...], n: int, leg: int, depth: int) -> None:
        self.parts = list(dict.fromkeys((laid.at, laid.at + laid.length) for laid in layers[n].laid if laid.leg == leg))
        square = corner_square(shape, leg, depth)
        others = [laid for laid in layers[n].laid if laid.leg != leg]
        filled_by_other = square is not None and _fills(others, shape, 1 - leg, depth)
        self.covered: Runs = (*self.parts, square) if square is not None and filled_by_other else tuple(self.parts)
        lefts, rights = {a for a, _ in self.covered}, {b for _, b in self.covered}
        self.joints = sorted(lefts & rights)


def corner_square(shape: PanelShape, leg: int, depth: int) -> Run | None:
    """The corner's own square in a leg's pitches."""
    if shape.corner is None:
        return None
    outside = shape.corner == "outside"
    begin = shape.legs[0] - (0 if outside else depth) if leg == 0 else -depth if outside else 0
    return begin, begin + depth


def _fills(parts: list[Laid], shape: PanelShape, leg: int, depth: int) -> bool:
    """Whether parts of a leg lie in the corner's square over its whole length."""
    square = corner_square(shape, leg, depth)
    return square is not None and all(any(p.at <= x < p.at + p.length for p in parts) for x in range(*square))


def _lap_faults(n: int, leg: int, lower: _LegPlan, upper: _LegPlan) -> Iterator[Fault]:
    for x in upper.joints:
        apart = min((abs(x - joint) for joint in lower.joints), default=LEAST_LAP_PITCHES)
        if apart == 0:
            yield _fault(n, leg, x, "straight joint", "stands right above the joint below")
        elif apart < LEAST_LAP_PITCHES:
            yield _fault(n, leg, x, "short lap", f"laps the joint below by {apart} pitch only")


def _bearing_faults(n: int, leg: int, below: Runs, upper: _LegPlan) -> Iterator[Fault]:
    edges = {x for run in _joined(below) for x in run}
    for left, right in upper.parts:
        if not bears(_joined(below), left, right):
            yield _fault(n, leg, left, "poor bearing", "the part here bears on too little beside the opening")
    for x in upper.joints:
        if x in edges:
            yield _fault(n, leg, x, "poor bearing", "the joint here stands over the edge of the opening")


def _fault(n: int, leg: int, at: int, kind: FaultKind, text: str) -> Fault:
    return Fault(n, leg, at, text, kind)


def _joined(runs: Runs) -> Runs:
    found: list[Run] = []
    for left, right in sorted(runs):
        if found and left <= found[-1][1]:
            found[-1] = found[-1][0], max(found[-1][1], right)
        else:
            found.append((left, right))
    return tuple(found)
