import os
import signal
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from app import second_core
from app.second_core import meanwhile, steps_meanwhile

ROOT = Path(__file__).resolve().parents[2]

can_copy = pytest.mark.skipif(not hasattr(os, "fork"), reason="this system makes no copies of a running process")


@pytest.fixture(autouse=True)
def two_cores(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(second_core, "_cores", lambda: 2)


class NoRoomError(Exception):
    pass


def open_files() -> int:
    folder = Path("/proc/self/fd")
    return len(list(folder.iterdir())) if folder.exists() else 0


def refused() -> int:
    raise NoRoomError(os.getpid())


def killed_unless(here: int) -> int:
    if os.getpid() != here:
        os.kill(os.getpid(), signal.SIGKILL)
    return os.getpid()


@can_copy
def test_work_is_done_in_another_process() -> None:
    assert meanwhile(os.getpid)() != os.getpid()


@can_copy
def test_two_works_go_on_at_once() -> None:
    """The first waits for a word that the second gives."""
    listening, telling = os.pipe()
    first = meanwhile(lambda: os.read(listening, 4))
    second = meanwhile(lambda: os.write(telling, b"word"))
    assert first() == b"word"
    assert second() == 4
    os.close(listening)
    os.close(telling)


def three_answers(fails_after: int | None, here: int) -> Iterator[tuple[int, bool]]:
    """Numbered, and whether they were found here; the copy fails after so many."""
    for number in range(3):
        if number == fails_after and os.getpid() != here:
            raise NoRoomError
        yield number, os.getpid() == here


@can_copy
def test_answers_come_as_they_are_found() -> None:
    """The second is found only once it is known that the first came."""
    listening, telling = os.pipe()

    def found() -> Iterator[bytes]:
        yield b"first"
        yield os.read(listening, 6)

    answers = steps_meanwhile(found)
    assert next(answers) == b"first"
    os.write(telling, b"second")
    assert list(answers) == [b"second"]
    os.close(listening)
    os.close(telling)


@can_copy
@pytest.mark.parametrize("fails_after", [None, 0, 1, 2])
def test_answers_that_the_copy_failed_to_find_are_found_here(fails_after: int | None) -> None:
    here = os.getpid()
    found = list(steps_meanwhile(lambda: three_answers(fails_after, here)))
    assert [number for number, _ in found] == [0, 1, 2]
    assert [is_here for _, is_here in found] == [fails_after is not None and number >= fails_after for number in range(3)]


def test_an_answer_larger_than_a_pipe_holds_comes_whole() -> None:
    assert meanwhile(lambda: list(range(300_000)))() == list(range(300_000))


def test_what_fails_in_the_copy_fails_here() -> None:
    with pytest.raises(NoRoomError) as failed:
        meanwhile(refused)()
    assert failed.value.args == (os.getpid(),)


@can_copy
def test_work_of_a_copy_that_was_killed_is_done_here() -> None:
    here = os.getpid()
    assert meanwhile(lambda: killed_unless(here))() == here


def test_an_answer_that_does_not_pickle_is_worked_out_here() -> None:
    assert meanwhile(lambda: lambda: 7)()() == 7


def test_with_one_core_work_is_done_once_it_is_asked_for(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(second_core, "_cores", lambda: 1)
    done: list[int] = []
    answer = meanwhile(lambda: done.append(os.getpid()))
    assert not done
    answer()
    assert done == [os.getpid()]


@can_copy
def test_where_no_copy_can_be_made_work_is_done_here(monkeypatch: pytest.MonkeyPatch) -> None:
    def full() -> int:
        raise BlockingIOError

    monkeypatch.setattr(os, "fork", full)
    assert meanwhile(os.getpid)() == os.getpid()


def test_what_was_printed_before_comes_out_once() -> None:
    program = "from app.second_core import meanwhile\nprint('said', end=' ')\nanswer = meanwhile(lambda: 5)\nprint(answer())"
    buffered = {name: value for name, value in os.environ.items() if name != "PYTHONUNBUFFERED"}
    done = subprocess.run([sys.executable, "-c", program], cwd=ROOT, env=buffered, capture_output=True, check=True, text=True)
    assert (done.stdout, done.stderr) == ("said 5\n", "")


@can_copy
def test_a_copy_leaves_no_open_file_and_no_dead_process_behind() -> None:
    before = open_files()
    for _ in range(3):
        meanwhile(os.getpid)()
    assert open_files() == before
    with pytest.raises(ChildProcessError):
        os.waitpid(-1, os.WNOHANG)
