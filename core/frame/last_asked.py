"""Answers about the set-outs asked about last: window, sheets, bench and JSON ask the same of one set-out, one after another."""

from collections.abc import Callable
from typing import Generic, TypeVar

from core.setout.result import SetOut

Answer = TypeVar("Answer")

MOST_KEPT = 2
"""Few, for each keeps its room and all of its panels alive."""


class LastAsked(Generic[Answer]):
    """A function of a set-out that remembers its last answers. Set-outs are told apart as objects: comparing them takes long."""

    def __init__(self, work_out: Callable[[SetOut], Answer]) -> None:
        self._work_out = work_out
        self._kept: list[tuple[SetOut, Answer]] = []

    def __call__(self, setout: SetOut) -> Answer:
        for known, answer in self._kept:
            if known is setout:
                return answer
        answer = self._work_out(setout)
        self._kept = [*self._kept, (setout, answer)][-MOST_KEPT:]
        return answer
