"""Measuring whole processes: every figure comes from one that starts afresh, with settings of its own."""

import os
import subprocess
import sys
import tempfile
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from functools import cache
from pathlib import Path
from time import perf_counter

from app.benchmarks.hand import MeasureError

ROOT = Path(__file__).resolve().parents[2]
SCREEN_VARIABLES = ("DISPLAY", "WAYLAND_DISPLAY")
OFFSCREEN = "offscreen"
SCREEN = "on the screen"


def platforms() -> tuple[str, ...]:
    """What windows are measured on: without a screen, and on one where there is one."""
    return (OFFSCREEN, SCREEN) if any(os.environ.get(name) for name in SCREEN_VARIABLES) else (OFFSCREEN,)


@cache
def _compiled() -> "tempfile.TemporaryDirectory[str]":
    """Where children keep compiled modules, which an installed program has, whatever is set here about writing them."""
    return tempfile.TemporaryDirectory(prefix="coursewright-compiled-")


@contextmanager
def _environment(platform: str) -> Iterator[dict[str, str]]:
    """The variables of a child: no settings or autosaves of ours are read or written."""
    with tempfile.TemporaryDirectory(prefix="coursewright-benchmarks-") as folder:
        homes = dict.fromkeys(("XDG_CONFIG_HOME", "XDG_DATA_HOME", "XDG_STATE_HOME", "XDG_CACHE_HOME"), folder)
        variables = {**os.environ, **homes, "PYTHONPATH": str(ROOT), "PYTHONPYCACHEPREFIX": _compiled().name}
        for name in ("QT_QPA_PLATFORM", "PYTHONDONTWRITEBYTECODE"):
            variables.pop(name, None)
        if platform == OFFSCREEN:
            variables["QT_QPA_PLATFORM"] = OFFSCREEN
        yield variables


def run(module: str, arguments: Sequence[str], platform: str = OFFSCREEN) -> str:
    """Run ``python -m module`` to its end; its standard output. Raises MeasureError where it fails."""
    with _environment(platform) as variables:
        done = subprocess.run(
            [sys.executable, "-m", module, *arguments], env=variables, capture_output=True, text=True, check=False
        )
    if done.returncode:
        raise MeasureError(f"{module} {' '.join(arguments)} ended with status {done.returncode}:\n{done.stderr[-2000:]}")
    return done.stdout


def seconds_to_end(module: str, arguments: Sequence[str]) -> float:
    """How long ``python -m module`` takes, start and end of its process included."""
    begin = perf_counter()
    run(module, arguments)
    return perf_counter() - begin


def seconds_to_line(module: str, platform: str) -> float:
    """How long ``python -m module`` takes from the start of its process to its first line on standard output."""
    with _environment(platform) as variables:
        begin = perf_counter()
        child = subprocess.Popen(
            [sys.executable, "-m", module], env=variables, stdout=subprocess.PIPE, stderr=subprocess.PIPE, text=True
        )
        assert child.stdout is not None
        line = child.stdout.readline()
        took = perf_counter() - begin
        _, errors = child.communicate()
    if child.returncode or not line.strip():
        raise MeasureError(f"{module} ended with status {child.returncode}:\n{errors[-2000:]}")
    return took
