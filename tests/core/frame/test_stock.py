"""Cutting plans: nothing lost, nothing over, and no independent solver finds less timber."""

from collections import Counter

from hypothesis import given, settings
from hypothesis import strategies as st
from ortools.sat.python import cp_model

from core.frame.stock import CuttingPlan, cut_from_stock

PIECES = st.dictionaries(st.integers(100, 1900).map(float), st.integers(1, 4), min_size=1, max_size=4)
STOCKS = st.sets(st.sampled_from([2000.0, 2400.0, 3000.0]), min_size=1)


def cut(plan: CuttingPlan) -> Counter[float]:
    return Counter({p: 0 for c in plan.cuts for p in c.pieces_mm}) + Counter(
        {p: sum(c.count * c.pieces_mm.count(p) for c in plan.cuts) for c in plan.cuts for p in c.pieces_mm}
    )


@given(PIECES, STOCKS, st.sampled_from([0.0, 3.0]))
def test_every_piece_is_cut_once_and_every_board_holds_its_pieces(
    pieces: dict[float, int], stock: set[float], kerf: float
) -> None:
    plan = cut_from_stock(pieces, sorted(stock), kerf)
    assert cut(plan) == Counter(pieces)
    for one in plan.cuts:
        used = sum(one.pieces_mm) + kerf * (len(one.pieces_mm) - 1)
        assert used <= one.stock_mm + 1e-6
        assert one.offcut_mm == max(0.0, round(one.stock_mm - used - kerf, 4))


@settings(max_examples=25)
@given(PIECES, STOCKS)
def test_no_independent_solver_finds_less_timber(pieces: dict[float, int], stock: set[float]) -> None:
    plan = cut_from_stock(pieces, sorted(stock), 3.0)
    assert plan.is_proven
    assert round(plan.bought_mm) == _least(pieces, sorted(stock), 3)


def _least(pieces: dict[float, int], stock: list[float], kerf: int) -> int:
    """Millimetres of boards by constraint programming, board by board, one at most for each piece."""
    model = cp_model.CpModel()
    count = sum(pieces.values())
    kinds = [model.new_int_var(0, len(stock), f"board {b}") for b in range(count)]
    length = [model.new_int_var(0, int(max(stock)), f"length {b}") for b in range(count)]
    for b in range(count):
        model.add_element(kinds[b], [0, *(int(s) for s in stock)], length[b])
    held = {(b, p): model.new_int_var(0, many, f"{b} {p}") for b in range(count) for p, many in pieces.items()}
    for p, many in pieces.items():
        model.add(sum(held[b, p] for b in range(count)) == many)
    for b in range(count):
        is_used = model.new_bool_var(f"used {b}")
        model.add(kinds[b] > 0).only_enforce_if(is_used)
        model.add(kinds[b] == 0).only_enforce_if(~is_used)
        model.add(sum((int(p) + kerf) * held[b, p] for p in pieces) <= length[b] + kerf * is_used)
    for b in range(count - 1):
        model.add(kinds[b] >= kinds[b + 1])
    model.minimize(sum(length))
    solver = cp_model.CpSolver()
    solver.parameters.num_workers = 1
    assert solver.solve(model) == cp_model.OPTIMAL
    return round(solver.objective_value)


def test_a_piece_no_board_holds_is_named_and_the_others_are_cut() -> None:
    plan = cut_from_stock({5000.0: 2, 1000.0: 1}, [2400.0])
    assert plan.too_long_mm == (5000.0, 5000.0)
    assert cut(plan) == Counter({1000.0: 1})


def test_nothing_to_cut_buys_nothing() -> None:
    plan = cut_from_stock({}, [2400.0])
    assert (plan.boards, plan.bought_mm, plan.waste_share, plan.is_proven) == (0, 0.0, 0.0, True)


def test_the_same_timber_always_gives_the_same_plan() -> None:
    pieces = {1900.0: 29, 331.0: 3, 293.0: 5, 1478.0: 2}
    assert cut_from_stock(pieces, [2400.0, 4800.0], 3.0) == cut_from_stock(dict(reversed(pieces.items())), [4800.0, 2400.0], 3.0)
