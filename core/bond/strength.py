"""How well a bonded panel holds together, by its knobs."""

from collections import Counter, defaultdict
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import count, pairwise

from core.bond.cells import Cell, cells_of
from core.bond.result import Bond, Laid

LEAST_KNOBS = 2
KEPT = 256
"""Bonds whose strength is remembered."""

Place = tuple[int, int]
"""A part: its layer from the bottom and its number in the layer."""
Owners = dict[Cell, Place]
"""Whose the cells of a layer are."""


@dataclass(frozen=True, slots=True)
class Break:
    """A line along which knobs hold: its layer, the leg and the pitch line of an upright one, and how many knobs.

    A level line lies under its layer.
    """

    layer: int
    leg: int
    at: int
    knobs: int


@dataclass(frozen=True, slots=True)
class Stretch:
    """Neighbouring pitches of a leg's layer with nothing below, from one pitch line to another."""

    layer: int
    leg: int
    begin: int
    end: int

    @property
    def pitches(self) -> int:
        return self.end - self.begin


@dataclass(frozen=True, slots=True)
class Strength:
    """A design's strength: everything is read from the knobs that join each part to the layers above and below.

    ``laps`` are the upright joints that are lapped least: every part that reaches across below, or above where nothing is below,
    counts with the knobs it has on its weaker side. ``beds`` are the levels where fewest knobs join what is above to what is
    below. ``stretches`` are what lies over cut-outs and notches; ``hanging`` counts parts with nothing below that are not in the
    lowest layer; ``held_by_few`` are those joined to the panel by fewer than two knobs, with their knobs.
    """

    bodies: int
    laps: tuple[Break, ...]
    beds: tuple[Break, ...]
    stretches: tuple[Stretch, ...]
    hanging: int
    held_by_few: dict[Place, int]

    @property
    def is_one_body(self) -> bool:
        return self.bodies == 1

    @property
    def weakest_lap(self) -> Break | None:
        return self.laps[0] if self.laps else None

    @property
    def weakest_bed(self) -> Break | None:
        return self.beds[0] if self.beds else None

    @property
    def unsupported(self) -> Stretch | None:
        """The longest stretch with nothing below, the lowest of several."""
        return max(self.stretches, key=lambda stretch: stretch.pitches, default=None)

    @property
    def unsupported_pitches(self) -> int:
        return self.unsupported.pitches if self.unsupported else 0


@lru_cache(maxsize=KEPT)
def strength_of(bond: Bond) -> Strength:
    """The strength of a bond as laid; remembered, for a sheet asks several times before it knows where the words fit."""
    owners = owners_of(bond)
    links = couplings(owners)
    held: Counter[Place] = Counter()
    beds: Counter[int] = Counter()
    for (lower, upper), knobs in links.items():
        held[lower] += knobs
        held[upper] += knobs
        beds[upper[0]] += knobs
    standing = {upper for _, upper in links}
    places = [(n, k) for n, layer in enumerate(bond.layers) for k in range(len(layer.laid))]
    return Strength(
        bodies=len(bodies_of(bond, links)),
        laps=_least(_laps(bond, owners, links)),
        beds=_least(Break(n, 0, 0, beds[n]) for n in range(1, len(bond.layers))),
        stretches=tuple(_stretches(bond)),
        hanging=sum(place[0] > 0 and place not in standing for place in places),
        held_by_few={place: held[place] for place in places if held[place] < LEAST_KNOBS},
    )


def _least(breaks: Iterable[Break]) -> tuple[Break, ...]:
    found = list(breaks)
    least = min((one.knobs for one in found), default=0)
    return tuple(one for one in found if one.knobs == least)


def owners_of(bond: Bond) -> list[Owners]:
    """The part that every cell belongs to, layer by layer."""
    found: list[Owners] = []
    for n, layer in enumerate(bond.layers):
        here: Owners = {}
        for k, laid in enumerate(layer.laid):
            here.update(dict.fromkeys(cells_of(bond, laid), (n, k)))
        found.append(here)
    return found


def couplings(owners: Sequence[Owners]) -> Counter[tuple[Place, Place]]:
    """The knobs between every two parts that lie on one another, the lower part first."""
    found: Counter[tuple[Place, Place]] = Counter()
    for below, here in pairwise(owners):
        shared = [cell for cell in here if cell in below]
        found.update(zip(map(below.__getitem__, shared), map(here.__getitem__, shared), strict=True))
    return found


def joined_parts(bond: Bond, owners: Sequence[Owners]) -> Iterator[tuple[Place, Place]]:
    """Every two parts that any knob joins, the lower part first; quicker than counting how many do."""
    for n, (below, layer) in enumerate(zip(owners, bond.layers[1:], strict=False), start=1):
        for k, laid in enumerate(layer.laid):
            for lower in {below[cell] for cell in cells_of(bond, laid) if cell in below}:
                yield lower, (n, k)


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
    if bond.corner is not None:
        ends = {a for a, _ in parts} ^ {b for _, b in parts}
        line = bond.legs[0] - (0 if bond.corner == "outside" else bond.depth)
        square_end = line if leg == 0 else 0 if bond.corner == "outside" else bond.depth
        others = (laid for laid in bond.layers[n].laid if laid.leg != leg)
        if square_end in ends and any((0, line, 0) in cells_of(bond, laid) for laid in others):
            edges.add(square_end)
    return sorted(edges)


def _laps(bond: Bond, owners: Sequence[Owners], links: Counter[tuple[Place, Place]]) -> Iterator[Break]:
    """Every upright joint with the knobs that lap it."""
    reach: defaultdict[Place, dict[Place, int]] = defaultdict(dict)
    for (lower, upper), knobs in links.items():
        reach[upper][lower] = reach[lower][upper] = knobs
    beside: dict[tuple[int, int], list[list[Cell]]] = {}
    for n in range(len(bond.layers)):
        for leg in range(len(bond.legs)):
            for x in joints_in(bond, n, leg):
                if (leg, x) not in beside:
                    beside[leg, x] = [cells_of(bond, Laid("", leg, pitch, 1)) for pitch in (x - 1, x)]
                halves = beside[leg, x]
                stands = n > 0 and all(any(cell in owners[n - 1] for cell in half) for half in halves)
                across = n - 1 if stands else n + 1
                sides = [{owners[n][cell] for cell in half if cell in owners[n]} for half in halves]
                yield Break(n, leg, x, _knobs_across(reach, sides, across))


def _knobs_across(reach: Mapping[Place, Mapping[Place, int]], sides: Sequence[Iterable[Place]], layer: int) -> int:
    """The knobs that every part of a layer with a hold on both sides of a joint has on its weaker side, added up."""
    left, right = (_holds(reach, parts, layer) for parts in sides)
    return sum(min(knobs, right[other]) for other, knobs in left.items() if other in right)


def _holds(reach: Mapping[Place, Mapping[Place, int]], parts: Iterable[Place], layer: int) -> dict[Place, int]:
    """The parts of a layer that any of some parts has a hold on, with the knobs of each."""
    found: dict[Place, int] = {}
    for part in parts:
        for other, knobs in reach.get(part, {}).items():
            if other[0] == layer:
                found[other] = found.get(other, 0) + knobs
    return found


def _stretches(bond: Bond) -> Iterator[Stretch]:
    """Every stretch with nothing below, the lowest layer aside, from the bottom up."""
    below: set[tuple[int, int]] | None = None
    for n, layer in enumerate(bond.layers):
        here = {cell[:2] for laid in layer.laid for cell in cells_of(bond, laid)}
        if below is not None:
            bare = here - below
            for leg, x in sorted(bare):
                if (leg, x - 1) not in bare:
                    yield Stretch(n, leg, x, next(end for end in count(x) if (leg, end) not in bare))
        below = here
