"""Bonding a job with the bricks there are."""

from collections import Counter

from core.bond import bonds_for
from core.bond.within import bond_within, hanging_order
from core.setout.result import SetOut
from tests.core.bond.rooms import ten_feet
from tests.reference.bond_audit import audit_bond


def _usual(setout: SetOut) -> Counter[str]:
    bonds = bonds_for(setout)
    total: Counter[str] = Counter()
    for panel in setout.panels:
        total.update(bonds[panel.design].parts)
    return total


def test_a_stock_that_just_does_changes_nothing() -> None:
    setout = ten_feet()
    found = bond_within(setout, _usual(setout))
    assert found.shortage is None
    assert {name: [bond for _, bond in shares] for name, shares in found.bonds.items()} == {
        name: [bond] for name, bond in bonds_for(setout).items()
    }


def test_parts_that_are_not_named_are_unlimited() -> None:
    assert bond_within(ten_feet(), {}).shortage is None


def test_sizes_are_swapped_within_the_stock_and_every_bond_still_passes_the_audit() -> None:
    setout = ten_feet()
    most = _usual(setout)["brick 2x4"] - 300
    found = bond_within(setout, {"brick 2x4": most})
    assert found.shortage is None
    assert found.parts["brick 2x4"] <= most
    panels = {panel.design: panel for panel in setout.panels}
    assert [
        f for design, shares in found.bonds.items() for _, bond in shares for f in audit_bond(setout, panels[design], bond)
    ] == []
    counts = Counter(panel.design for panel in setout.panels)
    assert {design: sum(count for count, _ in shares) for design, shares in found.bonds.items()} == counts


def test_swapping_adds_no_straight_joint() -> None:
    found = bond_within(ten_feet(), {"brick 2x3": 0})
    assert found.shortage is None
    assert found.parts["brick 2x3"] == 0
    faults = [fault for shares in found.bonds.values() for _, bond in shares for fault in bond.faults]
    assert not [fault for fault in faults if fault.kind == "straight joint"]


def test_what_runs_out_is_named_with_the_panel_in_hanging_order() -> None:
    """Pin-hole bricks cannot be swapped: with enough for three panels of four points each, the fourth stops."""
    setout = ten_feet()
    order = hanging_order(setout)
    bonds = bonds_for(setout)
    enough = sum(bonds[panel.design].parts["pin-hole brick 1x2"] for panel in order[:3])
    found = bond_within(setout, {"pin-hole brick 1x2": enough})
    assert found.shortage is not None
    assert (found.shortage.part, found.shortage.mark) == ("pin-hole brick 1x2", order[3].mark)
    assert found.shortage.missing == bonds[order[3].design].parts["pin-hole brick 1x2"]
    assert f"runs out at panel {order[3].mark}" in found.shortage.text
    assert sum(count for shares in found.bonds.values() for count, _ in shares) == 3


def test_nothing_in_stock_stops_at_the_first_panel() -> None:
    setout = ten_feet()
    found = bond_within(setout, {f"brick 2x{length}": 0 for length in (1, 2, 3, 4)})
    assert found.shortage is not None
    assert found.shortage.mark == hanging_order(setout)[0].mark
