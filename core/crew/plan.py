"""The crew plan: when what is done, with a range for the finish and bars to draw."""

import math
from collections import defaultdict
from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass, field
from functools import cached_property
from statistics import NormalDist

import numpy as np
from numpy.typing import NDArray

from core.crew.calendar import DAY, LONGEST_JOB_DAYS, Calendar, day_after
from core.crew.schedule import Doing, Noise, Ready, Task, schedule
from core.crew.work import Job, OwnWork, jobs, minutes_left
from core.progress import Progress
from core.room import Room
from core.setout.result import SetOut
from core.workforce import Day, Workforce

_SEED = 20_270_531
"""Any number does; one and the same, so that the same room always gets the same range."""
_MOST_TASKS = 24_000
"""Tasks simulated for one range, in all its runs together."""
_FEWEST_TENTHS, _MOST_TENTHS = 2, 12
"""Runs that lie before the early end of the range, and as many after the late one: 25 to 125 runs in all."""


@dataclass(frozen=True, slots=True)
class Bar:
    """One stretch of a bar chart: a row being built or hung, from and to in working days (2.5 is the middle of the third)."""

    doing: Doing
    row: int
    begin: float
    end: float
    panels: int


@dataclass(frozen=True, slots=True)
class Finish:
    """A working day, counted from 1, with its date where the first day is known."""

    day: int
    on: Day | None


@dataclass(frozen=True, slots=True)
class Range:
    """When all is done in 1 of 10 and in 9 of 10 simulated jobs, and in how many they were simulated."""

    early: Finish
    late: Finish
    runs: int


@dataclass(frozen=True)
class CrewPlan:
    """What the crew still has to do, when, and by whom.

    ``minutes`` is all work left at the rates, without practice. Without people there are no tasks, no finish and no range.
    ``undone`` counts panels nobody in the crew may build or hang, or all where it would take over a hundred years.
    """

    tasks: tuple[Task, ...]
    minutes: float
    finish: Finish | None
    undone: int
    starts_on: Day | None
    """The first day planned, where one is known."""
    longest_day: float
    """Minutes of the longest working day: what a whole day is on the bar chart."""
    own: Mapping[str, OwnWork]
    """The work of panels that are not laid as their design, by mark."""
    simulated: Callable[[], Range | None] = field(repr=False, compare=False)
    """Works out ``range``, which takes a hundred times as long as the plan itself."""

    @cached_property
    def range(self) -> Range | None:
        """When it may be done instead; None where nothing is planned."""
        return self.simulated()

    @cached_property
    def bars(self) -> tuple[Bar, ...]:
        """The chart's bars, by row, building before hanging."""
        groups: defaultdict[tuple[int, Doing], list[Task]] = defaultdict(list)
        for task in self.tasks:
            groups[task.row, task.doing].append(task)
        return tuple(
            Bar(doing, row, self._days(min(t.begin for t in found)), self._days(max(t.end for t in found)), len(found))
            for (row, doing), found in sorted(groups.items())
        )

    @cached_property
    def by_person(self) -> dict[str, float]:
        """Minutes of work planned for each person, in the order in which they begin."""
        found: defaultdict[str, float] = defaultdict(float)
        for task in self.tasks:
            found[task.person] += task.minutes
        return dict(found)

    @cached_property
    def per_day(self) -> tuple[tuple[int, int], ...]:
        """Panels finished building and panels hung on each working day from the first."""
        days = math.ceil(max((task.end for task in self.tasks), default=0.0) / DAY)
        built, hung = [0] * days, [0] * days
        for task in self.tasks:
            (built if task.doing == "build" else hung)[_day_of(task.end)] += 1
        return tuple(zip(built, hung, strict=True))

    def _days(self, moment: float) -> float:
        day, minute = divmod(moment, DAY)
        return day + min(1.0, minute / self.longest_day)


def crew_plan(
    setout: SetOut,
    *,
    starts_on: Day | None = None,
    from_scratch: bool = False,
    pace: float = 1.0,
    own: Mapping[str, OwnWork] | None = None,
) -> CrewPlan:
    """The plan for what is left to do, or for the whole job ``from_scratch``.

    What is left begins on ``starts_on``; where that is None, on the day after the last one on record, or on the crew's first day.
    ``pace`` is how fast the crew is against its rates: at 0.8 everything takes a quarter longer. ``own`` is the work of panels
    that are not laid as their design, by mark.
    """
    room = setout.room
    if starts_on is None and not from_scratch:
        starts_on = day_after_the_last(room.progress)
    work = [_at_pace(job, pace) for job in jobs(setout, from_scratch=from_scratch, own=own)]
    made = 0 if from_scratch else sum(record.is_made for record in room.progress.panels)
    tasks = _within_reach(schedule(work, room.crew, starts_on=starts_on, made_before=made))
    calendar = Calendar(room.crew, starts_on)
    open_jobs = sum(job.state not in ("hung", "taken out") for job in work)
    undone = open_jobs - sum(task.doing == "hang" for task in tasks)
    is_planned = bool(room.crew.people) and not undone
    return CrewPlan(
        tasks=tuple(tasks),
        minutes=minutes_left(work),
        finish=_finish(tasks, calendar) if is_planned else None,
        undone=undone if room.crew.people else 0,
        starts_on=starts_on or room.crew.starts_on,
        longest_day=max((person.hours_per_day for person in room.crew.people), default=8.0) * 60,
        own=own or {},
        simulated=lambda: _range(work, room, calendar, starts_on, made) if is_planned and tasks else None,
    )


def day_after_the_last(progress: Progress) -> Day | None:
    """The day after the last one on which anything was noted; None where nothing was."""
    last = max((step.on for record in progress.panels for step in record.steps if step.on), default=None)
    return day_after(last) if last else None


def _within_reach(tasks: list[Task]) -> list[Task]:
    """The tasks, or none where they would go on for more than a hundred years."""
    return tasks if max((task.end for task in tasks), default=0.0) < LONGEST_JOB_DAYS * DAY else []


def _at_pace(job: Job, pace: float) -> Job:
    if pace == 1.0:
        return job
    return Job(job.mark, job.design, job.row, job.build / pace, job.hang / pace, job.state)


def _day_of(end: float) -> int:
    """The working day in which something ends; an end at midnight never happens, days being shorter."""
    return int(end // DAY)


def _finish(tasks: Sequence[Task], calendar: Calendar) -> Finish:
    day = _day_of(max((task.end for task in tasks), default=0.0))
    return Finish(day + 1, calendar.date_of(day))


def _range(work: Sequence[Job], room: Room, calendar: Calendar, starts_on: Day | None, made: int) -> Range:
    """The same plan run many times with minutes that scatter panel by panel and rates that are off as a whole.

    Panels scatter by chance, and mostly make up for one another. How far the rates are off decides when the job ends, so it is
    not left to chance: all that may happen is parted into as many shares of equal likelihood as there are runs, and each run has
    the middle of one (stratified sampling). Some tens of runs then tell more than hundreds drawn blindly.
    """
    crew = room.crew
    tenths = max(_FEWEST_TENTHS, min(_MOST_TENTHS, _MOST_TASKS // (20 * max(1, len(work)))))
    # So many that the middle of one of their shares is the tenth of all jobs.
    runs = 10 * tenths + 5
    chance = np.random.default_rng(_SEED)
    ready = Ready(work, crew, starts_on, made)
    days = []
    for number in range(runs):
        off = _factor_at((number + 0.5) / runs, crew.rates_off_percent)
        noise = Noise(*(tuple((off * _factors(chance, crew.spread_percent, len(work))).tolist()) for _ in range(2)))
        days.append(_day_of(max(done.end for done in ready.run(noise))))
    days.sort()
    early, late = days[tenths], days[-1 - tenths]
    return Range(Finish(early + 1, calendar.date_of(early)), Finish(late + 1, calendar.date_of(late)), runs)


def _factors(chance: np.random.Generator, percent: float, count: int) -> NDArray[np.float64]:
    """Log-normal factors with mean 1 and that standard deviation, by chance."""
    variance = _log_variance(percent)
    return chance.lognormal(-variance / 2, math.sqrt(variance), count)


def _factor_at(share: float, percent: float) -> float:
    """The log-normal factor with mean 1 and that standard deviation that such a share of all factors is below."""
    variance = _log_variance(percent)
    return math.exp(-variance / 2 + math.sqrt(variance) * NormalDist().inv_cdf(share))


def _log_variance(percent: float) -> float:
    """The variance of the logarithm of log-normal factors with mean 1 and that standard deviation."""
    return math.log1p((percent / 100) ** 2)


def person_days(minutes: float, crew: Workforce) -> float:
    """Work in days of one person, of the crew's average hours; 8 h where nobody is named."""
    hours = [person.hours_per_day for person in crew.people] or [8.0]
    return minutes / 60 / (sum(hours) / len(hours))
