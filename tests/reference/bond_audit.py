"""A second reading of docs/bond.md: is a bond what its panel's outline asks for? Shares no code with the solver.

Everything is done on cells of the plan. At a corner the left wall's frame side is the x axis left of the origin and the right
wall's the y axis above it. An inside corner's lining lies left of and above the axes, an outside corner's right and below.
"""

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, field
from itertools import pairwise

import networkx as nx
import numpy as np
from shapely import Polygon, contains_xy, union_all

from core.bond.result import Bond, Laid
from core.parts import Part
from core.setout.result import Panel, SetOut

PlanCell = tuple[int, int]
FILLED_WITH = {
    "course": {"brick", "pin-hole brick"},
    "plate": {"plate"},
    "cap": {"tile", "locating plate"},
}


@dataclass
class Reading:
    """A panel read from its outline alone: per layer the plan cells, and where the holes are."""

    legs: int
    corner: str | None
    depth: int
    lengths: list[int]
    kinds: list[tuple[str, int, int]] = field(default_factory=list)
    own: list[list[set[int]]] = field(default_factory=list)
    """By layer and leg: the pitches the outline covers."""
    holes: set[tuple[int, int, int]] = field(default_factory=set)
    """Layer, leg and pitch line of every mounting point."""

    def plan(self, leg: int, at: int, deep: int) -> PlanCell:
        """A pitch of a leg, ``deep`` pitches in front of the frame, on the plan."""
        if self.corner is None:
            return at, deep
        if self.corner == "inside":
            return (at - self.lengths[0], deep) if leg == 0 else (-1 - deep, at)
        return (at - self.lengths[0], -1 - deep) if leg == 0 else (deep, at)

    def square(self, leg: int) -> set[int]:
        """The pitches of a leg that lie in the corner's square."""
        if self.corner is None:
            return set()
        edge = self.lengths[0] if leg == 0 else 0
        inward = (self.corner == "inside") == (leg == 0)
        return set(range(edge - self.depth, edge) if inward else range(edge, edge + self.depth))

    def wanted(self, n: int) -> set[PlanCell]:
        """The plan cells of a layer."""
        cells = {self.plan(leg, x, d) for leg in range(self.legs) for x in self.own[n][leg] for d in range(self.depth)}
        if self.corner == "outside" and self.lengths[0] - 1 in self.own[n][0] and 0 in self.own[n][1]:
            cells |= {self.plan(0, x, d) for x in self.square(0) for d in range(self.depth)}
        return cells


def read(setout: SetOut, panel: Panel) -> Reading:
    """The panel's cells, from its rings by point-in-polygon tests."""
    row, kit = setout.rows[panel.row], setout.room.kit
    walls = list(dict.fromkeys(face.wall for face in panel.faces))
    shapes = [union_all([Polygon(f.outline, f.holes) for f in panel.faces if f.wall == wall]) for wall in walls]
    corner = None
    origins = [round(shapes[0].bounds[0])]
    lengths = [round(shapes[0].bounds[2]) - origins[0]]
    if len(walls) == 2:
        corner = "outside" if setout.walls[walls[0]].right == "outside" else "inside"
        lengths = [setout.walls[walls[0]].pitches - origins[0], round(shapes[1].bounds[2])]
        origins.append(0)
    reading = Reading(len(walls), corner, kit.thickness_pitches, lengths)
    bottom = min(face.bottom for face in panel.faces)
    z = row.z_plates
    for kind, height in [("course", kit.plates_per_course)] * row.courses + [("plate", 1), ("cap", 1)]:
        own = [_pitches(shape, origin, z + height / 2) for shape, origin in zip(shapes, origins, strict=True)]
        if any(own):
            for face in panel.faces:
                for mount in face.mounts:
                    if z < mount.z_half_plates / 2 < z + height:
                        leg = walls.index(face.wall)
                        reading.holes.add((len(reading.own), leg, mount.x_pitches - origins[leg]))
            reading.own.append(own)
            reading.kinds.append((kind, z - bottom, height))
        z += height
    return reading


def _pitches(shape: Polygon, origin: int, z: float) -> set[int]:
    left, _, right, _ = shape.bounds
    pitches = np.arange(round(left), round(right))
    return {int(x) - origin for x in pitches[contains_xy(shape, pitches + 0.5, np.full(len(pitches), z))]}


@dataclass
class Placed:
    """A part on the plan."""

    number: int
    laid: Laid
    kind: str
    cells: frozenset[PlanCell]


class Audit:
    """One bond against its panel."""

    def __init__(self, setout: SetOut, panel: Panel, bond: Bond) -> None:
        self.reading = read(setout, panel)
        self.parts = {part.name: part for part in setout.room.parts}
        self.bond = bond
        numbers = iter(range(10**6))
        self.layers = [
            [Placed(next(numbers), laid, self.parts[laid.part].kind, self._cells(laid)) for laid in layer.laid]
            for layer in bond.layers
        ]
        self.at = [{cell: placed for placed in layer for cell in placed.cells} for layer in self.layers]
        self.reported = defaultdict(set)
        for fault in bond.faults:
            self.reported[fault.kind].add((fault.layer, fault.leg, fault.at))

    def _cells(self, laid: Laid) -> frozenset[PlanCell]:
        r = self.reading
        depths = range(r.depth) if laid.side is None else [r.depth - 1 - laid.side]
        return frozenset(r.plan(laid.leg, x, d) for x in range(laid.at, laid.at + laid.length) for d in depths)

    def faults(self) -> Iterator[str]:
        """Everything wrong with the bond, in words."""
        r, bond = self.reading, self.bond
        if (list(bond.legs), bond.corner, bond.depth) != (r.lengths, r.corner, r.depth):
            yield f"legs {bond.legs} {bond.corner}, the outline says {r.lengths} {r.corner}"
        if [(layer.kind, layer.z_plates, layer.height_plates) for layer in bond.layers] != r.kinds:
            yield "its layers are not the outline's"
            return
        yield from self._wrong_parts()
        yield from self._untiled()
        yield from self._pins()
        yield from self._turns()
        yield from self._locating()
        yield from self._joints()
        yield from self._bearing()
        yield from self._bodies()
        if bond.fewest > sum(bond.parts.values()):
            yield f"takes {sum(bond.parts.values())} parts, fewer than the bound of {bond.fewest}"
        if bond.parts["plug"] != len(r.holes):
            yield "not one plug per hole"

    def _wrong_parts(self) -> Iterator[str]:
        for n, layer in enumerate(self.layers):
            for placed in layer:
                part: Part = self.parts[placed.laid.part]
                deep = 1 if placed.laid.side is not None else self.reading.depth
                if not part.is_stocked or (part.length_pitches, part.depth_pitches) != (placed.laid.length, deep):
                    yield f"layer {n}: {part.name} is not stocked or not as large as laid"
                if part.kind not in FILLED_WITH[self.bond.layers[n].kind]:
                    yield f"layer {n}: a {part.kind} in a {self.bond.layers[n].kind}"

    def _untiled(self) -> Iterator[str]:
        for n, layer in enumerate(self.layers):
            wanted = self.reading.wanted(n)
            if len(self.at[n]) != sum(len(placed.cells) for placed in layer):
                yield f"layer {n}: parts overlap"
            if set(self.at[n]) - wanted:
                yield f"layer {n}: parts outside the outline"
            bare = wanted - set(self.at[n])
            excused = {self.reading.plan(leg, x, d) for k, leg, x in self.reported["left out"] if k == n for d in range(9)}
            if bare - excused or len(bare) > (1 if excused else 0):
                yield f"layer {n}: cells {sorted(bare)} have no part"

    def _pins(self) -> Iterator[str]:
        found = defaultdict(set)
        for n, layer in enumerate(self.layers):
            for placed in layer:
                if placed.kind == "pin-hole brick":
                    found[n, placed.laid.leg, placed.laid.at + 1].add(placed.laid.side)
        if set(found) != self.reading.holes:
            yield f"pin-hole bricks at {sorted(found)}, mounting points at {sorted(self.reading.holes)}"
        if any(sides != set(range(self.reading.depth)) for sides in found.values()):
            yield "a hole does not go through the panel"

    def _turns(self) -> Iterator[str]:
        """The legs run through the corner by turns, wherever both can."""
        r = self.reading
        if r.corner is None:
            return
        last = None
        for n in range(len(self.layers)):
            square = {r.plan(0, x, d) for x in r.square(0) for d in range(r.depth)}
            legs = {self.at[n][cell].laid.leg for cell in square if cell in self.at[n]}
            if not square <= set(self.at[n]):
                continue
            if len(legs) != 1:
                yield f"layer {n}: both legs lie in the corner's square"
            (leg,) = legs
            reach = [r.square(k) <= r.own[n][k] for k in (0, 1)]
            can = r.corner == "outside" or all(reach)
            if can and last == leg:
                yield f"layer {n}: leg {leg} runs through again"
            last = leg

    def _locating(self) -> Iterator[str]:
        """In the cap course a locating plate at either end where something lies below it, nowhere else."""
        for n, layer in enumerate(self.layers):
            plates = [(placed.laid.leg, placed.laid.at) for placed in layer if placed.kind == "locating plate"]
            if self.bond.layers[n].kind != "cap":
                continue
            ends = []
            for leg, at_end in ((0, min), (self.reading.legs - 1, max)):
                spans = [range(p.laid.at, p.laid.at + p.laid.length) for p in layer if p.laid.leg == leg]
                mine = {x for span in spans for x in span}
                fits = [x for x in mine if x + 1 in mine]
                places = [x for x in fits if not ends or leg or x - ends[0][1] >= 2]
                ends += [(leg, at_end(places))] if places else []
            held = [(leg, x) for leg, x in ends if n and any(any(self.line(n - 1, leg).get(x + k, ())) for k in (0, 1))]
            # Where there is room for one only, a turned panel has it at the other end.
            alone = [(0, max(fits))] if self.reading.legs == 1 and len(ends) == 1 and mine else held
            if plates not in (held, alone):
                yield f"layer {n}: locating plates at {plates}, not {held}"

    def line(self, n: int, leg: int) -> dict[int, tuple[Placed | None, ...]]:
        """What lies at each pitch of a leg, through the thickness."""
        r = self.reading
        pitches = {x for own in r.own for x in own[leg]} | r.square(leg)
        return {x: tuple(self.at[n].get(r.plan(leg, x, d)) for d in range(r.depth)) for x in sorted(pitches)}

    def joints(self, n: int, leg: int) -> set[int]:
        """Pitch lines with another part on either side."""
        line = self.line(n, leg)
        return {
            x
            for x in line
            if any(a and b and a.number != b.number for a, b in zip(line.get(x - 1, ()), line[x], strict=False))
            # In its own square the other leg's parts lie crosswise.
            and not {x - 1, x} <= self.reading.square(leg)
        } | {
            x
            for x in line
            if {x - 1, x} <= self.reading.square(leg)
            and any(a and b and a.number != b.number and a.laid.leg == leg for a, b in zip(line[x - 1], line[x], strict=True))
        }

    def _joints(self) -> Iterator[str]:
        straight, short = set(), set()
        for leg in range(self.reading.legs):
            joints = [self.joints(n, leg) for n in range(len(self.layers))]
            for n, (lower, upper) in enumerate(pairwise(joints), start=1):
                straight |= {(n, leg, x) for x in upper if x in lower}
                short |= {(n, leg, x) for x in upper if x not in lower and {x - 1, x + 1} & lower}
        if straight != self.reported["straight joint"]:
            yield f"straight joints {sorted(straight ^ self.reported['straight joint'])} not as reported"
        if short != self.reported["short lap"]:
            yield f"short laps {sorted(short ^ self.reported['short lap'])} not as reported"

    def _bearing(self) -> Iterator[str]:
        found = set()
        for n in range(1, len(self.layers)):
            for leg in range(self.reading.legs):
                below = {x for x, held in self.line(n - 1, leg).items() if all(held)}
                for placed in self.layers[n]:
                    laid = placed.laid
                    held = [x in below for x in range(laid.at, laid.at + laid.length)]
                    enough = sum(held) >= 2 or 2 * sum(held) >= len(held) or (held[0] and held[-1])
                    if laid.leg == leg and any(held) and not enough:
                        found.add((n, leg, laid.at))
                found |= {(n, leg, x) for x in self.joints(n, leg) if (x in below) != (x - 1 in below)}
        if found != self.reported["poor bearing"]:
            yield f"poor bearing {sorted(found ^ self.reported['poor bearing'])} not as reported"

    def _bodies(self) -> Iterator[str]:
        graph: nx.Graph[int] = nx.Graph()
        graph.add_nodes_from(placed.number for layer in self.layers for placed in layer)
        for lower, upper in pairwise(self.at):
            graph.add_edges_from((lower[cell].number, upper[cell].number) for cell in lower.keys() & upper.keys())
        largest = max(nx.connected_components(graph), key=len)
        loose = {
            (n, placed.laid.leg, placed.laid.at)
            for n, layer in enumerate(self.layers)
            for placed in layer
            if placed.number not in largest
        }
        if len(loose) and not self.reported["loose"]:
            yield f"falls into {nx.number_connected_components(graph)} bodies"


def audit_bond(setout: SetOut, panel: Panel, bond: Bond) -> list[str]:
    """Everything wrong with the bond of a panel as it hangs."""
    return [f"{panel.mark} ({panel.design}): {fault}" for fault in Audit(setout, panel, bond).faults()]
