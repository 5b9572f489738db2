"""The command line: one line on standard error and status 2 for whatever a person can put right, never a traceback."""

import atexit
import ctypes
import gc
import os
import sys
from collections.abc import Iterator, Sequence
from contextlib import contextmanager, nullcontext, suppress
from pathlib import Path

from app.arguments import command_parser
from app.language_choice import speak_as_asked
from core.errors import CoursewrightError
from core.language import in_english, marked, tr
from core.system_words import system_words

EXIT_BAD_INPUT = 2
EXIT_INTERRUPTED = 130
EXIT_BROKEN_PIPE = 141

_OBJECTS_BETWEEN_COLLECTIONS = 500_000
_TRIM_THRESHOLD, _MMAP_THRESHOLD = -1, -3
"""M_TRIM_THRESHOLD and M_MMAP_THRESHOLD of the GNU C library's mallopt(3)."""
_BYTES_KEPT = 1 << 25
"""The most that M_MMAP_THRESHOLD takes on machines of 64 bits."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Runs one command; returns the exit status. Without a command it opens the window."""
    if sys.stdout is None:
        # Started with its output closed: nobody wants to read it.
        sys.stdout = Path(os.devnull).open("w")  # noqa: SIM115 - for as long as the program runs
    if hasattr(sys.stdout, "reconfigure"):
        # A terminal that cannot show a sign gets a question mark rather than an error.
        sys.stdout.reconfigure(errors="replace")
    # No matrix here is so large that several threads gain; starting them costs more than anything they would do.
    os.environ.setdefault("OPENBLAS_NUM_THREADS", "1")
    try:
        speak_as_asked()
        status = _run(list(sys.argv[1:] if arguments is None else arguments))
        sys.stdout.flush()
    except CoursewrightError as error:
        return _complain(str(error))
    except BrokenPipeError:
        # Whoever read the output has gone.
        _forget_output()
        return EXIT_BROKEN_PIPE
    except OSError as error:
        # Files name themselves in errors of our own, so this is the output: a full disk, most likely.
        _forget_output()
        return _complain(tr("the output cannot be written ({reason})", reason=system_words(error, in_sentence=True)))
    except KeyboardInterrupt:
        return EXIT_INTERRUPTED
    return status


def _forget_output() -> None:
    """Python must not try to flush what could not be written once more on its way out."""
    os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())


def _complain(message: str) -> int:
    print("coursewright:", " ".join(message.split()), file=sys.stderr)
    return EXIT_BAD_INPUT


def _run(arguments: list[str]) -> int:
    if not arguments or not (arguments[0].startswith("-") or arguments[0] in COMMANDS):
        if len(arguments) > 1:
            said = tr("{word} is no command; the commands are {commands}", word=arguments[0], commands=", ".join(COMMANDS))
            raise CoursewrightError(said)
        from app.commands import open_window

        return open_window(Path(arguments[0]) if arguments else None)
    options = command_parser(COMMANDS).parse_args(arguments)
    if options.name is None:
        raise CoursewrightError(tr("found no command; the commands are {commands}", commands=", ".join(COMMANDS)))
    _keep_what_is_freed()
    # What other programs read is in one language.
    with in_english() if getattr(options, "json", False) else nullcontext(), _rare_collections():
        # Models and solvers, which take a while to load and leave nothing to collect.
        from app.commands import RUN

        return RUN[options.name](options)


@contextmanager
def _rare_collections() -> Iterator[None]:
    """A command keeps nearly all it makes until it ends, so that looking for what nobody holds any more seldom finds anything."""
    before = gc.get_threshold()
    gc.set_threshold(_OBJECTS_BETWEEN_COLLECTIONS, *before[1:])
    # Nor is there anything to gain from looking through all of it on the way out.
    atexit.register(gc.freeze)
    try:
        yield
    finally:
        gc.set_threshold(*before)


def _keep_what_is_freed() -> None:
    """Have the C library keep freed memory: a command soon asks for as much again, and the system hands it out page by page.

    Nothing happens where the library has no such settings.
    """
    for setting in (_TRIM_THRESHOLD, _MMAP_THRESHOLD):
        with suppress(OSError, TypeError, AttributeError):
            ctypes.CDLL(None).mallopt(setting, _BYTES_KEPT)


COMMANDS: dict[str, tuple[str, tuple[str, ...]]] = {
    "setout": (marked("Print the panel schedule of a room."), ("room", "json")),
    "sheets": (marked("Write the print pack, elevations and schedules of a room."), ("room", "out", "from-stock")),
    "check": (marked("Print every check raised; exit status 1 if any is an error."), ("room",)),
    "stock": (
        marked("Print how the panels still to build are laid from the stock on hand; exit status 1 if a part runs out."),
        ("room", "json"),
    ),
    "advice": (marked("Print which small changes of openings and frames save work; takes a while."), ("room",)),
    "desktop-entry": (marked("Add Coursewright to the desktop's menu, or take it out again."), ("remove",)),
    "demo": (marked("Do the whole job on the demo room: set-out, checks, sheets."), ("out",)),
}
"""What each command does, in a line, and what it takes."""
