"""Who builds and hangs what, when: every person takes the next thing to do whenever they are free.

Panels are built in hanging order and hung in it, a row all round before the next, so hanging starts while building goes on.
"""

import math
from collections.abc import Sequence
from dataclasses import dataclass
from heapq import heapify, heappop, heappush
from typing import Literal, NamedTuple

from core.crew.calendar import Calendar, Hours
from core.crew.learning import Practice
from core.crew.work import Job
from core.workforce import Day, Person, Workforce

Doing = Literal["build", "hang"]
_SOMETHING_ENDED = -1
"""Stands in place of a person when work ends, so that whoever waits looks again."""
_READY = frozenset({"built", "checked"})
_DONE = frozenset({"hung", "taken out"})


@dataclass(frozen=True, slots=True)
class Task:
    """One piece of work in the plan; moments are those of ``calendar``."""

    person: str
    doing: Doing
    mark: str
    row: int
    begin: float
    end: float
    minutes: float


@dataclass(frozen=True, slots=True)
class Noise:
    """Factors on the minutes of building and hanging, one for each job; empty means as planned."""

    build: Sequence[float] = ()
    hang: Sequence[float] = ()


class Done(NamedTuple):
    """A piece of work as it went: by which of the people, on which of the jobs."""

    person: int
    doing: Doing
    job: int
    begin: float
    end: float
    minutes: float


class Ready:
    """Jobs and a crew made ready, to be run through as planned or many times with noise.

    ``made_before`` panels count as practice, shared evenly among those who build.
    """

    def __init__(self, jobs: Sequence[Job], crew: Workforce, starts_on: Day | None = None, made_before: int = 0) -> None:
        self.jobs = jobs
        self.crew = crew
        self.practice = Practice(crew)
        calendar = Calendar(crew, starts_on)
        builders = max(1, sum(person.duty != "hang" for person in crew.people))
        self.hours = [_hours(person, calendar) for person in crew.people]
        self.made_each = made_before // builders
        self.to_build = [number for number, job in enumerate(jobs) if job.state == "to build"]
        self.to_hang = [number for number, job in enumerate(jobs) if job.state not in _DONE]
        self.built = [number for number, job in enumerate(jobs) if job.state in _READY]
        self.opens_row = [number == 0 or jobs[number - 1].row != job.row for number, job in enumerate(jobs)]

    def run(self, noise: Noise | None = None) -> list[Done]:
        """All work still to be done, in order of beginning; what nobody may do stays undone."""
        site = _Site(self, noise or Noise())
        hours = self.hours
        coming = [(one.ready(0.0), number) for number, one in enumerate(hours)]
        heapify(coming)
        idle: list[int] = []
        found: list[Done] = []
        while coming:
            moment, number = heappop(coming)
            if number == _SOMETHING_ENDED:
                for one in idle:
                    heappush(coming, (hours[one].ready(moment), one))
                idle.clear()
                continue
            done = site.next_work(number, moment)
            if done is None:
                idle.append(number)
                continue
            found.append(done)
            heappush(coming, (done.end, _SOMETHING_ENDED))
            heappush(coming, (hours[number].ready(done.end), number))
        return found


class _Site:
    """The state of the job while the plan is worked out."""

    def __init__(self, ready: Ready, noise: Noise) -> None:
        self._ready = ready
        self._noise = noise
        crew = ready.crew
        self._duties = [person.duty for person in crew.people]
        self._most_benches, self._most_hangers, self._hang_from = crew.benches, crew.hangers, crew.hang_from
        self._benches: list[float] = []
        """When those in use come free, the next first; ``_hangers`` the same of hands that hang."""
        self._hangers: list[float] = []
        self._to_build = len(ready.to_build)
        self._to_hang = len(ready.to_hang)
        self._built_at = [math.inf] * len(ready.jobs)
        for number in ready.built:
            self._built_at[number] = 0.0
        self._finished = len(ready.built)
        """Panels finished building and not yet hung, counted as their ends are passed."""
        self._row_end = 0.0
        self._made = [ready.made_each] * len(ready.hours)
        self._hangs = [False] * len(ready.hours)

    def next_work(self, number: int, moment: float) -> Done | None:
        """What one of the people does next. Hanging comes first for who only hangs, where enough waits, and until nothing waits
        once begun.
        """
        self._pass_to(moment)
        duty = self._duties[number]
        can_build = duty != "hang" and self._to_build > 0 and len(self._benches) < self._most_benches
        enough = not can_build or self._hangs[number] or self._finished >= self._hang_from
        self._hangs[number] = hangs = enough and duty != "build" and self._can_hang(moment)
        if hangs:
            return self._hang(number, moment)
        return self._build(number, moment) if can_build else None

    def _pass_to(self, moment: float) -> None:
        """Frees benches and hands whose work is over and counts the panels finished by then."""
        passed = moment + 1e-9
        while self._benches and self._benches[0] <= passed:
            heappop(self._benches)
            self._finished += 1
        while self._hangers and self._hangers[0] <= passed:
            heappop(self._hangers)

    def _can_hang(self, moment: float) -> bool:
        ready, passed = self._ready, moment + 1e-9
        if not self._to_hang or len(self._hangers) >= self._most_hangers:
            return False
        job = ready.to_hang[-self._to_hang]
        return self._built_at[job] <= passed and (not ready.opens_row[job] or self._row_end <= passed)

    def _build(self, number: int, begin: float) -> Done:
        ready = self._ready
        job = ready.to_build[-self._to_build]
        noise = self._noise.build[job] if self._noise.build else 1.0
        work = ready.jobs[job].build * ready.practice.share(self._made[number]) * noise
        end = ready.hours[number].until(begin, work)
        self._made[number] += 1
        self._built_at[job] = end
        heappush(self._benches, end)
        self._to_build -= 1
        return Done(number, "build", job, begin, end, work)

    def _hang(self, number: int, begin: float) -> Done:
        ready = self._ready
        job = ready.to_hang[-self._to_hang]
        work = ready.jobs[job].hang * (self._noise.hang[job] if self._noise.hang else 1.0)
        end = ready.hours[number].until(begin, work)
        heappush(self._hangers, end)
        if end > self._row_end:
            self._row_end = end
        self._finished -= 1
        self._to_hang -= 1
        return Done(number, "hang", job, begin, end, work)


def schedule(
    jobs: Sequence[Job], crew: Workforce, *, starts_on: Day | None = None, noise: Noise | None = None, made_before: int = 0
) -> list[Task]:
    """All work still to be done by these people, in order of beginning; what nobody may do stays undone.

    ``made_before`` panels count as practice, shared evenly among those who build.
    """
    found = Ready(jobs, crew, starts_on, made_before).run(noise)
    names = [person.name for person in crew.people]
    return [
        Task(names[done.person], done.doing, jobs[done.job].mark, jobs[done.job].row, done.begin, done.end, done.minutes)
        for done in found
    ]


def _hours(person: Person, calendar: Calendar) -> Hours:
    return Hours(calendar.day_of(person.starts_on) if person.starts_on else 0, person.hours_per_day * 60)
