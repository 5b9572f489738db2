"""Bonds a builder would recognise, and what they say about themselves."""

import os
import pickle
import subprocess
import sys
from collections import Counter
from itertools import pairwise
from pathlib import Path

import pytest

from core.bond import StockError, bond_for, bond_of, bonds_for
from core.bond.bonds import first_panels
from core.bond.mass import mass_g
from core.bond.palette import palette_of
from core.bond.result import Bond
from core.bond.shape import shape_of
from core.bond.solving import bond_shape, forget_bonds, remember
from core.bond.strength import joints_in, strength_of
from core.bond.turning import turned
from core.files import load_room
from core.kit import Kit
from core.parts import DEFAULT_PARTS
from core.room import Room
from core.setout import solve
from tests.core.bond.rooms import room, shape, ten_feet, usual_palette, with_stock
from tests.reference.bond_audit import audit_bond


@pytest.fixture
def full() -> Bond:
    return bond_for(ten_feet(), "full")


def test_every_design_of_the_demo_room_passes_the_audit(demo_room_path: Path) -> None:
    setout = solve(load_room(demo_room_path))
    bonds = bonds_for(setout)
    assert list(bonds) == [design.name for design in setout.designs]
    assert [fault for name, panel in first_panels(setout).items() for fault in audit_bond(setout, panel, bonds[name])] == []


def test_two_pin_hole_bricks_a_point_replace_brick(full: Bond) -> None:
    courses = [layer.parts for layer in full.layers if layer.kind == "course"]
    with_pins = [n for n, parts in enumerate(courses) if parts["pin-hole brick 1x2"]]
    assert with_pins == [3, 27]
    assert all(courses[n]["pin-hole brick 1x2"] == 4 for n in with_pins)
    assert all(courses[n].total() == 4 + 9 for n in with_pins)


def test_a_full_panel_takes_no_more_parts_than_the_bound(full: Bond) -> None:
    assert sum(full.parts.values()) == full.fewest == 341


def test_the_cap_course_has_a_locating_plate_at_each_end_and_tiles_between(full: Bond) -> None:
    cap = full.layers[-1]
    assert (cap.kind, cap.laid[0].part, cap.laid[-1].part) == ("cap", "locating plate 2x2", "locating plate 2x2")
    assert all(laid.part.startswith("tile") for laid in cap.laid[1:-1])


def test_the_legs_of_a_corner_panel_run_through_by_turns() -> None:
    """At an inside corner the corner's square is the last two pitches of the left leg and the first two of the right."""
    setout = ten_feet()
    corner = next(design.name for design in setout.designs if design.kind == "corner")
    bond = bond_for(setout, corner)
    assert bond.corner == "inside"
    ends = [max(laid.at + laid.length for laid in layer.laid if laid.leg == 0) for layer in bond.layers]
    begins = [min(laid.at for laid in layer.laid if laid.leg == 1) for layer in bond.layers]
    line = bond.legs[0]
    assert set(zip(ends, begins, strict=True)) == {(line, 2), (line - 2, 0)}
    assert all(lower != upper for lower, upper in pairwise(ends))


def test_the_through_leg_of_an_outside_corner_reaches_two_pitches_past_the_corner_line() -> None:
    corners = ((0.0, 0.0), (0.0, 900.0), (600.0, 900.0), (600.0, 450.0), (1200.0, 450.0), (1200.0, 0.0))
    setout = solve(Room(name="ell", corners_mm=corners, clad_height_mm=304.0))
    bond = bond_for(setout, next(d.name for d in setout.designs if d.name.startswith("outside")))
    line = bond.legs[0]
    for layer in bond.layers:
        end = max(laid.at + laid.length for laid in layer.laid if laid.leg == 0)
        begin = min(laid.at for laid in layer.laid if laid.leg == 1)
        assert (end, begin) in {(line + 2, 0), (line, -2)}


def test_odd_widths_are_closed_with_odd_bricks() -> None:
    bond = bond_shape(shape(*[((0, 19),)] * 4), usual_palette())
    assert all(sum(laid.length for laid in layer.laid) == 19 for layer in bond.layers)
    assert bond.faults == ()


def test_long_bricks_are_used_once_they_are_stocked() -> None:
    bond = bond_shape(shape(*[((0, 38),)] * 4), palette_of(with_stock("brick 2x2", "brick 2x4", "brick 2x6", "brick 2x8"), Kit()))
    assert (sum(bond.parts.values()), bond.fewest, bond.faults) == (4 * 5, 4 * 5, ())


def test_a_brick_at_an_openings_edge_bears_on_two_pitches_or_half_its_length() -> None:
    sill, jambs, head = ((0, 20),), ((0, 7), (13, 20)), ((0, 20),)
    bond = bond_shape(shape(sill, sill, jambs, jambs, jambs, head, head), usual_palette())
    assert not [fault for fault in bond.faults if fault.kind == "poor bearing"]
    over_the_left_edge = [laid for laid in bond.layers[5].laid if laid.at < 7 < laid.at + laid.length]
    assert all(7 - laid.at >= min(2, laid.length / 2) for laid in over_the_left_edge)
    assert len(over_the_left_edge) == 1


def test_holes_above_one_another_make_a_straight_joint_that_is_reported() -> None:
    bond = bond_shape(shape(*[((0, 20),)] * 8, mounts={3: (1, 19), 4: (1, 19)}), usual_palette())
    straight = [(fault.layer, fault.at) for fault in bond.faults if fault.kind == "straight joint"]
    assert straight == [(4, 2), (4, 18)]


def test_a_part_that_nothing_can_hold_is_reported() -> None:
    """Two bricks side by side in a single course are two bodies."""
    bond = bond_shape(shape(((0, 8),)), usual_palette())
    assert [(fault.kind, fault.at) for fault in bond.faults] == [("loose", 4)]
    assert not strength_of(bond).is_one_body


def test_mirror_images_are_bonded_as_one_design_turned_over() -> None:
    steps = shape(((0, 10),), ((0, 10),), ((0, 6),), ((0, 6),))
    mirrored = steps.turned()
    first, is_first_turned = steps.canonical()
    second, is_second_turned = mirrored.canonical()
    assert first == second
    assert is_first_turned != is_second_turned


def test_turning_a_bond_twice_gives_it_back(full: Bond) -> None:
    assert turned(turned(full)) == full
    assert turned(full).layers[3].laid[0].side == 0


def test_panels_of_a_design_are_bonded_as_they_hang() -> None:
    setout = ten_feet()
    for panel in setout.panels:
        assert audit_bond(setout, panel, bond_of(setout, panel)) == []


def test_bonds_do_not_depend_on_what_was_bonded_before() -> None:
    setout = ten_feet()
    before = bonds_for(setout)
    forget_bonds()
    assert {name: bond_for(setout, name) for name in reversed(list(before))} == before


PICKLED = """
import pickle, sys
from core.bond.solving import bond_shape, known_bonds
from tests.core.bond.rooms import shape, usual_palette
key = shape(*[((0, 19),)] * 4), usual_palette()
hash(key), hash(bond_shape(*key))
sys.stdout.buffer.write(pickle.dumps((dict(known_bonds()), key)))
"""


def test_what_another_process_bonded_is_not_bonded_again(monkeypatch: pytest.MonkeyPatch) -> None:
    """Hashes of text differ from process to process, so one that came along would keep a bond from being found."""
    said = subprocess.run(
        [sys.executable, "-c", PICKLED],
        cwd=Path(__file__).resolve().parents[3],
        env={**os.environ, "PYTHONHASHSEED": "1"},
        capture_output=True,
        check=True,
    )
    forget_bonds()
    usual = bond_shape(shape(*[((0, 19),)] * 4), usual_palette())
    found, key = pickle.loads(said.stdout)
    assert (hash(found[key]), found[key]) == (hash(usual), usual)
    forget_bonds()
    remember(found)
    monkeypatch.setattr("core.bond.solving.fewest_parts", None)
    assert bond_shape(shape(*[((0, 19),)] * 4), usual_palette()) == usual


def test_a_panel_weighs_what_its_parts_weigh(full: Bond) -> None:
    grams = {part.name: part.mass_g for part in DEFAULT_PARTS}
    assert mass_g(full, DEFAULT_PARTS) == pytest.approx(sum(grams[name] * count for name, count in full.parts.items()))


def test_strength_counts_knobs(full: Bond) -> None:
    """Two full panels' width of knobs join any two whole layers; a lap of one pitch is two knobs."""
    strength = strength_of(full)
    assert strength.is_one_body
    assert strength.weakest_bed is not None
    assert strength.weakest_bed.knobs == 2 * 38
    assert strength.weakest_lap is not None
    assert strength.weakest_lap.knobs == 2
    assert (strength.unsupported_pitches, strength.hanging, strength.held_by_few) == (0, 0, {})


def test_strength_tells_the_stretch_over_an_opening() -> None:
    sill, jambs = ((0, 24),), ((0, 8), (17, 24))
    bond = bond_shape(shape(sill, sill, jambs, jambs, sill, sill), usual_palette())
    assert strength_of(bond).unsupported_pitches == 9


def test_joints_against_the_other_leg_count() -> None:
    setout = ten_feet()
    bond = bond_for(setout, next(design.name for design in setout.designs if design.kind == "corner"))
    for n, layer in enumerate(bond.layers):
        through = max((laid.leg for laid in layer.laid if laid.leg == 1 and laid.at == 0), default=0)
        other = 1 - through
        assert (bond.legs[0] - 2 if other == 0 else 2) in joints_in(bond, n, other)


@pytest.mark.parametrize(
    ("stock", "words"),
    [
        (("brick 2x8",), r"design .*: parts: no bricks fill a run of .* pitches; those stocked are 8 pitches long"),
        ((), r"design .*: parts: no brick 2 pitches deep is stocked"),
    ],
)
def test_a_stock_that_fills_no_panel_is_refused_by_name(stock: tuple[str, ...], words: str) -> None:
    setout = solve(room(parts=with_stock(*stock)))
    with pytest.raises(StockError, match=words):
        bonds_for(setout)


@pytest.mark.parametrize("kind", ["pin-hole brick", "plate", "tile", "locating plate"])
def test_a_kind_that_is_not_stocked_is_named(kind: str) -> None:
    parts = tuple(part for part in DEFAULT_PARTS if part.kind != kind)
    with pytest.raises(StockError, match=f"no {kind} .* is stocked"):
        bonds_for(solve(room(parts=parts)))


def test_a_panel_thicker_than_any_brick_is_refused() -> None:
    thick = room().model_copy(update={"kit": Kit(thickness_pitches=3)})
    with pytest.raises(StockError, match="3 pitches deep"):
        bonds_for(solve(thick))


def test_designs_without_cap_or_plate_are_bonded_as_they_are() -> None:
    bond = bond_shape(shape(*[((0, 12),)] * 5), usual_palette())
    assert Counter(layer.kind for layer in bond.layers) == {"course": 5}


def test_the_shape_of_a_panel_counts_from_its_left_end() -> None:
    setout = ten_feet()
    panel = next(panel for panel in setout.panels if panel.design == "full")
    read = shape_of(setout, panel)
    assert read.legs == (38,)
    assert read.layers[3].mounts == ((1, 37),)
    assert {layer.runs for layer in read.layers} == {(((0, 38),),)}


def test_no_brick_bears_poorly_over_a_row_of_openings() -> None:
    """Piers of three pitches, two apart: the head course could rest well on all of them, at the price of short laps."""
    whole, piers = ((0, 60),), tuple((left, left + 3) for left in range(0, 60, 5))
    bond = bond_shape(shape(whole, whole, piers, piers, whole, whole), usual_palette())
    assert {fault.kind for fault in bond.faults} == {"short lap"}


def test_with_six_pitch_bricks_every_course_laps_by_two() -> None:
    mounts = {3: (1, 37), 27: (1, 37)}
    stock = palette_of(with_stock("brick 2x2", "brick 2x4", "brick 2x6"), Kit())
    assert bond_shape(shape(*[((0, 38),)] * 31, mounts=mounts), stock).faults == ()


def test_a_very_large_panel_is_bonded_too() -> None:
    bond = bond_shape(shape(*[((0, 200),)] * 60), usual_palette())
    assert (sum(bond.parts.values()), bond.faults) == (60 * 50 + 30, ())
