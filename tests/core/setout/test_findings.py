"""Checks: each is raised by a room made for it, and by no room without cause."""

import math

import pytest

from core.room import Opening, RegularFrame, Room
from core.setout import solve
from tests.core.setout.rooms import KIT, demo, opening, plan, rectangle
from tests.generate import SMALL_KIT, seeded_room


def raised(room: Room) -> dict[str, list[str]]:
    """Where each check is raised, by its code."""
    found: dict[str, list[str]] = {}
    for check in solve(room).checks:
        found.setdefault(check.code, []).append(check.where)
    return found


def one_row(*openings: Opening) -> Room:
    """A bare square room of 2 m, one full row high."""
    return rectangle(2000, 2000, openings=openings)


ALWAYS = {"head-gap", "fire-not-assessed"}


def test_a_bare_room_is_told_only_what_every_room_is_told() -> None:
    assert set(raised(one_row())) == ALWAYS


def test_the_demo_room_is_told_of_its_old_wall_its_outlet_and_its_ways_out() -> None:
    assert set(raised(demo())) == ALWAYS | {"mount-no-timber", "box-extension", "escape-not-assessed"}


def test_a_clad_height_that_no_stack_fits_is_an_error() -> None:
    assert raised(rectangle(2000, 2000, height_mm=30.0))["no-row-stack"] == ["room"]


def test_a_room_that_no_stack_fits_has_no_panels() -> None:
    assert solve(rectangle(2000, 2000, height_mm=30.0)).panels == ()


def test_the_head_gap_is_what_the_rows_leave_of_the_clad_height() -> None:
    """310 mm less one full row of 304."""
    (text,) = [check.text for check in solve(rectangle(2000, 2000, height_mm=310.0)).checks if check.code == "head-gap"]
    assert text.startswith("6.0 mm")


def test_a_standing_wall_whose_studs_miss_the_screws_is_told_by_its_letter() -> None:
    wide = RegularFrame(mode="regular", spacing_mm=5000.0)
    room = rectangle(2000, 2000, frames=[one_row().frame(0), wide, one_row().frame(2), one_row().frame(3)])
    assert raised(room)["mount-no-timber"] == ["wall B"]


def test_a_corner_a_quarter_degree_off_is_told_at_the_wall_it_begins() -> None:
    off_mm = 2000 * math.tan(math.radians(0.25))
    assert raised(plan((0, 0), (0, 2000), (2000, 2000 + off_mm), (2000, 0)))["out-of-square"] == ["wall B", "wall C"]


def test_a_slanting_corner_is_told_as_a_free_end_and_not_as_out_of_square() -> None:
    found = raised(plan((0, 0), (0, 2000), (1000, 3000), (3000, 3000), (3000, 0)))
    assert found["free-end"] == ["wall B", "wall C"]
    assert "out-of-square" not in found


def test_a_window_at_the_end_of_a_wall_leaves_a_weak_panel_above_it() -> None:
    """Two courses, plate and cap are left over the window: under three courses."""
    weak = raised(one_row(opening("window", 0, 0, 0, 2000, 284.8)))["weak-panel"]
    assert weak
    assert all(where.startswith("panel A-1-") for where in weak)


def test_a_panel_of_plate_and_cap_alone_is_told_to_have_too_few_mounts() -> None:
    """With no head gap allowed, nothing but one full row ends at 304 mm; 297.6 mm of it are window all along wall A."""
    room = one_row(opening("window", 0, 0, 0, 2000, 297.6))
    few = raised(room.model_copy(update={"kit": KIT.model_copy(update={"head_gap_mm": 0.0})}))["few-mounts"]
    assert all(where.startswith("panel A-1-") for where in few)


def test_points_that_must_stand_near_a_cut_out_are_told() -> None:
    """Seven courses over the window all along the wall but for an outlet in their middle one."""
    window = opening("window", 0, 0, 0, 2000, 230.4)
    outlets = [
        Opening(id=f"outlet-{n}", kind="outlet", wall=0, left_mm=n * 100.0 + 10, sill_mm=260, width_mm=70, height_mm=15)
        for n in range(1, 19)
    ]
    found = raised(one_row(window, *outlets))
    assert found["mount-near-cut-out"]


@pytest.mark.parametrize("kind", ["outlet", "switch"])
def test_an_electrical_box_must_come_flush(kind: str) -> None:
    box = Opening.model_validate(
        {"id": "box", "kind": kind, "wall": 0, "left_mm": 900, "sill_mm": 100, "width_mm": 60, "height_mm": 60}
    )
    assert raised(one_row(box))["box-extension"] == ["opening box"]


@pytest.mark.parametrize("kind", ["door", "window", "niche"])
def test_other_openings_have_no_electrical_box(kind: str) -> None:
    hole = Opening.model_validate(
        {"id": "hole", "kind": kind, "wall": 0, "left_mm": 900, "sill_mm": 0, "width_mm": 200, "height_mm": 200}
    )
    assert "box-extension" not in raised(one_row(hole))


@pytest.mark.parametrize(("kind", "ways_out"), [("door", True), ("window", True), ("niche", False)])
def test_ways_out_are_not_assessed_where_there_are_any(kind: str, ways_out: bool) -> None:
    hole = Opening.model_validate(
        {"id": "hole", "kind": kind, "wall": 0, "left_mm": 900, "sill_mm": 0, "width_mm": 200, "height_mm": 200}
    )
    assert ("escape-not-assessed" in raised(one_row(hole))) == ways_out


@pytest.mark.parametrize("left_mm", [19.0, 2000 - 119.0])
def test_an_opening_behind_the_next_wall_s_lining_is_told(left_mm: float) -> None:
    """The shell stands 4 mm off the frame and is 16 mm thick, so that it covers the first 20 mm."""
    hole = opening("niche", 0, left_mm, 100, 100, 100)
    assert raised(one_row(hole))["opening-behind-lining"] == ["opening niche"]


def test_an_opening_clear_of_the_next_wall_s_lining_is_not_told() -> None:
    assert "opening-behind-lining" not in raised(one_row(opening("niche", 0, 21, 100, 100, 100)))


def test_an_opening_at_an_outside_corner_is_not_behind_a_lining() -> None:
    corners = ((0.0, 0.0), (0.0, 3000.0), (1804.0, 3000.0), (1804.0, 1400.0), (3000.0, 1400.0), (3000.0, 0.0))
    hole = opening("niche", 3, 0, 100, 100, 100)
    assert "opening-behind-lining" not in raised(plan(*corners, openings=[hole]))


def test_the_worst_checks_come_first() -> None:
    levels = [check.level for check in solve(demo()).checks]
    assert levels == sorted(levels, key=["error", "warning", "note"].index)


def test_the_trim_is_told_what_shows_beside_and_over_an_opening() -> None:
    """The shell starts 4 mm in. The left edge is 3 mm past pitch line 12, the right one 3 mm before line 25, the sill 0.8 mm over
    the second course and the head 9.2 mm under the top of the 22nd."""
    hole = opening("niche", 0, 103, 20, 98, 182)
    (reveal,) = solve(rectangle(2000, 2000, openings=[hole])).reveals
    sizes = (reveal.left_mm, reveal.right_mm, reveal.sill_mm, reveal.head_mm)
    assert sizes == pytest.approx((3.0, 3.0, 0.8, 9.2))


def test_a_sill_on_a_course_line_shows_nothing() -> None:
    """Ten courses are 96 mm, and the second opening's sill lies half a millimetre over them."""
    holes = [opening("niche", 0, 300, 96, 98, 100), opening("window", 0, 900, 96.5, 98, 100)]
    assert [reveal.sill_mm for reveal in solve(rectangle(2000, 2000, openings=holes)).reveals] == pytest.approx([0.0, 0.5])


@pytest.mark.parametrize("seed", range(36, 42))
def test_panels_with_fewer_than_two_mounting_points_are_told_and_no_others(seed: int) -> None:
    """One of these rooms has a panel with a single point."""
    setout = solve(seeded_room(seed, kit=SMALL_KIT, most_pitches=60, most_rows=3))
    points = {f"panel {panel.mark}": sum(len(face.mounts) for face in panel.faces) for panel in setout.panels}
    told = {check.where: check.text for check in setout.checks if check.code == "few-mounts"}
    assert set(told) == {where for where, number in points.items() if number < 2}
    assert all(text.startswith("Only one" if points[where] else "No mounting") for where, text in told.items())
    assert seed != 38 or 1 in points.values()


@pytest.mark.parametrize("is_at_right", [False, True])
def test_an_opening_past_the_lining_s_plain_end_is_told_at_either_end(is_at_right: bool) -> None:
    """At a corner of 45 degrees the lining stops 16 x cot(22.5) = 38.6 mm short; the wall is 2000 mm long."""
    corners = ((0.0, 0.0), (0.0, 2000.0), (2000.0, 0.0)) if is_at_right else ((0.0, 0.0), (2000.0, 2000.0), (2000.0, 0.0))
    wall, left_mm = (0, 1895.0) if is_at_right else (1, 5.0)
    found = solve(plan(*corners, openings=[opening("niche", wall, left_mm, 100, 100, 100)])).checks
    (text,) = [check.text for check in found if check.code == "opening-past-lining"]
    # It may stop earlier by the fit of 1 mm and by what does not make a whole pitch.
    assert 33.6 <= float(text.split(" ")[0]) <= 33.6 + 1.0 + 8.0
