"""Every measurement by the name it is asked for, and the rows it gives."""

import json
import sys
import tempfile
from collections import defaultdict
from collections.abc import Callable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path
from statistics import median
from types import MappingProxyType
from typing import Any

from app.assets import asset
from app.benchmarks import children
from app.benchmarks.gestures import DRAGS, Drag
from app.benchmarks.hand import MeasureError
from app.benchmarks.report import Row, amount, share_of

QUICK_STEPS = 8
DRAG_BUDGETS_MS = {"demo": 16.0, "hall": 33.0}
OPENING_BUDGET_S = 1.5
SETOUT_BUDGET_S = 1.0
PACK_BUDGET_S = 5.0
MEMORY_BUDGET_MB = 250.0
MEMORY_STEPS = (200, 800)
WORK_BUDGETS_S: Mapping[tuple[str, str], float | None] = MappingProxyType(
    {
        ("set-out", "demo"): None,
        ("set-out", "hall"): 2.0,
        ("bonds", "demo"): 0.5,
        ("bonds", "hall"): 5.0,
        ("take-off", "demo"): 0.05,
        ("take-off", "hall"): 1.0,
    }
)
WORK_WORDS = MappingProxyType(
    {"set-out": "set-out worked out in full", "bonds": "all designs bonded", "take-off": "take-off of bonded designs"}
)
BYTES_PER_MB = 1_000_000
STEP_TIMES = ("out_ms", "out_setout_ms", "back_ms")


@dataclass(frozen=True, slots=True)
class Effort:
    """How much is measured. ``quick`` takes few steps of one drag, to see that everything runs."""

    quick: bool = False
    rounds: int = 3
    """How often all drags of a room are made, one round after the other."""

    @property
    def runs(self) -> int:
        """How many other processes a median is taken over."""
        return 1 if self.quick else 5

    @property
    def drag_runs(self) -> int:
        """How many runs of a drag a median is taken over, step by step."""
        return 1 if self.quick else self.rounds

    @property
    def step_options(self) -> list[str]:
        return ["--steps", str(QUICK_STEPS)] if self.quick else []

    def drags(self, room: str) -> list[tuple[str, Drag]]:
        return list(DRAGS[room].items())[: 1 if self.quick else None]

    @property
    def memory_steps(self) -> tuple[int, ...]:
        """After how many drag steps memory is measured."""
        return (QUICK_STEPS,) if self.quick else MEMORY_STEPS


def _drag_once(room: str, name: str, effort: Effort, platform: str) -> dict[str, Any]:
    found: dict[str, Any] = json.loads(children.run("app.benchmarks.drag", [room, name, *effort.step_options], platform))
    if not found["out_ms"]:
        raise MeasureError(f"the drag {room} {name} changed nothing")
    return found


def median_of(tries: Sequence[Mapping[str, Any]]) -> dict[str, Any]:
    """Of runs of one drag the median, step by step: all runs take the same steps, each in the same room.

    Raises MeasureError where they do not, as the times would belong to different steps.
    """
    found = dict(tries[0])
    for key in STEP_TIMES:
        if len({len(figures[key]) for figures in tries}) > 1:
            raise MeasureError("runs of one drag took different steps")
        found[key] = [median(times) for times in zip(*(figures[key] for figures in tries), strict=True)]
    found["cold_solve_ms"] = median(figures["cold_solve_ms"] for figures in tries)
    return found


def _drags(room: str, effort: Effort) -> Iterator[Row]:
    for platform in children.platforms():
        drags, tries = effort.drags(room), defaultdict[str, list[dict[str, Any]]](list)
        # Round by round: what disturbs the machine for a while then disturbs one run of some drags, not all runs of one.
        for number in range(1, effort.drag_runs + 1):
            for name, drag in drags:
                _tell(f"{room}: {drag.title}, {platform}, round {number}")
                tries[name].append(_drag_once(room, name, effort, platform))
        everything = [median_of(tries[name]) for name, _ in drags]
        for (_, drag), figures in zip(drags, everything, strict=True):
            yield _drag_row(f"{room}: {drag.title}", [figures], room, platform)
        yield _drag_row(f"{room}: all drag steps together", everything, room, platform)
        yield _cold_row(room, everything, platform)


def _drag_row(what: str, drags: list[dict[str, Any]], room: str, platform: str) -> Row:
    out, setouts, back = ([ms for figures in drags for ms in figures[key]] for key in STEP_TIMES)
    besides = (
        f"half {share_of(out, 0.5):.1f}, worst {max(out):.1f}; set-out {_half_and_most(setouts)}; back {_half_and_most(back)}"
    )
    besides += f"; {len(out)} steps"
    return Row(f"{what} ({platform})", "ms", share_of(out, 0.95), DRAG_BUDGETS_MS[room], besides)


def _half_and_most(figures: list[float]) -> str:
    """The 50th and the 95th percentile, as in 5.1/8.0."""
    return f"{share_of(figures, 0.5):.1f}/{share_of(figures, 0.95):.1f}" if figures else "none"


def _cold_row(room: str, everything: list[dict[str, Any]], platform: str) -> Row:
    first = everything[0]
    width, height = first["view_px"]
    besides = f"{first['walls']} walls, {first['panels']} panels; elevation {width} × {height} pixels"
    cold_ms = median(figures["cold_solve_ms"] for figures in everything)
    return Row(f"{room}: set-out with nothing kept ({platform})", "ms", cold_ms, None, besides)


def _opening(effort: Effort) -> Iterator[Row]:
    for platform in children.platforms():
        _tell(f"first window, {platform}")
        children.seconds_to_line("app.benchmarks.opening", platform)
        took = [children.seconds_to_line("app.benchmarks.opening", platform) for _ in range(effort.runs)]
        yield Row(f"first window painted ({platform})", "s", median(took), OPENING_BUDGET_S, _spread(took))


def _setout(effort: Effort) -> Iterator[Row]:
    _tell("setout")
    arguments = ["setout", str(asset("demo.room.json"))]
    children.seconds_to_end("app", arguments)
    took = [children.seconds_to_end("app", arguments) for _ in range(effort.runs)]
    yield Row("coursewright setout, demo room", "s", median(took), SETOUT_BUDGET_S, _spread(took))


def _pack(effort: Effort) -> Iterator[Row]:
    _tell("print pack")
    with tempfile.TemporaryDirectory() as folder:
        arguments = ["sheets", str(asset("demo.room.json")), "--out", folder]
        took = [children.seconds_to_end("app", arguments) for _ in range(1 + effort.runs)][1:]
        files = [path for path in Path(folder).rglob("*") if path.is_file()]
        size = sum(path.stat().st_size for path in files)
    besides = f"{_spread(took)}; {len(files)} files, {amount(size / BYTES_PER_MB, 'MB')}"
    yield Row("coursewright sheets, demo room", "s", median(took), PACK_BUDGET_S, besides)


def _work(effort: Effort) -> Iterator[Row]:
    for (what, room), budget in WORK_BUDGETS_S.items():
        _tell(f"{what}, {room}")
        found = [children.run("app.benchmarks.work", [what, room]).split(maxsplit=1) for _ in range(effort.runs)]
        took = [float(seconds) for seconds, _ in found]
        yield Row(f"{room}: {WORK_WORDS[what]}", "s", median(took), budget, f"{found[0][1].strip()}; {_spread(took)}")


def _memory(effort: Effort) -> Iterator[Row]:
    _tell("memory")
    for platform in children.platforms():
        peaks = json.loads(children.run("app.benchmarks.memory", [str(steps) for steps in effort.memory_steps], platform))
        names = ["demo room open", *(f"after {steps} drag steps" for steps in effort.memory_steps)]
        for name, peak in zip(names, peaks, strict=True):
            yield Row(f"peak memory, {name} ({platform})", "MB", peak / BYTES_PER_MB, MEMORY_BUDGET_MB)


def _spread(took: list[float]) -> str:
    if len(took) == 1:
        return "one run"
    return f"{amount(min(took), 's')} to {amount(max(took), 's')} in {len(took)} runs"


def _tell(what: str) -> None:
    print(f"measuring {what} ...", file=sys.stderr, flush=True)


MEASURES: Mapping[str, Callable[[Effort], Iterator[Row]]] = MappingProxyType(
    {
        "demo": lambda effort: _drags("demo", effort),
        "hall": lambda effort: _drags("hall", effort),
        "opening": _opening,
        "setout": _setout,
        "pack": _pack,
        "work": _work,
        "memory": _memory,
    }
)
