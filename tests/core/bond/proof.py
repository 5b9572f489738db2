"""The bonding rules of docs/bond.md once more, as a constraint model: what is the least that parts and faults can cost?"""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from ortools.sat.python import cp_model

from core.kit import Kit
from core.parts import Part
from tests.reference.bond_audit import Reading

FILL = {"course": "brick", "plate": "plate", "cap": "tile"}
PART, SHORT_LAP, POOR_BEARING, STRAIGHT, LOOSE = 1, 1, 1_000, 100_000, 1_000_000
Span = tuple[int, int]


@dataclass(frozen=True)
class Proof:
    """The least cost in parts, fixed ones and plugs included, and whether it is proven."""

    cost: int
    bound: int


def least_cost(reading: Reading, parts: Sequence[Part], kit: Kit, seconds: float) -> Proof:
    """Solve a panel to the end, or as far as the time allows."""
    assert kit.thickness_pitches == reading.depth
    found = [_Model(reading, parts, first).solve(seconds) for first in ((0, 1) if reading.corner else (0,))]
    return Proof(min(proof.cost for proof in found), min(proof.bound for proof in found))


class _Model:
    def __init__(self, reading: Reading, parts: Sequence[Part], first: int) -> None:
        self.reading = reading
        self.lengths = {
            kind: sorted(
                {p.length_pitches for p in parts if p.kind == kind and p.is_stocked and p.depth_pitches == reading.depth}
            )
            for kind in FILL.values()
        }
        self.model = cp_model.CpModel()
        self.terms: list[cp_model.LinearExprT] = []
        self.through = list(self._turns(first))
        for leg in range(reading.legs):
            self._leg(leg)

    def solve(self, seconds: float) -> Proof:
        self.model.minimize(sum(self.terms) + len(self.reading.holes))
        solver = cp_model.CpSolver()
        solver.parameters.max_time_in_seconds = seconds
        solver.parameters.num_workers = 2
        solver.parameters.random_seed = 1
        status = solver.solve(self.model)
        assert status in (cp_model.OPTIMAL, cp_model.FEASIBLE)
        return Proof(round(solver.objective_value), round(solver.best_objective_bound))

    def _turns(self, first: int) -> Iterator[int | None]:
        r, turn = self.reading, first
        for own in r.own:
            if r.corner is None:
                yield None
                continue
            if r.corner == "outside":
                can = [0, 1] if r.lengths[0] - 1 in own[0] and 0 in own[1] else []
            else:
                can = [leg for leg in (0, 1) if r.square(leg) <= own[leg]]
            assert can or not (own[0] & r.square(0) and own[1] & r.square(1)), "the model leaves no pitch out"
            through = None if not can else turn if turn in can else can[0]
            yield through
            turn = turn if through is None else 1 - through

    def _cells(self, n: int, leg: int) -> set[int]:
        own = set(self.reading.own[n][leg])
        if self.through[n] is None:
            return own
        square = self.reading.square(leg)
        return own | square if self.through[n] == leg else own - square

    def _held(self, n: int, leg: int) -> set[int] | None:
        if not 0 <= n < len(self.reading.own):
            return None
        return self._cells(n, leg) | (self.reading.square(leg) if self.through[n] is not None else set())

    def _leg(self, leg: int) -> None:
        below: dict[int, cp_model.LinearExprT] = {}
        for n in range(len(self.reading.own)):
            here = self._layer(n, leg)
            for x, joint in here.items():
                self._clash(joint, below.get(x), STRAIGHT)
                self._clash(joint, below.get(x - 1), SHORT_LAP)
                self._clash(joint, below.get(x + 1), SHORT_LAP)
            below = here

    def _clash(self, a: cp_model.LinearExprT, b: cp_model.LinearExprT | None, weight: int) -> None:
        if b is not None:
            both = self.model.new_bool_var("")
            self.model.add(both >= a + b - 1)
            self.terms.append(weight * both)

    def _fixed(self, n: int, leg: int, cells: set[int]) -> list[Span]:
        """Spans of pin-hole bricks and locating plates."""
        r = self.reading
        spans = [(line - 1, line + 1) for k, on, line in sorted(r.holes) if (k, on) == (n, leg)]
        self.terms.append(r.depth * len(spans))
        if r.kinds[n][0] == "cap":
            places = [x for x in sorted(cells) if x + 1 in cells]
            ends = places[:1] if r.corner is None or leg == 0 else []
            if places and (leg == 1 or (r.corner is None and places[-1] - places[0] >= 2)):
                ends.append(places[-1])
            held = [x for x in ends if (self._held(n - 1, leg) or set()) & {x, x + 1}]
            spans += [(x, x + 2) for x in held]
            self.terms.append(len(held))
        return spans

    def _layer(self, n: int, leg: int) -> dict[int, cp_model.LinearExprT]:
        cells = self._cells(n, leg)
        spans = self._fixed(n, leg, cells)
        taken = {x for a, b in spans for x in range(a, b)}
        starts: dict[int, list[cp_model.IntVar]] = {x: [] for x in cells}
        over: dict[int, list[cp_model.IntVar]] = {x: [] for x in cells - taken}
        for a in sorted(cells - taken):
            for length in self.lengths[FILL[self.reading.kinds[n][0]]]:
                reach = range(a, a + length)
                if all(x in over for x in reach):
                    piece = self.model.new_bool_var("")
                    starts[a].append(piece)
                    for x in reach:
                        over[x].append(piece)
                    self.terms.append((PART + self._bearing(n, leg, reach)) * piece)
        for pieces in over.values():
            self.model.add_exactly_one(pieces)
        joints: dict[int, cp_model.LinearExprT] = {}
        edges = {edge for span in spans for edge in span}
        square = self.reading.square(leg)
        below = self._held(n - 1, leg)
        for x in sorted(cells | {x + 1 for x in cells}):
            inner = x in cells and x - 1 in cells
            abuts = self.through[n] == 1 - leg and (x in cells) != (x - 1 in cells) and (x in square or x - 1 in square)
            if not inner and not abuts:
                continue
            joint: cp_model.LinearExprT = 1 if abuts or x in edges else sum(starts[x])
            joints[x] = joint
            if below is not None and (x in below) != (x - 1 in below):
                self.terms.append(POOR_BEARING * joint)
        return joints

    def _bearing(self, n: int, leg: int, reach: range) -> int:
        below, above = self._held(n - 1, leg), self._held(n + 1, leg)
        cost = 0
        if not set(reach) & ((below or set()) | (above or set())):
            cost += LOOSE
        if below is not None:
            held = [x in below for x in reach]
            enough = sum(held) >= 2 or 2 * sum(held) >= len(held) or (held[0] and held[-1])
            cost += POOR_BEARING if any(held) and not enough else 0
        return cost


def cost_of(parts: int, joints: Sequence[tuple[set[int], set[int]]], others: int) -> int:
    """The same measure of a bond as laid: parts, pairs of joints a pitch apart or in line, and other faults."""
    short = sum(len({x - 1} & lower) + len({x + 1} & lower) for upper, lower in joints for x in upper)
    straight = sum(len(upper & lower) for upper, lower in joints)
    return parts + SHORT_LAP * short + STRAIGHT * straight + others
