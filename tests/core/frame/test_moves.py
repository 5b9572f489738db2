"""Holes moved onto timber: only where a bond can keep them, and where that costs less than the timber it saves."""

from collections import Counter
from dataclasses import replace
from functools import cache

import pytest
from hypothesis import given

from core import edits
from core.bond import bond_of
from core.bond.shape import shape_of
from core.crew.work import jobs
from core.edits.progress import mark_panels
from core.frame import as_hung
from core.frame.doubling import DOUBLE
from core.frame.misses import Miss
from core.frame.moving import Wish, chosen_moves
from core.frame.places import LEAST_APART, Hole, Place, can_stand, holes_in, places
from core.frame.points import holding, nearest_gap, point_of
from core.frame.remedies import remedies_of
from core.parts import DEFAULT_PARTS
from core.room import MeasuredFrame, RegularFrame, Room
from core.setout import solve
from core.setout.result import SetOut, Timber
from core.whole_job import WholeJob
from tests.core.frame.firm import holds_screw
from tests.core.setout.rooms import few, rectangle
from tests.generate import SMALL_KIT, TINY_KIT, rooms, seeded_room
from tests.reference.bond_audit import audit_bond

STANDING = rooms(kit=SMALL_KIT, standing=True) | rooms(kit=TINY_KIT, most_pitches=60, most_rows=2, standing=True)


def _misses(setout: SetOut) -> list[Miss]:
    return [miss for backed in remedies_of(setout).walls for miss in backed.misses]


@few
@given(STANDING)
def test_the_audit_finds_nothing_wrong_with_the_bond_of_any_moved_panel(room: Room) -> None:
    """Pin-hole bricks stand at the moved holes and nowhere else, and every fault is told."""
    hung = as_hung(solve(room))
    for panel in hung.setout.panels:
        if panel.mark in hung.moved:
            assert audit_bond(hung.setout, panel, bond_of(hung.setout, panel)) == []


@few
@given(STANDING)
def test_a_moved_panel_has_no_joint_in_line_poor_bearing_or_loose_part_that_its_design_has_not(room: Room) -> None:
    _has_no_new_fault(solve(room))


@pytest.mark.parametrize("seed", [12, 36, 42, 57])
def test_nor_has_one_where_a_place_for_the_hole_was_refused_for_its_bond(seed: int) -> None:
    """Rooms in which some place offered would have added such a fault."""
    _has_no_new_fault(solve(seeded_room(seed, kit=TINY_KIT, most_pitches=60, most_rows=2, standing=True)))


def _has_no_new_fault(setout: SetOut) -> None:
    hung = as_hung(setout)
    for was, panel in zip(setout.panels, hung.setout.panels, strict=True):
        if panel.mark in hung.moved:
            before = Counter(fault.kind for fault in bond_of(setout, was).faults)
            after = Counter(fault.kind for fault in bond_of(hung.setout, panel).faults)
            for kind in ("straight joint", "poor bearing", "loose", "left out"):
                assert after[kind] <= before[kind], (panel.mark, kind)


@few
@given(STANDING)
def test_every_moved_hole_is_on_timber_with_its_edge_distance(room: Room) -> None:
    setout = solve(room)
    hung, edge = as_hung(setout), room.kit.mounts.edge_mm
    for miss in _misses(setout):
        assert (miss.to is not None) == (miss.remedy == "move")
    for mark, holes in hung.moved.items():
        for hole in holes:
            at = point_of(setout, mark, hole.to)
            backed = remedies_of(setout).walls[hole.to.wall]
            timber = [t for t in setout.timber if t.wall == hole.to.wall]
            timber += [t for block in backed.blocks if at in block.points for t in [block.timber]]
            held = [t for t in timber if holds_screw(t, at.x_mm, at.z_mm, edge)]
            pieces = [
                t
                for t in backed.doubling
                if t.left_mm + edge - 1e-6 <= at.x_mm <= t.left_mm + t.width_mm - edge + 1e-6
                and t.bottom_mm <= at.z_mm <= t.bottom_mm + t.height_mm
            ]
            assert pieces if at.lands_on == DOUBLE else held, (mark, at)


@pytest.mark.parametrize("member", ["stud", "rail"])
def test_where_a_screw_may_stand_keeps_the_edge_distance_on_both_sides(member: str) -> None:
    """A member 38 mm thick and 8 mm of edge distance leave 22 mm; the way to it is measured from either side."""
    timber = Timber(0, member, 100.0, 200.0, *((38.0, 900.0) if member == "stud" else (900.0, 38.0)))
    area = holding(timber, 8.0)
    assert area is not None
    along, across = (450.0, 0.0) if member == "stud" else (0.0, 450.0)
    for step in range(-50, 500):
        x, z = (100.0 + step / 10, 200.0 + along) if member == "stud" else (100.0 + across, 200.0 + step / 10)
        assert area.holds(x, z) == holds_screw(timber, x, z, 8.0) == (80 <= step <= 300)
        gap = nearest_gap([timber], x, z, 8.0)
        assert gap is not None
        assert gap.distance_mm == pytest.approx(max(0.0, 8.0 - step / 10, step / 10 - 30.0))
    assert holding(timber, 20.0) is None


@few
@given(STANDING)
def test_what_moves_is_what_the_remedies_say_and_nothing_else(room: Room) -> None:
    setout = solve(room)
    hung = as_hung(setout)
    said = {(m.point, m.to) for m in _misses(setout) if m.to}
    assert said == {(point_of(setout, k, h.was), point_of(setout, k, h.to)) for k, its in hung.moved.items() for h in its}
    for was, panel in zip(setout.panels, hung.setout.panels, strict=True):
        before = Counter(mount for face in was.faces for mount in face.mounts)
        after = Counter(mount for face in panel.faces for mount in face.mounts)
        moved = hung.moved.get(panel.mark, ())
        assert before - Counter(h.was for h in moved) == after - Counter(h.to for h in moved)
        assert before.total() == after.total()
        assert panel.design == was.design or panel.mark in hung.by_mark


@few
@given(STANDING)
def test_panels_of_one_variant_are_alike_and_of_two_are_not(room: Room) -> None:
    hung = as_hung(solve(room))
    shapes = {panel.mark: shape_of(hung.setout, panel).canonical()[0] for panel in hung.setout.panels}
    firsts = {panel.design: shapes[panel.mark] for panel in reversed(hung.setout.panels)}
    for panel in hung.setout.panels:
        assert shapes[panel.mark] == firsts[panel.design]
    for one in hung.variants:
        assert len({shapes[mark] for mark in one.marks}) == 1
        for other in hung.variants:
            assert one is other or one.design != other.design or shapes[one.marks[0]] != shapes[other.marks[0]]
    names = [design.name for design in hung.setout.designs]
    assert len(names) == len(set(names))
    counts = Counter(panel.design for panel in hung.setout.panels)
    assert counts == {design.name: design.count for design in hung.setout.designs}


def _standing(first_mm: float = 312.0) -> Room:
    """A room of three rows, its first wall on studs that stand some pitches to the right of the panels' joints."""
    room = rectangle(2460.0, 1244.0, height_mm=912.0)
    frame = RegularFrame(mode="regular", spacing_mm=304.0, first_centre_mm=first_mm)
    return edits.set_frame(room, 0, frame)


@cache
def beside(setup: float = 12.0, first_mm: float = 312.0) -> SetOut:
    """Panels divided as if no stud stood there; only then decided about at the usual rates, and with that set-up."""
    room = _standing(first_mm)
    careless = solve(room.model_copy(update={"rates": room.rates.model_copy(update={"blocking": 0.0})}))
    return replace(careless, room=room.model_copy(update={"rates": room.rates.model_copy(update={"setup": setup})}))


def test_holes_move_along_the_course_where_that_takes_less_than_the_timber_and_not_where_it_takes_more() -> None:
    cheap, dear = (Counter(m.remedy for m in _misses(beside(setup))) for setup in (1.0, 10_000.0))
    assert cheap["move"] > dear["move"]
    assert cheap["blocking"] + cheap["doubling"] < dear["blocking"] + dear["doubling"]
    timber = {m.point for m in _misses(beside(10_000.0)) if m.remedy in ("blocking", "doubling")}
    moved = [m for m in _misses(beside(1.0)) if m.point in timber and m.to]
    assert moved
    assert all(m.to and m.to.is_held for m in moved)


SHAPE_HOLE: Hole = (0, 3, 1)


def _wish(mark: str, *, must: int = 0, may: int = 0) -> Wish:
    """A full panel of which so many holes could go one pitch inwards."""
    setout = beside()
    panel = next(panel for panel in setout.panels if panel.design == "full")
    shape = shape_of(setout, panel)
    holes = sorted(holes_in(shape))
    offers = [(hole, (Place((hole[0], hole[1], hole[2] + (2 if hole[2] < 19 else -2)), 2, 0),)) for hole in holes]
    return Wish(mark, shape, tuple(offers[:must]), tuple(offers[must : must + may]))


@pytest.mark.parametrize(
    ("panels", "points", "is_moved"), [(1, 1, False), (1, 2, False), (1, 3, True), (2, 1, False), (3, 1, True)]
)
def test_panels_moved_alike_share_one_set_up_of_twelve_minutes_against_six_a_point(
    panels: int, points: int, is_moved: bool
) -> None:
    wishes = [_wish(f"A-1-{n:02d}", may=points) for n in range(panels)]
    assert len(chosen_moves(wishes, setup=12.0, piece=6.0)) == (panels if is_moved else 0)


def test_a_hole_that_nothing_else_helps_moves_whatever_it_costs() -> None:
    assert chosen_moves([_wish("A-1-01", must=1)], setup=1_000.0, piece=6.0)
    both = chosen_moves([_wish("A-1-01", must=1, may=2)], setup=1_000.0, piece=6.0)["A-1-01"]
    assert len(both) == 3


def test_places_are_along_the_course_first_and_keep_off_edges_and_cut_outs() -> None:
    setout = beside()
    shape = shape_of(setout, next(panel for panel in setout.panels if panel.design == "full"))
    found = places(shape, SHAPE_HOLE, setout.room.kit)
    assert [place.words for place in found[:3]] == ["1 pitch to the right", "2 pitches to the right", "3 pitches to the right"]
    assert {place.words for place in found if place.courses} == {
        *(f"{n} course{'s' if n > 1 else ''} {way}" for n in (1, 2, 3) for way in ("up", "down"))
    }
    assert all(1 <= place.hole[2] <= 37 for place in found)


def test_pin_hole_bricks_need_room_beside_each_other_and_no_joint_in_line() -> None:
    setout = beside()
    shape = shape_of(setout, next(panel for panel in setout.panels if panel.design == "full"))
    own = holes_in(shape)
    assert can_stand(shape, own)
    assert not can_stand(shape, own | {(0, 3, 1 + LEAST_APART - 1)})
    assert not can_stand(shape, own | {(0, 4, 3)})
    assert can_stand(shape, own | {(0, 4, 7)})


def test_stocked_parts_that_cannot_fill_beside_a_moved_hole_leave_it_where_it_is() -> None:
    """With lengths of 2 and 4 pitches only, what lies between a hole moved by five pitches and the next cannot be filled."""
    few_sizes = tuple(
        part.model_copy(update={"is_stocked": part.is_stocked and part.length_pitches not in (1, 3)})
        if part.kind in ("brick", "plate", "tile")
        else part
        for part in DEFAULT_PARTS
    )
    usual = beside(1.0, first_mm=320.0)
    short = replace(usual, room=usual.room.model_copy(update={"parts": few_sizes}))
    fulls = {panel.mark for panel in usual.panels if panel.design == "full" and panel.row == 1}

    def pitches(setout: SetOut) -> set[int]:
        found = [m for m in _misses(setout) if m.point.mark in fulls]
        return {round((m.to.x_mm - m.point.x_mm) / setout.room.kit.pitch_mm) for m in found if m.to}

    assert pitches(usual) == {5}
    assert pitches(short) == {6}


def test_a_moved_hole_costs_no_timber_and_its_sheet_one_set_up() -> None:
    room = _standing()
    setout = solve(room.model_copy(update={"rates": room.rates.model_copy(update={"setup": 1.0})}))
    job = WholeJob(setout)
    assert job.hung.variants
    rates, hung = setout.room.rates, job.hung.setout
    spared = sum(h.was.lands_on is None and h.to.lands_on is not None for its in job.hung.moved.values() for h in its)
    assert spared
    work, usual = jobs(hung), jobs(setout)
    assert sum(one.hang for one in work) == pytest.approx(sum(one.hang for one in usual) - rates.blocking * spared)
    sheets = sum(not d.in_kit for d in hung.designs) - sum(not d.in_kit for d in setout.designs)
    assert sum(one.build for one in work) == pytest.approx(sum(one.build for one in usual) + rates.setup * sheets)
    assert hung.minutes.total == pytest.approx(setout.minutes.total - rates.blocking * spared + rates.setup * sheets)


def test_what_was_built_of_a_moved_panel_is_of_its_variant_and_fits_no_other_place() -> None:
    room = _standing()
    setout = solve(room.model_copy(update={"rates": room.rates.model_copy(update={"setup": 1.0})}))
    variant = as_hung(setout).variants[0]
    built = solve(mark_panels(setout, variant.marks[:1], "built", {variant.design: {"brick 2x4": 1}}))
    hung = as_hung(built)
    assert variant.marks[0] in hung.by_mark
    records = hung.setout.room.progress.panels
    assert [record.design for record in records] == [hung.by_mark[variant.marks[0]].name]
    assert {recipe.design for recipe in hung.setout.room.progress.recipes} == {variant.design, variant.name}
    assert built.room.progress.panels[0].design == variant.design


def test_a_room_without_moves_is_hung_as_it_was_solved() -> None:
    setout = solve(rectangle(1000.0, 1000.0, height_mm=304.0))
    assert as_hung(setout).setout is setout
    assert as_hung(setout).variants == ()


def test_measured_studs_apart_from_all_joints_move_or_block_every_point() -> None:
    """Nothing is left without remedy where studs stand within reach of both holes of a course."""
    room = edits.set_frame(
        rectangle(1244.0, 1244.0, height_mm=304.0),
        0,
        MeasuredFrame(mode="measured", centres_mm=(60.0, 340.0, 640.0, 940.0, 1200.0)),
    )
    assert {m.remedy for m in _misses(solve(room))} <= {"move", "blocking", "doubling", "pilot hole"}
