"""What came of a trial, and all of them as a table."""

from collections.abc import Sequence
from dataclasses import dataclass

HEADINGS = ("what was tried", "times", "held", "besides")


@dataclass(frozen=True, slots=True)
class Outcome:
    """One line of the table: so many tries, what did not hold, and figures measured on the way."""

    what: str
    tried: int
    faults: tuple[str, ...] = ()
    besides: str = ""

    @property
    def held(self) -> bool:
        return self.tried > 0 and not self.faults

    @property
    def cells(self) -> tuple[str, ...]:
        return self.what, f"{self.tried:,}", "all" if self.held else f"{len(self.faults)} did not", self.besides


def table_text(outcomes: Sequence[Outcome]) -> str:
    """The outcomes as aligned columns, with every fault below its line."""
    lines = [HEADINGS, *(outcome.cells for outcome in outcomes)]
    widths = [max(len(line[n]) for line in lines) for n in range(len(HEADINGS))]
    texts = ["  ".join(cell.ljust(width) for cell, width in zip(line, widths, strict=True)).rstrip() for line in lines]
    for number, outcome in reversed(list(enumerate(outcomes))):
        texts[number + 2 : number + 2] = [f"    {fault}" for fault in outcome.faults]
    return "\n".join(texts)
