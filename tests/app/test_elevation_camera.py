"""The strip and the camera: places and pixels map to each other, and the room cannot be lost from sight."""

import pytest
from hypothesis import given
from hypothesis import strategies as st
from PySide6.QtCore import QPointF, QRectF, QSize

from app.elevation.camera import LEAST_SCALE, MOST_SCALE, Box, Camera
from app.elevation.strip import FOLD_MM, Strip, StripPoint, WallPoint

STRIP = Strip((3000.0, 2000.0, 3000.0, 2000.0), (0.0, 3064.0, 5128.0, 8192.0))
cameras = st.builds(Camera, st.floats(LEAST_SCALE, MOST_SCALE), st.floats(-5e4, 5e4), st.floats(-5e4, 5e4))
pixels = st.builds(QPointF, st.floats(-2000, 4000), st.floats(-2000, 4000))


@given(cameras, st.floats(0, 2e4), st.floats(0, 3e3))
def test_a_place_comes_back_from_its_pixel(camera: Camera, x_mm: float, z_mm: float) -> None:
    back = camera.to_strip(camera.to_screen(StripPoint(x_mm, z_mm)))
    assert back == pytest.approx((x_mm, z_mm), abs=1e-6)


@given(cameras, pixels, st.floats(0.1, 10))
def test_zooming_keeps_the_place_under_the_pointer(camera: Camera, at: QPointF, factor: float) -> None:
    before = camera.to_strip(at)
    assert camera.zoomed(factor, at).to_strip(at) == pytest.approx(before, rel=1e-9, abs=1e-6)


@given(cameras, st.floats(1, 3000), st.floats(1, 3000))
def test_however_far_one_pans_some_of_the_room_stays_in_sight(camera: Camera, wide: float, high: float) -> None:
    box, size = Box(0.0, 0.0, wide, high), QSize(800, 600)
    shown = camera.kept_near(box, size, 80.0).box_px(box)
    assert shown.right() >= 80.0 - 1e-6
    assert shown.left() <= 720.0 + 1e-6
    assert shown.bottom() >= 80.0 - 1e-6
    assert shown.top() <= 520.0 + 1e-6


def test_fitting_centres_the_box_and_touches_the_frame() -> None:
    frame = QRectF(10, 20, 1000, 500)
    shown = Camera.fitting(Box(0.0, 0.0, 4000.0, 1000.0), frame).box_px(Box(0.0, 0.0, 4000.0, 1000.0))
    assert (shown.left(), shown.right()) == pytest.approx((10.0, 1010.0))
    assert shown.center().y() == pytest.approx(270.0)


@given(st.integers(0, 3), st.floats(0, 1))
def test_every_place_on_a_wall_is_found_on_that_wall(wall: int, share: float) -> None:
    place = WallPoint(wall, share * STRIP.lengths_mm[wall], 500.0)
    found = STRIP.wall_point(STRIP.place(place))
    assert found is not None
    assert found == pytest.approx(place)


def test_a_fold_belongs_to_no_wall_but_to_the_nearer_one_in_a_drag() -> None:
    before, after = StripPoint(3000.0 + FOLD_MM * 0.4, 0.0), StripPoint(3000.0 + FOLD_MM * 0.6, 0.0)
    assert STRIP.wall_point(before) is None
    assert [STRIP.nearest(before).wall, STRIP.nearest(after).wall] == [0, 1]
