"""The panels a candidate leaves: outlines as a builder would draw them, and which panels are one design."""

from hypothesis import given

from core.setout.bodies import Body
from core.setout.layers import Block
from tests.core.setout.rooms import around_corner, blocks_on_a_wall, flat, law

NOTCH = Block(10, 20, 0, 10)
NOTCH_SEEN_FROM_BEHIND = Block(18, 28, 0, 10)
CUT_OUT = Block(10, 20, 5, 10)


def only(bodies: tuple[Body, ...]) -> Body:
    (body,) = bodies
    return body


def test_a_whole_panel_is_drawn_anticlockwise_from_its_lower_left_corner() -> None:
    assert only(flat(38)).right_faces == ((((0, 0), (38, 0), (38, 95), (0, 95)),),)


def test_a_panel_over_an_outlet_at_its_foot_is_notched() -> None:
    """Ten courses of three plates: the notch is 30 plates high."""
    notched = ((0, 0), (10, 0), (10, 30), (20, 30), (20, 0), (38, 0), (38, 95), (0, 95))
    assert only(flat(38, NOTCH)).right_faces == ((notched,),)


def test_a_cut_out_inside_a_panel_is_drawn_clockwise() -> None:
    outline = ((0, 0), (38, 0), (38, 95), (0, 95))
    assert only(flat(38, CUT_OUT)).right_faces == ((outline, ((10, 15), (10, 30), (20, 30), (20, 15))),)


def test_an_opening_at_the_edge_leaves_an_l() -> None:
    assert only(flat(38, Block(30, 38, 0, 10))).right_faces == ((((0, 0), (30, 0), (30, 30), (38, 30), (38, 95), (0, 95)),),)


def test_plate_and_cap_count_one_plate_each() -> None:
    """All but the cap course is blocked: the strip left lies from 94 to 95 plates."""
    assert only(flat(38, Block(0, 38, 0, 32))).right_faces == ((((0, 94), (38, 94), (38, 95), (0, 95)),),)


def test_a_corner_panel_shows_one_face_on_either_side_of_the_corner_line() -> None:
    body = only(around_corner(10, 14))
    assert body.left_faces == ((((0, 0), (10, 0), (10, 95), (0, 95)),),)
    assert body.right_faces == ((((10, 0), (24, 0), (24, 95), (10, 95)),),)


def test_openings_that_meet_at_a_corner_notch_both_faces() -> None:
    body = only(around_corner(10, 10, Block(6, 14, 0, 10)))
    assert body.left_faces == ((((0, 0), (6, 0), (6, 30), (10, 30), (10, 95), (0, 95)),),)
    assert body.right_faces == ((((14, 0), (20, 0), (20, 95), (10, 95), (10, 30), (14, 30)),),)


def test_an_opening_through_the_corner_line_parts_the_corner_panel_in_two_flat_ones() -> None:
    kinds = [body.built_to.kind for body in around_corner(12, 12, Block(8, 16, 0, 33))]
    assert kinds == ["closer", "closer"]


def test_a_shaped_panel_and_its_mirror_image_are_one_design() -> None:
    assert only(flat(38, NOTCH)).built_to == only(flat(38, NOTCH_SEEN_FROM_BEHIND)).built_to


def test_a_shaped_panel_and_the_same_elsewhere_on_the_wall_are_one_design() -> None:
    """Left of the second one, the candidate is blocked altogether."""
    here, there = flat(20, Block(12, 20, 0, 10)), flat(24, Block(0, 4, 0, 33), Block(16, 24, 0, 10))
    assert only(here).built_to == only(there).built_to


def test_a_shape_upside_down_is_another_design() -> None:
    assert only(flat(38, Block(30, 38, 0, 10))).built_to != only(flat(38, Block(30, 38, 21, 31))).built_to


def test_a_shaped_corner_panel_and_its_mirror_image_are_two_designs() -> None:
    seen, mirrored = around_corner(12, 12, Block(0, 4, 0, 10)), around_corner(12, 12, Block(20, 24, 0, 10))
    assert only(seen).built_to != only(mirrored).built_to


def test_a_corner_panel_with_its_legs_swapped_is_another_design() -> None:
    assert only(around_corner(10, 14)).built_to != only(around_corner(14, 10)).built_to


def test_equal_outlines_around_different_corner_lines_are_two_designs() -> None:
    notch = Block(0, 4, 0, 10)
    assert only(around_corner(12, 12, notch)).built_to != only(around_corner(10, 14, notch)).built_to


def test_the_kit_covers_its_own_widths_and_legs_only() -> None:
    bodies = [*flat(38), *flat(19), *flat(20), *around_corner(19, 38), *around_corner(19, 20)]
    assert [body.built_to.in_kit for body in bodies] == [True, True, False, True, False]


def test_panels_of_a_candidate_come_from_left_to_right_and_from_below() -> None:
    bodies = flat(30, Block(0, 12, 10, 20), Block(12, 18, 0, 33))
    corners = [body.right_faces[0][0][0] for body in bodies]
    assert corners == [(0, 0), (0, 60), (18, 0)]


@law
@given(blocks_on_a_wall(38, courses=31))
def test_a_wall_seen_in_a_mirror_is_built_to_the_same_designs(blocks: tuple[Block, ...]) -> None:
    mirrored = (Block(38 - b.right, 38 - b.left, b.low, b.high) for b in blocks)
    assert {body.built_to for body in flat(38, *blocks)} == {body.built_to for body in flat(38, *mirrored)}
