"""Work done on another core while this process goes on, where the system can make a copy of a running process."""

import contextlib
import os
import pickle
from collections.abc import Callable
from typing import TypeVar, cast

Answer = TypeVar("Answer")


def meanwhile(work: Callable[[], Answer]) -> Callable[[], Answer]:
    """Begin some work; what is returned waits for its answer, which must pickle.

    The work is done in a copy of this process, so it changes nothing here, and none may go on in another thread. Where no copy
    can be made, or it would only take turns with this process, the work is done once its answer is asked for; and so it is where
    it failed in the copy, so that it fails here, with all that an error tells.
    """
    if not hasattr(os, "fork") or _cores() < 2:
        return work
    reading, writing = os.pipe()
    try:
        copy = os.fork()
    except OSError:
        os.close(reading)
        os.close(writing)
        return work
    if copy == 0:
        os.close(reading)
        _answer_and_end(work, writing)
    os.close(writing)

    def answer() -> Answer:
        with os.fdopen(reading, "rb") as pipe:
            told = pipe.read()
        _, status = os.waitpid(copy, 0)
        return cast(Answer, pickle.loads(told)) if status == 0 else work()

    return answer


def _answer_and_end(work: Callable[[], object], writing: int) -> None:
    """In the copy: nothing may be left to do behind this, neither the caller's work nor what Python does at its end."""
    status = 1
    # Whatever goes wrong is told by the one who waits, who then does the work itself.
    with contextlib.suppress(BaseException):
        told = pickle.dumps(work(), pickle.HIGHEST_PROTOCOL)
        with os.fdopen(writing, "wb") as pipe:
            pipe.write(told)
        status = 0
    os._exit(status)


def _cores() -> int:
    """How many cores this process may use."""
    return len(os.sched_getaffinity(0)) if hasattr(os, "sched_getaffinity") else os.cpu_count() or 1
