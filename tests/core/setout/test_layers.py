"""The layers of a row, and which of them an opening blocks."""

from itertools import pairwise

from core.room import Opening, Room
from core.setout.layers import Block, blocks_in_row, holes_of, layers_of
from core.setout.result import Row
from core.setout.shell import shell_of
from tests.core.setout.rooms import opening, rectangle

FIRST, SECOND, THIRD = (Row(n, 95 * n, 31, 95) for n in range(3))
PLATE, CAP = 31, 32


def blocked(hole: Opening, row: Row) -> tuple[Block, ...]:
    """What one opening blocks in a full row of a 3048 mm wall, whose shell begins 4 mm from its frame."""
    room: Room = rectangle(3048, 3048, 1980, [hole])
    return blocks_in_row(holes_of(room, shell_of(room), hole.wall), row, layers_of(3, 31))


def outlet(left_mm: float = 604.0, width_mm: float = 80.0) -> Opening:
    return opening("outlet", 0, left_mm, 300, width_mm, 100)


def test_a_full_row_has_31_courses_of_three_plates_then_two_of_one() -> None:
    edges = layers_of(3, 31).edges
    assert [high - low for low, high in pairwise(edges)] == [3] * 31 + [1, 1]


def test_an_outlet_from_300_to_400_blocks_only_the_plate_and_the_cap_of_the_first_row() -> None:
    """The row ends at 304 mm, its last course at 297.6."""
    assert [(block.low, block.high) for block in blocked(outlet(), FIRST)] == [(PLATE, CAP + 1)]


def test_an_outlet_from_300_to_400_blocks_the_lowest_ten_courses_of_the_second_row() -> None:
    """From 304 mm on, ten courses of 9.6 mm reach 400 mm exactly."""
    assert [(block.low, block.high) for block in blocked(outlet(), SECOND)] == [(0, 10)]


def test_an_outlet_from_300_to_400_blocks_nothing_of_the_third_row() -> None:
    assert blocked(outlet(), THIRD) == ()


def test_an_opening_on_pitch_lines_blocks_just_what_lies_between_them() -> None:
    """604 mm is pitch line 75 of a shell that starts at 4 mm; 80 mm are ten pitches."""
    assert [(block.left, block.right) for block in blocked(outlet(), FIRST)] == [(75, 85)]


def test_a_tenth_of_a_millimetre_blocks_the_whole_pitch() -> None:
    assert [(block.left, block.right) for block in blocked(outlet(603.9, 80.2), FIRST)] == [(74, 86)]


def test_an_opening_that_ends_on_a_row_s_bottom_blocks_nothing_there() -> None:
    """The third row begins at 608 mm."""
    assert blocked(opening("niche", 0, 700, 500, 300, 108), THIRD) == ()


def test_an_opening_past_the_shell_blocks_to_its_end() -> None:
    assert blocked(opening("door", 0, 0, 0, 100, 1000), FIRST) == (Block(0, 12, 0, 33),)


def test_openings_one_above_the_other_block_apart() -> None:
    low, high = opening("outlet", 0, 604, 19.2, 80, 48), opening("switch", 0, 604, 96, 80, 48)
    room = rectangle(3048, 3048, 1980, [low, high])
    blocks = blocks_in_row(holes_of(room, shell_of(room), 0), FIRST, layers_of(3, 31))
    assert [(block.low, block.high) for block in blocks] == [(2, 7), (10, 15)]
