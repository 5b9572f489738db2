"""Rows planned together: joints in line, set-ups shared, and no memory of what was planned before."""

import subprocess
import sys
from collections.abc import Generator
from itertools import pairwise
from pathlib import Path

import pytest
from hypothesis import given

from core.edits.recess import add_recess
from core.errors import RoomError
from core.files import load_room
from core.kit import Kit, Rates
from core.room import Room
from core.setout import sketch, solve, solving
from core.setout.bodies import BuiltTo
from core.setout.plan import Plan
from core.setout.planning import plan
from core.setout.problem import Problem
from core.setout.result import SetOut
from core.setout.tariff import Prices
from core.setout.workshop import Workshop, workshop_for
from tests.core.setout.rooms import demo, few, opening, rectangle
from tests.generate import TINY_KIT, rooms, seeded_room
from tests.reference.audit import audit

ROOT = Path(__file__).resolve().parents[3]


def joints(setout: SetOut, wall: int, row: int) -> set[int]:
    """The pitch lines where one panel ends and another begins."""
    faces = [face for panel in setout.panels if panel.row == row for face in panel.faces if face.wall == wall]
    return {face.left for face in faces} | {face.right for face in faces}


def test_joints_of_the_demo_s_first_wall_stand_in_line_over_all_full_rows() -> None:
    setout = sketch(demo())
    assert len({frozenset(joints(setout, 0, row)) for row in range(6)}) == 1


def test_joints_stand_in_line_beside_a_window_that_stands_on_them() -> None:
    """Rows 3 and 4 meet the window; what stands beside it goes on above and below."""
    room = demo()
    window = room.opening("window").model_copy(update={"left_mm": 1068.0})
    setout = solve(room.model_copy(update={"openings": (room.openings[0], window, room.openings[2])}))
    assert joints(setout, 1, 3) <= joints(setout, 1, 2)


def test_a_bare_room_has_all_joints_of_equal_rows_in_line() -> None:
    setout = solve(rectangle(2345, 3210, height_mm=912.0))
    for wall in range(4):
        assert joints(setout, wall, 0) == joints(setout, wall, 1) == joints(setout, wall, 2)


def units(planned: Plan, workshop: Workshop) -> int:
    """What all rows cost together, every design not in the kit set up once."""
    designs = frozenset[BuiltTo]().union(*(division.designs for division in planned.divisions))
    return sum(division.units for division in planned.divisions) + workshop.tariff.setup * len(designs)


@few
@given(rooms(kit=TINY_KIT, most_pitches=40, rates=Rates(setup=0.0)))
def test_without_set_up_the_plan_costs_what_its_rows_cost_each_by_itself(room: Room) -> None:
    problem, workshop = Problem(room), Workshop(room.kit, room.rates)
    planned = plan(problem, workshop)
    alone = sum(division.view.cost(Prices(1, 1)) for division in planned.divisions)
    assert units(planned, workshop) == alone


def test_a_dear_set_up_makes_rows_share_their_designs() -> None:
    """A wall of 2.3 m needs an odd panel; at 500 minutes for each design the room has fewer of them than at none."""
    bare = rectangle(2300, 2700, height_mm=1212.0)
    dear, free = (solve(bare.model_copy(update={"rates": Rates(setup=setup)})) for setup in (500.0, 0.0))
    assert dear.tally.designs_not_in_kit < free.tally.designs_not_in_kit


def test_divisions_stand_in_the_order_of_their_rows() -> None:
    """The first and the third row are alike and divided together; the second holds an outlet."""
    room = rectangle(2000, 2000, 912.0, [opening("outlet", 0, 900, 400, 60, 100)])
    planned = plan(Problem(room), Workshop(room.kit, room.rates))
    assert [division.view.row.z_plates for division in planned.divisions] == [0, 95, 190]


@few
@given(rooms(kit=TINY_KIT, most_pitches=40))
def test_joints_of_every_wall_rise_from_left_to_right(room: Room) -> None:
    planned = plan(Problem(room), Workshop(room.kit, room.rates))
    walls = [wall for division in planned.divisions for wall in division.joints]
    assert all(before < after for wall in walls for before, after in pairwise(wall))


HISTORY = [{"seed": seed, "kit": TINY_KIT, "most_pitches": 40, "standing": seed % 2 == 1} for seed in range(900, 906)]


def other_rooms() -> list[Room]:
    return [seeded_room(**recipe) for recipe in HISTORY]  # type: ignore[arg-type]


def in_a_fresh_process(room: Room, folder: Path) -> str:
    """What a process that solves this room and nothing else says."""
    path = folder / "one.room.json"
    path.write_text(room.model_dump_json(), "utf-8")
    program = (
        "import sys, pathlib\nfrom core.room import Room\nfrom core.setout import solve\n"
        "print(repr(solve(Room.model_validate_json(pathlib.Path(sys.argv[1]).read_text('utf-8')))))"
    )
    said = subprocess.run([sys.executable, "-c", program, str(path)], cwd=ROOT, capture_output=True, check=True, text=True)
    return said.stdout.strip()


def test_a_room_solved_after_others_is_set_out_as_in_a_fresh_process(tmp_path: Path) -> None:
    *others, last = other_rooms()
    for room in others:
        solve(room)
    assert repr(solve(last)) == in_a_fresh_process(last, tmp_path)


def test_a_dragged_opening_ends_where_a_fresh_process_puts_it(tmp_path: Path) -> None:
    room = demo()
    for step in range(6):
        window = room.opening("window").model_copy(update={"left_mm": 1060.0 + 37.0 * step})
        room = room.model_copy(update={"openings": (room.openings[0], window, room.openings[2])})
        dragged = solve(room)
    assert repr(dragged) == in_a_fresh_process(room, tmp_path)


@pytest.mark.slow
def test_forgetting_everything_changes_no_set_out() -> None:
    before = [repr(solve(room)) for room in other_rooms()]
    workshop_for.cache_clear()
    assert [repr(solve(room)) for room in reversed(other_rooms())] == before[::-1]


@pytest.mark.parametrize("setup", [0.0, 12.0, 500.0])
def test_the_minutes_add_up_to_the_planned_total(setup: float) -> None:
    room = seeded_room(907, kit=TINY_KIT, most_pitches=40, rates=Rates(setup=setup))
    workshop = workshop_for(room.kit, room.rates)
    planned = workshop.tariff.minutes(units(plan(Problem(room), workshop), workshop))
    assert sketch(room).minutes.total == pytest.approx(planned, abs=1e-3)


@few
@given(rooms(kit=TINY_KIT, most_pitches=40))
def test_taking_time_never_costs_more_than_a_sketch(room: Room) -> None:
    assert solve(room).minutes.total <= sketch(room).minutes.total + 1e-6


@few
@given(rooms(kit=TINY_KIT, most_pitches=40, most_rows=2))
def test_a_sketch_is_sound_too(room: Room) -> None:
    assert audit(sketch(room)) == []


def test_work_that_pauses_comes_to_the_same() -> None:
    room = seeded_room(903, kit=TINY_KIT, most_pitches=40)

    found: list[SetOut] = []

    def keep() -> Generator[None, None, None]:
        found.append((yield from solving(room)))

    assert len(list(keep())) > 3
    assert found == [solve(room)]


def test_panels_are_named_as_the_designs_are_listed_whatever_was_solved_before() -> None:
    """A kit of three widths, shapes of other rooms and moved openings in one workshop."""
    kit = Kit(widths_pitches=(19, 23, 38))
    for left in range(400, 1200, 97):
        room = rectangle(1552, 1700, 912.0, [opening("window", 0, left, 300, 250, 300)]).model_copy(update={"kit": kit})
        setout = solve(room)
        assert {panel.design for panel in setout.panels} == {design.name for design in setout.designs}


def test_rates_beyond_reckoning_are_refused_by_name() -> None:
    room = rectangle(3048, 3048, 1980.0).model_copy(update={"rates": Rates(build_full_panel=10_000, plain_factor=100)})
    with pytest.raises(RoomError, match=r"rates: .* use smaller rates"):
        solve(room)


def test_common_legs_are_chosen_by_real_costs_however_dear_the_room() -> None:
    """Ten times the rates must not change what is planned."""
    room = rectangle(9000, 7000, 2400.0)
    dear = Rates(build_full_panel=100, handling=40, setup=120, sliver=100, weak=600, blocking=60)
    usual, tenfold = solve(room), solve(room.model_copy(update={"rates": dear}))
    assert tenfold.tally == usual.tally
    assert tenfold.minutes.total == pytest.approx(10 * usual.minutes.total)


def test_a_sketch_near_a_set_out_keeps_its_rows() -> None:
    """The demo's cheapest stack changes with the window's height; while it is dragged the rows stand still."""
    near = solve(demo())
    window = near.room.opening("window").model_copy(update={"sill_mm": 700.0})
    moved = near.room.model_copy(update={"openings": (near.room.openings[0], window, near.room.openings[2])})
    assert sketch(moved, near=near).rows == near.rows
    assert audit(sketch(moved, near=near)) == []


def test_a_sketch_near_a_set_out_of_another_height_finds_rows_of_its_own() -> None:
    near = solve(demo())
    lower = near.room.model_copy(update={"clad_height_mm": 1700.0, "openings": near.room.openings[2:]})
    assert sketch(lower, near=near).rows == sketch(lower).rows


def test_what_was_kept_of_a_room_with_fewer_walls_does_not_stand_in_one_with_more(demo_room_path: Path) -> None:
    """The wall before the first has another number then: its corner panels once stood on a wall too short for them."""
    room = load_room(demo_room_path)
    sketch(room)
    recessed = sketch(add_recess(room, 2, left_mm=900.0, width_mm=1219.2, depth_mm=400.0))
    faces = [face for panel in recessed.panels for face in panel.faces]
    assert all(0 <= face.left < face.right <= recessed.walls[face.wall].pitches for face in faces)
