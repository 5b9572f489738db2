"""Working days and hours. Inside, a moment is a number: whole working days times 1440, plus minutes since the day's start."""

from dataclasses import dataclass
from datetime import date, timedelta

from core.workforce import WEEKDAYS, Day, Workforce

DAY = 1440.0
LONGEST_JOB_DAYS = 36_500
"""Further ahead than a hundred years nothing is planned, whatever rates and hours a room file holds."""


def day_after(day: Day) -> Day:
    """The next date; the last one there is stays itself."""
    found = date.fromisoformat(day)
    return day if found == date.max else (found + timedelta(days=1)).isoformat()


class Calendar:
    """The crew's working days, counted from 0, with their dates where the first is known."""

    def __init__(self, crew: Workforce, starts_on: Day | None = None) -> None:
        first = starts_on or crew.starts_on
        self._workdays = frozenset(crew.workdays)
        self._off = frozenset(crew.days_off)
        self._dates: list[date] = []
        self._next = date.fromisoformat(first) if first else None

    def date_of(self, day: int) -> Day | None:
        """The date of a working day; None where no first day is given or it lies too far ahead."""
        if self._next is None or day > LONGEST_JOB_DAYS:
            return None
        while len(self._dates) <= day:
            self._dates.append(self._find())
        return self._dates[day].isoformat()

    def day_of(self, when: Day) -> int:
        """The first working day on or after a date; 0 where no first day is given."""
        if self._next is None:
            return 0
        day = 0
        while (found := self.date_of(day)) is not None and found < when:
            day += 1
        return day

    def _find(self) -> date:
        assert self._next is not None
        for _ in range(LONGEST_JOB_DAYS):
            found = self._next
            try:
                self._next = found + timedelta(days=1)
            except OverflowError:
                return found
            if WEEKDAYS[found.weekday()] in self._workdays and found.isoformat() not in self._off:
                return found
        return found


@dataclass(frozen=True, slots=True)
class Hours:
    """One person's working time: so many minutes of every working day from their first."""

    first_day: int
    minutes: float

    def ready(self, moment: float) -> float:
        """The next moment at which the person works."""
        first = self.first_day * DAY
        day, minute = divmod(moment if moment > first else first, DAY)
        return (day + 1) * DAY if minute >= self.minutes - 1e-9 else day * DAY + minute

    def after(self, moment: float, work: float) -> float:
        """When so many minutes of work are done, begun at a moment; what does not fit goes on the next day."""
        return self.until(self.ready(moment), work)

    def until(self, begin: float, work: float) -> float:
        """The same, begun at a moment at which the person works."""
        day, minute = divmod(begin, DAY)
        days, rest = divmod(minute + work, self.minutes)
        if rest < 1e-9 and days:
            days, rest = days - 1, self.minutes
        return (day + days) * DAY + rest
