"""The audit notices what is wrong: each fault made by hand in a good bond is found."""

from dataclasses import replace

import pytest

from core.bond import bond_of
from core.bond.result import Bond, Fault, Laid
from core.setout.result import Panel
from tests.core.bond.rooms import ten_feet
from tests.reference.bond_audit import audit_bond


@pytest.fixture
def full() -> Panel:
    return next(panel for panel in ten_feet().panels if panel.design == "full")


def _changed(bond: Bond, n: int, *laid: Laid) -> Bond:
    layers = list(bond.layers)
    layers[n] = replace(layers[n], laid=laid)
    return replace(bond, layers=tuple(layers))


def _found(panel: Panel, bond: Bond) -> str:
    return "; ".join(audit_bond(ten_feet(), panel, bond))


def test_a_good_bond_has_nothing_wrong(full: Panel) -> None:
    assert _found(full, bond_of(ten_feet(), full)) == ""


def test_a_missing_brick_is_found(full: Panel) -> None:
    bond = bond_of(ten_feet(), full)
    assert "have no part" in _found(full, _changed(bond, 5, *bond.layers[5].laid[1:]))


def test_two_bricks_in_one_place_are_found(full: Panel) -> None:
    bond = bond_of(ten_feet(), full)
    assert "overlap" in _found(full, _changed(bond, 5, *bond.layers[5].laid, bond.layers[5].laid[0]))


def test_a_brick_outside_is_found(full: Panel) -> None:
    bond = bond_of(ten_feet(), full)
    assert "outside the outline" in _found(full, _changed(bond, 5, *bond.layers[5].laid, Laid("brick 2x4", 0, 38, 4)))


def test_a_straight_joint_that_is_not_reported_is_found(full: Panel) -> None:
    bond = bond_of(ten_feet(), full)
    assert "straight joints" in _found(full, _changed(bond, 10, *bond.layers[9].laid))


def test_a_short_lap_that_is_not_reported_is_found(full: Panel) -> None:
    assert "short laps" in _found(full, replace(bond_of(ten_feet(), full), faults=()))


def test_a_fault_that_is_none_is_found(full: Panel) -> None:
    bond = bond_of(ten_feet(), full)
    assert "poor bearing" in _found(full, replace(bond, faults=(*bond.faults, Fault(5, 0, 8, "", "poor bearing"))))


def test_brick_in_place_of_pin_hole_bricks_is_found(full: Panel) -> None:
    bond = bond_of(ten_feet(), full)
    rest = [laid for laid in bond.layers[3].laid if laid.at != 0]
    assert "mounting points at" in _found(full, _changed(bond, 3, Laid("brick 2x2", 0, 0, 2), *rest))


def test_a_brick_where_a_tile_belongs_is_found(full: Panel) -> None:
    bond = bond_of(ten_feet(), full)
    rest = [replace(laid, part="brick 2x4") if laid.part == "tile 2x4" else laid for laid in bond.layers[-1].laid]
    assert "a brick in a cap" in _found(full, _changed(bond, 32, *rest))


def test_a_part_that_is_not_stocked_is_found(full: Panel) -> None:
    bond = bond_of(ten_feet(), full)
    assert "not stocked" in _found(full, _changed(bond, 5, *(replace(laid, part="brick 2x8") for laid in bond.layers[5].laid)))


def test_a_bound_above_the_count_is_found(full: Panel) -> None:
    bond = bond_of(ten_feet(), full)
    assert "fewer than the bound" in _found(full, replace(bond, fewest=bond.fewest + 1))


def test_legs_that_do_not_take_turns_are_found() -> None:
    setout = ten_feet()
    corner = next(panel for panel in setout.panels if panel.kind == "corner")
    bond = bond_of(setout, corner)
    assert "runs through again" in _found(corner, _changed(bond, 10, *bond.layers[9].laid))
