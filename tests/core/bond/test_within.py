"""Bonding a job with the bricks there are."""

from collections import Counter
from collections.abc import Mapping

from core.bond import bonds_for
from core.bond.within import ToLay, WithinStock, bond_within
from core.crew.work import hanging_order
from core.setout.result import SetOut
from tests.core.bond.rooms import ten_feet
from tests.reference.bond_audit import audit_bond


def _usual(setout: SetOut) -> Counter[str]:
    bonds = bonds_for(setout)
    total: Counter[str] = Counter()
    for panel in setout.panels:
        total.update(bonds[panel.design].parts)
    return total


def _within(setout: SetOut, available: Mapping[str, int]) -> WithinStock:
    order = [ToLay(panel.mark, panel.design) for panel in hanging_order(setout)]
    return bond_within(setout, {(part, None): number for part, number in available.items()}, order)


def _laid(found: WithinStock) -> Counter[str]:
    total: Counter[str] = Counter()
    for bond in found.bonds.values():
        total.update(bond.parts)
    return total


def test_a_stock_that_just_does_changes_nothing() -> None:
    setout = ten_feet()
    found = _within(setout, _usual(setout))
    assert found.shortage is None
    usual = bonds_for(setout)
    assert dict(found.bonds) == {panel.mark: usual[panel.design] for panel in setout.panels}


def test_parts_that_are_not_named_are_unlimited() -> None:
    assert _within(ten_feet(), {}).shortage is None


def test_sizes_are_swapped_within_the_stock_and_every_bond_still_passes_the_audit() -> None:
    setout = ten_feet()
    most = _usual(setout)["brick 2x4"] - 300
    found = _within(setout, {"brick 2x4": most})
    assert found.shortage is None
    assert _laid(found)["brick 2x4"] <= most
    firsts = {panel.design: panel for panel in reversed(setout.panels)}
    designs = {panel.mark: panel.design for panel in setout.panels}
    distinct = {id(bond): (bond, designs[mark]) for mark, bond in found.bonds.items()}
    assert [fault for bond, design in distinct.values() for fault in audit_bond(setout, firsts[design], bond)] == []
    assert list(found.bonds) == [panel.mark for panel in hanging_order(setout)]


def test_the_first_panels_of_a_design_keep_its_own_bond() -> None:
    setout = ten_feet()
    usual = bonds_for(setout)
    found = _within(setout, {"brick 2x4": _usual(setout)["brick 2x4"] - 300})
    for design, own in usual.items():
        mine = [found.bonds[panel.mark] == own for panel in hanging_order(setout) if panel.design == design]
        assert mine == sorted(mine, reverse=True), design


def test_swapping_adds_no_straight_joint() -> None:
    found = _within(ten_feet(), {"brick 2x3": 0})
    assert found.shortage is None
    assert _laid(found)["brick 2x3"] == 0
    assert not [fault for bond in found.bonds.values() for fault in bond.faults if fault.kind == "straight joint"]


def test_what_runs_out_is_named_with_the_panel_in_hanging_order() -> None:
    """Pin-hole bricks cannot be swapped: with enough for three panels of four points each, the fourth stops."""
    setout = ten_feet()
    order = hanging_order(setout)
    bonds = bonds_for(setout)
    enough = sum(bonds[panel.design].parts["pin-hole brick 1x2"] for panel in order[:3])
    found = _within(setout, {"pin-hole brick 1x2": enough})
    assert found.shortage is not None
    assert (found.shortage.part, found.shortage.mark) == ("pin-hole brick 1x2", order[3].mark)
    assert found.shortage.missing == bonds[order[3].design].parts["pin-hole brick 1x2"]
    assert f"runs out at panel {order[3].mark}" in found.shortage.text
    assert list(found.bonds) == [panel.mark for panel in order[:3]]


def test_nothing_in_stock_stops_at_the_first_panel() -> None:
    setout = ten_feet()
    found = _within(setout, {f"brick 2x{length}": 0 for length in (1, 2, 3, 4)})
    assert found.shortage is not None
    assert found.shortage.mark == hanging_order(setout)[0].mark
