"""How the job goes against its plan: what is left day by day, and when it will be done at the pace so far."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from itertools import accumulate

from core.crew.calendar import DAY, Calendar, Hours
from core.crew.plan import CrewPlan, Finish, crew_plan
from core.crew.standing import DONE, place_of
from core.crew.work import OwnWork, jobs, minutes_left
from core.progress import PanelRecord, PanelState
from core.setout.result import SetOut
from core.workforce import Day, Workforce

_SLOWEST, _FASTEST = 0.1, 10.0


@dataclass(frozen=True, slots=True)
class BurnPoint:
    """What was left at the end of a date: panels to build, panels to hang, and the minutes of both."""

    on: Day
    to_build: int
    to_hang: int
    minutes: float
    """Work left at the rates, without practice."""


@dataclass(frozen=True)
class Forecast:
    """The plan made at the start and the one for what is left; ``pace`` is work done over crew time spent, 1.0 where unknown."""

    planned: CrewPlan
    left: CrewPlan
    pace: float
    days_late: int | None
    """Working days behind the plan, below nothing ahead of it; None where either has no finish."""


def burn_down(setout: SetOut, own: Mapping[str, OwnWork] | None = None) -> tuple[BurnPoint, ...]:
    """What was left at the end of every date on which something was recorded; panels gone from the plan do not count."""
    records = {record.place: record for record in setout.room.progress.panels}
    mine = {panel.mark: records[place] for panel in setout.panels if (place := place_of(panel)) in records}
    dates = sorted({step.on for record in mine.values() for step in record.steps if step.on})
    work = jobs(setout, from_scratch=True, own=own)
    points = []
    for day in dates:
        states = {mark: _state_on(record, day) for mark, record in mine.items()}
        built = sum(state != "to build" for state in states.values())
        hung = sum(state in DONE for state in states.values())
        left = minutes_left(replace(job, state=states.get(job.mark, "to build")) for job in work)
        points.append(BurnPoint(day, len(setout.panels) - built, len(setout.panels) - hung, left))
    return tuple(points)


def planned_minutes(setout: SetOut, plan: CrewPlan) -> tuple[float, ...]:
    """The minutes of work at the rates that a plan from scratch leaves each evening, the first morning first."""
    work = {job.mark: job for job in jobs(setout, from_scratch=True, own=plan.own)}
    done = [0.0] * len(plan.per_day)
    for task in plan.tasks:
        job = work[task.mark]
        done[int(task.end // DAY)] += job.build if task.doing == "build" else job.hang
    return tuple(accumulate((-minutes for minutes in done), initial=minutes_left(work.values())))


def planned_burn(setout: SetOut, plan: CrewPlan) -> tuple[tuple[int, int], ...]:
    """What the plan leaves to build and to hang at the end of each working day, the first day's morning first."""
    left = [(len(setout.panels), len(setout.panels))]
    for built, hung in plan.per_day:
        left.append((left[-1][0] - built, left[-1][1] - hung))
    return tuple(left)


def forecast(setout: SetOut, today: Day, own: Mapping[str, OwnWork] | None = None) -> Forecast:
    """When the job will be done: what is left is planned from ``today`` on, at the pace the crew has shown so far.

    ``own`` is the work of panels that are not laid as their design, by mark.
    """
    planned = crew_plan(setout, from_scratch=True, own=own)
    pace = pace_so_far(setout, today, own)
    left = crew_plan(setout, starts_on=today, pace=pace, own=own)
    return Forecast(planned, left, pace, _days_late(setout.room.crew, planned.finish, left.finish))


def pace_so_far(setout: SetOut, today: Day, own: Mapping[str, OwnWork] | None = None) -> float:
    """Minutes of work done at the rates over minutes the crew was there, up to the evening before ``today``."""
    crew = setout.room.crew
    first = crew.starts_on or min((s.on for r in setout.room.progress.panels for s in r.steps if s.on), default=None)
    if first is None or first >= today:
        return 1.0
    spent = _minutes_there(crew, first, today)
    done = _minutes_done(setout, today, own or {})
    if not spent or not done:
        return 1.0
    return min(_FASTEST, max(_SLOWEST, done / spent))


def _minutes_there(crew: Workforce, first: Day, today: Day) -> float:
    calendar = Calendar(crew, first)
    days = calendar.day_of(today)
    total = 0.0
    for person in crew.people:
        hours = Hours(calendar.day_of(person.starts_on) if person.starts_on else 0, person.hours_per_day * 60)
        total += max(0, days - hours.first_day) * hours.minutes
    return total


def _minutes_done(setout: SetOut, today: Day, own: Mapping[str, OwnWork]) -> float:
    """Building counts once a panel is built, handling once it hangs; a design no longer planned counts for hanging only."""
    handling = setout.room.rates.handling
    building = {panel.design: panel.minutes - handling for panel in setout.panels}
    times = {place_of(panel): own[panel.mark].times for panel in setout.panels if panel.mark in own}
    done = 0.0
    for record in setout.room.progress.panels:
        state = _state_on(record, today, before=True)
        if state != "to build":
            done += building.get(record.design, 0.0) * times.get(record.place, 1.0)
        if state in DONE:
            done += handling
    return done


def _state_on(record: PanelRecord, day: Day, *, before: bool = False) -> PanelState:
    """The state at the end of a date, or ``before`` it; steps without a date count as done long ago."""
    states = [step.state for step in record.steps if (step.on or "") < day or (not before and step.on == day)]
    return states[-1] if states else "to build"


def _days_late(crew: Workforce, planned: Finish | None, left: Finish | None) -> int | None:
    if planned is None or left is None or planned.on is None or left.on is None:
        return None
    calendar = Calendar(crew)
    return calendar.day_of(left.on) - calendar.day_of(planned.on)
