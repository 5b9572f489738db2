"""A change with the work before and after it, and which of many are worth telling."""

from collections.abc import Iterable
from dataclasses import dataclass

from core.advice.changes import MOVES, Change, LengthChange
from core.advice.work import Work

WORTH_MINUTES = 5.0
"""A further change is told only if it saves this much more than every nearer one, or more special panels."""
MOST_TOLD = 5

_SAME_MINUTES = 1e-6


@dataclass(frozen=True, slots=True)
class Suggestion:
    """A change and the work of the whole room before and after it."""

    change: Change
    before: Work
    after: Work

    @property
    def distance_mm(self) -> float:
        return self.change.distance_mm

    @property
    def minutes_saved(self) -> float:
        return self.before.minutes - self.after.minutes

    @property
    def special_panels_fewer(self) -> int:
        return self.before.special_panels - self.after.special_panels

    @property
    def designs_fewer(self) -> int:
        return self.before.special_designs - self.after.special_designs


def nearest_that_save(tried: Iterable[Suggestion], most: int = MOST_TOLD) -> tuple[Suggestion, ...]:
    """Nearest first, each one further away saving more than all before it; at most ``most``."""
    told: list[Suggestion] = []
    for suggestion in sorted(tried, key=lambda s: s.distance_mm):
        if _saves_for_what_it_is(suggestion) and (not told or _saves_more(suggestion, told[-1])):
            told.append(suggestion)
    return tuple(told[:most])


def _saves_for_what_it_is(suggestion: Suggestion) -> bool:
    """Whether it saves anything; a change of size must save special panels or designs, for less wall to line is no saving."""
    minutes, panels = suggestion.minutes_saved, suggestion.special_panels_fewer
    if minutes < -_SAME_MINUTES or not (minutes >= WORTH_MINUTES or panels > 0):
        return False
    return _is_move(suggestion.change) or panels > 0 or suggestion.designs_fewer > 0


def _is_move(change: Change) -> bool:
    return not isinstance(change, LengthChange) and change.way in MOVES


def _saves_more(further: Suggestion, nearer: Suggestion) -> bool:
    """At least as many minutes, and either plainly more of them or more special panels."""
    more = further.minutes_saved - nearer.minutes_saved
    return more >= WORTH_MINUTES or (more >= -_SAME_MINUTES and further.special_panels_fewer > nearer.special_panels_fewer)
