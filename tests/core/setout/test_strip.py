"""Pieces: what is left of a candidate when the blocked cells are taken away."""

from core.setout.layers import Block, layers_of
from core.setout.strip import Piece, Strip, strip_of

LAYERS = layers_of(3, 31)
WINDOW = Block(10, 20, 8, 25)
DOOR = Block(10, 20, 0, 25)
SILL = Block(10, 20, 8, 33)
GAP = Block(10, 20, 0, 33)


def strip(*blocks: Block) -> Strip:
    """Forty pitches of a full row. A block from 10 to 20 makes segment 0 left of it, 1 under it and 2 right of it."""
    return strip_of(LAYERS, 0, 40, blocks)


def spans(pieces: tuple[Piece, ...]) -> list[tuple[int, int, int, int]]:
    """First and last segment, lowest and highest layer of each."""
    return [(piece.first, piece.last, piece.low, piece.high) for piece in pieces]


def test_without_blocks_a_candidate_is_one_rectangle() -> None:
    (piece,) = strip().pieces(0, 0)
    assert piece.is_rectangle


def test_a_panel_around_a_window_is_one_piece_with_a_cut_out() -> None:
    (piece,) = strip(WINDOW).pieces(0, 2)
    assert (piece.first, piece.last, piece.low, piece.high) == (0, 2, 0, 33)
    assert not piece.is_rectangle


def test_a_candidate_within_a_window_leaves_a_piece_below_and_one_above() -> None:
    assert spans(strip(WINDOW).pieces(1, 1)) == [(1, 1, 0, 8), (1, 1, 25, 33)]


def test_the_parts_below_and_above_a_window_hang_together_by_what_stands_beside_it() -> None:
    assert spans(strip(WINDOW).pieces(0, 1)) == [(0, 1, 0, 33)]


def test_the_legs_beside_a_door_hang_together_over_it() -> None:
    assert spans(strip(DOOR).pieces(0, 2)) == [(0, 2, 0, 33)]


def test_the_legs_beside_an_opening_without_a_head_hang_together_under_it() -> None:
    assert spans(strip(SILL).pieces(0, 2)) == [(0, 2, 0, 33)]


def test_an_opening_from_bottom_to_top_parts_a_candidate() -> None:
    assert spans(strip(GAP).pieces(0, 2)) == [(0, 0, 0, 33), (2, 2, 0, 33)]


def test_a_candidate_blocked_altogether_leaves_no_piece() -> None:
    assert strip(GAP).pieces(1, 1) == ()


def test_pieces_that_meet_only_at_a_corner_point_stay_apart() -> None:
    assert len(strip(Block(0, 10, 8, 33), Block(10, 40, 0, 8)).pieces(0, 1)) == 2


def test_a_zigzag_of_openings_leaves_one_winding_piece() -> None:
    winding = strip(Block(5, 10, 0, 30), Block(15, 20, 3, 33), Block(25, 30, 0, 30))
    assert spans(winding.pieces(0, 6)) == [(0, 6, 0, 33)]


def test_parts_that_only_meet_further_right_are_one_piece() -> None:
    assert spans(strip(WINDOW).pieces(1, 2)) == [(1, 2, 0, 33)]


def test_the_corner_line_parts_nothing() -> None:
    around = strip_of(LAYERS, -20, 20, (), corner=0)
    (piece,) = around.pieces(0, 1)
    assert piece.is_rectangle
    assert around.is_around_corner(piece)


def test_a_piece_on_one_wall_of_a_corner_candidate_is_flat() -> None:
    around = strip_of(LAYERS, -20, 20, [Block(-5, 5, 0, 33)], corner=0)
    pieces = around.pieces(0, 3)
    assert [around.is_around_corner(piece) for piece in pieces] == [False, False]


def test_runs_go_through_where_nothing_is_blocked_and_stop_at_the_window() -> None:
    (piece,) = strip(WINDOW).pieces(0, 2)
    assert piece.runs == {(0, 2), (0, 0), (2, 2)}


def test_a_run_goes_on_around_the_corner() -> None:
    around = strip_of(LAYERS, -20, 20, (), corner=0)
    assert around.pieces(0, 1)[0].runs == {(0, 1)}


def test_a_run_counts_only_within_its_own_piece() -> None:
    below, above = strip(WINDOW).pieces(1, 1)
    assert below.runs == above.runs == {(1, 1)}
