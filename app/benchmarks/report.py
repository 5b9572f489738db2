"""What was measured, as a table to read in the terminal and as Markdown."""

import os
import platform
from collections.abc import Sequence
from dataclasses import dataclass
from importlib.metadata import version
from math import ceil
from pathlib import Path

COMMAND = "python -m app.benchmarks"
HEADINGS = ("what", "budget", "measured", "verdict", "besides")


@dataclass(frozen=True, slots=True)
class Row:
    """One figure: ``measured`` and ``budget`` in ``unit``; None as budget where none is set."""

    what: str
    unit: str
    measured: float
    budget: float | None = None
    besides: str = ""

    @property
    def verdict(self) -> str:
        if self.budget is None:
            return "–"
        return "within" if self.measured <= self.budget else "over"

    @property
    def cells(self) -> tuple[str, ...]:
        budget = "–" if self.budget is None else amount(self.budget, self.unit)
        return self.what, budget, amount(self.measured, self.unit), self.verdict, self.besides


def amount(value: float, unit: str) -> str:
    """A figure with its unit; seconds to hundredths, milliseconds to tenths, megabytes whole."""
    decimals = {"s": 2, "ms": 1, "MB": 0}[unit]
    return f"{value:.{decimals}f} {unit}"


def share_of(figures: Sequence[float], share: float) -> float:
    """The smallest figure that so large a share of all figures does not exceed (the nearest-rank percentile)."""
    ordered = sorted(figures)
    return ordered[ceil(share * len(ordered)) - 1]


def machine() -> str:
    """What the figures were taken on, in one line."""
    parts = [f"{os.cpu_count()} cores", _processor(), platform.system(), f"Python {platform.python_version()}"]
    parts.append(f"PySide6 {version('PySide6-Essentials')}")
    if hasattr(os, "getloadavg"):
        parts.append(f"load average before: {os.getloadavg()[0]:.1f}")
    return ", ".join(part for part in parts if part)


def _processor() -> str:
    listing = Path("/proc/cpuinfo")
    if not listing.exists():
        return platform.processor()
    names = (line.partition(":")[2].strip() for line in listing.read_text().splitlines() if line.startswith("model name"))
    return next(names, "")


def table_text(rows: Sequence[Row]) -> str:
    """The rows as aligned columns."""
    lines = [HEADINGS, *(row.cells for row in rows)]
    widths = [max(len(line[n]) for line in lines) for n in range(len(HEADINGS))]
    to_right = {1, 2}
    return "\n".join(
        "  ".join(
            cell.rjust(width) if n in to_right else cell.ljust(width)
            for n, (cell, width) in enumerate(zip(line, widths, strict=True))
        ).rstrip()
        for line in lines
    )


def markdown(rows: Sequence[Row], notes: Sequence[str], facts: str) -> str:
    """The same as a page of documentation."""
    lines = [
        "# Benchmarks",
        "",
        f"Written by `{COMMAND} --write docs/benchmarks.md`. {facts}.",
        "",
        *(f"* {note}" for note in notes),
        "",
    ]
    lines += ["| " + " | ".join(HEADINGS) + " |", "|---|--:|--:|---|---|"]
    lines += ["| " + " | ".join(row.cells) + " |" for row in rows]
    return "\n".join(lines) + "\n"
