"""Work done on another core while this process goes on, where the system can make a copy of a running process."""

import contextlib
import os
import pickle
from collections.abc import Callable, Iterator
from itertools import islice
from typing import TypeVar, cast

Answer = TypeVar("Answer")


def meanwhile(work: Callable[[], Answer]) -> Callable[[], Answer]:
    """Begin some work; what is returned waits for its answer. All that is said of ``steps_meanwhile`` holds."""

    def one_step() -> Iterator[Answer]:
        yield work()

    answers = steps_meanwhile(one_step)

    def answer() -> Answer:
        (only,) = answers
        return only

    return answer


def steps_meanwhile(work: Callable[[], Iterator[Answer]]) -> Iterator[Answer]:
    """Begin some work that has several answers, which come one after another as they are found, and must pickle.

    The work is done in a copy of this process, so it changes nothing here, and none may go on in another thread. Where no copy
    can be made, or it would only take turns with this process, the work is done as its answers are asked for; and so it is where
    it failed in the copy, so that it fails here, with all that an error tells.
    """
    if not hasattr(os, "fork") or _cores() < 2:
        return work()
    reading, writing = os.pipe()
    try:
        copy = os.fork()
    except OSError:
        os.close(reading)
        os.close(writing)
        return work()
    if copy == 0:
        os.close(reading)
        _answer_and_end(work, writing)
    os.close(writing)
    return _answers(work, copy, reading)


def _answers(work: Callable[[], Iterator[Answer]], copy: int, reading: int) -> Iterator[Answer]:
    told = 0
    with os.fdopen(reading, "rb") as pipe, contextlib.suppress(EOFError, pickle.UnpicklingError):
        while True:
            answer = cast(Answer, pickle.load(pipe))
            told += 1
            yield answer
    _, status = os.waitpid(copy, 0)
    if status != 0:
        yield from islice(work(), told, None)


def _answer_and_end(work: Callable[[], Iterator[object]], writing: int) -> None:
    """In the copy: nothing may be left to do behind this, neither the caller's work nor what Python does at its end."""
    status = 1
    # Whatever goes wrong is told by the one who waits, who then does the work itself.
    with contextlib.suppress(BaseException):
        with os.fdopen(writing, "wb") as pipe:
            for answer in work():
                pickle.dump(answer, pipe, pickle.HIGHEST_PROTOCOL)
                pipe.flush()
        status = 0
    os._exit(status)


def _cores() -> int:
    """How many cores this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
