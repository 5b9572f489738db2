"""A plan of the room's rows: what they are, how each is divided, and what that costs."""

from dataclasses import dataclass
from functools import cached_property

from core.setout.division import Division
from core.setout.result import Row
from core.setout.sharing import designs_of


@dataclass(frozen=True)
class Plan:
    """The chosen rows and their divisions."""

    rows: tuple[Row, ...]
    divisions: tuple[Division, ...]
    setup: int
    """Units for a set-up."""
    at_least: int
    """What any plan of the room costs at least; 0 where that was not asked."""

    @cached_property
    def units(self) -> int:
        """What it costs in all, each design outside the kit set up once. A sketch is never asked."""
        return sum(division.units for division in self.divisions) + self.setup * len(designs_of(self.divisions))
