"""From the grid to millimetres, on a wall of 3048 mm: 380 pitches of 8 mm, half of the 8 mm left over at either end."""

import pytest

from core.setout import solve
from core.setout.metric import face_box_mm, mount_mm, outer_mm, ring_mm, x_mm, z_mm
from core.setout.result import Face, Mount, SetOut
from tests.core.setout.rooms import KIT, plan, rectangle


@pytest.fixture(scope="module")
def setout() -> SetOut:
    return solve(rectangle(3048, 3048))


def test_the_first_pitch_line_stands_at_the_packing(setout: SetOut) -> None:
    assert x_mm(setout, 0, 0) == 4.0


def test_a_full_panel_further_is_304_millimetres_further(setout: SetOut) -> None:
    assert x_mm(setout, 0, 38) == 308.0


def test_the_shell_ends_as_far_from_the_other_corner(setout: SetOut) -> None:
    assert outer_mm(setout, 0) == (4.0, 3044.0)


def test_pitch_lines_of_an_outside_corner_start_before_the_frame_s() -> None:
    room = plan((0, 0), (0, 3000), (1804, 3000), (1804, 1400), (3000, 1400), (3000, 0))
    assert x_mm(solve(room), 3, 0) == -0.5


def test_a_full_row_is_304_millimetres_high() -> None:
    assert z_mm(KIT, 95) == 304.0


def test_a_sum_of_plates_shows_no_trace_of_binary_fractions() -> None:
    assert repr(z_mm(KIT, 3)) == "9.6"


def test_a_ring_keeps_its_points_in_order(setout: SetOut) -> None:
    assert ring_mm(setout, 0, ((0, 0), (38, 0), (38, 95))) == [(4.0, 0.0), (308.0, 0.0), (308.0, 304.0)]


def test_the_lowest_hole_is_in_the_middle_of_the_fourth_course(setout: SetOut) -> None:
    """Three courses of 9.6 mm and half of another."""
    assert mount_mm(setout, Mount(0, 1, 21, None)) == (12.0, 33.6)


def test_a_face_s_box_is_its_outline_s(setout: SetOut) -> None:
    face = Face(0, ((10, 0), (20, 0), (20, 30), (15, 30), (15, 95), (10, 95)), (), ())
    assert face_box_mm(setout, face) == (84.0, 0.0, 164.0, 304.0)
