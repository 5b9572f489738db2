"""How well a bonded panel holds together, by its knobs."""

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass

from core.bond.cells import cells_of
from core.bond.result import Bond

LEAST_KNOBS = 2

Place = tuple[int, int]
"""A part: its layer from the bottom and its number in the layer."""


@dataclass(frozen=True, slots=True)
class Break:
    """A line along which least holds: the layer above it, the leg, the pitch line for an upright one, and the knobs there."""

    layer: int
    leg: int
    at: int
    knobs: int


@dataclass(frozen=True, slots=True)
class Strength:
    """A design's strength: everything is read from the knobs that join each part to the layers above and below.

    ``weakest_lap`` is the joint that the layer below laps least, in knobs of the narrower side, up to four pitches;
    ``weakest_bed`` the level where fewest knobs join what is above to what is below. ``unsupported_pitches`` is the longest
    stretch of a layer over a cut-out; ``hanging`` counts parts with nothing below that are not in the lowest layer;
    ``held_by_few`` those joined to the panel by fewer than two knobs.
    """

    bodies: int
    weakest_lap: Break | None
    weakest_bed: Break | None
    unsupported_pitches: int
    hanging: int
    held_by_few: tuple[Place, ...]

    @property
    def is_one_body(self) -> bool:
        return self.bodies == 1


def strength_of(bond: Bond) -> Strength:
    """The strength of a bond as laid."""
    links = couplings(bond)
    held: Counter[Place] = Counter()
    beds: Counter[int] = Counter()
    for (lower, upper), knobs in links.items():
        held[lower] += knobs
        held[upper] += knobs
        beds[upper[0]] += knobs
    standing = {upper for _, upper in links}
    places = [(n, k) for n, layer in enumerate(bond.layers) for k in range(len(layer.laid))]
    weakest_bed = min(((beds[n], n) for n in range(1, len(bond.layers))), default=None)
    return Strength(
        bodies=len(bodies_of(bond, links)),
        weakest_lap=_weakest_lap(bond),
        weakest_bed=None if weakest_bed is None else Break(weakest_bed[1], 0, 0, weakest_bed[0]),
        unsupported_pitches=_unsupported(bond),
        hanging=sum(place[0] > 0 and place not in standing for place in places),
        held_by_few=tuple(place for place in places if held[place] < LEAST_KNOBS),
    )


def couplings(bond: Bond) -> Counter[tuple[Place, Place]]:
    """The knobs between every two parts that lie on one another, the lower part first."""
    found: Counter[tuple[Place, Place]] = Counter()
    below: dict[tuple[int, int, int], Place] = {}
    for n, layer in enumerate(bond.layers):
        here = {cell: (n, k) for k, laid in enumerate(layer.laid) for cell in cells_of(bond, laid)}
        found.update((below[cell], place) for cell, place in here.items() if cell in below)
        below = here
    return found


def bodies_of(bond: Bond, links: Iterable[tuple[Place, Place]]) -> list[set[Place]]:
    """The parts that hold together, the largest body first."""
    leader = {(n, k): (n, k) for n, layer in enumerate(bond.layers) for k in range(len(layer.laid))}

    def find(place: Place) -> Place:
        while leader[place] != place:
            leader[place] = leader[leader[place]]
            place = leader[place]
        return place

    for lower, upper in links:
        a, b = find(lower), find(upper)
        if a != b:
            leader[max(a, b)] = min(a, b)
    bodies: dict[Place, set[Place]] = {}
    for place in leader:
        bodies.setdefault(find(place), set()).add(place)
    return sorted(bodies.values(), key=lambda body: (-len(body), min(body)))


def joints_in(bond: Bond, n: int, leg: int) -> list[int]:
    """The lines where a part of a layer ends and another one begins, on one leg or against the other leg's side."""
    parts = [(laid.at, laid.at + laid.length) for laid in bond.layers[n].laid if laid.leg == leg]
    edges = {a for a, _ in parts} & {b for _, b in parts}
    cells = {cell for laid in bond.layers[n].laid if laid.leg != leg for cell in cells_of(bond, laid)}
    if bond.corner is not None:
        ends = {a for a, _ in parts} ^ {b for _, b in parts}
        line = bond.legs[0] - (0 if bond.corner == "outside" else bond.depth)
        square_end = line if leg == 0 else 0 if bond.corner == "outside" else bond.depth
        if square_end in ends and (0, line, 0) in cells:
            edges.add(square_end)
    return sorted(edges)


def _weakest_lap(bond: Bond) -> Break | None:
    found = []
    for leg in range(len(bond.legs)):
        joints = [joints_in(bond, n, leg) for n in range(len(bond.layers))]
        for n in range(1, len(joints)):
            found += [
                (min(abs(x - lower) for lower in joints[n - 1]) * bond.depth, n, leg, x) for x in joints[n] if joints[n - 1]
            ]
    if not found:
        return None
    knobs, n, leg, x = min(found)
    return Break(n, leg, x, knobs)


def _unsupported(bond: Bond) -> int:
    """The longest stretch of pitches with nothing below, the lowest layer aside."""
    longest = 0
    below: set[tuple[int, int]] | None = None
    for layer in bond.layers:
        here = {cell[:2] for laid in layer.laid for cell in cells_of(bond, laid)}
        if below is not None:
            bare = here - below
            for leg, x in bare:
                if (leg, x - 1) not in bare:
                    end = x
                    while (leg, end) in bare:
                        end += 1
                    longest = max(longest, end - x)
        below = here
    return longest
