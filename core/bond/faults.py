"""Where a finished bond is weaker than the rules ask, read from the parts as laid."""

from collections.abc import Iterator, Sequence

from core.bond.cells import corner_square
from core.bond.legs import covers, joined
from core.bond.patterns import LEAST_LAP_PITCHES, bears
from core.bond.result import Bond, Fault
from core.bond.shape import PanelShape, Runs
from core.bond.strength import Owners, bodies_of, joined_parts, joints_in, owners_of
from core.language import tr


def faults_of(shape: PanelShape, bond: Bond) -> tuple[Fault, ...]:
    """The faults of a shape's bond, from the bottom up."""
    owners = owners_of(bond)
    covered = [_covered(bond, owners, leg) for leg in range(len(bond.legs))]
    found = [*_loose(bond, owners), *_left_out(shape, bond, covered)]
    for leg in range(len(bond.legs)):
        joints = [joints_in(bond, n, leg) for n in range(len(bond.layers))]
        for n in range(1, len(bond.layers)):
            found += _lap_faults(n, leg, joints[n - 1], joints[n])
            below = covered[leg][n - 1]
            if below != covered[leg][n]:
                found += _bearing_faults(bond, n, leg, below, joints[n])
    return tuple(sorted(found, key=lambda fault: (fault.layer, fault.leg, fault.at, fault.kind)))


def _lap_faults(n: int, leg: int, lower: list[int], upper: list[int]) -> Iterator[Fault]:
    for x in upper:
        apart = min((abs(x - joint) for joint in lower), default=LEAST_LAP_PITCHES)
        if apart == 0:
            yield Fault(n, leg, x, tr("this joint stands right above one in the layer below"), "straight joint")
        elif apart < LEAST_LAP_PITCHES:
            text = tr("this joint laps one in the layer below by {pitches} pitch only", pitches=apart)
            yield Fault(n, leg, x, text, "short lap")


def _bearing_faults(bond: Bond, n: int, leg: int, below: Runs, joints: list[int]) -> Iterator[Fault]:
    for laid in bond.layers[n].laid:
        if laid.leg == leg and not laid.side and not bears(below, laid.at, laid.at + laid.length):
            text = tr("{part} bears on too little beside the opening", part=tr(laid.part))
            yield Fault(n, leg, laid.at, text, "poor bearing", laid.part)
    edges = {x for run in below for x in run}
    for x in joints:
        if x in edges:
            yield Fault(n, leg, x, tr("this joint stands over the edge of an opening"), "poor bearing")


def _covered(bond: Bond, owners: Sequence[Owners], leg: int) -> list[Runs]:
    """Where a leg finds parts in each layer, the corner's square included whichever leg fills it."""
    square = corner_square(bond.legs, bond.corner, bond.depth, leg)
    found = []
    for n, layer in enumerate(bond.layers):
        runs = [(laid.at, laid.at + laid.length) for laid in layer.laid if laid.leg == leg]
        found.append(joined([*runs, square] if square is not None and _fills_square(bond, owners[n]) else runs))
    return found


def _fills_square(bond: Bond, cells: Owners) -> bool:
    square = corner_square(bond.legs, bond.corner, bond.depth, 0)
    return square is not None and all((0, x, side) in cells for x in range(*square) for side in range(bond.depth))


def _loose(bond: Bond, owners: Sequence[Owners]) -> Iterator[Fault]:
    """Parts that no knob joins to the rest."""
    for body in bodies_of(bond, joined_parts(bond, owners))[1:]:
        for n, k in sorted(body):
            laid = bond.layers[n].laid[k]
            text = tr("nothing holds {part} to the rest of the panel", part=tr(laid.part))
            yield Fault(n, laid.leg, laid.at, text, "loose", laid.part)


def _left_out(shape: PanelShape, bond: Bond, covered: Sequence[Sequence[Runs]]) -> Iterator[Fault]:
    """Pitches of the right leg at an inside corner that neither leg can fill."""
    square = corner_square(bond.legs, bond.corner, bond.depth, 1)
    if square is None or bond.corner == "outside":
        return
    for n, layer in enumerate(shape.layers):
        for x in range(*square):
            if covers(layer.runs[1], (x, x + 1)) and not covers(covered[1][n], (x, x + 1)):
                text = tr("openings on both sides of the corner leave less room here than any part needs")
                yield Fault(n, 1, x, text, "left out")
