"""The set-out without set-up as an integer program, solved to a proven optimum by independent solvers (OR-tools).

One variable per candidate. Candidates leave one pitch line and arrive at another; a division is a flow of one unit along
the strip, once round where it is closed. Costs are whole multiples of one fraction of a minute, so the optimum is exact.
"""

import math
from dataclasses import dataclass, field
from fractions import Fraction

from ortools.linear_solver.python import model_builder as linear
from ortools.sat.python import cp_model

from core.kit import Kit
from core.room import Room
from core.setout.result import Row, SetOut, WallShell
from tests.reference.price import exact, terms
from tests.reference.strip import RowCells, Strip, row_cells, strips
from tests.reference.timber import Landing, MountRuleReader

Candidate = tuple[int, int, int | None]
"""Left line within one turn, right line (unrolled), corner line inside it."""


def candidates(kit: Kit, strip: Strip) -> list[Candidate]:
    """Every interval that set-out may use."""
    least, most = kit.least_width_pitches, kit.full_width
    found: list[Candidate] = []
    for left in range(strip.length):
        if left in strip.corners:
            continue
        end = left + 2 * most if strip.closed else min(left + 2 * most, strip.length)
        for right in range(left + least, end + 1):
            corners = strip.corner_inside(left, right)
            if strip.line(right) in strip.corners:
                continue
            if not corners and right - left <= most:
                found.append((left, right, None))
            elif len(corners) == 1 and all(least <= leg <= most for leg in (corners[0] - left, right - corners[0])):
                found.append((left, right, corners[0]))
    return found


@dataclass
class RowPrices:
    """Exact minutes of candidates of one row; alike profiles are priced once."""

    room: Room
    cells: RowCells
    landing: Landing | None
    """None where no blocking is to be counted."""
    known: dict[object, Fraction] = field(default_factory=dict)

    def __post_init__(self) -> None:
        self.mounts = MountRuleReader(self.cells)
        modes = (self.room.frame(wall).mode for wall in self.cells.strip.walls)
        self.counts_blocking = self.landing is not None and any(mode != "to_build" for mode in modes)

    def of(self, candidate: Candidate) -> Fraction:
        """Minutes of all pieces of a candidate."""
        left, right, corner = candidate
        edges, columns = self.cells.profile(left, right)
        key = (tuple(edge - left for edge in edges), tuple(columns), corner and corner - left)
        if key not in self.known:
            pieces = self.cells.pieces(left, right, corner)
            self.known[key] = sum((terms(self.cells, p, self.room.rates).total for p in pieces), Fraction(0))
        return self.known[key] + (self._blocking(candidate) if self.counts_blocking else 0)

    def _blocking(self, candidate: Candidate) -> Fraction:
        landing = self.landing
        assert landing is not None
        points = [point for piece in self.cells.pieces(*candidate) for point in self.mounts.points(piece)]
        return exact(self.room.rates.blocking) * sum(landing.wants_blocking(self.cells, point) for point in points)


def cheapest_division(strip: Strip, offers: list[Candidate], prices: list[Fraction]) -> Fraction:
    """The proven least total of candidates that cover the strip once; raises ValueError where none do."""
    scale = math.lcm(*(price.denominator for price in prices))
    costs = [int(price * scale) for price in prices]
    least = by_linear_program(strip, offers, costs)
    return Fraction(by_cp_sat(strip, offers, costs) if least is None else least, scale)


def _covers_first_pitch(strip: Strip, candidate: Candidate) -> bool:
    return candidate[0] == 0 or candidate[1] > strip.length


def _kept_lines(strip: Strip, offers: list[Candidate]) -> list[int]:
    """Lines where as many candidates arrive as leave."""
    lines = {left for left, _, _ in offers} | {strip.line(right) for _, right, _ in offers}
    return sorted(lines - (set() if strip.closed else {0, strip.length}))


def by_linear_program(strip: Strip, offers: list[Candidate], costs: list[int]) -> int | None:
    """The least cost, proven in whole numbers by the dual; None where the linear program's answer is not such a proof.

    With a price on every line and on going round once, no candidate may cost less than the prices it collects; then no division
    costs less than going round once. The solver only suggests plan and prices; both are checked exactly.
    """
    model = linear.Model()  # type: ignore[no-untyped-call]
    taken = [model.new_num_var(0, math.inf, "") for _ in offers]
    flows: dict[int, list[linear.LinearExpr]] = {line: [] for line in _kept_lines(strip, offers)}
    for variable, (left, right, _) in zip(taken, offers, strict=True):
        if left in flows:
            flows[left].append(variable)
        if strip.line(right) in flows:
            flows[strip.line(right)].append(-variable)
    kept = {line: model.add(linear.LinearExpr.sum(flow) == 0) for line, flow in flows.items()}
    is_first = [_covers_first_pitch(strip, offer) for offer in offers]
    once = model.add(linear.LinearExpr.sum([v for v, first in zip(taken, is_first, strict=True) if first]) == 1)
    model.minimize(linear.LinearExpr.weighted_sum(taken, [float(cost) for cost in costs]))
    solver = linear.Solver("glop")
    if solver.solve(model) != linear.SolveStatus.OPTIMAL:
        return None
    price_of = {line: round(solver.dual_value(constraint)) for line, constraint in kept.items()}
    round_price = round(solver.dual_value(once))
    for (left, right, _), cost, first in zip(offers, costs, is_first, strict=True):
        if cost < price_of.get(left, 0) - price_of.get(strip.line(right), 0) + round_price * first:
            return None
    plan = [place for place, variable in enumerate(taken) if solver.value(variable) > 0.5]
    is_whole = sum(offers[place][1] - offers[place][0] for place in plan) == strip.length
    return round_price if is_whole and sum(costs[place] for place in plan) == round_price else None


def by_cp_sat(strip: Strip, offers: list[Candidate], costs: list[int]) -> int:
    """The least cost, proven by constraint programming; slower, for small strips and for second opinions."""
    model = cp_model.CpModel()
    taken = [model.new_bool_var("") for _ in offers]
    for line in _kept_lines(strip, offers):
        leaving = [v for v, offer in zip(taken, offers, strict=True) if offer[0] == line]
        arriving = [v for v, offer in zip(taken, offers, strict=True) if strip.line(offer[1]) == line]
        model.add(sum(leaving) == sum(arriving))
    model.add_exactly_one(v for v, offer in zip(taken, offers, strict=True) if _covers_first_pitch(strip, offer))
    model.minimize(sum(cost * variable for cost, variable in zip(costs, taken, strict=True)))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    if solver.solve(model) != cp_model.OPTIMAL:
        raise ValueError("no division covers the strip")
    return round(solver.objective_value)


@dataclass
class RoomModel:
    """Proven least minutes of rows and of whole stacks of rows of one room, set-up left out."""

    room: Room
    walls: tuple[WallShell, ...]
    landing: Landing | None
    known: dict[object, Fraction] = field(default_factory=dict)

    @classmethod
    def of(cls, setout: SetOut, *, blocking: bool = False) -> "RoomModel":
        """The model of the set-out's room; takes the shell, and where blocking counts the standing timber, as given."""
        landing = Landing(setout.room, setout.walls, setout.timber) if blocking else None
        return cls(setout.room, setout.walls, landing)

    def __post_init__(self) -> None:
        self.strips = strips(self.walls)
        self.offers = [candidates(self.room.kit, strip) for strip in self.strips]

    def row(self, row: Row) -> Fraction:
        """The row's least minutes over all its strips."""
        return sum((self._strip(row, place) for place in range(len(self.strips))), Fraction(0))

    def _strip(self, row: Row, place: int) -> Fraction:
        cells = row_cells(self.room, self.walls, self.strips[place], row)
        prices = RowPrices(self.room, cells, self.landing)
        key = (place, row.courses, cells.free.tobytes(), row.z_plates if prices.counts_blocking else None)
        if key not in self.known:
            self.known[key] = cheapest_division(cells.strip, self.offers[place], [prices.of(c) for c in self.offers[place]])
        return self.known[key]

    def stack(self, rows: tuple[Row, ...]) -> Fraction:
        """Least minutes of all rows of a stack."""
        return sum((self.row(row) for row in rows), Fraction(0))


def stacks(room: Room) -> list[tuple[Row, ...]]:
    """Every stack of rows that fills the clad height to within the head gap, in every order."""
    kit = room.kit
    most_mm = room.clad_height_mm
    standard = (kit.full_courses, kit.half_courses)
    found: list[tuple[Row, ...]] = []

    def grow(rows: tuple[Row, ...], plates: int, has_closing: bool) -> None:
        gap_mm = most_mm - plates * kit.plate_mm
        if rows and gap_mm <= kit.head_gap_mm + 1e-6:
            found.append(rows)
        for courses in range(kit.least_closing_courses, kit.full_courses + 1):
            is_closing = courses not in standard
            height = kit.row_plates(courses)
            if (plates + height) * kit.plate_mm <= most_mm + 1e-6 and not (is_closing and has_closing):
                grow((*rows, Row(len(rows), plates, courses, height)), plates + height, has_closing or is_closing)

    grow((), 0, False)
    return found
