"""Laws of set-out over generated rooms: sound from outside, reproducible, unmoved by how the room is written down."""

import os
import subprocess
import sys
from pathlib import Path

import pytest
from hypothesis import assume, given, settings
from hypothesis import strategies as st

from core.kit import Kit, Rates
from core.pins import RowsPin
from core.room import Opening, Room
from core.setout import solve
from core.setout.result import SetOut
from tests.generate import SMALL_KIT, TINY_KIT, rooms, seeded_room
from tests.reference.audit import audit
from tests.reference.reading import read_rows

TINY = rooms(kit=TINY_KIT, most_pitches=40)
TINY_FREE_SETUP = rooms(kit=TINY_KIT, most_pitches=40, most_rows=2, rates=Rates(setup=0.0))
TINY_STANDING = rooms(kit=TINY_KIT, most_pitches=40, standing=True)
NEAR_MINUTES = 1e-6

law = settings(max_examples=15, derandomize=True, deadline=None)


@law
@given(TINY | rooms(kit=SMALL_KIT, most_pitches=50, most_rows=2))
def test_every_set_out_of_a_small_kit_passes_the_audit(room: Room) -> None:
    assert audit(solve(room)) == []


@law
@given(TINY_STANDING)
@pytest.mark.slow
def test_every_set_out_before_standing_frames_passes_the_audit(room: Room) -> None:
    assert audit(solve(room)) == []


@pytest.mark.slow
@pytest.mark.parametrize("seed", range(6))
def test_every_set_out_of_the_default_kit_passes_the_audit(seed: int) -> None:
    assert audit(solve(seeded_room(seed, kit=Kit(), most_pitches=120, standing=seed % 2 == 1))) == []


@law
@given(rooms(kit=TINY_KIT.model_copy(update={"widths_pitches": (4, 6, 8)}), most_pitches=40, most_rows=2))
@pytest.mark.slow
def test_every_set_out_of_a_kit_of_three_widths_passes_the_audit(room: Room) -> None:
    assert audit(solve(room)) == []


@law
@given(TINY | rooms(kit=SMALL_KIT, most_pitches=50, most_rows=2))
def test_a_face_s_sides_are_where_its_outline_reaches_furthest(room: Room) -> None:
    for face in (face for panel in solve(room).panels for face in panel.faces):
        xs, zs = zip(*face.outline, strict=True)
        assert (face.left, face.right, face.bottom, face.top) == (min(xs), max(xs), min(zs), max(zs))


def test_the_demo_room_passes_the_audit(demo_room_path: Path) -> None:
    assert audit(solve(Room.model_validate_json(demo_room_path.read_text("utf-8")))) == []


@law
@given(TINY)
@pytest.mark.slow
def test_the_same_room_gives_the_same_set_out(room: Room) -> None:
    first, second = solve(room), solve(Room.model_validate_json(room.model_dump_json()))
    assert first == second
    assert repr(first) == repr(second)


@pytest.mark.slow
def test_the_set_out_does_not_depend_on_how_python_hashes(demo_room_path: Path) -> None:
    program = (
        "import sys, pathlib\nfrom core.room import Room\nfrom core.setout import solve\n"
        "print(repr(solve(Room.model_validate_json(pathlib.Path(sys.argv[1]).read_text('utf-8')))))"
    )
    root = Path(__file__).resolve().parents[2]
    said = [
        subprocess.run(
            [sys.executable, "-c", program, str(demo_room_path)],
            env={**os.environ, "PYTHONHASHSEED": seed},
            cwd=root,
            capture_output=True,
            check=True,
        ).stdout
        for seed in ("1", "2")
    ]
    assert said[0] == said[1]
    assert len(said[0]) > 1000


def clad_cells(setout: SetOut) -> int:
    """Pitch-plates that panels cover."""
    total = 0
    for reading in read_rows(setout):
        heights = [layer.top - layer.bottom for layer in reading.cells.layers]
        total += sum(int(count) * height for count, height in zip((reading.owner >= 0).sum(axis=1), heights, strict=True))
    return total


@law
@given(rooms(kit=TINY_KIT, most_pitches=40, most_openings=3), st.data())
def test_another_opening_never_adds_clad_area(room: Room, data: st.DataObject) -> None:
    """In one full row, pinned so that the rows stay where they are."""
    row_mm = TINY_KIT.row_plates(TINY_KIT.full_courses) * TINY_KIT.plate_mm
    low = tuple(opening for opening in room.openings if opening.sill_mm < row_mm)
    pins = (RowsPin(kind="rows", courses=(TINY_KIT.full_courses,)),)
    before = room.model_copy(update={"clad_height_mm": row_mm, "openings": low, "pins": pins})
    wall = data.draw(st.integers(0, room.wall_count - 1))
    left_mm = float(data.draw(st.integers(0, int(room.wall_length_mm(wall)) - 40)))
    assume(not any(o.wall == wall and o.left_mm < left_mm + 40 and left_mm < o.right_mm for o in low))
    extra = Opening(id="extra", kind="niche", wall=wall, left_mm=left_mm, sill_mm=30.0, width_mm=40.0, height_mm=40.0)
    after = before.model_copy(update={"openings": (*low, extra)})
    assert clad_cells(solve(after)) <= clad_cells(solve(before))


def turned(room: Room, by: int) -> Room:
    """The same room with its corners listed from another one on."""
    count = room.wall_count
    corners = tuple(room.corners_mm[(i + by) % count] for i in range(count))
    openings = tuple(o.model_copy(update={"wall": (o.wall - by) % count}) for o in room.openings)
    return room.model_copy(update={"corners_mm": corners, "openings": openings})


def mirrored(room: Room) -> Room:
    """The room seen in a mirror: x changes sign, the corners are listed the other way round."""
    count = room.wall_count
    corners = tuple((-x, y) for x, y in reversed(room.corners_mm))
    openings = []
    for opening in room.openings:
        wall = (count - 2 - opening.wall) % count
        left_mm = max(0.0, round(room.wall_length_mm(opening.wall) - opening.right_mm, 6))
        openings.append(opening.model_copy(update={"wall": wall, "left_mm": left_mm}))
    return Room.model_validate(dict(room) | {"corners_mm": corners, "openings": tuple(openings)})


@law
@given(TINY_FREE_SETUP, st.integers(1, 7))
def test_minutes_do_not_depend_on_the_corner_the_plan_starts_from(room: Room, by: int) -> None:
    assert solve(turned(room, by)).minutes.total == pytest.approx(solve(room).minutes.total, abs=NEAR_MINUTES)


@law
@given(TINY_FREE_SETUP)
def test_a_mirrored_room_takes_as_many_minutes(room: Room) -> None:
    assert solve(mirrored(room)).minutes.total == pytest.approx(solve(room).minutes.total, abs=NEAR_MINUTES)


@law
@given(TINY_FREE_SETUP)
def test_doubling_every_rate_doubles_the_minutes(room: Room) -> None:
    rates = room.rates
    names = ("build_full_panel", "handling", "sliver", "weak", "blocking")
    doubled = rates.model_copy(update={name: 2 * getattr(rates, name) for name in names})
    twice = solve(room.model_copy(update={"rates": doubled})).minutes.total
    assert twice == pytest.approx(2 * solve(room).minutes.total, abs=NEAR_MINUTES)


@law
@given(TINY)
@pytest.mark.slow
def test_set_up_never_costs_more_than_ignoring_it_and_never_less_than_none(room: Room) -> None:
    free = solve(room.model_copy(update={"rates": room.rates.model_copy(update={"setup": 0.0})}))
    best = solve(room).minutes.total
    ignoring = free.minutes.total + room.rates.setup * free.tally.designs_not_in_kit
    assert free.minutes.total - NEAR_MINUTES <= best <= ignoring + NEAR_MINUTES


@law
@given(st.integers(1200, 4000), st.integers(1200, 4000), st.integers(1, 40))
def test_a_longer_room_gains_exactly_its_pitches(width_mm: int, depth_mm: int, more: int) -> None:
    def room(extra_mm: float) -> Room:
        x, y = width_mm + extra_mm, float(depth_mm)
        return Room(name="rectangle", corners_mm=((0, 0), (0, y), (x, y), (x, 0)), clad_height_mm=304.0)

    before, after = solve(room(0.0)), solve(room(8.0 * more))
    assert [wall.pitches for wall in after.walls] == [w.pitches + more * (w.wall % 2) for w in before.walls]
    assert [wall.packing_mm for wall in after.walls] == pytest.approx([wall.packing_mm for wall in before.walls], abs=1e-6)


@law
@given(st.integers(16, 60), st.integers(16, 60), st.integers(1, 4), st.integers(0, 1))
def test_without_openings_full_rows_stand_at_the_foot(width: int, depth: int, full: int, half: int) -> None:
    x, y = width * 8 + 4.0, depth * 8 + 4.0
    height_mm = (full * 32 + half * 17) * 3.2
    room = Room(name="bare", corners_mm=((0, 0), (0, y), (x, y), (x, 0)), clad_height_mm=height_mm, kit=TINY_KIT)
    courses = [row.courses for row in solve(room).rows]
    assert courses == sorted(courses, reverse=True)
