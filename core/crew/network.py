"""Critical path: earliest and latest times of activities that wait for one another, and how long each may slip."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from graphlib import CycleError, TopologicalSorter

from core.errors import CoursewrightError


@dataclass(frozen=True, slots=True)
class Activity:
    """Something that takes time and waits until all of ``after`` are done."""

    name: str
    duration: float
    after: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class Times:
    """Earliest and latest start and finish, in the unit of the durations."""

    early_start: float
    early_finish: float
    late_start: float
    late_finish: float

    @property
    def slack(self) -> float:
        """How long the activity may slip without delaying the whole."""
        return self.late_start - self.early_start


def critical_path(activities: Sequence[Activity]) -> Mapping[str, Times]:
    """Times of every activity, those that wait for others after them. Raises CoursewrightError where some wait in a circle."""
    known = {activity.name: activity for activity in activities}
    try:
        order = list(TopologicalSorter({one.name: one.after for one in activities}).static_order())
    except CycleError as error:
        raise CoursewrightError(f"activities wait for one another in a circle: {', '.join(error.args[1])}") from None
    finish: dict[str, float] = {}
    for name in order:
        one = known[name]
        finish[name] = max((finish[before] for before in one.after), default=0.0) + one.duration
    end = max(finish.values(), default=0.0)
    latest = dict.fromkeys(order, end)
    for name in reversed(order):
        for before in known[name].after:
            latest[before] = min(latest[before], latest[name] - known[name].duration)
    return {
        name: Times(finish[name] - known[name].duration, finish[name], latest[name] - known[name].duration, latest[name])
        for name in order
    }
