"""With set-up free, the set-out is the optimum: compared with an independent solver's proof and with every stack of rows."""

from fractions import Fraction
from pathlib import Path

import pytest

from core.kit import Kit, Rates
from core.room import Room
from core.setout import solve
from core.setout.result import Row, WallShell
from tests.generate import SMALL_KIT, TINY_KIT, seeded_room
from tests.reference.audit import audit
from tests.reference.model import RoomModel, RowPrices, by_cp_sat, by_linear_program, stacks
from tests.reference.price import exact
from tests.reference.strip import row_cells

NO_SETUP = Rates(setup=0.0)
OTHER_RATES = Rates(
    setup=0.0, handling=1.5, sliver=25.0, weak=7.0, shaped_factor=2.5, corner_factor=1.25, shaped_corner_factor=4.0, blocking=2.0
)
NEAR_MINUTES = 1e-6
MOST_WORK = 160_000
"""Rows times candidates that one test prices."""
KEPT = sorted((Path(__file__).resolve().parents[1] / "reference" / "rooms").glob("*.room.json"))

SIZES: list[dict[str, object]] = [
    *({"seed": seed, "kit": TINY_KIT, "most_pitches": 40} for seed in range(100, 118)),
    *({"seed": seed, "kit": TINY_KIT, "most_pitches": 120, "most_rows": 2} for seed in range(200, 204)),
    *({"seed": seed, "kit": TINY_KIT, "most_pitches": 40, "rates": OTHER_RATES} for seed in range(300, 306)),
    *({"seed": seed, "kit": SMALL_KIT, "most_pitches": 40, "most_rows": 2} for seed in range(400, 405)),
    *({"seed": seed, "kit": Kit(), "most_pitches": 60, "most_rows": 2} for seed in range(500, 504)),
    *({"seed": seed, "kit": Kit(), "most_pitches": 120, "most_rows": 3} for seed in range(600, 602)),
]


def _room(size: dict[str, object], *, standing: bool = False) -> Room:
    recipe = {"rates": NO_SETUP, **size, "standing": standing}
    seed = recipe.pop("seed")
    assert isinstance(seed, int)
    return seeded_room(seed, **recipe)


def _name(size: dict[str, object]) -> str:
    return f"seed {size['seed']}"


@pytest.mark.slow
@pytest.mark.parametrize("size", SIZES, ids=_name)
def test_every_row_is_divided_for_the_proven_least_minutes(size: dict[str, object]) -> None:
    setout = solve(_room(size))
    proven = RoomModel.of(setout).stack(setout.rows)
    assert setout.minutes.total == pytest.approx(float(proven), abs=NEAR_MINUTES)


@pytest.mark.slow
@pytest.mark.parametrize("size", SIZES[::3], ids=_name)
def test_blocking_on_standing_frames_is_weighed_to_the_proven_optimum(size: dict[str, object]) -> None:
    setout = solve(_room(size, standing=True))
    proven = RoomModel.of(setout, blocking=True).stack(setout.rows)
    assert setout.minutes.total == pytest.approx(float(proven), abs=NEAR_MINUTES)
    assert audit(setout) == []


@pytest.mark.slow
@pytest.mark.parametrize("size", SIZES[:8], ids=_name)
def test_no_other_stack_of_rows_costs_less(size: dict[str, object]) -> None:
    setout = solve(_room(size))
    model = RoomModel.of(setout)
    least = min(model.stack(stack) for stack in stacks(setout.room))
    assert setout.minutes.total == pytest.approx(float(least), abs=NEAR_MINUTES)


@pytest.mark.slow
@pytest.mark.parametrize("path", KEPT, ids=lambda path: path.name)
def test_a_room_that_once_failed_is_sound_and_proven(path: Path) -> None:
    room = Room.model_validate_json(path.read_text("utf-8"))
    with_setup = solve(room)
    assert audit(with_setup) == []
    setout = solve(room.model_copy(update={"rates": room.rates.model_copy(update={"setup": 0.0})}))
    ignoring = setout.minutes.total + room.rates.setup * setout.tally.designs_not_in_kit
    assert with_setup.minutes.total <= ignoring + NEAR_MINUTES
    model = RoomModel.of(setout, blocking=True)
    rivals = stacks(room)
    work = len({(row.z_plates, row.courses) for stack in rivals for row in stack}) * sum(map(len, model.offers))
    # Proving every row of every stack of a large room takes minutes; there the chosen stack alone is proven.
    least = min(model.stack(stack) for stack in (rivals if work <= MOST_WORK else [setout.rows]))
    assert setout.minutes.total == pytest.approx(float(least), abs=NEAR_MINUTES)


@pytest.mark.slow
@pytest.mark.parametrize("size", SIZES[:4], ids=_name)
def test_both_independent_solvers_prove_the_same_least_minutes(size: dict[str, object]) -> None:
    setout = solve(_room(size))
    model = RoomModel.of(setout)
    for strip, offers in zip(model.strips, model.offers, strict=True):
        prices = RowPrices(setout.room, row_cells(setout.room, setout.walls, strip, setout.rows[0]), None)
        costs = [int(prices.of(offer) * 1000) for offer in offers]
        assert by_linear_program(strip, offers, costs) == by_cp_sat(strip, offers, costs)


def _square_model(pitches: int, rates: Rates = NO_SETUP) -> RoomModel:
    side = pitches * 8.0 + 1.0
    room = Room(
        name="square", corners_mm=((0, 0), (0, side), (side, side), (side, 0)), clad_height_mm=304.0, kit=Kit(), rates=rates
    )
    walls = tuple(WallShell(wall, side, pitches, 0.5, 0.5, "inside", "inside") for wall in range(4))
    return RoomModel(room, walls, None)


def test_the_model_finds_the_division_worked_out_by_hand() -> None:
    """Four walls of 76 pitches, no opening; arithmetic by hand.

    Corner legs cost twice as much a pitch as plain panels, so they are 8 at each end; the 60 pitches between need two panels.
    A side costs 60 / 38 x 10 plain, 16 / 38 x 20 corner, and 4 minutes for each of two plain panels and one corner panel.
    """
    side = Fraction(60 * 10, 38) + Fraction(16 * 20, 38) + 3 * 4
    assert _square_model(76).row(Row(0, 0, 31, 95)) == 4 * side


def test_the_model_takes_longer_legs_where_they_save_a_panel() -> None:
    """Four walls of 54 pitches: legs of 8 + 8 and a panel of 38, by hand; at 55 a leg of 9 comes before a second panel."""
    per_pitch = Fraction(10, 38)
    row = Row(0, 0, 31, 95)
    assert _square_model(54).row(row) == 4 * (38 * per_pitch + 16 * 2 * per_pitch + 8)
    assert _square_model(55).row(row) == 4 * (38 * per_pitch + 17 * 2 * per_pitch + 8)
    dear = NO_SETUP.model_copy(update={"corner_factor": 30.0})
    two_panels = 39 * per_pitch + 16 * exact(30.0) * per_pitch + 12
    assert _square_model(55, dear).row(row) == 4 * two_panels
