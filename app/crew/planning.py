"""What the crew leaf shows, worked out without a window: the plan, its stages, and who is at what without a pause."""

from collections.abc import Mapping
from dataclasses import dataclass

from core.crew.calendar import DAY
from core.crew.network import Times
from core.crew.plan import CrewPlan, Finish, Range, crew_plan
from core.crew.schedule import Doing, Task
from core.crew.stages import Stage, stages
from core.frame import as_hung
from core.laying import work_of_cut_panels
from core.setout.result import SetOut

LEAST_GAP_DAYS = 0.02
"""Pauses shorter than this share of a working day do not part a stretch."""
GOVERNS_MIN = 1.0
"""A stage that may slip by less than a minute governs the finish."""


@dataclass(frozen=True, slots=True)
class Stretch:
    """One person at one kind of work on one row without a pause, from and to in working days (2.5 is the middle of the third)."""

    person: str
    doing: Doing
    row: int
    begin: float
    end: float
    panels: int


@dataclass(frozen=True)
class Outlook:
    """What a plan comes to. ``finish``, ``range``, ``minutes`` and ``undone`` are the plan's own."""

    finish: Finish | None
    range: Range | None
    minutes: float
    undone: int
    by_person: Mapping[str, float]
    """Minutes of work for each person."""
    stages: Mapping[Stage, Times]
    stretches: tuple[Stretch, ...]
    """By person in the order in which they begin, then by time."""

    @property
    def governing(self) -> tuple[Stage, ...]:
        """The stages nothing of which may slip, in order of time."""
        found = [stage for stage, times in self.stages.items() if times.slack < GOVERNS_MIN]
        return tuple(sorted(found, key=lambda stage: (self.stages[stage].early_start, stage)))

    @property
    def last_day(self) -> float:
        """Where the chart ends, in working days: the later of the plan and of the range."""
        planned = max((one.end for one in self.stretches), default=0.0)
        return max(planned, float(self.range.late.day)) if self.range else planned


def outlook(setout: SetOut) -> Outlook:
    """The plan for what is left to do in a room."""
    setout = as_hung(setout).setout
    plan = crew_plan(setout, own=work_of_cut_panels(setout))
    return Outlook(
        finish=plan.finish,
        range=plan.range,
        minutes=plan.minutes,
        undone=plan.undone,
        by_person=plan.by_person,
        stages=stages(plan, setout.room.crew),
        stretches=stretches(plan),
    )


def stretches(plan: CrewPlan) -> tuple[Stretch, ...]:
    """The tasks joined where one person goes on with the same work in the same row."""
    found: dict[str, list[Stretch]] = {}
    for task in plan.tasks:
        mine = found.setdefault(task.person, [])
        begin, end = (_days(moment, plan.longest_day) for moment in (task.begin, task.end))
        if mine and _goes_on(mine[-1], task, begin):
            before = mine.pop()
            mine.append(Stretch(task.person, task.doing, task.row, before.begin, end, before.panels + 1))
        else:
            mine.append(Stretch(task.person, task.doing, task.row, begin, end, 1))
    return tuple(one for mine in found.values() for one in mine)


def _goes_on(before: Stretch, task: Task, begin: float) -> bool:
    return (before.doing, before.row) == (task.doing, task.row) and begin - before.end < LEAST_GAP_DAYS


def _days(moment: float, longest_day: float) -> float:
    day, minute = divmod(moment, DAY)
    return day + min(1.0, minute / longest_day)
