"""The take-off: whatever a room looks like, its parts add up."""

from collections import Counter
from collections.abc import Iterator
from itertools import accumulate, permutations
from pathlib import Path

import pytest
from hypothesis import given, settings

from core.bond import bonds_for
from core.files import load_room
from core.kit import Kit
from core.room import Opening, Room, Units
from core.setout import solve
from core.setout.result import SetOut
from core.takeoff import SCREW, Count, Material, TakeOff, in_order, parts_of, starter_ring, take_off
from core.takeoff.material import packer, shown_name
from tests.core.takeoff.guessed import guessed_parts
from tests.generate import SMALL_KIT, rooms


def summed(counts: list[Count]) -> Count:
    total: Count = Counter()
    for count in counts:
        total.update(count)
    return total


def taken_off(setout: SetOut) -> TakeOff:
    return take_off(setout, guessed_parts(setout), timber={0: Counter({Material("stud 38 x 89", unit="mm"): 1974})})


@settings(max_examples=30)
@given(room=rooms(kit=SMALL_KIT))
@pytest.mark.slow
def test_panels_ring_and_timber_add_up_to_the_room(room: Room) -> None:
    found = taken_off(solve(room))
    panels = summed(list(found.per_panel.values()))
    assert panels == found.panels == summed(list(found.by_row.values())) == summed(list(found.by_design.values()))
    assert summed([panels, *found.ring.by_wall().values(), found.timber]) == found.room == summed(list(found.by_wall.values()))


@settings(max_examples=30)
@given(room=rooms(kit=SMALL_KIT))
def test_the_ring_lies_under_every_panel_of_the_first_row_once(room: Room) -> None:
    """Each corner square is covered once, by one of its two walls; door thresholds stay free."""
    setout = solve(room)
    ring = starter_ring(setout)
    assert ring.missing_pitches == 0
    covered = Counter((plate.wall, x) for plate in ring.plates for x in range(plate.at, plate.at + plate.length))
    assert max(covered.values(), default=1) == 1
    stands = {
        (face.wall, x)
        for panel in setout.panels
        for face in panel.faces
        for (x0, z0), (x1, z1) in zip(face.outline, (*face.outline[1:], face.outline[0]), strict=True)
        if z0 == z1 == 0
        for x in range(min(x0, x1), max(x0, x1))
    }
    for shell in setout.walls:
        after = setout.walls[(shell.wall + 1) % len(setout.walls)]
        ends = (shell.wall, shell.pitches - 1) in stands and (after.wall, 0) in stands
        if shell.right == "inside" and ends:
            stands -= {(after.wall, 0), (after.wall, 1)}
        if shell.right == "outside" and ends:
            stands |= {(shell.wall, shell.pitches), (shell.wall, shell.pitches + 1)}
    assert set(covered) == stands


def test_a_full_demo_room_counts_a_screw_and_a_packer_for_every_mounting_point(demo_room_path: Path) -> None:
    setout = solve(load_room(demo_room_path))
    points = sum(len(face.mounts) for panel in setout.panels for face in panel.faces)
    found = taken_off(setout).room
    assert found[Material(SCREW)] == found[Material("packer 4.0 mm")] == found[Material("plug")] == points


def test_ring_plates_are_as_few_as_lengths_allow() -> None:
    """380 pitches with 8-pitch plates take 47 and one of 4; the wall on the right of a corner is 2 pitches shorter."""
    room = Room(name="plain", corners_mm=((0.0, 0.0), (0.0, 3048.0), (3048.0, 3048.0), (3048.0, 0.0)), clad_height_mm=304.0)
    ring = starter_ring(solve(room))
    assert [sum(plate.wall == wall for plate in ring.plates) for wall in range(4)] == [48, 48, 48, 48]
    assert sum(plate.length for plate in ring.plates) == 4 * 378


def test_ring_joints_stand_under_panel_joints_no_more_often_than_they_must() -> None:
    """A wall of one 4 and one 1 beside whole plates: every order of them is tried, and the ring's is as good as the best."""
    room = Room(
        name="r", corners_mm=((0.0, 0.0), (0.0, 700.0), (600.0, 700.0), (600.0, 0.0)), clad_height_mm=285.0, kit=SMALL_KIT
    )
    setout = solve(room)
    for wall in range(4):
        mine = sorted((plate for plate in starter_ring(setout).plates if plate.wall == wall), key=lambda plate: plate.at)
        above = {x for p in setout.panels if p.row == 0 for f in p.faces if f.wall == wall for x in (f.left, f.right)}
        sizes, begin = [plate.length for plate in mine], mine[0].at
        in_line = [
            sum(x in above for x in list(accumulate(order, initial=begin))[1:-1]) for order in set(multiset_orders(sizes, 8))
        ]
        assert sum(plate.at in above for plate in mine[1:]) == min(in_line)


def multiset_orders(sizes: list[int], usual: int) -> Iterator[tuple[int, ...]]:
    """Every order of sizes of which all but a few are the usual one."""
    others = [size for size in sizes if size != usual]
    for places in permutations(range(len(sizes)), len(others)):
        order = [usual] * len(sizes)
        for place, size in zip(places, others, strict=True):
            order[place] = size
        yield tuple(order)


def test_no_packer_is_counted_where_the_lining_lies_on_the_frame() -> None:
    """With next to no play 3040 mm are 380 pitches, and nothing is left to pack behind two of the walls."""
    corners = ((0.0, 0.0), (0.0, 3040.02), (3052.0, 3040.02), (3052.0, 0.0))
    setout = solve(Room(name="tight", corners_mm=corners, clad_height_mm=304.0, kit=Kit(fit_mm=0.02)))
    found = taken_off(setout)
    packed = {wall.wall for wall in setout.walls if wall.packing_mm > 1.0}
    points = Counter(face.wall for panel in setout.panels for face in panel.faces for _ in face.mounts)
    assert 0 < len(packed) < 4
    packers = {one.name: number for one, number in found.room.items() if one.name.startswith("packer")}
    assert sum(packers.values()) == sum(points[wall] for wall in packed)


def test_a_door_leaves_its_threshold_free() -> None:
    door = Opening(id="door", kind="door", wall=0, left_mm=804.0, sill_mm=0.0, width_mm=800.0, height_mm=304.0)
    corners = ((0.0, 0.0), (0.0, 3048.0), (3048.0, 3048.0), (3048.0, 0.0))
    setout = solve(Room(name="door", corners_mm=corners, clad_height_mm=304.0, openings=(door,)))
    under = {x for plate in starter_ring(setout).plates if plate.wall == 0 for x in range(plate.at, plate.at + plate.length)}
    assert under == set(range(2, 380)) - set(range(100, 200))


def test_lengths_nobody_stocks_leave_the_ring_open_and_say_so() -> None:
    corners = ((0.0, 0.0), (0.0, 3048.0), (3048.0, 3048.0), (3048.0, 0.0))
    plain = Room(name="plain", corners_mm=corners, clad_height_mm=304.0)
    parts = tuple(part for part in plain.parts if part.kind != "plate")
    room = plain.model_copy(update={"parts": parts})
    assert starter_ring(solve(room)).missing_pitches == 4 * (378 % 8)


def test_designs_without_known_parts_are_named(demo_room_path: Path) -> None:
    setout = solve(load_room(demo_room_path))
    parts = guessed_parts(setout)
    del parts["half-width"]
    assert take_off(setout, parts).without_parts == ("half-width",)


@pytest.mark.parametrize("colour", [None, "green"])
def test_lists_run_from_short_bricks_to_timber(colour: str | None, demo_room_path: Path) -> None:
    setout = solve(load_room(demo_room_path))
    counts = taken_off(setout).room
    coloured: Count = Counter({material._replace(colour=colour): number for material, number in counts.items()})
    names = [material.name for material in in_order(coloured, setout.room.parts)]
    assert names[0] == "brick 2x1"
    assert names[-1] == "stud 38 x 89"
    assert names.index("brick 2x4") < names.index("pin-hole brick 1x2") < names.index("plate 2x4") < names.index("plug")


def test_bonded_designs_count_their_mass_and_holes(demo_room_path: Path) -> None:
    """A full panel of 38 x 31: every course 38 pitches long, two pin-hole bricks and one plug for each of four points."""
    setout = solve(load_room(demo_room_path))
    found = take_off(setout, parts_of(bonds_for(setout)))
    full = next(panel for panel in setout.panels if panel.kind == "full")
    lengths = {part.name: part.length_pitches for part in setout.room.parts}
    count = found.per_panel[full.mark]
    bricks = sum(lengths[m.name] * n for m, n in count.items() if m.name.startswith("brick"))
    # Two pin-hole bricks, one pitch deep each, stand where one brick of 2 pitches would.
    assert bricks + count[Material("pin-hole brick 1x2")] == 31 * 38
    assert (count[Material("plug")], count[Material(SCREW)], count[Material("locating plate 2x2")]) == (4, 4, 2)
    assert found.without_parts == ()


def test_packers_that_differ_are_told_apart_in_either_unit() -> None:
    thick = [packer(mm) for mm in (1.0, 1.8, 2.6, 3.8, 4.2)]
    every: tuple[Units, ...] = ("mm", "ft-in")
    for units in every:
        assert len({shown_name(one, units) for one in thick}) == len(thick)
    assert shown_name(packer(1.8), "ft-in") == 'packer 1.8\N{NO-BREAK SPACE}mm, about 1/16"'
    assert shown_name(packer(1.8), "mm") == "packer 1.8 mm"
