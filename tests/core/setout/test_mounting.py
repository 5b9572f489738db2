"""Where a panel is screwed through: the hole pattern of the kit at work. Courses are counted from 0 here."""

from hypothesis import given

from core.setout.bodies import Body
from core.setout.layers import Block
from core.setout.mounting import whole_row_courses
from tests.core.setout.rooms import KIT, around_corner, blocks_on_a_wall, flat, law

Points = set[tuple[int, int]]


def points(body: Body) -> Points:
    """Its mounting points as (pitch line, course)."""
    return {(mount.x, mount.course) for mount in body.mounts}


def test_a_full_panel_has_four_points_one_pitch_in_and_four_courses_from_foot_and_head() -> None:
    (panel,) = flat(38)
    assert points(panel) == {(1, 3), (37, 3), (1, 27), (37, 27)}


def test_a_half_height_panel_has_them_four_courses_from_its_own_foot_and_head() -> None:
    (panel,) = flat(38, courses=15)
    assert points(panel) == {(1, 3), (37, 3), (1, 11), (37, 11)}


def test_seven_courses_have_them_in_the_middle_one_only() -> None:
    assert whole_row_courses(KIT, 7) == (3,)


def test_eight_courses_have_them_in_the_fourth_from_below_and_from_above() -> None:
    assert whole_row_courses(KIT, 8) == (3, 4)


def test_a_panel_over_an_opening_counts_its_courses_from_its_own_foot() -> None:
    """Courses 10 to 30 are left: 21 of them."""
    (panel,) = flat(38, Block(0, 38, 0, 10))
    assert points(panel) == {(1, 13), (37, 13), (1, 27), (37, 27)}


def test_no_point_falls_on_a_panel_of_plate_and_cap_alone() -> None:
    (strip_over,) = flat(38, Block(0, 38, 0, 31))
    assert points(strip_over) == set()


def test_a_point_keeps_two_pitches_from_a_cut_out() -> None:
    """A cut-out over pitches 2 to 9 in the lower points' course spoils pitches 0 to 11; the hole between 12 and 13 is next."""
    (panel,) = flat(38, Block(2, 10, 3, 10))
    assert points(panel) == {(13, 3), (37, 3), (1, 27), (37, 27)}


def test_a_cut_out_two_courses_above_the_points_still_moves_them() -> None:
    (panel,) = flat(38, Block(2, 10, 5, 10))
    assert (13, 3) in points(panel)


def test_a_cut_out_three_courses_above_the_points_leaves_them_where_they_were() -> None:
    (panel,) = flat(38, Block(2, 10, 6, 10))
    assert (1, 3) in points(panel)


def test_a_plain_panel_beside_an_opening_has_the_holes_of_every_other() -> None:
    """One design has one hole pattern: the opening's edge is just the panel's edge."""
    (beside,), (elsewhere,) = flat(38, Block(20, 38, 0, 33)), flat(20)
    assert points(beside) == points(elsewhere)


def test_the_clearance_is_waived_for_a_panel_that_would_have_fewer_than_two_points() -> None:
    """Seven courses, four pitches wide beside its notch in all but the top layer: clear of it there is just one line."""
    (panel,) = flat(8, Block(4, 8, 0, 8), courses=7)
    assert points(panel) == {(1, 3), (3, 3)}
    assert not panel.mounts_clear


def test_the_clearance_is_kept_where_two_points_are_left() -> None:
    """The same in a full row: one line in either of two courses."""
    (panel,) = flat(8, Block(4, 8, 0, 32))
    assert points(panel) == {(1, 3), (1, 27)}
    assert panel.mounts_clear


def test_points_less_than_two_pitches_apart_are_one() -> None:
    """Three pitches wide: lines 1 and 2 are both usable, but one pitch apart."""
    (panel,) = flat(38, Block(3, 38, 0, 17), courses=15)
    assert points(panel) == {(1, 3), (1, 11)}


def test_a_corner_panel_is_screwed_through_both_walls() -> None:
    (panel,) = around_corner(19, 19)
    assert points(panel) == {(1, 3), (37, 3), (1, 27), (37, 27)}


def test_no_point_falls_within_two_pitches_of_the_corner_line() -> None:
    """With pitches 0 to 5 notched out of the left leg, lines 7 and 8 are near the notch, 8 to 12 near the corner at 10."""
    (panel,) = around_corner(10, 10, Block(0, 6, 0, 32))
    assert points(panel) == {(13, 3), (19, 3), (13, 27), (19, 27)}


@law
@given(blocks_on_a_wall(38, courses=31))
def test_every_hole_stands_between_two_pitches_that_no_opening_touches(blocks: tuple[Block, ...]) -> None:
    for panel in flat(38, *blocks):
        for x, course in points(panel):
            assert not any(b.left <= x and x - 1 < b.right and b.low <= course < b.high for b in blocks)
