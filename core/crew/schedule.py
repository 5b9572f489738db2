"""Who builds and hangs what, when: every person takes the next thing to do whenever they are free.

Panels are built in hanging order and hung in it, a row all round before the next, so hanging starts while building goes on.
"""

import heapq
from collections.abc import Sequence
from dataclasses import dataclass, field
from typing import Literal

from core.crew.calendar import Calendar, Hours
from core.crew.learning import Practice
from core.crew.work import Job
from core.workforce import Day, Duty, Person, Workforce

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


@dataclass
class _Worker:
    person: Person
    hours: Hours
    built: int
    is_hanging: bool = False


@dataclass
class _Site:
    """The state of the job while the plan is worked out."""

    jobs: Sequence[Job]
    crew: Workforce
    practice: Practice
    noise: Noise
    next_build: int = 0
    next_hang: int = 0
    built_at: dict[int, float] = field(default_factory=dict)
    benches: list[float] = field(default_factory=list)
    hangers: list[float] = field(default_factory=list)
    row_end: float = 0.0
    finished: int = 0
    """Panels finished building so far, counted as their ends are passed."""
    ends: list[float] = field(default_factory=list)

    def __post_init__(self) -> None:
        for number, job in enumerate(self.jobs):
            if job.state in _READY:
                self.built_at[number] = 0.0
                self.finished += 1
        self._skip()

    def _skip(self) -> None:
        while self.next_build < len(self.jobs) and self.jobs[self.next_build].state != "to build":
            self.next_build += 1
        while self.next_hang < len(self.jobs) and self.jobs[self.next_hang].state in _DONE:
            self.next_hang += 1

    def pass_to(self, moment: float) -> None:
        """Frees benches and hands whose work is over and counts the panels finished by then."""
        for busy in (self.benches, self.hangers):
            while busy and busy[0] <= moment + 1e-9:
                heapq.heappop(busy)
        while self.ends and self.ends[0] <= moment + 1e-9:
            heapq.heappop(self.ends)
            self.finished += 1

    def can_build(self, duty: Duty) -> bool:
        return duty != "hang" and self.next_build < len(self.jobs) and len(self.benches) < self.crew.benches

    def can_hang(self, duty: Duty, moment: float) -> bool:
        if duty == "build" or self.next_hang >= len(self.jobs) or len(self.hangers) >= self.crew.hangers:
            return False
        built = self.built_at.get(self.next_hang)
        is_new_row = self.next_hang == 0 or self.jobs[self.next_hang - 1].row != self.jobs[self.next_hang].row
        return built is not None and built <= moment + 1e-9 and (not is_new_row or self.row_end <= moment + 1e-9)

    def build(self, worker: _Worker, moment: float) -> Task:
        number = self.next_build
        job = self.jobs[number]
        work = job.build * self.practice.share(worker.built) * (self.noise.build[number] if self.noise.build else 1.0)
        end = worker.hours.after(moment, work)
        worker.built += 1
        self.built_at[number] = end
        heapq.heappush(self.benches, end)
        heapq.heappush(self.ends, end)
        self.next_build += 1
        self._skip()
        return Task(worker.person.name, "build", job.mark, job.row, moment, end, work)

    def hang(self, worker: _Worker, moment: float) -> Task:
        number = self.next_hang
        job = self.jobs[number]
        work = job.hang * (self.noise.hang[number] if self.noise.hang else 1.0)
        end = worker.hours.after(moment, work)
        heapq.heappush(self.hangers, end)
        self.row_end = max(self.row_end, end)
        self.finished -= 1
        self.next_hang += 1
        self._skip()
        return Task(worker.person.name, "hang", job.mark, job.row, moment, end, work)


def schedule(
    jobs: Sequence[Job], crew: Workforce, *, starts_on: Day | None = None, noise: Noise | None = None, made_before: int = 0
) -> list[Task]:
    """All work still to be done by these people, in order of beginning; what nobody may do stays undone.

    ``made_before`` panels count as practice, shared evenly among those who build.
    """
    calendar = Calendar(crew, starts_on)
    builders = max(1, sum(person.duty != "hang" for person in crew.people))
    workers = [_Worker(person, _hours(person, calendar), made_before // builders) for person in crew.people]
    site = _Site(jobs, crew, Practice(crew), noise or Noise())
    coming = [(worker.hours.ready(0.0), number) for number, worker in enumerate(workers)]
    heapq.heapify(coming)
    idle: list[int] = []
    tasks: list[Task] = []
    while coming:
        moment, number = heapq.heappop(coming)
        if number == _SOMETHING_ENDED:
            for one in idle:
                heapq.heappush(coming, (workers[one].hours.ready(moment), one))
            idle.clear()
            continue
        site.pass_to(moment)
        task = _next_task(site, workers[number], moment)
        if task is None:
            idle.append(number)
            continue
        tasks.append(task)
        heapq.heappush(coming, (task.end, _SOMETHING_ENDED))
        heapq.heappush(coming, (workers[number].hours.ready(task.end), number))
    return tasks


def _hours(person: Person, calendar: Calendar) -> Hours:
    return Hours(calendar.day_of(person.starts_on) if person.starts_on else 0, person.hours_per_day * 60)


def _next_task(site: _Site, worker: _Worker, moment: float) -> Task | None:
    """Hanging comes first for who only hangs, where enough waits, and until nothing waits once begun."""
    duty = worker.person.duty
    can_build = site.can_build(duty)
    if site.can_hang(duty, moment) and (
        not can_build or worker.is_hanging or duty == "hang" or site.finished >= site.crew.hang_from
    ):
        worker.is_hanging = True
        return site.hang(worker, moment)
    worker.is_hanging = False
    return site.build(worker, moment) if can_build else None
