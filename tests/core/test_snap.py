"""Snapping: an edge goes to the nearest joint or stud within reach, else to the brick grid."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from core.room import FrameToBuild, MeasuredFrame, Room
from core.setout.result import CrewMinutes, Face, Panel, Row, SetOut, Tally, Timber, WallShell
from core.snap import AxisLines, Side, SnapLine, snap, wall_lines

STUD = Timber(wall=0, member="stud", left_mm=411.0, bottom_mm=38.0, width_mm=38.0, height_mm=1900.0)


def one_wall(*, standing: bool) -> SetOut:
    """Two full panels and a stud on wall A, with its shell starting 4 mm from the corner; the other walls are bare."""
    frame = MeasuredFrame(mode="measured", centres_mm=(430.0,)) if standing else FrameToBuild()
    corners = ((0.0, 0.0), (0.0, 616.0), (616.0, 616.0), (616.0, 0.0))
    room = Room(name="Reading den", corners_mm=corners, clad_height_mm=310.0, frames=(frame,) * 4)
    row = Row(index=0, z_plates=0, courses=31, height_plates=95)
    shells = tuple(WallShell(i, 616.0, 76, 4.0, 4.0, "inside", "inside") for i in range(4))
    panels = tuple(
        Panel(f"A-1-0{place}", "F", "full", 0, 14.0, (Face(0, ((x, 0), (x + 38, 0), (x + 38, 95), (x, 95)), (), ()),))
        for place, x in ((1, 0), (2, 38))
    )
    tally, minutes = Tally(2, {"full": 2}, 0), CrewMinutes(20, 8, 0, 0, 0, 0, bound=28)
    return SetOut(room, (row,), shells, panels, (), tally, minutes, (), (), (STUD,))


def test_an_edge_goes_to_the_panel_joint_within_reach() -> None:
    found = snap({"low": 301.0}, wall_lines(one_wall(standing=False), 0).along, reach_mm=10.0)
    assert found is not None
    assert (found.line.at_mm, found.line.kind, found.shift_mm) == (308.0, "panel joint", 7.0)


def test_of_two_moving_edges_the_nearer_to_a_joint_decides() -> None:
    found = snap({"low": 301.0, "high": 614.0}, wall_lines(one_wall(standing=False), 0).along, reach_mm=10.0)
    assert found is not None
    assert found.side == "high"
    assert abs(found.shift_mm) == 2.0, (
        "the last joint at 612 mm and the wall's end at 616 mm are as near, the joint at 308 is not"
    )


def test_out_of_a_joints_reach_the_pitch_grid_of_the_shell_takes_over() -> None:
    found = snap({"low": 301.0}, wall_lines(one_wall(standing=False), 0).along, reach_mm=2.0)
    assert found is not None
    assert (found.line.at_mm, found.line.kind) == (300.0, "pitch"), "4 mm of packing and 37 pitches"


@pytest.mark.parametrize(("side", "at_mm"), [("low", 449.0), ("high", 411.0)])
def test_an_opening_meets_a_standing_studs_facing_side(side: Side, at_mm: float) -> None:
    """An opening is framed between the faces of its studs, not their middles: common practice, no published source."""
    lines = wall_lines(one_wall(standing=True), 0).along
    found = snap({side: at_mm + 1.0}, lines, reach_mm=6.0)
    assert found is not None
    assert (found.line.at_mm, found.line.kind) == (at_mm, "stud")


def test_studs_still_to_be_built_hold_nothing() -> None:
    kinds = {line.kind for line in wall_lines(one_wall(standing=False), 0).along.strong}
    assert "stud" not in kinds


def test_a_head_goes_to_the_row_joint_and_a_sill_to_a_course() -> None:
    lines = wall_lines(one_wall(standing=False), 0).up
    head, sill = snap({"high": 300.0}, lines, reach_mm=6.0), snap({"low": 100.0}, lines, reach_mm=6.0)
    assert head is not None
    assert sill is not None
    assert (head.line.at_mm, head.line.kind) == (304.0, "row joint")
    assert (sill.line.at_mm, sill.line.kind) == (96.0, "course"), "ten courses of 9.6 mm"


def test_far_above_the_last_row_nothing_catches() -> None:
    assert snap({"high": 500.0}, wall_lines(one_wall(standing=False), 0).up, reach_mm=6.0) is None


@given(st.floats(0, 616), st.floats(0, 40))
def test_snapping_puts_the_edge_on_its_line_and_no_further_than_it_may(at_mm: float, reach_mm: float) -> None:
    lines = wall_lines(one_wall(standing=True), 0).along
    found = snap({"low": at_mm}, lines, reach_mm)
    assert found is not None
    assert at_mm + found.shift_mm == pytest.approx(found.line.at_mm)
    assert found.line.side != "high"
    assert abs(found.shift_mm) <= (8.0 if found.line in lines.fine else reach_mm)


@given(st.integers(0, 100), st.floats(0, 40))
def test_an_edge_on_a_joint_or_stud_stays_there(index: int, reach_mm: float) -> None:
    lines = [line for line in wall_lines(one_wall(standing=True), 0).along.strong if line.side != "high"]
    line = lines[index % len(lines)]
    found = snap({"low": line.at_mm}, wall_lines(one_wall(standing=True), 0).along, reach_mm)
    assert found is not None
    assert (found.shift_mm, found.line) == (0.0, line)


def test_with_no_lines_nothing_snaps() -> None:
    assert snap({"low": 10.0}, AxisLines(strong=(), fine=()), 5.0) is None
    only = AxisLines(strong=(SnapLine(10.0, "floor"),), fine=())
    assert snap({"low": 10.0}, only, 5.0) is not None
