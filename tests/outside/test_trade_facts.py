"""Arithmetic and trade rules from outside the project that set-out must agree with."""

from pathlib import Path

import pytest

from core.kit import Kit
from core.room import Opening, RegularFrame, Room
from core.setout import solve
from core.setout.metric import ring_mm
from core.setout.result import Panel, SetOut

INCH_MM = 25.4
FOOT_MM = 304.8


def rectangle(width_mm: float, depth_mm: float, height_mm: float, *openings: Opening) -> Room:
    corners = ((0.0, 0.0), (0.0, depth_mm), (width_mm, depth_mm), (width_mm, 0.0))
    return Room(name="rectangle", corners_mm=corners, clad_height_mm=height_mm, openings=openings)


def test_thirty_one_courses_a_plate_and_a_cap_make_304_mm() -> None:
    """31 x 9.6 + 3.2 + 3.2 = 304.0 and 15 x 9.6 + 6.4 = 150.4. Common practice, no published source."""
    kit = Kit()
    assert kit.row_plates(kit.full_courses) * kit.plate_mm == pytest.approx(304.0)
    assert kit.row_plates(kit.half_courses) * kit.plate_mm == pytest.approx(150.4)
    assert kit.full_width * kit.pitch_mm == pytest.approx(304.0)


def test_ten_feet_are_381_pitches_and_the_fit_leaves_380() -> None:
    """3048 mm = 10 x 304.8 mm, the international foot of 0.3048 m (agreed 1959; NIST SP 811, appendix B.8); from memory."""
    assert 10 * FOOT_MM / 8 == 381
    setout = solve(rectangle(10 * FOOT_MM, 10 * FOOT_MM, 304.0))
    assert {(wall.pitches, wall.start_mm, wall.packing_mm) for wall in setout.walls} == {(380, 4.0, 4.0)}


def test_a_full_panel_covers_0_092416_square_metres() -> None:
    """0.304 m squared, so 10.82 panels a square metre. Arithmetic; common practice, no published source."""
    setout = solve(rectangle(3048.0, 3048.0, 304.0))
    panel = next(panel for panel in setout.panels if panel.kind == "full")
    area_m2 = shoelace_mm2(setout, panel) / 1e6
    assert area_m2 == pytest.approx(0.092416, abs=1e-9)
    assert round(1 / area_m2, 2) == 10.82


def shoelace_mm2(setout: SetOut, panel: Panel) -> float:
    """Area of a panel's faces by the surveyor's formula."""
    total = 0.0
    for face in panel.faces:
        ring = ring_mm(setout, face.wall, face.outline)
        for (x0, z0), (x1, z1) in zip(ring, (*ring[1:], ring[0]), strict=True):
            total += (x0 * z1 - x1 * z0) / 2
    return total


def test_the_demo_room_takes_six_full_rows_and_a_half_one(demo_room_path: Path) -> None:
    """6 x 304.0 + 150.4 = 1974.4 mm under 1980 mm: 5.6 mm for the trim. Common practice, no published source."""
    setout = solve(Room.model_validate_json(demo_room_path.read_text("utf-8")))
    assert sorted(row.courses for row in setout.rows) == [15, 31, 31, 31, 31, 31, 31]
    height_mm = sum(row.height_plates for row in setout.rows) * 3.2
    assert height_mm == pytest.approx(1974.4)
    assert setout.room.clad_height_mm - height_mm == pytest.approx(5.6)


def run_between_doors(run_pitches: int) -> SetOut:
    """A wall 12 ft long with two doors up to the top of the lining and whole pitches of wall between them.

    3658 mm leave 457 pitches and 1.0 mm of packing at each end, so a pitch line lies at 1 + 8 n.
    """
    first, width = 100, 90
    doors = tuple(
        Opening(id=name, kind="door", wall=1, left_mm=1.0 + 8 * left, sill_mm=0.0, width_mm=8.0 * width, height_mm=304.0)
        for name, left in (("left", first), ("right", first + width + run_pitches))
    )
    return solve(rectangle(3658.0, 3658.0, 304.0, *doors))


def widths_between_doors(setout: SetOut, run_pitches: int) -> list[int]:
    """Widths of the panels between the doors, from the left."""
    faces = [face for panel in setout.panels for face in panel.faces if face.wall == 1]
    run = [face for face in faces if face.left >= 190 and face.right <= 190 + run_pitches]
    return [face.right - face.left for face in run]


@pytest.mark.parametrize("left_over", [1, 2, 10, 18])
def test_a_short_remainder_is_not_left_as_a_sliver(left_over: int) -> None:
    """No cut smaller than half a unit where it can be helped.

    ANSI A108.02 section 4.3.2, quoted at fcimag.com/articles/95138 ("Usually, no cuts smaller than half size should be made").
    One full panel and a remainder under half of one are made into two pieces of at least half a panel.
    """
    setout = run_between_doors(38 + left_over)
    widths = widths_between_doors(setout, 38 + left_over)
    assert sum(widths) == 38 + left_over
    assert len(widths) == 2
    assert min(widths) >= 19
    assert setout.minutes.sliver == 0


INCH_TILES = Kit(
    pitch_mm=19.05,
    full_courses=14,
    half_courses=7,
    thickness_pitches=2,
    widths_pitches=(16, 32),
    legs_pitches=(16, 32),
    least_width_pitches=8,
)
"""Panels 24 in wide on a grid of three quarters of an inch."""


@pytest.mark.parametrize("whole", [2, 3, 5])
def test_the_left_over_of_a_run_goes_to_both_ends_in_equal_cuts(whole: int) -> None:
    """24 in tiles with 1 1/2 in left over: one tile fewer, and 12 3/4 in at both ends.

    The balanced layout of the tile trade, CTEF tile tip at fcimag.com/articles/95138.
    """
    left, width, run = 48, 31, 32 * whole + 2
    row_mm = INCH_TILES.row_plates(INCH_TILES.full_courses) * INCH_TILES.plate_mm
    # Walls of whole panels elsewhere, and two millimetres more, which leave one of packing at either end.
    wall_mm = 19.05 * (2 * left + 2 * width + run) + 2.0
    doors = tuple(
        Opening(id=name, kind="door", wall=1, left_mm=1.0 + 19.05 * at, sill_mm=0.0, width_mm=19.05 * width, height_mm=row_mm)
        for name, at in (("left", left), ("right", left + width + run))
    )
    corners = ((0.0, 0.0), (0.0, wall_mm), (wall_mm, wall_mm), (wall_mm, 0.0))
    setout = solve(Room(name="tiles", corners_mm=corners, clad_height_mm=row_mm, openings=doors, kit=INCH_TILES))
    begin = left + width
    faces = [face for panel in setout.panels for face in panel.faces if face.wall == 1]
    between = [face for face in faces if begin <= face.left and face.right <= begin + run]
    assert [(face.right - face.left) * 0.75 for face in between] == [12.75, *[24.0] * (whole - 1), 12.75]


def test_a_run_narrower_than_half_a_panel_is_one_unavoidable_sliver() -> None:
    """The other side of the same rule: 12 pitches between two doors cannot be anything else."""
    setout = run_between_doors(12)
    assert widths_between_doors(setout, 12) == [12]
    assert setout.minutes.sliver == setout.room.rates.sliver


def test_a_wall_with_a_door_has_no_cut_under_half() -> None:
    """ANSI A108.02 section 4.3.2, as above, over every door position in steps of 24 mm along a 10 ft wall."""
    for step in range(20):
        door = Opening(id="door", kind="door", wall=3, left_mm=600.0 + 24 * step, sill_mm=0.0, width_mm=912.0, height_mm=304.0)
        assert solve(rectangle(3048.0, 3048.0, 304.0, door)).minutes.sliver == 0


def test_the_phase_of_an_l_shaped_room_worked_out_by_hand() -> None:
    """An L of 4500 x 4000 mm with a 2000 x 1500 mm bite; arithmetic by hand, fit 1 mm.

    Across x: lines at 0 (facing right), 2500 and 4500 (facing left), both 4 modulo 8: packings p, 4 - p, 4 - p; best p = 2.
    Across y: lines at 0 (facing up), 4000 and 2500 (facing down), 0 and 4 modulo 8: packings q, 8 - q and 4 - q (or 12 - q where
    q > 3.5). q = 4 would need 8 mm at the third; q = 3.5 gives 3.5, 4.5 and 0.5, the least fit; q = 6 would give 6, 2 and 6.
    """
    corners = ((0, 0), (0, 4000), (2500, 4000), (2500, 2500), (4500, 2500), (4500, 0))
    setout = solve(Room(name="L", corners_mm=corners, clad_height_mm=304.0))
    assert [wall.packing_mm for wall in setout.walls] == pytest.approx([2, 4.5, 2, 0.5, 2, 3.5])
    assert [wall.start_mm for wall in setout.walls] == pytest.approx([3.5, 2, 4.5, -2, 0.5, 2])
    assert [wall.pitches for wall in setout.walls] == [499, 312, 187, 250, 312, 562]
    assert [wall.left for wall in setout.walls] == ["inside", "inside", "inside", "outside", "inside", "inside"]


def test_regular_studs_stand_where_the_builders_manual_marks_them() -> None:
    """First edge at 15 1/4 in, centres at 16, 32 and 48 in, for studs 1 1/2 in wide.

    US Navy training manual "Builder", NAVEDTRA 14044, fig. 1-40, constructionmanuals.tpub.com/14044 (horizontal plate layout).
    """
    frame = RegularFrame(mode="regular", spacing_mm=16 * INCH_MM, first_centre_mm=16 * INCH_MM, stud_mm=1.5 * INCH_MM)
    room = rectangle(3048.0, 3048.0, 1980.0).model_copy(update={"frames": (frame,) * 4})
    studs = sorted({timber.left_mm for timber in solve(room).timber if timber.wall == 0 and timber.height_mm > timber.width_mm})
    inner = [left for left in studs if left > 100]
    assert inner[:3] == pytest.approx([15.25 * INCH_MM, 31.25 * INCH_MM, 47.25 * INCH_MM])
    assert inner[:3] == pytest.approx([387.35, 793.75, 1200.15])


def test_a_frame_at_foot_centres_drifts_0_8_mm_a_panel() -> None:
    """A foot is 304.8 mm and a panel 304.0: after ten panels a stud is 8 mm off. Arithmetic on the international foot."""
    kit = Kit()
    drift = FOOT_MM - kit.full_width * kit.pitch_mm
    assert drift == pytest.approx(0.8)
    assert 10 * drift == pytest.approx(kit.pitch_mm)
