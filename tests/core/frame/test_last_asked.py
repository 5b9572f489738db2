"""Answers kept of the set-outs asked about last."""

from dataclasses import replace

from core.frame.last_asked import MOST_KEPT, LastAsked
from core.setout import solve
from core.setout.result import SetOut
from tests.core.setout.rooms import demo


def test_only_the_last_set_outs_are_remembered_and_an_equal_one_is_another() -> None:
    asked: list[SetOut] = []

    def work_out(setout: SetOut) -> int:
        asked.append(setout)
        return len(asked)

    answer, first = LastAsked(work_out), solve(demo())
    assert [answer(first), answer(first), answer(replace(first))] == [1, 1, 2]
    others = [replace(first) for _ in range(MOST_KEPT)]
    assert [answer(other) for other in others] == [3, 4]
    assert [answer(other) for other in others] == [3, 4]
    assert answer(first) == 5
