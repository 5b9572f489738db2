"""Ways to fill a run."""

import pytest

from core.bond.tilings import NEVER, all_tilings, count_tilings, fewest_pieces, joints_of, short_tilings

LENGTHS = (1, 2, 3, 4)


@pytest.mark.parametrize(("run", "pieces"), [(0, 0), (1, 1), (4, 1), (5, 2), (34, 9), (38, 10)])
def test_the_fewest_pieces_of_a_run(run: int, pieces: int) -> None:
    assert fewest_pieces(run, LENGTHS)[run] == pieces


def test_a_run_that_nothing_fills_takes_never() -> None:
    assert fewest_pieces(7, (4, 6))[7] == NEVER
    assert short_tilings(7, (4, 6), 10, 10) == ()


def test_few_tilings_are_all_given() -> None:
    assert sorted(short_tilings(6, LENGTHS, 1, 100)) == sorted(all_tilings(6, LENGTHS))
    assert len(short_tilings(6, LENGTHS, 1, 100)) == count_tilings(6, LENGTHS)


def test_of_many_tilings_those_of_fewest_pieces_come_first() -> None:
    found = short_tilings(38, LENGTHS, 60, 100)
    assert len(found) == 60
    assert all(sum(tiling) == 38 for tiling in found)
    assert [len(tiling) for tiling in found] == sorted(len(tiling) for tiling in found)
    assert found[0] in {(2, *(4,) * 9), (*(4,) * 9, 2)}


def test_joints_lie_between_pieces() -> None:
    assert joints_of((2, 4, 4)) == (2, 6)
    assert joints_of((4,)) == ()
