"""Laying what is left to build from what lies in the boxes."""

from collections import Counter

import pytest

from core.bond import StockError, bonds_for
from core.buying import in_panels
from core.buying.account import on_hand
from core.edits.progress import lay_ring, mark_panels
from core.laying import FromStock, bond_from_stock
from core.setout import solve
from core.takeoff import Material
from core.takeoff.ring import starter_ring
from tests.core.colour.pictures import coloured, ramp
from tests.core.laying.stocked import square, takes, to_build, with_boxes

AMPLE = {f"{kind} 2x{length}": 9_000 for kind in ("brick", "plate", "tile") for length in (1, 2, 3, 4)} | {
    "pin-hole brick 1x2": 900,
    "locating plate 2x2": 900,
    "plug": 900,
}


def laid(found: FromStock) -> Counter[str]:
    total: Counter[str] = Counter()
    for bond in found.bonds.values():
        total.update(bond.parts)
    return +total


def test_ample_boxes_change_no_bond() -> None:
    setout = with_boxes(solve(square()), AMPLE)
    found = bond_from_stock(setout)
    assert found.shortage is None
    assert not found.swapped
    assert {group.name for group in found.groups} == {design.name for design in setout.designs}
    assert laid(found) == takes(setout)


def test_no_more_of_any_part_is_laid_than_lies_in_the_boxes() -> None:
    setout = solve(square())
    setout = with_boxes(setout, AMPLE | {"brick 2x4": takes(setout)["brick 2x4"] - 120})
    found = bond_from_stock(setout)
    assert found.shortage is None
    assert found.swapped
    assert list(found.bonds) == to_build(setout)
    assert all(line.left is not None and line.left >= 0 for line in found.lines)
    assert {line.part: line.laid for line in found.lines if line.laid} == laid(found)


def test_panels_that_stand_take_no_more_from_the_boxes() -> None:
    """The same boxes do for the rest once some panels are built out of others."""
    setout = solve(square())
    marks = to_build(setout)
    parts = {name: bond.parts for name, bond in bonds_for(setout).items()}
    setout = solve(mark_panels(setout, marks[:4], "built", parts))
    plates = {part: number for part, number in AMPLE.items() if part.startswith("plate")}
    setout = with_boxes(setout, takes(setout) | plates)
    assert sum(in_panels(setout.room).values()) > 0
    found = bond_from_stock(setout)
    assert found.to_build == tuple(marks[4:])
    assert found.shortage is None
    assert not found.swapped
    assert {line.left for line in found.lines if not line.part.startswith("plate")} == {0}


def test_what_runs_out_is_named_with_its_panel_and_the_panels_beyond_it_have_no_bond() -> None:
    setout = solve(square())
    bonds, marks = bonds_for(setout), to_build(setout)
    designs = {panel.mark: panel.design for panel in setout.panels}
    for_three = sum(bonds[designs[mark]].parts["pin-hole brick 1x2"] for mark in marks[:3])
    found = bond_from_stock(with_boxes(setout, AMPLE | {"pin-hole brick 1x2": for_three}))
    assert found.shortage is not None
    assert (found.shortage.part, found.shortage.mark) == ("pin-hole brick 1x2", marks[3])
    assert list(found.bonds) == marks[:3]
    assert list(found.beyond) == marks[3:]
    assert f"runs out at panel {marks[3]}" in found.verdict


def test_kinds_nobody_counted_are_taken_to_be_enough_and_named() -> None:
    bricks = {part: number for part, number in AMPLE.items() if part.startswith("brick")}
    found = bond_from_stock(with_boxes(solve(square()), bricks))
    assert found.shortage is None
    assert found.uncounted == ("pin-hole brick", "plate", "tile", "locating plate", "plug")
    assert {line.part for line in found.lines if line.on_hand is None} >= {"pin-hole brick 1x2", "plug"}


def test_sizes_nobody_counted_of_a_counted_kind_are_none() -> None:
    found = bond_from_stock(with_boxes(solve(square()), {part: n for part, n in AMPLE.items() if part != "brick 2x3"}))
    assert laid(found)["brick 2x3"] == 0


def test_sizes_not_stocked_as_a_rule_are_used_where_they_lie_in_the_boxes() -> None:
    setout = solve(square())
    short = AMPLE | {"brick 2x4": takes(setout)["brick 2x4"] - 120, "brick 2x6": 40}
    found = bond_from_stock(with_boxes(setout, short))
    assert found.shortage is None
    assert 0 < laid(found)["brick 2x6"] <= 40


def test_the_starter_ring_gets_its_plates_first() -> None:
    setout = solve(square())
    ring = starter_ring(setout).by_wall()
    plate = next(item for count in ring.values() for item in count if item.name.startswith("plate"))
    needed = sum(count[plate] for count in ring.values())
    found = bond_from_stock(with_boxes(setout, AMPLE | {plate.name: needed + 1}))
    assert next(line for line in found.lines if line.part == plate.name).on_hand == 1


def test_without_any_count_there_is_nothing_to_lay_from() -> None:
    with pytest.raises(StockError, match=r"nothing is on hand .* stock \(stock\.received in the room file\)"):
        bond_from_stock(solve(square()))


@pytest.mark.parametrize("kind", ["brick", "tile", "plug"])
def test_a_stock_without_any_usable_size_is_refused(kind: str) -> None:
    nothing = AMPLE | {part: 0 for part in AMPLE if part.split(" ")[0] == kind}
    with pytest.raises(StockError, match=f"of no {kind} there is one left"):
        bond_from_stock(with_boxes(solve(square()), nothing))


def test_where_everything_is_built_nothing_is_left_to_lay() -> None:
    setout = solve(square())
    parts = {name: bond.parts for name, bond in bonds_for(setout).items()}
    found = bond_from_stock(solve(mark_panels(setout, to_build(setout), "built", parts)))
    assert not found.to_build
    assert found.verdict == "Nothing is left to build."


def test_bonds_of_one_design_are_told_apart_by_letter_its_own_first() -> None:
    setout = solve(square())
    found = bond_from_stock(with_boxes(setout, AMPLE | {"brick 2x4": takes(setout)["brick 2x4"] - 400}))
    usual = bonds_for(setout)
    for group in found.groups:
        assert group.is_usual == (group.bond == usual[group.design])
        assert group.is_usual == (not group.name.startswith(f"{group.design}, bond ") or group.name.endswith("bond A"))
    assert len({group.name for group in found.groups}) == len(found.groups)
    assert sorted(mark for group in found.groups for mark in group.marks) == sorted(found.bonds)


def test_colours_are_taken_from_boxes_of_their_own() -> None:
    room = coloured(square(), rest="sand")
    setout = with_boxes(solve(room), AMPLE, "sand")
    assert bond_from_stock(setout).shortage is None
    other = bond_from_stock(with_boxes(solve(room), {part: number for part, number in AMPLE.items() if "2x3" in part}, "moss"))
    assert other.shortage is not None
    assert other.shortage.colour == "sand"


def test_panels_of_several_colours_keep_the_bond_of_their_colours() -> None:
    room = coloured(square(), ramp(30, 20, wall=0, left_mm=300.0, width_mm=900.0, height_mm=304.0), rest="sand")
    setout = solve(room)
    for colour in (colour.name for colour in room.colouring.colours):
        setout = with_boxes(setout, AMPLE, colour)
    setout = with_boxes(setout, {"brick 2x4": 400}, "sand")
    found = bond_from_stock(setout)
    assert found.shortage is None
    assert found.coloured
    assert not found.coloured & set(found.swapped)
    assert found.swapped
    lines = {Material(line.part, line.colour): line for line in found.lines}
    assert lines[Material("brick 2x4", "sand")].laid <= 400


def test_building_a_panel_laid_otherwise_takes_its_own_parts_from_the_boxes_and_taking_it_apart_gives_them_back() -> None:
    setout = solve(square())
    setout = with_boxes(setout, AMPLE | {"brick 2x4": takes(setout)["brick 2x4"] - 400})
    found = bond_from_stock(setout)
    mark, bond = next(iter(found.swapped.items()))
    own = {mark: Counter({Material(part): number for part, number in bond.parts.items()})}
    usual = {name: one.parts for name, one in bonds_for(setout).items()}
    before = on_hand(setout.room)
    built = solve(mark_panels(setout, [mark], "built", usual, own=own))
    assert before - on_hand(built.room) == own[mark]
    hung = solve(mark_panels(built, [mark], "hung", usual))
    assert on_hand(hung.room) == on_hand(built.room)
    apart = solve(mark_panels(solve(mark_panels(hung, [mark], "built", usual)), [mark], "to build", usual))
    assert on_hand(apart.room) == before


def test_what_is_left_still_does_once_the_first_panels_are_built_as_they_were_laid() -> None:
    setout = solve(square())
    setout = with_boxes(setout, AMPLE | {"brick 2x4": takes(setout)["brick 2x4"] - 400})
    found = bond_from_stock(setout)
    own = {m: Counter({Material(part): n for part, n in bond.parts.items()}) for m, bond in found.bonds.items()}
    built = solve(mark_panels(setout, list(found.to_build[:8]), "built", {}, own=own))
    again = bond_from_stock(built)
    assert again.to_build == found.to_build[8:]
    assert again.shortage is None


def test_a_starter_ring_that_is_laid_gets_no_plates_again() -> None:
    setout = solve(square())
    ring = sum(starter_ring(setout).by_wall().values(), Counter())
    plate = next(item for item in ring if item.name.startswith("plate"))
    laid = solve(lay_ring(setout.room, ring))
    found = bond_from_stock(with_boxes(laid, AMPLE | {plate.name: 50}))
    assert next(line for line in found.lines if line.part == plate.name).on_hand == 50
