"""Laws over generated rooms, and proofs by an independent solver."""

from collections.abc import Iterator
from itertools import pairwise

import pytest

from core.bond import bond_of
from core.bond.bonds import first_panels
from core.bond.result import Bond, Fault
from core.errors import RoomError
from core.kit import Kit
from core.setout import solve
from core.setout.result import Panel, SetOut
from tests.core.bond.proof import LOOSE, POOR_BEARING, cost_of, least_cost
from tests.generate import SMALL_KIT, TINY_KIT, seeded_room
from tests.reference.bond_audit import Audit, audit_bond, read

KITS = (SMALL_KIT, TINY_KIT, SMALL_KIT, TINY_KIT, Kit())
SMALL_PANEL_CELLS = 140
PROOF_SECONDS = 20.0


def _designs(seeds: range, kit: Kit | None = None) -> Iterator[tuple[SetOut, Panel, Bond]]:
    for seed in seeds:
        try:
            setout = solve(seeded_room(seed, kit=kit or KITS[seed % len(KITS)], most_pitches=40, most_rows=2))
        except RoomError:
            continue
        for panel in first_panels(setout).values():
            yield setout, panel, bond_of(setout, panel)


@pytest.mark.slow
def test_every_bond_passes_the_audit() -> None:
    assert [fault for made in _designs(range(15)) for fault in audit_bond(*made)] == []


@pytest.mark.slow
@pytest.mark.parametrize("first", range(0, 300, 50))
def test_every_bond_of_many_rooms_passes_the_audit(first: int) -> None:
    assert [fault for made in _designs(range(first, first + 50)) for fault in audit_bond(*made)] == []


@pytest.mark.slow
def test_straight_joints_stand_only_where_fixed_parts_leave_no_choice() -> None:
    """Both joints are at a pin-hole brick, a locating plate or the other leg's side."""
    found = []
    for _, panel, bond in _designs(range(6), Kit()):
        straight = [fault for fault in bond.faults if fault.kind == "straight joint"]
        found += [(panel.design, fault) for fault in straight if not _is_forced(bond, fault)]
    assert found == []


def _is_forced(bond: Bond, fault: Fault) -> bool:
    return all(fault.at in _fixed_lines(bond, n, fault.leg) for n in (fault.layer, fault.layer - 1))


def _fixed_lines(bond: Bond, n: int, leg: int) -> set[int]:
    fixed = [laid for laid in bond.layers[n].laid if laid.leg == leg and (laid.side is not None or "locating" in laid.part)]
    lines = {x for laid in fixed for x in (laid.at, laid.at + laid.length)}
    if bond.corner is not None:
        lines |= {bond.legs[0] - 2, bond.legs[0], 0, 2}
    return lines


@pytest.mark.parametrize("seed", range(12))
def test_small_panels_are_bonded_at_the_least_cost(seed: int) -> None:
    """A constraint solver, told the rules of docs/bond.md anew, finds nothing cheaper and proves it."""
    kit = KITS[seed % 2]
    for setout, panel, bond in _designs(range(seed, seed + 1), kit):
        reading = read(setout, panel)
        if sum(len(cells) for own in reading.own for cells in own) > SMALL_PANEL_CELLS:
            continue
        if any(fault.kind in ("left out", "loose") for fault in bond.faults):
            continue
        proof = least_cost(reading, setout.room.parts, setout.room.kit, PROOF_SECONDS)
        assert (panel.design, _cost(setout, panel, bond)) == (panel.design, proof.bound)


def _cost(setout: SetOut, panel: Panel, bond: Bond) -> int:
    audit = Audit(setout, panel, bond)
    pairs = [
        (upper, lower)
        for leg in range(len(bond.legs))
        for lower, upper in pairwise([audit.joints(n, leg) for n in range(len(bond.layers))])
    ]
    weights = {"poor bearing": POOR_BEARING, "loose": LOOSE}
    return cost_of(sum(bond.parts.values()), pairs, sum(weights.get(fault.kind, 0) for fault in bond.faults))
