"""What a burn-down chart shows: panels and hours left by day, what the plan leaves, and where the pace so far leads."""

from collections.abc import Callable
from dataclasses import dataclass
from datetime import date
from typing import NamedTuple

from core.crew.calendar import Calendar
from core.crew.forecast import BurnPoint, Forecast, burn_down, planned_burn, planned_minutes
from core.crew.work import jobs, minutes_left
from core.language import tr
from core.setout.result import SetOut
from core.workforce import Day


class At(NamedTuple):
    """How much is left at a moment, in days since the year 1; a whole number is a morning."""

    moment: float
    left: float


@dataclass(frozen=True, slots=True)
class Burn:
    """One chart's lines. ``ahead`` leads from now to the end at the pace so far; empty where nobody can say."""

    title: str
    planned: tuple[At, ...]
    done: tuple[At, ...]
    ahead: tuple[At, ...]


def burns(setout: SetOut, found: Forecast, today: Day) -> tuple[Burn, Burn]:
    """Panels left to hang, and hours of work left at the rates."""
    own = found.planned.own
    points = burn_down(setout, own)
    first = setout.room.crew.starts_on or (points[0].on if points else today)
    calendar = Calendar(setout.room.crew, first)
    hours = [minutes / 60 for minutes in planned_minutes(setout, found.planned)]
    panels = [hang for _, hang in planned_burn(setout, found.planned)]
    work = minutes_left(jobs(setout, from_scratch=True, own=own)) / 60

    def made(title: str, plan: list[float], whole: float, read: Callable[[BurnPoint], float]) -> Burn:
        done = _done(points, first, today, whole, read)
        return Burn(title, _planned(calendar, plan), done, _ahead(found, done))

    return (
        made(tr("Panels left to hang"), [float(count) for count in panels], len(setout.panels), lambda point: point.to_hang),
        made(tr("Hours left"), hours, work, lambda point: point.minutes / 60),
    )


def _planned(calendar: Calendar, left: list[float]) -> tuple[At, ...]:
    """What the plan leaves each evening; nothing without a plan."""
    if len(left) < 2:
        return ()
    mornings = [calendar.date_of(day) for day in range(len(left) - 1)]
    days = [date.fromisoformat(day).toordinal() for day in mornings if day is not None]
    if len(days) < len(left) - 1:
        return ()
    return (At(days[0], left[0]), *(At(day + 1, value) for day, value in zip(days, left[1:], strict=True)))


def _done(
    points: tuple[BurnPoint, ...], first: Day, today: Day, whole: float, read: Callable[[BurnPoint], float]
) -> tuple[At, ...]:
    """What was left each evening something was noted, from the first morning until now."""
    start = date.fromisoformat(min([first, *(point.on for point in points)])).toordinal()
    evenings = [At(date.fromisoformat(point.on).toordinal() + 1, read(point)) for point in points]
    line = [At(start, whole), *evenings]
    now = date.fromisoformat(today).toordinal()
    if now > line[-1].moment:
        line.append(At(now, line[-1].left))
    return tuple(line)


def _ahead(found: Forecast, done: tuple[At, ...]) -> tuple[At, ...]:
    finish = found.left.finish
    if finish is None or finish.on is None or not done[-1].left:
        return ()
    end = date.fromisoformat(finish.on).toordinal() + 1
    return (done[-1], At(max(end, done[-1].moment), 0.0))
