"""The benchmarks run and give every row; how long anything takes is theirs to say, not the tests'."""

import re
import subprocess
import sys
from pathlib import Path

import pytest

from app.benchmarks.gestures import DRAGS, room_to_measure
from app.benchmarks.hand import MeasureError
from app.benchmarks.measures import median_of
from app.benchmarks.report import Row, share_of, table_text

ROOT = Path(__file__).resolve().parents[2]
VERDICTS = {"within", "over", "–"}


def benchmarks(*arguments: str) -> subprocess.CompletedProcess[str]:
    command = [sys.executable, "-m", "app.benchmarks", *arguments]
    return subprocess.run(command, cwd=ROOT, capture_output=True, text=True, check=False)


@pytest.mark.slow
def test_a_quick_run_prints_a_verdict_for_every_budget_and_writes_the_same_rows(tmp_path: Path) -> None:
    page = tmp_path / "benchmarks.md"
    done = benchmarks("--quick", "--write", str(page))
    assert done.returncode == 0, done.stderr
    lines = done.stdout.partition("\nwhat ")[2].splitlines()[1:]
    rows = [re.split(r" {2,}", line.strip()) for line in lines]
    named = " ".join(row[0] for row in rows)
    for budgeted in (
        "demo: all drag",
        "hall: all drag",
        "first window",
        "setout",
        "sheets",
        "hall: set-out worked out in full",
        "demo: all designs bonded",
        "hall: take-off",
        "peak memory, demo",
        "peak memory, after",
    ):
        assert budgeted in named
    assert {row[3] for row in rows} <= VERDICTS
    written = [[cell.strip() for cell in line.split("|")[1:-1]] for line in page.read_text().splitlines() if line.startswith("|")]
    assert [row[:3] for row in written[2:]] == [row[:3] for row in rows]


@pytest.mark.slow
def test_a_profile_names_the_functions_that_take_the_time() -> None:
    done = benchmarks("--quick", "--profile", "demo", "outlet")
    assert done.returncode == 0, done.stderr
    assert "solver.py" in done.stdout
    assert "cumtime" in done.stdout


def test_an_unknown_drag_is_told_in_one_line() -> None:
    done = benchmarks("--profile", "demo", "sofa")
    assert done.returncode == 2
    assert done.stderr.count("\n") == 1


def test_no_round_at_all_is_refused() -> None:
    done = benchmarks("--rounds", "0")
    assert done.returncode == 2
    assert "--rounds" in done.stderr


def test_a_figure_above_its_budget_is_over_and_one_on_it_is_within() -> None:
    assert Row("step", "ms", 16.0, 16.0).verdict == "within"
    assert Row("step", "ms", 16.1, 16.0).verdict == "over"
    assert Row("step", "ms", 16.1).verdict == "–"


def test_the_percentile_is_the_figure_at_the_nearest_rank() -> None:
    """Nearest rank: the smallest value with at least that share of all values at or below it; worked by hand."""
    figures = [float(n) for n in range(20, 0, -1)]
    assert share_of(figures, 0.95) == 19.0
    assert share_of(figures, 0.5) == 10.0
    assert share_of([7.0], 0.95) == 7.0


def test_a_step_takes_the_median_of_its_times_in_all_runs() -> None:
    tries = [
        {"out_ms": out, "out_setout_ms": [1.0, 1.0], "back_ms": [], "cold_solve_ms": cold, "walls": 4}
        for out, cold in (([9.0, 30.0], 150.0), ([10.0, 12.0], 170.0), ([25.0, 11.0], 160.0))
    ]
    assert median_of(tries) == {
        "out_ms": [10.0, 12.0],
        "out_setout_ms": [1.0, 1.0],
        "back_ms": [],
        "cold_solve_ms": 160.0,
        "walls": 4,
    }


def test_runs_that_took_other_steps_have_no_median() -> None:
    run = {"out_ms": [9.0], "out_setout_ms": [1.0], "back_ms": [], "cold_solve_ms": 150.0}
    with pytest.raises(MeasureError):
        median_of([run, run | {"back_ms": [8.0]}])


def test_the_table_has_a_line_for_each_row_below_its_headings() -> None:
    rows = [Row("one", "s", 1.0, 2.0), Row("another", "MB", 3.0, None, "besides this")]
    lines = table_text(rows).splitlines()
    assert len(lines) == 3
    assert lines[2].endswith("besides this")


def test_the_hall_has_forty_walls_and_every_drag_an_opening_to_hold() -> None:
    assert room_to_measure("hall").wall_count == 40
    for room, drags in DRAGS.items():
        openings = {opening.id for opening in room_to_measure(room).openings}
        assert {drag.opening for drag in drags.values()} <= openings
